"""Every refusal of a kernel names the argument, the limit, what was given and the nearest that would do.

Limits are those of the published tables (CRC handbook: 26.4 % saturated, 23.3 % eutectic), or follow by hand.
"""

from __future__ import annotations

import math

import pytest
from each import each

from brinecalc.errors import Impossible, OutOfRange, UnknownName, Unreadable
from brinecalc.science import acidity, balance, chilling, diffusion, meter, mixing, scales, soaking, solution
from brinecalc.science.equilibria import Mixture
from tests.refusals import Refusal, check

DIFFUSION = {
    "time before the start": Refusal(
        lambda: diffusion.uptake(-0.1), OutOfRange, "fourier", "-0.1", ("must be at least 0",)
    ),
    "no time": Refusal(lambda: diffusion.uptake(math.nan), OutOfRange, "fourier", "nan", ("must be at least 0",)),
    "endless soak": Refusal(
        lambda: diffusion.soaked(math.inf), OutOfRange, "fourier", "inf", ("at least 0 and finite",)
    ),
    "all of it": Refusal(
        lambda: diffusion.fourier_for(1.0), OutOfRange, "fraction", "1.0", ("at least 0 and below 1",)
    ),
    "less than none": Refusal(
        lambda: diffusion.fourier_for(-0.1), OutOfRange, "fraction", "-0.1", ("at least 0 and below 1",)
    ),
    "wholly even": Refusal(
        lambda: diffusion.rest_for(1.0, 0.1), OutOfRange, "evenness", "1.0", ("at least 0 and below 1",)
    ),
    "no such shape": Refusal(
        lambda: diffusion.uptake(0.1, "cube"), UnknownName, "shape", "'cube'",
        ("slab, one face, cylinder, sphere, or three lengths",),
    ),
    "a flat block": Refusal(
        lambda: diffusion.uptake(0.1, (1.0, 0.0, 2.0)), OutOfRange, "shape", "(1.0, 0.0, 2.0)",
        ("three half-thicknesses above 0",),
    ),
    "an endless block": Refusal(
        lambda: diffusion.uptake(0.1, (1.0, math.inf, 2.0)), OutOfRange, "shape", "(1.0, inf, 2.0)", ()
    ),
    "a block of two lengths": Refusal(
        lambda: diffusion.uptake(0.1, (1.0, 2.0)), OutOfRange, "shape", "(1.0, 2.0)", ("three half-thicknesses",)
    ),
    "no bath": Refusal(
        lambda: diffusion.uptake(0.1, "slab", 9e-7), OutOfRange, "bath", "9e-07", ("must be at least 1e-06",)
    ),
    "warmer than the table of free water": Refusal(
        lambda: soaking.free_water(40.5), OutOfRange, "temperature", "40.5 °C", ("from -5 to 40 °C",)
    ),
    "colder than the table of free water": Refusal(
        lambda: soaking.free_water(-5.5), OutOfRange, "temperature", "-5.5 °C", ("from -5 to 40 °C",)
    ),
}  # fmt: skip

SOLUTION = {
    "warmer than the densities": Refusal(
        lambda: solution.density(0.1, 40.5), OutOfRange, "temperature", "40.5 °C", ("0 to 40 °C", "published")
    ),
    "colder than the densities": Refusal(
        lambda: solution.density(0.1, -0.5), OutOfRange, "temperature", "-0.5 °C", ("0 to 40 °C",)
    ),
    "past boiling": Refusal(
        lambda: solution.saturation(100.5), OutOfRange, "temperature", "100.5 °C", ("0 to 100 °C",)
    ),
    "past the eutectic": Refusal(
        lambda: solution.freezing_point(0.24), OutOfRange, "strength", "24 % of the solution",
        ("at most 23.3 % of the solution (30.37 % of the water)", "at -21.1 °C", "freeze out together"), 0.233,
    ),
    "less than no salt": Refusal(
        lambda: solution.check_strength(-0.01), OutOfRange, "strength", "-1 %", ("must be at least 0 %",), 0.0
    ),
    "more than dissolves": Refusal(
        lambda: solution.specific_heat(0.27), OutOfRange, "strength", "27 %",
        ("at most 26.4", "of the solution at 20 °C", "no more salt dissolves"), 0.2643,
    ),
    "per cent forgotten": Refusal(
        lambda: solution.check_strength(5.0, "water", 20.0, "reading"), OutOfRange, "reading", "500 %",
        ("at most 35.9", "of the water at 20 °C", "write 5% or 0.05 for 5 per cent"), 0.3592,
    ),
}  # fmt: skip

