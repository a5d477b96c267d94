"""Files made to harm, or merely broken: each is answered with a plain sentence, and nothing happens to it."""

import io
import struct
import zipfile

import pytest
from each import each
from xlsx import parts

from brinecalc.files import FileTrouble
from brinecalc.hosts.headless import package as packages
from tests.hosts.toys import MAIN, OFFICE, SHEET_TYPE, book_of, changed, computed, formula_cell, raw_book, value

GOOD = book_of({"A1": 2, "B1": "=A1*3"})
SHEET = "xl/worksheets/sheet1.xml"


def refused(content, name="Plan.xlsx"):
    with pytest.raises(FileTrouble) as trouble:
        computed(content, name)
    return str(trouble.value)


def with_shared_texts(items):
    """A workbook whose A1 is the first of its shared texts."""
    rows = '<row r="1"><c r="A1" t="s"><v>0</v></c>' + formula_cell("B1", "A1&1") + "</row>"
    plain = parts(raw_book([("Plan", "")]))
    relations = plain["xl/_rels/workbook.xml.rels"].decode()
    kind = f'<Override PartName="/xl/sharedStrings.xml" ContentType="{SHEET_TYPE}.sharedStrings+xml"/></Types>'
    link = f'<Relationship Id="rId9" Type="{OFFICE}/sharedStrings" Target="/xl/sharedStrings.xml"/></Relationships>'
    return raw_book(
        [("Plan", rows)],
        extra={
            "[Content_Types].xml": plain["[Content_Types].xml"].decode().replace("</Types>", kind),
            "xl/_rels/workbook.xml.rels": relations.replace("</Relationships>", link),
            "xl/sharedStrings.xml": f'<sst xmlns="{MAIN}">{items}</sst>',
        },
    )


OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600)


