"""What the wheel holds, that the same sources give the same bytes, what it needs and under which terms."""

from __future__ import annotations

import importlib.metadata
import io
import os
import re
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
import tomllib

from brinecalc.hosts.excel import wheel as small

ROOT = Path(__file__).parents[1]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
FREE = re.compile(r"MIT|BSD|Apache", re.IGNORECASE)
NEEDED = [re.match(r"[\w-]+", line).group() for line in PROJECT["dependencies"]]


@pytest.fixture(scope="module")
def wheels(tmp_path_factory):
    """The wheel built twice, the second time from a copy at another place."""
    made = []
    for turn in range(2):
        source, target = tmp_path_factory.mktemp("source") / f"brinecalc{turn}", tmp_path_factory.mktemp("wheel")
        shutil.copytree(ROOT / "brinecalc", source / "brinecalc", ignore=shutil.ignore_patterns("__pycache__"))
        for name in ("pyproject.toml", "README.md", "LICENSE"):
            shutil.copy(ROOT / name, source)
        subprocess.run(
            [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(target)],
            cwd=source,
            check=True,
            capture_output=True,
            env={**os.environ, "SOURCE_DATE_EPOCH": "1803772800"},
        )
        made.append(next(target.glob("*.whl")))
    return made


def test_the_same_sources_give_the_same_bytes(wheels):
    assert wheels[0].read_bytes() == wheels[1].read_bytes()


def test_it_holds_all_of_the_library_and_nothing_else(wheels):
    with zipfile.ZipFile(wheels[0]) as wheel:
        inside = {name for name in wheel.namelist() if ".dist-info/" not in name}
        info = {name.split("/", 1)[1] for name in wheel.namelist() if ".dist-info/" in name}
    library = {path.relative_to(ROOT).as_posix() for path in (ROOT / "brinecalc").rglob("*") if path.is_file()}
    library = {name for name in library if "__pycache__" not in name}
    assert inside == library
    assert "brinecalc/py.typed" in inside
    assert {f"brinecalc/tables/{path.name}" for path in (ROOT / "brinecalc/tables").glob("*.csv")} <= inside
    assert "brinecalc/hosts/calc/typelib.py" in inside  # writes the type library of the add-in
    assert not [name for name in inside if "test" in name]
    assert {"METADATA", "WHEEL", "RECORD", "entry_points.txt", "licenses/LICENSE"} == info


def test_a_browser_is_asked_for_xlwings_only(wheels):
    with zipfile.ZipFile(wheels[0]) as wheel:
        metadata = wheel.read(next(name for name in wheel.namelist() if name.endswith("/METADATA"))).decode()
    needed = [line for line in metadata.splitlines() if line.startswith("Requires-Dist:") and "extra ==" not in line]
    for_all = [line for line in needed if "sys_platform != 'emscripten'" not in line.replace('"', "'")]
    assert len(needed) > 1
    assert [re.match(r"Requires-Dist: (\w+)", line)[1] for line in for_all] == ["xlwings"]


def test_what_the_small_wheel_for_a_browser_holds_is_in_this_one_byte_for_byte(wheels):
    """So what the browser's Python is seen to compute with one, it computes with the other."""
    with zipfile.ZipFile(wheels[0]) as whole, zipfile.ZipFile(io.BytesIO(small.content())) as part:
        modules = [name for name in part.namelist() if name.startswith("brinecalc/")]
        assert "brinecalc/registry.py" in modules
        assert [name for name in modules if part.read(name) != whole.read(name)] == []


def test_what_it_needs_is_bounded_below():
    assert [line for line in PROJECT["dependencies"] if ">=" not in line] == []


@pytest.mark.parametrize("name", NEEDED)
def test_what_it_needs_is_free_software_that_may_be_passed_on(name):
    """And DEVELOPERS.md lists it."""
    told = importlib.metadata.metadata(name)
    terms = " ".join([told.get("License-Expression") or "", (told.get("License") or "")[:200],
                      *(line for line in told.get_all("Classifier") or () if line.startswith("License"))])  # fmt: skip
    assert FREE.search(terms), terms
    assert re.search(rf"^\| {name} \|", (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8"), re.MULTILINE)
