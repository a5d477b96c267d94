"""Text functions as spreadsheet programs compute them.

One idea: where the engine reads or writes a text otherwise than the programs do, these stand in for it.
"""

from __future__ import annotations

import math
import re
from typing import List, Optional

from brinecalc.hosts.headless.values import LONGEST, Fault, Value, error, flat, number, short, text


def join(*values: Value) -> str:
    """What & does."""
    return short("".join(text(value) for value in values))


def _cut(units: str, start: int, count: int) -> str:
    """Part of a text counted as spreadsheet programs count, where a rare character takes two places."""
    if units.isascii():
        return units[start : start + count]
    raw = units.encode("utf-16-le", "surrogatepass")
    if len(raw) == 2 * len(units):
        return units[start : start + count]
    return raw[2 * start : 2 * (start + count)].decode("utf-16-le", "replace")


def length(value: Value) -> float:
    """LEN."""
    units = text(value)
    return float(len(units) if units.isascii() else len(units.encode("utf-16-le", "surrogatepass")) // 2)


def _count(value: Value, least: int = 0) -> int:
    count = math.trunc(max(-1e9, min(1e9, number(value))))
    if count < least:
        raise Fault(error("Value"))
    return count


def left(value: Value, count: Value = 1.0) -> str:
    """LEFT."""
    return _cut(text(value), 0, _count(count))


def right(value: Value, count: Value = 1.0) -> str:
    """RIGHT."""
    start = max(0, int(length(value)) - _count(count))
    return _cut(text(value), start, LONGEST)


def mid(value: Value, start: Value, count: Value) -> str:
    """MID."""
    units = text(value)
    return _cut(units, _count(start, 1) - 1, _count(count))


def replace(value: Value, start: Value, count: Value, new: Value) -> str:
    """REPLACE: by place."""
    units = text(value)
    first = _count(start, 1) - 1
    return short(_cut(units, 0, first) + text(new) + _cut(units, first + _count(count), LONGEST))


def substitute(value: Value, old: Value, new: Value, which: Value = None) -> str:
    """SUBSTITUTE: by content, all or one of them."""
    units, away, put = text(value), text(old), text(new)
    if which is None:
        if not away:
            return units
        if len(units) + units.count(away) * (len(put) - len(away)) > LONGEST:
            raise Fault(error("Value"))
        return units.replace(away, put)
    wanted = _count(which, 1)
    at = -1
    for _ in range(wanted if away and wanted <= len(units) else 0):
        at = units.find(away, at + 1 if at < 0 else at + len(away))
        if at < 0:
            break
    return units if at < 0 else short(units[:at] + put + units[at + len(away) :])


def repeat(value: Value, count: Value) -> str:
    """REPT."""
    units, times = text(value), _count(count)
    if len(units) * times > LONGEST:
        raise Fault(error("Value"))
    return units * times


def upper(value: Value) -> str:
    """UPPER; a letter whose capital is two letters stays."""
    return "".join(c.upper() if len(c.upper()) == 1 else c for c in text(value))


def lower(value: Value) -> str:
    """LOWER."""
    return "".join(c.lower() if len(c.lower()) == 1 else c for c in text(value))


def proper(value: Value) -> str:
    """PROPER: a capital after anything that is no letter."""
    out: List[str] = []
    inside = False
    for c in text(value):
        out.append(lower(c) if inside else upper(c))
        inside = c.isalpha()
    return "".join(out)


def trim(value: Value) -> str:
    """TRIM: no spaces but single ones between words."""
    units = text(value).strip(" ")
    return " ".join(filter(None, units.split(" "))) if "  " in units else units


def clean(value: Value) -> str:
    """CLEAN."""
    return "".join(c for c in text(value) if c >= " ")


def exact(a: Value, b: Value) -> bool:
    """EXACT."""
    return text(a) == text(b)


def concat(*values: Value) -> str:
    """CONCAT and CONCATENATE."""
    return short("".join(text(value) for value in flat(values)))


def textjoin(between: Value, skip_blanks: Value, *values: Value) -> str:
    """TEXTJOIN."""
    parts = [text(value) for value in flat(values)]
    if number(skip_blanks):
        parts = [part for part in parts if part]
    return short(text(between).join(parts))


def hyperlink(link: Value, shown: Value = None) -> Value:
    """HYPERLINK: what is shown."""
    address = text(link)
    if isinstance(shown, dict):
        raise Fault(shown)
    return address if shown is None else shown


def find(sought: Value, value: Value, start: Value = 1.0) -> float:
    """FIND."""
    what, units, first = text(sought), text(value), _count(start, 1)
    at = units.find(what, first - 1)
    if at < 0 or first > len(units) + 1:
        raise Fault(error("Value"))
    return float(at + 1)


def search(sought: Value, value: Value, start: Value = 1.0) -> float:
    """SEARCH: like FIND without regard to case; ``?`` is any character, ``*`` any number of them, ``~`` neither."""
    pieces = [""]
    what = text(sought)
    for c in re.findall(r"~[*?~]|.", what, re.DOTALL):
        if c == "*":
            pieces.append("")
        else:
            pieces[-1] += "." if c == "?" else re.escape(c[-1])
    units, first = text(value), _count(start, 1)
    if first > len(units) + 1:
        raise Fault(error("Value"))
    begin: Optional[int] = first - 1 if not pieces[0] else None
    at = first - 1
    for piece in pieces:
        match = re.compile(piece, re.IGNORECASE | re.DOTALL).search(units, at)
        if not match:
            raise Fault(error("Value"))
        begin = match.start() if begin is None else begin
        at = match.end()
    return float((begin or 0) + 1)
