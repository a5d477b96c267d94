"""New prices into workbooks: the right costs move, nothing is written but when told, bad books stop no others."""

from __future__ import annotations

import csv
import io
import json
import math
from concurrent.futures import Future, ProcessPoolExecutor, ThreadPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from click.testing import CliRunner
from filling import FIRST
from kitchens import LARDER, larder, with_a_stop
from xlsx import opened, parts, seen

from brinecalc.cli import app
from brinecalc.hosts.headless.trial import Trial
from brinecalc.workbook import pools, price_list, price_report
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.price_list import PriceList
from brinecalc.workbook.reprice import Change, reprice, reprice_one

LIST = "Name;Pack size;Price;Supplier\nSALT ;10 kg;13,80;x\nhoney;;73;\nunicorn;1 kg;5;\n"
"""As a purchasing program on the Continent writes it; salt doubles, and so does honey."""

SMALL = larder()


@pytest.fixture(autouse=True)
def buying_day(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is 2027-12-01, 0:00 UTC, when these prices come in: no test rests on the clock."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1827619200")


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A small workbook with a price list, for what does not rest on the formulas of ours."""
    path = tmp_path / "Plan.xlsx"
    path.write_bytes(SMALL)
    return path


@pytest.fixture(scope="module")
def small_change(prices: PriceList, tmp_path_factory: pytest.TempPathFactory) -> Change:
    path = tmp_path_factory.mktemp("small") / "Plan.xlsx"
    path.write_bytes(SMALL)
    return reprice_one(str(path), prices.prices)


@pytest.fixture(scope="module")
def prices() -> PriceList:
    return price_list.read(LIST.encode(), "prices.csv")


@pytest.fixture(scope="module")
def done(example: bytes, prices: PriceList, tmp_path_factory: pytest.TempPathFactory) -> tuple[Change, bytes]:
    """The worked example with the new prices, and the account of them."""
    path = tmp_path_factory.mktemp("whole") / "Plan.xlsx"
    path.write_bytes(example)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SOURCE_DATE_EPOCH", "1827619200")
        change = reprice_one(str(path), prices.prices, apply=True)
    return change, path.read_bytes()


@pytest.fixture(scope="module")
def change(done: tuple[Change, bytes]) -> Change:
    return done[0]


def listed(book: Path, column: str) -> dict[str, Any]:
    """Name → what stands beside it in that column of the small workbook's list."""
    sheet = opened(book.read_bytes(), values=True)["Prices"]
    names, cells = ([row[0].value for row in sheet[LARDER[name].split("!")[1]]] for name in ("price_names", column))
    return dict(zip(names, cells, strict=True))


def run(*arguments: Any) -> Any:
    return CliRunner().invoke(app, ["reprice", *map(str, arguments)])


# ---- one workbook


def test_columns_that_are_not_used_are_not_read(book: Path) -> None:
    found = price_list.read(b"name,price,note\nsalt,4,=cmd|' /C calc'!A0\nhoney,5,+10 % from May\n", "p.csv")
    assert found.unused == ("note",)
    reprice_one(str(book), found.prices, apply=True)
    assert not [name for name, data in parts(book.read_bytes()).items() if b"cmd|" in data]


def test_costs_move_by_mass_times_the_price_difference(change: Change, example: bytes) -> None:
    """Independent: the masses stand in Results (grams), old prices and usable shares of salt and honey in Prices."""
    book = seen(example)
    rows = {row[0].value: [cell.value for cell in row] for row in book["Prices"].iter_rows(FIRST, FIRST + 60)}
    assert rows["salt"][2:4] == ["10 kg", 6.9]
    assert rows["honey"][2:4] == ["5 kg", 36.5]
    usable = {name: rows[name][4] or 1 for name in ("salt", "honey")}
    heads = {cell.value: cell.column for cell in book["Results"][6]}
    for batch in change.batches:
        row = FIRST + batch.number - 1
        if book["Results"].cell(row, heads["Says"]).value == "STOP":
            continue  # the sheet shows no weights for a batch that must not be started
        salt = book["Results"].cell(row, heads["Salt"]).value
        sweetener = book["Plan"].cell(row, next(c.column for c in book["Plan"][6] if c.value == "Sweetener")).value
        honey = book["Results"].cell(row, heads["Sweetener"]).value if sweetener == "honey" else 0
        assert batch.before == pytest.approx(book["Results"].cell(row, heads["Cost of the batch"]).value, rel=1e-9)
        assert batch.after is not None
        assert batch.after - batch.before == pytest.approx(
            salt * (13.8 - 6.9) / (10_000 * usable["salt"]) + honey * (73 - 36.5) / (5000 * usable["honey"]),
            rel=1e-7,
            abs=1e-12,
        )


