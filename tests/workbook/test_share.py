"""Copies of a workbook: what each kind holds, what it must not hold, and what it says of itself."""

from __future__ import annotations

import datetime
import functools
import io
import os
import re
import subprocess
import sys
import zipfile
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from built import built
from click.testing import CliRunner
from filling import FIRST, TOTALS, Answers, Person

from brinecalc.cli import app
from brinecalc.files import FileTrouble
from brinecalc.hosts.calc import office
from brinecalc.hosts.headless import calculate
from brinecalc.version import TABLE_DATE, VERSION
from brinecalc.workbook.book import Options
from brinecalc.workbook.edit import sheets
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.edit.looks import Looks
from brinecalc.workbook.frozen import is_ours
from brinecalc.workbook.moneyless import places, without_money

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"


@pytest.fixture(scope="module")
def example() -> bytes:
    return built(Options("metric", "A4", True))


@pytest.fixture(scope="module")
def folder(example: bytes, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder in which the example was shared once in every kind."""
    place = tmp_path_factory.mktemp("shared")
    (place / "Plan.xlsx").write_bytes(example)
    for number, kind in enumerate(([], ["--values"], ["--no-prices"], ["--values", "--no-prices"])):
        result = run(place / "Plan.xlsx", "--date", f"2027-03-0{number + 1}", *kind)
        assert result.exit_code == 0, result.output
    return place


@pytest.fixture(scope="module")
def live(folder: Path) -> bytes:
    return (folder / "Plan copy 1.xlsx").read_bytes()


@pytest.fixture(scope="module")
def frozen(folder: Path) -> bytes:
    return (folder / "Plan copy 2 values.xlsx").read_bytes()


def run(*words: Any) -> Any:
    return CliRunner().invoke(app, ["share", *map(str, words)])


def parts(content: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(content)) as file:
        assert file.testzip() is None
        return {name: file.read(name) for name in file.namelist()}


@functools.lru_cache(maxsize=16)
def book(content: bytes, values: bool = True) -> openpyxl.Workbook:
    return openpyxl.load_workbook(io.BytesIO(content), data_only=values)


@functools.lru_cache(maxsize=16)
def cells(content: bytes, values: bool = True) -> dict[tuple[str, str], Any]:
    return {
        (sheet.title, cell.coordinate): cell.value
        for sheet in book(content, values)
        for row in sheet.iter_rows()
        for cell in row
        if cell.value not in (None, "")
    }


def copies(content: bytes) -> list[list[Any]]:
    return [[cell.value for cell in row] for row in book(content)["Copies"].iter_rows()]


def saved(path: Path, change: Any) -> None:
    """Changes inputs of a workbook as a person would, keeping its values."""
    edit = Edit(path.read_bytes(), path.name)
    change(edit)
    path.write_bytes(edit.done())


def add_part(edit: Edit, name: str, data: str) -> None:
    """Puts a part into the workbook as spreadsheet programs do that keep texts or the order of formulas apart."""
    edit.set_part(f"xl/{name}.xml", data.encode())
    sheets.add_kind(edit, f"xl/{name}.xml", f"application/vnd.openxmlformats-officedocument.spreadsheetml.{name}+xml")
    sheets.relate(edit, edit.book.part, f"{sheets.RELATIONS}/{name}", f"xl/{name}.xml")


def same(one: Any, other: Any) -> bool:
    """Whether two values are the same, numbers but for the 12th digit that files round to."""
    number = isinstance(one, (int, float)) and isinstance(other, (int, float))
    return bool(one == (pytest.approx(other, rel=1e-11) if number else other))


def shown(value: Any) -> Any:
    """A value to compare: numbers to 11 digits, as files round to 12."""
    return float(f"{value:.11g}") if isinstance(value, float) else value


# ---- the live copy


def test_a_live_copy_is_the_workbook_with_its_values_and_one_sheet_more(live: bytes, example: bytes) -> None:
    old, new = parts(example), parts(live)
    assert set(new) - set(old) == {name for name in new if name not in old and name.startswith("xl/worksheets/sheet")}
    touched = {name for name in old if old[name] != new[name]}
    assert touched <= {
        "docProps/core.xml",
        "[Content_Types].xml",
        "xl/workbook.xml",
        "xl/_rels/workbook.xml.rels",
        "xl/styles.xml",
    }
    assert book(live).sheetnames == [*book(example).sheetnames, "Copies"]


def test_values_are_computed_even_if_the_workbook_has_none(example: bytes, tmp_path: Path) -> None:
    """A library that only writes formulas saved it last."""
    Person(example).book.save(tmp_path / "Plan.xlsx")
    assert run(tmp_path / "Plan.xlsx").exit_code == 0
    before, after = cells(example), cells((tmp_path / "Plan copy 1.xlsx").read_bytes())
    assert {key: shown(after[key]) for key in before} == {key: shown(value) for key, value in before.items()}


def test_a_copy_says_what_it_is(live: bytes, frozen: bytes) -> None:
    rows = copies(live)
    facts = {row[0]: row[2] for row in rows[3:9]}
    assert facts["This copy"] == 1
    assert facts["Date"] == "2027-03-01"
    assert facts["Kind"] == "live"
    assert facts["Made by"] == f"brinecalc {VERSION}, tables of {TABLE_DATE}"
    assert "#NAME?" in facts["What you see"]
    assert rows[12][:5] == [1, "2027-03-01", "live", None, "first copy"]
    assert {row[0]: row[2] for row in copies(frozen)[3:9]}["Kind"] == "values"


def test_a_copy_is_dated_today_unless_told_and_saved_today_in_any_case(
    example: bytes, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """1803772800 seconds after 1970 began is 2027-02-28, 0:00 UTC."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1803772800")
    (tmp_path / "Plan.xlsx").write_bytes(example)
    for kind, date in (([], "2027-02-28"), (["--date", "2027-03-04"], "2027-03-04"), (["--values"], "2027-02-28")):
        assert run(tmp_path / "Plan.xlsx", *kind).exit_code == 0
        made = max(tmp_path.glob("Plan copy *.xlsx")).read_bytes()
        assert copies(made)[4][2] == date
        told = openpyxl.load_workbook(io.BytesIO(made), read_only=True).properties
        assert (told.modified, told.created) == (datetime.datetime(2027, 2, 28), datetime.datetime(2026, 1, 1))
    for wrong in ("4 March", "2027-13-01", "20270304"):
        assert "--date must be a day written as" in run(tmp_path / "Plan.xlsx", "--date", wrong).output


