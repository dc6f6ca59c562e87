"""`python -m tests.bench [200]`: every benchmark for so many recipes, as JSON, one line each."""

import json
import sys

from tests.bench.compiling import compiling
from tests.bench.growing import growing


def main() -> None:
    """Print each benchmark's figures."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    for name, figures in (("compile", compiling), ("grow", growing)):
        sys.stdout.write(json.dumps({name: figures(count)}) + "\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
