"""Reads the data tables: comma-separated files whose opening comments describe every column.

One idea: a table says itself what it holds. Lines that begin with ``#:`` declare the columns, one each, as
``#: column | type | range | meaning``; the reader converts and checks by them, and the tests walk them. Types:
``text``, ``list`` (items parted by ``;``), ``flag`` (yes or no), ``choice a/b/c``, ``source`` (a key of
sources.csv), ``row TABLE`` (the first cell of a row of that table; the tests hold both together), or a unit such
as ``share``, ``g``, ``mm``, ``degC``, ``1`` for a number. The range is one of ``any``, ``a to b``, ``above a``,
``at least a``; ``optional`` in front of it lets the cell stay empty.
A line ``#? judgement | what would settle it`` says so for the rows whose basis or status is that word.
Read on first use and kept; needs nothing beyond Python 3.9.
"""

from __future__ import annotations

import os
from typing import Any, Dict, List, NamedTuple, Optional, Tuple

from brinecalc.errors import OutOfRange, Unreadable

FOLDER = os.path.dirname(os.path.abspath(__file__))
_WORDS = ("text", "list", "flag", "source")
_SHARE = "a share is a fraction: 0.76, not 76"

Row = Dict[str, Any]


class Column(NamedTuple):
    """One declared column: its name, type or unit, range, and what it means."""

    name: str
    type: str
    low: Optional[float]
    high: Optional[float]
    open_low: bool
    optional: bool
    meaning: str

    @property
    def is_number(self) -> bool:
        """Whether its cells are numbers."""
        return self.type not in _WORDS and not self.type.startswith(("choice ", "row "))


class Table(NamedTuple):
    """A table read and checked: its opening words, columns and rows, and what would settle what is not known."""

    name: str
    about: str
    columns: Tuple[Column, ...]
    rows: Tuple[Row, ...]
    doubts: Dict[str, str]


_tables: Dict[str, Table] = {}


def table(name: str) -> Table:
    """The table kept in ``name.csv`` beside this module, read on first use."""
    found = _tables.get(name)
    if found is None:
        with open(os.path.join(FOLDER, name + ".csv"), encoding="utf-8", newline="") as file:
            found = _tables[name] = parse(file.read(), name)
    return found


def rows(name: str) -> Tuple[Row, ...]:
    """The rows of a table as dictionaries of converted values (None where an optional cell is empty)."""
    return table(name).rows


def column(name: str, key: str) -> List[Any]:
    """One column of a table, from its first row to its last."""
    return [row[key] for row in rows(name)]


def parse(text: str, name: str) -> Table:
    """A table from its text; raises with the line and column of the first thing that breaks its own rules."""
    import csv  # not needed before the first table is

    about: List[str] = []
    columns: List[Column] = []
    doubts: Dict[str, str] = {}
    lines = text.splitlines()
    start = next((i for i, line in enumerate(lines) if not line.startswith("#")), len(lines))
    for line in lines[:start]:
        if line.startswith("#:"):
            columns.append(_column(line, name))
        elif line.startswith("#?"):
            kind, _, settled = line[2:].partition("|")
            doubts[kind.strip()] = settled.strip()
        else:
            about.append(line[1:].strip())
    reader = csv.reader(lines[start:])
    heading = next(reader, [])
    if heading != [c.name for c in columns]:
        raise Unreadable(f"table {name}: the heading row must be {','.join(c.name for c in columns)}")
    made: List[Row] = []
    for number, cells in enumerate(reader, start + 2):
        if not cells:
            continue
        if len(cells) != len(columns):
            raise Unreadable(f"table {name}, line {number}: must have {len(columns)} cells", got=str(len(cells)))
        made.append({c.name: convert(cell, c, name, number) for c, cell in zip(columns, cells)})
    return Table(name, " ".join(about), tuple(columns), tuple(made), doubts)


def convert(cell: str, column: Column, name: str, number: int) -> Any:
    """One cell as its column declares it."""
    cell = cell.strip()
    where = f"table {name}, line {number}, column {column.name}:"
    if not cell:
        if column.optional:
            return () if column.type == "list" else None
        raise Unreadable(f"{where} must not be empty")
    if column.type in ("text", "source") or column.type.startswith("row "):
        return cell
    if column.type == "list":
        return tuple(item.strip() for item in cell.split(";") if item.strip())
    if column.type == "flag":
        if cell not in ("yes", "no"):
            raise Unreadable(f"{where} must be yes or no", got=repr(cell))
        return cell == "yes"
    if column.type.startswith("choice "):
        choices = column.type[len("choice ") :].split("/")
        if cell not in choices:
            raise Unreadable(f"{where} must be one of {', '.join(choices)}", got=repr(cell))
        return cell
    try:
        value = float(cell)
    except ValueError:
        advice = "write a share as 0.25" if cell.endswith("%") else ""
        raise Unreadable(f"{where} must be a number", got=repr(cell), advice=advice) from None
    low, high = column.low, column.high
    if value != value or abs(value) == float("inf"):
        raise OutOfRange(f"{where} must be finite", got=cell)
    if (low is not None and (value < low or (column.open_low and value == low))) or (high is not None and value > high):
        raise OutOfRange(
            f"{where} must be {_limits(column)}", got=cell, advice=_SHARE if column.type == "share" else ""
        )
    return value


def _limits(column: Column) -> str:
    if column.high is not None:
        return f"{column.low:g} to {column.high:g}"
    return f"{'above' if column.open_low else 'at least'} {column.low:g}"


def _column(line: str, name: str) -> Column:
    parts = [part.strip() for part in line[2:].split("|")]
    if len(parts) != 4:
        raise Unreadable(f"table {name}: a column line must be '#: column | type | range | meaning'", got=line)
    label, kind, limits, meaning = parts
    optional = limits.startswith("optional")
    limits = limits[len("optional") :].strip() if optional else limits
    low: Optional[float] = None
    high: Optional[float] = None
    open_low = False
    if limits.startswith("above "):
        low, open_low = float(limits[6:]), True
    elif limits.startswith("at least "):
        low = float(limits[9:])
    elif " to " in limits:
        below, _, above = limits.partition(" to ")
        low, high = float(below), float(above)
    elif limits not in ("any", ""):
        raise Unreadable(f"table {name}, column {label}: unknown range", got=limits)
    return Column(label, kind, low, high, open_low, optional, meaning)
