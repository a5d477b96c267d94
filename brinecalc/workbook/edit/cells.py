"""Reading a cell's value out of its bytes, and writing one.

One idea: a text goes into its own cell, not into the list that all sheets share, so that one sheet can be changed
without touching another part. Spreadsheet programs move it into the list when they save.
"""

from __future__ import annotations

import re
from typing import List, NamedTuple, Optional, Union

from brinecalc.hosts.formulas import places
from brinecalc.hosts.headless import markup

Value = Union[None, float, str, bool, "Fault"]


class Fault(NamedTuple):
    """An error value, by its text: #NUM! …"""

    text: str


_CODED = re.compile(r"_x([0-9A-Fa-f]{4})_")


class Found(NamedTuple):
    """What stands in a cell: its formula if it has one, and its value as the file has it."""

    formula: Optional[str]
    value: Value


def read(data: bytes, kind: str, shared: List[str]) -> Found:
    """The content of one cell, given by its bytes and its type; `shared` are the texts of the whole workbook."""
    formula: Optional[str] = None
    text: Optional[str] = None
    inline: List[str] = []
    for name, _, words in markup.elements(data, "a cell", ("f", "v", "t")):
        if name == "f":
            formula = words
        elif name == "v":
            text = words
        else:
            inline.append(words)
    return Found(formula, _value(kind, text, "".join(inline), shared))


def _value(kind: str, text: Optional[str], inline: str, shared: List[str]) -> Value:
    if kind == "inlineStr":
        return _decoded(inline)
    if text is None:
        return None
    if kind == "s":
        index = int(text) if text.strip().isdigit() else -1
        return shared[index] if 0 <= index < len(shared) else None
    if kind == "b":
        return text.strip() in ("1", "true")
    if kind == "e":
        return Fault(text)
    if kind in ("str", "d"):
        return _decoded(text)
    try:
        return float(text)
    except ValueError:
        return text


def _decoded(text: str) -> str:
    return _CODED.sub(lambda match: chr(int(match[1], 16)), text)


def shared_texts(data: bytes, part: str) -> List[str]:
    """The texts that the sheets of a workbook share, by number; ruby and layout are left out."""
    texts: List[str] = []
    reader = markup.parser(part)
    stack: List[str] = []
    words: List[str] = []

    def start(name: str, attributes: object) -> None:
        stack.append(markup.local(name))
        if stack[-1] == "si":
            words.clear()

    def end(name: str) -> None:
        if stack.pop() == "si":
            texts.append(_decoded("".join(words)))

    def characters(text: str) -> None:
        if stack and stack[-1] == "t" and "rPh" not in stack:
            words.append(text)

    reader.StartElementHandler = start
    reader.EndElementHandler = end
    reader.CharacterDataHandler = characters
    markup.run(reader, data, part)
    return texts


def written(prefix: str, row: int, col: int, style: str, value: Value, formula: Optional[str] = None) -> bytes:
    """A whole cell."""
    kind, content = _content(prefix, value, formula is not None)
    head = f'<{prefix}c r="{places.name(row, col)}"' + (f' s="{style}"' if style else "") + kind
    if formula is not None:
        content = f"<{prefix}f>{markup.escape(formula)}</{prefix}f>" + content
    return (f"{head}>{content}</{prefix}c>" if content else f"{head}/>").encode()


def _content(prefix: str, value: Value, computed: bool) -> "tuple[str, str]":
    if value is None:
        return "", ""
    if isinstance(value, bool):
        return ' t="b"', f"<{prefix}v>{int(value)}</{prefix}v>"
    if isinstance(value, Fault):
        return ' t="e"', f"<{prefix}v>{markup.escape(value.text)}</{prefix}v>"
    if isinstance(value, str):
        words = markup.escape(markup.coded(value))
        keep = ' xml:space="preserve"' if value != value.strip() or "\n" in value else ""
        if computed:
            return ' t="str"', f"<{prefix}v{keep}>{words}</{prefix}v>"
        return ' t="inlineStr"', f"<{prefix}is><{prefix}t{keep}>{words}</{prefix}t></{prefix}is>"
    number = float(value)
    return "", f"<{prefix}v>{int(number) if number.is_integer() and abs(number) < 1e15 else repr(number)}</{prefix}v>"
