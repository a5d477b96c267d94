"""The soak chart agrees with the worksheet functions and leaves no product out."""

from __future__ import annotations

import math

import pytest
from each import each

from brinecalc.registry import call
from brinecalc.tables import load
from brinecalc.trade import groups, limits, products, soak_chart


@pytest.fixture(scope="module")
def chart():
    return soak_chart.rows()


BIG_BREASTS = ("turkey breast", "bone-in turkey breast", "whole turkey")
"""Birds whose breast is up to 90 mm deep: common practice, no source."""


def test_every_product_has_its_thicknesses_and_three_strengths(chart):
    plans = {row["group"]: row for row in load.rows("groups")}
    for name in products.names().names:
        product = products.find(name)
        mine = [row for row in chart if row.product == name]
        thicknesses = {row.thickness for row in mine}
        assert thicknesses <= {float(each) for each in plans[product.group]["thicknesses"]}
        assert len(thicknesses) >= 3
        assert len({row.strength for row in mine}) == 3
        assert len(mine) == 3 * len(thicknesses)


def test_no_thickness_is_shown_that_no_piece_has(chart):
    """As the table of sizes says; a wing is no 50 mm, and whoever types that is asked about the shape of the piece."""
    thickest = {row["product"]: row["thickest"] for row in load.rows("sizes") if row["thickest"]}
    for name, most in thickest.items():
        assert max(row.thickness for row in chart if row.product == name) <= most
    assert thickest["chicken wing"] <= 25
    assert {max(each.thickness for each in chart if each.product == name) for name in BIG_BREASTS} == {90}
    assert max(row.thickness for row in chart if row.product == "whole chicken") == 50


def test_hours_beyond_what_raw_food_keeps_are_told_as_are_those_beyond_the_custom(chart):
    """Seven days at 5 °C are the US Food Code's for perishable food (3-501, read as states have it)."""
    raw = groups.FLESH
    seen = set()
    for row in (row for row in chart if row.rest is not None):
        cap = products.find(row.product).cap_hours
        long, stale = cap is not None and row.soak > cap, row.group in raw and row.soak + row.rest > 168.0
        assert ("customary" in row.note) is long
        assert ("longer than it keeps" in row.note) is stale
        assert row.note.startswith("longer than ") or not (long or stale)
        seen.add((long, stale))
    assert seen == {(False, False), (True, False), (False, True), (True, True)}


def test_hours_are_those_of_the_functions(chart):
    """Every fortieth row against BRINE_SOAK_HOURS and BRINE_REST_HOURS, all three estimates."""
    for row in [row for row in chart if row.soak is not None][::40]:
        for estimate, soak, rest in (
            ("fast", row.soak_fast, row.rest_fast),
            ("typical", row.soak, row.rest),
            ("slow", row.soak_slow, row.rest_slow),
        ):
            asked = call("SOAK_HOURS", row.product, row.thickness, row.target, row.strength, 4, "", "", "", estimate)
            assert soak == pytest.approx(asked, rel=1e-12)
            asked = call("REST_HOURS", row.product, row.thickness, soak, soak_chart.EVENNESS, 4, "", "", estimate)
            assert rest == pytest.approx(asked, rel=1e-9, abs=1e-12)


def test_fast_typical_and_slow_are_in_order_and_stronger_is_sooner(chart):
    done = [row for row in chart if row.soak is not None]
    assert len(done) > 0.8 * len(chart)
    for row in done:
        assert 0.0 < row.soak_fast <= row.soak <= row.soak_slow
        assert 0.0 <= row.rest_fast <= row.rest <= row.rest_slow
    for first, second in zip(done, done[1:]):
        if (first.product, first.thickness) == (second.product, second.thickness):
            assert second.strength > first.strength
            assert second.soak < first.soak


def test_rows_that_cannot_be_say_why(chart):
    salty = [row for row in chart if row.product == "treated shrimp"]
    assert salty
    assert all(row.soak is None and "already as salty" in row.note for row in salty)
    small = soak_chart.rows(["chicken breast"], bath=0.1)
    assert all(row.soak is None and "this bath ends at" in row.note for row in small)
    frozen = soak_chart.rows(["chicken breast"], celsius=-9.0)
    assert all(row.soak is None and "freeze" in row.note for row in frozen)
    warm = soak_chart.rows(["chicken breast"], celsius=10.0)
    assert any("above 5 °C" in row.note for row in warm)
    thick = next(row for row in chart if row.product == "chicken breast" and row.thickness == 50)
    assert thick.soak > 8
    assert "customary 8 h" in thick.note


