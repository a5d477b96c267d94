"""Worksheet functions of soaking and resting: published figures, inverses, treatments, refusals and their reasons."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from brinecalc import registry
from brinecalc.registry import call, why
from brinecalc.trade import pieces, products, soaks

FAMILY = [
    "SOAK_HOURS",
    "UPTAKE",
    "STRENGTH_FOR",
    "EQUILIBRIUM_HOURS",
    "BATH_STRENGTH",
    "RESCALE_HOURS",
    "REST_HOURS",
    "PROFILE",
    "FORECAST",
]
CHICKEN = "chicken breast"


def test_the_family_is_complete():
    names = [name for name in registry.names() if registry.spec(name).family == "Time"]
    assert names == [f"BRINE_{name}" for name in FAMILY]


@pytest.mark.parametrize(
    ("millimetres", "fifth", "half", "most"),
    [
        (10, 0.5, 3.4, 14.7),
        (20, 2.2, 13.7, 58.9),
        (25.4, 3.5, 22.0, 95),
        (38, 7.9, 49.3, 213),
        (50, 13.6, 85, 368),
        (75, 30.7, 192, 828),
        (100, 54.5, 342, 1472),
    ],
)
def test_time_table_of_a_slab(millimetres, fifth, half, most):
    """Table for a slab salted from both faces, 4e-10 m2/s (chicken breast, typical, 4 °C), large bath, in hours."""
    for closeness, hours in ((0.2, fifth), (0.5, half), (0.9, most)):
        found = call("EQUILIBRIUM_HOURS", CHICKEN, float(millimetres), closeness)
        assert found == pytest.approx(hours, abs=0.051 if hours < 60 else 0.51)


def test_worked_example_of_a_soak():
    """Chicken breast 38 mm, 6 % of the water, native 0.114 %, water 73.9 %, 4e-10, to 1.0 %: 8.28 h (series)."""
    assert call("SOAK_HOURS", CHICKEN, 38, "1%", "6%") == pytest.approx(8.28, abs=0.005)


@pytest.mark.parametrize(("hours", "share"), [(4, 0.0062), (5, 0.0069), (6, 0.0074)])
def test_customary_soak_of_a_thick_breast(hours, share):
    """Common practice, no source: 5 % brine for 4 to 6 h; 38 mm comes to 0.62, 0.69 and 0.74 %."""
    assert call("UPTAKE", CHICKEN, 38, hours, "5%") == pytest.approx(share, abs=6e-5)


@pytest.mark.parametrize(
    ("millimetres", "least", "most"), [(38, 0.0, 0.002), (25, 0.008, 0.071), (20, 0.05, 0.22), (15, 0.23, 0.545)]
)
def test_customary_rest_of_a_breast(millimetres, least, most):
    """Common practice, no source: 4 to 6 h in 5 % brine, then 2 to 4 h of rest. Centre over surface, in salt added,
    by the same series: only thin pieces are seasoned through; a thick one is not, and the customary rest leaves its
    surface at more than half of the bath's strength."""
    for soak in (4, 6):
        for rest in (2, 4):
            (_, surface), (_, centre) = call("PROFILE", CHICKEN, millimetres, soak, rest, "5%", "", "", 2)
            native = products.find(CHICKEN).native_salt
            assert least <= (centre - native) / (surface - native) <= most
            assert 0.4 < (surface - native) / (0.739 * 0.05 - native) < 0.7


def test_equilibrium_for_the_kitchens_two_to_one():
    """Chicken breast 2000 g, water 1000 g, salt 45 g: it ends at 1.41 %, where the balance in water phase ends."""
    phase = call("EQUILIBRIUM_RESULT", 2000, 1000, 45, 0.00114, "water phase", 0.739)
    strength, bath = 45 / 1000, 1000 / 2000
    assert call("UPTAKE", CHICKEN, 20, 5000, strength, 4, bath) == pytest.approx(0.739 * phase / (1 - phase), rel=1e-9)
    last = call("BATH_STRENGTH", CHICKEN, 20, 5000, strength, bath)
    assert last == pytest.approx(phase / (1 - phase), rel=1e-9)
    assert call("UPTAKE", CHICKEN, 20, 5000, strength, 4, bath) == pytest.approx(0.0141, abs=5e-5)


