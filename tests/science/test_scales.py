"""The scales of strength against the salometer table, CRC rows and arithmetic, and against each other."""

from __future__ import annotations

from itertools import product

import periodictable
import pytest
from each import each
from hypothesis import given, settings
from hypothesis import strategies as st

from brinecalc.errors import OutOfRange
from brinecalc.science import scales, solution
from tests.published import rows

SALOMETER = rows("nacl_salometer")
PAIRS = [pair for pair in product(scales.SCALES, scales.SCALES) if pair[0] != pair[1]]


@each("row", SALOMETER)
def test_salometer_degrees_convert_as_in_the_salometer_table(row):
    """Salometer table computed from the Kaufmann/CRC densities with other code; to its own decimals."""

    def on(scale):
        return scales.convert(row["degrees"], "salometer", scale)

    assert 100 * on("solution") == pytest.approx(row["percent"], abs=0.0006)
    assert on("sg") == pytest.approx(row["sg"], abs=0.00006)
    assert on("baume") == pytest.approx(row["baume"], abs=0.006)
    assert on("lb/gal brine") == pytest.approx(row["lb_per_gal_brine"], abs=0.0006)
    assert on("lb/gal water") == pytest.approx(row["lb_per_gal_water"], abs=0.0006)


@pytest.mark.parametrize(
    ("degrees", "percent", "sg", "baume", "pounds"),
    [(20, 5.279, 1.038, 5.3, 0.456), (40, 10.558, 1.078, 10.5, 0.947), (100, 26.395, 1.204, 24.6, 2.647)],
)
def test_salometer_degrees_convert_as_in_the_classic_table(degrees, percent, sg, baume, pounds):
    """The trade's salometer table at 60 °F, from memory."""
    assert 100 * scales.convert(degrees, "salometer", "solution") == pytest.approx(percent, abs=0.001)
    assert scales.convert(degrees, "salometer", "sg") == pytest.approx(sg, abs=0.0006)
    assert scales.convert(degrees, "salometer", "baume") == pytest.approx(baume, abs=0.1)
    assert scales.convert(degrees, "salometer", "lb/gal brine") == pytest.approx(pounds, abs=0.004)


@each("row", rows("crc_nacl"))
def test_molality_and_grams_per_litre_match_crc(row):
    """CRC Handbook, 102nd ed.: molality, and molarity times the molar mass."""
    share = row["percent"] / 100
    assert scales.convert(share, "solution", "molal") == pytest.approx(row["molality"], abs=0.0006)
    litre = scales.convert(share, "solution", "g/L") / solution.molar_mass()
    assert litre == pytest.approx(row["molarity"], abs=0.0007)


def test_molar_mass_matches_the_periodic_table():
    """Standard atomic masses as held by the periodictable package."""
    assert pytest.approx(periodictable.formula("NaCl").mass, rel=1e-4) == solution.molar_mass()


def test_molar_mass_is_that_by_which_the_sodium_of_salt_is_reckoned():
    """393.37 mg in a gram, as additives_sodium_p2o5.csv has it too."""
    assert 1000 * periodictable.Na.mass / solution.molar_mass() == pytest.approx(393.37, abs=0.005)


@settings(max_examples=10)  # for each of 72 pairs
@given(part=st.floats(0.0, 1.0))
@each("start, end", PAIRS)
def test_every_conversion_undoes_its_inverse(start, end, part):
    low, high = scales.limits(start)
    value = low + part * (high - low)
    back = scales.convert(scales.convert(value, start, end), end, start)
    assert back == pytest.approx(value, rel=1e-12, abs=1e-12 * (high - low))


@settings(max_examples=10)
@given(one=st.floats(0.0, 1.0), other=st.floats(0.0, 1.0))
@each("start, end", PAIRS)
def test_every_scale_rises_with_every_other(start, end, one, other):
    low, high = scales.limits(start)
    weak, strong = (low + part * (high - low) for part in sorted((one, other)))
    if strong - weak > 1e-9 * high:
        assert scales.convert(weak, start, end) < scales.convert(strong, start, end)


@each("scale", scales.SCALES)
def test_each_scale_states_its_limits_and_keeps_to_them(scale):
    low, high = scales.limits(scale)
    assert scales.to_share(low, scale) == pytest.approx(0.0, abs=1e-12)
    assert scales.to_share(high, scale) == pytest.approx(solution.saturation(20.0), rel=1e-12)
    for value, nearest in ((low - 0.01 * high, low), (high * 1.001, high)):
        with pytest.raises(OutOfRange) as caught:
            scales.to_share(value, scale)
        assert caught.value.nearest == nearest
        assert scale in str(caught.value)


def test_a_share_written_as_a_whole_number_is_caught():
    with pytest.raises(OutOfRange, match=r"write 5% or 0\.05"):
        scales.convert(5.0, "water", "sg")


@given(st.floats(1.0, 1.2))
def test_baume_and_gravity_undo_each_other(sg):
    """sg = 145/(145 − degrees): US definition for liquids heavier than water."""
    assert scales.baume(sg) == pytest.approx(145.0 - 145.0 / sg)
    assert scales.gravity_from_baume(scales.baume(sg)) == pytest.approx(sg, rel=1e-14)


def test_a_pound_per_gallon_is_119_8_grams_per_litre():
    """1 lb/US gal = 119.826427 g/L, exact definitions of pound and gallon."""
    assert pytest.approx(119.826427, abs=1e-6) == 1000.0 / scales.POUNDS_PER_GALLON
