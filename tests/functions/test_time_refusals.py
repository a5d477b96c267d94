"""What soaking and resting are refused for, and what the refusal says to do."""

from __future__ import annotations

import math

import pytest
from each import each

from brinecalc.registry import call, why
from brinecalc.trade import pieces, soaks

CHICKEN = "chicken breast"


@each(
    ("name", "cells", "error", "words"),
    [
        ("SOAK_HOURS", (CHICKEN, 38, "5%", "6%"), "#NUM!", ["target", "5%", "4.434 %", "stronger"]),
        ("SOAK_HOURS", (CHICKEN, 38, "0.05%", "6%"), "#NUM!", ["target", "0.114 %", "only adds salt"]),
        ("SOAK_HOURS", ("salt cod", 30, "30%", 0), "#NUM!", ["target", "19 %", "only takes salt out"]),
        ("SOAK_HOURS", ("salt cod", 30, "2%", 0, 4, 1), "#NUM!", ["target", "larger bath"]),
        ("SOAK_HOURS", (CHICKEN, 38, "1%", "50%"), "#NUM!", ["strength", "35.76 %", "no more salt dissolves"]),
        ("SOAK_HOURS", (CHICKEN, 38, "1%", 5), "#NUM!", ["strength", "write 5%"]),
        ("SOAK_HOURS", (CHICKEN, 38, "1%", "2%", "-1.5"), "#NUM!", ["temperature", "freeze"]),
        ("SOAK_HOURS", (CHICKEN, 38, "1%", "6%", -5), "#NUM!", ["temperature", "at least -2 °C"]),
        ("SOAK_HOURS", (CHICKEN, 38, "1%", "6%", None), "ok", []),  # a blank cell is 0 °C, and this brine is liquid
        ("SOAK_HOURS", ("salt cod", 30, "5%", 0, 0), "#NUM!", ["temperature", "above 0 °C / 32 °F", "freeze"]),
        ("SOAK_HOURS", (CHICKEN, 38, "1%", "6%", 60), "#NUM!", ["temperature", "40 °C"]),
        ("SOAK_HOURS", (CHICKEN, 38, "1%", "6%", 8), "#NUM!", ["above 5 °C", "4 h", "BRINE_INJECTION_STRENGTH"]),
        ("UPTAKE", (CHICKEN, 38, 4.5, "6%", "42 °F"), "#NUM!", ["above 41 °F / 5 °C", "4.5 h"]),
        ("STRENGTH_FOR", (CHICKEN, 38, "1%", 5, 6), "#NUM!", ["above 5 °C"]),
        ("EQUILIBRIUM_HOURS", (CHICKEN, 38, 0.9, 6), "#NUM!", ["above 5 °C"]),
        ("BATH_STRENGTH", (CHICKEN, 38, 5, "6%", 1, 6), "#NUM!", ["above 5 °C"]),
        ("REST_HOURS", (CHICKEN, 10, 3, 0.9, 6), "#NUM!", ["above 5 °C", "soak and rest"]),
        ("PROFILE", (CHICKEN, 10, 3, 2, "6%", 6), "#NUM!", ["above 5 °C"]),
        ("SOAK_HOURS", ("cucumber", 38, "1%", "6%", 20), "ok", []),  # nothing perishable
        ("UPTAKE", (CHICKEN, 38, 4, "6%", 8), "ok", ["belongs at 5 °C / 41 °F"]),
        ("UPTAKE", (CHICKEN, 38, 400, "6%", 5), "ok", []),
        ("SOAK_HOURS", (CHICKEN, 0, "1%", "6%"), "#NUM!", ["thickness", "above 0 mm"]),
        ("SOAK_HOURS", (CHICKEN, None, "1%", "6%"), "#NUM!", ["thickness", "blank"]),
        ("SOAK_HOURS", (CHICKEN, "", "1%", "6%"), "#VALUE!", ["thickness", "missing"]),
        ("SOAK_HOURS", (CHICKEN, "2 kg", "1%", "6%"), "#VALUE!", ["thickness"]),
        ("SOAK_HOURS", (CHICKEN, "60 x 40 mm", "1%", "6%"), "#VALUE!", ["thickness", "three edges"]),
        ("SOAK_HOURS", (CHICKEN, "150 x 60 x 40 mm", "1%", "6%", 4, "", "slab"), "#VALUE!", ["thickness", "block"]),
        ("SOAK_HOURS", (CHICKEN, 40, "1%", "6%", 4, "", "block"), "#VALUE!", ["thickness", "150 x 60 x 40 mm"]),
        ("SOAK_HOURS", ("chiken brest", 38, "1%", "6%"), "#N/A", ["product", "chicken breast"]),
        ("SOAK_HOURS", (CHICKEN, 38, "1%", "6%", 4, "tiny"), "#VALUE!", ["bath"]),
        ("SOAK_HOURS", (CHICKEN, 38, "1%", "6%", 4, 0), "#NUM!", ["bath"]),
        ("SOAK_HOURS", (CHICKEN, 38, "1%", "6%", 4, "", "cone"), "#N/A", ["shape", "cylinder"]),
        ("SOAK_HOURS", (CHICKEN, 38, "1%", "6%", 4, "", "", "smoked"), "#N/A", ["treatment", "tumbled"]),
        ("SOAK_HOURS", (CHICKEN, 38, "1%", "6%", 4, "", "", "", "best"), "#N/A", ["estimate", "typical"]),
        ("STRENGTH_FOR", (CHICKEN, 38, "5%", 1), "#NUM!", ["target", "saturated brine", "1.98 %"]),
        ("STRENGTH_FOR", ("salt cod", 30, "1%", 10), "#NUM!", ["target", "plain water"]),
        ("EQUILIBRIUM_HOURS", (CHICKEN, 38, 1), "#NUM!", ["closeness", "below 100 %"]),
        ("REST_HOURS", (CHICKEN, 38, 5, "100%"), "#NUM!", ["evenness", "below 100 %"]),
        ("PROFILE", (CHICKEN, 38, 5, 1, "6%", 4, "", 2.5), "#NUM!", ["points", "whole number"]),
        ("PROFILE", (CHICKEN, 38, 5, 1, "6%", 4, "", 1), "#NUM!", ["points", "at least 2"]),
        ("RESCALE_HOURS", (12, 40, 60, 4), "#VALUE!", ["to_temperature", "both"]),
        ("RESCALE_HOURS", (12, 40, 60, "", 4), "#VALUE!", ["from_temperature", "both"]),
        ("RESCALE_HOURS", (12, 40, 60, -3, 4), "#NUM!", ["from_temperature", "at least -2 °C"]),
        ("RESCALE_HOURS", (12, 40, 60, 4, 41), "#NUM!", ["to_temperature", "at most 40 °C"]),
        ("RESCALE_HOURS", (12, 40, 0), "#NUM!", ["to_thickness"]),
        ("UPTAKE", ("#REF!", 38, 5, "5%"), "#REF!", ["#REF!"]),
    ],
)
def test_refusals_say_what_to_do(name, cells, error, words):
    answer, reason = call(name, *cells), why(name, *cells)
    if error == "ok":
        assert isinstance(answer, float)
        assert reason == "ok" if not words else reason.startswith("ok, but ")
        assert all(word in reason for word in words)
        return
    assert answer == error
    assert reason.startswith(f"BRINE_{name}: ")
    for word in words:
        assert word in reason


