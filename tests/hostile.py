"""Workbooks made to harm, or merely strange: each is our small kitchen with one thing done to it.

`REFUSED` are answered with a sentence, whose words stand beside them; `DONE` are worked on like any other.
"""

from __future__ import annotations

import functools
import io
import zipfile
from typing import Callable, NamedTuple

import openpyxl
from kitchens import fill, kitchen
from openpyxl.workbook.defined_name import DefinedName

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
SHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml"
RELATIONS = "xl/_rels/workbook.xml.rels"
PLAN, TEXTS, BOOK = "xl/worksheets/sheet1.xml", "xl/sharedStrings.xml", "xl/workbook.xml"
TITLE = "מלח – 食塩 é \u202e"
OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600)
LAUGHS = "".join(f'<!ENTITY l{i} "{10 * f"&l{i - 1};"}">' for i in range(1, 12))


class Trap(NamedTuple):
    """How to make the file, the words of the answer, and the ending of its name."""

    make: Callable[[], bytes]
    words: str = ""
    ending: str = ".xlsx"


def large() -> bytes:
    """What a bomb unpacks to; its size packed is a thousandth."""
    return b"<a>" + b" " * 50_000_000


def zipped(parts: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for name, data in parts.items():
            package.writestr(name, data)
    return out.getvalue()


def unzipped(content: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        return {name: package.read(name) for name in package.namelist()}


def having(**parts: bytes) -> Callable[[], bytes]:
    """The kitchen with other parts in place of its own; a part's name is one of those above."""
    names = {"plan": PLAN, "book": BOOK, "other": "xl/media/image1.png", "macros": "xl/vbaProject.bin"}
    return lambda: zipped({**unzipped(kitchen()), **{names[name]: data for name, data in parts.items()}})


def sharing(texts: bytes) -> Callable[[], bytes]:
    """The kitchen with a cell whose text is the first of a part of shared texts."""

    def make() -> bytes:
        parts = unzipped(kitchen())
        kind = f'<Override PartName="/{TEXTS}" ContentType="{SHEET_TYPE}.sharedStrings+xml"/></Types>'
        link = f'<Relationship Id="rId99" Type="{OFFICE}/sharedStrings" Target="sharedStrings.xml"/></Relationships>'
        for part, end, new in (
            ("[Content_Types].xml", b"</Types>", kind.encode()),
            (RELATIONS, b"</Relationships>", link.encode()),
            (PLAN, b"</row>", b'<c r="Y1" t="s"><v>0</v></c><c r="Z1"><f>Y1&amp;1</f></c></row>'),
        ):
            assert TEXTS.encode() not in parts[part]
            parts[part] = parts[part].replace(end, new, 1)
        return zipped({**parts, TEXTS: texts})

    return make


def bomb(part: str) -> Callable[[], bytes]:
    """The kitchen with a part that unpacks to 50 MB, which takes memory only while the file is made."""

    def make() -> bytes:
        return (sharing(large()) if part == "texts" else having(**{part: large()}))()

    return make


def edited(part: str, old: str, new: str) -> Callable[[], bytes]:
    """The kitchen with some words of a part replaced."""

    def make() -> bytes:
        parts = unzipped(kitchen())
        assert old.encode() in parts[part]
        return zipped({**parts, part: parts[part].replace(old.encode(), new.encode(), 1)})

    return make


def with_cells(change: Callable[[openpyxl.Workbook], None]) -> Callable[[], bytes]:
    """The kitchen with more in it, laid in by openpyxl."""

    def make() -> bytes:
        out, book = io.BytesIO(), fill(openpyxl.Workbook())
        change(book)
        book.save(out)
        return out.getvalue()

    return make


def texts_that_look_like_formulas(book: openpyxl.Workbook) -> None:
    sheet = book.create_sheet("Texts")
    for row, text in enumerate(("=1+1", "+1", "-1", "@SUM(1)", "=cmd|' /C calc'!A0", "\t=1"), 1):
        sheet.cell(row, 1).value = text
        sheet.cell(row, 1).data_type = "s"
        sheet.cell(row, 2, f"=A{row}&BRINE_SALT(1000,5%)")


def circles(book: openpyxl.Workbook) -> None:
    sheet = book.create_sheet("Circles")
    for place, formula in {"A1": "A1", "B1": "C1", "C1": "B1+1", "D1": "SUM(D1:D5)", "E1": "BRINE_SALT(E1,5%)"}.items():
        sheet[place] = f"={formula}"
    for row in range(1, 3000):
        sheet.cell(row, 7, f"=G{row % 2999 + 1}+1")


def nests(book: openpyxl.Workbook) -> None:
    sheet = book.create_sheet("Nests")
    sheet["A1"], sheet["A2"] = "=" + "(" * 60 + "1" + ")" * 60, "=" + "ABS(" * 60 + "-1" + ")" * 60
    sheet["A3"] = "=" + "BRINE_SALT(" * 60 + "1000" + ",100%)" * 60
    sheet["A4"] = "=" + "IF(1>0," * 64 + "1" + ",0)" * 64


def our_names(book: openpyxl.Workbook) -> None:
    sheet = book.create_sheet("BRINE_SALT(1)")
    sheet["A1"] = "BRINE_SALT(1000,5%) is text"
    sheet["A2"] = "=\"BRINE_SALT(1000,5%)\"&'BRINE_SALT(1)'!A1"
    book.defined_names["BRINE_SALTY"] = DefinedName("BRINE_SALTY", attr_text="'BRINE_SALT(1)'!$A$1")


def hidden(book: openpyxl.Workbook) -> None:
    for name, state in (("Hidden", "hidden"), ("Deep", "veryHidden")):
        sheet = book.create_sheet(name)
        sheet.sheet_state = state
        sheet["A1"] = "=BRINE_SALT(Plan!C1,5%)"


def strange_names(book: openpyxl.Workbook) -> None:
    sheet = book.create_sheet(TITLE)
    sheet["A1"] = "ملح"
    sheet["A2"] = f"='{TITLE}'!A1&BRINE_SALT(1000,5%)"
    book.defined_names["מלח"] = DefinedName("מלח", attr_text="Plan!$C$1")


def linked() -> bytes:
    parts = unzipped(kitchen())
    relation = f'<Relationship Id="rId99" Type="{OFFICE}/externalLink" Target="externalLinks/externalLink1.xml"/>'
    parts[RELATIONS] = parts[RELATIONS].replace(b"</Relationships>", relation.encode() + b"</Relationships>")
    parts["xl/externalLinks/externalLink1.xml"] = b"<externalLink/>"
    target = '<Relationship Id="rId1" Type="u" Target="file:///etc/passwd" TargetMode="External"/>'
    parts["xl/externalLinks/_rels/externalLink1.xml.rels"] = f"<Relationships>{target}</Relationships>".encode()
    parts[PLAN] = parts[PLAN].replace(b"</row>", b'<c r="Z1"><f>[1]Stock!A1+1</f><v>8</v></c></row>', 1)
    return zipped(parts)


def many_texts(count: int) -> bytes:
    texts = "<si><t>item %d</t></si>" * count % tuple(range(count))
    return sharing(f'<sst xmlns="{MAIN}">{texts}</sst>'.encode())()


def huge() -> bytes:
    parts = unzipped(kitchen())
    far = b'<row r="1048576"><c r="XFD1048576"><f>SUM(C1:C1048575)</f></c></row></sheetData>'
    plan = parts[PLAN].replace(b'<dimension ref="A1:E3"', b'<dimension ref="A1:XFD1048576"')
    return zipped({**parts, PLAN: plan.replace(b"</sheetData>", far)})


def deep() -> bytes:
    parts = unzipped(kitchen())
    nested = b"<extLst>" + b"<a>" * 100_000 + b"</a>" * 100_000 + b"</extLst></worksheet>"
    return zipped({**parts, PLAN: parts[PLAN].replace(b"</worksheet>", nested)})


def doctyped(entities: str) -> bytes:
    return f'<!DOCTYPE worksheet [{entities}]><worksheet xmlns="{MAIN}"><sheetData/>&l1;</worksheet>'.encode()


REFUSED = {
    "zip bomb in a sheet": Trap(bomb("plan"), "unpacks to 50 MB"),
    "zip bomb in the texts": Trap(bomb("texts"), "unpacks to 50 MB"),
    "entity bomb in a sheet": Trap(having(plan=doctyped(LAUGHS)), "document type"),
    "entity bomb in the texts": Trap(sharing(doctyped(LAUGHS)), "document type"),
    "external entity": Trap(having(plan=doctyped('<!ENTITY l1 SYSTEM "file:///etc/passwd">')), "document type"),
    "external document type": Trap(having(book=b'<!DOCTYPE a SYSTEM "http://127.0.0.1:9/x"><a/>'), "document type"),
    "broken sheet": Trap(edited(PLAN, "</sheetData>", "</sheetdata>"), "damaged"),
    "a row of no number": Trap(edited(PLAN, 'row r="2"', 'row r="x"'), "out of order"),
    "a row beyond all rows": Trap(edited(PLAN, 'row r="3"', 'row r="9999999"'), "out of order"),
    "a cell in another row": Trap(edited(PLAN, 'r="C3"', 'r="C2"'), "out of order"),
    "broken workbook part": Trap(having(book=b"<workbook"), "damaged"),
    "empty part": Trap(having(plan=b""), "damaged"),
    "cut in half": Trap(lambda: kitchen()[: len(kitchen()) // 2], "cut short"),
    "end missing": Trap(lambda: kitchen()[:-30], "cut short"),
    "empty file": Trap(lambda: b"", "is empty"),
    "text in disguise": Trap(lambda: b"name,price\nsalt,1\n", "is a text file"),
    "picture in disguise": Trap(lambda: b"\x89PNG\r\n\x1a\n\0\0", "is no workbook"),
    "locked with a password": Trap(lambda: OLE + "EncryptedPackage".encode("utf-16-le"), "locked with a password"),
    "old format": Trap(lambda: OLE, "old .xls format", ".xls"),
    "wrong ending": Trap(kitchen, "ending other than", ".zip"),
    "binary workbook": Trap(kitchen, "binary workbook", ".xlsb"),
}

MILLION = "a million shared texts"

DONE = {
    "zip bomb in a picture": Trap(bomb("other")),
    "huge dimensions": Trap(huge),
    MILLION: Trap(lambda: many_texts(1_000_000)),
    "many shared texts": Trap(lambda: many_texts(50_000)),
    "deep XML": Trap(deep),
    "links to other files": Trap(linked),
    "macros": Trap(having(macros=b"\0macro\0" * 5000), ending=".xlsm"),
    "texts that look like formulas": Trap(with_cells(texts_that_look_like_formulas)),
    "circles": Trap(with_cells(circles)),
    "formulas nested 60 deep": Trap(with_cells(nests)),
    "our names where they call nothing": Trap(with_cells(our_names)),
    "names in other scripts": Trap(with_cells(strange_names)),
    "hidden sheets": Trap(with_cells(hidden)),
    "days counted from 1904": Trap(edited(BOOK, "<workbookPr", '<workbookPr date1904="1"')),
}


@functools.cache
def made(name: str) -> bytes:
    """The file of that name, kept for all commands; none is large before it is unpacked."""
    return {**REFUSED, **DONE}[name].make()
