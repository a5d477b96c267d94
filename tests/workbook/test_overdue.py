"""Batches whose time to go in has passed: told by the commands, which have a clock, and never by the workbook."""

from __future__ import annotations

import datetime
import re
from pathlib import Path

import filling
import kitchens
import openpyxl
import pytest
from built import FEW, bare, built
from click.testing import CliRunner
from priced import shared
from xlsx import saved

from brinecalc import clock
from brinecalc.cli import app
from brinecalc.hosts.headless.trial import Trial
from brinecalc.workbook import overdue
from brinecalc.workbook.book import Options

ZERO = datetime.datetime(1899, 12, 30)


@pytest.fixture(scope="module")
def trial() -> Trial:
    return shared().trial


@pytest.fixture(scope="module")
def put_in() -> dict[int, datetime.datetime]:
    """Batch → when it goes in, as Results shows it."""
    return moments_of("Put in")


@pytest.fixture(scope="module")
def ready() -> dict[int, datetime.datetime]:
    """Batch → when it must be ready."""
    return moments_of("Ready")


def moments_of(heading: str) -> dict[int, datetime.datetime]:
    results = filling.Answers.read(built(Options(filled=True, batches=FEW)))
    cells = {row - 7: results.row("Results", row)[heading] for row in range(8, 23)}
    return {number: value for number, value in cells.items() if isinstance(value, datetime.datetime)}


def after(moment: datetime.datetime, minutes: int) -> datetime.datetime:
    return (moment + datetime.timedelta(minutes=minutes)).replace(tzinfo=datetime.timezone.utc)


def test_nothing_is_told_before_the_first_time_to_go_in(trial: Trial, put_in: dict[int, datetime.datetime]) -> None:
    assert overdue.line(trial, "Plan.xlsx", after(min(put_in.values()), -2)) is None


def test_those_still_wanted_are_named_and_the_others_counted(
    trial: Trial, put_in: dict[int, datetime.datetime], ready: dict[int, datetime.datetime]
) -> None:
    moments = sorted(put_in.values())
    first = next(number for number, moment in put_in.items() if moment == moments[0])
    said = overdue.line(trial, "Plan.xlsx", after(moments[0], 2))
    assert said is not None
    assert "1 batch has passed the time to go in: no. " in said
    assert f"no. {first}, " in said
    assert f"at {moments[0]:%Y-%m-%d %H:%M}." in said
    now = after(sorted(ready.values())[3], 2)
    here = now.replace(tzinfo=None)
    late = {number for number, moment in put_in.items() if moment < here}
    gone = {number for number in late if ready[number] < here}
    assert 0 < len(gone) < len(late)
    said = overdue.line(trial, "Plan.xlsx", now)
    assert said is not None
    assert f"{len(late)} batches have passed the time to go in: " in said
    named, _, before = said.partition("Ready before now: ")
    assert {int(number) for number in re.findall(r"no\. (\d+)", named)} <= late - gone
    assert {int(number) for number in re.findall(r"\d+", before)} == gone
    assert len(late - gone) <= 8 or f"and {len(late - gone) - 8} more" in named


def test_a_batch_that_fails_is_not_late(put_in: dict[int, datetime.datetime]) -> None:
    person = filling.Person(bare(Options(filled=True, batches=FEW)))
    first = min(put_in, key=put_in.__getitem__)
    person.fill("Plan", filling.FIRST + first - 1, {"Curing salt": "no such cure"})
    with person.asked() as trial:
        said = overdue.line(trial, "Plan.xlsx", after(put_in[first], 2))
    assert said is None or f"no. {first}," not in said


@pytest.mark.parametrize("command", ["calc", "share"])
def test_both_commands_tell_by_the_clock(command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    book, moment = kitchens.fill(openpyxl.Workbook()), datetime.datetime(2027, 3, 5, 12, 0)
    for row, hours in enumerate((0, 1, 2), 1):
        book["Plan"].cell(row, 6, moment + datetime.timedelta(hours=hours))
    kitchens.named(book, {"plan_put_in": "Plan!F1:F3", "plan_state": "Plan!B1:B3"})
    (tmp_path / "Plan.xlsx").write_bytes(saved(book))
    monkeypatch.setenv(clock.STOPPED, str(int(after(moment, 90).timestamp())))
    output = CliRunner().invoke(app, [command, str(tmp_path / "Plan.xlsx")]).output
    assert "2 batches have passed the time to go in: no. 1, chicken breast, at 2027-03-05 12:00; no. 2, " in output
