"""The laws of the worksheet functions, in tables: which hold for which function, and that none was forgotten.

Each law starts from a call that a cook would make (the function's own worked example, or one named here) and moves
its arguments. A factor is drawn for all functions under a law at once: drawing takes longer than most of their calls.
Laws of single kernels stand with their kernels.
"""

from __future__ import annotations

import functools

import pytest
from each import each
from hypothesis import given, settings
from hypothesis import strategies as st

from brinecalc import registry
from brinecalc.describe import DIMENSIONS, worked_examples

quick = settings(max_examples=12, deadline=None)
factors = st.floats(0.8, 1.25)

STARTS = {
    "ABSORBED": (1000, 1200, 0.0625, 0.03125),
    "ADDED_SOLUTION": (5000, 8000),
    "BATH_STRENGTH": ("chicken breast", 38, 5, 0.05, 1.5, 4),
    "CURE": (1000, 120, "pumped", 0.1, 1000),
    "DILUTE": (20000, 0.09, 0.05),
    "DENSITY": (0.05, 20, "solution"),
    "EQUILIBRIUM_HOURS": ("chicken breast", 25.4, 0.7, 4),
    "EQUILIBRIUM_RESULT": (2000, 1000, 45, 0.002),
    "EQUILIBRIUM_SALT": (2000, 1000, 0.015, 0.002),
    "FILL": (10000, 4000, 0.1),
    "ICE": (10000, 60, 4, 0.05, -5),
    "INJECTION_STRENGTH": (0.02, 0.25, 0.001),
    "PACKS": (60000, 25000, 7000, 0.75),
    "RESCALE_HOURS": (12, 40, 60, 3, 4),
    "REST_HOURS": ("chicken breast", 15, 5, 0.5, 4),
    "SALT": (1000, 0.05, "water", 0.75),
    "SATURATION": (20,),
    "SOAK_HOURS": ("chicken breast", 38, 0.01, 0.06, 4),
    "STRENGTH": (50, 1000, "water", 0.75),
    "STRENGTH_FOR": ("chicken breast", 38, 0.01, 12, 4),
    "TOP_UP": (20000, 0.03, 0.06),
    "UNIT_COST": (30, 25000, 0.75),
    "UPTAKE": ("chicken breast", 38, 5, 0.05, 4),
    "WATER_PHASE_SALT": (0.035, 0.7),
}
"""Calls with more arguments than the worked example shows."""

PROPORTIONAL = """
SALT water 1; STRENGTH salt,water 0; FILL vessel,product_weight 1; TOP_UP water 1; DILUTE water 1; EDIBLE weight 1;
EQUILIBRIUM_SALT product_weight,water 1; EQUILIBRIUM_RESULT product_weight,water,salt 0; YIELD before,after 0;
YIELD after 1; GAIN before,after 0; WATER_PHASE_SALT salt,moisture 0; ABSORBED product_weight,water 0;
SOAK_HOURS thickness 2; UPTAKE thickness,hours^2 0; STRENGTH_FOR thickness,hours^2 0; EQUILIBRIUM_HOURS thickness 2;
BATH_STRENGTH thickness,hours^2 0; RESCALE_HOURS hours 1; RESCALE_HOURS from_thickness,to_thickness 0;
RESCALE_HOURS to_thickness 2; REST_HOURS thickness,soak_hours^2 2; SWEETENER water 1; SWEETENER level 1;
SWEETENER_SWAP mass 1; SUGARS mass 1; WATER_IN mass 1; DOSE water 1; DOSE level 1; WEIGHT volume 1; VOLUME mass 1;
PH water,masses 0; PH_DOSE water 1; CURE product_weight,pickle 1; CURE ppm 1; NITRITE product_weight,cure 0;
NITRITE cure 1; CONCENTRATE brine 1;
ICE brine 1; UNIT_COST pack_price 1; UNIT_COST pack_size -1; COST masses 1; COST unit_costs 1;
PACKS need,pack_size,on_hand 0; SODIUM serving 1; ADDED_SOLUTION green,finished 0; UNIT value 1; IN_PRODUCT share 1
"""
"""Arguments that grow together by a factor (its square where ^2 stands), and the power of it in the answer."""