def test_the_meter_stands_at_the_target_when_equilibrium_is_near():
    """Common practice: equilibrium ends when the bath reads its target; at 99 % it is 1 % of its fall away."""
    hours = call("EQUILIBRIUM_HOURS", CHICKEN, 25, 0.99, 4, 1)
    reading = call("BATH_STRENGTH", CHICKEN, 25, hours, 0.05, 1)
    end = call("BATH_STRENGTH", CHICKEN, 25, 1e5, 0.05, 1)
    assert reading - end == pytest.approx(0.01 * (0.05 - end), rel=1e-9)


# the laws, over wide ranges

shapes = st.sampled_from([None, "slab", "one face", "cylinder", "sphere", "block"])
products_ = st.sampled_from(["chicken breast", "pork loin", "salmon fillet", "cucumber", "mozzarella", "whole turkey"])
treatments = st.sampled_from(["none", "thawed", "needled", "tumbled"])
estimates = st.sampled_from(["fast", "typical", "slow"])
lengths = st.floats(5.0, 120.0)
hours_ = st.floats(-1.0, 3.0).map(lambda x: 10.0**x)
strengths = st.floats(0.03, 0.3)
baths = st.one_of(st.just(math.inf), st.floats(0.2, 30.0))
temperatures = st.floats(0.5, 5.0)
quick = settings(max_examples=80, deadline=None)


@st.composite
def soaked_pieces(draw):
    shape, thickness = draw(shapes), draw(lengths)
    size = (thickness, thickness * 1.3, thickness * 2.5) if shape == "block" else thickness
    own = draw(st.none() | st.just(0.0))
    return pieces.piece(draw(products_), size, draw(temperatures), shape, draw(treatments), draw(estimates), own)


@quick
@given(soaked_pieces(), hours_, strengths, baths)
def test_each_inverse_undoes_its_forward_function(it, hours, strength, bath):
    """Law: to 1e-10, every shape, bath and treatment; past 99.9 % of uptake hours are no longer in the digits."""
    end = it.water * (strength if math.isinf(bath) else (bath * strength + it.native) / (bath + it.water))
    assume(end > 1.1 * it.native)
    salt = soaks.salt_after(it, hours, strength, bath)
    assume(salt < it.native + 0.999 * (end - it.native))
    assume(salt > it.native * 1.001 + 1e-5)  # closer to its native salt, what was added is itself lost in the digits
    assert soaks.hours_for(it, salt, strength, bath) == pytest.approx(hours, rel=1e-10)
    assert soaks.strength_for(it, salt, hours, bath) == pytest.approx(strength, rel=1e-10)


@quick
@given(soaked_pieces(), hours_, strengths, st.floats(0.2, 30.0), st.floats(0.0, 0.3))
def test_what_the_product_gains_the_bath_loses(it, hours, strength, bath, gain):
    """Law: ABSORBED(BATH_STRENGTH) = UPTAKE − native, the identity that the functions promise each other."""
    reading = soaks.bath_after(it, hours, strength, bath)
    salt = soaks.salt_after(it, hours, strength, bath)
    absorbed = call("ABSORBED", 1000.0, 1000.0 * bath, strength, reading)
    assume(isinstance(absorbed, float))  # a product saltier than the bath gives salt up
    assert absorbed == pytest.approx(salt - it.native, rel=1e-9, abs=1e-13)


@quick
@given(products_, lengths, st.sampled_from(["slab", "one face", "cylinder", "sphere"]), estimates, baths)
def test_doubling_the_thickness_takes_four_times_the_hours(product, thickness, shape, estimate, bath):
    """Law: exactly 4, for untreated and thawed pieces; soak, equilibrium and rest."""
    for treatment in ("none", "thawed"):
        thin, thick = (pieces.piece(product, thickness * k, 4.0, shape, treatment, estimate, 0.0) for k in (1.0, 2.0))
        target = 0.3 * soaks.salt_after(thin, 1e6, 0.05, bath)
        for ask in (
            lambda it, target=target: soaks.hours_for(it, target, 0.05, bath),
            lambda it: soaks.hours_to_closeness(it, 0.7, bath),
        ):
            assert ask(thick) == pytest.approx(4.0 * ask(thin), rel=1e-12)
        rest = soaks.rest_hours(thin, 3.0, 0.5, bath)
        assert soaks.rest_hours(thick, 12.0, 0.5, bath) == pytest.approx(4.0 * rest, rel=1e-12)


