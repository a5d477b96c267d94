"""What a brine costs and how many packs to buy for it.

One idea: purchasing thinks in packs and kitchens in grams, and every function here carries a figure from one to
the other without letting a weight, a volume and a number of pieces be mixed up.
"""

from __future__ import annotations

from typing import Any, Dict, Tuple

from brinecalc.catalogue import worksheet_function
from brinecalc.errors import OutOfRange, Unreadable
from brinecalc.trade import costing

FAMILY = "Money"


def _amounts(given: Dict[str, Any]) -> None:
    """Reads what was given of packs and needs."""
    if "pack_size" in given:
        costing.positive(costing.amount(given["pack_size"], "pack_size"), "pack_size")
    for name in ("need", "on_hand"):
        if name in given:
            costing.not_negative(costing.amount(given[name], name), name)


def _mix(given: Dict[str, Any]) -> None:
    """Reads what was given of a mix and its prices."""
    if "masses" in given:
        costing.mix_rows(given["ingredients"], given["masses"])
    if "per" in given:
        _mass_of_price(given["per"])


@worksheet_function(family=FAMILY, so_far=_amounts)
def unit_cost(pack_price: float, pack_size: Any, usable: float = 1.0, per: str = "g") -> float:
    """Price of a gram, or of another unit, of what can be used of a pack.

    Parameters
    ----------
    pack_price : money
        Price of one pack [-]; at least 0. Example: 18.5.
    pack_size : amount
        What a pack holds, with its unit; a number alone is grams [g]. Example: "24 x 12 fl oz".
    usable : share
        Share of the pack that ends up used [-]; above 0, at most 1. Example: 90%.
    per : text
        Unit of the price [-]. Of the same kind as the pack: kg, lb, L, gal, each, dozen, 100 g. Example: "kg".

    Returns
    -------
    money
        Price per unit, in the money of pack_price [-].

    Notes: Without per, the price is per gram, so a pack by volume or by the piece needs it. A stroke such as 6/1 gal
    is refused, because it reads as a fraction; write 6 x 1 gal.
    Sources: definition
    Examples
    --------
    >>> unit_cost(30, "25 kg", 1, "kg")
    1.2
    >>> unit_cost(36, "24 x 12 fl oz", 1, "fl oz")
    0.125
    >>> unit_cost(6, "dozen", 1, "each")
    0.5
    """
    pack = costing.positive(costing.amount(pack_size, "pack_size"), "pack_size")
    unit = costing.positive(costing.amount(per, "per"), "per")
    return costing.unit_cost(pack_price, pack, usable, costing.priced_alike(unit, pack, per))


@worksheet_function(family=FAMILY, so_far=_mix)
def cost(
    ingredients: Tuple[Any, ...],
    masses: Tuple[Any, ...],
    price_names: Tuple[Any, ...],
    unit_costs: Tuple[Any, ...],
    per: str = "g",
) -> float:
    """Cost of a mix from its ingredients and a price list.

    Parameters
    ----------
    ingredients : column
        Names of what goes in [-]. Rows without a mass are passed over.
    masses : column
        Mass of each ingredient, as many cells as ingredients [g]. At least 0.
    price_names : column
        Names in the price list [-].
    unit_costs : column
        Price of each, as many cells as price_names [-]. At least 0.
    per : text
        Mass that the prices are for [-]. Such as g, kg, lb or 100 g. Example: "kg".

    Returns
    -------
    money
        Cost of the mix, in the money of the price list [-].

    Notes: Names are compared without regard to case, spaces and plural. An ingredient without a price is #N/A, never
    free: list water with the price 0. A name listed twice with different prices is #VALUE! when the mix uses it.
    Sources: definition
    Examples
    --------
    >>> cost(("water", "salt"), (10000, 500), ("Salt", "Water"), (0.9, 0.0), "kg")
    0.45
    """
    return costing.mix_cost(ingredients, masses, price_names, unit_costs, _mass_of_price(per))


def _mass_of_price(per: str) -> float:
    """Grams that a price is for."""
    unit = costing.amount(per, "per")
    if unit.kind != "mass":
        by = "by the piece with the weight of one" if unit.kind == "count" else "by volume with BRINE_WEIGHT"
        raise Unreadable(
            "must be a mass", argument="per", got=f'"{per}"', advice=f"write kg or lb, and price what is sold {by}"
        )
    if unit.value <= 0:
        raise OutOfRange("must be above 0 g", argument="per", got=f'"{per}"', advice="write kg or lb")
    return unit.value


@worksheet_function(family=FAMILY, so_far=_amounts)
def packs(need: Any, pack_size: Any, on_hand: Any = 0.0, usable: float = 1.0) -> float:
    """Whole packs to buy to cover a need, after what is on hand.

    Parameters
    ----------
    need : amount
        What will be used, with its unit; a number alone is grams [g]. At least 0. Example: "60 kg".
    pack_size : amount
        What a pack holds, with its unit; a number alone is grams [g]. Example: "25 kg".
    on_hand : amount
        What is in stock, counted like need [g]. At least 0. Example: "10 kg".
    usable : share
        Share of a pack that ends up used [-]; above 0, at most 1. Example: 90%.

    Returns
    -------
    number
        Packs to buy, 0 when enough is on hand [packs].

    Notes: The need, pack_size and on_hand must be of one kind (weight, volume, length or pieces); write 30 eggs as
    "30 each". What is on hand counts as usable in full.
    Sources: definition
    Examples
    --------
    >>> packs(60000, "25 kg")
    3.0
    >>> packs("30 each", "dozen", "6 each")
    2.0
    """
    pack = costing.positive(costing.amount(pack_size, "pack_size"), "pack_size")
    wanted, stock = (
        costing.alike(costing.not_negative(costing.amount(cell, name), name), pack, name)
        for cell, name in ((need, "need"), (on_hand, "on_hand"))
    )
    return costing.packs(wanted.value, stock.value, pack.value, usable)