MIXING = {
    "salt too poor for the strength": Refusal(  # 35.92 % × 0.5/(0.3592 + 0.5)
        lambda: mixing.salt_mass(1000.0, 0.26, "solution", 0.5), Impossible, "strength", "26 %",
        ("at most 20.9048 % of the solution with salt of 50 % purity", "at 20 °C", "most kitchen salt is 98 %"),
        0.209,
    ),
    "more salt than dissolves": Refusal(
        lambda: mixing.strength(500.0, 1000.0), Impossible, "salt", "500 g",
        ("at most 359", "g for 1000 g of water", "at 20 °C water dissolves 35.9", "less salt or more water"), 359.2,
    ),
    "a bath too strong to top up": Refusal(  # 1000 g × (6/5 − 1)
        lambda: mixing.top_up(1000.0, 0.06, 0.05), Impossible, "reading", "6 %",
        ("at most the strength wanted, 5 %", "too strong: add 200 g / 7.05 oz of water (BRINE_DILUTE)"), 0.05,
    ),
    "a bath too weak to dilute": Refusal(
        lambda: mixing.dilute(1000.0, 0.05, 0.06), Impossible, "reading", "5 %",
        ("at least the strength wanted, 6 %", "too weak: add 10 g / 0.353 oz of salt (BRINE_TOP_UP)"), 0.06,
    ),
    "a reading no bath has": Refusal(
        lambda: mixing.top_up(1000.0, 0.4, 0.05), OutOfRange, "reading", "40 %", ("of the water",), 0.3592
    ),
    "a strength no bath has": Refusal(
        lambda: mixing.dilute(1000.0, 0.05, 0.4), OutOfRange, "strength", "40 %", ("of the water",), 0.3592
    ),
    "more product than the vessel holds": Refusal(  # 2000 mL × 0.9 × 1.05 g/mL
        lambda: mixing.fill(2000.0, 1900.0), Impossible, "product_weight", "1.9 kg / 4.19 lb",
        ("must be below 1.89 kg / 4.16 lb for a vessel of 2 L / 2.11 qt with 10 % headroom",
         "larger vessel or split the batch"), 1890.0,
    ),
}  # fmt: skip

BALANCE = {
    "below what the product brings": Refusal(  # 0.2 % of 1000 g in 2000 g
        lambda: balance.equilibrium_salt(1000.0, 1000.0, 0.0005, 0.002, "weight", None), Impossible, "target", None,
        ("cannot be below 0.1 %", "no salt added", "a target of 0.1 % or more, or more water"), 0.001,
    ),
    "above what dissolves": Refusal(  # 35.92 % of 2000 g
        lambda: balance.equilibrium_salt(1000.0, 1000.0, 0.36, 0.0, "weight", None), Impossible, "target", None,
        ("cannot be above 35.9", "no more salt dissolves", "a target of 35.9", "or less"), 0.3592,
    ),
    "less salt than none": Refusal(  # 0.2 % of 1000 g in 2000 g
        lambda: balance.equilibrium_result(1000.0, 1000.0, -5.0, 0.002, "weight", None), OutOfRange, "salt", "-5 g",
        ("must be at least 0 g", "with no salt added product and water end at 0.1 %"), 0.0,
    ),
    "more salt than dissolves in what is wet": Refusal(  # 35.92 % of 1000 g and half of 1000 g, less 10 g
        lambda: balance.equilibrium_result(1000.0, 1000.0, 540.0, 0.01, "water phase", 0.5), Impossible, "salt",
        "540 g", ("must be at most 528.874 g", "use less salt, or more water"), 528.8,
    ),
    "below what plain water leaves": Refusal(  # 0.2 % / 1.1
        lambda: balance.injection_strength(0.001, 0.1, 0.002, "solution"), Impossible, "target", None,
        ("cannot be below 0.1818 %", "plain water at this gain", "a target of 0.1819 % or more"), 0.002 / 1.1,
    ),
    "above what a saturated brine leaves": Refusal(  # 10 % of 26.4 % is 2.4 % of the finished weight
        lambda: balance.injection_strength(0.03, 0.1, 0.0, "solution"), Impossible, "target", None,
        ("at a gain of 10 %", "would need 33 % salt", "none holds more than 26.4", "at most 2.40",
         "a gain of at least 12.8"), 0.2643 / 11.0,
    ),
    "more than any gain brings": Refusal(
        lambda: balance.injection_strength(0.3, 0.1, 0.0, "solution"), Impossible, "target", None,
        ("would need 330 % salt", "a target of at most 2.40"), 0.2643 / 11.0,
    ),
    "no water share": Refusal(
        lambda: balance.equilibrium_result(1000.0, 1000.0, 10.0, 0.0, "water phase", None), Unreadable, "product_water",
        None, ('needed with basis "water phase"', "such as 74%"),
    ),
    "more water and salt than product": Refusal(
        lambda: balance.equilibrium_result(1000.0, 1000.0, 10.0, 0.1, "water phase", 0.95), Impossible, "product_water",
        None, ("cannot be above 90 % together with that native salt",), 0.9,
    ),
}  # fmt: skip

