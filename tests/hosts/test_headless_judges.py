"""A judge that has judged one workbook may judge the next, and no verdict is carried where it does not hold."""

import threading

import pytest
from openpyxl.workbook.defined_name import DefinedName
from xlsx import opened, saved

from brinecalc.hosts.headless import judges
from brinecalc.hosts.headless.outline import Outline
from tests.hosts.toys import Toys, book_of, computed, value


@pytest.fixture(autouse=True)
def none_kept(monkeypatch):
    kept = {}
    monkeypatch.setattr(judges, "_kept", kept)
    return kept


def named(content, **names):
    book = opened(content)
    for name, text in names.items():
        book.defined_names[name] = DefinedName(name, attr_text=text)
    return saved(book)


def outline(*sheets, names=()):
    made = Outline()
    for sheet in sheets:
        made.add_sheet(sheet, "")
    for name in names:
        made.add_name(name, "Plan!$A$1")
    return made


def test_the_next_workbook_of_the_layout_is_judged_by_the_same_judge():
    toys = Toys()
    with judges.judge_of(outline("Plan"), toys) as first:
        verdict = first.verdict("A1*2", "Plan", 1)
    with judges.judge_of(outline("Plan"), toys) as second:
        assert second is first
        assert second.verdict("A5*2", "Plan", 5) is verdict  # the same formula two rows down


@pytest.mark.parametrize(
    ("book", "library"),
    [(outline("Costs"), None), (outline("Plan", "Costs"), None), (outline("Plan", names=["a"]), None),
     (outline("Plan"), Toys())],
    ids=["another sheet", "one sheet more", "one name more", "other functions"],
)  # fmt: skip
def test_another_layout_and_other_functions_get_a_judge_of_their_own(book, library):
    toys = Toys()
    with judges.judge_of(outline("Plan"), toys) as first:
        pass
    with judges.judge_of(book, library or toys) as second:
        assert second is not first


def test_hidden_rows_make_another_layout():
    hiding = outline("Plan")
    hiding.hides_rows = True
    assert hiding.layout() != outline("Plan").layout()


def test_books_of_one_layout_are_computed_each_with_its_own_cells():
    toys = Toys()
    cells = {"B1": "=A1*2", "B2": "=A2*2", "B3": "=SUM(A1:A2)"}
    one = computed(book_of({"A1": 1, "A2": 2, **cells}), library=toys)
    two = computed(book_of({"A1": 10, "A2": "x", **cells}), library=toys)
    assert [value(one.content, place) for place in ("B1", "B2", "B3")] == [2, 4, 3]
    assert [value(two.content, place) for place in ("B1", "B2", "B3")] == [20, "#VALUE!", 10]


def test_a_doubt_about_one_workbook_is_not_told_of_the_next():
    toys = Toys()
    cells = {"B1": "=YEAR(A1)"}  # before March 1900 spreadsheet programs disagree
    doubtful = computed(book_of({"A1": 60, **cells}), library=toys)
    plain = computed(book_of({"A1": 46000, **cells}), library=toys)
    assert "disagree" in doubtful.report.problems[0].reason
    assert plain.report.problems == []
    assert value(plain.content, "B1") == 2025


def test_a_name_that_stands_for_another_cell_is_read_from_there():
    toys = Toys()
    cells = {"A1": 1, "A2": 2, "B1": "=here*10"}
    first = computed(named(book_of(cells), here="Plan!$A$1"), library=toys)
    second = computed(named(book_of(cells), here="Plan!$A$2"), library=toys)
    assert (value(first.content, "B1"), value(second.content, "B1")) == (10, 20)


def test_no_two_threads_share_a_judge():
    toys = Toys()
    with judges.judge_of(outline("Plan"), toys) as kept:
        pass
    met = []

    def work():
        with judges.judge_of(outline("Plan"), toys) as judge:
            met.append(judge)
            both.wait(timeout=30)

    both = threading.Barrier(2)
    threads = [threading.Thread(target=work) for _ in range(2)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(set(map(id, met))) == 2
    assert any(judge is kept for judge in met)


def knowing(formulas: int, book, toys):
    with judges.judge_of(book, toys) as judge:
        for number in range(formulas):
            judge.verdict(f"A1*{number}", book.sheets[0].name, 1)
    return judge


def test_judges_are_kept_until_they_know_too_much_together(none_kept, monkeypatch):
    toys = Toys()
    monkeypatch.setattr(judges, "_MOST_KNOWN", 1000)
    made = [knowing(150, outline(f"Plan {number}"), toys) for number in range(5)]  # each counts for 250
    assert list(none_kept.values()) == made[1:]
    assert knowing(150, outline("Plan 1"), toys) is made[1]  # asked for again, so the last to go
    made.append(knowing(0, outline("Small"), toys))
    assert list(none_kept.values()) == [made[3], made[4], made[1], made[5]]


def test_small_ones_leave_a_large_one_alone_and_do_not_gather(none_kept):
    toys = Toys()
    large = knowing(2000, outline("Plan"), toys)
    for number in range(50):
        knowing(1, outline(f"Small {number}"), toys)
    assert large in none_kept.values()
    for number in range(300):
        knowing(1, outline(f"Small {number}"), toys)
    assert large not in none_kept.values()
    assert len(none_kept) < 200


def test_one_that_knows_too_much_is_not_kept_and_the_others_are(none_kept, monkeypatch):
    toys = Toys()
    monkeypatch.setattr(judges, "_MOST_KNOWN", 300)
    first = knowing(1, outline("Plan"), toys)
    knowing(201, outline("Long"), toys)
    knowing(1, outline("Named", names=(f"name_{number}" for number in range(201))), toys)
    assert list(none_kept.values()) == [first]


def test_a_judge_that_was_interrupted_is_not_kept(none_kept):
    with pytest.raises(KeyboardInterrupt), judges.judge_of(outline("Plan"), Toys()):
        raise KeyboardInterrupt
    assert none_kept == {}
