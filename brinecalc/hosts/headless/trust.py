"""Decides which formulas can be computed here with certainty, and how the engine must read them.

One idea: a formula is walked once, and each part of it is known to be one value, several, or perhaps several. A
spreadsheet program takes "several where one belongs" by position, the engine takes it otherwise, so such a formula
is distrusted: it keeps the value that the file had and is reported. What is trusted is written anew for the engine,
in memory only: empty places in our functions become ``""``, names become the cells they stand for, and functions
with a stand-in call that.
"""

from __future__ import annotations

import re
from typing import Callable, Dict, List, Optional, Set, Tuple

from brinecalc.hosts import spelling
from brinecalc.hosts.formulas import places
from brinecalc.hosts.formulas.lexer import ROW
from brinecalc.hosts.formulas.syntax import FormulaError, Node, parse
from brinecalc.hosts.headless import builtins, narrow
from brinecalc.hosts.headless.library import Library
from brinecalc.hosts.headless.outline import Outline
from brinecalc.hosts.headless.shapes import (
    CONSTANT,
    MANY,
    MAYBE,
    ONE,
    PLAIN,
    PRODUCT,
    WHOLE,
    Distrust,
    Exact,
    Part,
    Verdict,
)

_LONGEST = 8192  # characters of a formula in a file
_MOST_TERMS = 200
_PLACES = ("ROW", "COLUMN")  # where a cell was; of a cell that is no more the error itself, in every program
_BY_ROW = re.compile(rf"\$?[A-Z]*\$?(?:{ROW}|\d+|)")
_PLAIN_SHEET = re.compile("[A-Za-z]{4,}")  # no shorter ones: they name columns
_WATCHES = {"k": "WATCH", "d": "DAY", "h": "MOMENT"}
_COMPARE = {"=": "EQ", "<>": "NE", "<": "LT", "<=": "LE", ">": "GT", ">=": "GE"}


class Judge:
    """Judges formulas of workbooks of one layout; equal formulas of a column are judged once."""

    def __init__(self, book: Outline, library: Library) -> None:
        self.book = book
        self.library = library
        self._known: Dict[Tuple[str, int, str], Optional[Verdict]] = {}
        self._judged = 0
        self.used: Set[str] = set()
        """The worksheet functions that trusted formulas call."""

    def known(self) -> int:
        """How many formulas it has judged."""
        return len(self._known)

    def verdict(self, formula: str, sheet: str, row: int, mode: int = PLAIN) -> Verdict:
        """The verdict on a formula in that row; `mode` tells a plain formula from an array formula."""
        key = places.by_row(formula, row)
        if key is None:
            return Verdict("", "it holds a character that no program writes (U+E000)", (), 0)
        at = (sheet, mode, key)
        if at not in self._known:
            self._known[at] = self._judge(key, sheet, mode, "ROW()")  # alike in every row, so read by the engine once
        known = self._known[at]
        if known is not None:
            return known
        at = (sheet, mode, "=" + formula)  # no key begins so: the row's number matters to this formula
        known = self._known.get(at) or self._judge(formula, sheet, mode, "0")
        self._known[at] = known
        if known is None:
            raise AssertionError("a formula without the sign for its row cannot ask to be judged exactly")
        return known

    def _judge(self, formula: str, sheet: str, mode: int, row: str) -> Optional[Verdict]:
        self._judged += 1
        walk = _Walk(self.book, self.library, sheet, f"{self._judged},{row}")
        try:
            if len(formula) > _LONGEST:
                raise Distrust(f"it is longer than {_LONGEST} characters")
            text = walk.top(parse(formula), mode)
            self.used |= walk.used
            return Verdict(text, None, tuple(walk.reads), self._judged)
        except Exact:
            return None
        except FormulaError as error:
            return Verdict("", f"the formula {error}", (), 0)
        except RecursionError:
            return Verdict("", "its brackets are nested too deeply", (), 0)
        except Distrust as why:
            return Verdict("", str(why), (), 0)


