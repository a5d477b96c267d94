"""What a command does not mean to change stays as it was, to the byte, in workbooks with every feature there is."""

from __future__ import annotations

import re
import zipfile

import pytest
from click.testing import CliRunner
from every_feature import BOOKS
from kitchens import PRICES
from lxml import etree
from openpyxl.utils.cell import rows_from_range

from brinecalc.cli import app
from brinecalc.hosts.headless.package import Package
from brinecalc.workbook.edit.book import Edit

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
COMMANDS = {
    "calc": ["calc", "--in-place"],
    "reprice": ["reprice", "prices.csv", "--apply"],
    "respell": ["respell", "--for", "excel-lite", "--in-place"],
    "share": ["share"],
}


class Done:
    """A command done to a workbook: the package before and after."""

    def __init__(self, command, book, folder):
        make, ending = BOOKS[book]
        content = make()
        path = folder / f"Plan{ending}"
        path.write_bytes(content)
        (folder / "prices.csv").write_text(PRICES)
        words = [str(folder / word) if word == "prices.csv" else word for word in COMMANDS[command]]
        run = CliRunner().invoke(app, [*words, str(path)])
        assert run.exit_code in (0, 1), run.output
        copy = folder / f"Plan copy 1{ending}"
        after = (copy if command == "share" else path).read_bytes()
        kept = path if command == "share" else path.with_name(f"Plan.backup{ending}")
        assert kept.read_bytes() == content
        self.after = Edit(after, path.name)
        with zipfile.ZipFile(kept) as before:
            self.old = {name: before.read(name) for name in before.namelist()}
        self.new = {name: self.after.part(name) for name in self.after.part_names()}
        self.command, self.content, self.result = command, content, after

    @property
    def changed(self):
        return {name for name in self.old if self.old[name] != self.new[name]}

    def sheets(self, mark):
        """The parts of worksheets that hold a mark."""
        return {name for name, data in self.old.items() if name.startswith("xl/worksheets/sheet") and mark in data}

    def part(self, sheet):
        return self.after.sheets[sheet]


PAIRS = [(command, book) for book in BOOKS for command in COMMANDS]


@pytest.fixture(scope="module", params=PAIRS, ids=" ".join)
def done(request, tmp_path_factory):
    return Done(*request.param, tmp_path_factory.mktemp("book"))


def may_change(done):
    """The parts that each command means to change."""
    formulas = done.sheets(b"<f>") | done.sheets(b"<f ")
    settings, date = "xl/workbook.xml", "docProps/core.xml"
    if done.command == "calc":
        return formulas | {settings, date}
    if done.command == "reprice":
        return formulas | {settings, date, done.part("Prices")}
    if done.command == "respell":
        ours = {name for name, data in done.old.items() if b"BRINE_" in data}
        return {name for name in ours if name.startswith(("xl/worksheets/sheet", "xl/tables/"))} | {settings}
    return formulas | {
        settings,
        date,
        "[Content_Types].xml",
        "xl/_rels/workbook.xml.rels",
        "xl/styles.xml",
        "docProps/app.xml",
    }


def test_every_other_part_is_the_same_to_the_byte(done):
    assert done.changed <= may_change(done)
    assert done.changed
    if done.command == "respell":
        assert done.changed == may_change(done)  # the formulas of whole columns of tables among them
    added = set(done.new) - set(done.old)
    assert list(done.new)[: len(done.old)] == list(done.old)
    assert len(added) == (1 if done.command == "share" else 0)


def test_parts_that_stay_are_not_even_packed_anew(done):
    old, new = Package(done.content, "Plan.xlsm"), Package(done.result, "Plan.xlsm")
    for name in set(done.old) - done.changed:
        assert old._packed(old.parts[name]) == new._packed(new.parts[name]), name
        kept = ("date_time", "compress_type", "external_attr", "create_system", "comment")
        assert [getattr(old.parts[name], k) for k in kept] == [getattr(new.parts[name], k) for k in kept]
    assert old._zip.comment == new._zip.comment


