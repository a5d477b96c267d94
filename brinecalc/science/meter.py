"""What an instrument shows in a brine, and the strength that a reading means.

One idea: only the forward question has physics in it ("what does this float, prism or probe show in that brine, at
that temperature, with that much sugar?"); the strength is whatever makes the forward answer equal the reading.
Floats compare densities: the brine's at its own temperature with that of the brine that would give the reading at
the temperature for which the float was made. The glass is taken not to swell (under 0.2 degrees of a salometer).
"""

from __future__ import annotations

from typing import Callable, Dict, NamedTuple, Optional, Tuple

from brinecalc import misread
from brinecalc.errors import Impossible, OutOfRange
from brinecalc.quantity import degrees
from brinecalc.science import scales, solution, sweetened
from brinecalc.science.roots import rising_root

THIRTY_EIGHT_F = 10.0 / 3.0
"""°C; 38 °F, at which the salometers of meat plants are calibrated."""

_TRIFLE = 1e-9  # relative; a reading worked out for plain water or saturated brine may lie this far outside


class Instrument(NamedTuple):
    """What it shows for salt, sugar (shares of the solution) and °C; where it is made for; the warmest it goes."""

    shows: Callable[[float, float, float], float]
    celsius: float
    warmest: float
    unit: str


def _salt_meter(salt: float, sugar: float, celsius: float) -> float:
    if sugar == 0.0:
        return salt
    return sweetened.share_by_conductivity(sweetened.conductivity(salt, sugar, solution.ROOM))


def _gravity(salt: float, sugar: float, celsius: float) -> float:
    return 1.0 / (sweetened.volume(salt, sugar, celsius) * solution.density_at(solution.SIXTY_F)(0.0))


def _baume(salt: float, sugar: float, celsius: float) -> float:
    return scales.baume(_gravity(salt, sugar, celsius))


def _salometer(made_for: float) -> Callable[[float, float, float], float]:
    def shows(salt: float, sugar: float, celsius: float) -> float:
        curve = solution.density_at(made_for)
        share = curve.inverse(1.0 / sweetened.volume(salt, sugar, celsius))
        return share * 100.0 / scales.SALOMETER_FULL

    return shows


def _brix(salt: float, sugar: float, celsius: float) -> float:
    return sweetened.brix(sweetened.refractive_index(salt, sugar, celsius))


INSTRUMENTS: Dict[str, Instrument] = {
    "salt meter": Instrument(_salt_meter, solution.ROOM, solution.WARMEST, "share"),
    "conductivity": Instrument(sweetened.conductivity, solution.ROOM, sweetened.WARMEST_CONDUCTIVITY, "mS/cm"),
    "salometer": Instrument(_salometer(solution.SIXTY_F), solution.SIXTY_F, solution.WARMEST, "degrees"),
    "salometer 38F": Instrument(_salometer(THIRTY_EIGHT_F), THIRTY_EIGHT_F, solution.WARMEST, "degrees"),
    "hydrometer": Instrument(_gravity, solution.SIXTY_F, solution.WARMEST, "sg"),
    "baume": Instrument(_baume, solution.SIXTY_F, solution.WARMEST, "degrees Baumé"),
    "refractive index": Instrument(sweetened.refractive_index, solution.ROOM, solution.WARMEST, ""),
    "brix": Instrument(_brix, solution.ROOM, solution.WARMEST, "degrees Brix"),
}


def strength(
    reading: float, instrument: str, temperature: Optional[float] = None, basis: str = "water", sugar: float = 0.0
) -> float:
    """The strength that a reading means, corrected for temperature and for dissolved sugar."""
    found, celsius = _conditions(instrument, temperature, sugar)
    limit = _saturated(sugar)
    low, high = found.shows(0.0, sugar, celsius), found.shows(limit, sugar, celsius)
    if not low - _TRIFLE * abs(low) <= reading <= high + _TRIFLE * abs(high):
        _refuse(reading, instrument, found, celsius, sugar, low, high)
    shows = found.shows
    salt = rising_root(lambda share: shows(share, sugar, celsius) - reading, 0.0, limit)
    return salt / (1.0 - salt - sugar) if basis == "water" else salt


def _saturated(sugar: float) -> float:
    """Salt as a share of the sweetened solution that its water holds at 20 °C, the sugar taken not to matter."""
    return solution.saturation(solution.ROOM) * (1.0 - sugar)


def _conditions(instrument: str, temperature: Optional[float], sugar: float) -> Tuple[Instrument, float]:
    found = INSTRUMENTS[instrument]
    celsius = found.celsius if temperature is None else temperature
    if not solution.COLDEST <= celsius <= found.warmest:
        raise OutOfRange(
            f"must be from {degrees(0.0)} to {degrees(found.warmest)} for this instrument",
            argument="temperature",
            got=degrees(celsius),
            advice="cool a sample, or leave the temperature out if the instrument corrects for it",
        )
    if not 0.0 <= sugar <= sweetened.MOST_SUGAR:
        raise OutOfRange(
            f"must be from 0 to {solution.percent(sweetened.MOST_SUGAR)} of the solution",
            argument="sugar",
            got=solution.percent(sugar),
            nearest=min(max(sugar, 0.0), sweetened.MOST_SUGAR),
        )
    return found, celsius


def _refuse(
    reading: float, instrument: str, found: Instrument, celsius: float, sugar: float, low: float, high: float
) -> None:
    is_share = found.unit == "share"
    shown = [solution.percent(v) if is_share else f"{round(v, 9) + 0.0:.5g}" for v in (low, high)]
    unit = "" if is_share or not found.unit else f" {found.unit}"
    given = solution.percent(reading) if is_share else f"{reading:.6g}{unit}"
    tool = "conductivity meter" if instrument == "conductivity" else instrument
    where = f"the {tool} at {degrees(celsius)}" + (f" with {solution.percent(sugar)} sugar" if sugar else "")
    advice = f"{shown[0]} is no salt, {shown[1]} a saturated brine"
    if is_share and reading >= 1.0:
        advice = misread.as_per_cent(reading, high)
    kind = Impossible if sugar and reading < low else OutOfRange
    raise kind(
        f"must be from {shown[0]} to {shown[1]}{unit} for {where}",
        argument="reading",
        got=given,
        advice=advice,
        nearest=low if reading < low else high,
    )
