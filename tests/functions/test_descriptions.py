"""Every worksheet function's description holds together: text, signature, sources, examples, limits of the hosts."""

from __future__ import annotations

import doctest
import importlib
import re

from each import each

from brinecalc import registry
from brinecalc.describe import NUMBERS, worked_examples
from brinecalc.functions import MODULES
from brinecalc.hosts.excel.words import RESERVED
from brinecalc.hosts.texts import LONGEST, argument_help, function_help
from brinecalc.tables import load

NAMES = registry.names()
SOURCES = {row["key"] for row in load.rows("sources")}


def test_every_function_of_the_contract_is_there():
    contract = """
        SALT STRENGTH CONVERT DENSITY FREEZING SATURATION METER FILL TOP_UP DILUTE EDIBLE EQUILIBRIUM_SALT
        EQUILIBRIUM_RESULT INJECTION_STRENGTH IN_PRODUCT YIELD GAIN WATER_PHASE_SALT ABSORBED SOAK_HOURS UPTAKE
        STRENGTH_FOR EQUILIBRIUM_HOURS REST_HOURS PROFILE RESCALE_HOURS BATH_STRENGTH FORECAST SWEETENER
        SWEETENER_SWAP SUGARS WATER_IN DOSE USUAL_RANGE WEIGHT VOLUME PH PH_DOSE CURE NITRITE NITRITE_LIMIT ICE
        UNIT_COST COST PACKS SODIUM ADDED_SOLUTION CHECK FINDINGS LIMIT SOURCE UNIT WHY ABOUT
    """.split()
    assert sorted(set(contract) - {name[len("BRINE_") :] for name in NAMES}) == []


@each("name", NAMES)
def test_the_description_is_whole(name):
    spec = registry.spec(name)
    assert len(spec.summary) < 100, "hosts cut at 255, readers sooner"
    assert spec.summary.endswith(".")
    assert spec.result_text
    assert len(function_help(spec)) <= LONGEST
    assert spec.sources, "says where it comes from"
    assert set(spec.sources) <= SOURCES
    assert spec.examples, "has a line a cook would type"
    for argument in spec.arguments:
        assert argument.meaning, argument.name
        assert argument.name.lower() not in RESERVED
        assert len(argument.meaning) <= LONGEST
        assert len(argument_help(argument)) <= LONGEST
        if argument.kind == "choice" and not argument.required and argument.default is not None:
            assert argument.default in argument.choices
    optional = [not argument.required for argument in spec.arguments]
    assert optional == sorted(optional), "optional arguments come last"
    assert not re.fullmatch(r"[A-Z]{1,3}\d+", name), "would be read as a cell"


@each("name", NAMES)
def test_the_description_is_plain_prose(name):
    """What every host shows as it stands: whole sentences, no mark-up, each number with its limits."""
    spec = registry.spec(name)
    for text in (spec.summary, spec.notes, *(argument.meaning for argument in spec.arguments)):
        assert "`" not in text
        assert "  " not in text
        assert not text or text.endswith((".", ";")), text
        assert text[:1] == text[:1].upper() or text.startswith("pH")
    for argument in spec.arguments:
        if argument.kind in NUMBERS and argument.kind != "money":
            has_limit = argument.low is not None or argument.high is not None
            assert has_limit or "0 or more" in argument.meaning, f"{argument.name} has no limit"


def agrees(answer, wanted, within):
    """Whether an answer is the one stated, tables cell by cell."""
    if isinstance(wanted, (list, tuple)):
        return len(answer) == len(wanted) and all(agrees(a, w, within) for a, w in zip(answer, wanted))
    if isinstance(wanted, (int, float)) and isinstance(answer, (int, float)):
        return abs(answer - wanted) <= within + 1e-12 * abs(wanted)
    return answer == wanted


@each("name", NAMES)
def test_the_examples_hold_through_the_gate(name):
    worked = worked_examples(registry.spec(name))
    assert worked, "at least one example is a plain call that every host can run"
    for example in worked:
        answer = registry.call(name, *example.cells)
        assert agrees(answer, example.answer, example.within), (example.formula(name), answer, example.answer)


@each("module", MODULES)
def test_the_examples_hold_in_python(module):
    found = importlib.import_module(f"brinecalc.functions.{module}")
    assert doctest.testmod(found).failed == 0


@each("name", NAMES)
def test_nonsense_gets_an_error_and_a_reason(name):
    spec = registry.spec(name)
    for position, argument in enumerate(spec.arguments):
        if argument.kind in ("cell", "cells", "column", "table", "text"):
            continue
        cells = [a.example.strip('"') or "" for a in spec.arguments[:position]]
        answer = registry.call(name, *cells, "9**9**9 kg")
        assert isinstance(answer, str), (name, argument.name)
        assert answer.startswith("#"), (name, argument.name, answer)
        reason = registry.why(name, *cells, "9**9**9 kg")
        assert reason.startswith(name), (name, reason)
        assert "internal fault" not in reason