def test_the_workbook_itself_is_only_read_and_copies_never_overwrite(folder: Path, example: bytes) -> None:
    assert (folder / "Plan.xlsx").read_bytes() == example
    names = {"Plan.xlsx", "Plan copy 1.xlsx", "Plan copy 2 values.xlsx", "Plan copy 3 no prices.xlsx"}
    assert {path.name for path in folder.iterdir()} == {*names, "Plan copy 4 values, no prices.xlsx"}


def test_the_same_copy_has_the_same_bytes_whatever_order_python_keeps_sets_in(example: bytes, tmp_path: Path) -> None:
    made = []
    for seed in ("1", "2"):
        (tmp_path / seed).mkdir()
        path = tmp_path / seed / "Plan.xlsx"
        path.write_bytes(example)
        command = [sys.executable, "-m", "brinecalc", "share", str(path), "--values"]
        settings = {**os.environ, "PYTHONHASHSEED": seed, "SOURCE_DATE_EPOCH": "1803772800"}
        subprocess.run(command, check=True, capture_output=True, env=settings)
        made.append((tmp_path / seed / "Plan copy 1 values.xlsx").read_bytes())
    assert made[0] == made[1]


def test_what_changed_is_told_on_the_screen_and_in_the_copy(example: bytes, tmp_path: Path) -> None:
    path = tmp_path / "Plan.xlsx"
    path.write_bytes(example)
    assert run(path, "--date", "2027-03-01").exit_code == 0

    def change(edit: Edit) -> None:
        edit.put("Plan", FIRST + 1, 6, 6.5)
        edit.put("Plan", FIRST + 2, 4, "=not a formula")
        edit.put("Plan", FIRST + 2, 12, 0.015)
        edit.put("Prices", FIRST, 4, 50.25)

    saved(path, change)
    result = run(path, "--values", "--date", "2027-03-02")
    assert "Changed since copy 1: 4 inputs." in result.output
    rows = copies((tmp_path / "Plan copy 2 values.xlsx").read_bytes())[12:]
    assert [row[3:] for row in rows[:4]] == [
        ["Plan!F9", "2: Weight as bought, kg", "6", "6.5"],
        ["Plan!D10", "3: For", "Saturday carvery", "=not a formula"],
        ["Plan!L10", "3: Salt wanted in the product", "1.4 %", "1.5 %"],
        ["Prices!D8", "chicken breast: Price of the pack, EUR", "44.5", "50.25"],
    ]
    assert [row[0] for row in rows] == [2, 2, 2, 2, 1]
    assert book((tmp_path / "Plan copy 2 values.xlsx").read_bytes(), False)["Copies"]["G14"].data_type == "s"
    assert "Changed since copy 2: nothing." in run(path).output