@quick
@given(soaked_pieces(), hours_, strengths, baths, st.floats(1.0001, 3.0))
def test_uptake_grows_with_time_strength_and_temperature(it, hours, strength, bath, more):
    """Law: to 1e-11, as near as a block in a small bath is known."""
    end = it.water * (strength if math.isinf(bath) else (bath * strength + it.native) / (bath + it.water))
    assume(end > it.native)
    salt = soaks.salt_after(it, hours, strength, bath)
    assert soaks.salt_after(it, hours * more, strength, bath) >= salt * (1.0 - 1e-11)
    assert soaks.salt_after(it, hours, min(strength * more, 0.35), bath) >= salt * (1.0 - 1e-11)


@pytest.mark.parametrize("celsius", [-1.0, 0.5, 2.0, 4.0])
def test_warmer_is_faster(celsius):
    colder = call("SOAK_HOURS", CHICKEN, 30, 0.01, 0.06, celsius)
    warmer = call("SOAK_HOURS", CHICKEN, 30, 0.01, 0.06, celsius + 1)
    assert warmer < colder
    assert colder == pytest.approx(call("RESCALE_HOURS", warmer, 30, 30, celsius + 1, celsius), rel=1e-12)


@settings(max_examples=30, deadline=None)
@given(soaked_pieces(), st.floats(0.5, 30.0), st.floats(0.0, 30.0), strengths, baths)
def test_profile_conserves_salt(it, soak, rest, strength, bath):
    """Law: the volume mean over depth is the uptake, by Simpson's rule on the table, once the brine is well inside."""
    assume(not isinstance(it.shape, tuple))
    assume(soak * it.rate > 0.01)
    table = soaks.profile(it, soak, rest, strength, bath, 201)
    dimension = {"cylinder": 2, "sphere": 3}.get(it.shape, 1)
    places = [1.0 - depth / it.length for depth, _ in table]
    values = [dimension * x ** (dimension - 1) * share for x, (_, share) in zip(places, table)]
    mean = (values[0] + values[-1] + 4.0 * sum(values[1:-1:2]) + 2.0 * sum(values[2:-1:2])) / 600.0
    assert mean == pytest.approx(soaks.salt_after(it, soak, strength, bath), rel=1e-4)
    assert table[0][0] == 0.0
    assert table[-1][0] == pytest.approx(it.length, rel=1e-12)


@quick
@given(soaked_pieces(), st.floats(0.5, 30.0), st.floats(0.05, 0.95), baths)
def test_rest_hours_agree_with_the_profile(it, soak, evenness, bath):
    """Law: centre over surface in the profile after that rest is the evenness asked for."""
    assume(not isinstance(it.shape, tuple) or math.isinf(bath))
    assume(it.native < 0.01)
    rest = soaks.rest_hours(it, soak, evenness, bath)
    (_, surface), (_, centre) = soaks.profile(it, soak, rest, 0.3, bath, 2)
    if rest > 0.0:
        assert (centre - it.native) / (surface - it.native) == pytest.approx(evenness, rel=1e-7)
    else:
        assert (centre - it.native) / (surface - it.native) >= evenness * (1.0 - 1e-9)


# desalting, treated goods, treatments


def test_freshening_salt_cod_in_plain_water():
    """Strength 0: salt leaves, the bath gains it, and a small bath stops short where both are even."""
    start = products.find("salt cod").native_salt
    after = [call("UPTAKE", "salt cod", 30, hours, 0, 4, 3) for hours in (1, 12, 48, 5000)]
    assert start > after[0] > after[1] > after[2] > after[3]
    water = products.find("salt cod").water
    assert after[3] == pytest.approx(water * start / (3 + water), rel=1e-9)
    hours = call("SOAK_HOURS", "salt cod", 30, after[1], 0, 4, 3)
    assert hours == pytest.approx(12, rel=1e-10)
    assert call("BATH_STRENGTH", "salt cod", 30, 12, 0, 3) == pytest.approx((start - after[1]) / 3, rel=1e-10)
    fresh = call("UPTAKE", "salt cod", 30, 12, 0)
    assert call("STRENGTH_FOR", "salt cod", 30, fresh, 12) == pytest.approx(0, abs=1e-12)


