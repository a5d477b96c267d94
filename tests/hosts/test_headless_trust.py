"""Which formulas the headless engine does not compute, and what it says about them."""

import itertools

import pytest
from each import each
from xlsx import parts, stored

from brinecalc.hosts.headless.values import compare
from tests.hosts.toys import (
    Toys,
    book_of,
    computed,
    formula_cell,
    one,
    raw_book,
    value,
)

CELLS = {"A2": "salt", "A3": "sugar", "A4": "soy", "A5": "cider", "B2": 1, "B3": 2, "B4": 3, "B5": 4, "C2": 0}


@each(
    ("formula", "said"),
    [
        # scalar functions over ranges: the engine is silently wrong about the first three
        ("SUMPRODUCT(LEN(A2:A5))", "LEN takes single cells"),
        ('SUMPRODUCT(--(LEFT(A2:A5,1)="s"))', "LEFT takes single cells"),
        ("SUMPRODUCT(ISNUMBER(B2:B5)*1)", "ISNUMBER takes single cells"),
        *((f"SUM({name}(B2:B5))", f"{name} takes single cells") for name in ("EXP", "ABS", "SQRT", "INT", "YEAR")),
        ("SUM(ROUND(B2:B5,1))", "ROUND takes single cells"),
        ("SUM(MOD(B2:B5,2))", "MOD takes single cells"),
        ("SUM(LARGE(B2:B5,{1,2}))", "LARGE takes single cells"),
        ("LEN(INDEX(A2:A5,C2))", "range where one cell belongs"),
        ('IF("é"<"salt",1,2)', "the order of texts"),
        ('IF("salt">="-1",1,2)', "the order of texts"),
        # results larger than one cell, and cells taken by position
        ("A2:A5", "by position"),
        ("+B2:B5", "calculates with a range"),
        ("B2:B5*2", "calculates with a range"),
        ("SUM(B2:B5*B2:B5)", "calculates with a range"),
        ("BRINE_SALT(B2:B5,5%)", "larger than one cell"),
        ("BRINE_TABLE(1)", "larger than one cell"),
        ("IF(TRUE,B2:B5,0)", "larger than one cell"),
        ("INDEX(B2:B5,0)", "range where one cell belongs"),
        ("INDEX(A2:B5,2,C2)", "range where one cell belongs"),
        ("{1,2,3}", "larger than one cell"),
        ("SUMPRODUCT(IF(B2:B5>1,1,0))", "IF takes single cells"),
        ("@B2:B5", "@ sign"),
        ("_xlfn.SINGLE(B2:B5)", "by position"),
        ("ROW(B2:B5)", "by position"),
        ("TRANSPOSE(B2:B5)", "larger than one cell"),
        ("_xlfn._xlws.SORT(B2:B5)", "larger than one cell"),
        # references that the engine does not know
        ("A2#", "# sign"),
        ("_xlfn.ANCHORARRAY(A2)", "not a function that is known"),
        ("SUM(2:2)", "whole rows"),
        ("SUM(B2:B5 A3:C3)", "crossing of two ranges"),
        ("SUM((B2:B3,B5))", "union"),
        ("SUM(B2:INDEX(B:B,4))", "builds a range"),
        ("SUM(Prices[cost])", "table"),
        ("Prices[[#This Row],[cost]]*2", "table"),
        ("[@cost]*2", "table"),
        ("[2]Stock!A1", "another workbook"),
        ("'C:\\kitchen\\[Stock.xlsx]Prices'!A1", "another workbook"),
        ("SUM(Plan:Other!A1)", "several sheets"),
        ("Missing!A1", "no sheet “Missing”"),
        ("nowhere+1", "not a known name"),
        ("XFE1+1", "neither a cell nor a known name"),
        ("A1048577", "neither a cell nor a known name"),
        ('INDIRECT("B2")', "use INDEX"),
        ("OFFSET(B2,1,0)", "use INDEX"),
        # functions
        ("BRINE_SALTT(1)", "did you mean BRINE_SALT?"),
        ("FOO(1)", "FOO is not a function that is known here"),
        ("Other.xlsm!FOO(1)", "another workbook"),
        ("_xlfn.LAMBDA(_xlpm.x,_xlpm.x+1)(1)", "cannot be read"),
        ("_xlfn.LET(_xlpm.x,1,_xlpm.x)", "LET is not computed here"),
        ('CONVERT(1,"lbm","kg")', "BRINE_UNIT"),
        ("RAND()", "random"),
        ("SUM()", "SUM cannot take 0 arguments"),
        ("ABS(1,2)", "ABS cannot take 2 arguments"),
        ('TEXT(B2,"0.0E+00")', "format"),
        ("TEXT(B2,A2)", "format written out"),
        ("MATCH(B2,B2:B5,B3)", "third place"),
        ('DATEDIF(45000,45300,"md")', "third place"),
        ("INDEX(A2:B5,2)", "a row and a column"),
        ("AVERAGE(4,IF(B2=1,C9,5))", "count differently"),
        ("COUNT(VLOOKUP(1,B2:C9,2,0),IFERROR(C9,1))", "count differently"),
        ('MAX(4,IF(B2=1,"",5))', "text where a number belongs"),
        ("MAX(-5,_xlfn.XLOOKUP(1,B2:B5,C6:C9))", "count differently"),
        ("MATCH(1,B2*2,1)", "needs a range to look through"),
        ('A2>"é"', "order of texts"),
        ('TEXT(10.05*1.1/1.1/1.1*1.1-1E-14,"0.0")', "disagree about a rounding"),
        ("FIXED(0.285*100,0)", "disagree about a rounding"),
        ('SUMIF(B2:B5,">1",B2:B4)', "differ in size"),
        ('SUMIFS(B2:B5,A2:A4,"salt")', "differ in size"),
        ("COUNTIF(B2:B5*1,1)", "calculates with a range"),
        ("BRINE_TOTAL(A:A)", "whole columns"),
        # texts that are no formulas
        ("1+", "ends too early"),
        ("SUM(1;2)", "semicolon"),
        ("(1", "ends too early"),
        ('"salt', "cannot be read"),
        ("1E400", "too large"),
        ("(" * 90 + "1" + ")" * 90, "brackets within brackets"),
        ("1+" * 5000 + "1", "longer than 8192"),
        ("1" + "+1" * 4000, "the engine cannot read it"),
        ("\ue0001+1", "U+E000"),
    ],
)
def test_is_reported_not_guessed(formula, said):
    outcome = computed(
        raw_book(
            [
                (
                    "Plan",
                    f'<row r="1">{formula_cell("A1", formula, "<v>17</v>")}</row>'
                    '<row r="2"><c r="A2" t="str"><v>salt</v></c><c r="B2"><v>1</v></c><c r="C2"><v>0</v></c></row>'
                    '<row r="3"><c r="B3"><v>2</v></c></row>',
                ),
                ("Other", ""),
            ]
        )
    )
    (problem,) = outcome.report.problems
    assert said in problem.reason
    assert problem.error is None
    assert value(outcome.content, "A1") == 17, "the file's own value must stay"


