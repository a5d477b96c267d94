"""The workbooks that come with the project are what the builder makes, to the byte."""

from __future__ import annotations

import re
import zlib
from pathlib import Path

import pytest
from built import built
from xlsx import parts

from brinecalc.workbook import host_check
from brinecalc.workbook.publish import BOOKS

FOLDER = Path(__file__).parent.parent.parent / "workbooks"
REMEDY = "a sheet, a table or a function has changed; if meant, run: python -m tests.generate"


def made_anew(name: str) -> bytes:
    return built(BOOKS[name]) if name in BOOKS else host_check.content()


@pytest.mark.parametrize("name", [*BOOKS, host_check.FILE_NAME])
def test_building_again_gives_the_same_parts(name: str) -> None:
    published, made = parts((FOLDER / name).read_bytes()), parts(made_anew(name))
    assert list(made) == list(published), REMEDY
    assert [part for part in made if made[part] != published[part]] == [], REMEDY


@pytest.mark.parametrize("name", [*BOOKS, host_check.FILE_NAME])
@pytest.mark.skipif(
    not zlib.ZLIB_RUNTIME_VERSION.startswith("1.") or "ng" in zlib.ZLIB_RUNTIME_VERSION,
    reason="this Python packs with another library than zlib: the parts are the same, the packed bytes are not",
)
def test_building_again_gives_the_same_bytes(name: str) -> None:
    same = made_anew(name) == (FOLDER / name).read_bytes()
    assert same, REMEDY


def test_no_other_workbook_lies_there() -> None:
    assert {path.name for path in FOLDER.glob("*.xls*")} == {*BOOKS, host_check.FILE_NAME}


@pytest.mark.parametrize("name", BOOKS)
def test_values_are_in_it_and_none_is_an_unknown_name(name: str) -> None:
    """A text may be empty; a formula that has not been computed has no value at all."""
    count = 0
    for part, data in parts((FOLDER / name).read_bytes()).items():
        if part.startswith("xl/worksheets/sheet"):
            found = re.findall(rb"<c ([^>]*)><f(?: [^>]*)?>[^<]*</f><v(?: [^>]*)?>([^<]*)</v></c>", data)
            assert len(found) == len(re.findall(rb"<f[ >/]", data)), part
            assert not [
                look for look, value in found if value == b"#NAME?" or (not value and b't="str"' not in look)
            ], part
            count += len(found)
    assert count > 15_000
