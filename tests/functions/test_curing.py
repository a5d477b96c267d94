"""The worksheet functions of the family "Curing salt": values, refusals and their reasons."""

from __future__ import annotations

import itertools
import re

import pytest
from each import each

from brinecalc import registry

call, why = registry.call, registry.why


def test_dose_from_text_and_numbers() -> None:
    """Definition P·ppm·1e-6/k: 5 kg at 150 ppm of a 6.25 % cure is 12 g."""
    assert call("BRINE_CURE", "5 kg", 150, "dry") == pytest.approx(12.0, rel=1e-12)
    assert call("BRINE_CURE", 5000, "150 ppm", "Dry") == pytest.approx(12.0, rel=1e-12)
    assert call("BRINE_CURE", 5000, 120, "pumped", "10%", "", "", "bacon") == pytest.approx(9.6, rel=1e-12)


def test_level_of_a_weighed_dose() -> None:
    """Reference row 8: 1266 g of brine with 32 g of a 5.88 % cure at 10 % pump is 148.6256 ppm."""
    assert call("BRINE_NITRITE", 12660, 32, "pumped", "10%", 1266, "5.88%") == pytest.approx(148.6256, abs=5e-5)
    assert call("BRINE_NITRITE", "100 lb", "4 oz", "comminuted") == pytest.approx(156.25, rel=1e-9)


def test_ceiling_over_a_range() -> None:
    assert call("BRINE_NITRITE_LIMIT", [["dry"], ["pumped"]], "bacon") == [[200.0], [120.0]]
    assert call("BRINE_NITRITE_LIMIT", "dry", "", "EU") == pytest.approx(119.98, abs=5e-3)


def test_a_dose_over_the_limit_says_which_rule() -> None:
    assert call("BRINE_CURE", 1000, 160, "comminuted") == "#NUM!"
    said = why("BRINE_CURE", 1000, 160, "comminuted")
    for part in ("BRINE_CURE: ppm", "160", "156", "comminuted", "US", "9 CFR 424.21", "recheck", "local code"):
        assert part in said


def test_eu_limit_is_lower_than_the_classic_dose() -> None:
    """2.5 g/kg of a 6.25 % cure is 156 ppm, above 80 mg/kg of the ion; 120 ppm is that, to the rule's own whole mg."""
    assert call("BRINE_CURE", 5000, 120, "dry", "", "", "0.6%", "general", "EU") == pytest.approx(100.0, rel=1e-9)
    assert call("BRINE_CURE", 5000, 121, "dry", "", "", "0.6%", "general", "EU") == "#NUM!"
    assert "must be at most 120 ppm for" in why("BRINE_CURE", 5000, 121, "dry", "", "", "0.6%", "general", "EU")
    assert call("BRINE_CURE", 1000, 156, "comminuted", "", "", "", "", "EU") == "#NUM!"
    assert call("BRINE_CURE", 1000, 119.98, "comminuted", "", "", "", "", "EU") == pytest.approx(1.91968, rel=1e-9)


@pytest.mark.parametrize(
    ("cells", "words"),
    [
        ((1000, 2.5, "pumped", "10%", 50), "at least what the product takes up, 100 g"),
        ((1000, 100, "pick-up", "10%"), "more than the curing salt in it, 100 g"),
        ((1000, 2.5, "equilibrium", "", 2.5), "more than the curing salt in it"),
    ],
)
def test_a_pickle_that_cannot_be_has_no_nitrite(cells: tuple[object, ...], words: str) -> None:
    """All of 2.5 g of 6.25 % in a kg is 156.25 ppm: no pickle brings more of it in."""
    assert call("BRINE_NITRITE", *cells) == "#NUM!"
    assert words in why("BRINE_NITRITE", *cells)
    assert call("BRINE_NITRITE", 1000, 2.5, "pumped", "10%", 100) == pytest.approx(156.25)


@each("function", ["BRINE_CURE", "BRINE_NITRITE"])
@each("strength", [1, "100%", 0.99, 0.2, 0.003])
def test_pure_nitrite_is_refused(function: str, strength: object) -> None:
    assert call(function, 1000, 100, "dry", "", "", strength) == "#NUM!"
    assert "pure nitrite" in why(function, 1000, 100, "dry", "", "", strength)


