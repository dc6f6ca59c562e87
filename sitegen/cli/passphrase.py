"""`trayside passphrase`: makes one that is long enough, and says how strong one of your own is."""

import secrets
import sys

import click

from sitegen.cli.shell import refusals
from sitegen.problems import Refusal
from sitegen.read.words import word_list
from sitegen.sealing.passphrase import LEAST_BITS, check_strength, make, strength


@click.command("passphrase", short_help="Make a passphrase for a sealed edition.")
@click.option("--bits", default=LEAST_BITS, show_default=True, metavar="N", help="How strong, in bits of guessing.")
@click.option("--check", is_flag=True, help="Read one of your own from standard input and say how strong it is.")
def passphrase_command(bits: int, *, check: bool) -> None:
    """Make a passphrase of words drawn at random, strong enough for a sealed edition.

    Send it to your readers, keep it outside the archive's folder, and take a new one when somebody should no
    longer read along. What a reader has opened, they keep.
    """
    words = word_list()
    with refusals():
        if check:
            own = sys.stdin.readline().strip("\r\n")
            check_strength(own, words)
            click.echo(f"about {strength(own, words):.0f} bits; {LEAST_BITS} are needed")
            return
        if bits < LEAST_BITS:
            raise Refusal("passphrase-weak", f"{bits} bits are too few", f"ask for {LEAST_BITS} or more")
        click.echo(make(words, secrets.token_bytes, bits=bits))
