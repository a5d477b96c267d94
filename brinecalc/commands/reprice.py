"""``brinecalc reprice PRICES.csv BOOKS…``: new prices into any number of workbooks."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Dict, Iterable, Iterator, List, Optional, Tuple

import click

from brinecalc import clock, files
from brinecalc.commands import output

if TYPE_CHECKING:
    from brinecalc.workbook.price_list import PriceList
    from brinecalc.workbook.reprice import Change

_SHOWN = 12


@click.command("reprice")
@click.argument("prices", type=click.Path(path_type=Path))
@click.argument("books", type=click.Path(path_type=Path), nargs=-1, required=True)
@click.option("--apply", is_flag=True, help="Write the new prices into the workbooks, keeping a backup of each.")
@click.option("--jobs", type=click.IntRange(1, 256), default=1, show_default=True, help="Workbooks at the same time.")
@click.option("--date", help="Date of prices for which the list gives none, as 2026-11-30; by default today.")
@click.option("--report", type=click.Path(path_type=Path), help="Write every batch's costs to this CSV file.")
@click.option("--json", "as_json", is_flag=True, help="Print the result for a program to read.")
def command(
    prices: Path,
    books: Tuple[Path, ...],
    apply: bool,
    jobs: int,
    date: Optional[str],
    report: Optional[Path],
    as_json: bool,
) -> None:
    """Put the prices of the CSV file PRICES into BOOKS (workbooks, or folders of them) and show what changes.

    The first row of PRICES holds headings: name and price, and if wanted pack and date. A price is that of one whole
    pack. Nothing is written without --apply. A workbook that cannot be used is listed with its reason; the exit status
    is then 1. A list with faults is not used at all: every fault is told with its row.
    """
    try:
        from brinecalc.workbook import price_cells, price_list, price_report

        found = price_list.read(files.read(prices, 20_000_000), prices.name)
        day = price_list.day(date, "--date") if date else price_cells.days(clock.today())
        if report is not None and report.exists():
            raise files.FileTrouble(f"{report} exists already; give another name with --report")
        changes = list(_watched(_paths(books), found, apply, jobs, day))
    except files.FileTrouble as trouble:
        output.progress("")
        click.echo("brinecalc: " + "\n".join(map(output.text, str(trouble).split("\n"))), err=True)
        sys.exit(2)
    output.progress("")
    changes.sort(key=lambda change: change.path)
    no_report = _write(report, changes)
    if as_json:
        output.as_json([price_report.plain(change) for change in changes])
    else:
        _show(changes, found, apply, None if no_report else report)
    if no_report:
        click.echo(f"brinecalc: no report: {output.text(no_report)}", err=True)
    sys.exit(1 if no_report or any(change.problem for change in changes) else 0)


def _write(report: Optional[Path], changes: "List[Change]") -> Optional[str]:
    """Writes the report. Workbooks may be changed by now, so a trouble is answered and ends nothing."""
    from brinecalc.workbook import price_report

    try:
        if report is not None:
            files.write(report, price_report.as_csv(changes))
    except files.FileTrouble as trouble:
        return str(trouble)
    return None


def _paths(books: Iterable[Path]) -> List[str]:
    """Every workbook once; of a folder those that lie in it."""
    from brinecalc.hosts.headless.package import WORKBOOKS

    found: Dict[Path, str] = {}
    for book in books:
        inside = sorted(p for p in book.iterdir() if p.suffix.lower() in WORKBOOKS) if book.is_dir() else [book]
        for path in inside:
            if book is path or not (path.name.startswith(("~$", ".")) or ".backup" in path.name):
                found.setdefault(path.resolve(), str(path))
    if not found:
        raise files.FileTrouble("there are no workbooks in these folders")
    return list(found.values())


def _watched(paths: List[str], found: "PriceList", apply: bool, jobs: int, day: Optional[float]) -> Iterator["Change"]:
    """All changes, with a line that says how far things are."""
    from brinecalc.workbook import pools

    for number, change in enumerate(pools.run(paths, found.prices, jobs, apply, day), 1):
        output.progress(f"{number} of {len(paths)}: {Path(change.path).name}")
        yield change


def _show(changes: List["Change"], found: "PriceList", apply: bool, report: Optional[Path]) -> None:
    from brinecalc.workbook import price_report

    if found.unused:
        click.echo(output.text(f"Columns of the list that are not used: {', '.join(found.unused)}."))
    if found.money:
        click.echo(
            output.text(f"The list is in {found.money}; a workbook keeps its own word for money (Prices, cell B4).")
        )
    good = [change for change in changes if change.problem is None]
    for change in good[:_SHOWN]:
        click.echo(f"\n{output.text(price_report.headline(change))}")
        for line in price_report.batches(change):
            click.echo("  " + output.text(line))
    if len(good) > _SHOWN:
        click.echo(f"\n… and {len(good) - _SHOWN} more workbooks{'' if report else '; --report FILE lists them all'}.")
    if len(good) > 1:
        click.echo("\nAll workbooks\n" + price_report.summary(good))
    bad = [change for change in changes if change.problem is not None]
    if bad:
        click.echo(f"\nNot done: {len(bad)}")
        for change in bad:
            click.echo(output.text(f"  {change.path}: {change.problem}"))
    _show_unmet(good, found)
    if report is not None:
        click.echo(f"\nEvery batch: {output.text(str(report))}")
    written = sum(change.backup is not None for change in good)
    click.echo(
        f"\n{written} written, each with a backup beside it." if apply else "\nNothing was written; --apply writes it."
    )


def _show_unmet(changes: List["Change"], found: "PriceList") -> None:
    """Names of the list that no workbook has, with what they may have been meant for."""
    from brinecalc.names import Names

    if not changes:
        return
    unmet = set(changes[0].not_listed).intersection(*(change.not_listed for change in changes))
    if not unmet:
        return
    listed = _apart(name for change in changes for name in change.listed)
    known = Names("price", [(name, (), name) for name in listed])
    click.echo("\nIn no workbook's price list:")
    for name in sorted(unmet)[:_SHOWN]:
        near = known.nearest(name, 1)
        click.echo(output.text(f"  {name}" + (f" (did you mean {near[0]}?)" if near else "")))
    if len(unmet) > _SHOWN:
        click.echo(f"  … and {len(unmet) - _SHOWN} more")


def _apart(names: Iterable[str]) -> List[str]:
    """Names without those that only differ in capitals, spaces or plural."""
    from brinecalc.names import fold

    return list({fold(name): name for name in names if fold(name)}.values())