RISING = """
SALT water + strength + purity -; STRENGTH salt + water - purity +; CONVERT value +; DENSITY strength + temperature -;
FREEZING strength -; SATURATION temperature +; METER reading +; FILL vessel + product_weight - headroom -;
TOP_UP water + reading - strength +; DILUTE water + reading + strength -; EDIBLE weight +;
EQUILIBRIUM_SALT product_weight + water + target + native_salt -;
EQUILIBRIUM_RESULT product_weight - water - salt + native_salt +; INJECTION_STRENGTH target + gain - native_salt -;
IN_PRODUCT share + gain +; YIELD before - after +; GAIN before - after +; WATER_PHASE_SALT salt + moisture -;
ABSORBED product_weight - water + start_strength + reading -;
SOAK_HOURS thickness + target + strength - temperature -; UPTAKE thickness - hours + strength + temperature +;
STRENGTH_FOR thickness + target + hours - temperature -; EQUILIBRIUM_HOURS thickness + closeness + temperature -;
BATH_STRENGTH thickness + hours - strength + temperature - bath +;
RESCALE_HOURS hours + from_thickness - to_thickness + from_temperature + to_temperature -;
REST_HOURS thickness + evenness + temperature -; SWEETENER water + level +; SWEETENER_SWAP mass +; SUGARS mass +;
WATER_IN mass +; DOSE water + level +; WEIGHT volume +; VOLUME mass +; PH water + masses -; PH_DOSE target_ph - water +;
CURE product_weight + ppm +; NITRITE product_weight - cure +;
CONCENTRATE brine + strength + concentrate -; ICE brine + from_temperature + to_temperature - ice_temperature +;
UNIT_COST pack_price + pack_size - usable -; COST masses + unit_costs +; PACKS need + pack_size - on_hand - usable -;
SODIUM serving + salt_share +; ADDED_SOLUTION green - finished +; UNIT value +
"""
"""Arguments with which the answer rises or falls, or stays."""