def test_the_account_names_prices_batches_and_what_is_not_listed(change: Change) -> None:
    assert [(p.name, p.before, p.after, p.pack) for p in change.prices] == [
        ("salt", 6.9, 13.8, None),
        ("honey", 36.5, 73.0, None),
    ]
    assert [b.number for b in change.batches] == list(range(1, 16))
    assert change.batches[0][:3] == (1, "chicken breast", "Friday lunch")
    assert change.not_listed == ("unicorn",)
    assert change.before == pytest.approx(math.fsum(b.before or 0 for b in change.batches if not b.stops))
    assert change.problem is None


def test_nothing_is_written_unless_told(book: Path, prices: PriceList) -> None:
    change = reprice_one(str(book), prices.prices)
    assert change.prices
    assert change.backup is None
    assert book.read_bytes() == SMALL
    assert list(book.parent.iterdir()) == [book]


def test_applied_prices_stand_in_the_book_with_a_backup(book: Path, prices: PriceList, small_change: Change) -> None:
    done = reprice_one(str(book), prices.prices, apply=True)
    assert done.batches == small_change.batches
    assert small_change.after == pytest.approx(2 * small_change.before)  # nothing but salt is in it
    assert done.backup == str(book.parent / "Plan.backup.xlsx")
    assert Path(done.backup).read_bytes() == SMALL
    found = listed(book, "price_prices")
    assert (found["salt"], found["honey"]) == (13.8, 73)
    again = reprice_one(str(book), prices.prices, apply=True)
    assert (again.prices, again.backup, again.before) == ((), None, pytest.approx(small_change.after))


def test_only_sheets_change_and_on_prices_only_the_prices(done: tuple[Change, bytes], example: bytes) -> None:
    old, new = parts(example), parts(done[1])
    assert list(old) == list(new)
    touched = {name for name in old if old[name] != new[name]}
    assert all(name.startswith("xl/worksheets/sheet") for name in touched - {"docProps/core.xml"})
    typed = [Edit(content, "x.xlsx") for content in (example, done[1])]
    for sheet in typed[0].sheets:
        cells = [edit.map(sheet).cells for edit in typed]
        assert list(cells[0]) == list(cells[1])
        data = [edit.part(edit.sheets[sheet]) for edit in typed]
        same = [k for k, (a, b) in zip(cells[0], zip(*(each.values() for each in cells)))
                if data[0][a.start : a.end] == data[1][b.start : b.end]]  # fmt: skip
        moved = [
            k
            for k in cells[0].keys() - set(same)
            if not cells[0][k].formula and typed[0].look(sheet, *k) != typed[1].look(sheet, *k)
        ]
        assert len(moved) == (2 if sheet == "Prices" else 0)


def test_dates_go_beside_prices_where_they_are_given(book: Path) -> None:
    found = price_list.read(b"name,price,date\nsalt,1,2027-02-03\nhoney,2,\n", "p.csv")
    reprice_one(str(book), found.prices, True, price_list.day("2027-01-31", "--date"))
    dates = listed(book, "price_dates")
    assert str(dates["salt"])[:10] == "2027-02-03"
    assert str(dates["honey"])[:10] == "2027-01-31"


