"""Excel: xlwings' own code imports and calls our functions on a pretended Windows; the VBA gives true errors."""

from __future__ import annotations

import inspect
import itertools
import json
import pathlib
import re
import subprocess
import sys

import pytest
from each import each

import brinecalc.hosts.excel as excel
from brinecalc import registry
from brinecalc.hosts.excel import vba
from brinecalc.version import VERSION

PROBE = pathlib.Path(__file__).parent / "excel_probe.py"
LEFT_OUT = {"special": "missing"}


def probe(calls):
    """What xlwings makes of our functions, and its answers to some calls."""
    run = subprocess.run(
        [sys.executable, str(PROBE)], input=json.dumps(calls), capture_output=True, text=True, check=True
    )
    return json.loads(run.stdout[run.stdout.index("{") :])


CALLS = [
    ("a literal", ["BRINE_SALT", [1000.0, 0.05, LEFT_OUT, LEFT_OUT]], 50.0),
    ("a reference", ["BRINE_SALT", [{"cell": 1000.0}, {"cell": 0.05}, LEFT_OUT, LEFT_OUT]], 50.0),
    ("a blank cell is 0", ["BRINE_SALT", [{"cell": None}, 0.05, LEFT_OUT, LEFT_OUT]], "#NUM!"),
    ("a column", ["BRINE_SALT", [[[1000.0], [2000.0]], 0.05, LEFT_OUT, LEFT_OUT]], [[50.0], [100.0]]),
    ("a row", ["BRINE_SALT", [[[1000.0, 2000.0]], 0.05, LEFT_OUT, LEFT_OUT]], [50.0, 100.0]),
    (
        "errors inside",
        ["BRINE_SALT", [[[1000.0], ["#N/A"], [-1.0]], 0.05, LEFT_OUT, LEFT_OUT]],
        [[50.0], ["#N/A"], ["#NUM!"]],
    ),
    ("an error alone", ["BRINE_SALT", [{"cell": "#DIV/0!"}, 0.05, LEFT_OUT, LEFT_OUT]], "#DIV/0!"),
    ("text", ["BRINE_SALT", ["1 kg", "5%", LEFT_OUT, LEFT_OUT]], 50.0),
    ("an unknown name", ["BRINE_EDIBLE", [1000.0, "unicorn"]], "#N/A"),
    ("a logical value", ["BRINE_SALT", [True, 0.05, LEFT_OUT, LEFT_OUT]], "#VALUE!"),
    ("money", ["BRINE_UNIT_COST", [{"cell": {"special": "decimal"}}, "1 kg", LEFT_OUT, LEFT_OUT]], 0.0025),
    ("a date is its day number", ["BRINE_GAIN", [1.0, {"cell": {"special": "date"}}]], 46451.5 - 1),
    ("any number of cells", ["BRINE_WHY", ["SALT", 1000.0, 0.05]], "ok"),
    ("an empty text is left out", ["BRINE_SALT", [1000.0, 0.05, "", ""]], 50.0),
    ("an empty place is left out", ["BRINE_WHY", ["SALT", 1000.0, 0.05, LEFT_OUT, LEFT_OUT]], "ok"),
    ("an error out of a formula", ["BRINE_SALT", ["#DIV/0!", 0.05, LEFT_OUT, LEFT_OUT]], "#DIV/0!"),
    ("a number that looks like an error", ["BRINE_GAIN", [1.0, -2146826246.0]], "#NUM!"),
]


@pytest.fixture(scope="module")
def seen():
    return probe([call for _, call, _ in CALLS])


@each("number, call", list(enumerate(CALLS)))
def test_xlwings_hands_cells_over_and_answers_back(seen, number, call):
    _, _, wanted = call
    answer = seen["answers"][number]
    assert answer == (pytest.approx(wanted) if isinstance(wanted, float) else wanted)


def test_every_function_is_imported_with_its_help(seen):
    described = {name.split("!")[1]: options for name, options in seen["options"]}
    assert sorted(described) == sorted(registry.names())
    for name, options in described.items():
        spec = registry.spec(name)
        assert options["Category"] == "brinecalc"
        assert options["Description"].startswith(spec.summary)
        texts = options["ArgumentDescriptions"] or []
        assert len(texts) == len(spec.arguments)
        assert all(text and len(text) <= 255 for text in texts)


def wrappers(module):
    """By function: its parameters, and the array of arguments that goes to Python."""
    text = module.replace(" _\n", " ").replace("\r\n", "\n")
    found = {}
    for name, parameters, body in re.findall(
        r"(?ms)^(?:Public )?Function (BRINE_\w+)\((.*?)\).*?\n(.*?)^End Function", text
    ):
        call = re.search(r'XLPy\.CallUDF\("([\w.]+)", "(\w+)", (.+?), ThisWorkbook, Application\.Caller\)', body)
        arguments = call[3] if call[3].startswith("Array(") else "all of them"
        found[name] = (parameters.rstrip("("), call[1], call[2], arguments)
    return found


def test_the_vba_module_calls_python_as_xlwings_own_would(seen):
    module = vba.module([registry.spec(name) for name in registry.names()])
    assert wrappers(module) == wrappers(seen["vba"])
    assert sorted(wrappers(module)) == sorted(registry.names())


def test_the_vba_module_gives_true_errors_and_never_a_message():
    module = vba.module([registry.spec(name) for name in registry.names()])
    assert "Err.Description" not in module
    assert len(re.findall(r"= BrineCells\(XLPy\.CallUDF", module)) == len(registry.names())
    for text, number in {"#NUM!": 2036, "#N/A": 2042, "#VALUE!": 2015}.items():
        assert f'Case "{text}": BrineCell = CVErr({number})' in module


def test_the_vba_module_can_be_read_in_any_windows_code_and_by_its_editor():
    module = vba.module([registry.spec(name) for name in registry.names()])
    assert module.isascii()
    lines = module.split("\r\n")
    assert "\n" not in "".join(lines)
    assert max(map(len, lines)) <= 1023
    assert lines[0] == 'Attribute VB_Name = "xlwings_udfs"'
    assert vba.version(module) == VERSION
    assert vba.version('Attribute VB_Name = "mine"') == ""
    folds = [len(list(group)) for folded, group in itertools.groupby(lines, lambda line: line.endswith(" _")) if folded]
    assert max(folds) <= 24, "VBA folds a line so often and no more"


def test_signatures_are_those_of_the_records():
    for name in registry.names():
        spec = registry.spec(name)
        made = inspect.signature(getattr(excel, name)).parameters
        assert list(made) == [argument.name for argument in spec.arguments]