INVERSE = {
    "SALT STRENGTH": lambda k: (call("STRENGTH", call("SALT", 1000 * k, 0.05), 1000 * k), 0.05),
    "STRENGTH SALT": lambda k: (call("SALT", 1000, call("STRENGTH", 50 * k, 1000)), 50 * k),
    "CONVERT": lambda k: (call("CONVERT", call("CONVERT", 40 * k, "salometer", "g/L"), "g/L", "salometer"), 40 * k),
    "CONVERT METER": lambda k: (call("METER", call("CONVERT", 0.05 * k, "water", "salometer"), "salometer"), 0.05 * k),
    "TOP_UP": lambda k: (call("STRENGTH", 800 * k + call("TOP_UP", 20000, 0.04 * k, 0.06), 20000), 0.06),
    "DILUTE": lambda k: (call("STRENGTH", 1200 * k, 20000 + call("DILUTE", 20000, 0.06 * k, 0.04)), 0.04),
    "EQUILIBRIUM_SALT EQUILIBRIUM_RESULT": lambda k: (
        call("EQUILIBRIUM_RESULT", 2000, 1000 * k, call("EQUILIBRIUM_SALT", 2000, 1000 * k, 0.015)), 0.015),
    "INJECTION_STRENGTH IN_PRODUCT": lambda k: (
        call("IN_PRODUCT", call("INJECTION_STRENGTH", 0.02 * k, 0.25, 0, "solution"), 0.25), 0.02 * k),
    "YIELD GAIN": lambda k: (call("YIELD", 1000, 1080 * k), 1 + call("GAIN", 1000, 1080 * k)),
    "SOAK_HOURS UPTAKE": lambda k: (
        call("UPTAKE", "chicken breast", 38, call("SOAK_HOURS", "chicken breast", 38, 0.01 * k, 0.06), 0.06), 0.01 * k),
    "UPTAKE SOAK_HOURS": lambda k: (
        call("SOAK_HOURS", "chicken breast", 38, call("UPTAKE", "chicken breast", 38, 5 * k, 0.06), 0.06), 5 * k),
    "STRENGTH_FOR UPTAKE": lambda k: (
        call("UPTAKE", "chicken breast", 38, 12 * k, call("STRENGTH_FOR", "chicken breast", 38, 0.01, 12 * k)), 0.01),
    "BATH_STRENGTH ABSORBED UPTAKE": lambda k: (
        call("ABSORBED", 1000, 1500, 0.05, call("BATH_STRENGTH", "tofu", 25, 5 * k, 0.05, 1.5, 4, "", "", "", 0)),
        call("UPTAKE", "tofu", 25, 5 * k, 0.05, 4, 1.5, "", "", "", 0)),
    "EQUILIBRIUM_HOURS UPTAKE": lambda k: (
        call("UPTAKE", "tofu", 25, call("EQUILIBRIUM_HOURS", "tofu", 25, 0.7 * k), 0.05, "", "", "", "", "", 0)
        / call("UPTAKE", "tofu", 25, 1e5, 0.05, "", "", "", "", "", 0), 0.7 * k),
    "RESCALE_HOURS": lambda k: (
        call("RESCALE_HOURS", call("RESCALE_HOURS", 12, 40, 60 * k, 2, 4), 60 * k, 40, 4, 2), 12),
    "REST_HOURS PROFILE": lambda k: (evenness(call("REST_HOURS", "tofu", 25, 5, 0.5 * k)), 0.5 * k),
    "SWEETENER_SWAP": lambda k: (
        call("SWEETENER_SWAP", call("SWEETENER_SWAP", 90 * k, "honey", "white sugar"), "white sugar", "honey"), 90 * k),
    "CONCENTRATE": lambda k: (
        call("CONCENTRATE", 20000 * k, 0.05, 0.2, "solution") * 0.2 / (20000 * k), 0.05),  # the salt of the whole
    "WEIGHT VOLUME": lambda k: (call("VOLUME", call("WEIGHT", 5 * k, "honey"), "honey"), 5 * k),
    "PH_DOSE PH": lambda k: (
        call("PH", 1000, "citric acid", call("PH_DOSE", 4 * k, 1000, "citric acid", 0.05, 200), 0.05, 200), 4 * k),
    "CURE NITRITE": lambda k: (
        call("NITRITE", 1000, call("CURE", 1000, 120 * k, "pumped", 0.1, 1000), "pumped", 0.1, 1000), 120 * k),
    "UNIT": lambda k: (call("UNIT", call("UNIT", 2 * k, "gal", "L"), "L", "gal"), 2 * k),
    "ADDED_SOLUTION GAIN": lambda k: (call("ADDED_SOLUTION", 5000, 6500 * k), call("GAIN", 5000, 6500 * k)),
}  # fmt: skip
"""What comes out on the way there and back, and what it must be; k is near 1."""

ELSEWHERE = {
    "PROFILE": "salt is conserved over its depth: test_time.py",
    "FORECAST": "finds the speed that made the readings: test_time_forecast.py",
    "USUAL_RANGE": "a row of the table of doses",
    "NITRITE_LIMIT": "a row of the table of limits",
    "CHECK": "words",
    "FINDINGS": "words",
    "LIMIT": "a row of the table of limits",
    "SOURCE": "words",
    "WHY": "words",
    "ABOUT": "words",
}
"""Functions without a law of numbers here, and why."""

UNITS = {
    "mass": {"kg": 1000.0, "lb": 453.59237, "oz": 28.349523125},
    "water": {"kg": 1000.0, "lb": 453.59237},
    "length": {"cm": 10.0, "in": 25.4, "m": 1000.0},
    "time": {"min": 1 / 60, "d": 24.0, "s": 1 / 3600},
    "volume": {"L": 1000.0, "gal": 3785.411784, "imp gal": 4546.09},
    "share": {"%": 0.01},
}
"""Base units in one of these. Source: NIST Handbook 44, appendix C; Weights and Measures Act 1985."""


def call(name, *cells):
    return registry.call(f"BRINE_{name}", *cells)


def evenness(rest):
    rows = call("PROFILE", "tofu", 25, 5, rest, 0.05, "", "", 2, "", "", "", 0)
    salt = [row[1] for row in rows if isinstance(row[1], float)]
    return salt[-1] / salt[0]


@functools.lru_cache(None)
def start(name):
    """The cells that a law starts from, and the place of each argument."""
    spec = registry.spec(f"BRINE_{name}")
    cells = STARTS.get(name) or worked_examples(spec)[0].cells
    answer = call(name, *cells)
    assert isinstance(answer, (float, list)), (name, answer)
    return cells, {argument.name: place for place, argument in enumerate(spec.arguments)}


