"""The command line as a user meets it: run in this process, with whatever stops it being a message and an exit code."""

import json
from pathlib import Path
from typing import Any

from click.testing import CliRunner, Result

from sitegen.cli import main

DEMO = Path(__file__).parents[2] / "content"


def run(*words: str | Path) -> Result:
    """`trayside WORDS`; anything but an exit is a fault that a user would see as a traceback."""
    result = CliRunner().invoke(main, [str(word) for word in words])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def data(*words: str | Path) -> dict[str, Any]:
    """What `trayside WORDS --json` answers."""
    result = run(*words, "--json")
    assert result.exit_code == 0, result.stderr
    answer: dict[str, Any] = json.loads(result.stdout)
    return answer