@each(
    ("cells", "error", "words"),
    [
        ((0, 100, "dry"), "#NUM!", "product_weight"),
        ((None, 100, "dry"), "#NUM!", "blank"),
        ((-5, 100, "dry"), "#NUM!", "product_weight"),
        (("1,000 g", 100, "dry"), "#VALUE!", "product_weight"),
        ((1000, 0, "dry"), "#NUM!", "ppm"),
        ((1000, "lots", "dry"), "#VALUE!", "ppm"),
        ((1000, "", "dry"), "#VALUE!", "ppm"),
        ((1000, 100, ""), "#VALUE!", "method"),
        ((1000, 100, "soak"), "#N/A", "pick-up"),
        ((1000, 100, "pumped"), "#VALUE!", "gain"),
        ((1000, 100, "pumped", None), "#NUM!", "gain"),
        ((1000, 100, "pumped", 10), "#NUM!", "write 10%"),
        ((1000, 100, "equilibrium"), "#VALUE!", "pickle"),
        ((1000, 100, "equilibrium", "", 0), "#NUM!", "pickle"),
        ((1000, 100, "dry", "", "", 6.25), "#NUM!", "6.25%"),
        ((1000, 100, "dry", "", "", "", "ham"), "#N/A", "bacon"),
        ((1000, 100, "dry", "", "", "", "", "UK"), "#N/A", "EU"),
        ((1000, 100, "comminuted", "", "", "", "bacon"), "#NUM!", "general"),
        ((1000, 110, "pumped", 0.1, "", "", "bacon"), "#NUM!", "exactly 120"),
        (("#REF!", 100, "dry"), "#REF!", "#REF!"),
    ],
)
def test_wrong_input_has_the_right_error_and_reason(cells: tuple[object, ...], error: str, words: str) -> None:
    assert call("BRINE_CURE", *cells) == error
    assert words in why("BRINE_CURE", *cells)


def test_blank_cure_is_seen() -> None:
    assert call("BRINE_NITRITE", 1000, None, "dry") == "#NUM!"
    assert "cure" in why("BRINE_NITRITE", 1000, None, "dry")


def test_kilograms_in_kilograms_out() -> None:
    """Rule 1: mass functions are proportional."""
    grams = call("BRINE_CURE", 5000, 120, "equilibrium", "", 2500)
    assert call("BRINE_CURE", 5, 120, "equilibrium", "", 2.5) == pytest.approx(grams / 1000, rel=1e-14)


@pytest.mark.parametrize(
    ("cells", "typed"),
    [
        ((2000, 121, "dry", "", "", "", "", "EU"), 120),  # 80 mg/kg of the ion, 80.02 at 120 ppm: (EU) 2023/2108
        ((2000, 157, "comminuted"), 156.2),  # 1/4 oz to 100 lb is 156.25: 9 CFR 424.21(c)
        ((2000, 90, "pumped", "10%", "", "", "bacon"), 120),  # 9 CFR 424.22(b)
    ],
)
def test_a_refused_level_says_one_that_can_be_typed(cells, typed):
    assert registry.call("CURE", *cells) == "#NUM!"
    assert f"; write {typed}" in registry.why("CURE", *cells)
    assert isinstance(registry.call("CURE", cells[0], typed, *cells[2:]), float)


def test_the_level_named_for_a_blank_one_is_let_through_by_every_rule():
    """80 mg/kg of the ion is 119.98 ppm, and pumped bacon in the US has 120 set: (EU) 2023/2108, 9 CFR 424.22(b)."""
    level = re.search(r"for example (\d+)\.$", registry.why("CURE", 8000, 0, "pumped", 0.15, "", 0.005, "", "EU"))
    for method, kind, rules in itertools.product(
        ("dry", "comminuted", "pumped", "pick-up", "equilibrium"), ("general", "bacon"), ("US", "EU")
    ):
        if (method, kind, rules) != ("comminuted", "bacon", "US"):  # of which there is no rule
            dose = registry.call("CURE", 8000, float(level[1]), method, 0.15, 12000, 0.0625, kind, rules)
            assert isinstance(dose, float), (method, kind, rules)


def test_a_grade_where_its_strength_is_wanted_is_answered_with_a_strength_of_that_kind():
    said = registry.why("CURE", "5 kg", 150, "dry", "", "", "pink salt")
    assert said.endswith('got "pink salt"; write it like 6.25%.')


@each(
    ("cells", "told"),
    [
        (("10 lb", "4 oz", "dry"), ["1562.5 ppm", "at most 625 ppm", "9 CFR 424.21", "200 ppm", "424.22", "2023/2108"]),
        ((1000, 10, "dry"), ["at most 200 ppm", "9 CFR 424.22"]),
        ((1000, 2, "dry"), ["125 ppm", "at most 120 ppm by the EU rules"]),
        ((1000, 2.51, "comminuted"), ["at most 156 ppm (156.25 exactly)"]),
        ((1000, 1.9, "dry"), []),
        ((1000, 1.9, "comminuted"), []),
    ],
)
def test_a_level_above_a_limit_is_given_and_told(cells: tuple[object, ...], told: list[str]) -> None:
    """The limits of limits.csv: 625 and 200 ppm dry, 156.25 comminuted, 80 mg/kg of the ion by the EU rules."""
    assert isinstance(call("BRINE_NITRITE", *cells), float)
    said = why("BRINE_NITRITE", *cells)
    assert said.startswith("ok, but " if told else "ok")
    assert (said == "ok") is not bool(told)
    assert all(part in said for part in told)


