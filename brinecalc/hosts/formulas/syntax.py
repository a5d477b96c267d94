"""Reads the tokens of a formula into a tree.

One idea: a node keeps its kind and its parts, and a run of operators of equal rank is one node however long it is.
So the tree is only as deep as the formula's brackets, and a walk over it needs no more stack than they do. What is
legal in a file but outside what is computed here (a union of ranges, a table reference) is still read, as a node of
kind ``odd`` with the reason in its text.
"""

from __future__ import annotations

from typing import List, Tuple

from brinecalc.hosts.formulas.lexer import Token, tokens

DEEPEST = 80
"""Brackets within brackets that are read; spreadsheet programs stop at 64."""

_RANKS: Tuple[Tuple[str, ...], ...] = (("=", "<>", "<", ">", "<=", ">="), ("&",), ("+", "-"), ("*", "/"), ("^",))

_REFERENCES = ("area", "name", "columns", "rows", "call", "prefix")


class FormulaError(ValueError):
    """A text that is no formula; the message says where it goes wrong."""


class Node:
    """A part of a formula.

    Kinds: number, string, error, logical, missing, name, area, columns, rows (text); array (parts: rows of
    nodes, each row a node ``row``); group (one part, in brackets); minus, plus, percent (one part); chain
    (parts: operands; ops: operators between them); call (text: name; parts: arguments); odd (text: why).
    A reference keeps its sheet as written, exclamation mark included, in ``sheet``.
    """

    __slots__ = ("kind", "ops", "parts", "sheet", "text")

    def __init__(self, kind: str, text: str = "", parts: Tuple["Node", ...] = (), ops: Tuple[str, ...] = ()) -> None:
        self.kind = kind
        self.text = text
        self.parts = parts
        self.ops = ops
        self.sheet = ""


def parse(formula: str) -> Node:
    """The tree of a formula; a leading equals sign is allowed."""
    return _Reader([token for token in tokens(formula.strip().removeprefix("=")) if token.kind != "space"]).whole()


