"""What is put into brine: the product table as records, found by the name a cook would type.

One idea: a product is a row of ``tables/products.csv`` and nothing else, so a figure has one home and its source
travels with it. All shares are of the edible weight; diffusivities are in m2/s at 4 °C.
"""

from __future__ import annotations

from functools import cache
from typing import Any, Mapping, NamedTuple, Optional, Tuple

from brinecalc.names import Names
from brinecalc.tables import load

_NEAREST = "take the one that is nearest to it in kind and build, as lean beef for venison or peeled shrimp for squid"
"""What to type for a product that is in no row: a judgement of the trade, as good as the two are alike."""


class Product(NamedTuple):
    """One product: composition of the edible part, usual shape, and how fast salt moves in it."""

    name: str
    aliases: Tuple[str, ...]
    group: str
    water: float
    native_salt: float
    refuse: float
    shape: str
    d_slow: float
    d_typical: float
    d_fast: float
    d_basis: str
    perishable: bool
    cap_hours: Optional[float]
    thickness_note: str
    source: str
    source_place: Optional[str]
    note: Optional[str]

    def diffusivity(self, estimate: str = "typical") -> float:
        """Effective diffusivity of salt at 4 °C, m2/s: ``slow``, ``typical`` or ``fast``."""
        return {"slow": self.d_slow, "typical": self.d_typical, "fast": self.d_fast}[estimate]


@cache
def names() -> Names[Product]:
    """Every product under its name and aliases."""
    made = [Product(**row) for row in load.rows("products")]
    return Names("product", [(product.name, product.aliases, product) for product in made], otherwise=_NEAREST)


def find(name: str, argument: str = "product") -> Product:
    """The product of that name; UnknownName with the nearest names otherwise."""
    return names().find(name, argument)


def check(given: Mapping[str, Any]) -> None:
    """Refuses a product among the arguments given so far that is not in the table."""
    if "product" in given:
        find(given["product"])
