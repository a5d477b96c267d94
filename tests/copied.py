"""The worked example shared once in every kind, for all tests of copies, and what is looked at in a copy."""

from __future__ import annotations

import functools
import io
import tempfile
import zipfile
from pathlib import Path
from typing import Any, Callable

import openpyxl
import pytest
import xlsx
from built import FEW, built, name, once
from click.testing import CliRunner

from brinecalc.cli import app
from brinecalc.workbook.book import Options
from brinecalc.workbook.edit import sheets
from brinecalc.workbook.edit.book import Edit

EXAMPLE = Options("metric", "A4", True, FEW)
KINDS = {
    "Plan copy 1.xlsx": [],
    "Plan copy 2 values.xlsx": ["--values"],
    "Plan copy 3 no prices.xlsx": ["--no-prices"],
    "Plan copy 4 values, no prices.xlsx": ["--values", "--no-prices"],
}
"""The copy that each wish makes, one after the other, dated from 2027-03-01."""

SAVED = "1803772800"
"""When they were saved, in seconds after 1970 began: 2027-02-28, 0:00 UTC."""

LIVE, FROZEN, MONEYLESS, FROZEN_MONEYLESS = KINDS


def share(*words: Any) -> Any:
    """The command, with what it printed."""
    return CliRunner().invoke(app, ["share", *map(str, words)])


def _folder() -> bytes:
    out = io.BytesIO()
    with tempfile.TemporaryDirectory() as place, zipfile.ZipFile(out, "w") as kept:
        plan = Path(place, "Plan.xlsx")
        plan.write_bytes(built(EXAMPLE))
        with pytest.MonkeyPatch.context() as patch:
            patch.setenv("SOURCE_DATE_EPOCH", SAVED)
            for number, kind in enumerate(KINDS.values(), 1):
                result = share(plan, "--date", f"2027-03-0{number}", *kind)
                assert result.exit_code == 0, result.output
        for path in sorted(Path(place).iterdir()):
            kept.write(path, path.name)
    return out.getvalue()


@functools.lru_cache(None)
def folder() -> dict[str, bytes]:
    """The folder in which the example was shared in every kind: file name → content."""
    return {label: name(content, label) for label, content in xlsx.parts(once("shared.zip", _folder)).items()}


def history(content: bytes) -> list[list[Any]]:
    """The rows of the sheet that says what a copy is."""
    read = openpyxl.load_workbook(io.BytesIO(content), data_only=True, read_only=True)
    return [list(row) for row in read["Copies"].iter_rows(values_only=True)]


def change(path: Path, how: Callable[[Edit], None]) -> None:
    """Changes inputs of a workbook as a person would, keeping its values."""
    edit = Edit(path.read_bytes(), path.name)
    how(edit)
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
