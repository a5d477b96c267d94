"""Cuts a spreadsheet formula into tokens, each with its place in the text.

One idea: one regular expression names every kind of token, and the tokens put together again are the formula, to
the byte. So whoever edits a formula changes single tokens and can never touch a text in quotation marks, a sheet
name or the column heading of a table. ``ROW`` may stand where digits stand: it is the formula's own row number,
which lets all formulas of a column that was filled down be read once.
"""

from __future__ import annotations

import re
from typing import Iterator, List, NamedTuple, Tuple

ROW = "\ue000"
"""Stands for the digits of the formula's own row number."""

_D = f"[0-9{ROW}]"
_WORD = rf"[\w.\\?{ROW}]"
_CELL = rf"\$?[A-Za-z]{{1,3}}\$?{_D}{{1,7}}"
_COLUMN = r"\$?[A-Za-z]{1,3}"
_END = rf"(?![\w.\\?!(\[{ROW}])"

_TOKEN = re.compile(
    rf"""
    (?P<space>[ \t\r\n]+)
  | (?P<string>"(?:[^"]|"")*")
  | (?P<error>\#(?:NULL!|DIV/0!|VALUE!|REF!|NAME\?|NUM!|N/A|GETTING_DATA
              |SPILL!|CALC!|FIELD!|BLOCKED!|CONNECT!|UNKNOWN!))
  | (?P<prefix>(?:'(?:[^']|'')*'|(?:\[[^\[\]]*\])?(?:[\w.{ROW}]+(?::[\w.{ROW}]+)?)?)!)
  | (?P<call>[A-Za-z_\\\u0080-\ud7ff\uf900-\uffff]{_WORD}*(?=\())
  | (?P<area>{_CELL}(?::{_CELL})?{_END})
  | (?P<columns>{_COLUMN}:{_COLUMN}{_END})
  | (?P<rows>\$?{_D}+:\$?{_D}+{_END})
  | (?P<number>(?:{_D}+\.?{_D}*|\.{_D}+)(?:[Ee][+-]?{_D}+)?)
  | (?P<name>[A-Za-z_\\\u0080-\ud7ff\uf900-\uffff]{_WORD}*)
  | (?P<bracket>\[(?:[^\[\]']|'.|\[(?:[^\[\]']|'.)*\])*\])
  | (?P<op><>|<=|>=|[-+*/^&=<>%])
  | (?P<mark>[(){{}},;:@\#~!|])
  | (?P<bad>["'\[].*|.)
    """,
    re.VERBOSE | re.DOTALL,
)


class Token(NamedTuple):
    """A piece of a formula; `kind` is a group name of the expression above."""

    kind: str
    text: str
    start: int

    @property
    def end(self) -> int:
        """The place after it."""
        return self.start + len(self.text)


def tokens(formula: str) -> Iterator[Token]:
    """Every token of a formula, spaces included; joined they are the formula again."""
    for match in _TOKEN.finditer(formula):
        yield Token(match.lastgroup or "bad", match.group(), match.start())


def kinds_and_texts(formula: str) -> Tuple[List[str], List[str]]:
    """The tokens without the spaces, as two lists, each closed by an ``end`` without a text."""
    kinds, texts = [], []
    for match in _TOKEN.finditer(formula):
        kind = match.lastgroup or "bad"
        if kind != "space":
            kinds.append(kind)
            texts.append(match.group())
    return [*kinds, "end"], [*texts, ""]
