"""The soak chart: for every product, a few thicknesses and three strengths, the hours to soak and to rest.

One idea: soak and rest are Fourier numbers that do not depend on the diffusivity, so slow, typical and fast are one
soak at three speeds. The rows are plain data; a sheet or a printed page only lays them out.
"""

from __future__ import annotations

import math
from typing import Iterator, List, NamedTuple, Optional, Sequence, Tuple

from brinecalc.errors import BrineError
from brinecalc.science import diffusion, soaking
from brinecalc.trade import groups, limits, piece_sizes, products
from brinecalc.trade.pieces import check_brine, on_the_clock, piece

EVENNESS = 0.5
"""Salt added in the centre over that at the surface after the rest: no bite outside, a seasoned inside. A
judgement; tasting rim and centre side by side would settle it."""
ESTIMATES = ("fast", "typical", "slow")
_NOTHING = (None, None, None, None, None, None)


class Row(NamedTuple):
    """One line of the chart; hours are None, and the note says why, where that cannot be done."""

    product: str
    group: str
    shape: str
    thickness: float
    strength: float
    target: float
    soak_fast: Optional[float]
    soak: Optional[float]
    soak_slow: Optional[float]
    rest_fast: Optional[float]
    rest: Optional[float]
    rest_slow: Optional[float]
    note: str


def shown(hours: float) -> str:
    """Hours to two digits, which is all that is known of them: 0.72, 8.3, 41, 1100."""
    figure = float(f"{hours:.2g}")
    return f"{figure:.0f}" if figure >= 10 else f"{figure:.2g}"


def rows(
    names: Optional[Sequence[str]] = None,
    celsius: float = soaking.REFERENCE,
    bath: float = math.inf,
    target: Optional[float] = None,
    evenness: float = EVENNESS,
) -> List[Row]:
    """The whole chart, or that of some products; `target` instead of the one customary for each group."""
    chosen = products.names().names if names is None else names
    return [row for name in chosen for row in _of(products.find(name), celsius, bath, target, evenness)]


def _of(
    product: products.Product, celsius: float, bath: float, target: Optional[float], evenness: float
) -> Iterator[Row]:
    plan = groups.row(product.group)
    wanted = plan["target"] if target is None else target
    for thickness in piece_sizes.thicknesses(product):
        for per_cent in plan["strengths"]:
            strength = float(per_cent) / 100.0
            yield _row(product, thickness, strength, wanted, celsius, bath, evenness)


def _row(
    product: products.Product,
    thickness: float,
    strength: float,
    target: float,
    celsius: float,
    bath: float,
    evenness: float,
) -> Row:
    head = (product.name, product.group, product.shape, thickness, strength, target)
    try:
        check_brine(strength, celsius)
        rates = [piece(product.name, thickness, celsius, estimate=estimate).rate for estimate in ESTIMATES]
    except BrineError as error:
        return Row(*head, *_NOTHING, error.sentence())
    native, a = product.native_salt / product.water, bath / product.water
    end = soaking.final(native, strength, a)
    if target <= product.native_salt:
        return Row(*head, *_NOTHING, "already as salty as this: no brine, or a weaker target")
    fraction = soaking.fraction_of_way(product.water, native, end, target) if end > native else 1.0
    if fraction >= 1.0:
        return Row(*head, *_NOTHING, f"this bath ends at {100.0 * product.water * end:.2g} %: stronger, or more of it")
    soak = diffusion.fourier_for(fraction, product.shape, a)
    rest = diffusion.rest_for(evenness, soak, product.shape, a)
    soaks, rests = _at(soak, rates), _at(rest, rates)
    warm, most = on_the_clock()
    if product.perishable and celsius > limits.value("brine start temperature"):
        return Row(*head, *_NOTHING, f"far above {warm:g} °C: never into a brine this warm")
    if product.perishable and celsius > warm and soaks[2] + rests[2] > most:  # also if salt goes in slowly
        if soaks[1] > most:
            return Row(*head, *_NOTHING, f"more than {most:g} h above {warm:g} °C: colder, thinner or injected")
        limit = f"at most {most:g} h above {warm:g} °C, all told: rest it colder"
        return Row(*head, *soaks, *_NOTHING[:3], limit)
    return Row(*head, *soaks, *rests, _note(product, soaks[1], rests[1]))


def _at(fourier: float, rates: Sequence[float]) -> Tuple[float, float, float]:
    fast, typical, slow = rates
    return fourier / fast, fourier / typical, fourier / slow


def _note(product: products.Product, soak: float, rest: float) -> str:
    """What a cook must know of these hours before following them."""
    keeps, longer = limits.value("date mark"), []
    if product.cap_hours is not None and soak > product.cap_hours:
        longer.append(f"longer than the customary {product.cap_hours:g} h")
    if product.group in groups.FLESH and soak + rest > keeps:
        longer.append("longer than it keeps")
    if not longer:
        return ""
    way = "thinner, stronger, needled or injected" if soak > (product.cap_hours or keeps) else "thinner, or rested less"
    return f"{' and '.join(longer)}: {way}"