# ---- the values copy


def test_no_formula_of_ours_is_left_and_all_built_in_ones_are(frozen: bytes, example: bytes) -> None:
    before, after = cells(example, False), cells(frozen, False)
    formulas = {key: text for key, text in before.items() if isinstance(text, str) and text.startswith("=")}
    ours = {key for key, text in formulas.items() if is_ours(text) and key[0] != "Functions"}
    assert len(ours) > 2000
    left = {key for key, text in after.items() if isinstance(text, str) and text.startswith("=") and is_ours(text)}
    assert {sheet for sheet, _ in left} == {"Functions", "Formulas"}  # texts that show how a formula is written
    state = ("Workings", "L3")
    built_in = formulas.keys() - ours - {state}
    assert {key: after.get(key) for key in built_in} == {key: formulas[key] for key in built_in}
    assert after[state].endswith(
        f"({formulas[state].removeprefix('=')})"
    )  # the state of the plan, and a warning before it


def test_every_value_is_as_in_the_live_copy(frozen: bytes, live: bytes) -> None:
    before, after = cells(live), cells(frozen)
    own = ("Copies", "Formulas", "Sent")
    assert {key for key in after if key[0] not in own} == {key for key in before if key[0] not in own}
    for key, value in before.items():
        if key[0] not in own:
            assert same(after[key], value), key
    assert "#NAME?" not in after.values()


def test_every_replaced_formula_can_be_read(frozen: bytes, example: bytes) -> None:
    before = cells(example, False)
    ours = {
        key: text for key, text in before.items() if isinstance(text, str) and text.startswith("=") and is_ours(text)
    }
    sheet = book(frozen)["Formulas"]
    listed = {(row[0].value, row[1].value): row[2].value for row in sheet.iter_rows(5)}
    assert listed == {key: text for key, text in ours.items() if key[0] != "Functions"}
    assert all(cell.data_type != "f" for row in sheet.iter_rows(5) for cell in row)
    notes = book(frozen)["Card"]
    on_card = {key[1]: text for key, text in listed.items() if key[0] == "Card"}
    assert on_card
    assert {place: notes[place].comment.text for place in on_card} == on_card


def test_inputs_that_values_rest_on_are_locked_and_choices_are_not(frozen: bytes) -> None:
    person = Person(frozen)
    for place in (
        ("Plan", "F9"),
        ("Plan", "B60"),
        ("Prices", "D8"),
        person.named("typed_units"),
        person.named("rules"),
    ):
        with pytest.raises(AssertionError, match="is locked"):
            person.type(*place, 1)
    for name in ("card_batch", "charts_batch", "log_batch", "recipe_batch", "kitchen"):
        person.type(*person.named(name), 3)


