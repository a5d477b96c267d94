"""The lists of what a kitchen buys and brines with: every name, what it does, where it must stop, how it is added.

One idea: the recipe and the price list look up what the tables know of an ingredient, so the texts of a printed
recipe are the tables' own. Ingredients that are never given as a share of the water stand last, so that one list
serves to look up any of them and its beginning to choose from.
"""

from __future__ import annotations

from typing import Dict, List, Optional, Sequence, Tuple

from brinecalc.tables import load

NEVER_DOSED = ("cure", "alkali", "mineral acid")

GROUPS = ("product", "salt and cure", "sweetener", "aromatics", "other")
"""What money is spent on, in the order shown."""

_GROUP_OF_ROLE: Dict[str, str] = {
    "salt": "salt and cure", "salt substitute": "salt and cure", "cure": "salt and cure", "sweetener": "sweetener",
    "herb": "aromatics", "spice": "aromatics", "aromatic": "aromatics", "seasoning": "aromatics", "sauce": "aromatics",
}  # fmt: skip

_WORDS = {
    "cure": "curing salt", "drink": "soft drinks", "calcium": "calcium salts", "base": "soda and other bases", "acid": "acids",
    "juice": "juices", "vinegar": "vinegar", "wine": "wine", "phosphate": "phosphates", "alkali": "lye and lime",
}  # fmt: skip
"""Roles as a cook says them."""

_TURNS: Tuple[Tuple[str, ...], ...] = (
    ("phosphate",),
    ("salt", "salt substitute"),
    ("sweetener",),
    ("herb", "spice", "aromatic"),
    ("stock", "sauce", "seasoning"),
    ("drink", "dairy", "wine", "juice", "vinegar"),
    ("antioxidant", "preservative"),
    ("acid", "base"),
    ("calcium",),
    ("cure", "alkali", "mineral acid"),
)
"""Roles in the order in which they go in: what dissolves badly or needs heat first, what heat or salt spoils last."""

LIQUID_TURN, ICE_TURN, SALT_TURN, CURE_TURN = 6, 7, 2, 11
WATER_TURN = 0


def turn(role: str) -> int:
    """The place of a role in the order of adding; ice, which chills what was warm, comes before the cold additions."""
    place = next(number for number, roles in enumerate(_TURNS, 1) if role in roles)
    return place if place < ICE_TURN else place + 1


def _ceiling(figures: Dict[Tuple[str, str], load.Row], name: str, use: str) -> Tuple[Optional[float], Optional[str]]:
    """Where an ingredient must stop in one use, and what kind of ceiling that is."""
    row = figures.get((name, use))
    if row is None or row["ceiling"] is None:
        return None, None
    return row["ceiling"], f"{row['kind']}, {row['of_what'] or 'water'}"


def columns() -> List[Tuple[str, str, Sequence[object]]]:
    """Each list as its workbook name, its heading and its values."""
    rows = sorted(load.rows("ingredients"), key=lambda row: (row["role"] in NEVER_DOSED, row["name"].lower()))
    names = [row["name"] for row in rows]
    dosed = [row["name"] for row in rows if row["role"] not in NEVER_DOSED]
    figures = {(row["ingredient"], use): row for row in load.rows("doses") for use in row["uses"]}
    made: List[Tuple[str, str, Sequence[object]]] = [
        ("ingredient_names", "Ingredients", names),
        ("list_role", "What it does", [row["role"] for row in rows]),
        ("list_turn", "Turn in adding", [turn(row["role"]) for row in rows]),
    ]
    for use in ("immersion", "injection", "vegetable"):
        ceilings = [_ceiling(figures, name, use) for name in names]
        made.append((f"list_stop_{use}", f"Ceiling, {use}", [figure for figure, _ in ceilings]))
        made.append((f"list_stop_kind_{use}", "Kind of ceiling", [kind for _, kind in ceilings]))
    made += [
        ("list_add", "How to add it", [row["add"] for row in rows]),
        (
            "list_avoid",
            "Must not meet",
            [", ".join(_WORDS.get(each, each) for each in row["avoid"]) or None for row in rows],
        ),
        ("list_allergens", "Allergens it may bring", [", ".join(row["allergens"]) or None for row in rows]),
        ("dosed_names", "Ingredients by a share of the water", dosed),
    ]
    return made + _bought(rows)


def _bought(rows: Sequence[load.Row]) -> List[Tuple[str, str, Sequence[object]]]:
    """Everything a price list may name, and what kind of spending it is."""
    products = sorted(row["name"] for row in load.rows("products"))
    cures = [row["cure"] for row in load.rows("cures") if 0 < row["nitrite"] < 1]
    groups = dict.fromkeys(products, "product")
    for row in rows:
        groups.setdefault(row["name"], _GROUP_OF_ROLE.get(row["role"], "other"))
    for name in cures:
        groups.setdefault(name, "salt and cure")
    groups.setdefault("ice", "other")
    names = [*products, *sorted((name for name in groups if name not in set(products)), key=str.lower)]
    return [
        ("bought_names", "Products and ingredients", names),
        ("list_spending", "Kind of spending", [groups[name] for name in names]),
    ]