@each(
    ("formula", "expected"),
    [  # source: by hand
        ("SUMPRODUCT((B2:B5>1)*B2:B5)", 9),
        ('SUMPRODUCT((A2:A5="salt")*B2:B5)', 1),
        ("SUM(B2:B5)*2", 20),
        ("SUM({1,2,3}*2)", 12),
        ("SUM(IF(TRUE,B2:B5,0))", 10),
        ("SUM(BRINE_SALT(B2:B5,50%))", 5),
        ("BRINE_TOTAL(B2:B5)", 10),
        ("INDEX(BRINE_TABLE(1),2,2)", 0.02),
        ("ROUND(SUM(B2:B5)/3,2)", 3.33),
        ("INDEX(B2:B5,3)", 3),
        ("INDEX(A3:B3,2)", 2),
        ('IF(A2<"soy",1,2)', 1),
        ('IF(A2>"",1,2)', 1),
        ("LEN(INDEX(A2:A5,MATCH(4,B2:B5,0)))", 5),
        ("MAX(IF(B2>0,B2,B3),B4)", 3),
        ("AVERAGE(4,IF(B2=1,C9,C8))", 4),
        ("SUM(4,VLOOKUP(1,B2:C9,2,0),BRINE_SALT(100,1%))", 5),
        ("COUNT(BRINE_SALT(1),B2,INDEX(B2:B5,2))", 3),
        ("IFERROR(EDATE(45000,-10000),9)", 9),
        ("MOD(13,1.005)", 0.94),
        ("MOD(-13,4)", 3),
        ("MOD(13,-4)", -3),
        ("brine_salt(1000,5%)", 50),
        ("BRINE.SALT(1000,5%)", 50),
        ("_xldudf_BRINE_SALT(1000,5%)", 50),
        ("_xlfn.BRINE_SALT(1000,5%)", 50),
        ("[1]!BRINE_SALT(1000,5%)", 50),
        ("'C:\\add-ins\\Kitchen.xlam'!BRINE_SALT(1000,5%)", 50),
        ("(" * 60 + "B2" + ")" * 60, 1),
        ("ABS(" * 60 + "-B3" + ")" * 60, 2),
        ("1" + "+1" * 200, 201),
        ("-" * 50 + "B3", 2),
        (" BRINE_SALT( 1000 ,\n 5% ) ", 50),
    ],
)
def test_what_may_be_trusted_is_computed(formula, expected):
    assert one(formula, CELLS) == pytest.approx(expected, rel=1e-11)


