"""Writes the UNO type library of the add-in, the binary form of an interface with one method per function.

One idea: LibreOffice calls an add-in through compiled interface types. The compiled form is a small sorted map of
names and offsets, so it is written here directly; nobody needs LibreOffice's developer kit, and the library in the
extension can never lag behind the functions. Every method takes ``any`` for each argument (so that each may be left
out) and ``sequence<any>`` for a free number of them. It answers with ``any``, which is a single cell, or with rows of
cells where the function always gives a table. Byte for byte the same as the developer kit's compiler makes it, apart
from that compiler's banner; a test compares them.
"""

from __future__ import annotations

import struct
from typing import Dict, NamedTuple, Sequence, Tuple

MODULES = ("brinecalc", "calc")
INTERFACE = "XFunctions"
ROWS = "[][]any"
CELL = "any"
CELLS = "[]any"

_MAGIC = b"UNOIDL\xff\0"
_BANNER = b"\0** written by brinecalc **\0"
_MODULE_KIND = 0
_INTERFACE_KIND = 5
_ELSEWHERE = 0x80000000  # a text's length with this bit set is the offset of the same text
_INPUT = 0


class Method(NamedTuple):
    """A method: its name, the type of its answer, and its parameters as (name, type)."""

    name: str
    answer: str
    parameters: Tuple[Tuple[str, str], ...]


def idl(methods: Sequence[Method]) -> str:
    """The interface in the language of UNO, as a person or the developer kit's compiler reads it."""
    types = {CELL: "any", CELLS: "sequence<any>", ROWS: "sequence< sequence<any> >"}
    lines = [
        f"  {types[method.answer]} {method.name}("
        + ", ".join(f"[in] {types[kind]} {name}" for name, kind in method.parameters)
        + ");"
        for method in methods
    ]
    opening = " ".join(f"module {module} {{" for module in MODULES)
    return "\n".join([f"{opening} interface {INTERFACE} {{", *lines, "};" + " };" * len(MODULES), ""])


def library(methods: Sequence[Method], banner: bytes = _BANNER) -> bytes:
    """The compiled type library of the interface."""
    out = _Writer(_MAGIC + bytes(8) + banner)
    data = len(out.bytes)
    out.interface(methods)
    name = INTERFACE
    for module in reversed(MODULES):
        entry = out.entry(name, data)
        data = len(out.bytes)
        out.bytes += struct.pack("<BI", _MODULE_KIND, 1) + entry
        name = module
    entry = out.entry(name, data)
    root = len(out.bytes)
    out.bytes += entry
    out.bytes[8:16] = struct.pack("<II", root, 1)
    return bytes(out.bytes)


class _Writer:
    """The library as it grows; a text that was written before is pointed to instead of repeated."""

    def __init__(self, start: bytes) -> None:
        self.bytes = bytearray(start)
        self._texts: Dict[str, int] = {}

    def number(self, value: int) -> None:
        self.bytes += struct.pack("<I", value)

    def text(self, text: str) -> None:
        if text in self._texts:
            self.number(self._texts[text] | _ELSEWHERE)
            return
        self._texts[text] = len(self.bytes)
        self.number(len(text))
        self.bytes += text.encode("ascii")

    def entry(self, name: str, data: int) -> bytes:
        """Writes a name and answers with the map entry that joins it to its data."""
        at = len(self.bytes)
        self.bytes += name.encode("ascii") + b"\0"
        return struct.pack("<II", at, data)

    def interface(self, methods: Sequence[Method]) -> None:
        self.bytes.append(_INTERFACE_KIND)
        self.number(1)
        self.text("com.sun.star.uno.XInterface")
        self.number(0)  # optional bases
        self.number(0)  # attributes
        self.number(len(methods))
        for method in methods:
            self.text(method.name)
            self.text(method.answer)
            self.number(len(method.parameters))
            for name, kind in method.parameters:
                self.bytes.append(_INPUT)
                self.text(name)
                self.text(kind)
            self.number(0)  # exceptions
