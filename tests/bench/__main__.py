"""`python -m tests.bench`: every benchmark, as JSON, one line each."""

import json
import sys

from tests.bench.compiling import compiling
from tests.bench.growing import growing


def main() -> None:
    """Print each benchmark's figures."""
    for name, figures in (("compile", compiling), ("grow", growing)):
        sys.stdout.write(json.dumps({name: figures()}) + "\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