def test_a_price_given_again_gets_the_newer_date_and_never_an_older_one(book: Path) -> None:
    """Salt costs 6.90 in the example since 2027-01-15, honey 36.50 since the same day."""
    found = price_list.read(b"name,price,date\nsalt,6.90,2027-03-05\nhoney,36.50,2026-06-01\n", "p.csv")
    change = reprice_one(str(book), found.prices, apply=True)
    assert (change.prices, change.confirmed) == ((), 1)
    assert "1 stay and get the new date" in price_report.headline(change)
    dates = listed(book, "price_dates")
    assert (str(dates["salt"])[:10], str(dates["honey"])[:10]) == ("2027-03-05", "2027-01-15")
    assert reprice_one(str(book), found.prices, apply=True).backup is None


def test_a_new_price_that_is_older_than_the_one_in_the_book_is_pointed_out(book: Path) -> None:
    found = price_list.read(b"name,price,date\nsalt,7,2026-06-01\nhoney,40,2027-06-01\n", "p.csv")
    change = reprice_one(str(book), found.prices)
    assert [(price.name, price.older) for price in change.prices] == [("salt", True), ("honey", False)]
    assert "(1 of them dated before the price in the book)" in price_report.headline(change)


def test_the_command_dates_prices_by_the_day_unless_told(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1803772800")  # 2027-02-28, 0:00 UTC
    (tmp_path / "prices.csv").write_text("name,price,date\nsalt,7,\nhoney,40,2027-03-05\n")
    assert run(tmp_path / "prices.csv", book, "--apply").exit_code == 0

    def dates() -> dict[str, str]:
        return {name: str(date)[:10] for name, date in listed(book, "price_dates").items()}

    assert (dates()["salt"], dates()["honey"]) == ("2027-02-28", "2027-03-05")
    assert b">2027-02-28T00:00:00Z</dcterms:modified>" in parts(book.read_bytes())["docProps/core.xml"]
    (tmp_path / "prices.csv").write_text("name,price\nsalt,8\n")
    assert run(tmp_path / "prices.csv", book, "--apply", "--date", "2027-04-01").exit_code == 0
    assert dates()["salt"] == "2027-04-01"
    assert "is not a date" in run(tmp_path / "prices.csv", book, "--date", "1 April").output


def test_another_pack_is_put_in_and_the_same_one_spelled_otherwise_is_left(book: Path) -> None:
    found = price_list.read(b"name,price,pack\nsalt,6.9,10000 g\nhoney,36.5,2 x 2.5 kg\nwater,2.4,500 kg\n", "p.csv")
    change = reprice_one(str(book), found.prices, apply=True)
    assert [(p.name, p.pack) for p in change.prices] == [("water", "500 kg")]
    packs = listed(book, "price_packs")
    assert (packs["salt"], packs["honey"], packs["water"]) == ("10 kg", "5 kg", "500 kg")


def test_a_cost_that_is_open_stays_open(book: Path, prices: PriceList) -> None:
    edit = Edit(SMALL, "Plan.xlsx")
    edit.put("Plan", 1, 5, "", formula='IF(Prices!B4>9,D1*Prices!B1/1000,"no price")')
    edit.put("Plan", 4, 5, "", formula='IF(COUNT(E1:E3)=3,SUM(E1:E3),"not complete")')
    book.write_bytes(edit.done())
    change = reprice_one(str(book), prices.prices)
    assert (change.batches[0].before, change.batches[0].after) == (None, None)
    assert change.before is None
    assert change.batches[1].after is not None


def test_a_book_open_in_a_spreadsheet_program_is_left_alone(book: Path, prices: PriceList) -> None:
    (book.parent / ".~lock.Plan.xlsx#").write_text("someone")
    change = reprice_one(str(book), prices.prices, apply=True)
    assert "open in a spreadsheet program" in (change.problem or "")
    assert book.read_bytes() == SMALL
    assert not list(book.parent.glob("*.backup*"))


def test_a_book_that_another_program_changed_meanwhile_is_left_alone(
    book: Path, prices: PriceList, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Slow(Trial):
        def __init__(self, content: bytes, name: str) -> None:
            super().__init__(content, name)
            book.write_bytes(b"changed meanwhile")

    monkeypatch.setattr("brinecalc.workbook.reprice.Trial", Slow)
    change = reprice_one(str(book), prices.prices, apply=True)
    assert "changed by another program meanwhile" in (change.problem or "")
    assert book.read_bytes() == b"changed meanwhile"
    assert list(book.parent.iterdir()) == [book]


# ---- many workbooks


def spoiled(folder: Path) -> dict[Path, str]:
    """Workbooks that cannot be used, and a word of the reason for each."""
    strange = openpyxl.Workbook()
    strange.save(folder / "strange.xlsx")
    (folder / "text.xlsx").write_text("not a workbook")
    (folder / "old.xls").write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600))
    return {
        folder / "strange.xlsx": "no price list",
        folder / "text.xlsx": "a text file",
        folder / "old.xls": "old .xls format",
        folder / "missing.xlsx": "there is no file",
    }


