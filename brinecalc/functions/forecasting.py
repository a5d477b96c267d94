"""The worksheet function that learns from the cook's own salt meter.

One idea: a log is two columns of cells, filled in as the soak goes on; lines without a reading are passed over.
"""

from __future__ import annotations

from typing import Any, Dict, List, Optional, Tuple

from brinecalc import misread, quantity
from brinecalc.catalogue import worksheet_function
from brinecalc.errors import OutOfRange, Unreadable
from brinecalc.functions.time import FAMILY, Size
from brinecalc.science import soaking, solution
from brinecalc.trade import products
from brinecalc.trade.pieces import piece, told_warm


def _so_far(given: Dict[str, Any]) -> None:
    """Reads what was given of a log, and looks the product up."""
    products.check(given)
    if "product" not in given:
        for name, dimension in (("hours", "time"), ("readings", "share")):
            for row, cell in enumerate(given.get(name, ()), 1):
                if cell is not None:
                    quantity.read_in_row(cell, dimension, name, row)


@worksheet_function(family=FAMILY, so_far=_so_far, remark=told_warm(2, 8))
def forecast(
    hours: Tuple[Any, ...],
    readings: Tuple[Any, ...],
    product: str,
    thickness: Size,
    target: float,
    strength: float,
    bath: float,
    part: str = "hours",
    temperature: float = soaking.REFERENCE,
    shape: Optional[str] = None,
    treatment: str = "none",
    native_salt: Optional[float] = None,
) -> float:
    """Hours still to go, from a log of bath readings, with a range that narrows as readings come in.

    Parameters
    ----------
    hours : column
        Hours since the product went in, one per reading, rising [h].
    readings : column
        What the stirred bath read then, as a share of the water; blank lines are passed over [-].
    product : name
        Product from the product table [-]. Example: "chicken breast".
    thickness : size
        Full thickness at the thickest part, diameter of a round piece, skin to open side for one face, or the three
        edges of a block [mm]; above 0, at most 2000. Example: 38.
    target : share
        Average salt wanted, of the product as it goes in, with the salt it brings [-]; above 0, below 1. Example: 1%.
    strength : share
        Strength of the brine at the start, of its water, up to what dissolves; 0 freshens [-]; at least 0, below 1.
        Example: 5%.
    bath : number
        Brine water over product weight [-]; at least 0.001, at most 1000000. Example: 1.
    part : {hours, fast, slow, diffusivity, dilution, doubtful}
        Hours to go, its fast or slow end, diffusivity (m2/s, as in this bath), share the bath is thinned by, or number
        of the reading that is probably wrong (0 none) [-].
    temperature : temperature
        Temperature of the brine [°C]; at least -2, at most 40.
    shape : {slab, one face, cylinder, sphere, block}
        How salt gets in; left out, the product's usual way: one face where skin, fat or bone shuts the other [-].
    treatment : {none, thawed, needled, tumbled, injected}
        What was done to the product: thawed is published, needled a judgement, tumbled common practice [-].
    native_salt : share
        Salt the product brings, when it is not the table's (treated or enhanced goods) [-]; at least 0, below 1.

    Returns
    -------
    number
        Hours from the last reading until the average is the target, or the part asked for [h].

    Notes: Every speed is weighed by how well it explains the readings, and by the product table. A meter that is out by
    a constant factor, a bath thinned by melting ice or drip, at the start or later, and one wrong reading are weighed
    as rival explanations, so that they are not taken for uptake; two readings can hardly tell them apart, and the range
    says so. Read early, and again after each doubling of time. In simulated logs the true finish lay between fast and
    slow at least 8 times in 10, less often only where water got in unseen half-way. A log far from the table mostly
    means that the thickness was measured wrongly. A reading of 0 in a salted bath counts as a blank.
    Sources: crank-1975, arrhenius-salt, judgement
    Examples
    --------
    >>> round(forecast((1, 2, 4), ("4.75%", "4.66%", "4.53%"), "chicken breast", 38, 0.01, 0.05, 1), 1)
    12.4
    >>> round(forecast((1, 2, 4), ("4.75%", "4.66%", "4.53%"), "chicken breast", 38, 0.01, 0.05, 1, "slow"), 1)
    18.6
    """
    from brinecalc.trade import forecasts  # read on first use: the whole fit, which only a log needs

    times, shares = _log(hours, readings, strength)
    it = piece(product, thickness, temperature, shape, treatment, "typical", native_salt)
    made = forecasts.forecast_for(
        product, thickness, temperature, shape, treatment, native_salt, times, shares, target, strength, float(bath)
    )
    return forecasts.part_of(made, part, it, times[-1])


def _log(
    hours: Tuple[Any, ...], readings: Tuple[Any, ...], strength: float
) -> Tuple[Tuple[float, ...], Tuple[float, ...]]:
    """The lines of the log that hold a reading, as hours and shares."""
    if len(hours) != len(readings):
        raise Unreadable(
            f"must have as many cells as hours ({len(hours)})",
            argument="readings",
            got=f"{len(readings)}",
            advice="let both ranges begin and end in the same rows",
        )
    times: List[float] = []
    shares: List[float] = []
    rows: List[int] = []
    for row, (hour, reading) in enumerate(zip(hours, readings), 1):
        if reading is None or (strength > 0.0 and reading == 0 and not isinstance(reading, bool)):
            continue
        if hour is None:
            raise Unreadable("is missing beside a reading", argument="hours", advice="enter when it was taken")
        times.append(quantity.read_in_row(hour, "time", "hours", row))
        shares.append(quantity.read_in_row(reading, "share", "readings", row))
        rows.append(row)
    for time, row in zip(times, rows):
        if not 0.0 <= time <= 1e5:
            raise OutOfRange("must be from 0 to 100000 h", argument="hours", got=f"{time:g} h in row {row}")
    for share, row in zip(shares, rows):
        if not 0.0 <= share < 1.0:
            advice = misread.as_per_cent(share, solution.strongest()) if share >= 1.0 else None
            raise OutOfRange(
                "must be from 0 to 100 %", argument="readings", got=f"{share:g} in row {row}", advice=advice
            )
    return tuple(times), tuple(shares)