def test_one_target_for_all_and_a_small_bath():
    rows = soak_chart.rows(["pork loin", "cod fillet"], bath=1.0, target=0.012)
    assert {row.target for row in rows} == {0.012}
    large = soak_chart.rows(["pork loin", "cod fillet"], bath=math.inf, target=0.012)
    for small, big in zip(rows, large):
        if small.soak is not None:
            assert small.soak > big.soak


@each(("hours", "text"), [(0.724, "0.72"), (8.26, "8.3"), (9.96, "10"), (41.4, "41"), (1149.0, "1100"), (3.0, "3")])
def test_hours_are_shown_to_two_digits(hours, text):
    assert soak_chart.shown(hours) == text


def test_a_warm_bath_shows_the_soaks_that_are_short_enough_and_no_rest():
    """The time rule of the US Food Code: 4 h in all above 5 °C / 41 °F (3-501, read as states have it)."""
    warm = soak_chart.rows(["chicken breast", "peeled shrimp", "monkfish tail"], 10.0)
    short = [row for row in warm if row.soak is not None]
    assert 0 < len(short) < len(warm)
    assert {row.rest is None for row in short} == {True, False}
    for row in warm:
        hours = call("SOAK_HOURS", row.product, row.thickness, row.target, row.strength, 10)
        if row.soak is None:
            assert not isinstance(hours, float) or hours > 4.0
            assert row.note.startswith("more than 4 h above 5 °C")
        else:
            assert row.soak == pytest.approx(hours, rel=1e-12)
            assert row.soak <= 4.0
            cold = call("SOAK_HOURS", row.product, row.thickness, row.target, row.strength, 4, "", "", "", "slow")
            rest = call("REST_HOURS", row.product, row.thickness, cold, soak_chart.EVENNESS, 4, "", "", "slow")
            in_all = (cold + rest) * row.soak_slow / cold  # what is slow, in a warm bath and a warm rest
            assert (row.rest is None) == (in_all > 4.0)
            told = "at most 4 h above 5 °C, all told: rest it colder"
            assert (row.note == told) == (row.rest is None)


def test_a_bath_too_small_is_told_where_it_ends():
    """By hand: a tenth of the product's weight of brine, shared between that brine and the product's own water."""
    product = products.find("chicken breast")
    for row in soak_chart.rows(["chicken breast"], bath=0.1):
        end = (0.1 * row.strength + product.native_salt) / (0.1 + product.water)
        assert f"ends at {100 * product.water * end:.2g} %" in row.note


def test_hours_in_a_small_bath_are_those_of_the_function():
    rows = [row for row in soak_chart.rows(["pork loin"], bath=1.0, target=0.012) if row.soak is not None]
    assert rows
    for row in rows:
        hours = call("BRINE_SOAK_HOURS", "pork loin", row.thickness, 0.012, row.strength, 4, 1.0)
        assert row.soak == pytest.approx(hours, rel=1e-9)


def test_strengths_are_those_of_the_group_and_limits_are_still_allowed():
    rows = soak_chart.rows(["pork loin"])
    assert {f"{100 * row.strength:.12g}" for row in rows} == set(groups.row("pork")["strengths"])
    assert not any("above" in row.note for row in soak_chart.rows(["pork loin"], celsius=5.0))
    start = limits.value("brine start temperature")
    assert not any("far above" in row.note for row in soak_chart.rows(["pork loin"], celsius=start))
    assert all("far above" in row.note for row in soak_chart.rows(["pork loin"], celsius=start + 0.1))
    native = products.find("pork loin").native_salt
    assert all("already as salty" in row.note for row in soak_chart.rows(["pork loin"], target=native))


def test_a_block_twice_as_large_takes_four_times_as_long():
    """Diffusion goes with the square of the size, all edges alike."""
    small, large = (
        call("SOAK_HOURS", "pork loin", edges, 0.01, 0.06, 4) for edges in ("70 x 50 x 30 mm", "140 x 100 x 60 mm")
    )
    assert large == pytest.approx(4.0 * small, rel=1e-9)
