"""``brinecalc uninstall calc``: takes the worksheet functions out of a spreadsheet program."""

from __future__ import annotations

import sys

import click

from brinecalc.commands import output, setups
from brinecalc.hosts.findings import SetupTrouble


@click.command("uninstall")
@click.argument("program", type=click.Choice(list(setups.PROGRAMS)))
def command(program: str) -> None:
    """Take the worksheet functions out of PROGRAM; nothing of them stays behind."""
    try:
        click.echo(output.text(setups.program(program).take_out()))
    except SetupTrouble as trouble:
        click.echo(f"brinecalc: {output.text(str(trouble).rstrip('.'))}.", err=True)
        sys.exit(2)
