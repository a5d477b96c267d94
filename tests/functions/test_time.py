"""Worksheet functions of soaking and resting: published figures, inverses and treatments."""

from __future__ import annotations

import math

import pytest
from each import each
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from brinecalc import registry
from brinecalc.registry import call, why
from brinecalc.science import solution
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


@each(
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
@given(soaked_pieces(), st.just(0.0) | st.floats(-14.0, 2.0).map(lambda x: 10.0**x), st.booleans(), baths)
def test_what_the_weakest_and_the_strongest_brine_leave_is_itself_a_target(it, hours, strong, bath):
    """Law: also with the 15 digits of a cell, and after a trillionth of an hour, which adds next to nothing."""
    strongest = solution.strongest("water", it.celsius)
    salt = float(f"{soaks.salt_after(it, hours, strongest if strong else 0.0, bath):.15g}")
    strength = soaks.strength_for(it, salt, hours, bath)
    assert 0.0 <= strength <= strongest
    assert soaks.salt_after(it, hours, strength, bath) == pytest.approx(salt, rel=4e-12)


@quick
@given(soaked_pieces(), hours_, strengths, st.floats(0.2, 30.0), st.floats(0.0, 0.3))
def test_what_the_product_gains_the_bath_loses(it, hours, strength, bath, gain):
    """Law: ABSORBED(BATH_STRENGTH) = UPTAKE − native, the identity that the functions promise each other."""
    reading = soaks.bath_after(it, hours, strength, bath)
    salt = soaks.salt_after(it, hours, strength, bath)
    absorbed = call("ABSORBED", 1000.0, 1000.0 * bath, strength, reading)
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
    for edge in ("1.375", "1 3/8", "1-3/8", "1⅜"):  # inches, as the last edge says
        assert call("SOAK_HOURS", CHICKEN, f"6 x {edge} x 3 in", 0.01, 0.06) == pytest.approx(
            call("SOAK_HOURS", CHICKEN, "152.4 x 34.925 x 76.2 mm", 0.01, 0.06)
        )
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


def test_help_says_what_is_taken_for_granted():
    text = " ".join(registry.spec("SOAK_HOURS").notes.split())
    for words in ("still water", "whole bird", "bone", "four times", "weight gain"):
        assert words in text
    for name in ("UPTAKE", "STRENGTH_FOR", "PROFILE"):
        assert "Water is taken not to move" in registry.spec(name).notes
    treatment = next(a for a in registry.spec("SOAK_HOURS").arguments if a.name == "treatment")
    for words in ("published", "judgement", "common practice"):
        assert words in treatment.meaning
