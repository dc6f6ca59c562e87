"""The command's first moments: an interrupt while it still loads ends it without a traceback."""

import subprocess
import sys

INTERRUPTED_WHILE_LOADING = """
import sys

class Interrupt:
    def find_spec(self, name, path=None, target=None):
        if name == "sitegen.cli.scale":
            raise KeyboardInterrupt

sys.meta_path.insert(0, Interrupt())
from sitegen.__main__ import start
start()
"""


def test_an_interrupt_while_it_loads_is_no_traceback() -> None:
    done = subprocess.run(
        [sys.executable, "-c", INTERRUPTED_WHILE_LOADING], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stdout, done.stderr) == (130, "", "")
