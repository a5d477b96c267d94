"""Notes on cells of a finished workbook.

One idea: a note is two things in a file, its text in one part and its box in another that old programs read. A sheet
that has notes already is left as it is: mixing two writers' boxes is how files break.
"""

from __future__ import annotations

import re
from typing import Mapping, Tuple

from brinecalc.hosts.formulas import places
from brinecalc.hosts.headless.markup import MAIN, RELATIONS, escape
from brinecalc.workbook.edit import sheets, tags
from brinecalc.workbook.edit.book import Edit

_COMMENTS = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"
_DRAWING = "application/vnd.openxmlformats-officedocument.vmlDrawing"
_AFTER = (
    "legacyDrawingHF",
    "drawingHF",
    "picture",
    "oleObjects",
    "controls",
    "webPublishItems",
    "tableParts",
    "extLst",
)


def can_take(edit: Edit, sheet: str) -> bool:
    """Whether a sheet has no notes or other old drawings yet, and prints in one piece.

    LibreOffice gives the boxes of notes a page of their own, a blank one, where what prints is in several pieces.
    """
    if "," in (edit.book.name("_xlnm.Print_Area", sheet) or ""):
        return False
    return re.search(rb"<(?:\w+:)?legacyDrawing\b", edit.part(edit.sheets[sheet])) is None


def add(edit: Edit, sheet: str, texts: Mapping[Tuple[int, int], str], author: str) -> None:
    """Puts notes on cells, given by row and column."""
    part = edit.sheets[sheet]
    number = next(n for n in range(1, 10_000) if not edit.has(f"xl/brineNotes{n}.xml"))
    notes, boxes = f"xl/brineNotes{number}.xml", f"xl/drawings/brineNotes{number}.vml"
    edit.set_part(notes, _texts(texts, author))
    edit.set_part(boxes, _boxes(texts))
    sheets.add_kind(edit, notes, _COMMENTS)
    sheets.add_ending(edit, "vml", _DRAWING)
    sheets.relate(edit, part, f"{RELATIONS}/comments", notes)
    relation = sheets.relate(edit, part, f"{RELATIONS}/vmlDrawing", boxes)
    data = edit.part(part)
    root = tags.element(data, "worksheet")
    prefix = root[4] if root else b""
    line = b"<" + prefix + f'legacyDrawing xmlns:rel="{RELATIONS}" rel:id="{relation}"/>'.encode()
    behind = [found[0] for word in _AFTER if (found := tags.element(data, word))]
    at = min(behind) if behind else data.rindex(b"</" + prefix + b"worksheet")
    edit.set_part(part, data[:at] + line + data[at:])


def _texts(texts: Mapping[Tuple[int, int], str], author: str) -> bytes:
    notes = "".join(
        f'<comment ref="{places.name(*cell)}" authorId="0"><text><r><rPr><sz val="9"/><rFont val="Arial"/></rPr>'
        f'<t xml:space="preserve">{escape(text)}</t></r></text></comment>'
        for cell, text in sorted(texts.items())
    )
    return (
        f'<comments xmlns="{MAIN}"><authors><author>{escape(author)}</author></authors>'
        f"<commentList>{notes}</commentList></comments>"
    ).encode()


def _boxes(texts: Mapping[Tuple[int, int], str]) -> bytes:
    shapes = []
    for number, (row, col) in enumerate(sorted(texts), 1):
        anchor = f"{col}, 12, {max(row - 2, 0)}, 4, {col + 5}, 12, {row + 5}, 4"
        shapes.append(
            f'<v:shape id="_x0000_s{1024 + number}" type="#_x0000_t202" style="position:absolute;visibility:hidden" '
            'fillcolor="#ffffe1" o:insetmode="auto"><v:fill color2="#ffffe1"/><v:textbox/><x:ClientData ObjectType="Note">'
            f"<x:MoveWithCells/><x:SizeWithCells/><x:Anchor>{anchor}</x:Anchor><x:AutoFill>False</x:AutoFill>"
            f"<x:Row>{row - 1}</x:Row><x:Column>{col - 1}</x:Column></x:ClientData></v:shape>"
        )
    return (
        '<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" '
        'xmlns:x="urn:schemas-microsoft-com:office:excel"><o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="1"/>'
        '</o:shapelayout><v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" '
        'path="m,l,21600r21600,l21600,xe"><v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/>'
        f"</v:shapetype>{''.join(shapes)}</xml>"
    ).encode()