def test_what_the_engine_compares_itself_comes_out_as_what_we_compare():
    """Source: by hand; that a difference which is noise is 0 is what spreadsheet programs do."""
    meant = {"Z9": None, '""': "", '" "': " ", '"0"': "0", '"Salt"': "Salt", "NOT(1=1)": False, "1=1": True}
    meant |= {"0": 0.0, "-0": 0.0, "1": 1.0, "0.1*3-0.3": 0.0, "-1E-300": -1e-300, "TODAY()": 45_000.0}
    signs = {"=": (0,), "<>": (-1, 1), "<": (-1,), "<=": (-1, 0), ">": (1,), ">=": (0, 1)}
    others = (('""', "", signs), ("0", 0.0, signs), ('"salt"', "salt", ("=", "<>")), ('"0"', "0", ("=", "<>")))
    cells, expected = {}, {}
    places = (f"{column}{row}" for row in range(20, 200) for column in "BCDEFGHIJK")
    for row, (put, value_of) in enumerate(meant.items(), 1):
        cells[f"A{row}"] = "Salt" if put == '"Salt"' else None if value_of is None else f"={put}"
        for one_way, (other, against, allowed) in itertools.product((f"A{row}", f"({put})"), others):
            for sign in allowed:
                order = compare(value_of, against)
                order = (order > 0) - (order < 0)
                for form, found in ((f"{one_way}{sign}{other}", order), (f"{other}{sign}{one_way}", -order)):
                    at = next(places)
                    cells[at], expected[at] = f"=IF({form},1,0)", float(found in signs[sign])
    found = stored(computed(book_of(cells)).content)
    assert {cells[at]: found["Plan", at] for at in expected} == {cells[at]: value for at, value in expected.items()}
    assert one('IF(ISERROR((1/0)=""),1,IF((1/0)=0,2,3))', {}) == 1
    assert one('IF(ISERROR((1/0)="salt"),1,IF((1/0)>0,2,3))', {}) == 1


@each(
    ("formula", "expected"),
    [
        ('A6="fish"', 1),  # typed with one sign for f and i; so LibreOffice 7.4
        ('A6<>"FISH"', 0),
        ('A7="é"', 1),
        ('A7="e"', 0),
        ('A2="salt "', 0),
        ("A2=A8", 1),
    ],
)
def test_texts_are_the_same_whatever_their_capitals(formula, expected):
    assert one(f"IF({formula},1,0)", {**CELLS, "A6": "ﬁsh", "A7": "É", "A8": "SALT"}) == expected


@each(
    ("formula", "expected"),
    [
        ("ROW(B7)=7", 1),
        ("ROW(B7)-6=COLUMN(A5)", 1),
        ("ROW(B7)<>7", 0),
        ("MATCH(4,B2:B5,0)=5-1", 1),
        ("COUNT(B2:B5)-LEN(A2)=0", 1),
        ("0.1+0.2=0.3", 1),  # with noise, as spreadsheet programs see it
        ("0.1*3/0.3=1", 1),
        ("0.1*3/0.3<>1", 0),
        ("ROW(B7)*0.1=0.7", 1),
        ("ROW(B1)/10+ROW(B2)/10=ROW(B3)/10", 1),  # of whole numbers, and yet with noise
    ],
)
def test_whole_numbers_are_compared_to_the_last_digit_and_others_as_programs_do(formula, expected):
    assert one(f"IF({formula},1,0)", CELLS) == expected


