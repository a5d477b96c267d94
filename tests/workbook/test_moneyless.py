"""The copy without prices: no price, nothing worked out from one, and no empty frame of money."""

from __future__ import annotations

import datetime
import re
from pathlib import Path
from typing import Any

import pytest
from copied import (
    FROZEN_MONEYLESS,
    MONEYLESS,
    add_part,
    change,
    folder,
    history,
    same,
    share,
)
from filling import FIRST, Answers, Person
from kitchens import larder
from openpyxl.utils import column_index_from_string
from openpyxl.utils.datetime import to_excel
from xlsx import charts, columns, parts, stored

from brinecalc.files import FileTrouble
from brinecalc.hosts.headless.trial import Trial
from brinecalc.workbook.edit import sheets
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.moneyless import places, without_money

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"


def test_nothing_worked_out_from_a_price_is_left(live: bytes) -> None:
    """Every amount of money in the live workbook with many digits is looked for in every part of the copies."""
    edit = Edit(live, "Plan.xlsx")
    values = {edit.look(*cell).value for cell in places(edit)}
    amounts = {f"{value:.12g}"[:9] for value in values if isinstance(value, float) and len(f"{value:.12g}") >= 9}
    assert len(amounts) > 100
    for name in (MONEYLESS, FROZEN_MONEYLESS):
        everything = b"\n".join(parts(folder()[name]).values()).decode("utf-8", "replace")
        assert not [amount for amount in amounts if amount in everything]
        assert Answers.read(folder()[name]).row("Results", FIRST)["Cost of the batch"] is None


def test_nothing_typed_of_a_price_is_left(example: bytes) -> None:
    person = Person(example)
    prices = {row: 7391.5361 + 13.2707 * row for row in range(FIRST, FIRST + 40)}
    for row, price in prices.items():
        asked = {"Supplier": "The Salt Cellar", "Price of": datetime.date(2026, 10, 17)}  # a day of no other cell
        person.fill("Prices", row, {"Price of the pack": price, **asked})
    left = b"\n".join(parts(without_money(person.saved(), "Plan.xlsx")[0]).values()).decode("utf-8", "replace")
    assert not [price for price in prices.values() if f"{price:.9g}" in left]
    assert "Salt Cellar" not in left
    assert ">46312<" not in left  # 2026-10-17 as a spreadsheet counts days


def test_without_prices_the_rest_stays_whole(live: bytes) -> None:
    content = folder()[MONEYLESS]
    without, before = Trial(content, "b.xlsx"), Answers.read(live)
    assert not without.distrusted()
    assert not [formula.cell for formula in without.formulas() if isinstance(without.value(*formula.cell), dict)]
    for heading, letter in before.headings("Results").items():
        if "ost" not in heading:
            for row in range(FIRST, FIRST + 15):
                old = before.at("Results", f"{letter}{row}")
                old = to_excel(old) if isinstance(old, datetime.datetime) else old
                value = without.value("Results", row, column_index_from_string(letter))
                assert same("" if value is None else value, "" if old is None else old), (heading, row)
    order = [("Order", f"{letter}{row}") for letter in "BC" for row in range(9, 14)]
    after, live_ones = stored(content), stored(live)
    assert [after[at] for at in order] == [live_ones[at] for at in order]
    assert "Prices are left out of this copy." in after.values()
    assert "price is missing" not in after["Plan", "D2"]


def test_a_copy_without_prices_shows_no_empty_frame_of_money(live: bytes) -> None:
    """Columns of money are hidden, charts of money gone with their parts, and the pages say what is left out."""
    for name in (MONEYLESS, FROZEN_MONEYLESS):
        content = folder()[name]
        everything, whole = stored(content), stored(live)
        for sheet, heads in (("Results", ("Cost of the batch", "Cost per finished weight", "Cost per portion")),
                             ("Prices", ("Price of the pack", "Says", "Cost of what is used", "Cost")),
                             ("Order", ("Price of a pack", "Cost"))):  # fmt: skip
            row = 7 if sheet == "Order" else 6
            at: dict[Any, str] = {}
            for (page, place), words in whole.items():
                if page == sheet and place.endswith(str(row)) and place.removesuffix(str(row)).isalpha():
                    at.setdefault(words, place.removesuffix(str(row)))
            unseen = {letter for letter, (_, hidden) in columns(content, sheet).items() if hidden}
            assert unseen >= {at[head] for head in heads}, sheet
            assert not unseen & {
                letter for head, letter in at.items() if head in ("Product", "Pack", "What", "On hand")
            }
        assert [charts(live, sheet) for sheet in ("Order", "Charts")] == [2, 3]
        assert [charts(content, sheet) for sheet in ("Order", "Charts")] == [0, 2]
        left = {part for part in parts(content) if "/charts/" in part}
        assert len(left) == len({part for part in parts(live) if "/charts/" in part}) - 3
        listed = parts(content)["[Content_Types].xml"].decode()
        assert {f"xl/charts/{part}" for part in re.findall(r"/xl/charts/(chart\d+\.xml)", listed)} == left
        assert everything["Charts", "A22"] == everything["Order", "A65"] == "Prices are left out of this copy."
        assert everything["Results", "D1"] == "Prices are left out of this copy."
        assert everything["Order", "A5"] == "Prices are left out of this copy."  # all that is needed stands in a row
        assert "left out" in {words for (sheet, at), words in everything.items() if sheet == "Recipe" and at[0] == "M"}
        assert "Where the money goes" not in everything.values()
        words = {value for (sheet, _), value in everything.items() if sheet == "Order" and isinstance(value, str)}
        assert not {word for word in words if word in ("Total", "EUR", "each with a cost")}

        def wide(book: bytes) -> float:
            return sum(
                width for letter, (width, hidden) in columns(book, "Order").items() if letter < "M" and not hidden
            )

        assert wide(content) == pytest.approx(wide(live))  # the page prints at its own scale


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


def test_no_copy_without_prices_tells_of_a_price_in_its_history(tmp_path: Path) -> None:
    path = tmp_path / "Plan.xlsx"
    path.write_bytes(larder())
    share(path)
    change(path, lambda edit: edit.put("Prices", 1, 2, 50.25))
    assert "1 input" in share(path).output
    change(path, lambda edit: edit.put("Prices", 1, 2, 60.75))
    assert "nothing" in share(path, "--no-prices").output
    hidden = parts((tmp_path / "Plan copy 3 no prices.xlsx").read_bytes())
    assert not [name for name, data in hidden.items() if b"50.25" in data or b"60.75" in data]
    result = share(path)
    assert "Changed since copy 2: 1 input." in result.output  # a copy without prices tells nothing of prices
    assert "50.25 → 60.75" in result.output
    lines = history((tmp_path / "Plan copy 4.xlsx").read_bytes())[12:]
    assert [row[0] for row in lines] == [4, 3, 2, 1]


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
