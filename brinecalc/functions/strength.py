"""Worksheet functions of brine strength: weigh it out, state it on another scale, read it.

One idea: strengths are shares of the water's weight unless ``basis`` says otherwise, and no brine is stronger than
one saturated at 20 °C (35.92 % of the water, 26.43 % of the solution). Baths are filled and put right in baths.py.
"""

from __future__ import annotations

from typing import Any, Optional

from brinecalc import misread, quantity
from brinecalc.catalogue import worksheet_function
from brinecalc.errors import BrineError, OutOfRange, Unreadable
from brinecalc.science import mixing, scales, solution

FAMILY = "Strength"


@worksheet_function(family=FAMILY)
def salt(water: float, strength: float, basis: str = "water", purity: float = 1.0) -> float:
    """Salt to weigh out for a brine of a given strength.

    Parameters
    ----------
    water : water
        Water of the brine; a volume serves [g]; above 0. Example: 1000.
    strength : share
        Salt as a share of the basis; at most 35.92 % of the water or 26.43 % of the solution [-]; above 0. Example: 5%.
    basis : {water, solution}
        Whether the strength is a share of the water or of the finished solution [-].
    purity : share
        Salt in the salt as bought; kitchen salt is 98 to 100 % [-]; above 0, at most 1.

    Returns
    -------
    mass
        Salt to weigh out [g].

    Notes: By weight, so the grain of the salt does not matter. What is not salt is taken not to dissolve on the water
    basis, and to count in the solution's weight on the solution basis. More salt than dissolves at 20 °C is refused.
    What BRINE_INJECTION_STRENGTH answers is a share of the solution: give it here with basis "solution" (16.5 % of it
    is 197.6 g on 1000 g of water).
    Sources: definition, kaufmann-1960
    Examples
    --------
    >>> salt(1000, 0.05)
    50.0
    >>> round(salt(1000, 0.05, "solution"), 7)
    52.6315789
    >>> round(salt(1000, 0.165, "solution"), 1)
    197.6
    """
    return mixing.salt_mass(water, strength, basis, purity)


@worksheet_function(family=FAMILY)
def strength(salt: float, water: float, basis: str = "water", purity: float = 1.0) -> float:
    """Strength of a brine mixed from this much salt and water.

    Parameters
    ----------
    salt : mass
        Salt as weighed out, up to what dissolves [g]; above 0. Example: 50.
    water : water
        Water of the brine; a volume serves [g]; above 0. Example: 1000.
    basis : {water, solution}
        Whether to state it as a share of the water or of the finished solution [-].
    purity : share
        Salt in the salt as bought; kitchen salt is 98 to 100 % [-]; above 0, at most 1.

    Returns
    -------
    share
        Salt as a share of the basis [-].

    Notes: The inverse of BRINE_SALT. Salt that would stay undissolved at 20 °C gives an error with the most that
    dissolves.
    Sources: definition, kaufmann-1960
    Examples
    --------
    >>> strength(50, 1000)
    0.05
    """
    return mixing.strength(salt, water, basis, purity)


@worksheet_function(family=FAMILY)
def convert(value: Any, from_scale: str, to_scale: str) -> float:
    """A brine's strength carried from one scale to another.

    Parameters
    ----------
    value : amount
        Value on the first scale; shares as 5% or 0.05. 0 (for sg, 1) is plain water [-]. Example: 40.
    from_scale : {water, solution, salometer, sg, baume, g/L, lb/gal water, lb/gal brine, molal}
        Scale of the value [-]. Example: "salometer".
    to_scale : {water, solution, salometer, sg, baume, g/L, lb/gal water, lb/gal brine, molal}
        Scale wanted [-]. Example: "water".

    Returns
    -------
    number
        Value on the second scale; shares as fractions, to show as per cent [-].

    Notes: Salometer degrees are per cent of a brine saturated at 60 °F (100 degrees is 26.395 % of the solution); sg is
    60/60 °F; Baumé has modulus 145; g/L holds at 20 °C, pounds of salt per US gallon of water or of brine at 60 °F.
    Every scale ends at a brine saturated at 20 °C: 35.92 % of the water, 26.43 % of the solution, 100.1 degrees, sg
    1.204, 24.6 °Bé, 317 g/L, 2.99 and 2.65 lb/gal, 6.147 molal. It converts what is true of the brine; for what an
    instrument shows in a cold or sweetened brine use BRINE_METER.
    Sources: salometer-leaflet, kaufmann-1960, si-units, atomic-masses
    Examples
    --------
    >>> round(convert(40, "salometer", "solution"), 5)
    0.10558
    >>> round(convert(0.05, "water", "salometer"), 2)
    18.04
    """
    number = _plain(value, "value", from_scale in ("water", "solution"))
    return scales.convert(number, from_scale, to_scale)


@worksheet_function(family=FAMILY)
def density(strength: float, temperature: float = 20.0, basis: str = "water") -> float:
    """Density of a brine, from 0 to 40 °C and up to saturation.

    Parameters
    ----------
    strength : share
        Salt as a share of the basis, up to what dissolves; 0 is plain water [-]; at least 0. Example: 5%.
    temperature : temperature
        Temperature of the brine [°C]; at least 0, at most 40. Example: 4.
    basis : {water, solution}
        Whether the strength is a share of the water or of the finished solution [-].

    Returns
    -------
    number
        Density [g/mL].

    Notes: A smooth surface through the published table (0 to 26 % of the solution), carried on to saturation by a
    parabola. Salt only: sugar makes a brine denser, see BRINE_METER.
    Sources: kaufmann-1960
    Examples
    --------
    >>> round(density(0.05, 20, "solution"), 4)
    1.034
    """
    solution.check_strength(strength, basis, temperature)
    return solution.density(solution.share_of_solution(strength, basis), temperature)


