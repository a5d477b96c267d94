"""Limits on single functions that the list of functions has no letter for.

One idea: where a function comes out right only for some arguments, those are checked here, one small check per
function. A check refuses, or gives the text of the call written otherwise, or nothing.
"""

from __future__ import annotations

import re
from typing import Callable, Dict, List, NamedTuple, Optional, Sequence, Tuple

from brinecalc.hosts.formulas import places
from brinecalc.hosts.formulas.lexer import ROW
from brinecalc.hosts.formulas.syntax import Node
from brinecalc.hosts.headless.outline import Outline
from brinecalc.hosts.headless.shapes import MAYBE, ONE, PRODUCT, WHOLE, Distrust, Exact, Part

_NUMBER_FORMAT = re.compile(r'(?:"[^"]*"| )*(?:#,##)?[#0]*0(?:\.(?:0+#*|#+))?%?(?:"[^"]*"| )*')
_DATE_FORMAT = re.compile(r"(?:yyyy|yy|m{1,4}|d{1,4}|hh?|ss?|[-/.:, ])+")
_BLOCK = re.compile(rf"\$?([A-Z]+)\$?([\d{ROW}]+):\$?([A-Z]+)\$?([\d{ROW}]+)")
_TIME_FORMAT = re.compile(r"hh?:mm(?::ss)?|mm:ss")
_END = re.compile(rf"([A-Z]+)([\d{ROW}]+)")
_ONE_SIGN = re.compile("f[fil]", re.IGNORECASE)
_COUNTING = frozenset(("ROW", "COLUMN", "MATCH", "LEN", "COUNT", "COUNTIF", "COUNTIFS"))
_MOST_DIGITS = 15  # of a whole number that a float holds and every program shows


class Call(NamedTuple):
    """A call under examination: its arguments as read, and as the engine shall read them."""

    name: str
    nodes: Sequence[Node]
    given: List[Part]
    mode: int
    book: Outline
    mark: str


def bare(node: Node) -> Node:
    """The node without brackets round it."""
    while node.kind == "group":
        node = node.parts[0]
    return node


def is_reference(node: Node) -> bool:
    """Whether a node is a range, a cell or a name, or left out."""
    return bare(node).kind in ("area", "columns", "name", "missing")


def refers(node: Node) -> Optional[bool]:
    """Whether a node gives a reference: True for certain, None perhaps, False never."""
    node = bare(node)
    name = node.text.upper().rpartition(".")[2] if node.kind == "call" else ""
    if name in ("IF", "CHOOSE"):
        told = {refers(part) for part in node.parts[1:]}
        return told.pop() if len(told) == 1 else None
    if name == "XLOOKUP":
        return None
    return is_reference(node) or name == "INDEX"


def literal(node: Node) -> Optional[str]:
    """A constant as written, its quotation marks included; an empty place is 0; None when it is calculated."""
    sign = ""
    node = bare(node)
    while node.kind in ("minus", "plus"):
        sign = ("" if sign else "-") if node.kind == "minus" else sign
        node = bare(node.parts[0])
    if node.kind == "missing":
        return "0"
    if node.kind not in ("number", "string", "logical"):
        return None
    if ROW in node.text:
        raise Exact
    return sign + node.text


def is_whole(node: Node) -> bool:
    """Whether a node gives a whole number that a float holds to the last digit, or an error."""
    node = bare(node)
    if node.kind == "call" and not node.sheet:
        name = node.text.upper()
        return name in _COUNTING or (name == "IF" and all(map(is_whole, node.parts[1:])))
    if node.kind == "chain":
        return set(node.ops) <= {"+", "-"} and all(map(is_whole, node.parts))
    return node.kind == "number" and (node.text == ROW or (node.text.isdigit() and len(node.text) <= _MOST_DIGITS))


def is_plain(node: Node) -> bool:
    """Whether the engine itself compares two values as programs do; it does where neither capitals nor noise matter.

    Nothing but 0 is as good as 0, nothing but a blank as good as an empty text, and every value comes before or after
    them in the same order. Two texts are the same or not, apart from capitals, if one is of plain letters.
    """
    if len(node.parts) != 2:
        return False
    texts = [bare(part).text for part in node.parts]
    if '""' in texts or "0" in texts or all(map(is_whole, node.parts)):
        return True
    return node.ops[0] in ("=", "<>") and any(map(_is_of_plain_letters, map(bare, node.parts)))