@pytest.mark.parametrize("place", ["C3", "C4", "C5", "C6", "C7"])
@each(
    "formula",
    [
        "INDEX(B2:B5,{})",
        "INDEX(A2:B5,{},2)",
        "INDEX(B2:B3,1)*INDEX(A2:B2,1,{})",
        "IF(B2=1,INDEX(B2:B5,{}),9)",
        "IF(B2=2,9,IF(B3=2,INDEX(B2:B5,{}),9))",
        "IF(B2=1,(INDEX(B2:B5,2)),INDEX(B2:B5,2))+INDEX(B2:B5,{})",
    ],
)
def test_a_place_that_means_a_whole_column_is_told_wherever_it_is_chosen(place, formula):
    cells = {**CELLS, "C3": 0, "C5": 0.5, "C6": -0.5, "C7": False, "D1": "=" + formula.format(place)}  # C4 is blank
    problems = computed(book_of(cells)).report.problems
    assert [problem.reason for problem in problems] == ["a part of it gives a range where one cell belongs"]


@each(
    ("formula", "expected"),
    [
        ("INDEX(B2:B5,C3)", 3),
        ("INDEX(B2:B5,C4)", 2),
        ("INDEX(A2:B5,C3,C4)", 3),
        ("IF(C2=0,9,INDEX(B2:B5,C2))", 9),  # the branch that is not taken is not watched
        ("IF(C2=0,INDEX(B2:B5,2),INDEX(B2:B5,C2))", 2),
        ("SUMPRODUCT(ABS(IF(B2=1,INDEX(B2:B5,C3),9))*B2:B5)", 30),
        ("IF(IF(B2=2,5)=0,1,2)", 2),  # a truth value is no number in any comparison
        ("ABS(IF(B2=1,INDEX(B2:B5,C3)))", 3),
        ("IFERROR(INDEX(B2:B5,C5),7)", 7),
        ("IFERROR(INDEX(B2:B5,A2),7)", 7),
        ("IFERROR(INDEX(B2:B5,-1),7)", 7),
        ("IFERROR(INDEX(B2:B5,C6),7)", 7),
    ],
)
def test_a_place_that_is_a_number_is_no_matter_of_doubt(formula, expected):
    assert one(formula, {**CELLS, "C3": 3, "C4": 2.9, "C5": 99, "C6": "=1/0"}) == expected


def test_empty_places_are_texts_for_our_functions_only():
    toys = Toys()
    content = book_of(
        {"A1": "=BRINE_SEEN(1,,3,)", "A2": "=IF(TRUE,,5)", "A3": "=BRINE_SEEN()", "A4": "=BRINE_SEEN(B1,SUM(,2))"}
    )
    computed(content, library=toys)
    assert sorted(toys.seen, key=repr) == sorted([(1.0, "", 3.0, ""), (), (None, 2.0)], key=repr)


def test_the_formula_in_the_file_stays_as_it_was_written():
    outcome = computed(book_of({"A1": "=BRINE_SEEN(1,,3)&1/3", "A2": "=1-A1=0"}))
    before, after = parts(book_of({"A1": "=BRINE_SEEN(1,,3)&1/3"})), parts(outcome.content)
    assert b"<f>BRINE_SEEN(1,,3)&amp;1/3</f>" in before["xl/worksheets/sheet1.xml"]
    assert b"<f>BRINE_SEEN(1,,3)&amp;1/3</f>" in after["xl/worksheets/sheet1.xml"]


def test_errors_reach_our_functions_as_texts():
    toys = Toys()
    computed(book_of({"A1": "=1/0", "A2": "=BRINE_SEEN(A1,NA(),A1:A1,A1:B1)"}), library=toys)
    assert toys.seen == [("#DIV/0!", "#N/A", "#DIV/0!", [["#DIV/0!", None]])]


@each(
    "sheet",
    [
        "Plan two",
        "TRUE",
        "false",
        "ABC",
        "ABCD",
        "SUM",
        "Sum",
        "LOG10",
        "R1C1",
        "it's",
        "Übersicht",
        "N",
        "IFERROR",
        "2027",
    ],
)
def test_a_cell_of_another_sheet_is_read_whatever_its_name(sheet):
    quoted = sheet.replace("'", "''")
    cells = {
        f"{column}{row}": f"='{quoted}'!A{row}{more}" for row in (1, 2) for column, more in (("A", "*2"), ("B", ">3"))
    }
    outcome = computed(book_of(cells, **{sheet: {"A1": 3, "A2": 4}}))
    assert outcome.report.clean
    found = stored(outcome.content)
    assert [found["Plan", at] for at in ("A1", "B1", "A2", "B2")] == [6, False, 8, True]


