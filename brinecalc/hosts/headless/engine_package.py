"""A workbook made for the engine's eyes only.

One idea: the engine is shown nothing that computing does not need, so that whatever else a file holds, or hides,
never reaches it.
"""

from __future__ import annotations

import io
import zipfile
from typing import Iterable, Optional, Tuple

from brinecalc.hosts.headless.markup import escape

_NS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_R = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_P = "http://schemas.openxmlformats.org/package/2006/"
_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml."


def package(sheets: Iterable[Tuple[str, bytes]], shared_texts: Optional[bytes], *, from_1904: bool = False) -> bytes:
    """The package of sheets by name, as XML, and the texts that they share."""
    given = list(sheets)
    kinds = "".join(
        f'<Override PartName="/xl/worksheets/sheet{i}.xml" ContentType="{_TYPE}worksheet+xml"/>'
        for i in range(len(given))
    )
    links = "".join(
        f'<Relationship Id="r{i}" Type="{_R}/worksheet" Target="worksheets/sheet{i}.xml"/>' for i in range(len(given))
    )
    if shared_texts is not None:
        kinds += f'<Override PartName="/xl/sharedStrings.xml" ContentType="{_TYPE}sharedStrings+xml"/>'
        links += f'<Relationship Id="texts" Type="{_R}/sharedStrings" Target="sharedStrings.xml"/>'
    listed = "".join(
        f'<sheet name="{escape(name).replace(chr(34), "&quot;")}" sheetId="{i + 1}" r:id="r{i}"/>'
        for i, (name, _) in enumerate(given)
    )
    settings = '<workbookPr date1904="1"/>' if from_1904 else ""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as made:
        made.writestr(
            "[Content_Types].xml",
            f'<Types xmlns="{_P}content-types"><Default Extension="rels" '
            'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
            f'<Override PartName="/xl/workbook.xml" ContentType="{_TYPE}sheet.main+xml"/>{kinds}</Types>',
        )
        made.writestr(
            "_rels/.rels",
            f'<Relationships xmlns="{_P}relationships"><Relationship Id="r" Type="{_R}/officeDocument" '
            'Target="xl/workbook.xml"/></Relationships>',
        )
        made.writestr("xl/_rels/workbook.xml.rels", f'<Relationships xmlns="{_P}relationships">{links}</Relationships>')
        made.writestr(
            "xl/workbook.xml",
            f'<workbook xmlns="{_NS}" xmlns:r="{_R}">{settings}<sheets>{listed}</sheets></workbook>',
        )
        if shared_texts is not None:
            made.writestr("xl/sharedStrings.xml", shared_texts)
        for i, (_, data) in enumerate(given):
            made.writestr(f"xl/worksheets/sheet{i}.xml", data)
    return out.getvalue()
