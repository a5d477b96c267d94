"""Spreadsheet functions in the headless engine against what LibreOffice answered when asked."""

import csv
import io
import re

import openpyxl
import pytest
from each import each
from xlsx import saved

from brinecalc.hosts.headless import stand_in_texts, watches
from brinecalc.hosts.headless.values import Fault, alike, compare, general
from tests.hosts import ask_libreoffice
from tests.hosts.toys import book_of, computed, one, reason

DIFFERENT = {
    r'CODE\("é"\)': "LibreOffice gives the first byte, Excel the code of the Windows alphabet",
    r"HLOOKUP\(2\.5,H1:H8,3,1\)": "LibreOffice finds nothing in a table of one column",
    r"RANK\(\S+,H1:H8\)": "a number that is not in the list: Excel says #N/A, LibreOffice where it would stand",
    r'NOT\(A1\)&""|1&TRUE': "LibreOffice keeps logical values as numbers",
}
"""Where LibreOffice is not followed, and why."""

REFUSED = {
    r'(MAX|MIN|PRODUCT|SUM)\(.*"(abc|3|)"\)': "a text typed into a sum",
    r"DAYS\(.*(\.75|D2).*\)": "parts of days",
    r"TIME\(.*1\.9.*\)": "parts of seconds",
    r'TEXT\((1|C1),"d mmm yyyy"\)': "dates before March 1900",
    r"WEEKDAY\(.*,(1\.9|5)\)": "week days counted otherwise",
    r"WEEKNUM\(.*\)": "weeks at the turn of the year",
}
"""What is not computed although LibreOffice answers, and what it is about."""


@pytest.fixture(scope="module")
def asked():
    with ask_libreoffice.REFERENCE.open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    outcome = computed(saved(ask_libreoffice.workbook([row["formula"] for row in rows])), "asked.xlsx")
    sheet = openpyxl.load_workbook(io.BytesIO(outcome.content), data_only=True)["Sheet"]
    kept = {problem.cell for problem in outcome.report.problems if problem.error is None}
    for place, row in enumerate(rows, 1):
        row["kept"] = f"P{place}" in kept
        row["ours"] = ask_libreoffice.coded(sheet[f"P{place}"].value)
    return rows


def agrees(row):
    kind, answer = row["ours"]
    if kind != row["kind"]:
        return False
    if kind == "number":  # values are written with 12 digits
        return float(answer) == pytest.approx(float(row["answer"]), rel=5.1e-12, abs=1e-15)
    return kind == "error" or answer == row["answer"]  # LibreOffice writes its own errors as #VALUE!


def test_every_function_gives_what_libreoffice_7_4_gives(asked):
    """Source: tests/reference/builtins_libreoffice.csv, asked by ask_libreoffice.py."""
    wrong = [
        f"{row['formula']}: {row['ours'][1]!r}, LibreOffice {row['answer']!r}"
        for row in asked
        if not row["kept"] and not agrees(row) and not any(re.fullmatch(p, row["formula"]) for p in DIFFERENT)
    ]
    assert wrong == []


def test_few_functions_are_refused_and_each_for_a_reason(asked):
    kept = [row["formula"] for row in asked if row["kept"]]
    assert [formula for formula in kept if not any(re.fullmatch(p, formula) for p in REFUSED)] == []


def test_named_differences_and_refusals_exist(asked):
    differing = [row["formula"] for row in asked if not row["kept"] and not agrees(row)]
    for pattern in DIFFERENT:
        assert any(re.fullmatch(pattern, formula) for formula in differing), pattern
    for pattern in REFUSED:
        assert any(re.fullmatch(pattern, row["formula"]) for row in asked if row["kept"]), pattern


def test_enough_was_asked(asked):
    assert len(asked) > 1500
    assert len({row["formula"].partition("(")[0] for row in asked}) > 150


@each(
    ("number", "text"),
    [  # source: as LibreOffice 7.4 joins numbers to text, and Excel beyond 1E20 and below 1E-19 from memory
        (1 / 3, "0.333333333333333"),
        (100 / 3, "33.3333333333333"),
        (0.1 + 0.2, "0.3"),
        (-1 / 3, "-0.333333333333333"),
        (1234.5, "1234.5"),
        (1e15, "1000000000000000"),
        (0.0001, "0.0001"),
        (1e-10, "0.0000000001"),
        (1e21, "1E+21"),
        (1.5e-30, "1.5E-30"),
        (0.0, "0"),
        (-0.0, "0"),
        (99999999999999.95, "100000000000000"),
    ],
)
def test_numbers_are_joined_to_text_with_15_digits(number, text):
    assert general(number) == text


def test_numbers_equal_but_for_noise_compare_as_equal():
    assert alike(0.1 + 0.2, 0.3)
    assert not alike(0.3, 0.3000001)
    assert compare(0.1 + 0.2, 0.3) == 0
    assert compare("É", "é") == 0
    assert compare(5.0, "a") < 0 < compare(True, "a")
    assert compare(None, 0.0) == compare(None, "") == compare(None, False) == 0


