"""``brinecalc share BOOK``: copies of a workbook for people who have it installed, and for those who have not."""

from __future__ import annotations

import datetime
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Optional, Tuple

import click

from brinecalc import files, version
from brinecalc.commands import output, own

if TYPE_CHECKING:
    from brinecalc.workbook.share import Copy

_SHOWN = 12


@click.command("share")
@click.argument("book", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--output",
    "folder",
    type=click.Path(path_type=Path),
    help="The folder for the copies, made if it is missing; by default the one where the book lies.",
)
@click.option("--values", is_flag=True, help="For people with nothing installed: values in place of our formulas.")
@click.option(
    "--no-prices",
    is_flag=True,
    help="Leave out prices, their days and suppliers, and all that comes of them.",
)
@click.option("--pdf", is_flag=True, help="Also the cards of all batches and the order as PDF (needs LibreOffice).")
@click.option("--date", help="The date on the copy, as 2026-11-30; by default today.")
@click.option("--since", type=click.Path(path_type=Path), help="The copy to compare with; by default the last.")
@own.option
def command(
    book: Path,
    folder: Optional[Path],
    values: bool,
    no_prices: bool,
    pdf: bool,
    date: Optional[str],
    since: Optional[Path],
    ingredients: Optional[Path],
) -> None:
    """Make a copy of BOOK for other people. BOOK itself is only read, and no file is overwritten.

    Every copy has a number and a sheet that says what changed since the copy before.
    """
    try:
        if date is not None and not _is_day(date):
            raise files.FileTrouble("--date must be a day written as 2026-11-30")
        place = folder if folder is not None else book.parent
        files.may_be_folder(place)
        content = files.read(book)
        own.take_in(ingredients)
        from brinecalc.workbook.share import Earlier, Wishes, earlier, share

        found = earlier(place, book.stem, book.suffix, no_prices)
        before = Earlier(found.newest if found else since, since) if since is not None else found
        made = share(content, book.name, Wishes(values, no_prices, pdf, date), before, output.progress)
        target = place / f"{book.stem} copy {made.number}{_word(made.kind)}{book.suffix}"
        files.folder(place)
        if target.exists():
            raise files.FileTrouble(f"{target} was made meanwhile by another command; run share again")
        files.write(target, made.content)
    except files.FileTrouble as trouble:
        output.progress("")
        click.echo(f"brinecalc: {output.text(str(trouble))}", err=True)
        sys.exit(2)
    output.progress("")
    made, drawn = _draw(made, target)
    _show(made, target, drawn)
    sys.exit(1 if made.trouble else 0)


def _is_day(text: str) -> bool:
    """Whether a text is a day of the calendar, year first."""
    try:
        return datetime.date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def _draw(made: "Copy", target: Path) -> "Tuple[Copy, Optional[Path]]":
    """Writes the PDF beside the copy; if that fails, the copy is there all the same and the trouble is told."""
    if made.pdf is None:
        return made, None
    drawn = target.with_suffix(".pdf")
    try:
        files.write(drawn, made.pdf)
    except files.FileTrouble as trouble:
        return made._replace(trouble=str(trouble)), None
    return made, drawn


def _word(kind: str) -> str:
    """What of the kind stands in the file's name."""
    return "" if kind == "live" else " " + kind.removeprefix("live, ")


def _show(made: "Copy", target: Path, drawn: Optional[Path]) -> None:
    click.echo(output.text(f"{target}: copy {made.number}, {made.kind}, dated {made.date or 'not at all'}"))
    click.echo(f"  Made by brinecalc {version.VERSION}, tables of {version.TABLE_DATE}.")
    click.echo(f"  Worked out: {made.worked}.")
    if made.replaced:
        click.echo(f"  {made.replaced} formulas are values in it; each can be read on the sheet Formulas.")
    if made.emptied:
        click.echo(f"  {made.emptied} cells with prices and costs are empty in it.")
    if made.since is None:
        click.echo("  Nothing to compare with: this is the first copy.")
    else:
        count = len(made.changed)
        words = "nothing" if not count else "1 input" if count == 1 else f"{count} inputs"
        click.echo(f"  Changed since copy {made.since}: {words}.")
        for change in made.changed[:_SHOWN]:
            step = f"{change.before or 'blank'} → {change.after or 'blank'}"
            click.echo(output.text(f"    {change.where}  {change.what}: {step}"))
        if count > _SHOWN:
            click.echo(f"    … and {count - _SHOWN} more, on the sheet Copies")
    if made.late:
        click.echo(output.text(f"  {made.late}"))
    click.echo(output.text(f"  The reader: {made.seen}"))
    if drawn is not None:
        click.echo(output.text(f"{drawn}: a card for every batch, and the order"))
    if made.trouble:
        click.echo(output.text(f"brinecalc: no PDF: {made.trouble}"), err=True)
