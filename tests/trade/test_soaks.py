"""What a soak, its piece or its log is refused for, and the way out.

The figures are the limits of the rules named (FDA Food Code 3-501.16), or follow by hand from the numbers in the call.
"""

from __future__ import annotations

import math

import pytest
from each import each

from brinecalc.errors import Impossible, OutOfRange, Refused, UnknownName, Unreadable
from brinecalc.science import solution
from brinecalc.tables import load
from brinecalc.trade import forecasts, pieces, soaks, treatments
from tests.refusals import Refusal, check


def breast(celsius=4.0, treatment="none", product="chicken breast"):
    return pieces.piece(product, 25.0, celsius, None, treatment)


def forecast(hours, readings, **more):
    given = {"celsius": 4.0, "target": 0.012, "strength": 0.05, "bath": 2.0, **more}
    return forecasts.forecast_for(
        "chicken breast", 25.0, given["celsius"], None, "none", None, hours, readings, given["target"],
        given["strength"], given["bath"],
    )  # fmt: skip


REFUSALS = {
    "a block in one length": Refusal(
        lambda: pieces.piece("chicken breast", 25.0, shape="block"), Unreadable, "thickness", None,
        ("the three edges of a block", '"150 x 60 x 40 mm"'),
    ),
    "a slab in three": Refusal(
        lambda: pieces.piece("chicken breast", (25.0, 30.0, 40.0), shape="slab"), Unreadable, "thickness", None,
        ("a single length for the shape slab", 'or the shape "block"'),
    ),
    "frozen product": Refusal(
        lambda: breast(-2.5), OutOfRange, "temperature", "-2.5 °C / 27.5 °F",
        ("at least -2 °C / 28.4 °F", "product itself freezes"), -2.0
    ),
    "injected": Refusal(
        lambda: soaks.hours_for(breast(treatment="injected"), 0.01, 0.05, math.inf), Impossible, "treatment", None,
        ('cannot be "injected" here', "BRINE_INJECTION_STRENGTH", "BRINE_REST_HOURS", 'write "needled"', "native_salt"),
    ),
    "a frozen bath": Refusal(  # 1 % of the water freezes near -0.58 °C (table nacl_freezing)
        lambda: soaks.salt_after(breast(-1.0), 2.0, 0.01, math.inf), OutOfRange, "temperature", "-1 °C / 30.2 °F",
        ("above -0.58 °C / 30.95 °F", "begins to freeze", "1 to 4 °C / 34 to 39 °F"), -0.5842,
    ),
    "warm for long": Refusal(  # FDA Food Code 3-501.16, four hours
        lambda: soaks.salt_after(breast(12.0), 5.0, 0.05, math.inf), Refused, None, None,
        ("the soak takes 5 h at 12 °C / 53.6 °F", "chicken breast", "above 5 °C / 41 °F for 4 h at most",
         "5 °C / 41 °F or colder"), 4.0,
    ),
    "warm for a target": Refusal(
        lambda: soaks.hours_for(breast(12.0), 0.03, 0.05, math.inf), Refused, None, None,
        ("the soak would take", "above 5 °C / 41 °F for 4 h at most",
         "or colder, or in thinner pieces, or inject (BRINE_INJECTION_STRENGTH)."), 4.0,
    ),
    "a warm bath": Refusal(
        lambda: soaks.bath_after(breast(12.0), 5.0, 0.05, 2.0), Refused, None, None, ("the soak takes 5 h",), 4.0
    ),
    "a warm soak and rest": Refusal(
        lambda: soaks.profile(breast(12.0), 2.0, 3.0, 0.05, math.inf, 3), Refused, None, None,
        ("soak and rest take 5 h",), 4.0,
    ),
    "more than a brine ends at": Refusal(  # w·s = 0.739 × 0.05
        lambda: soaks.hours_for(breast(), 0.05, 0.05, math.inf), Impossible, "target", "5 %",
        ("towards 3.695 %", "stronger brine or a larger bath, or aim lower"), 0.03695,
    ),
    "less than is there already": Refusal(
        lambda: soaks.hours_for(breast(), 0.0005, 0.05, math.inf), Impossible, "target", "0.05 %",
        ("a brine only adds salt", "freshen in plain water (strength 0)"), 0.00114,
    ),
    "salt from plain water": Refusal(
        lambda: soaks.hours_for(breast(), 0.01, 0.0, math.inf), Impossible, "target", "1 %",
        ("this bath only takes salt out", "stronger brine"), 0.00114,
    ),
    "fresher than a small bath makes it": Refusal(
        lambda: soaks.hours_for(pieces.piece("salt cod", 25.0), 0.001, 0.0, 0.5), Impossible, "target", "0.1 %",
        ("weaker or larger bath, or aim higher",), soaks.soaking.average(
            pieces.piece("salt cod", 25.0).water, 0.0,
            pieces.piece("salt cod", 25.0).native / (pieces.piece("salt cod", 25.0).water + 0.5), 1.0,
        ),
    ),
    "no such treatment": Refusal(
        lambda: treatments.treatment("sung to"), UnknownName, "treatment", '"sung to"',
        (", ".join(made["name"] for made in load.rows("treatments")),),
    ),
    "one reading": Refusal(
        lambda: forecast((1.0,), (0.04,)), OutOfRange, "readings", "1", ("at least two readings",)
    ),
    "too many readings": Refusal(
        lambda: forecast(tuple(range(1, 102)), (0.04,) * 101), OutOfRange, "readings", "101", ("at most 100 readings",)
    ),
    "out of order": Refusal(
        lambda: forecast((1.0, 3.0, 3.0), (0.04, 0.04, 0.04)), OutOfRange, "hours", None,
        ("must rise from reading to reading", "in order of time"),
    ),
    "a warm log": Refusal(
        lambda: forecast((1.0, 5.0), (0.04, 0.04), celsius=12.0), Refused, None, None, ("the log runs 5 h",), 4.0
    ),
    "readings of another bath": Refusal(
        lambda: forecast((1.0, 2.0), (0.3, 0.3)), OutOfRange, "readings", "30 %",
        ("cannot come from this soak", "shares of the water (BRINE_METER gives them)"),
    ),
    "a finish left open": Refusal(
        lambda: forecasts.part_of(
            forecasts.Forecast(3.0, 2.0, math.inf, 4e-10, 0.0, 0), "slow", breast(), 2.0
        ), Impossible, None, None, ("open whether this bath ever gets there", "another reading", "BRINE_TOP_UP"),
    ),
    "a warm finish": Refusal(
        lambda: forecasts.part_of(
            forecasts.Forecast(3.0, 2.5, 3.5, 4e-10, 0.0, 0), "hours", breast(12.0), 2.0
        ), Refused, None, None, ("the soak would take 5 h",), 4.0,
    ),
    "a bath as salt as the product": Refusal(
        lambda: soaks.hours_for(breast(), 0.01, breast().native_strength, breast().water), Impossible,
        "target", "1 %", (), 0.00114
    ),
    "readings of a bath that loses too much": Refusal(
        lambda: forecast((1.0, 2.0, 4.0), (0.2, 0.18, 0.155)), OutOfRange, "readings", "15.5 %",
        ("cannot come from this soak",),
    ),
    "a cold soak of no time": Refusal(
        lambda: soaks.strength_for(breast(), 0.01, 0.0, 2.0), Impossible, "target", "1 %",
        ("cannot be reached in 0 h", "even a saturated brine leaves the average at 0.11 %"), 0.00114,
    ),
    "warm for a given time": Refusal(
        lambda: soaks.strength_for(breast(10.0), 0.01, 9.0, 2.0), Refused, None, None,
        ("the soak takes 9 h at 10 °C", "for 4 h at most"), 4.0,
    ),
}  # fmt: skip


