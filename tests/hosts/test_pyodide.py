"""The wheel: what is in it, the same bytes each time, and that the browser's Python computes with it, network cut."""

from __future__ import annotations

import hashlib
import re
import zipfile

import browser
import pytest

from brinecalc import registry
from brinecalc.describe import worked_examples
from brinecalc.version import VERSION


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    return browser.build_wheel(tmp_path_factory.mktemp("wheel"))


def test_the_wheel_is_for_every_python_and_holds_all_that_is_needed(wheel):
    assert wheel.name == f"brinecalc-{VERSION}-py3-none-any.whl"
    with zipfile.ZipFile(wheel) as file:
        names = set(file.namelist())
    tables = {f"brinecalc/tables/{path.name}" for path in (browser.ROOT / "brinecalc" / "tables").glob("*.csv")}
    modules = {
        path.relative_to(browser.ROOT).as_posix()
        for path in (browser.ROOT / "brinecalc").rglob("*.py")
        if "__pycache__" not in path.parts
    }
    assert tables
    assert tables <= names
    assert modules <= names
    assert {"brinecalc/py.typed", f"brinecalc-{VERSION}.dist-info/licenses/LICENSE"} <= names
    others = {name for name in names if not name.startswith((f"brinecalc-{VERSION}.dist-info/", "brinecalc/"))}
    assert others == set()
    assert [name for name in names if re.search(r"(^|/)tests?/|__pycache__|\.pyc$|\.so$", name)] == []


def test_the_wheel_asks_a_browser_for_xlwings_only(wheel):
    with zipfile.ZipFile(wheel) as file:
        metadata = file.read(f"brinecalc-{VERSION}.dist-info/METADATA").decode()
    needed = [line for line in metadata.splitlines() if line.startswith("Requires-Dist:") and "extra ==" not in line]
    for_all = [line for line in needed if "sys_platform != 'emscripten'" not in line.replace('"', "'")]
    assert len(needed) > 1
    assert [re.match(r"Requires-Dist: (\w+)", line)[1] for line in for_all] == ["xlwings"]


def test_the_same_sources_give_the_same_wheel(wheel, tmp_path):
    again = browser.build_wheel(tmp_path)
    assert hashlib.sha256(again.read_bytes()).digest() == hashlib.sha256(wheel.read_bytes()).digest()


def test_the_wheel_computes_in_pyodide_without_a_network(pyodide, wheel, tmp_path):
    examples = [(name, example) for name in registry.names() for example in worked_examples(registry.spec(name))]
    asked = [[name, [cell if cell is not None else "" for cell in example.cells]] for name, example in examples]
    answered = browser.run([wheel, browser.pure_xlwings(tmp_path)], asked, tmp_path)
    assert answered["platform"] == "emscripten"
    assert answered["heavy"] == []
    for (name, example), answer in zip(examples, answered["answers"], strict=True):
        if isinstance(example.answer, (int, float)):
            assert answer == pytest.approx(example.answer, rel=1e-12, abs=example.within), example.formula(name)
        elif isinstance(example.answer, str):
            assert answer == example.answer
    assert len(examples) > len(registry.names())
