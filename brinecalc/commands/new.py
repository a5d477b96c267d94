"""``brinecalc new``: a production workbook, blank or with the worked example in it."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Optional

import click

from brinecalc import clock, files
from brinecalc.commands import output

_INSTALLED = {
    "excel": "Excel with the add-in (brinecalc install excel), and LibreOffice with the extension",
    "excel-lite": "Excel with the functions of a web add-in",
    "calc": "LibreOffice with the extension (brinecalc install calc)",
}


@click.command("new")
@click.option("--example", is_flag=True, help="Fill it with the worked example.")
@click.option("--units", type=click.Choice(["metric", "US"], case_sensitive=False), default="metric", show_default=True)
@click.option(
    "--paper",
    type=click.Choice(["A4", "Letter"], case_sensitive=False),
    help="By default the one that goes with the units.",
)
@click.option("--batches", type=click.IntRange(1, 60), default=60, show_default=True, help="Rows of the plan.")
@click.option(
    "--for",
    "program",
    type=click.Choice(list(_INSTALLED)),
    default="excel",
    show_default=True,
    help="The program that will open it.",
)
@click.option(
    "-o",
    "--output",
    "target",
    type=click.Path(path_type=Path),
    help="The file to write; by default one in this folder.",
)
def command(
    example: bool, units: str, paper: Optional[str], batches: int, program: str, target: Optional[Path]
) -> None:
    """Make a production workbook, computed and ready to fill in. No file is ever overwritten."""
    place = target or Path("Brine example.xlsx" if example else "Brine plan.xlsx")
    place = place / ("Brine example.xlsx" if example else "Brine plan.xlsx") if place.is_dir() else place
    try:
        if place.suffix.lower() != ".xlsx":
            raise files.FileTrouble(f"{place} must end in .xlsx")
        if place.exists():
            raise files.FileTrouble(f"{place} exists already; give another name with -o")
        from brinecalc.hosts.headless import properties
        from brinecalc.workbook import example as worked
        from brinecalc.workbook.book import Options
        from brinecalc.workbook.create import PAPERS, create

        if example and batches < len(worked.BATCHES):
            raise files.FileTrouble(f"the example has {len(worked.BATCHES)} batches; leave --batches out, or give more")
        made = create(Options(units, paper or PAPERS[units], example, batches), program, output.progress)
        files.write(place, properties.dated(made.content, place.name, clock.now(), created=True))
    except files.FileTrouble as trouble:
        output.progress("")
        click.echo(f"brinecalc: {output.text(str(trouble))}", err=True)
        sys.exit(2)
    output.progress("")
    click.echo(output.text(f"{place}: {made.report.formulas} formulas computed, {units} units."))
    click.echo(f"It computes in {_INSTALLED[program]}; without them it shows the values that are in it.")