READINGS = {
    "warmer than the meter": Refusal(
        lambda: meter.strength(50.0, "conductivity", 36.0), OutOfRange, "temperature", "36 °C / 96.8 °F",
        ("from 0 °C / 32 °F to 35 °C / 95 °F for this instrument", "cool a sample"),
    ),
    "more sugar than the table": Refusal(
        lambda: meter.strength(50.0, "conductivity", 20.0, "water", 0.3), OutOfRange, "sugar", "30 %",
        ("from 0 to 25 % of the solution",), 0.25,
    ),
    "less sugar than none": Refusal(
        lambda: meter.strength(50.0, "conductivity", 20.0, "water", -0.1), OutOfRange, "sugar", "-10 %", (), 0.0
    ),
    "a reading past saturation": Refusal(
        lambda: meter.strength(0.3, "salt meter"), OutOfRange, "reading", "30 %",
        ("from 0 % to 26.4", "for the salt meter at 20 °C", "0 % is no salt", "a saturated brine"), 0.2643,
    ),
    "per cent forgotten on a meter": Refusal(
        lambda: meter.strength(5.0, "salt meter"), OutOfRange, "reading", "500 %",
        ("write 5% or 0.05 for 5 per cent",), 0.2643,
    ),
    "a reading lower than the sugar's own": Refusal(
        lambda: meter.strength(5.0, "brix", 20.0, "water", 0.1), Impossible, "reading", "5 degrees Brix",
        ("must be from 9.99", "degrees Brix for the brix at 20 °C / 68 °F with 10 % sugar"), 10.0,
    ),
    "a reading lower than water's": Refusal(
        lambda: meter.strength(0.9, "hydrometer", 140.0 / 9.0), OutOfRange, "reading", "0.9 sg",
        ("from 1 to 1.20",), 1.0,
    ),
    "off a scale of shares": Refusal(
        lambda: scales.convert(5.0, "solution", "water"), OutOfRange, "value", "500 %",
        ("from 0 % to 26.4", 'the scale "solution"', "write 5% or 0.05 for 5 per cent"), 0.2643,
    ),
    "off a scale of degrees": Refusal(
        lambda: scales.convert(101.0, "salometer", "water"), OutOfRange, "value", "101",
        ("from 0 to 100.1", 'the scale "salometer"', "saturated at 20 °C"), 100.13,
    ),
    "below a scale": Refusal(
        lambda: scales.convert(0.9, "sg", "water"), OutOfRange, "value", "0.9", ("from 1 to 1.20",), 1.0
    ),
    "more than any scale": Refusal(
        lambda: scales.from_share(0.27, "sg"), OutOfRange, "strength", "27 %", ("of the solution",), 0.2643
    ),
}  # fmt: skip

