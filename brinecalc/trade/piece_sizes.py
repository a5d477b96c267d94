"""How large a piece of a product is: what is believed of its weight, and how thick it is at the most.

One idea: the figures are far apart, since they are there to find a slip and not to judge a bird.
"""

from __future__ import annotations

from functools import cache
from typing import Dict, NamedTuple, Optional, Tuple

from brinecalc.tables import load
from brinecalc.trade import groups
from brinecalc.trade.products import Product


class Size(NamedTuple):
    """Grams of one piece as bought, between which it is believed, and its greatest thickness in mm."""

    lightest: Optional[float]
    heaviest: Optional[float]
    thickest: Optional[float]


_ANY = Size(None, None, None)


@cache
def _sizes() -> Dict[str, Size]:
    return {row["product"]: Size(row["lightest"], row["heaviest"], row["thickest"]) for row in load.rows("sizes")}


def of(product: Product) -> Size:
    """What is known of a product's pieces."""
    return _sizes().get(product.name, _ANY)


@cache
def thicknesses(product: Product) -> Tuple[float, ...]:
    """The thicknesses that the soak chart shows of a product: those of its group, up to the thickest there is."""
    most = of(product).thickest
    shown = (float(each) for each in groups.row(product.group)["thicknesses"])
    return tuple(each for each in shown if most is None or each <= most)