@pytest.mark.parametrize("number", [3, 9, 13, 40])
def test_another_batch_can_be_chosen_where_nothing_is_installed(frozen: bytes, live: bytes, number: int) -> None:
    """Card, log, charts and recipe of the copy read as those of the live workbook for that batch (40 is empty)."""
    names = ("card_batch", "charts_batch", "log_batch", "recipe_batch")
    made = []
    for content in (live, frozen):
        edit = Edit(content, "Plan.xlsx")
        for name in names:
            place = edit.place(name)
            assert place is not None
            edit.put(place.sheet, place.area.top, place.area.left, float(number))
        outcome = calculate(edit.done(), "Plan.xlsx")
        assert outcome.report.kept == 0
        made.append(cells(outcome.content))
    one, other = ({k: v for k, v in found.items() if k[0] in ("Card", "Charts", "Log", "Recipe")} for found in made)
    assert other.keys() == one.keys()
    for key, value in one.items():
        assert same(other[key], value), key


def test_a_figure_changed_by_force_fails_every_batch(frozen: bytes) -> None:
    """Whoever takes the protection off and halves a weight must not find the curing salt of the whole beside it."""
    edit = Edit(frozen, "Plan.xlsx")
    edit.put("Plan", FIRST + 7, 6, 4.5)
    edit.put("Plan", FIRST + 30, 2, "chicken breast")
    answers = Answers(calculate(edit.done(), "Plan.xlsx"))
    for row in (FIRST, FIRST + 7, FIRST + 30):
        assert answers.row("Plan", row)["Says"] == "FAILS"
    assert "changed after this copy was sent" in answers.book["Plan"]["D2"].value
    assert answers.row("Results", TOTALS)["Cost of the batch"] == "not complete"
    assert answers.named("order_total") == "not complete"
    assert answers.named("copy_changes") == 2


def test_a_copy_of_a_copy_counts_on(folder: Path, tmp_path: Path) -> None:
    """The reader sends it further: history and number go along."""
    path = tmp_path / "Theirs.xlsx"
    path.write_bytes((folder / "Plan copy 2 values.xlsx").read_bytes())
    assert run(path, "--values").exit_code == 0
    rows = copies((tmp_path / "Theirs copy 3 values.xlsx").read_bytes())
    assert [row[0] for row in rows[12:]] == [3, 2, 1]


@pytest.mark.skipif(office.find() is None, reason="there is no LibreOffice here")
def test_libreoffice_without_the_extension_computes_the_copy_to_the_same_values(frozen: bytes, tmp_path: Path) -> None:
    from brinecalc.hosts.calc.session import Session

    path = tmp_path / "frozen.xlsx"
    path.write_bytes(frozen)
    found = office.find()
    assert found is not None
    with Session(found, extensions=()) as calc:
        answers = calc.workbook(path, recalculate=True)
    formulas, wanted = cells(frozen, False), Edit(frozen, "x.xlsx")
    count = 0
    for (sheet, place), text in formulas.items():
        if isinstance(text, str) and text.startswith("=") and sheet not in ("Functions", "Formulas", "Copies"):
            row, col = openpyxl.utils.cell.coordinate_to_tuple(place)
            expected, got = wanted.look(sheet, row, col).value, answers[sheet].get(place, "")
            assert got == (
                pytest.approx(expected, rel=1e-9, abs=1e-9) if isinstance(expected, float) else expected or ""
            ), f"{sheet}!{place}"
            count += 1
    assert count > 10_000


# ---- the copy without prices