def test_the_table_of_limits_says_how_warm_and_how_long(monkeypatch):
    """A row that is lowered holds at once for what is refused, as it does for what is found."""
    strict = {"brine temperature": 3.0, "warm hours": 2.0}
    monkeypatch.setattr(pieces.limits, "value", lambda name: strict[name])
    pieces.on_the_clock.cache_clear()
    try:
        with pytest.raises(Refused, match=r"above 3 °C / 37\.4 °F for 2 h at most"):
            pieces.check_warm(breast(3.5), 2.5, "the soak takes")
        pieces.check_warm(breast(3.0), 2.5, "the soak takes")
        pieces.check_warm(breast(3.5), 2.0, "the soak takes")
    finally:
        pieces.on_the_clock.cache_clear()


@each("name", REFUSALS)
def test_a_refusal_says_all_a_cook_needs(name):
    check(REFUSALS[name])


def test_the_strongest_brine_for_a_soak_is_the_one_that_dissolves_at_its_own_temperature():
    """At 0 °C water dissolves a little less than at 1 °C; what that leaves follows from the soak itself."""
    it = breast(0.0)
    most = soaks.salt_after(it, 5.0, solution.strongest("water", 0.0), math.inf)
    with pytest.raises(Impossible) as caught:
        soaks.strength_for(it, 0.3, 5.0, math.inf)
    assert caught.value.nearest == pytest.approx(most, rel=1e-9)


def test_a_log_whose_slow_end_is_open_still_has_its_middle_and_its_fast_end():
    """Readings 3 % below what uptake leaves: the bath may be thinned, and a thinned one ends below this target."""
    hours = (2.0, 4.0)
    readings = tuple(0.97 * soaks.bath_after(breast(), hour, 0.05, 0.5) for hour in hours)
    made = forecast(hours, readings, target=0.0155, bath=0.5)
    assert made.slow == math.inf
    assert 0.0 < made.fast < made.hours < math.inf


@each("thickness", [12.0, 15.0, 18.0, 21.0, 25.4])
def test_exactly_the_hours_that_may_be_spent_in_the_warm_pass_there_and_back(thickness):
    it = pieces.piece("chicken breast", thickness, 7.0)
    _, most = pieces.on_the_clock()
    strength = soaks.strength_for(it, 0.004, most, 1.0)
    assert soaks.hours_for(it, 0.004, strength, 1.0) == pytest.approx(most)


def test_where_only_slow_salt_takes_too_long_the_sentence_says_so():
    typical, slow = (pieces.piece("chicken breast", 25.4, 7.0, estimate=word) for word in ("typical", "slow"))
    strength = soaks.strength_for(typical, 0.008, 3.0, 1.0)
    with pytest.raises(Refused) as told:
        soaks.hours_for(slow, 0.008, strength, 1.0)
    hours = 3.0 * typical.rate / slow.rate
    assert str(told.value).startswith(f"if salt goes in slowly, the soak would take {hours:.3g} h")
    with pytest.raises(Refused) as told:  # these hours are given, whatever the salt does
        soaks.salt_after(slow, 5.0, 0.05, 1.0)
    assert str(told.value).startswith("the soak takes 5 h")