@each("formula", ["A1+A2=A3", "A1+A2-A3=0", "A3=A1+A2", "A1+A2>=A3", "A1+A2<=A3", "SUM(A1:A2)-A3=0"])
def test_a_check_of_sums_holds_as_in_spreadsheet_programs(formula):
    assert one(f'IF({formula},"even","odd")', {"A1": 0.1, "A2": 0.2, "A3": 0.3}) == "even"


@each("formula", ["INT(A1*100)", "MOD(A1*100,1)", "QUOTIENT(A1*100,1)", "ROUND(A2*100,0)", "MROUND(A3,0.1)"])
def test_roundings_that_differ_from_program_to_program_are_not_computed(formula):
    """8.7 × 100 is 869.9999999999999 in binary: Excel's INT gives 869 (from memory), LibreOffice 7.4 gives 870."""
    assert "disagree" in one(formula, {"A1": 8.7, "A2": 0.285, "A3": 1.15})


def test_a_rounding_in_doubt_spares_the_other_rows():
    cells = {f"A{row}": water for row, water in enumerate([5.5, 8.7, 9.5], 1)}
    outcome = computed(book_of({**cells, **{f"B{row}": f"=INT(A{row}*100)" for row in (1, 2, 3)}}))
    assert [problem.cell for problem in outcome.report.problems] == ["B2"]


def test_rounding_half_away_from_zero_by_the_digits_seen():
    """Source: by hand."""
    assert [watches.rounded(x, 2.0) for x in (1.005, 2.675, -1.005, 1.0049)] == [1.01, 2.68, -1.01, 1.0]
    assert watches.rounded(1250.0, -2.0) == 1300.0
    assert watches.rounded(0.04, 0.0) == 0.0


def test_texts_longer_than_a_cell_are_errors():
    with pytest.raises(Fault):
        stand_in_texts.repeat("x", 40_000.0)
    with pytest.raises(Fault):
        stand_in_texts.substitute("a" * 30_000, "a", "aa")
    assert one('REPT("x",1000000000)') == "#VALUE!"


def test_search_takes_its_wildcards_and_never_dawdles():
    assert stand_in_texts.search("s?l*r", "xx salt and pepper") == 4.0
    assert stand_in_texts.search("~*", "a*b") == 2.0
    with pytest.raises(Fault):
        stand_in_texts.search("*a" * 100 + "b", "a" * 30_000)


def test_rare_characters_take_two_places_as_in_spreadsheet_programs():
    """Source: LibreOffice 7.4: LEN of a character outside the basic plane is 2."""
    assert stand_in_texts.length("🧂") == 2.0
    assert stand_in_texts.mid("a🧂b", 4.0, 1.0) == "b"
    assert stand_in_texts.right("a🧂b", 3.0) == "🧂b"


@each(
    ("formula", "expected"),
    [  # source: by hand
        ("XLOOKUP(3,A1:A4,B1:B4)", 30),
        ('XLOOKUP(9,A1:A4,B1:B4,"none")', "none"),
        ("XLOOKUP(3.5,A1:A4,B1:B4,,-1)", 30),
        ("XMATCH(4,A1:A4)", 4),
        ("SUM(A:A)", 10),
        ('SUMIF(A:A,">2",B:B)', 70),
        ("INDEX(B1:B4,MATCH(2,A1:A4,0))", 20),
        ("ROW()", 99),
        ("COLUMNS(A1:C1)", 3),
        ("SUM(INDEX(A1:B4,0,2))", 100),
        ("AGGREGATE(9,0,A1:A4)", "[AGGREGATE is not a function that is known here]"),
    ],
)
def test_functions_that_old_libreoffice_lacks(formula, expected):
    cells = {f"A{i}": i for i in (1, 2, 3, 4)} | {f"B{i}": 10 * i for i in (1, 2, 3, 4)}
    prefix = "_xlfn." if formula[0] == "X" else ""
    assert one(prefix + formula, cells) == expected


def test_a_text_key_looked_up_by_order_is_not_computed():
    """A text of digits is not a number: spreadsheet programs say #N/A, the engine would take it for one."""
    assert "text" in reason("MATCH(B1,A1:A3)", {"A1": 1, "A2": 2, "A3": 3, "B1": "2"})
    assert one("MATCH(2,A1:A3)", {"A1": 1, "A2": 2, "A3": 3}) == 2


def test_dates_in_texts_and_blank_dates_are_not_computed():
    assert "language" in one("YEAR(A1)", {"A1": "3/4/2024"})
    assert "blank" in one("MONTH(A1)")
    assert one('IF(A1="","",MONTH(A1))') in (None, "")
    assert one("YEAR(A1)", {"A1": 45000}) == 2023