def test_no_price_and_nothing_worked_out_from_one_is_left(folder: Path, example: bytes, tmp_path: Path) -> None:
    """Every amount of money in the live workbook with five digits or more is looked for in every part of the copies."""
    person = Person(example)
    for row in range(FIRST, FIRST + 40):
        if person.book["Prices"][f"A{row}"].value:
            person.fill("Prices", row, {"Price of the pack": 7391.5361 + 13.2707 * row})
    out = io.BytesIO()
    person.book.save(out)
    priced = calculate(out.getvalue(), "Plan.xlsx").content
    (tmp_path / "Plan.xlsx").write_bytes(priced)
    edit = Edit(priced, "Plan.xlsx")
    values = {edit.look(*cell).value for cell in places(edit)}
    amounts = {f"{value:.12g}"[:9] for value in values if isinstance(value, float) and len(f"{value:.12g}") >= 7}
    assert len(amounts) > 100
    for kind in ([], ["--values"]):
        assert run(tmp_path / "Plan.xlsx", "--no-prices", *kind).exit_code == 0
    for path in tmp_path.glob("Plan copy *no prices.xlsx"):
        everything = b"\n".join(parts(path.read_bytes()).values()).decode("utf-8", "replace")
        assert not [amount for amount in amounts if amount in everything]
        shown_costs = Answers(calculate(path.read_bytes(), path.name)).row("Results", FIRST)
        assert shown_costs["Cost of the batch"] is None


def test_without_prices_the_rest_stays_whole(folder: Path, live: bytes) -> None:
    content = (folder / "Plan copy 3 no prices.xlsx").read_bytes()
    before, after = Answers(calculate(live, "a.xlsx")), Answers(calculate(content, "b.xlsx"))
    assert after.outcome.report.errors == 0
    for row in range(FIRST, FIRST + 15):
        one, other = (
            {key: shown(value) for key, value in answers.row("Results", row).items() if "ost" not in key}
            for answers in (before, after)
        )
        assert other == one
    order = [[book(content)["Order"].cell(row, col).value for col in (2, 3)] for row in range(9, 14)]
    assert order == [[book(live)["Order"].cell(row, col).value for col in (2, 3)] for row in range(9, 14)]
    assert "Prices are left out of this copy." in cells(content).values()
    assert "price is missing" not in str(book(content)["Plan"]["D2"].value)


def test_a_copy_without_prices_shows_no_empty_frame_of_money(folder: Path, live: bytes) -> None:
    """Columns of money are hidden, charts of money gone with their parts, and the pages say what is left out."""
    from openpyxl.utils import get_column_letter

    for name in ("Plan copy 3 no prices.xlsx", "Plan copy 4 values, no prices.xlsx"):
        content = (folder / name).read_bytes()
        made, whole = book(content), book(live)
        for sheet, heads in (("Results", ("Cost of the batch", "Cost per finished weight", "Cost per portion")),
                             ("Prices", ("Price of the pack", "Says", "Cost of what is used", "Cost")),
                             ("Order", ("Price of a pack", "Cost"))):  # fmt: skip
            row = 7 if sheet == "Order" else 6
            at = {cell.value: cell.column_letter for cell in reversed(whole[sheet][row]) if cell.value}
            for head in heads:
                assert made[sheet].column_dimensions[at[head]].hidden, (sheet, head)
            unseen = {letter for letter, column in made[sheet].column_dimensions.items() if column.hidden}
            assert not unseen & {
                letter for head, letter in at.items() if head in ("Product", "Pack", "What", "Supplier")
            }
        assert [len(whole[sheet]._charts) for sheet in ("Order", "Charts")] == [2, 3]
        assert [len(made[sheet]._charts) for sheet in ("Order", "Charts")] == [0, 2]
        left = {part for part in parts(content) if "/charts/" in part}
        assert len(left) == len({part for part in parts(live) if "/charts/" in part}) - 3
        listed = parts(content)["[Content_Types].xml"].decode()
        assert {f"xl/charts/{part}" for part in re.findall(r"/xl/charts/(chart\d+\.xml)", listed)} == left
        everything = cells(content)
        assert everything["Charts", "A22"] == everything["Order", "A65"] == "Prices are left out of this copy."
        assert everything["Results", "D1"] == "Prices are left out of this copy."
        assert "left out" in {cell.value for cell in made["Recipe"]["M"]}
        assert "Where the money goes" not in everything.values()
        words = {value for (sheet, _), value in everything.items() if sheet == "Order" and isinstance(value, str)}
        assert not {word for word in words if word in ("Total", "EUR", "each with a cost")}

        def wide(ws: Any) -> float:
            return sum(
                column.width for n in range(1, 13) if not (column := ws.column_dimensions[get_column_letter(n)]).hidden
            )

        assert wide(made["Order"]) == pytest.approx(wide(whole["Order"]))  # the page prints at its own scale