def test_bad_books_are_listed_with_their_reason_and_the_rest_is_done(
    book: Path, prices: PriceList, small_change: Change
) -> None:
    bad = spoiled(book.parent)
    found = {c.path: c for c in pools.run([*map(str, bad), str(book)], prices.prices, 1)}
    for path, reason in bad.items():
        assert reason in (found[str(path)].problem or "")
    assert found[str(book)].batches == small_change.batches


@pytest.mark.parametrize("kind", ["threads", "processes", "cluster"])
def test_any_executor_gives_the_same_answers(kind: str, book: Path, prices: PriceList, small_change: Change) -> None:
    paths = [str(book), str(book.parent / "missing.xlsx")]
    if kind == "cluster":
        distributed = pytest.importorskip("distributed", reason="the optional extra dask is not installed")
        cluster = distributed.LocalCluster(n_workers=1, threads_per_worker=1, dashboard_address=None)
        with cluster, distributed.Client(cluster) as client:
            found = {c.path: c for c in reprice(paths, prices.prices, client.get_executor())}
    else:
        with (ThreadPoolExecutor if kind == "threads" else ProcessPoolExecutor)(1) as pool:
            found = {c.path: c for c in reprice(paths, prices.prices, pool)}
    assert found[paths[0]].batches == small_change.batches
    assert "there is no file" in (found[paths[1]].problem or "")


def test_a_book_that_kills_its_worker_takes_no_other_with_it(
    monkeypatch: pytest.MonkeyPatch, prices: PriceList
) -> None:
    """The first pool breaks as a real one does: every book it still owes fails. Alone, only the culprit fails."""

    class Pool:
        def __init__(self, alone: bool) -> None:
            self.alone = alone

        def __enter__(self) -> Pool:
            return self

        def __exit__(self, *_: object) -> None:
            return

        def submit(self, _: Any, path: str, *__: Any) -> Future[Change]:
            future: Future[Change] = Future()
            if self.alone and path != "culprit":
                future.set_result(Change(path))
            else:
                future.set_exception(BrokenProcessPool("a process was ended"))
            return future

    made: list[int] = []
    monkeypatch.setattr(pools, "_pool", lambda jobs, ingredients: made.append(jobs) or Pool(len(made) > 1))
    found = {c.path: c.problem for c in pools.run(["one", "culprit", "two"], prices.prices, 2)}
    assert found["one"] is None
    assert found["two"] is None
    assert "stopped" in (found["culprit"] or "")


def test_thousands_are_not_handed_over_at_once(prices: PriceList) -> None:
    class Counting:
        open = most = 0

        def submit(self, _: Any, path: str, *__: Any) -> Future[Change]:
            self.open += 1
            self.most = max(self.most, self.open)
            future: Future[Change] = Future()
            future.set_result(Change(path))
            return future

    executor, done = Counting(), 0
    for _ in reprice(map(str, range(5000)), prices.prices, executor):  # type: ignore[arg-type]
        executor.open -= 1
        done += 1
    assert done == 5000
    assert executor.most <= 64