def bare(data, inputs=()):
    """A sheet without types and values of formulas and inputs, and without the cells that array formulas fill."""
    root = etree.fromstring(data)
    formulas = {cell.get("r"): cell.find(f"{MAIN}f") for cell in root.iter(f"{MAIN}c")}
    filled = {
        cell for f in formulas.values() if f is not None and f.get("t") == "array" for cell in cells(f.get("ref"))
    }
    for cell in list(root.iter(f"{MAIN}c")):
        place = cell.get("r")
        if formulas[place] is not None or place in inputs:
            cell.attrib.pop("t", None)
            for child in cell.findall(f"{MAIN}v") + cell.findall(f"{MAIN}is"):
                cell.remove(child)
        elif place in filled:
            cell.getparent().remove(cell)
    return etree.tostring(root)


def cells(area):
    return {place for row in rows_from_range(area) for place in row}


def test_in_worksheets_only_values_change(done):
    """In a respelled book the names of ours too: with the old ones back, all is as it was."""
    for name in done.changed & set(done.after.sheets.values()):
        old, new = done.old[name], done.new[name]
        if done.command == "respell":
            assert new != old
            assert new.replace(b"_xldudf_BRINE_", b"BRINE_") == old, name
        else:
            inputs = ("B1",) if done.command == "reprice" and name == done.part("Prices") else ()
            assert bare(new, inputs) == bare(old, inputs), name


def test_in_the_workbook_part_only_what_is_meant_changes(done):
    old, new = done.old["xl/workbook.xml"].decode(), done.new["xl/workbook.xml"].decode()
    if done.command == "respell":
        assert new.replace("_xldudf_BRINE_", "BRINE_") == old
        return
    calculation = re.compile(r"<calcPr[^>]*/>")
    old, new = calculation.sub("", old), calculation.sub("", new)
    if done.command == "share":
        new = re.sub(r'<sheet [^>]*name="Copies"[^>]*/>', "", new)
    assert new == old


def test_of_the_properties_only_the_date_changes(done):
    date = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*")
    old, new = done.old["docProps/core.xml"], done.new["docProps/core.xml"]
    assert date.sub(rb"\1", new) == date.sub(rb"\1", old)


def test_a_copy_only_adds_looks_and_one_sheet(done):
    if done.command != "share":
        assert "xl/styles.xml" not in done.changed
        return
    old, new = etree.fromstring(done.old["xl/styles.xml"]), etree.fromstring(done.new["xl/styles.xml"])
    assert [child.tag for child in new] == [child.tag for child in old]
    for before, after in zip(old, new, strict=True):
        kept = [etree.tostring(child) for child in before]
        assert [etree.tostring(child) for child in after][: len(kept)] == kept
    for name in ("[Content_Types].xml", "xl/_rels/workbook.xml.rels"):
        kept = [etree.tostring(child) for child in etree.fromstring(done.old[name])]
        fresh = [etree.tostring(child) for child in etree.fromstring(done.new[name])]
        assert sorted(set(kept) - set(fresh)) == []
        assert len(fresh) == len(kept) + 1


@pytest.mark.parametrize("book", BOOKS)
def test_there_and_back_again_is_the_very_file(book, tmp_path):
    """The law: spelled for another program and back, no part differs."""
    done = Done("respell", book, tmp_path)
    path = next(tmp_path.glob("Plan.xls*"))
    assert CliRunner().invoke(app, ["respell", str(path), "--for", "excel", "--in-place"]).exit_code == 0
    with zipfile.ZipFile(path) as package:
        assert {name: package.read(name) for name in package.namelist()} == done.old


def test_macros_controls_and_signatures_go_along(done):
    for name in ("xl/vbaProject.bin", "xl/activeX/activeX1.bin", "_xmlsignatures/sig1.xml", "customXml/item1.xml"):
        assert done.old.get(name) == done.new.get(name)
