"""``brinecalc version``: the version of the program."""

from __future__ import annotations

import click

from brinecalc.version import VERSION


@click.command("version")
def command() -> None:
    """Print the version."""
    click.echo(f"brinecalc {VERSION}")
