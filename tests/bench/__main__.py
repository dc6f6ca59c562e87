"""`python -m tests.bench`: every benchmark, as JSON, one line each."""

import json
import sys

from tests.bench.compiling import compiling


def main() -> None:
    """Print each benchmark's figures."""
    sys.stdout.write(json.dumps({"compile": compiling()}) + "\n")


if __name__ == "__main__":
    main()
