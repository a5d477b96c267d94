"""Published check values: the CSV files of tests/reference, their numbers as floats."""

from __future__ import annotations

import csv
from pathlib import Path

FOLDER = Path(__file__).parent / "reference"


def rows(name: str, **wanted: object) -> list[dict]:
    """The rows of a reference file as dictionaries; only those whose cells equal `wanted`."""
    with open(FOLDER / f"{name}.csv", encoding="utf-8", newline="") as file:
        made = [{key: _cell(text) for key, text in row.items()} for row in csv.DictReader(file)]
    return [row for row in made if all(row[key] == value for key, value in wanted.items())]


def _cell(text: str) -> object:
    try:
        return float(text)
    except ValueError:
        return text
