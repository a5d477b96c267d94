"""Formulas as text, against openpyxl's tokenizer and translator."""

import re

import pytest
from each import each
from openpyxl.formula import Tokenizer
from openpyxl.formula.translate import Translator

from brinecalc.hosts.formulas import places
from brinecalc.hosts.formulas.lexer import ROW, tokens
from brinecalc.hosts.formulas.places import Area, Mould
from brinecalc.hosts.formulas.syntax import FormulaError, parse

FORMULAS = [
    "SUM(A1:B2,$C$3)*-2^2%",
    '"a""b"&\'It\'\'s A1\'!A1&"B2"',
    'IF(A1>=0,"<>",)',
    "[1]!BRINE_SALT(1)+'[Book.xlsx]S'!A1",
    "LOG10(A10)+A1+$B2+C$3+$D$4",
    "SUM(A:A,$B:C,1:3,$2:4)",
    '{1,2;"x",TRUE}',
    "_xlfn.IFNA(Sheet1!A1,#N/A)",
    "Prices[[#This Row],[cost]]*1.5E-3",
    "BRINE.SALT(1)+_xldudf_BRINE_SALT(2)",
    " 1 +\n 2 ",
    "café+résumé_2*Q1_total",
    "A1:INDEX(B:B,2)",
    "+A1--B2%%",
    ".5+1.",
    "#REF!+Sheet!#REF!",
    "(A1,B1) C1",
    "@A1#",
    '"unfinished',
    "1;2",
    "",
]


@each("formula", FORMULAS)
def test_tokens_joined_are_the_formula(formula):
    cut = list(tokens(formula))
    assert "".join(token.text for token in cut) == formula
    assert all(formula[token.start : token.end] == token.text for token in cut)


@each("formula", [f for f in FORMULAS if f and not re.search(r"unfinished|'!|#$|:INDEX", f)])
def test_texts_and_functions_are_those_that_openpyxl_finds(formula):
    theirs = [t.value for t in Tokenizer("=" + formula).items]
    ours = list(tokens(formula))
    assert [t.text for t in ours if t.kind == "string"] == [t for t in theirs if re.fullmatch(r'"(?:[^"]|"")*"', t)]
    functions = [t[:-1] for t in theirs if t.endswith("(") and len(t) > 1]
    assert [t.text for t in ours if t.kind == "call"] == [f.rpartition("!")[2] for f in functions]


@each(
    "formula",
    [
        "A1+$B$2*C$3-$D4",
        'SUM(A1:$B$3)&"A1"',
        "'A1'!B2+LOG10(C3)",
        "SUM(A:B,$C:D)",
        "SUM(1:3,$4:5)",
        "Sheet1!A1:B2",
        "Q1_total+A1",
    ],
)
@each("to", ["B1", "A5", "D9"])
def test_moved_formulas_are_those_of_openpyxl(formula, to):
    row, col = places.cell(to)
    theirs = Translator("=" + formula, "A1").translate_formula(to)
    assert "=" + Mould(formula, 1, 1).at(row, col) == theirs


def test_a_reference_moved_off_the_sheet_is_lost():
    assert Mould("A1+B2", 2, 2).at(1, 1) == "#REF!+A1"
    assert Mould("XFD1048576", 1, 1).at(2, 2) == "#REF!"


def shown(node):
    if node.kind == "chain":
        return (
            "(" + shown(node.parts[0]) + "".join(op + shown(part) for op, part in zip(node.ops, node.parts[1:])) + ")"
        )
    inside = ",".join(shown(part) for part in node.parts)
    return f"{node.sheet}{node.text}" if not node.parts else f"{node.text or node.kind}[{inside}]"


@each(
    ("formula", "tree"),
    [  # source: the order of operators that spreadsheet programs share: signs, %, ^, * /, + -, &, comparison
        ("1+2*3-4^2^3&5=6<7", "(((1+(2*3)-(4^2^3))&5)=6<7)"),
        ("-2^2", "(minus[2]^2)"),
        ("2^-1%", "(2^minus[percent[1]])"),
        ("--A1", "minus[minus[A1]]"),
        ("---A1", "minus[A1]"),
        ("f(1,,(2))", "f[1,,group[2]]"),
        ("{1,2;3,4}", "array[row[1,2],row[3,4]]"),
        ("'a b'!A1:B2&[1]!x", "('a b'!A1:B2&[1]!x)"),
        ("=true", "TRUE"),
    ],
)
def test_a_formula_is_read_as_its_tree(formula, tree):
    assert shown(parse(formula)) == tree


@each(
    ("formula", "words"),
    [
        ("", "is empty"),
        ("1+", "ends too early"),
        ("SUM(1", "ends too early"),
        ("1;2", "semicolon"),
        ("{1,2;3}", "rows differ"),
        ("{A1}", "anything but constants"),
        ("BRINE_SALT(1000,5,%)", "a per cent sign that stands behind no number; write it right behind, as in 5%"),
        ("1 2", "cannot be read at “2”"),
        ('"open', "cannot be read at"),
        ("(" * 81 + "1" + ")" * 81, "brackets within brackets"),
        (")", "cannot be read"),
    ],
)
def test_what_is_no_formula_is_told_where(formula, words):
    with pytest.raises(FormulaError, match=re.escape(words)):
        parse(formula)


def test_deep_and_long_formulas_are_read():
    parse("(" * 64 + "1" + ")" * 64)
    parse("+".join(["A1"] * 4000))
    parse("-" * 8000 + "1")
    parse("1" + "%" * 80)


def test_equal_formulas_of_a_column_have_one_text():
    assert places.by_row("A12*B12+$C$1", 12) == places.by_row("A13*B13+$C$1", 13)
    assert places.by_row("A12*12", 12) != places.by_row("A13*12", 13)
    assert places.by_row(f"{ROW}1", 1) is None


def test_an_area_is_read_from_any_corner():
    assert places.area("B2") == Area(2, 2, 2, 2)
    assert places.area("$C$9:A1") == Area(1, 1, 9, 3)
    assert places.area("C:A") == Area(1, 1, 1_048_576, 3)
    assert places.area("5:2") == Area(2, 1, 5, 16_384)
    assert places.area("XFD1048576").single
    for wrong in ("A0", "XFE1", "A1048577", "1A", "", "A", "ZZZZ1"):
        with pytest.raises(ValueError, match=r"is not a cell|outside the sheet"):
            places.cell(wrong)
    assert [places.letters(places.column(text)) for text in ("A", "Z", "AA", "ZZ", "AAA", "XFD")] == [
        "A",
        "Z",
        "AA",
        "ZZ",
        "AAA",
        "XFD",
    ]