# ---- the command


def test_the_command_shows_changes_reports_and_writes_nothing(book: Path, tmp_path: Path) -> None:
    before = with_a_stop()
    book.write_bytes(before)
    (tmp_path / "prices.csv").write_text(LIST)
    report = tmp_path / "out.csv"
    spoiled(tmp_path)
    result = run(tmp_path / "prices.csv", tmp_path, "--report", report)
    assert result.exit_code == 1  # some books could not be used
    for words in ("2 prices change", "chicken breast", "Not done: 2", "unicorn", "Supplier", "Nothing was written"):
        assert words in result.output
    assert book.read_bytes() == before
    with report.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    plan = [row for row in rows if row["workbook"].endswith("Plan.xlsx")]
    assert [row["batch"] for row in plan] == ["1", "2", "3", "all"]
    counted = [float(row["cost after"]) for row in plan[:-1] if row["remark"] != "STOP: not in the total"]
    assert len(counted) == 2
    assert float(plan[-1]["cost after"]) == pytest.approx(sum(counted), rel=1e-6)
    assert plan[-1]["remark"] == "without 1 with a STOP"
    reasons = {Path(row["workbook"]).name for row in rows if row["remark"] and "STOP" not in row["remark"]}
    assert reasons == {"strange.xlsx", "text.xlsx"}
    assert run(tmp_path / "prices.csv", book, "--report", report).exit_code == 2  # the report is there already


def test_the_command_writes_when_told_and_passes_over_backups(book: Path, tmp_path: Path) -> None:
    (tmp_path / "prices.csv").write_text(LIST)
    result = run(tmp_path / "prices.csv", tmp_path, "--apply")
    assert result.exit_code == 0
    assert "1 written" in result.output
    again = run(tmp_path / "prices.csv", tmp_path, "--apply", "--json")
    assert [Path(item["path"]).name for item in json.loads(again.output)] == ["Plan.xlsx"]


def test_the_command_refuses_a_list_with_a_formula_before_it_opens_a_book(book: Path, tmp_path: Path) -> None:
    (tmp_path / "prices.csv").write_text("name,price\nsalt,=2\n")
    result = run(tmp_path / "prices.csv", book, "--apply")
    assert result.exit_code == 2
    assert "takes for a formula" in result.output


def test_the_command_tells_every_fault_on_a_line_of_its_own(book: Path, tmp_path: Path) -> None:
    (tmp_path / "prices.csv").write_text("name,price\nsalt,-2\nhoney,dear\n")
    result = run(tmp_path / "prices.csv", book)
    assert result.exit_code == 2
    lines = result.output.splitlines()
    assert lines[0] == "brinecalc: prices.csv has 2 faults, so nothing was read from it:"
    assert [line.startswith(f"  row {row}: the price") for row, line in zip((2, 3), lines[1:])] == [True, True]


def test_two_jobs_answer_as_one(book: Path, tmp_path: Path, small_change: Change) -> None:
    (tmp_path / "prices.csv").write_text(LIST)
    (tmp_path / "Second.xlsx").write_bytes(book.read_bytes())
    result = run(tmp_path / "prices.csv", tmp_path, "--jobs", 2, "--json")
    found = json.loads(result.output)
    assert [item["after"] for item in found] == [pytest.approx(small_change.after)] * 2


def test_a_label_that_looks_like_a_formula_is_disarmed_in_the_report() -> None:
    from brinecalc.workbook.reprice import BatchCost

    made = price_report.as_csv([Change("b.xlsx", batches=(BatchCost(1, "@x", "=1+1", 2.0, 1.0),))]).decode("utf-8-sig")
    row = list(csv.reader(io.StringIO(made)))[1]
    assert row == ["b.xlsx", "1", "'@x", "'=1+1", "2.0", "1.0", "-1.0", "-50.0", ""]