def test_a_treated_product_needs_less():
    """Its own salt instead of the table's; at its own level nothing is to be done."""
    assert call("SOAK_HOURS", CHICKEN, 30, "1%", "6%", "", "", "", "", "", "0.4%") < call(
        "SOAK_HOURS", CHICKEN, 30, "1%", "6%"
    )
    assert call("SOAK_HOURS", CHICKEN, 30, "0.4%", "6%", "", "", "", "", "", "0.4%") == 0
    assert call("SOAK_HOURS", CHICKEN, 30, 0.00114, "6%") == 0
    assert call("UPTAKE", CHICKEN, 30, 1e-6, "6%", "", "", "", "", "", 0.004) == pytest.approx(0.004, rel=1e-3)


def test_treatments_as_they_are_defined():
    """Thawed: 1.3 times as fast (published). Needled: way in at most 5, 10, 15 mm (judgement). Tumbled: 0.05, 0.1, 0.3
    of the hours (common practice)."""

    def hours(treatment, estimate, thickness=60, target=0.01):
        return call("SOAK_HOURS", CHICKEN, thickness, target, 0.06, 4, "", "", treatment, estimate)

    assert hours("thawed", "typical") == pytest.approx(hours("none", "typical") / 1.3, rel=1e-12)
    for estimate, path, factor in (("fast", 5, 0.05), ("typical", 10, 0.1), ("slow", 15, 0.3)):
        assert hours("needled", estimate) == pytest.approx(hours("none", estimate, 2 * path), rel=1e-12)
        assert hours("needled", estimate, path) == hours("none", estimate, path)  # thinner than the needles' way
        assert hours("tumbled", estimate) == pytest.approx(factor * hours("none", estimate), rel=1e-12)
    assert hours("tumbled", "typical", 20) < 1.0  # vacuum tumbling: minutes where a soak takes hours (common practice)
    tumbled = call("UPTAKE", CHICKEN, 40, 1, 0.06, 4, "", "", "tumbled")
    assert tumbled == pytest.approx(call("UPTAKE", CHICKEN, 40, 10, 0.06), rel=1e-12)


def test_thawed_never_beats_free_water():
    """1.3 times the fast value of peeled cucumber would: 1.04e-9 against 8.5e-10 at 4 °C."""
    found = pieces.piece("peeled cucumber", 10.0, 4.0, None, "thawed", "fast")
    assert found.diffusivity == pytest.approx(8.5e-10, rel=1e-12)


def test_injected_pieces_only_rest():
    for name, cells in (
        ("SOAK_HOURS", (CHICKEN, 38, 0.01, 0.06, 4, "", "", "injected")),
        ("UPTAKE", (CHICKEN, 38, 5, 0.06, 4, "", "", "injected")),
        ("STRENGTH_FOR", (CHICKEN, 38, 0.01, 5, 4, "", "", "injected")),
        ("EQUILIBRIUM_HOURS", (CHICKEN, 38, 0.5, 4, "", "", "injected")),
        ("BATH_STRENGTH", (CHICKEN, 38, 5, 0.06, 1, 4, "", "injected")),
        ("PROFILE", (CHICKEN, 38, 5, 1, 0.06, 4, "", "", "", "injected")),
    ):
        assert call(name, *cells) == "#NUM!", name
        assert "BRINE_INJECTION_STRENGTH" in why(name, *cells)
    injected = call("REST_HOURS", CHICKEN, 60, 1, 0.5, 4, "", "injected")
    assert injected == call("REST_HOURS", CHICKEN, 60, 1, 0.5, 4, "", "needled")
    assert injected == call("REST_HOURS", CHICKEN, 20, 1, 0.5)  # as a slab of twice the 10 mm way


def test_shapes_and_sizes():
    """The shape left out is the product's own; three edges are a block; one face is twice the thickness of a slab."""
    assert call("SOAK_HOURS", "pork loin", 80, 0.008, 0.06) == call(
        "SOAK_HOURS", "pork loin", 80, 0.008, 0.06, 4, "", "cylinder"
    )
    slab = call("SOAK_HOURS", "salmon fillet", 40, 0.01, 0.06, "", "", "slab")
    assert call("SOAK_HOURS", "salmon fillet", 20, 0.01, 0.06) == pytest.approx(slab, rel=1e-12)
    block = call("SOAK_HOURS", CHICKEN, "150 x 60 x 40 mm", 0.01, 0.06)
    assert block == call("SOAK_HOURS", CHICKEN, "150 x 60 x 40 mm", 0.01, 0.06, 4, "large", "block")
    assert block < call("SOAK_HOURS", CHICKEN, 40, 0.01, 0.06)
    small = call("SOAK_HOURS", CHICKEN, "15 x 6 x 4 cm", 0.01, 0.06, 4, 2)
    assert small > block
    assert call("UPTAKE", CHICKEN, "15 x 6 x 4 cm", small, 0.06, 4, 2) == pytest.approx(0.01, rel=1e-10)


