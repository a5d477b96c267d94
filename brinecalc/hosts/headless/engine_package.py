"""A workbook made for the engine's eyes only.

One idea: the engine is shown nothing that computing does not need, so that whatever else a file holds, or hides,
never reaches it.
"""

from __future__ import annotations

import io
import zipfile
from typing import Iterable, Optional, Tuple

from brinecalc.hosts.headless.markup import MAIN, RELATIONS, escape

_PACKAGE = "http://schemas.openxmlformats.org/package/2006/"
_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml."


def package(sheets: Iterable[Tuple[str, bytes]], shared_texts: Optional[bytes], *, from_1904: bool = False) -> bytes:
    """The package of sheets by name, as XML, and the texts that they share."""
    given = list(sheets)
    parts = [(f"worksheets/sheet{i}", "worksheet", data) for i, (_, data) in enumerate(given)]
    if shared_texts is not None:
        parts.insert(0, ("sharedStrings", "sharedStrings", shared_texts))
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as made:
        made.writestr("[Content_Types].xml", _kinds([(name, kind) for name, kind, _ in parts]))
        made.writestr("_rels/.rels", _links([("officeDocument", "officeDocument", "xl/workbook")]))
        made.writestr("xl/_rels/workbook.xml.rels", _links([(name, kind, name) for name, kind, _ in parts]))
        made.writestr("xl/workbook.xml", _workbook([name for name, _ in given], from_1904))
        for name, _, data in parts:
            made.writestr(f"xl/{name}.xml", data)
    return out.getvalue()


def _kinds(parts: Iterable[Tuple[str, str]]) -> str:
    """The list of what each part is."""
    listed = "".join(
        f'<Override PartName="/xl/{name}.xml" ContentType="{_TYPE}{kind}+xml"/>'
        for name, kind in (("workbook", "sheet.main"), *parts)
    )
    return (
        f'<Types xmlns="{_PACKAGE}content-types"><Default Extension="rels" '
        f'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>{listed}</Types>'
    )


def _links(parts: Iterable[Tuple[str, str, str]]) -> str:
    """Where one part finds the others: the name of the link, its kind, and the part."""
    listed = "".join(
        f'<Relationship Id="{name.rpartition("/")[2]}" Type="{RELATIONS}/{kind}" Target="{part}.xml"/>'
        for name, kind, part in parts
    )
    return f'<Relationships xmlns="{_PACKAGE}relationships">{listed}</Relationships>'


def _workbook(names: Iterable[str], from_1904: bool) -> str:
    """The workbook's own part: its sheets in order, and from which day it counts."""
    sheets = "".join(
        f'<sheet name="{escape(name).replace(chr(34), "&quot;")}" sheetId="{i + 1}" r:id="sheet{i}"/>'
        for i, name in enumerate(names)
    )
    settings = '<workbookPr date1904="1"/>' if from_1904 else ""
    return f'<workbook xmlns="{MAIN}" xmlns:r="{RELATIONS}">{settings}<sheets>{sheets}</sheets></workbook>'