def test_the_nearest_possible_value_is_handed_over():
    """The end the bath runs to, the salt already there, or what the strongest brine can do."""
    it = pieces.piece(CHICKEN, 38.0)
    for target, nearest in ((0.05, 0.739 * 0.06), (0.0005, 0.00114)):
        with pytest.raises(Exception, match="target must be from") as caught:
            soaks.hours_for(it, target, 0.06, math.inf)
        assert caught.value.nearest == pytest.approx(nearest, rel=1e-12)
    with pytest.raises(Exception, match="saturated brine") as caught:
        soaks.strength_for(it, 0.2, 5.0, math.inf)
    most = caught.value.nearest
    assert soaks.strength_for(it, most * (1 - 1e-9), 5.0, math.inf) == pytest.approx(0.3576, abs=1e-4)


@each(
    ("name", "cells"),
    [
        ("UPTAKE", (CHICKEN, 25, 8, 0.05, 20)),
        ("BATH_STRENGTH", (CHICKEN, 25, 8, 0.05, 1, 20)),
        ("STRENGTH_FOR", (CHICKEN, 25, 0.01, 8, 20)),
        ("PROFILE", (CHICKEN, 25, 3, 5, 0.05, 20)),
        ("REST_HOURS", (CHICKEN, 25, 8, 0.5, 20)),
    ],
)
def test_hours_that_were_given_are_not_answered_with_thinner_pieces(name, cells):
    assert "thinner" not in why(name, *cells)
    assert "or for 4 h at most" in why(name, *cells)
    assert "thinner" in why("SOAK_HOURS", CHICKEN, 55, 0.01, 0.05, 20)


