"""What is salted so that it keeps, and not for taste.

One idea: it is the salt of the water inside that keeps food; where a row does not say how much goes in, meat and fish
that are salted dry in the cold are salted goods by custom.
"""

from __future__ import annotations

from typing import Optional

from brinecalc.trade import flesh, limits, methods, packs
from brinecalc.trade.row import Row

_SALTED_WHOLE = frozenset(("pork", "beef", "lamb", "fish"))
"""What is salted dry for weeks in the cold by custom; poultry is not."""


def is_for_keeping(row: Row) -> bool:
    """Whether so much salt goes in that it is salted goods, as far as the row says how much; dry, by custom, if not."""
    found = _salt_of_water(row)
    if "dry equilibrium" in methods.ways(row.text("method")):
        if found is not None:
            return found >= limits.value("botulinum cold salt")
        by_custom = row.group in _SALTED_WHOLE or (not row.group and flesh.is_flesh(row))
        return by_custom and packs.is_at_most(row, limits.value("brine temperature"))
    return found is not None and not limits.find("keeping salt").passed_by(found)


def _salt_of_water(row: Row) -> Optional[float]:
    """Salt of the water inside, as analysed or as it comes to in the end; None where the row does not say."""
    analysed = row.number("water phase salt")
    if analysed is not None:
        return analysed
    weight, water, share = row.weight, row.number("water") or 0.0, row.product.water if row.product else 1.0
    if "dry equilibrium" in methods.ways(row.text("method")):
        salt, target = row.number("salt"), row.number("target")
        if salt is not None and weight and not water:
            return salt / weight / share
        return None if target is None else target / share
    strength = row.number("strength")
    if strength is not None and water and weight:
        return strength * water / (water + weight * share)
    return strength