@each(
    ("content", "name", "said"),
    [
        (b"", "Plan.xlsx", "is empty"),
        (b"water,salt\n1000,50\n", "Plan.xlsx", "is a text file"),
        (b"%PDF-1.7\n\0\0", "Plan.xlsx", "is a PDF file"),
        (b"\x7fELF\0\0\0", "Plan.xlsx", "is no workbook"),
        (OLE, "Plan.xls", "old .xls format"),
        (OLE + "EncryptedPackage".encode("utf-16-le"), "Plan.xlsx", "locked with a password"),
        (GOOD, "Plan.xlsb", "binary workbook"),
        (GOOD, "Plan.ods", "open it in LibreOffice, save it as .xlsx"),
        (GOOD, "Plan.zip", "has an ending other than .xlsx"),
        (GOOD[: len(GOOD) // 2], "Plan.xlsx", "damaged or cut short"),
        (GOOD[:-30], "Plan.xlsx", "damaged or cut short"),
        (b"PK\x03\x04" + bytes(200), "Plan.xlsx", "damaged or cut short"),
    ],
)
def test_what_is_no_workbook_is_called_what_it_is(content, name, said):
    assert said in refused(content, name)


def zipped(**named):
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for name, data in named["parts"].items():
            package.writestr(name, data)
    return out.getvalue()


def test_an_opendocument_file_under_another_name():
    content = zipped(parts={"mimetype": "application/vnd.oasis.opendocument.spreadsheet", "content.xml": "<a/>"})
    assert "open it in LibreOffice, save it as .xlsx" in refused(content)


def test_a_zip_of_something_else():
    assert "is a zip file, but not a workbook" in refused(zipped(parts={"photo.jpg": b"x"}))


@pytest.mark.parametrize("missing", ["_rels/.rels", "xl/workbook.xml", "xl/_rels/workbook.xml.rels", SHEET])
def test_a_missing_part_is_named(missing):
    assert "damaged" in refused(changed(GOOD, parts={missing: None}))


@each("part", ["xl/workbook.xml", "xl/_rels/workbook.xml.rels", "_rels/.rels", SHEET, "xl/sharedStrings.xml"])
@each(
    ("broken", "said"),
    [
        (b"<a><b></a>", "damaged"),
        (b"<a", "damaged"),
        (b"", "damaged"),
        (b"\xff\xfe<\0a\0/\0>\0", "UTF-16"),
        (b"<?xml version='1.0' encoding='iso-8859-1'?><a/>", "written in iso-8859-1"),
        (b"<a>\xff\xff</a>", "damaged"),
        (b"<a>&unknown;</a>", "damaged"),
        (b'<!DOCTYPE a [<!ENTITY b "c">]><a>&b;</a>', "document type"),
        (b'<!DOCTYPE a SYSTEM "file:///etc/passwd"><a/>', "document type"),
        (b'<!DOCTYPE a [<!ENTITY b SYSTEM "http://127.0.0.1:9/x">]><a>&b;</a>', "document type"),
    ],
)
def test_broken_or_scheming_xml_is_refused_in_every_part_that_is_read(part, broken, said):
    content = with_shared_texts("<si><t>salt</t></si>")
    assert value(computed(content).content, "B1") == "salt1"
    answer = refused(changed(content, parts={part: broken}))
    assert said in answer or (said == "damaged" and "is not a work" in answer)


def test_an_entity_bomb_is_refused_at_once():
    laughs = "".join(f'<!ENTITY l{i} "{10 * f"&l{i - 1};"}">' for i in range(1, 12))
    bomb = f'<!DOCTYPE worksheet [<!ENTITY l0 "ha">{laughs}]><worksheet xmlns="{MAIN}">&l11;</worksheet>'
    assert "document type" in refused(changed(GOOD, parts={SHEET: bomb}))


def test_a_zip_bomb_in_a_part_that_is_read_is_not_unpacked():
    bomb = b"<worksheet>" + b" " * 50_000_000
    assert "unpacks to 50 MB" in refused(changed(GOOD, parts={SHEET: bomb}))


def test_a_zip_bomb_in_any_other_part_stays_packed():
    content = changed(GOOD, parts={"xl/media/bomb.png": b"\0" * 50_000_000})
    outcome = computed(content)
    assert value(outcome.content, "B1") == 6
    assert len(outcome.content) < 100_000


def test_a_part_that_lies_about_its_size_is_damaged():
    content = bytearray(GOOD)
    with zipfile.ZipFile(io.BytesIO(GOOD)) as package:
        entry = package.getinfo(SHEET)
    at = content.index(b"PK\x01\x02", content.index(SHEET.encode(), entry.header_offset + 100) - 60)
    while content[at + 46 : at + 46 + len(SHEET)] != SHEET.encode():
        at = content.index(b"PK\x01\x02", at + 4)
    content[at + 24 : at + 28] = struct.pack("<L", 10)
    assert "cannot be unpacked" in refused(bytes(content)) or "damaged" in refused(bytes(content))


def test_overlapping_parts_are_a_trap():
    content = changed(GOOD, parts={f"xl/media/{i}.bin": bytes(range(256)) * 4 for i in range(3)})
    shifted = bytearray(content)
    place = shifted.rindex(b"PK\x05\x06")
    start = struct.unpack("<L", shifted[place + 16 : place + 20])[0]
    entries = bytes(shifted[start:place])
    many = entries * 40
    names = iter(range(10**6))
    out = bytearray()
    at = 0
    while at < len(many):
        length = struct.unpack("<H", many[at + 28 : at + 30])[0]
        entry = bytearray(many[at : at + 46 + length])
        entry[46:] = f"{next(names):0{length}d}".encode()
        out += entry
        at += 46 + length
    count = 40 * struct.unpack("<H", shifted[place + 8 : place + 10])[0]
    end = struct.pack("<4s4H2LH", b"PK\x05\x06", 0, 0, count, count, len(out), start, 0)
    assert "overlap" in refused(bytes(shifted[:start] + out + end))


def test_two_parts_of_one_name():
    out = io.BytesIO(GOOD)
    with pytest.warns(UserWarning, match="Duplicate"), zipfile.ZipFile(out, "a") as package:
        package.writestr(SHEET, b"<a/>")
    assert "twice" in refused(out.getvalue())


def test_more_parts_than_any_workbook_has(monkeypatch):
    monkeypatch.setattr(packages, "MOST_PARTS", 5)
    assert "no workbook has that many" in refused(GOOD)


def test_a_locked_zip():
    content = bytearray(GOOD)
    place = content.index(b"PK\x01\x02")
    content[place + 8] |= 1
    assert "locked with a password" in refused(bytes(content))


@each(
    ("rows", "said"),
    [
        ('<row r="2"/><row r="1"/>', "out of order"),
        ('<row r="1"><c r="B1"/><c r="A1"/></row>', "out of order"),
        ('<row r="1"><c r="A2"/></row>', "out of order"),
        ('<row r="9999999"/>', "out of order"),
        ('<row r="1"><c r="XFE1"/></row>', "out of order"),
        ('<row r="1"><c r="elsewhere"/></row>', "out of order"),
        ('<row r="1"><c r="A1"><f t="shared" si="4"/></c></row>', "shares a formula that is missing"),
        ('<row r="1"><c r="A1"><f t="array" ref="nonsense">1</f></c></row>', "has the range"),
        ('<row r="1"><c r="A1"><f t="array" ref="B1:C2">1</f></c></row>', "has the range"),
        ('<row r="1"><c r="A1"><f t="array" ref="A1:XFD1048576">1</f></c></row>', "has the range"),
    ],
)
def test_cells_that_cannot_be(rows, said):
    assert said in refused(raw_book([("Plan", rows)]))


def test_two_sheets_of_one_name():
    assert "two sheets are called" in refused(raw_book([("Plan", ""), ("PLAN", "")]))


def test_a_sheet_that_is_none():
    assert "not a worksheet" in refused(raw_book([("Plan", "")], extra={SHEET: '<html xmlns="u"/>'}))
    assert "not a workbook" in refused(raw_book([("Plan", "")], extra={"xl/workbook.xml": "<html/>"}))
    assert "holds no cells" in refused(raw_book([("Plan", "")], extra={SHEET: f'<worksheet xmlns="{MAIN}"/>'}))


def test_huge_dimensions_cost_nothing():
    rows = (
        '<row r="1"><c r="A1"><v>1</v></c>' + formula_cell("B1", "SUM(A1:A1048576)") + "</row>"
        '<row r="1048576"><c r="A1048576"><v>2</v></c><c r="XFD1048576"><f>A1+1</f></c></row>'
    )
    content = raw_book([("Plan", rows)], root=f'<worksheet xmlns="{MAIN}"><dimension ref="A1:XFD1048576"/>')
    sheet = parts(computed(content).content)[SHEET]
    assert b"<f>SUM(A1:A1048576)</f><v>3</v>" in sheet
    assert b"<f>A1+1</f><v>2</v>" in sheet


def test_a_hundred_thousand_shared_texts():
    content = with_shared_texts("".join(f"<si><t>item {i}</t></si>" for i in range(100_000)))
    assert b"<v>item 01</v>" in parts(computed(content).content)[SHEET]


def test_deep_xml_is_answered():
    deep = (
        f'<worksheet xmlns="{MAIN}"><sheetData><row r="1"><c r="A1"><f>1+1</f></c></row></sheetData>' + "<a>" * 100_000
    )
    outcome = computed(changed(GOOD, parts={SHEET: deep + "</a>" * 100_000 + "</worksheet>"}))
    assert b"<f>1+1</f><v>2</v>" in parts(outcome.content)[SHEET]
    inside = f'<worksheet xmlns="{MAIN}"><sheetData><row r="1"><c r="A1"><f>1+1</f></c></row>' + "<a>" * 100_000
    assert "damaged" in refused(changed(GOOD, parts={SHEET: inside + "</a>" * 100_000 + "</sheetData></worksheet>"}))


def test_names_that_steer_out_of_the_package_are_only_names():
    content = changed(GOOD, parts={"../../evil.txt": b"x", "/etc/evil": b"y"})
    outcome = computed(content)
    assert value(outcome.content, "B1") == 6
    assert parts(outcome.content)["../../evil.txt"] == b"x"


def test_a_relation_that_leads_outside_is_damage():
    relations = parts(GOOD)["xl/_rels/workbook.xml.rels"].replace(b"worksheets/sheet1.xml", b"../../../../etc/passwd")
    assert "damaged" in refused(changed(GOOD, parts={"xl/_rels/workbook.xml.rels": relations}))


def test_a_text_that_doubles_in_every_row_stops_at_the_size_of_a_cell():
    cells = {"A1": "x" * 1000, **{f"A{row}": f"=A{row - 1}&A{row - 1}" for row in range(2, 60)}}
    outcome = computed(book_of(cells))
    assert value(outcome.content, "A59") == "#VALUE!"
    assert len(value(outcome.content, "A6")) == 32_000


def test_too_many_formulas(monkeypatch):
    from brinecalc.hosts.headless import cells

    monkeypatch.setattr(cells, "MOST_FORMULAS", 3)
    assert "more than 3 formulas" in refused(book_of({f"A{row}": "=1+1" for row in range(1, 6)}))


def test_functions_that_raise_do_not_harm():
    from tests.hosts.toys import Toys

    toys = Toys()
    toys.functions["BRINE_SALT"] = lambda *cells: 1 / 0
    outcome = computed(book_of({"A1": "=BRINE_SALT(1)", "A2": "=1+1"}), library=toys)
    assert outcome.report.problems[0].error == "#VALUE!"
    assert value(outcome.content, "A2") == 2
