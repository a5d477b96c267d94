"""Reads the tokens of a formula into a tree.

One idea: a node keeps its kind and its parts, and a run of operators of equal rank is one node however long it is.
So the tree is only as deep as the formula's brackets, and a walk over it needs no more stack than they do. What is
legal in a file but outside what is computed here (a union of ranges, a table reference) is still read, as a node of
kind ``odd`` with the reason in its text.
"""

from __future__ import annotations

from typing import Dict, List, Tuple

from brinecalc.hosts.formulas.lexer import kinds_and_texts

DEEPEST = 80
"""Brackets within brackets that are read; spreadsheet programs stop at 64."""

_RANKS: Dict[str, int] = {
    op: rank for rank, ops in enumerate(("= <> < > <= >=", "&", "+ -", "* /", "^")) for op in ops.split()
}
"""How tightly an operator binds; 0 is the loosest."""

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
    return _Reader(formula.strip().removeprefix("=")).whole()


class _Reader:
    """Goes along the tokens; `kind` and `text` are those of the one it stands at."""

    def __init__(self, formula: str) -> None:
        self.kinds, self.texts = kinds_and_texts(formula)
        self.at = -1
        self.depth = 0
        self.step()

    def step(self) -> None:
        """On to the next token; past the last one the kind is ``end``."""
        self.at += 1
        self.kind = self.kinds[self.at]
        self.text = self.texts[self.at]

    def whole(self) -> Node:
        if self.kind == "end":
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
        if self.text == "%":
            return FormulaError("has a per cent sign that stands behind no number; write it right behind, as in 5%")
        return FormulaError(f"cannot be read at “{self.text[:20]}”")

    def take(self, text: str) -> None:
        if self.text != text:
            raise self.wrong()
        self.step()

    def expression(self) -> Node:
        """Operands with operators between them; all are taken in first and put in order of rank afterwards."""
        parts, ops = [self.signed()], []
        while self.kind == "op" and self.text != "%":
            ops.append(self.text)
            self.step()
            parts.append(self.signed())
        return _ranked(parts, ops)

    def signed(self) -> Node:
        """Signs before and per cent signs after; both bind tighter than any other operator."""
        minuses, plus = 0, False
        while self.kind == "op" and self.text in ("-", "+"):
            minuses += self.text == "-"
            plus = True
            self.step()
        marked = self.text == "@"
        if marked:
            self.step()
        node = self.reference()
        while self.kind == "op" and self.text == "%":
            node = Node("percent", parts=(node,))
            self.step()
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
            self.step()
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
            self.step()
            return Node(kind, text)
        if kind == "prefix":
            return self.prefixed()
        if kind == "call":
            self.step()
            return self.call(text)
        if kind in ("area", "columns", "rows"):
            self.step()
            return Node(kind, text)
        if kind == "name":
            return self.name()
        if kind == "bracket":
            self.step()
            return Node("odd", "it refers to a column of a table")
        if text == "(":
            return self.group()
        if text == "{":
            return self.array()
        raise self.wrong()

    def name(self) -> Node:
        text = self.text
        self.step()
        if self.kind == "bracket":
            self.step()
            return Node("odd", f"it refers to the table {text}; write the range of cells instead")
        return Node("logical", text.upper()) if text.upper() in ("TRUE", "FALSE") else Node("name", text)

    def prefixed(self) -> Node:
        """What stands after a sheet name: a reference, a name or, from an add-in, a function."""
        sheet = self.text
        self.step()
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
                self.step()
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
            self.step()
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
            self.step()
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


def _ranked(parts: List[Node], ops: List[str]) -> Node:
    """The tree of a flat run of operands: the loosest operators on top."""
    if not ops:
        return parts[0]
    ranks = [_RANKS[op] for op in ops]
    loosest = min(ranks)
    if loosest == max(ranks):
        return Node("chain", parts=tuple(parts), ops=tuple(ops))
    outer: List[Node] = []
    begin = 0
    for index, rank in enumerate([*ranks, loosest]):
        if rank == loosest:
            outer.append(_ranked(parts[begin : index + 1], ops[begin:index]))
            begin = index + 1
    return Node("chain", parts=tuple(outer), ops=tuple(op for op, rank in zip(ops, ranks) if rank == loosest))