def test_a_chart_of_money_is_not_kept_out_of_sight(example: bytes) -> None:
    """Spreadsheet programs keep a style and colours beside a chart; they go with it."""
    edit = Edit(example, "Plan.xlsx")
    drawing = next(name for name in edit.part_names() if b"Where the money goes" in edit.part(name) and "chart" in name)
    edit.set_part("xl/charts/style9.xml", b"<cs:chartStyle/>")
    sheets.add_kind(edit, "xl/charts/style9.xml", "application/vnd.ms-office.chartstyle+xml")
    sheets.relate(
        edit, drawing, "http://schemas.microsoft.com/office/2011/relationships/chartStyle", "xl/charts/style9.xml"
    )
    left = parts(without_money(edit.done(), "Plan.xlsx")[0])
    assert not [
        name for name in left if "style9" in name or name.rpartition("/")[2].startswith(drawing.rpartition("/")[2])
    ]
    assert b"style9" not in left["[Content_Types].xml"]


def test_no_copy_without_prices_tells_of_a_price_in_its_history(example: bytes, tmp_path: Path) -> None:
    path = tmp_path / "Plan.xlsx"
    path.write_bytes(example)
    run(path)
    saved(path, lambda edit: edit.put("Prices", FIRST, 4, 50.25))
    assert "1 input" in run(path).output
    saved(path, lambda edit: edit.put("Prices", FIRST, 4, 60.75))
    assert "nothing" in run(path, "--no-prices").output
    hidden = parts((tmp_path / "Plan copy 3 no prices.xlsx").read_bytes())
    assert not [name for name, data in hidden.items() if b"50.25" in data or b"60.75" in data]
    result = run(path)
    assert "Changed since copy 2: 1 input." in result.output  # a copy without prices tells nothing of prices
    assert "50.25 → 60.75" in result.output
    history = copies((tmp_path / "Plan copy 4.xlsx").read_bytes())[12:]
    assert [row[0] for row in history] == [4, 3, 2, 1]


def test_a_price_typed_as_text_is_forgotten_by_the_shared_texts_and_by_charts(example: bytes) -> None:
    edit = Edit(example, "Plan.xlsx")
    shared = f'<sst xmlns="{MAIN}"><si><t>kept</t></si><si><t>77.123456</t></si></sst>'
    sheet = edit.part(edit.sheets["Prices"])
    sheet = re.sub(rb'<c r="D8"[^>]*>.*?</c>', b'<c r="D8" t="s"><v>1</v></c>', sheet)
    sheet = re.sub(rb'<c r="L8"[^>]*?(?:/>|>.*?</c>)', b'<c r="L8" t="s"><v>0</v></c>', sheet)
    assert sheet.count(b't="s"') == 2
    edit.set_part(edit.sheets["Prices"], sheet)
    add_part(edit, "sharedStrings", shared)
    chart = next(name for name in edit.part_names() if "/charts/chart" in name)
    cache = b"<c:numCache><c:ptCount val='1'/><c:pt idx='0'><c:v>77.123456</c:v></c:pt></c:numCache></c:numRef>"
    cache = cache.replace(b"c:", b"") if b"<numRef" in edit.part(chart) else cache
    edit.set_part(chart, re.sub(rb"</(?:c:)?numRef>", cache, edit.part(chart)))
    given = edit.done()
    assert sum(b"77.123456" in part for part in parts(given).values()) == 2
    content, _ = without_money(given, "Plan.xlsx")
    assert not [name for name, part in parts(content).items() if b"77.123456" in part]
    assert b"kept" in parts(content)["xl/sharedStrings.xml"]


