"""How doubt about one formula travels to those that read it, and what errors and circles say of themselves."""

from xlsx import parts

from tests.hosts.toys import (
    OFFICE,
    PACKAGE,
    book_of,
    changed,
    computed,
    formula_cell,
    raw_book,
    reason,
    value,
)


def test_what_depends_on_an_uncomputed_formula_is_not_computed_either():
    cells = {
        "A1": "=FOO(1)",
        "A2": "=A1+1",
        "A3": "=SUM(A1:A2)",
        "A4": '=IFERROR(A3,"fine")',
        "A5": "=COUNT(A1:B200)",
        "A6": "=SUM(C1:C9)",
        "B9": "=SUM(A:A)",
    }
    outcome = computed(book_of(cells, Other={"A1": "=Plan!A2*2", "A2": "=ROUND(2.4,0)"}))
    kept = {(problem.sheet, problem.cell) for problem in outcome.report.problems}
    plan = {("Plan", place) for place in ("A1", "A2", "A3", "A4", "A5", "B9")}
    assert kept == plan | {("Other", "A1")}
    said = {problem.cell: problem.reason for problem in outcome.report.problems if problem.sheet == "Other"}
    assert said["A1"] == "it depends on Plan!A2, which is not computed"
    assert value(outcome.content, "A6") == 0
    assert value(outcome.content, "A2", "Other") == 2


def test_doubt_travels_down_long_chains_and_large_ranges():
    cells = {"A1": "=FOO(1)", **{f"A{row}": f"=A{row - 1}+1" for row in range(2, 2000)}}
    cells.update({f"C{row}": f"=SUM(A$1:A{row})" for row in range(100, 300)})
    cells["E1"] = "=SUM(D1:D5000)"
    outcome = computed(book_of(cells))
    assert outcome.report.kept == 1999 + 200
    assert outcome.report.formulas == 2200


def test_a_circle_is_reported_and_so_is_what_reads_it():
    outcome = computed(book_of({"A1": "=B1+1", "B1": "=A1+1", "C1": "=IFERROR(A1,5)", "D1": "=1+1"}))
    said = {problem.cell: problem.reason for problem in outcome.report.problems}
    assert "refers to itself" in said["A1"]
    assert "refers to itself" in said["B1"]
    assert said["C1"].startswith("it depends on A1")
    assert set(said) == {"A1", "B1", "C1"}


def test_a_circle_is_reported_even_where_the_workbook_would_iterate():
    content = raw_book(
        [("Plan", f'<row r="1">{formula_cell("A1", "A1+1", "<v>3</v>")}</row>')],
        after='<calcPr calcId="191029" iterate="1" iterateCount="5"/>',
    )
    outcome = computed(content)
    assert "refers to itself" in outcome.report.problems[0].reason
    assert outcome.content == content


def test_numbers_beyond_all_bounds_are_errors_or_are_not_computed():
    cells = {
        "A1": "=1E300*1E300",
        "B1": "=IFERROR(A1,7)",
        "C1": "=1E308-(-1E308)",
        "D1": "=IFERROR(C1,7)",
        "A2": "=PRODUCT(1E200,1E200)",
        "B2": "=IFERROR(A2,7)",
    }
    outcome = computed(book_of(cells))
    said = {problem.cell: (problem.error, problem.reason) for problem in outcome.report.problems}
    assert said["A1"][0] == said["C1"][0] == "#NUM!"
    assert value(outcome.content, "B1") == value(outcome.content, "D1") == 7
    assert said["A2"] == (None, "a number in it grows beyond all bounds")
    assert said["B2"][0] is None


def test_hidden_rows_stop_subtotal():
    visible = raw_book([("Plan", f'<row r="1">{formula_cell("A1", "SUBTOTAL(9,B1:B2)")}<c r="B1"><v>2</v></c></row>')])
    hidden = raw_book(
        [
            (
                "Plan",
                f'<row r="1">{formula_cell("A1", "SUBTOTAL(9,B1:B2)")}</row>'
                '<row r="2" hidden="1"><c r="B2"><v>2</v></c></row>',
            )
        ]
    )
    assert value(computed(visible).content, "A1") == 2
    assert "hidden rows" in computed(hidden).report.problems[0].reason


def test_a_data_table_is_left_as_it_is():
    rows = '<row r="1"><c r="A1"><f t="dataTable" ref="A1:A2" dt2D="0" dtr="0" r1="B1"/><v>4</v></c></row>'
    outcome = computed(raw_book([("Plan", rows)]))
    assert "data table" in outcome.report.problems[0].reason
    assert value(outcome.content, "A1") == 4


def test_links_to_other_workbooks_are_neither_followed_nor_trusted():
    link = {
        "xl/externalLinks/externalLink1.xml": "<externalLink/>",
        "xl/_rels/workbook.xml.rels": parts(raw_book([("Plan", "")]))["xl/_rels/workbook.xml.rels"].replace(
            b"</Relationships>",
            f'<Relationship Id="rId9" Type="{OFFICE}/externalLink" Target="externalLinks/externalLink1.xml"/>'
            "</Relationships>".encode(),
        ),
    }
    content = changed(
        raw_book([("Plan", f'<row r="1">{formula_cell("A1", "[1]Stock!A1+1", "<v>8</v>")}</row>')]), parts=link
    )
    outcome = computed(content)
    assert "another workbook" in outcome.report.problems[0].reason
    assert outcome.content == content
    assert PACKAGE.encode() in parts(content)["_rels/.rels"]


def test_reasons_for_errors_name_the_cell_or_the_function_they_come_from():
    cells = {
        "A1": 1000,
        "B1": 5,
        "C1": "=BRINE_SALT(A1,B1)",
        "D1": "=C1*2",
        "E1": "=BRINE_SALT(BRINE_SALT(A1,B1),1%)",
        "F1": "=1/A2",
        "G1": "=IFERROR(BRINE_SALT(A1,B1),0)+1/0",
        "H1": "=SUM(B1:D1)",
    }
    outcome = computed(book_of(cells))
    said = {problem.cell: (problem.error, problem.reason) for problem in outcome.report.problems}
    sentence = "BRINE_SALT: share must be at most 1, got 5.0."
    assert said["C1"] == ("#NUM!", sentence)
    assert said["D1"] == ("#NUM!", "it comes from C1")
    assert said["E1"] == ("#NUM!", sentence)
    assert said["F1"] == ("#DIV/0!", "it divides by zero or by a blank cell")
    assert said["G1"][0] == "#DIV/0!"
    assert "BRINE" not in said["G1"][1]
    assert said["H1"] == ("#NUM!", "it comes from C1")


def test_reason_is_helpful_for_typed_texts():
    assert "semicolon where a comma belongs" in reason("SUM(1;2)")


def test_where_a_cell_was_that_is_no_more_is_an_error_like_any_other():
    """So programs write a formula anew whose cell was deleted or pasted over."""
    cells = {
        "A1": "=IFERROR(IF(ROW(#REF!)=ROW(),0,2),1)",
        "A2": "=ISERROR(COLUMN(Plan!#REF!))",
        "A3": "=COUNTIF(#REF!,1)",
    }
    outcome = computed(book_of(cells))
    assert [value(outcome.content, place) for place in ("A1", "A2")] == [1, True]
    assert {problem.cell for problem in outcome.report.problems} == {"A3"}
