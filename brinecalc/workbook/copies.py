"""The sheet of a copy that says which copy it is, from when, made by what, and what changed since the one before.

One idea: the sheet is the record. The next copy reads it in the last one, adds its own lines, and carries all of them
on, so whoever holds a copy holds its history.
"""

from __future__ import annotations

from typing import Dict, List, NamedTuple, Optional, Sequence, Tuple

from brinecalc import version
from brinecalc.workbook.edit import sheets
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.edit.cells import Value
from brinecalc.workbook.edit.looks import Look, Looks
from brinecalc.workbook.edit.sheets import Formula, Line
from brinecalc.workbook.inputs import Difference

SHEET = "Copies"
TITLE = "Copies of this workbook"
LISTED = "Formulas"
LISTED_TITLE = "Formulas that are values in this copy"
MOST_LINES = 1_000
NO_PRICES = "no prices"

_HEAD = 12
_HEADINGS = ("Copy", "Date", "Kind", "Where", "What", "Before", "After")
_DEEP, _PALE = "14505C", "E6EEF0"


class Record(NamedTuple):
    """One line of the history: a copy, and one thing that was changed for it (or that nothing was)."""

    copy: int
    date: str
    kind: str
    change: Difference


class Stamp(NamedTuple):
    """What is written on a copy."""

    copy: int
    date: str
    kind: str
    worked_out: str
    seen: str


def history(edit: Edit) -> List[Record]:
    """The lines that a copy carries; none in a workbook that is no copy."""
    name = _own(edit)
    if name is None:
        return []
    found = []
    for row in sorted(edit.map(name).rows):
        if row > _HEAD:
            cells = [edit.look(name, row, col).value for col in range(1, 8)]
            if isinstance(cells[0], float):
                words = ["" if cell is None else str(cell) for cell in cells[1:]]
                found.append(Record(int(cells[0]), words[0], words[1], Difference(*words[2:])))
    return found


def number(edit: Edit) -> int:
    """The number of a copy; 0 for a workbook that is none."""
    name = _own(edit)
    value = edit.look(name, 4, 3).value if name is not None else None
    return int(value) if isinstance(value, float) else 0


def is_without_prices(edit: Edit) -> bool:
    """Whether a copy is one without prices."""
    name = _own(edit)
    return name is not None and NO_PRICES in str(edit.look(name, 6, 3).value)


def _own(edit: Edit) -> Optional[str]:
    """The sheet of copies that is there."""
    return next((s for s in edit.sheets if s.startswith(SHEET) and edit.look(s, 1, 1).value == TITLE), None)


def own_sheets(edit: Edit) -> "set[str]":
    """The sheets of a copy that belong to it and not to the workbook."""
    titles = (TITLE, LISTED_TITLE)
    return {sheet for sheet in edit.sheets if edit.look(sheet, 1, 1).value in titles}


def stamp(edit: Edit, what: Stamp, records: Sequence[Record], changes: Optional[str]) -> None:
    """Puts the sheet of copies in; `changes` names the cell that counts inputs changed since, if there is one."""
    looks = Looks(edit)
    title, strong = looks.add(Look(18, True)), looks.add(Look(10, True))
    head, plain, words = looks.add(Look(9, True, _PALE)), looks.add(Look(9)), looks.add(Look(9, wrap=True))
    facts: List[Tuple[str, Value]] = [
        ("This copy", float(what.copy)),
        ("Date", what.date or "not dated"),
        ("Kind", what.kind),
        ("Made by", f"brinecalc {version.VERSION}, tables of {version.TABLE_DATE}"),
        ("Worked out", what.worked_out),
        ("What you see", what.seen),
    ]
    lines: List[Tuple[int, Line]] = [(1, [(TITLE, title)])]
    lines.append((2, [("What was sent, and what changed since the copy before. Nothing to fill in here.", plain)]))
    lines += [(row, [(word, strong), (None, ""), (value, plain)]) for row, (word, value) in enumerate(facts, 4)]
    if changes:
        told = "inputs were changed since it was sent; 0 means that all figures are as sent"
        lines.append((10, [("Since then", strong), (None, ""), (Formula(changes), strong), (told, plain)]))
    lines.append((_HEAD, [(heading, head) for heading in _HEADINGS]))
    shown = sorted(records, key=lambda record: -record.copy)[:MOST_LINES]
    for row, record in enumerate(shown, _HEAD + 1):
        cells = (float(record.copy), record.date, record.kind, *record.change)
        lines.append((row, [(cell if cell != "" else None, words) for cell in cells]))
    data = sheets.page(lines, (8, 12, 16, 16, 44, 26, 26), _HEAD, words)
    sheets.put_sheet(edit, _own(edit) or sheets.own(edit, SHEET, TITLE), data)


def list_formulas(edit: Edit, replaced: "Dict[Tuple[str, int, int], Tuple[str, Value]]") -> str:
    """Puts in the sheet that lists every formula that became a value; answers its name."""
    from brinecalc.hosts.formulas import places

    looks = Looks(edit)
    title, head = looks.add(Look(18, True)), looks.add(Look(9, True, _PALE))
    plain, quoted = looks.add(Look(9)), looks.add(Look(9, wrap=True, quoted=True))
    lead = "Where brinecalc is installed these formulas compute; here their values stand in their place. Nothing to fill in; too long for paper, where only this head prints."
    lines: List[Tuple[int, Line]] = [
        (1, [(LISTED_TITLE, title)]),
        (2, [(lead, plain)]),
        (4, [(words, head) for words in ("Sheet", "Cell", "Formula", "Value as sent")]),
    ]
    for row, ((sheet, line, col), (formula, value)) in enumerate(replaced.items(), 5):
        lines.append((row, [(sheet, plain), (places.name(line, col), plain), ("=" + formula, quoted), (value, plain)]))
    name = sheets.own(edit, LISTED, LISTED_TITLE)
    sheets.put_sheet(edit, name, sheets.page(lines, (14, 8, 110, 24), 4, quoted))
    sheets.print_only(edit, name, "$A$1:$D$2")
    return name