def scaled(cell, factor):
    return tuple(each * factor for each in cell) if isinstance(cell, tuple) else cell * factor


def moved(name, changes):
    """The answer with some arguments times a factor."""
    cells, places = start(name)
    cells = list(cells)
    for argument, factor in changes.items():
        cells[places[argument]] = scaled(cells[places[argument]], factor)
    answer = call(name, *cells)
    assert isinstance(answer, float), (name, cells, answer)
    return answer


def laws(text):
    return [law.split() for law in text.replace("\n", " ").split(";")]


@quick
@given(k=factors)
@each("name, arguments, power", laws(PROPORTIONAL))
def test_answers_are_proportional_where_the_law_says(name, arguments, power, k):
    """Law: to 1e-9; whole packs are whole whatever the unit."""
    changes = {one.removesuffix("^2"): k * k if one.endswith("^2") else k for one in arguments.split(",")}
    assert moved(name, changes) == pytest.approx(moved(name, {}) * k ** int(power), rel=1e-9)


@quick
@given(one=factors, other=factors)
@each(
    "name, argument, sign",
    [(law[0], *law[place : place + 2]) for law in laws(RISING) for place in range(1, len(law), 2)],
)
def test_answers_rise_or_fall_where_the_law_says(name, argument, sign, one, other):
    low, high = (moved(name, {argument: k}) for k in sorted((one, other)))
    cells, places = start(name)
    if isinstance(cells[places[argument]], (int, float)) and cells[places[argument]] < 0:
        low, high = high, low
    if sign == "-":
        low, high = high, low
    assert low <= high + 1e-9 * abs(high)


@quick
@given(k=st.floats(0.9, 1.1))
@each("pair", INVERSE)
def test_there_and_back(pair, k):
    """Law: an inverse undoes its function to 1e-9."""
    back, wanted = INVERSE[pair](k)
    assert back == pytest.approx(wanted, rel=1e-9)


DIMENSIONED = [
    (name.removeprefix("BRINE_"), place)
    for name in registry.names()
    for place, argument in enumerate(registry.spec(name).arguments)
    if argument.kind in DIMENSIONS
]


@quick
@given(k=factors, turn=st.integers(0, 5))
@each("name, place", DIMENSIONED)
def test_the_unit_in_which_an_argument_is_typed_changes_nothing(name, place, k, turn):
    """Law: the same quantity in another unit gives the same answer to 1e-9, or the same error."""
    cells, _ = start(name)
    cells = list(cells)
    argument = registry.spec(f"BRINE_{name}").arguments[place]
    if place >= len(cells) or cells[place] == "":
        cells += [""] * (place + 1 - len(cells))
        cells[place] = {"share": 0.01, "temperature": 4.0}.get(argument.kind, 10.0)
    plain = call(name, *cells[:place], cells[place] * k, *cells[place + 1 :])
    typed = call(name, *cells[:place], written(cells[place] * k, argument.kind, turn), *cells[place + 1 :])
    for one, other in zip(flat(typed), flat(plain), strict=True):
        assert one == (pytest.approx(other, rel=1e-9) if isinstance(other, float) else other)


def written(value, kind, turn):
    """The text of a quantity in another unit, each of them in its turn."""
    if kind == "temperature":
        return f"{value * 1.8 + 32.0!r} °F"
    units = UNITS[DIMENSIONS[kind]]
    unit = sorted(units)[turn % len(units)]
    return f"{value / units[unit]:.17g} {unit}" if "e" not in f"{value / units[unit]:.17g}" else value


def flat(answer):
    """The cells of an answer."""
    if isinstance(answer, list):
        return [cell for row in answer for cell in row]
    return [answer]


def test_every_function_has_its_laws_or_a_reason_for_none():
    has = {law[0] for law in laws(PROPORTIONAL) + laws(RISING)} | {word for pair in INVERSE for word in pair.split()}
    every = {name.removeprefix("BRINE_") for name in registry.names()}
    assert has | set(ELSEWHERE) == every
    assert {"PROFILE"} == has & set(ELSEWHERE)
