"""A log of bath readings turned into hours to go, with a range, and into what else the log shows.

One idea: the log is read against one piece in one bath, and everything asked about it comes from one fit, which is
remembered, so that a row of cells asking for its parts costs a single fit.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import NamedTuple, Optional, Tuple

from brinecalc.errors import Impossible, OutOfRange
from brinecalc.quantity import show
from brinecalc.science import forecast, soaking, solution
from brinecalc.science.soak_log import Soak
from brinecalc.trade import products, treatments
from brinecalc.trade.pieces import Piece, Thickness, check_brine, check_soaks, check_warm, piece
from brinecalc.trade.soaks import unreachable

MOST_READINGS = 100
_MOST_THINNED = 1.0 / 3.0
"""Share of its strength that ice or drip may take from a bath; thinner it is another brine: judgement. Baths weighed
before and after would settle it."""
_FAR_OFF = 0.08
"""Share of the strength by which the middle reading may miss the likeliest soak; farther off, the log is about
something else: judgement. Logs of one product under another's name would settle it."""


class Forecast(NamedTuple):
    """Hours to go (typical, fast, slow; infinite when the bath may never get there) and what the log shows."""

    hours: float
    fast: float
    slow: float
    diffusivity: float
    """m²/s at the bath's temperature."""
    dilution: float
    """Share by which water seems to have thinned the bath, 0 for not at all."""
    doubtful: int
    """Number of the reading that is probably wrong, 0 for none."""


def read_log(it: Piece, hours: Tuple[float, ...], readings: Tuple[float, ...]) -> None:
    """Refuses a log that cannot be read as one."""
    if len(readings) < 2:
        raise OutOfRange("must hold at least two readings", argument="readings", got=str(len(readings)))
    if len(readings) > MOST_READINGS:
        raise OutOfRange(f"must hold at most {MOST_READINGS} readings", argument="readings", got=str(len(readings)))
    if any(later <= earlier for earlier, later in zip(hours, hours[1:])):
        raise OutOfRange("must rise from reading to reading", argument="hours", advice="enter the log in order of time")
    check_warm(it, hours[-1], "the log runs", given=True)


@lru_cache(maxsize=256)
def forecast_for(
    product: str,
    thickness: Thickness,
    celsius: float,
    shape: Optional[str],
    treatment: str,
    native: Optional[float],
    hours: Tuple[float, ...],
    readings: Tuple[float, ...],
    target: float,
    strength: float,
    bath: float,
) -> Forecast:
    """The forecast from a log of that soak."""
    it = piece(product, thickness, celsius, shape, treatment, "typical", native)
    check_soaks(it)
    check_brine(strength, celsius)
    read_log(it, hours, readings)
    soak = Soak(it.shape, it.rate / it.diffusivity, it.water, it.native_strength, strength, bath)
    found = products.find(product)
    speed = treatments.treatment(treatment).speed
    slow, typical, fast = (
        soaking.diffusivity(found.diffusivity(estimate), celsius, speed) for estimate in ("slow", "typical", "fast")
    )
    fitted = forecast.fit(soak, hours, readings, (slow, typical, fast))
    _check_likeness(soak, hours, readings, fitted, typical)
    outside = forecast.OUTSIDE
    done = forecast.finishes(fitted, target, (outside, 0.5, 1.0 - outside))
    if done[1] == math.inf:
        reached = it.water * soak.thin(forecast.thinned(fitted)).end
        raise unreachable(it, target, reached)
    early, middle, late = (max(finish - hours[-1], 0.0) for finish in done)
    return Forecast(
        middle, early, late, forecast.diffusivity(fitted), forecast.thinned(fitted), forecast.doubtful(fitted)
    )


def _check_likeness(
    soak: Soak, hours: Tuple[float, ...], readings: Tuple[float, ...], fitted: forecast.Fit, middle: float
) -> None:
    """Refuses readings that no speed of this soak explains: another basis, another unit, another bath."""
    expected = [math.nan]
    if fitted.lines and forecast.thinned(fitted) <= _MOST_THINNED:
        likely = soak.thin(forecast.thinned(fitted))
        expected = [likely.reading(forecast.diffusivity(fitted), t) for t in hours]
        off = sorted(abs(reading - e) for reading, e in zip(readings, expected))
        if off[(len(off) - 1) // 2] <= _FAR_OFF * max(soak.strength, soak.end):
            return
    if math.isnan(expected[-1]):
        expected[-1] = soak.reading(middle, hours[-1])
    raise OutOfRange(
        f"cannot come from this soak: the last should be about {solution.percent(expected[-1])}",
        argument="readings",
        got=show(readings[-1], "share"),
        advice="readings are shares of the water (BRINE_METER gives them); check strength, bath and product",
    )


def part_of(made: Forecast, part: str, it: Piece, last: float) -> float:
    """The part asked for; hours that would be too long above 5 °C, or that may be endless, are refused."""
    if part in ("hours", "fast", "slow"):
        value = {"hours": made.hours, "fast": made.fast, "slow": made.slow}[part]
        if value == math.inf:
            raise Impossible(
                "the log leaves it open whether this bath ever gets there",
                advice="take another reading, or strengthen the bath (BRINE_TOP_UP)",
            )
        check_warm(it, last + value, ("if salt goes in slowly, " if part == "slow" else "") + "the soak would take")
        return value
    return {"diffusivity": made.diffusivity, "dilution": made.dilution, "doubtful": float(made.doubtful)}[part]