def test_the_small_picture_of_the_first_sheet_goes_with_the_prices(example: bytes) -> None:
    edit = Edit(example, "Plan.xlsx")
    edit.set_part("docProps/thumbnail.jpeg", b"a picture")
    kind = "http://schemas.openxmlformats.org/package/2006/relationships/metadata/thumbnail"
    line = f'<Relationship Id="picture" Type="{kind}" Target="docProps/thumbnail.jpeg"/></Relationships>'
    edit.set_part("_rels/.rels", edit.part("_rels/.rels").replace(b"</Relationships>", line.encode()))
    left = parts(without_money(edit.done(), "Plan.xlsx")[0])
    assert not [name for name, data in left.items() if "thumbnail" in name or b"thumbnail" in data]


def test_a_workbook_that_may_keep_prices_elsewhere_is_refused(example: bytes) -> None:
    edit = Edit(example, "Plan.xlsx")
    edit.set_part("xl/pivotCache/pivotCacheRecords1.xml", b"<pivotCacheRecords/>")
    with pytest.raises(FileTrouble, match="take out pivot tables"):
        without_money(edit.done(), "Plan.xlsx")


# ---- other people's workbooks, other trouble


def test_any_workbook_can_be_shared_and_its_own_sheets_are_left_alone(tmp_path: Path) -> None:
    strange = openpyxl.Workbook()
    strange.active.title = "Copies"
    strange.active["A1"] = "my copies"
    strange.active["A2"] = 1000
    strange.active["B2"] = "=BRINE_SALT(A2,5%)"
    strange.active["C2"] = "=B2*2"
    strange.create_sheet("Sent")["A1"] = "mine"
    strange.save(tmp_path / "own.xlsx")
    assert run(tmp_path / "own.xlsx", "--values").exit_code == 0
    done = (tmp_path / "own copy 1 values.xlsx").read_bytes()
    found = cells(done)
    assert found["Copies", "A1"] == "my copies"
    assert found["Sent", "A1"] == "mine"
    assert (found["Copies", "B2"], found["Copies", "C2"]) == (50, 100)
    assert cells(done, False)["Copies", "C2"] == "=B2*2"
    assert found["Copies 2", "C4"] == 1
    refused = run(tmp_path / "own.xlsx", "--no-prices")
    assert refused.exit_code == 2
    assert "has no price list" in refused.output


def test_the_list_of_the_order_of_formulas_goes_when_formulas_go(example: bytes, tmp_path: Path) -> None:
    """A spreadsheet program would call the file damaged if the list named a cell without a formula."""
    edit = Edit(example, "Plan.xlsx")
    add_part(edit, "calcChain", f'<calcChain xmlns="{MAIN}"><c r="D8" i="13"/></calcChain>')
    (tmp_path / "Plan.xlsx").write_bytes(edit.done())
    run(tmp_path / "Plan.xlsx")
    run(tmp_path / "Plan.xlsx", "--values")
    assert "xl/calcChain.xml" in parts((tmp_path / "Plan copy 1.xlsx").read_bytes())
    gone = parts((tmp_path / "Plan copy 2 values.xlsx").read_bytes())
    assert not [name for name, data in gone.items() if b"calcChain" in data or "calcChain" in name]


def test_what_is_put_in_stands_where_the_file_format_wants_it(frozen: bytes) -> None:
    """The order of a sheet's parts by ECMA-376, 18.3.1.99: drawings before the boxes of notes, tables after."""
    order = (
        "sheetPr dimension sheetViews sheetFormatPr cols sheetData sheetProtection autoFilter mergeCells "
        "conditionalFormatting dataValidations hyperlinks printOptions pageMargins pageSetup headerFooter rowBreaks "
        "colBreaks drawing legacyDrawing tableParts extLst"
    ).split()
    from lxml import etree

    for name, data in parts(frozen).items():
        if name.startswith("xl/worksheets/sheet"):
            children = [etree.QName(child).localname for child in etree.fromstring(data)]
            assert children == sorted(children, key=order.index), name
    edit = Edit(frozen, "x.xlsx")
    looks = Looks(edit)
    used = {int(place.style or 0) for sheet in edit.sheets for place in edit.map(sheet).cells.values()}
    assert max(used) < len(looks.xfs)
    count = re.search(rb'<cellXfs count="(\d+)"', parts(frozen)["xl/styles.xml"])
    assert count is not None
    assert int(count[1]) == len(looks.xfs)


