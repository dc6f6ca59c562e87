"""The `trayside` command, also as `python -m sitegen`."""

import sys

INTERRUPTED = 130
"""What a shell expects of a program that was interrupted: 128 and the signal's number."""


def start() -> None:
    """Run the command. Loading takes a moment, in which an interrupt is no fault either."""
    try:
        from sitegen.cli import main  # noqa: PLC0415  (what is to be interrupted)
    except KeyboardInterrupt:
        sys.exit(INTERRUPTED)
    main(prog_name="trayside")


if __name__ == "__main__":
    start()