class _Reader:
    def __init__(self, cut: List[Token]) -> None:
        self.cut = cut
        self.at = 0
        self.depth = 0

    @property
    def text(self) -> str:
        return self.cut[self.at].text if self.at < len(self.cut) else ""

    @property
    def kind(self) -> str:
        return self.cut[self.at].kind if self.at < len(self.cut) else "end"

    def whole(self) -> Node:
        if not self.cut:
            raise FormulaError("is empty")
        node = self.expression()
        if self.kind != "end":
            raise self.wrong()
        return node

    def wrong(self) -> FormulaError:
        if self.kind == "end":
            return FormulaError("ends too early")
        if self.text == ";":
            return FormulaError("has a semicolon where a comma belongs")
        return FormulaError(f"cannot be read at “{self.text[:20]}”")

    def take(self, text: str) -> None:
        if self.text != text:
            raise self.wrong()
        self.at += 1

    def expression(self) -> Node:
        """Operands with operators between them; all are taken in first and put in order of rank afterwards."""
        parts, ops = [self.signed()], []
        while self.kind == "op" and self.text != "%":
            ops.append(self.text)
            self.at += 1
            parts.append(self.signed())
        return _ranked(parts, ops, 0)

    def signed(self) -> Node:
        """Signs before and per cent signs after; both bind tighter than any other operator."""
        minuses, plus = 0, False
        while self.kind == "op" and self.text in ("-", "+"):
            minuses += self.text == "-"
            plus = True
            self.at += 1
        marked = self.text == "@"
        if marked:
            self.at += 1
        node = self.reference()
        while self.kind == "op" and self.text == "%":
            node = Node("percent", parts=(node,))
            self.at += 1
        if marked:
            node = Node("odd", "it takes one cell of a range by position (the @ sign)")
        if minuses:  # an even number changes no sign, but still makes a number of a text
            node = Node("minus", parts=(node,))
            return node if minuses % 2 else Node("minus", parts=(node,))
        return Node("plus", parts=(node,)) if plus else node

    def reference(self) -> Node:
        """A primary, with what may follow it in a reference."""
        node = self.primary()
        while self.text in (":", "#", "~", "!", "|"):
            mark = self.text
            self.at += 1
            if mark == "#":
                node = Node("odd", "it refers to a spilled range (the # sign)")
            else:
                self.primary()
                node = Node("odd", "it builds a range from parts")
        if self.kind in _REFERENCES and node.kind in ("area", "name", "columns", "rows"):
            self.primary()
            return Node("odd", "it takes the crossing of two ranges (a space between them)")
        return node

    def primary(self) -> Node:
        kind, text = self.kind, self.text
        if kind in ("number", "string", "error"):
            self.at += 1
            return Node(kind, text)
        if kind == "prefix":
            return self.prefixed()
        if kind == "call":
            self.at += 1
            return self.call(text)
        if kind in ("area", "columns", "rows"):
            self.at += 1
            return Node(kind, text)
        if kind == "name":
            return self.name()
        if kind == "bracket":
            self.at += 1
            return Node("odd", "it refers to a column of a table")
        if text == "(":
            return self.group()
        if text == "{":
            return self.array()
        raise self.wrong()

    def name(self) -> Node:
        text = self.text
        self.at += 1
        if self.kind == "bracket":
            self.at += 1
            return Node("odd", f"it refers to the table {text}; write the range of cells instead")
        return Node("logical", text.upper()) if text.upper() in ("TRUE", "FALSE") else Node("name", text)

    def prefixed(self) -> Node:
        """What stands after a sheet name: a reference, a name or, from an add-in, a function."""
        sheet = self.text
        self.at += 1
        if self.kind not in ("area", "columns", "rows", "name", "call", "error"):
            raise self.wrong()
        node = self.primary()
        node.sheet = sheet
        return node

    def call(self, name: str) -> Node:
        self.deeper()
        self.take("(")
        parts: List[Node] = []
        if self.text != ")":
            parts.append(self.argument())
            while self.text == ",":
                self.at += 1
                parts.append(self.argument())
        self.take(")")
        self.depth -= 1
        return Node("call", name, tuple(parts))

    def argument(self) -> Node:
        if self.text in (",", ")"):
            return Node("missing")
        return self.expression()

    def group(self) -> Node:
        self.deeper()
        self.take("(")
        node = self.expression()
        union = False
        while self.text == ",":
            self.at += 1
            self.expression()
            union = True
        self.take(")")
        self.depth -= 1
        return Node("odd", "it joins several ranges into one (a union)") if union else Node("group", parts=(node,))

    def array(self) -> Node:
        """An array constant: rows apart by ``;``, cells by ``,``."""
        self.take("{")
        rows: List[Node] = []
        cells = [self.constant()]
        while self.text in (",", ";"):
            if self.text == ";":
                rows.append(Node("row", parts=tuple(cells)))
                cells = []
            self.at += 1
            cells.append(self.constant())
        rows.append(Node("row", parts=tuple(cells)))
        self.take("}")
        if len({len(row.parts) for row in rows}) != 1:
            raise FormulaError("has an array whose rows differ in length")
        return Node("array", parts=tuple(rows))

    def constant(self) -> Node:
        node = self.signed()
        inner = node
        while inner.kind in ("minus", "plus", "percent"):
            inner = inner.parts[0]
        if inner.kind not in ("number", "string", "error", "logical"):
            raise FormulaError("has an array of anything but constants")
        return node

    def deeper(self) -> None:
        self.depth += 1
        if self.depth > DEEPEST:
            raise FormulaError(f"has more than {DEEPEST} brackets within brackets")


def _ranked(parts: List[Node], ops: List[str], level: int) -> Node:
    """The tree of a flat run of operands: the weakest operators on top."""
    if not ops:
        return parts[0]
    while not any(op in _RANKS[level] for op in ops):
        level += 1
    outer: List[Node] = []
    kept: List[str] = []
    begin = 0
    for index, op in enumerate([*ops, ""]):
        if op == "" or op in _RANKS[level]:
            outer.append(_ranked(parts[begin : index + 1], ops[begin:index], level))
            kept.append(op)
            begin = index + 1
    return Node("chain", parts=tuple(outer), ops=tuple(kept[:-1]))
