"""``brinecalc install calc``: puts the worksheet functions into a spreadsheet program."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Optional

import click

from brinecalc import files
from brinecalc.commands import output, setups
from brinecalc.hosts.findings import SetupTrouble


@click.command("install")
@click.argument("program", type=click.Choice(list(setups.PROGRAMS)))
@click.option("--build-only", is_flag=True, help="Only write the file that would be installed.")
@click.option(
    "--to",
    type=click.Path(path_type=Path),
    help="Folder for the files, with nothing installed: excel --to FOLDER, calc --build-only --to FOLDER.",
)
@click.option("--for-all", is_flag=True, help="Calc, run by the administrator: for every user of this machine.")
def command(program: str, build_only: bool, to: Optional[Path], for_all: bool) -> None:
    """Put the worksheet functions into PROGRAM, in place of any other version.

    It may be run again at any time, and needs no administrator's rights.
    """
    try:
        if for_all and program != "calc":
            raise SetupTrouble("--for-all is for calc only; leave it out")
        wishes = {"for_all": True} if for_all else {}
        click.echo(output.text(setups.program(program).set_up(build_only, to, **wishes)))
    except (SetupTrouble, files.FileTrouble) as trouble:
        click.echo(f"brinecalc: {output.text(str(trouble).rstrip('.'))}.", err=True)
        sys.exit(2)
