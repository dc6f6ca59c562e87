"""The `trayside` command: a thin shell. Answers go to stdout, problems to stderr.

Exit status: 0 done, 1 the archive has errors, 2 the command line is wrong.
"""

import click

from sitegen import __version__
from sitegen.cli.announce import announce_command
from sitegen.cli.bundle import bundle_command
from sitegen.cli.compile import compile_command
from sitegen.cli.dilute import dilute_command
from sitegen.cli.exposure import expose_command
from sitegen.cli.find import find_command
from sitegen.cli.label import label_command
from sitegen.cli.passphrase import passphrase_command
from sitegen.cli.preview import preview_command
from sitegen.cli.proof import proof_command
from sitegen.cli.scale import scale_command
from sitegen.cli.start import start_command
from sitegen.cli.swap import swap_command
from sitegen.cli.timeline import timeline_command
from sitegen.cli.trial import adopt_command, trial_command
from sitegen.cli.water import water_command

__all__ = ["main"]


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="trayside")
def main() -> None:
    """Compile recipe files into an archive used beside the tray, and recalculate a recipe.

    Amounts it works out are arithmetic, not permission: safety data sheets, local rules and licensed
    practice come first.
    """


for command in (
    start_command,
    proof_command,
    compile_command,
    preview_command,
    scale_command,
    dilute_command,
    swap_command,
    expose_command,
    timeline_command,
    water_command,
    find_command,
    label_command,
    trial_command,
    adopt_command,
    bundle_command,
    announce_command,
    passphrase_command,
):
    main.add_command(command)