def test_names_of_ours_inside_texts_and_sheet_names_are_left_alone():
    content = book_of(
        {"A1": "='BRINE_SALT(1,,2)'!B1", "A2": '="BRINE_SALT(1,,2)"&LEN("BRINE_FOO(")'},
        **{"BRINE_SALT(1,,2)": {"B1": 5}},
    )
    outcome = computed(content)
    assert outcome.report.clean
    assert value(outcome.content, "A1") == 5
    assert value(outcome.content, "A2") == "BRINE_SALT(1,,2)10"


def names(*defined):
    return "<definedNames>" + "".join(defined) + "</definedNames>"


def test_names_stand_for_ranges_and_constants():
    rows = (
        '<row r="1">'
        + "".join(
            formula_cell(f"{column}1", text)
            for column, text in zip(
                "CDEFGHI", ["SUM(stock)", "rate*100", "here", "word&1", "-minus", "STOCK", "Other!here"]
            )
        )
        + '</row><row r="2"><c r="B2"><v>2</v></c></row><row r="3"><c r="B3"><v>3</v></c></row>'
    )
    content = raw_book(
        [("Plan", rows), ("Other", '<row r="1"><c r="A1"><v>9</v></c></row>')],
        names=names(
            '<definedName name="stock">Plan!$B$2:$B$3</definedName>',
            '<definedName name="rate">5%</definedName>',
            '<definedName name="minus">-4</definedName>',
            '<definedName name="word">"salt"</definedName>',
            '<definedName name="here" localSheetId="0">Plan!$B$2</definedName>',
            '<definedName name="here" localSheetId="1">Other!$A$1</definedName>',
        ),
    )
    outcome = computed(content)
    got = [value(outcome.content, f"{column}1") for column in "CDEFGI"]
    assert got == [5, 5, 2, "salt1", 4, 9]
    (problem,) = outcome.report.problems
    assert (problem.cell, "by position" in problem.reason) == ("H1", True)


@each(
    "meaning",
    [
        "BRINE_SALT(1000,5%)",
        "OFFSET(Plan!$A$1,1,0)",
        "Plan!A1",
        "Plan!$B$1,Plan!$B$3",
        "#REF!",
        "Plan!$A$1+1",
        "1;2",
        "[1]Stock!$A$1",
        "Nowhere!$A$1",
    ],
)
def test_names_that_stand_for_more_are_not_used(meaning):
    content = raw_book(
        [("Plan", f'<row r="1">{formula_cell("B1", "twist*2", "<v>3</v>")}</row>')],
        names=names(f'<definedName name="twist">{meaning}</definedName>'),
    )
    outcome = computed(content)
    assert outcome.report.problems[0].error is None
    assert value(outcome.content, "B1") == 3


def test_equal_formulas_of_a_column_are_judged_once_but_literals_are_not_confused():
    """In row 10 the text LOG10( holds the row's number, in row 1 so does the 1 of MATCH."""
    cells = {f"B{row}": f"=LOG10(A{row})" for row in (9, 10, 11)}
    cells.update({f"C{row}": f"=MATCH({row},$A$1:$A$3,1)" for row in (1, 2, 3)})
    cells.update({f"D{row}": f"=INDEX($A$1:$A$3,{row})" for row in (1, 2, 3)})
    cells.update({f"E{row}": f"='Sheet {row}'!A1" for row in (1, 2)})
    cells.update({"A1": 1, "A2": 2, "A3": 3, "A9": 10, "A10": 100, "A11": 1000})
    outcome = computed(book_of(cells, **{"Sheet 1": {"A1": 71}}))
    got = {place: value(outcome.content, place) for place in cells if place[0] != "A"}
    assert [got[f"B{row}"] for row in (9, 10, 11)] == [1, 2, 3]
    assert [got[f"C{row}"] for row in (1, 2, 3)] == [1, 2, 3]
    assert [got[f"D{row}"] for row in (1, 2, 3)] == [1, 2, 3]
    assert got["E1"] == 71
    assert "no sheet" in next(p.reason for p in outcome.report.problems if p.cell == "E2")