def test_a_level_is_told_only_the_limits_that_it_passes() -> None:
    said = why("BRINE_NITRITE", 1000, 2, "dry")
    assert "625" not in said
    assert "200 ppm" not in said


@each(
    ("cells", "most"),
    [
        (("10 lb", 625, "dry"), "at most 200 ppm"),
        ((1000, 150, "pumped", "10%"), "exactly 120 ppm"),
        ((1000, 119, "pumped", "10%"), "exactly 120 ppm"),
        ((1000, 120, "pumped", "10%"), ""),
        ((1000, 150, "dry"), ""),
        ((1000, 150, "comminuted"), ""),
        ((1000, 119, "dry", "", "", "", "general", "EU"), ""),
        ((1000, 120, "pumped", "10%", "", "", "bacon"), ""),
    ],
)
def test_a_dose_that_is_not_for_bacon_is_told(cells: tuple[object, ...], most: str) -> None:
    said = why("BRINE_CURE", *cells)
    if not most:
        assert said == "ok"
        return
    assert said.startswith("ok, but it is reckoned as general")
    assert f"{most} by the US rules (9 CFR 424.22(b)" in said
    assert 'write kind as "bacon"' in said


@each(
    ("name", "cells", "told"),
    [
        ("CURE", ("5 kg", 120, "pick-up", "10%", "3 kg"), ["together 450 ppm", "at most 200 ppm", "10 % more"]),
        ("CURE", ("5 kg", 100, "pick-up", "10%", "0.6 kg", "", "bacon"), []),
        ("CURE", ("5 kg", 100, "pick-up", "10%", "1 kg", "", "bacon"), ["166.667 ppm", "at most 120 ppm"]),
        ("CURE", ("5 kg", 110, "pick-up", "2%", "100 kg", "", "", "EU"), ["5238.1 ppm", "at most 120 ppm by the EU"]),
        ("CURE", ("5 kg", 150, "pick-up", "10%", "3 kg"), ["562.5 ppm", "also, it is reckoned as general"]),
        ("CURE", ("5 kg", 100, "pick-up", "10%", "1 kg"), ["166.667 ppm", "bacon", "at most 120 ppm"]),
        ("CURE", ("5 kg", 120, "pick-up", "10%"), []),
        ("CURE", ("5 kg", 120, "pumped", "10%", "3 kg"), []),
        (
            "NITRITE",
            ("5 kg", 57.6, "pick-up", "10%", "3 kg"),
            ["450 ppm", "200 ppm", "120 ppm", "EU rules", "10 % more"],
        ),
        ("NITRITE", ("5 kg", 144, "pick-up", "10%", "3 kg"), ["300 ppm is above", "also, ", "1125 ppm", "10 % more"]),
        ("NITRITE", ("5 kg", 9.6, "pick-up", "10%"), []),
        ("NITRITE", ("5 kg", 9.6, "pumped", "10%", "2 kg"), []),
    ],
)
def test_what_the_pickle_holds_beyond_the_pick_up_is_told(
    name: str, cells: tuple[object, ...], told: list[str]
) -> None:
    """Nitrite goes on moving in: method 2 of the handbook for immersion, all of it on meat and pickle together."""
    assert isinstance(call(f"BRINE_{name}", *cells), float)
    said = why(f"BRINE_{name}", *cells)
    assert (said == "ok") is not bool(told)
    assert all(part in said for part in told), said
    together = re.search(r"together ([\d.]+) ppm", said)
    assert bool(together) is bool(told)
    if together:
        grams = call("BRINE_CURE", *cells) if name == "CURE" else cells[1]
        evened = call("BRINE_NITRITE", cells[0], grams, "equilibrium", "", cells[4])
        assert float(together[1]) == pytest.approx(evened, rel=1e-5)


@each(
    ("gain", "least"),
    [("1%", "1.2 %"), ("1.19%", "1.2 %"), ("1.2%", ""), ("10%", "")],
)
def test_no_pickle_is_worked_out_that_is_a_danger_to_whoever_mixes_it(gain, least):
    """Judgement: 120 ppm at a gain of 1.2 % takes a pickle of 1 % nitrite, five times that of 200 ppm at 10 %."""
    for method in ("pick-up", "pumped"):
        given = ("CURE", "5 kg", 120, method, gain, "100 kg")
        said = registry.why(*given)
        assert (registry.call(*given) == "#NUM!") is bool(least)
        assert (f"gain must be at least {least} for that level" in said) is bool(least)