def _is_of_plain_letters(node: Node) -> bool:
    """Whether it is a text that no other signs stand for; ff, fi and fl may be pasted as one sign."""
    return node.kind == "string" and node.text.isascii() and not _ONE_SIGN.search(node.text)


def _only(call: Call, index: int, allowed: Sequence[str], what: str) -> Optional[str]:
    """The constant in that place, which must be one of those allowed; None when it is left out."""
    if index >= len(call.nodes):
        return None
    found = literal(call.nodes[index])
    if found is None or found.strip('"').lower() not in allowed:
        raise Distrust(f"{call.name} is computed here only with {what}")
    return found


def _limited(index: int, allowed: Sequence[str], what: str) -> Callable[[Call], None]:
    def check(call: Call) -> None:
        _only(call, index, allowed, what)

    return check


def _text(call: Call) -> Optional[str]:
    form = literal(call.nodes[1])
    if form is None or not form.startswith('"'):
        raise Distrust("TEXT is computed here only with the format written out")
    plain = form[1:-1].replace('""', '"')
    if _NUMBER_FORMAT.fullmatch(plain):
        digits = re.sub(r'"[^"]*"', "", plain).partition(".")[2].count("0") + 2 * plain.count("%")
        most = digits + plain.partition(".")[2].count("#")
        return f"TEXT(BRINE__SHOWN({call.mark},{call.given[0].text},{most}),{form})"
    if not _DATE_FORMAT.fullmatch(plain.lower()):
        raise Distrust(f"TEXT cannot be trusted with the format {form[:40]}")
    watch = "MOMENT" if _TIME_FORMAT.fullmatch(plain.lower()) else "DAY"
    return f"TEXT(BRINE__{watch}({call.mark},{call.given[0].text}),{form})"


def _fixed(call: Call) -> str:
    value, *rest = (part.text for part in call.given)
    digits = rest[0] if rest else "2"
    return f"FIXED({','.join([f'BRINE__SHOWN({call.mark},{value},{digits or 0})', *rest])})"


def _match(call: Call) -> Optional[str]:
    """By order, the engine would take a text of digits for a number, so texts are watched for."""
    found = _only(call, 2, ("0", "1", "-1", "false"), "0, 1 or -1 in third place")
    if call.given[1].shape == ONE and not is_reference(call.nodes[1]):
        raise Distrust("MATCH needs a range to look through")
    first = call.given[0]
    if found in ("0", "FALSE") or first.kind == "n":
        return None
    rest = "".join("," + part.text for part in call.given[1:])
    return f"MATCH(BRINE__WATCH({call.mark},{first.text}){rest})"


def _index(call: Call) -> None:
    """One number is enough for a row or a column, but in a block programs differ about what it means."""
    found = _BLOCK.fullmatch(call.given[0].text.rpartition("!")[2].strip("()"))
    if len(call.nodes) == 2 and found and found[1] != found[3] and found[2] != found[4]:
        raise Distrust("INDEX of a block of cells needs a row and a column")


def _char(call: Call) -> None:
    code = literal(call.nodes[0])
    if code is None or not code.isdigit() or not 0 < int(code) < 128:
        raise Distrust("CHAR is computed here only for the codes 1 to 127; use UNICHAR")


def _subtotal(call: Call) -> None:
    codes = [str(code) for code in (*range(1, 12), *range(101, 112))]
    _only(call, 0, codes, "a number from 1 to 11 or 101 to 111 in first place")
    if call.book.hides_rows:
        raise Distrust("SUBTOTAL leaves out hidden rows, and the workbook has some")


def _one_cell(call: Call) -> None:
    if call.given and call.given[0].shape != ONE:
        raise Distrust("it takes the row or column of a range by position")


def _date(call: Call) -> str:
    return f"BRINE__SERIAL({call.name}({','.join(part.text for part in call.given)}))"


def _if(call: Call) -> None:
    if call.given[0].shape != ONE and call.mode != WHOLE:
        raise Distrust("IF is given a range where one cell is expected; enter it as an array formula")


def _spilled(call: Call) -> None:
    if call.mode != WHOLE:
        raise Distrust("its result may be larger than one cell")


def _xlookup(call: Call) -> None:
    _only(call, 4, ("0", "1", "-1"), "0, 1 or -1 in fifth place")
    _only(call, 5, ("1", "-1"), "1 or -1 in sixth place")


