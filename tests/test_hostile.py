"""Every command meets files made to harm: it answers with a sentence or does its work, and harms none of them."""

from __future__ import annotations

import io
import zipfile

import openpyxl
import pytest
from click.testing import CliRunner
from each import each
from hostile import DONE, MILLION, PLAN, REFUSED, TITLE, made
from kitchens import PRICES

from brinecalc.cli import app

COMMANDS = {
    "calc": lambda book: ["calc", book],
    "reprice": lambda book: ["reprice", "prices.csv", book, "--apply"],
    "respell": lambda book: ["respell", book, "--for", "calc"],
    "share": lambda book: ["share", book],
    "share values": lambda book: ["share", book, "--values"],
}


@pytest.fixture
def folder(tmp_path, monkeypatch):
    (tmp_path / "prices.csv").write_text(PRICES)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(folder, command, name):
    trap = {**REFUSED, **DONE}[name]
    book = f"Plan{trap.ending}"
    (folder / book).write_bytes(made(name))
    return CliRunner().invoke(app, COMMANDS[command](book)), folder / book


def sums(content):
    """The checksum of every part, which takes no unpacking."""
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        return {entry.filename: (entry.CRC, entry.file_size) for entry in package.infolist()}


def result(folder, command, path):
    """The workbook that the command wrote."""
    if command == "reprice":
        assert (folder / f"Plan.backup{path.suffix}").exists()
        return path
    return next(other for other in folder.glob(f"Plan *{path.suffix}"))


UNSEEN = {
    "respell": ["zip bomb in the texts", "entity bomb in the texts", "a row beyond all rows", "a row of no number",
                "a cell in another row"],
}  # fmt: skip
"""What a command neither reads nor changes goes along as it is."""


@pytest.mark.parametrize("name", REFUSED)
@each("command", COMMANDS)
def test_refused_with_a_sentence_and_left_as_it_is(folder, command, name):
    if name in UNSEEN.get(command, ()):
        return  # the next test is about these
    done, path = run(folder, command, name)
    assert done.exit_code == (1 if command == "reprice" else 2), done.output
    assert REFUSED[name].words in done.output
    assert "unexpected" not in done.output
    assert path.read_bytes() == made(name)
    assert sorted(other.name for other in folder.iterdir()) == sorted([path.name, "prices.csv"])


@pytest.mark.parametrize("name", UNSEEN["respell"])
def test_what_respelling_does_not_read_goes_along_as_it_is(folder, name):
    done, path = run(folder, "respell", name)
    assert done.exit_code == 0, done.output
    assert path.read_bytes() == made(name)
    kept, written = sums(made(name)), sums(result(folder, "respell", path).read_bytes())
    assert {part for part in kept if kept[part] != written[part]} == {PLAN}


def tried(command, name, turn):
    """Each file is computed, and worked on by the other commands in turn; the benchmark of these files tries all."""
    return command == "calc" or (name != MILLION and turn % 2 == 0)


@pytest.mark.parametrize(
    ("command", "name"),
    [(c, name) for n, name in enumerate(DONE) for k, c in enumerate(COMMANDS) if tried(c, name, n + k)],
)
def test_worked_on_like_any_other(folder, command, name):
    """Source: 1000 g at 5 % of the water is 50 g, by definition."""
    done, path = run(folder, command, name)
    assert done.exit_code in (0, 1), done.output
    assert "unexpected" not in done.output
    if command != "reprice":
        assert path.read_bytes() == made(name)
    target = result(folder, command, path)
    if command != "respell":
        with zipfile.ZipFile(target) as package:
            assert b"<v>50</v>" in package.read(PLAN)
    kept, written = sums(made(name)), sums(target.read_bytes())
    for part in kept:
        if part.startswith(("xl/media", "xl/vbaProject", "xl/externalLinks", "xl/sharedStrings")):
            assert written[part] == kept[part]


@pytest.mark.parametrize("command", ["calc", "share", "share values"])
def test_texts_that_look_like_formulas_stay_texts(folder, command):
    done, path = run(folder, command, "texts that look like formulas")
    assert done.exit_code in (0, 1), done.output
    sheet = openpyxl.load_workbook(result(folder, command, path), data_only=True)["Texts"]
    assert [sheet.cell(row, 1).value for row in range(1, 6)] == ["=1+1", "+1", "-1", "@SUM(1)", "=cmd|' /C calc'!A0"]
    assert {sheet.cell(row, 1).data_type for row in range(1, 6)} == {"s"}
    assert [sheet.cell(row, 2).value for row in (1, 4)] == ["=1+150", "@SUM(1)50"]
    assert {sheet.cell(row, 2).data_type for row in range(1, 6)} == {"s"}


def test_circles_are_named_and_all_else_is_computed(folder):
    done, _ = run(folder, "calc", "circles")
    assert done.exit_code == 1
    assert "refers to itself" in done.output


@pytest.mark.parametrize("command", ["calc", "share"])
def test_formulas_nested_60_deep_are_right(folder, command):
    """Source: by hand; 100 % of the water is as much salt as water."""
    _, path = run(folder, command, "formulas nested 60 deep")
    sheet = openpyxl.load_workbook(result(folder, command, path), data_only=True)["Nests"]
    assert [sheet[f"A{row}"].value for row in (1, 2, 4)] == [1, 1, 1]


@pytest.mark.parametrize("command", COMMANDS)
def test_names_in_other_scripts_stay(folder, command):
    _, path = run(folder, command, "names in other scripts")
    book = openpyxl.load_workbook(result(folder, command, path))
    assert TITLE in book.sheetnames
    assert book[TITLE]["A1"].value == "ملح"
    assert book.defined_names["מלח"].attr_text == "Plan!$C$1"


@pytest.mark.parametrize("command", COMMANDS)
def test_hidden_sheets_stay_hidden(folder, command):
    _, path = run(folder, command, "hidden sheets")
    book = openpyxl.load_workbook(result(folder, command, path))
    assert [book[name].sheet_state for name in ("Hidden", "Deep")] == ["hidden", "veryHidden"]


@pytest.mark.parametrize("command", COMMANDS)
def test_our_names_in_texts_and_sheet_names_are_not_touched(folder, command):
    _, path = run(folder, command, "our names where they call nothing")
    book = openpyxl.load_workbook(result(folder, command, path))
    sheet = book["BRINE_SALT(1)"]
    assert sheet["A1"].value == "BRINE_SALT(1000,5%) is text"
    assert sheet["A2"].value == "=\"BRINE_SALT(1000,5%)\"&'BRINE_SALT(1)'!A1"
    assert book.defined_names["BRINE_SALTY"].attr_text == "'BRINE_SALT(1)'!$A$1"