@pytest.mark.parametrize(("typed", "number"), [("3:1", "3"), ("1 : 2", "0.5"), ("2.5:1", "2.5")])
def test_a_bath_typed_as_a_ratio_is_told_the_number(typed, number):
    assert why("SOAK_HOURS", CHICKEN, 25, 0.01, 0.05, 4, typed).endswith(f"{number} for {typed}.")
    assert isinstance(call("SOAK_HOURS", CHICKEN, 25, 0.01, 0.05, 4, number), float)


def test_all_of_it_is_told_apart_from_one_per_cent():
    assert why("REST_HOURS", CHICKEN, 25, 4, 1).endswith(
        "1 by itself is all of it: write 1% or 0.01 for 1 per cent, and 50% for most of it."
    )
    said = why("SOAK_HOURS", CHICKEN, 38, 1, "6%")
    assert said.endswith("got 1, which is 100 %; 1 by itself is all of it: write 1% or 0.01 for 1 per cent.")
    assert why("EQUILIBRIUM_HOURS", CHICKEN, 38, 1).endswith("1 per cent, and 90% for most of it.")


@each(
    ("size", "told"),
    [("1900 mm", "that takes 118 years at"), ("400 mm", "that takes 5 years at"), ("60 mm", "that takes 43 days at"),
     ("10 mm", "that takes 28.7 h at")],
)  # fmt: skip
def test_a_long_time_is_told_in_days_or_years(size, told):
    """Each by the square of the thickness from the others."""
    assert told in why("EQUILIBRIUM_HOURS", "pork chop", size, "99%", "20 °C")


def test_hours_in_the_warm_are_refused_with_the_time_they_take():
    """The time rule of the US Food Code: 4 h in all above 5 °C / 41 °F (3-501.19, read as a state has it).

    The hours at 10 °C follow from those at 4 °C by Arrhenius' law with the 23 kJ/mol of the table of diffusivities.
    """
    cold = call("SOAK_HOURS", CHICKEN, 50, 0.01, 0.05, 4)
    warm = cold * math.exp(23000 / 8.314462618 * (1 / 283.15 - 1 / 277.15))
    for said, begins in (
        (why("SOAK_HOURS", CHICKEN, 50, 0.01, 0.05, 10), f"the soak would take {warm:.3g} h at 10 °C / 50 °F"),
        (why("UPTAKE", CHICKEN, 50, 9, 0.05, 10), "the soak takes 9 h at 10 °C / 50 °F"),
    ):
        assert "5 °C / 41 °F for 4 h at most" in said
        assert begins in said


