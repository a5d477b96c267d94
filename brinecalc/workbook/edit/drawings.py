"""Charts taken off a sheet, with all that the file holds of them.

One idea: a chart that is only out of sight still carries its figures, so the anchor, the relation, the part and its
entry in the list of kinds go together.
"""

from __future__ import annotations

import posixpath
import re
from typing import Dict

from brinecalc.hosts.formulas.places import Area
from brinecalc.workbook.edit import tags
from brinecalc.workbook.edit.book import Edit

_ANCHOR = re.compile(rb"<((?:\w+:)?(?:oneCell|twoCell|absolute)Anchor)\b.*?</\1>", re.DOTALL)
_FROM = re.compile(rb"<(?:\w+:)?from>.*?<(?:\w+:)?col>(\d+)</.*?<(?:\w+:)?row>(\d+)</", re.DOTALL)
_CHART = re.compile(rb"<(?:\w+:)?chart\b[^>]*>")
_RELATION = re.compile(rb"<(?:\w+:)?Relationship\b[^>]*>")


def drop_charts(edit: Edit, sheet: str, area: Area) -> int:
    """Takes out the charts whose upper left corner lies in the area; answers how many."""
    count = 0
    for drawing in _targets(edit, edit.sheets[sheet]).values():
        if "/drawings/" in drawing and drawing.endswith(".xml") and edit.has(drawing):
            count += _drop_from(edit, drawing, area)
    return count


def _drop_from(edit: Edit, drawing: str, area: Area) -> int:
    charts = _targets(edit, drawing)
    gone = []

    def cut(match: "re.Match[bytes]") -> bytes:
        at, chart = _FROM.search(match[0]), _CHART.search(match[0])
        if at is None or chart is None:
            return match[0]
        col, row = int(at[1]) + 1, int(at[2]) + 1
        if not (area.left <= col <= area.right and area.top <= row <= area.bottom):
            return match[0]
        named = next((name for name in ("r:id", "rel:id") if tags.attribute(chart[0], name)), "r:id")
        gone.append(tags.attribute(chart[0], named) or "")
        return b""

    data = _ANCHOR.sub(cut, edit.part(drawing))
    if gone:
        edit.set_part(drawing, data)
    for relation in gone:
        if relation in charts:
            _drop_part(edit, drawing, relation, charts[relation])
    return len(gone)


def _drop_part(edit: Edit, drawing: str, relation: str, part: str) -> None:
    """Takes out a part, what it alone relates to, the relation to it and its entry in the list of kinds."""
    for inner in _targets(edit, part).values():
        if edit.has(inner):
            _forget(edit, inner)
    if edit.has(_relations(part)):
        edit.drop_part(_relations(part))
    _forget(edit, part)
    place = _relations(drawing)
    data = edit.part(place)
    for tag in _RELATION.findall(data):
        if tags.attribute(tag, "Id") == relation:
            data = data.replace(tag, b"", 1)
    edit.set_part(place, data)


def _forget(edit: Edit, part: str) -> None:
    edit.drop_part(part)
    kinds = "[Content_Types].xml"
    entry = rb'<(?:\w+:)?Override\b[^>]*PartName="/' + re.escape(part.encode()) + rb'"[^>]*/>'
    edit.set_part(kinds, re.sub(entry, b"", edit.part(kinds)))


def _relations(part: str) -> str:
    folder, base = posixpath.split(part)
    return posixpath.join(folder, "_rels", base + ".rels")


def _targets(edit: Edit, part: str) -> Dict[str, str]:
    """What a part relates to inside the file, by the relation's id."""
    place = _relations(part)
    if not edit.has(place):
        return {}
    found = {}
    for tag in _RELATION.findall(edit.part(place)):
        target = tags.attribute(tag, "Target")
        if target and tags.attribute(tag, "TargetMode") != "External":
            whole = target[1:] if target.startswith("/") else posixpath.join(posixpath.dirname(part), target)
            found[tags.attribute(tag, "Id") or ""] = posixpath.normpath(whole)
    return found
