"""``brinecalc reprice PRICES.csv BOOKS…``: new prices into any number of workbooks."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Dict, Iterable, Iterator, List, Optional, Tuple

import click

from brinecalc import clock, files
from brinecalc.commands import output, own

if TYPE_CHECKING:
    from brinecalc.workbook.price_list import PriceList
    from brinecalc.workbook.reprice import Change

_SHOWN = 12
_SHOWN_PRICES = 40


@click.command("reprice")
@click.argument("prices", type=click.Path(path_type=Path))
@click.argument("books", type=click.Path(path_type=Path), nargs=-1, required=True)
@click.option("--apply", is_flag=True, help="Write the new prices into the workbooks, keeping a backup of each.")
@click.option("--add", is_flag=True, help="Give a row to each name of the list that a plan needs and its book lacks.")
@click.option("--jobs", type=click.IntRange(1, 256), default=1, show_default=True, help="Workbooks at the same time.")
@click.option("--date", help="Date of prices for which the list gives none, as 2026-11-30; by default today.")
@click.option("--report", type=click.Path(path_type=Path), help="Write every batch's costs to this CSV file.")
@click.option(
    "--report-prices", type=click.Path(path_type=Path), help="Write every price that changes to this CSV file."
)
@own.option
@click.option("--json", "as_json", is_flag=True, help="Print the result for a program to read.")
def command(
    prices: Path,
    books: Tuple[Path, ...],
    apply: bool,
    add: bool,
    jobs: int,
    date: Optional[str],
    report: Optional[Path],
    report_prices: Optional[Path],
    ingredients: Optional[Path],
    as_json: bool,
) -> None:
    """Put the prices of the CSV file PRICES into BOOKS (workbooks, or folders of them) and show what changes.

    The first row of PRICES holds headings: name and price, and if wanted pack and date. A price is that of one whole
    pack. Nothing is written without --apply. A workbook that cannot be used is listed with its reason; the exit status
    is then 1. A list with faults is not used at all: every fault is told with its row.
    """
    try:
        extended = own.take_in(ingredients)
        from brinecalc.hosts import days
        from brinecalc.workbook import price_list

        found = price_list.read(files.read(prices, 20_000_000), prices.name)
        day = price_list.day(date, "--date") if date else days.number(clock.today())
        reports = _Reports(report, report_prices)
        changes = list(_watched(_paths(books), found, apply, jobs, day, extended, add))
    except files.FileTrouble as trouble:
        output.progress("")
        click.echo("brinecalc: " + "\n".join(map(output.text, str(trouble).split("\n"))), err=True)
        sys.exit(2)
    output.progress("")
    changes.sort(key=lambda change: change.path)
    troubles = reports.write(changes)
    _answer(changes, found, apply, add, reports, as_json)
    for words in troubles:
        click.echo(f"brinecalc: no report: {output.text(words)}", err=True)
    sys.exit(1 if troubles or any(change.problem for change in changes) else 0)


class _Reports:
    """The CSV files asked for: of batches, of prices. None may be there before."""

    def __init__(self, batches: Optional[Path], prices: Optional[Path]) -> None:
        self.batches = batches
        self.prices = prices
        for path, option in ((batches, "--report"), (prices, "--report-prices")):
            if path is not None and path.exists():
                raise files.FileTrouble(f"{path} exists already; give another name with {option}")
        if batches is not None and prices is not None and batches.resolve() == prices.resolve():
            raise files.FileTrouble(f"{prices} cannot hold both reports; give two names")

    def write(self, changes: "List[Change]") -> List[str]:
        """Writes them. Workbooks may be changed by now, so a trouble is answered and ends nothing."""
        from brinecalc.workbook import price_moves, price_report

        troubles = []
        for place, written in (("batches", price_report.as_csv), ("prices", price_moves.as_csv)):
            path: Optional[Path] = getattr(self, place)
            if path is None:
                continue
            try:
                files.write(path, written(changes))
            except files.FileTrouble as trouble:
                setattr(self, place, None)
                troubles.append(str(trouble))
        return troubles


def _answer(
    changes: "List[Change]", found: "PriceList", apply: bool, add: bool, reports: _Reports, as_json: bool
) -> None:
    from brinecalc.workbook import price_report

    if as_json:
        output.as_json([price_report.plain(change) for change in changes])
    else:
        _show(changes, found, apply, add, reports)


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


def _watched(
    paths: List[str],
    found: "PriceList",
    apply: bool,
    jobs: int,
    day: Optional[float],
    ingredients: Optional[str],
    add: bool,
) -> Iterator["Change"]:
    """All changes, with a line that says how far things are."""
    from brinecalc.workbook import pools

    for number, change in enumerate(pools.run(paths, found.prices, jobs, apply, day, ingredients, add), 1):
        output.progress(f"{number} of {len(paths)}: {Path(change.path).name}")
        yield change


def _show(changes: List["Change"], found: "PriceList", apply: bool, add: bool, reports: _Reports) -> None:
    from brinecalc.workbook import price_report

    if found.unused:
        click.echo(output.text(f"Columns of the list that are not used: {', '.join(found.unused)}."))
    if found.money:
        click.echo(
            output.text(f"The list is in {found.money}; a workbook keeps its own word for money (Prices, cell B4).")
        )
    good = [change for change in changes if change.problem is None]
    _show_prices(good, reports.prices)
    for change in good[:_SHOWN]:
        click.echo(f"\n{output.text(price_report.headline(change))}")
        for line in price_report.batches(change):
            click.echo("  " + output.text(line))
    if len(good) > _SHOWN:
        more = "" if reports.batches else "; --report FILE lists them all"
        click.echo(f"\n… and {len(good) - _SHOWN} more workbooks{more}.")
    if len(good) > 1:
        click.echo("\nAll workbooks\n" + price_report.summary(good))
    bad = [change for change in changes if change.problem is not None]
    if bad:
        click.echo(f"\nNot done: {len(bad)}")
        for change in bad:
            click.echo(output.text(f"  {change.path}: {change.problem}"))
    _show_unmet(good, add)
    for path, words in ((reports.batches, "Every batch"), (reports.prices, "Every price")):
        if path is not None:
            click.echo(f"\n{words}: {output.text(str(path))}")
    written = sum(change.backup is not None for change in good)
    click.echo(
        f"\n{written} written, each with a backup beside it." if apply else "\nNothing was written; --apply writes it."
    )


def _show_prices(good: List["Change"], report: Optional[Path]) -> None:
    """The prices that change, once for all workbooks in which the same ones do."""
    from brinecalc.workbook import price_moves

    groups = price_moves.together(good)
    for prices, books in groups[:_SHOWN]:
        all_of_them = "in every workbook" if len(books) > 1 else f"in {books[0]}"
        shown = ", ".join(books[:_SHOWN]) + (f" and {len(books) - _SHOWN} more" if len(books) > _SHOWN else "")
        where = all_of_them if len(books) == len(good) else f"in {shown}"
        click.echo(f"\nPrices that change {output.text(where)}")
        for line in price_moves.lines(prices, _SHOWN_PRICES):
            click.echo("  " + output.text(line))
    left = len(groups) - _SHOWN
    if left > 0:
        click.echo(
            f"\n… and other changes in {left} more" + ("." if report else "; --report-prices FILE lists them all.")
        )


def _show_unmet(good: List["Change"], add: bool) -> None:
    """Names that only the list or only the workbooks have, each once; with what they may have been meant for."""
    from brinecalc.names import Names
    from brinecalc.workbook import price_list, price_moves

    needed = _apart(name for change in good for name in change.needed)
    asked = set(map(price_list.key, needed))
    lacking = [pair for pair in price_moves.lacking(good) if price_list.key(pair[0]) not in asked]
    listed = _apart(name for change in good for name in change.listed)
    known = Names("price", [(name, (), name) for name in listed])
    for words, names in (
        ("In no workbook's price list:", [pair for pair in lacking if pair[1] == len(good)]),
        ("In the list, but not in every workbook:", [pair for pair in lacking if pair[1] < len(good)]),
    ):
        if names:
            click.echo(f"\n{words}")
        for name, count in names[:_SHOWN]:
            near = known.nearest(name, 1) if count == len(good) else []
            of_books = f" (not in {count} of {len(good)})" if count < len(good) else ""
            click.echo(output.text(f"  {name}{of_books}" + (f" (did you mean {near[0]}?)" if near else "")))
        if len(names) > _SHOWN:
            click.echo(f"  … and {len(names) - _SHOWN} more")
    if needed:
        click.echo(output.text(f"\nNeeded by a plan, in no row ({len(needed)}): {', '.join(needed)}."))
        _show_rows(good, len(needed), add)
    kept = price_moves.not_given(good)
    if kept:
        shown = ", ".join(name for name, _ in kept[:_SHOWN_PRICES])
        more = f" and {len(kept) - _SHOWN_PRICES} more" if len(kept) > _SHOWN_PRICES else ""
        click.echo()
        click.echo(output.text(f"Not in the list, so their prices stay ({len(kept)}): {shown}{more}."))


def _show_rows(good: List["Change"], needed: int, add: bool) -> None:
    """How what is needed comes to a row."""
    doubtful = _apart(name for change in good for name in change.doubtful)
    if doubtful:
        words = "may be bought as something else; if it is what the plan needs, type its row on Prices"
        click.echo(output.text(f"The list calls of it {', '.join(doubtful)}: that {words}."))
    if needed > len(doubtful):
        click.echo(
            f"No blank row is left for {'the rest' if doubtful else 'them'}: clear one on Prices."
            if add
            else "With --add each gets a row, while there are blank ones."
        )


def _apart(names: Iterable[str]) -> List[str]:
    """Names without those that only differ in capitals, spaces or plural."""
    from brinecalc.names import fold

    return list({fold(name): name for name in names if fold(name)}.values())