def test_ranges_and_units_of_the_arguments():
    assert call("SOAK_HOURS", "Chicken Breasts", "1 1/2 in", "1%", "6%", "38 °F") == pytest.approx(
        call("SOAK_HOURS", CHICKEN, 38.1, 0.01, 0.06, (38 - 32) / 1.8), rel=1e-12
    )
    column = call("UPTAKE", CHICKEN, 38, [["240 min"], [5], [6.0]], "5%")
    assert column == [[call("UPTAKE", CHICKEN, 38, hours, 0.05)] for hours in (4, 5, 6)]
    assert call("SOAK_HOURS", CHICKEN, 38, "1%", "6%", "", "", "", "", "fast") < call(
        "SOAK_HOURS", CHICKEN, 38, "1%", "6%", "", "", "", "", "slow"
    )
    assert call("RESCALE_HOURS", 12, 40, 60) == 27
    assert call("RESCALE_HOURS", "12 h", "4 cm", "6 cm", 4, 4) == pytest.approx(27, rel=1e-12)


@pytest.mark.parametrize(
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
        ("SOAK_HOURS", ("salt cod", 30, "5%", 0, 0), "#NUM!", ["temperature", "0.00 °C", "freeze"]),
        ("SOAK_HOURS", (CHICKEN, 38, "1%", "6%", 60), "#NUM!", ["temperature", "40 °C"]),
        ("SOAK_HOURS", (CHICKEN, 38, "1%", "6%", 8), "#NUM!", ["above 5 °C", "4 h", "BRINE_INJECTION_STRENGTH"]),
        ("UPTAKE", (CHICKEN, 38, 4.5, "6%", "42 °F"), "#NUM!", ["above 5 °C", "4.5 h"]),
        ("STRENGTH_FOR", (CHICKEN, 38, "1%", 5, 6), "#NUM!", ["above 5 °C"]),
        ("EQUILIBRIUM_HOURS", (CHICKEN, 38, 0.9, 6), "#NUM!", ["above 5 °C"]),
        ("BATH_STRENGTH", (CHICKEN, 38, 5, "6%", 1, 6), "#NUM!", ["above 5 °C"]),
        ("REST_HOURS", (CHICKEN, 10, 3, 0.9, 6), "#NUM!", ["above 5 °C", "soak and rest"]),
        ("PROFILE", (CHICKEN, 10, 3, 2, "6%", 6), "#NUM!", ["above 5 °C"]),
        ("SOAK_HOURS", ("cucumber", 38, "1%", "6%", 20), "ok", []),  # nothing perishable
        ("UPTAKE", (CHICKEN, 38, 4, "6%", 8), "ok", []),
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
        ("RESCALE_HOURS", (12, 40, 0), "#NUM!", ["to_thickness"]),
        ("UPTAKE", ("#REF!", 38, 5, "5%"), "#REF!", ["#REF!"]),
    ],
)
def test_refusals_say_what_to_do(name, cells, error, words):
    answer, reason = call(name, *cells), why(name, *cells)
    if error == "ok":
        assert isinstance(answer, float)
        assert reason == "ok"
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


def test_help_says_what_is_taken_for_granted():
    text = " ".join(registry.spec("SOAK_HOURS").notes.split())
    for words in ("still water", "whole bird", "bone", "four times", "weight gain"):
        assert words in text
    for name in ("UPTAKE", "STRENGTH_FOR", "PROFILE"):
        assert "Water is taken not to move" in registry.spec(name).notes
    treatment = next(a for a in registry.spec("SOAK_HOURS").arguments if a.name == "treatment")
    for words in ("published", "judgement", "common practice"):
        assert words in treatment.meaning


@pytest.mark.parametrize(
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
    assert why("REST_HOURS", CHICKEN, 25, 4, 1).endswith("write 1% for 1 per cent, or less than 100 %, such as 50%.")


def test_hours_in_the_warm_are_refused_with_the_time_they_take():
    """The time rule of the US Food Code: 4 h in all above 5 °C / 41 °F (from memory, as the table of limits says).

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