class _Walk:
    """One walk over one formula. Each method gives a part as the engine shall read it."""

    def __init__(self, book: Outline, library: Library, sheet: str, mark: str) -> None:
        self.book = book
        self.library = library
        self.sheet = sheet
        self.mark = mark  # tells a watch which formula, and in which row, it watches
        self.reads: List[Tuple[str, str]] = []
        self.used: Set[str] = set()

    def top(self, node: Node, mode: int) -> str:
        part = self.part(node, mode)
        if mode != PLAIN or part.shape == ONE:
            return part.text
        if part.shape == MAYBE:
            return self.single(part, "it").text
        if node.kind in ("area", "columns", "name"):
            raise Distrust("it takes one cell of a range by position; write the cell itself")
        raise Distrust("its result is larger than one cell")

    def part(self, node: Node, mode: int) -> Part:
        if node.kind == "odd":
            raise Distrust(node.text)
        method: Callable[[Node, int], Part] = getattr(self, f"_{node.kind}")
        return method(node, mode)

    def single(self, part: Part, what: str) -> Part:
        """The part as one value; what may turn out to be several is watched while it is computed."""
        if part.shape == ONE:
            return part
        if part.shape == MAYBE:
            return Part(part.alone or f"BRINE__ONE({self.mark},{part.text})", ONE, part.kind)
        raise Distrust(f"{what} takes single cells, and here it is given a range")

    # ---- constants and references

    def _number(self, node: Node, mode: int) -> Part:
        if float(node.text.replace(ROW, "1")) > 1e308:
            raise Distrust(f"the number {node.text[:20]} is too large")
        return Part(node.text, ONE, "n")

    def _string(self, node: Node, mode: int) -> Part:
        return Part(node.text, ONE, "t")

    def _error(self, node: Node, mode: int) -> Part:
        return Part(node.text, ONE, "v")

    def _logical(self, node: Node, mode: int) -> Part:
        return Part(node.text, ONE, "l")

    def _missing(self, node: Node, mode: int) -> Part:
        return Part("", ONE, "v")

    def _array(self, node: Node, mode: int) -> Part:
        rows = [[self.part(cell, mode).text for cell in row.parts] for row in node.parts]
        text = "{" + ";".join(",".join(row) for row in rows) + "}"
        return Part(text, ONE if len(rows) == len(rows[0]) == 1 else CONSTANT, "v")

    def _area(self, node: Node, mode: int) -> Part:
        sheet, prefix = self._sheet(node)
        text = node.text.upper()
        if ROW in text and not all(_BY_ROW.fullmatch(end) for end in text.split(":")):
            raise Exact  # the row's digits are only a part of another row's number
        try:
            found = places.area(text.replace(ROW, "1"))
        except ValueError:
            raise Distrust(f"{node.text.replace(ROW, '1')} is neither a cell nor a known name") from None
        single = ":" not in text or (ROW not in text and found.single)
        self.reads.append((sheet, text))
        return Part(prefix + text, ONE if single else MANY, "v")

    def _columns(self, node: Node, mode: int) -> Part:
        return self._area(node, mode)

    def _rows(self, node: Node, mode: int) -> Part:
        raise Distrust("it refers to whole rows; give the exact range")

    def _sheet(self, node: Node) -> Tuple[str, str]:
        """The sheet that a reference is on, and what the engine needs before it."""
        if not node.sheet:
            return self.sheet, ""
        name = node.sheet[:-1]
        if name.startswith("'"):
            name = name[1:-1].replace("''", "'")
        if "[" in name:
            raise Distrust("it reads another workbook, which is not opened")
        known = None if ROW in name else self.book.sheet(name)
        if known is None:
            if ROW in name:
                raise Exact
            raise Distrust(
                "it adds up several sheets (a 3-D reference)" if ":" in name else f"there is no sheet “{name[:40]}”"
            )
        return known, _prefix(known)

    def _name(self, node: Node, mode: int) -> Part:
        """A defined name becomes what it stands for."""
        if ROW in node.text:
            raise Exact
        text = self.book.name(node.text, self._sheet(node)[0])
        if text is None:
            raise Distrust(f"{node.text[:60]} is not a known name")
        try:
            meant = parse(text)
        except FormulaError:
            meant = Node("odd")
        plain = meant
        while plain.kind in ("minus", "plus", "percent"):
            plain = plain.parts[0]
        if plain.kind in ("number", "string", "logical"):
            part = self.part(meant, mode)
            return Part(f"({part.text})", ONE, part.kind)
        signs = 1 if meant.kind == "columns" else 2
        fixed = all(end.count("$") == signs for end in meant.text.split(":"))
        if meant.sheet and meant.kind in ("area", "columns") and fixed:
            return self._area(meant, mode)
        raise Distrust(f"the name {node.text[:60]} stands for more than one range or constant")

    # ---- operators

    def _group(self, node: Node, mode: int) -> Part:
        part = self.part(node.parts[0], mode)
        return Part(f"({part.text})", part.shape, part.kind, part.alone and f"({part.alone})")

    def _minus(self, node: Node, mode: int) -> Part:
        part = self._operand(node.parts[0], mode)
        return Part("-" + part.text, part.shape, "n")

    def _plus(self, node: Node, mode: int) -> Part:
        part = self._operand(node.parts[0], mode)
        return Part("+" + part.text, part.shape, part.kind)

    def _percent(self, node: Node, mode: int) -> Part:
        part = self._operand(node.parts[0], mode)
        return Part(part.text + "%", part.shape, "n")

    def _operand(self, node: Node, mode: int) -> Part:
        part = self.part(node, mode)
        if mode != PLAIN or part.shape in (ONE, CONSTANT):
            return part
        if part.shape == MAYBE:
            return self.single(part, "an operator")
        raise Distrust("it calculates with a range where one cell is expected; use SUMPRODUCT or an array formula")

    def _chain(self, node: Node, mode: int) -> Part:
        parts = [self._operand(part, mode) for part in node.parts]
        shape = max(part.shape for part in parts)
        if node.ops[0] == "&":
            return _joined(parts, shape)
        if node.ops[0] in _COMPARE:
            return self._compared(node, parts, shape)
        if "-" in node.ops and shape == ONE and len(parts) <= _MOST_TERMS and not narrow.is_whole(node):
            terms = [parts[0].text] + [p.text if op == "+" else f"-({p.text})" for op, p in zip(node.ops, parts[1:])]
            return Part(f"BRINE__ADD({','.join(terms)})", ONE, "n")
        return Part(_alternate(parts, node.ops), shape, "n")

    def _compared(self, node: Node, parts: List[Part], shape: int) -> Part:
        if shape != ONE:
            return Part(_alternate(parts, node.ops), shape, "l")
        if narrow.is_plain(node):
            return Part(f"({_alternate(parts, node.ops)})", ONE, "l")
        text = parts[0].text
        for op, part in zip(node.ops, parts[1:]):
            mark = "" if op in ("=", "<>") else f"{self.mark},"
            text = f"BRINE__{_COMPARE[op]}({mark}{text},{part.text})"
        return Part(text, ONE, "l")

    # ---- functions

    def _call(self, node: Node, mode: int) -> Part:
        if ROW in node.text:
            raise Exact
        ours = spelling.canonical(node.text)
        if node.sheet and not (ours and spelling.is_add_in(node.sheet)):
            raise Distrust(f"{node.text[:60]} belongs to another workbook")
        if ours:
            return self._ours(ours, node, mode)
        name = builtins.bare(node.text)
        rule = builtins.rule(name)
        if rule is None:
            raise Distrust(builtins.refusal(name[:60]))
        if not rule.fits(len(node.parts)):
            raise Distrust(f"{name} cannot take {len(node.parts)} arguments")
        return self._builtin(rule, node, mode)

    def _ours(self, name: str, node: Node, mode: int) -> Part:
        unknown = self.library.unknown(name)
        if unknown:
            raise Distrust(unknown)
        self.used.add(name)
        texts = []
        shape = MANY if self.library.gives_table(name) else ONE
        for index, argument in enumerate(node.parts):
            if narrow.bare(argument).kind == "columns":
                raise Distrust(f"{name} is given whole columns; give the exact range")
            part = self.part(argument, mode)
            texts.append('""' if argument.kind == "missing" else part.text)
            if part.shape != ONE and self.library.by_cell(name, index):
                shape = max(shape, MANY if part.shape == CONSTANT else part.shape)
        return Part(f"{name}({','.join(texts)})", shape, "v")

    def _builtin(self, rule: builtins.Rule, node: Node, mode: int) -> Part:
        inner = max(mode, PRODUCT) if rule.name == "SUMPRODUCT" else mode
        given: List[Part] = []
        for index, argument in enumerate(node.parts):
            letter = rule.letter(index) or "v"
            part = self.part(argument, inner)
            lost = argument.kind == "error" and rule.name in _PLACES
            if letter == "R" and not (lost or narrow.is_reference(argument)):
                raise Distrust(f"{rule.name} needs a range of cells, not a calculated one")
            if letter in "su":
                part = self._term(part, argument, rule, letter)
            elif letter not in "rRp" and not (rule.name == "IF" and mode == WHOLE):
                part = self._value(part, argument, letter, rule)
            given.append(part)
        call = narrow.Call(rule.name, node.parts, given, mode, self.book, self.mark)
        text = narrow.check(call) or _written(rule, given, self.mark)
        shape, kind = _result(rule, given)
        shape = narrow.sharpen(call, shape)
        return Part(text, shape, kind, self._alone(call, text) if shape == MAYBE else "")

    def _alone(self, call: narrow.Call, text: str) -> str:
        """How a call that may give several values reads where it must give one, with the watch asked seldom."""
        if call.name == "IF":
            return f"IF({','.join(self.single(part, call.name).text for part in call.given)})"
        several = narrow.several(call)
        return f"IF({several},BRINE__ONE({self.mark},{text}),{text})" if several else ""

    def _value(self, part: Part, argument: Node, letter: str, rule: builtins.Rule) -> Part:
        """An argument that must be one value, written out as a text where the function reads one."""
        if argument.kind == "missing":
            return Part('""' if letter == "t" else "0" if rule.stand_in else "", ONE, letter)
        one = self.single(part, rule.name)
        watch = _WATCHES.get(letter)
        if watch and (one.kind != "n" or letter == "d"):
            return Part(f"BRINE__{watch}({self.mark},{one.text})", ONE, "v")
        if letter == "t" and not rule.stand_in and one.kind != "t":
            return Part(f"BRINE__TEXT({one.text})", ONE, "t")
        return one

    def _term(self, part: Part, argument: Node, rule: builtins.Rule, letter: str) -> Part:
        """A term of a sum or count. In a cell texts and blanks count for nothing; calculated ones differ."""
        reference = narrow.refers(argument)
        several = part.shape in (CONSTANT, MANY) or (part.shape == MAYBE and reference is False)
        if several or reference or part.kind == "n" or (part.kind == "l" and reference is False):
            return part
        watch = "COUNTED" if letter == "u" else "PICKED" if reference is None else "ENTRY"
        if watch == "ENTRY" and rule.name in ("SUM", "SUMSQ"):
            watch = "TERM"
        return Part(f"BRINE__{watch}({self.mark},{part.text})", part.shape, "v")