def test_trouble_is_said_in_words(example: bytes, tmp_path: Path) -> None:
    (tmp_path / "Plan.xlsx").write_bytes(example)
    assert "there is no file" in run(tmp_path / "None.xlsx").output
    assert "there is a file of that name" in run(tmp_path / "Plan.xlsx", "-o", tmp_path / "Plan.xlsx").output
    assert "there is a file of that name" in run(tmp_path / "Plan.xlsx", "-o", tmp_path / "Plan.xlsx" / "in").output
    assert "there is no file" in run(tmp_path / "Plan.xlsx", "--since", tmp_path / "lost.xlsx").output
    (tmp_path / "blank.xlsx").write_bytes(built(Options()))
    result = run(tmp_path / "blank.xlsx", "--pdf")
    assert result.exit_code == 1
    assert "no batch is planned" in result.output
    assert (tmp_path / "blank copy 1.xlsx").exists()


def test_the_folder_for_copies_is_made_and_copies_in_it_count_on(example: bytes, tmp_path: Path) -> None:
    (tmp_path / "Plan.xlsx").write_bytes(example)
    for number in (1, 2):
        result = run(tmp_path / "Plan.xlsx", "-o", tmp_path / "for" / "them")
        assert result.exit_code == 0
        assert (tmp_path / "for" / "them" / f"Plan copy {number}.xlsx").exists()
    assert "Changed since copy 1: nothing." in result.output
    assert f"brinecalc {VERSION}, tables of {TABLE_DATE}" in result.output


# ---- paper


@pytest.mark.skipif(office.find() is None, reason="there is no LibreOffice here")
def test_the_order_without_prices_is_one_page_in_the_pdf(example: bytes, tmp_path: Path) -> None:
    (tmp_path / "Plan.xlsx").write_bytes(example)
    assert run(tmp_path / "Plan.xlsx", "--pdf", "--no-prices").exit_code == 0
    data = (tmp_path / "Plan copy 1 no prices.pdf").read_bytes()
    assert len(re.findall(rb"/Type\s*/Page(?![a-zA-Z])", data)) == 16  # fifteen cards, and the order


@pytest.mark.skipif(office.find() is None, reason="there is no LibreOffice here")
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_batch_gets_one_page_and_the_order_follows(paper: str, tmp_path: Path) -> None:
    (tmp_path / "Plan.xlsx").write_bytes(built(Options("metric", paper, True)))
    result = run(tmp_path / "Plan.xlsx", "--pdf")
    assert result.exit_code == 0, result.output
    data = (tmp_path / "Plan copy 1.pdf").read_bytes()
    sizes = re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", data)
    width = {"A4": 595, "Letter": 612}[paper]
    assert {round(float(size[0])) for size in sizes} == {width}
    assert 16 <= len(re.findall(rb"/Type\s*/Page(?![a-zA-Z])", data)) <= 18  # fifteen cards, the order on one to three


def test_without_libreoffice_the_copy_is_made_and_the_pdf_is_not(
    example: bytes, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(office, "find", lambda: None)
    (tmp_path / "Plan.xlsx").write_bytes(example)
    result = run(tmp_path / "Plan.xlsx", "--pdf")
    assert result.exit_code == 1
    assert "there is no LibreOffice" in result.output
    assert [path.name for path in sorted(tmp_path.iterdir())] == ["Plan copy 1.xlsx", "Plan.xlsx"]
