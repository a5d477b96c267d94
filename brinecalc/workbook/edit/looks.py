"""The cell styles of a workbook: what they allow, how they show numbers, and a few more of our own.

One idea: styles are only ever added at the end of their lists, so every style that a cell already has keeps its
number and its look.
"""

from __future__ import annotations

import re
from typing import Dict, List, NamedTuple, Optional

from brinecalc.hosts.headless.markup import escape
from brinecalc.workbook.edit import tags
from brinecalc.workbook.edit.book import Edit

_XF = re.compile(rb"<(?:\w+:)?xf\b(?:[^>\"']|\"[^\"]*\"|'[^']*')*?(?:/>|>.*?</(?:\w+:)?xf>)", re.DOTALL)
_FORMAT = re.compile(rb"<(?:\w+:)?numFmt\b[^>]*>")
_DATES = frozenset((*range(14, 23), *range(27, 37), *range(45, 48), *range(50, 59)))
_SHARES = frozenset((9, 10))
_WORDS_IN_CODES = re.compile(r'"[^"]*"|\\.|\[[^\]]*\]')


class Look(NamedTuple):
    """A style of our own: type, ground, and how words stand."""

    size: int = 10
    bold: bool = False
    ground: Optional[str] = None
    wrap: bool = False
    quoted: bool = False  # the text may begin with an equals sign and stays a text


class Looks:
    """The styles of one workbook, as they stand in its styles part."""

    def __init__(self, edit: Edit) -> None:
        self.edit = edit
        self.part = next((part for part in edit.part_names() if part.endswith("/styles.xml")), "")
        self._added: Dict[Look, str] = {}
        self._twins: Dict[str, str] = {}
        self._read()

    def _read(self) -> None:
        self.data = self.edit.part(self.part) if self.part else b""
        found = tags.element(self.data, "cellXfs")
        self.xfs: List[bytes] = _XF.findall(self.data[found[1] : found[2]]) if found else []
        self._codes = {
            tags.attribute(tag, "numFmtId") or "": tags.attribute(tag, "formatCode") or ""
            for tag in _FORMAT.findall(self.data)
        }

    def unlocked(self, style: str) -> bool:
        """Whether cells of that style may be typed into while their sheet is protected."""
        xf = self._xf(style)
        protection = tags.element(xf, "protection")
        return protection is not None and tags.attribute(xf[protection[0] : protection[1]], "locked") in ("0", "false")

    def kind(self, style: str) -> str:
        """How numbers of that style are shown: date, share or number."""
        number = tags.attribute(self._xf(style), "numFmtId") or "0"
        code = _WORDS_IN_CODES.sub("", self._codes.get(number, "")).lower()
        if (number.isdigit() and int(number) in _DATES) or any(letter in code for letter in "dyh"):
            return "date"
        return "share" if "%" in code or (number.isdigit() and int(number) in _SHARES) else "number"

    def locked_twin(self, style: str) -> str:
        """The same style, but locked."""
        if style not in self._twins:
            xf = self._xf(style)
            protection = tags.element(xf, "protection")
            if protection is not None:
                start, end = protection[:2]
                xf = xf[:start] + tags.with_attribute(xf[start:end], "locked", "1") + xf[end:]
            self._twins[style] = self._append("cellXfs", xf)
        return self._twins[style]

    def add(self, look: Look) -> str:
        """The number of a style of our own."""
        if look not in self._added:
            bold = "<b/>" if look.bold else ""
            font = self._append("fonts", f'<font>{bold}<sz val="{look.size}"/><name val="Arial"/></font>'.encode())
            fill = "0"
            if look.ground:
                ground = f'<patternFill patternType="solid"><fgColor rgb="FF{escape(look.ground)}"/></patternFill>'
                fill = self._append("fills", f"<fill>{ground}</fill>".encode())
            wrap = ' wrapText="1"' if look.wrap else ""
            quote = ' quotePrefix="1"' if look.quoted else ""
            self._added[look] = self._append(
                "cellXfs",
                f'<xf numFmtId="0" fontId="{font}" fillId="{fill}" borderId="0" xfId="0" applyFont="1" applyFill="1" '
                f'applyAlignment="1"{quote}><alignment horizontal="left" vertical="top"{wrap}/></xf>'.encode(),
            )
        return self._added[look]

    def _xf(self, style: str) -> bytes:
        index = int(style or 0)
        return self.xfs[index] if index < len(self.xfs) else b""

    def _append(self, group: str, xml: bytes) -> str:
        """Adds to one of the lists and answers the number of what was added."""
        found = tags.element(self.data, group)
        if found is None:
            return "0"
        start, end = found[:2]
        count = int(tags.attribute(self.data[start:end], "count") or 0)
        if found[4]:  # the part writes its tags with a prefix
            xml = re.sub(rb"<(/?)(?=[a-z])", rb"<\g<1>" + found[4], xml) if b"<" + found[4] not in xml else xml
        data = self.data[:start] + tags.with_attribute(self.data[start:end], "count", str(count + 1)) + self.data[end:]
        self.data = tags.append(data, group, xml) or data
        self.edit.set_part(self.part, self.data)
        self.xfs = [*self.xfs, xml] if group == "cellXfs" else self.xfs
        return str(count)