def _prefix(sheet: str) -> str:
    """A sheet's name before a reference; without quotation marks the engine reads formulas that are alike only once."""
    if _PLAIN_SHEET.fullmatch(sheet):
        return f"{sheet}!"
    quoted = sheet.replace("'", "''")
    return f"'{quoted}'!"


def _alternate(parts: List[Part], ops: Tuple[str, ...]) -> str:
    text = parts[0].text
    for op, part in zip(ops, parts[1:]):
        text += op + part.text
    return text


def _joined(parts: List[Part], shape: int) -> Part:
    if shape == ONE and len(parts) <= _MOST_TERMS:
        return Part(f"BRINE__JOIN({','.join(part.text for part in parts)})", ONE, "t")
    texts = [part if part.kind == "t" else Part(f"BRINE__TEXT({part.text})", part.shape, "t") for part in parts]
    return Part(_alternate(texts, ("&",) * (len(parts) - 1)), shape, "t")


def _written(rule: builtins.Rule, given: List[Part], mark: str) -> str:
    arguments = ",".join(part.text for part in given)
    if rule.stand_in.startswith("!"):
        return f"BRINE__{rule.stand_in[1:]}({mark},{arguments})"
    return f"BRINE__{rule.stand_in}({arguments})" if rule.stand_in else f"{rule.name}({arguments})"


def _result(rule: builtins.Rule, given: List[Part]) -> Tuple[int, str]:
    if rule.result == "p":
        first = given[0].shape if rule.name == "IF" else ONE
        picked = [part for i, part in enumerate(given) if rule.letter(i) == "p"]
        kinds = {part.kind for part in picked}
        return max(first, *(part.shape for part in picked)), kinds.pop() if len(kinds) == 1 else "v"
    if rule.result == "a":
        return MANY, "v"
    return (MAYBE, "v") if rule.result == "m" else (ONE, rule.result)
