"""``brinecalc respell BOOK``: the names of our functions as another spreadsheet program writes them in a file."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Optional

import click

from brinecalc import files
from brinecalc.commands import output
from brinecalc.commands import target as targets
from brinecalc.hosts import spelling


@click.command("respell")
@click.argument("workbook", type=click.Path(path_type=Path))
@click.option(
    "--for", "program", type=click.Choice(list(spelling.PROGRAMS)), required=True, help="The program that will open it."
)
@targets.options
def command(workbook: Path, program: str, target: Optional[Path], in_place: bool, overwrite: bool) -> None:
    """Spell our functions in WORKBOOK as a program needs them, and change nothing else.

    Needed only for a file that shows #NAME? although the functions are installed.
    """
    try:
        place = targets.place(workbook, target, in_place, overwrite, f"for {program}")
        content = files.read(workbook)
        from brinecalc.workbook.create import respelled

        changed = respelled(content, spelling.PROGRAMS[program], workbook.name)
        backup = targets.write(workbook, place, content, changed.content, overwrite)
    except files.FileTrouble as trouble:
        click.echo(f"brinecalc: {output.text(str(trouble))}", err=True)
        sys.exit(2)
    kept = f" (backup: {backup.name})" if backup else ""
    click.echo(output.text(f"{place}: {changed.formulas} formulas spelled for {program}.{kept}"))