REST = {
    "ice that warms": Refusal(
        lambda: chilling.ice_held_back(10.0, 4.0, 5.0), OutOfRange, "to_temperature", "5 °C / 41 °F",
        ("at most from_temperature, 4 °C / 39.2 °F", "ice only cools"), 4.0,
    ),
    "water colder than ice": Refusal(
        lambda: chilling.ice_held_back(10.0, 20.0, -1.0), OutOfRange, "to_temperature", "-1 °C / 30.2 °F",
        ("at least 0 °C / 32 °F at this strength", "below that it freezes"), 0.0,
    ),
    "a strong brine below freezing": Refusal(
        lambda: chilling.ice_held_back(10.0, 20.0, -1.0, 0.33), OutOfRange, "to_temperature", "-1 °C / 30.2 °F",
        ("at least 0 °C / 32 °F at this strength", "this strong drops salt below 0 °C"), 0.0,
    ),
    "a weak brine below its freezing point": Refusal(
        lambda: chilling.ice_held_back(10.0, 20.0, -5.0, 0.05), OutOfRange, "to_temperature", "-5 °C / 23 °F",
        ("at least -2.89 °C / 26.79 °F at this strength", "below that it freezes"), -2.8968,
    ),
    "a mass in the place of a share": Refusal(
        lambda: scales.convert(600.0, "solution", "water"), OutOfRange, "value", "60000 %",
        ("write it as 5% or 0.05, never above 100 %",), 0.2643,
    ),
    "more ice than there is water": Refusal(  # 10 g less 2 g of salt in a 26.43 % brine leave 2.433 g
        lambda: chilling.ice_held_back(10.0, 30.0, -15.0, 0.25), Impossible, "to_temperature", "-15 °C / 5 °F",
        ("more than 2.43", " g of ice would leave too little water"), -2.0085,
    ),
    "all of it salt on a scale of shares": Refusal(
        lambda: scales.convert(1.0, "solution", "water"), OutOfRange, "value", "100 %",
        ("write 1% or 0.01 for 1 per cent",), 0.2643,
    ),
    "stronger than the theory of pH": Refusal(
        lambda: acidity.ph(Mixture((), 0.0, 4.6, 0.0, 4.6)), OutOfRange, None, None,
        ("at most 4.5 mol of ions per kg of water",),
    ),
    "stronger than the theory of pH by its calcium": Refusal(
        lambda: acidity.ph(Mixture((), 0.0, 0.0, 2.3, 4.4)), OutOfRange, None, None, ("at most 4.5 mol",)
    ),
    "stronger than the theory of pH once at rest": Refusal(  # (4 × 2 + 4) / 2 = 6 mol/kg of ionic strength
        lambda: acidity.ph(Mixture((), 0.0, 0.0, 2.0, 4.0)), OutOfRange, None, None, ("at most 4.5 mol",)
    ),
    "a target that is a saturated brine itself": Refusal(  # no gain gets there; 10 % of 26.4 % is 2.4 %
        lambda: balance.injection_strength(solution.saturation(), 0.1, 0.0, "solution"), Impossible, "target", None,
        ("would need 290.7", "a target of at most 2.40"), 0.2643 / 11.0,
    ),
}  # fmt: skip

ALL = {**DIFFUSION, **SOLUTION, **MIXING, **BALANCE, **READINGS, **REST}


@each("name", ALL)
def test_a_refusal_says_what_would_do(name):
    check(ALL[name])


def test_limits_themselves_are_allowed():
    """The ends that the refusals name are inside."""
    assert diffusion.uptake(0.1, "slab", 1e-6) > 0.0
    assert diffusion.fourier_for(0.0) == 0.0
    assert diffusion.uptake(0.0) == 0.0
    assert soaking.free_water(40.0) > soaking.free_water(-5.0) > 0.0
    assert solution.density(0.1, 0.0) > solution.density(0.1, 40.0) > 1.0
    assert solution.freezing_point(solution.eutectic()) == pytest.approx(-21.1, abs=0.05)
    assert mixing.top_up(1000.0, 0.05, 0.05) == mixing.dilute(1000.0, 0.05, 0.05) == 0.0


def test_at_the_coldest_told_the_ice_is_all_the_water_that_salt_can_spare():
    """By hand: 2 g of salt want 2 / 0.2643 g of a saturated brine, so of 10 g at most 2.433 g may be ice."""
    assert chilling.ice_held_back(10.0, 30.0, -2.008, 0.25) == pytest.approx(10.0 - 2.0 / 0.2643, rel=2e-3)