WARM_CALLS = [
    ("SOAK_HOURS", ["0.5 in", "1%", "6%"]),
    ("UPTAKE", ["1 in", 1, "6%"]),
    ("STRENGTH_FOR", ["1 in", "1%", 2]),
    ("EQUILIBRIUM_HOURS", ["4 mm", "50%"]),
    ("REST_HOURS", [6, 0.5, "20%"]),
    ("PROFILE", ["1 in", 1, 1, "6%"]),
]


@each("product", ["chicken breast", "pork chop", "cod fillet", "peeled shrimp"])
@each(("name", "cells"), WARM_CALLS)
def test_raw_flesh_in_a_warm_brine_is_told(product: str, name: str, cells: list[object]) -> None:
    """60 °F: rules for smoked fish; 41 °F: Food Code 3-501.16, as in limits.csv."""
    said = why(name, product, *cells, "104 °F")
    for part in ("ok, but", product, "15.56 °C / 60 °F", "40 °C / 104 °F", "Rules for smoked fish", "chill"):
        assert part in said
    said = why(name, product, *cells, 15)
    for part in ("ok, but", product, "5 °C / 41 °F", "Food Code", "4 h"):
        assert part in said
    assert why(name, product, *cells, 5) == "ok"
    assert why(name, "cucumber", *cells, 40) == "ok"


def test_a_warm_bath_and_a_warm_log_are_told() -> None:
    assert why("BATH_STRENGTH", CHICKEN, "1 in", 1, "6%", 1, 40).startswith("ok, but chicken breast goes into no brine")
    log = [[0.1], [0.2]], [[0.0598], [0.0595]], CHICKEN, "0.5 in", "0.8%", "6%", 1, "hours"
    assert why("FORECAST", *log, 40).startswith("ok, but chicken breast goes into no brine")
    assert why("FORECAST", *log, 4) == "ok"


@each(
    ("name", "cells", "told"),
    [
        ("SOAK_HOURS", ("salmon fillet", 35, "3%", "10%"), [" 18.8 days", "14 days", "7 days", "salmon", "stronger"]),
        ("SOAK_HOURS", (CHICKEN, "30 cm", "1.2%", "6%"), ["chicken breast", "14 days", "judgement", "thinner"]),
        ("SOAK_HOURS", ("pork loin", "20 cm", "1.2%", "6%"), ["pork loin", "7 days", "Food Code", "3-501.17", "cure"]),
        ("SOAK_HOURS", ("salmon fillet", 35, "8%", "26%"), []),  # 11 % of its water: salted for keeping, as limits.csv
        ("SOAK_HOURS", ("cucumber", "30 cm", "1.2%", "6%"), []),
        ("EQUILIBRIUM_HOURS", (CHICKEN, 60, "99%"), ["46.4 days", "14 days", "earlier"]),
        ("EQUILIBRIUM_HOURS", ("mozzarella", 80, "99%"), []),  # cheese is kept in its brine
        ("EQUILIBRIUM_HOURS", ("hard-boiled egg", 80, "99%"), ["hard-boiled egg", "7 days"]),
        ("REST_HOURS", ("salmon fillet", 35, 100, "90%"), ["45 days", "14 days", "rest it less"]),
        ("REST_HOURS", (CHICKEN, 15, 5, "50%"), []),
        ("REST_HOURS", (CHICKEN, 10, 167, "50%"), []),
        ("REST_HOURS", (CHICKEN, 10, 169, "50%"), ["7.04 days", "rest it less"]),
    ],
)
def test_more_days_than_it_keeps_are_told(name: str, cells: tuple[object, ...], told: list[str]) -> None:
    """Seven days: Food Code 3-501.17; fourteen for raw poultry and fish in brine: a judgement of limits.csv."""
    answer = call(name, *cells)
    assert isinstance(answer, float)
    said = why(name, *cells)
    assert said == "ok" if not told else said.startswith("ok, but ")
    assert all(part in said for part in told), said
    total = answer + (cells[2] if name == "REST_HOURS" else 0)
    assert ("14 days" in said) is (bool(told) and total > 336 and cells[0] in (CHICKEN, "salmon fillet"))
