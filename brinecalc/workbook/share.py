"""Copies of a workbook for other people: live, as values, without prices, printed.

One idea: the workbook itself is only read. Every copy is a file of its own with the next number, carries what changed
since the copy before, and says on its face what it is and what it can do.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Callable, List, NamedTuple, Optional, Set

from brinecalc import clock, files
from brinecalc.files import FileTrouble
from brinecalc.hosts.headless import calculate, properties
from brinecalc.hosts.headless.report import Report
from brinecalc.hosts.headless.trial import Cell, Trial
from brinecalc.workbook import copies, frozen, moneyless, overdue, prints, summary, unsettled
from brinecalc.workbook.copies import NO_PRICES, Record, Stamp
from brinecalc.workbook.edit import notes
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.inputs import Difference, Inputs, differences
from brinecalc.workbook.sent import CHANGES

LIVE, VALUES = "live", "values"
MOST_NOTES = 300
"""Formulas on one sheet that get a note each; where there are more, the list of formulas serves."""

KEPT = "they keep the value of the file, but show #N/A where it may be an old one of the plan"
"""What stands in formulas of a copy that are not computed."""

_SEEN = {
    LIVE: "Everything computes where brinecalc is installed. Elsewhere the figures are shown as they were sent, until "
    "something is changed: then our functions show #NAME?, and the head of each sheet says that brinecalc is not installed.",
    VALUES: "Opens anywhere. Figures are as sent; batches can be chosen on Card, Log, Recipe and Charts. Plan, prices, readings "
    "of the log and brines of your own are locked: they need the live copy, where brinecalc is installed. Formulas that became values are listed on the sheet Formulas.",
}


class Wishes(NamedTuple):
    """What kind of copy is wanted; `date` is written on it, today where none is given."""

    values: bool = False
    no_prices: bool = False
    pdf: bool = False
    date: Optional[str] = None

    @property
    def kind(self) -> str:
        """The kind in words."""
        return (VALUES if self.values else LIVE) + (f", {NO_PRICES}" if self.no_prices else "")


class Copy(NamedTuple):
    """A finished copy and the account of it."""

    content: bytes
    number: int
    kind: str
    date: str
    changed: List[Difference]
    since: Optional[int]
    report: Report
    replaced: int
    emptied: int
    seen: str
    pdf: Optional[bytes]
    trouble: Optional[str]
    late: Optional[str] = None
    worked: str = ""


class Earlier(NamedTuple):
    """The copies before this one: the newest, and the newest that can be compared in all that this one will hold."""

    newest: Path
    compared: Path


def earlier(folder: Path, stem: str, suffix: str, no_prices: bool) -> Optional[Earlier]:
    """The copies of a workbook in a folder, told by their names. One without prices tells nothing of prices."""
    if not folder.is_dir():
        return None
    pattern = re.compile(re.escape(stem) + r" copy (\d+)( .*)?" + re.escape(suffix), re.IGNORECASE)
    found = [(int(match[1]), path) for path in folder.iterdir() if (match := pattern.fullmatch(path.name))]
    if not found:
        return None
    priced = [(number, path) for number, path in found if NO_PRICES not in path.stem[len(stem) :]]
    return Earlier(max(found)[1], max(found if no_prices or not priced else priced)[1])


def share(
    content: bytes, name: str, wishes: Wishes, before: Optional[Earlier], progress: Callable[[str], None]
) -> Copy:
    """Makes a copy of a workbook given as bytes, with what changed since the copies before it."""
    source = Edit(content, name)
    newest = Edit(files.read(before.newest), before.newest.name) if before is not None else source
    compared = Edit(files.read(before.compared), before.compared.name) if before is not None else None
    number = max(copies.number(newest), copies.number(source)) + 1
    date = wishes.date if wishes.date is not None else clock.today().isoformat()
    emptied: Set[Cell] = set()
    if wishes.no_prices:
        content, emptied = moneyless.without_money(content, name)
    trial = Trial(content, name, progress=progress)
    if wishes.values or wishes.pdf:
        unsettled.refuse(trial, source, "So no copy with values and no PDF is made.")
    report = trial.outcome.report
    changed = _changed(Edit(trial.outcome.content, name), compared, wishes, moneyless.changed(source))
    made, replaced = _body(trial, name, wishes, progress)
    old = _together(copies.history(newest), copies.history(compared) if compared is not None else [])
    records = _records(old, changed, number, date, wishes, source)
    worked = worked_out(report, summary.behind(trial, name))
    stamp = Stamp(number, date, wishes.kind, worked, _SEEN[VALUES if wishes.values else LIVE])
    done = properties.dated(_stamped(made, name, stamp, records, replaced + report.kept > 0), name, clock.now())
    printed, trouble = _printed(trial, name, progress) if wishes.pdf else (None, None)
    since = copies.number(compared) if compared is not None else None
    return Copy(
        done,
        number,
        wishes.kind,
        date,
        changed,
        since,
        report,
        replaced,
        len(emptied),
        stamp.seen,
        printed,
        trouble,
        overdue.line(trial, name, clock.now()),
        worked,
    )


def _stamped(made: Edit, name: str, stamp: Stamp, records: List[Record], open_yet: bool) -> bytes:
    """The copy with its stamp, worked out again unless no formula can read what is stamped in."""
    counts = CHANGES if made.book.name(CHANGES, "") else None
    again = open_yet or counts is not None or copies.number(made) > 0
    copies.stamp(made, stamp, records, counts)
    return calculate(made.done(), name).content if again else made.done()


def _changed(now: Edit, before: Optional[Edit], wishes: Wishes, money: Set[Cell]) -> List[Difference]:
    """What was typed since; prices only where both copies have them."""
    if before is None:
        return []
    without = wishes.no_prices or copies.is_without_prices(before)
    left_out = money | moneyless.changed(before) if without else set()
    return differences(_inputs(before), _inputs(now), left_out)


def _inputs(edit: Edit) -> Inputs:
    return Inputs(edit, copies.own_sheets(edit))


def _together(newest: List[Record], other: List[Record]) -> List[Record]:
    """Two histories as one, the newest copy first; a copy without prices lacks the lines on them."""
    known = set(newest)
    return sorted(newest + [record for record in other if record not in known], key=lambda record: -record.copy)


def _body(trial: Trial, name: str, wishes: Wishes, progress: Callable[[str], None]) -> "tuple[Edit, int]":
    """The copy without its stamp, and how many formulas became values."""
    if not wishes.values:
        return Edit(unsettled.settled(trial, name).content, name), 0
    made = frozen.freeze(trial, name, progress)
    edit = Edit(made.content, name)
    if not made.replaced:
        return edit, 0
    listed = copies.list_formulas(edit, made.replaced)
    by_sheet: dict[str, dict[tuple[int, int], str]] = {}
    for (sheet, row, col), (formula, _) in made.replaced.items():
        by_sheet.setdefault(sheet, {})[row, col] = "=" + formula
    for sheet, texts in by_sheet.items():
        if len(texts) <= MOST_NOTES and sheet != listed and notes.can_take(edit, sheet):
            notes.add(edit, sheet, texts, "brinecalc")
    return edit, len(made.replaced)


def _records(
    old: List[Record], changed: List[Difference], number: int, date: str, wishes: Wishes, source: Edit
) -> List[Record]:
    """The history with this copy's lines; a copy without prices carries no line on them."""
    nothing = [Difference("", "no input changed" if old else "first copy", "", "")]
    records = [Record(number, date, wishes.kind, change) for change in (changed or nothing)] + old
    if wishes.no_prices:
        prices = source.place("price_prices")
        sheet = prices.sheet if prices is not None else ""
        records = [record for record in records if not record.change.where.startswith(f"{sheet}!")]
    return records or [Record(number, date, wishes.kind, nothing[0])]


def worked_out(report: Report, behind: Set[str]) -> str:
    """How many formulas ended how; behind the pages one that waits for a price or figure is open, and its batch says why."""
    left = sum(sheet.errors for sheet in report.sheets if sheet.name in behind)
    faults = report.errors - left
    words = f"{report.formulas} formulas"
    words += f", {faults} of them in error" if faults else ", none in error"
    words += f", {left} open for want of a price or figure (each batch says on Plan which)" if left else ""
    return words + (f", {report.kept} not computed ({KEPT})" if report.kept else "")


def _printed(trial: Trial, name: str, progress: Callable[[str], None]) -> "tuple[Optional[bytes], Optional[str]]":
    try:
        prints.wanted(Edit(trial.outcome.content, name), name)
        program = prints.drawer()
        made = prints.print_book(trial, name, progress)
        progress("drawing the PDF")
        return prints.pdf(made, program), None
    except FileTrouble as trouble:
        return None, str(trouble)