@worksheet_function(family=FAMILY)
def freezing(strength: float, basis: str = "water") -> float:
    """Temperature at which ice begins to form in a brine.

    Parameters
    ----------
    strength : share
        Salt as a share of the basis; 0 is plain water; at most 30.37 % of the water or 23.3 % of the solution [-];
        at least 0. Example: 5%.
    basis : {water, solution}
        Whether the strength is a share of the water or of the finished solution [-].

    Returns
    -------
    temperature
        Freezing point [°C].

    Notes: Ends at the eutectic, 23.3 % of the solution and -21.1 °C; a stronger brine drops salt instead of ice as it
    cools. Handbooks differ by up to 0.08 °C. Sugar lowers the freezing point further.
    Sources: crc-102, lange-15
    Examples
    --------
    >>> freezing(0.05, "solution")
    -3.05
    """
    solution.check_strength(strength, basis)
    return solution.freezing_point(solution.share_of_solution(strength, basis))


@worksheet_function(family=FAMILY)
def saturation(temperature: float = 20.0, basis: str = "water") -> float:
    """Strongest brine that can be made at a temperature.

    Parameters
    ----------
    temperature : temperature
        Temperature of the brine [°C]; at least 0, at most 100. Example: 20.
    basis : {water, solution}
        Whether to state it as a share of the water or of the finished solution [-].

    Returns
    -------
    share
        Salt as a share of the basis [-].

    Notes: Temperature hardly matters: 26.34 % of the solution at 0 °C, 26.43 % at 20 °C, 28.12 % at 100 °C. What
    dissolves in hot water beyond the 20 °C figure drops out on cooling, so other functions stop at 20 °C.
    Sources: kaufmann-1960, salometer-leaflet
    Examples
    --------
    >>> round(saturation(), 4)
    0.3592
    """
    return solution.strongest(basis, temperature)


@worksheet_function(family=FAMILY)
def meter(
    reading: Any, instrument: str, temperature: Optional[float] = None, basis: str = "water", sugar: float = 0.0
) -> float:
    """Strength of a brine from an instrument's reading, corrected for temperature and sugar.

    Parameters
    ----------
    reading : amount
        What the instrument shows, in its own unit: share of the solution, mS/cm, degrees, sg, index or degrees Brix;
        above 0 [-]. Example: 19.2.
    instrument : {salt meter, conductivity, salometer, salometer 38F, hydrometer, baume, refractive index, brix}
        What it was read on; conductivity as the probe gives it, not carried to 25 °C [-]. Example: "salometer".
    temperature : temperature
        Temperature of the brine when read, 0 to 40 °C (conductivity to 35 °C); left out, what the instrument is made
        for [°C]; at least 0, at most 40. Example: 4.
    basis : {water, solution}
        Whether to state the strength as a share of the water or of the solution [-].
    sugar : share
        Dissolved sugar, as a share of the solution [-]; at least 0, at most 0.25.

    Returns
    -------
    share
        Salt as a share of the basis [-].

    Notes: Made for 60 °F: salometer, hydrometer (sg 60/60), Baumé (modulus 145); 38 °F: salometer 38F; 20 °C: the
    rest. A salometer whose 100 degrees is 25 % salt (canning) is another instrument. Instruments that correct
    themselves for temperature: leave it out. A salt meter is taken to show per cent of the solution, correct for
    temperature and true over its range; check yours in a brine mixed by weight, since a probe scaled on 1 % shows 8
    in 10 %. Sugar is reckoned as sucrose; with it floats, refractometers and Brix read high (5 % sugar reads like
    2.75 % and 4.2 % salt) and the correction is subtracted by volume and refraction. Salt meters and conductivity
    read low: that correction, from the sugar's viscosity, is judgement and good to about a fifth of itself. Herbs,
    phosphates, acids and meat juices move every reading a little. Conductivities are recalled handbook values that
    agree with published standards within about 1 %.
    Sources: kaufmann-1960, crc-102, salometer-leaflet, conductivity-standards, crc-conductivity, kohlrausch-1916,
    iapws-r9-97, poradnik-1974, judgement
    Examples
    --------
    >>> round(meter(19.24, "salometer", 4), 4)
    0.05
    >>> round(meter(0.05, "salt meter"), 5)
    0.05263
    """
    from brinecalc.science import meter as instruments  # the physics of instruments, read on first use

    number = _plain(reading, "reading", instrument == "salt meter", instrument == "brix")
    if number <= 0.0:
        raise OutOfRange("must be above 0", argument="reading", got=f"{number:.6g}", advice="a blank cell counts as 0")
    return instruments.strength(number, instrument, temperature, basis, sugar)


def _plain(cell: Any, argument: str, is_share: bool, is_percent: bool = False) -> float:
    """A reading as typed: a number, or text without a unit; per cent where the scale is a share (or in per cent)."""
    if not isinstance(cell, str):
        return float(cell)
    try:
        value, dimension = quantity.split(cell, "share" if is_share else "number")
    except BrineError as error:
        error.argument = argument
        if error.advice == misread.example("number"):
            error.advice = "write the plain figure of its scale"
        raise
    if dimension == "share" and (is_share or is_percent):
        return value * 100.0 if is_percent else value
    if dimension:
        raise Unreadable("must be a plain number on its own scale", argument=argument, advice="write it without a unit")
    return value