def _sized(first: int, step: int) -> Callable[[Call], None]:
    """The first range and those from `first` on, in steps, must have one size."""

    def check(call: Call) -> None:
        ranges = [bare(node) for node in (call.nodes[0], *call.nodes[first::step])]
        kinds = {node.kind for node in ranges}
        if "columns" in kinds and kinds & {"area", "name"}:
            raise Distrust("its ranges differ in size")
        if kinds == {"area"} and len({_rows_and_width(node.text) for node in ranges}) > 1:
            if any(ROW in node.text for node in ranges):
                raise Exact
            sizes = {(found.bottom - found.top, found.right - found.left) for found in map(_area, ranges)}
            if len(sizes) > 1:
                raise Distrust("its ranges differ in size")

    return check


def _area(node: Node) -> places.Area:
    return places.area(node.text)


def _rows_and_width(text: str) -> Tuple[str, str, int]:
    """First and last row as written, and how many columns wide."""
    first, _, last = text.upper().replace("$", "").partition(":")
    one, two = _END.fullmatch(first), _END.fullmatch(last or first)
    if not one or not two:
        raise Distrust("its ranges cannot be read")
    return one[2], two[2], places.column(two[1]) - places.column(one[1])


def sharpen(call: Call, shape: int) -> int:
    """The shape of a result, where constants among the arguments tell more than the function alone."""
    if call.name != "INDEX" or shape != MAYBE:
        return shape
    table = bare(call.nodes[0])
    places_given = [literal(node) for node in call.nodes[1:]]
    if any(place is None or _is_nothing(place) for place in places_given):
        return shape
    if len(places_given) == 2:
        return ONE
    one_wide = table.kind == "area" and ":" in table.text and _rows_and_width(table.text)[2] == 0
    return ONE if one_wide else shape


def _is_nothing(constant: str) -> bool:
    return constant.strip('"').lstrip("0.-") == ""


def several(call: Call) -> str:
    """When an INDEX takes a whole row or column, as a condition: at 0 or a blank. Empty where no cell tells."""
    if call.name != "INDEX" or not is_reference(call.nodes[0]):
        return ""
    conditions = []
    for node, part in zip(call.nodes[1:], call.given[1:]):
        if bare(node).kind == "area" and part.shape == ONE:
            conditions.append(f"ABS({part.text})<1")
        elif _is_nothing(literal(node) or ""):
            return ""
    return f"OR({','.join(conditions)})" if len(conditions) > 1 else "".join(conditions)


_CHECKS: Dict[str, Callable[[Call], Optional[str]]] = {
    "AVERAGEIF": _sized(2, 2),
    "AVERAGEIFS": _sized(1, 2),
    "CHAR": _char,
    "COLUMN": _one_cell,
    "COUNTIFS": _sized(2, 2),
    "DATE": _date,
    "EDATE": _date,
    "EOMONTH": _date,
    "WORKDAY": _date,
    "DATEDIF": _limited(2, ("d", "m", "y", "ym"), '"d", "m", "y" or "ym" in third place'),
    "FILTER": _spilled,
    "FIXED": _fixed,
    "IF": _if,
    "INDEX": _index,
    "MATCH": _match,
    "MAXIFS": _sized(1, 2),
    "MINIFS": _sized(1, 2),
    "ROW": _one_cell,
    "SORT": _spilled,
    "SUBTOTAL": _subtotal,
    "SUMIF": _sized(2, 2),
    "SUMIFS": _sized(1, 2),
    "TEXT": _text,
    "TRANSPOSE": _spilled,
    "UNIQUE": _spilled,
    "WEEKDAY": _limited(1, ("1", "2", "3"), "1, 2 or 3 in second place"),
    "XLOOKUP": _xlookup,
    "XMATCH": _limited(2, ("0", "1", "-1"), "0, 1 or -1 in third place"),
    "YEARFRAC": _limited(2, ("0",), "the usual day count"),
}


def check(call: Call) -> Optional[str]:
    """Refuses what a function cannot be trusted with; gives the call's text when it must be written otherwise."""
    checked = _CHECKS.get(call.name)
    return checked(call) if checked else None


__all__ = ["PRODUCT", "Call", "bare", "check", "is_reference", "literal", "refers", "sharpen"]
