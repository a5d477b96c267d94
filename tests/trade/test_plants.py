"""Vegetables and fruit without a row of the product table are judged as what they are, and nothing else is."""

from __future__ import annotations

import pytest

from brinecalc.errors import UnknownName
from brinecalc.tables import load
from brinecalc.trade import plants, products
from tests.trade.cases import CURED, found

PLANTS = """
    beetroot | beets | green beans | garlic cloves | peeled garlic | lemons | red onion | aubergine | eggplants
    Brussels sprouts | red cabbage | cherry tomatoes | green tomatoes | sliced celery | fennel bulbs | okra
    black kidney beans | oyster mushrooms | king oyster mushroom | carrot and celery | crab apples | sour cherries
    mustard leaves | artichoke hearts | Egg-plant | raw beetroot cubes | mixed vegetables | small pickled onions
    turnips | bell peppers | sauerkraut (cabbage) | potatoes for chips | quick pickled red onions | beans with dill
    dill pickles | beet kvass | french fries | hot sauce mash (red jalapenos and garlic) | pickled cucumbers in brine
"""
OTHERS = """
    chicken with garlic | garlic chicken | lemon sole | kidney and mushroom | kidney | boiled potatoes | cooked beans
    garlic in oil | bean sprouts | cut melon | lettuce | beef tomato stew | duck and orange | oyster | lamb hearts
    hot fresh green | mushroom gravy | pork rind | stuffed peppers | crab | baked beans | egg | unicorn loin
    fish pickle | garlic in honey | mushroom sauce | potato mash | chips with fish | potatoes for the pie
"""


def names(text: str) -> list[str]:
    return [name.strip() for line in text.strip().split("\n") for name in line.split("|")]


def test_a_plant_ferments_in_a_warm_brine_and_has_no_time_of_its_own() -> None:
    row = {"strength": 0.035, "bath temperature": 20.0, "soak hours": 200.0}
    assert {name: found({"product": name, **row}) for name in names(PLANTS)} == {
        name: ["ferment-ph", "product-plant"] for name in names(PLANTS)
    }
    with pytest.raises(UnknownName):
        products.find("beetroot")


def test_what_is_more_than_a_plant_stays_perishable() -> None:
    for name in names(OTHERS):
        assert not plants.is_plant(name), name
        assert "brine-warm" in found({"product": name, "bath temperature": 20.0}), name


def test_two_columns_of_products_are_a_plant_only_when_both_are() -> None:
    assert "product-plant" in found({"item": "garlic", "product": "lemons"})
    assert "product-plant" not in found({"item": "garlic", "product": "unicorn loin"})


def test_rules_for_vegetables_hold_for_them() -> None:
    assert "cure-no-rule" in found({**CURED, "product": "beetroot"})
    olives = found({"product": "green olives", "acid": "lye"})
    assert "alkali-gear" in olives
    assert "alkali-raw" not in olives
    assert "sealed-low-acid" in found(
        {"product": "garlic cloves", "packaging": "in oil, jar", "bath temperature": 20.0}
    )
    assert "sealed-low-acid" in found({"product": "green beans", "packaging": "tub, under oil"})
    hot = {"product": "red onion", "liquid": "vinegar", "bath temperature": 60.0, "soak hours": 1.0}
    assert not {"brine-warm-start", "brine-warm"} & set(found(hot))


def test_fruit_that_is_sour_by_itself_may_stand_in_a_jar() -> None:
    """21 CFR 114.3(a), read: an acid food is at pH 4.6 or below by nature; lemons at 2.0 to 2.6, from memory."""
    closed = {"packaging": "jar", "bath temperature": 20.0}
    assert "sealed-low-acid" not in found({"product": "preserved lemons", **closed})
    assert "sealed-low-acid" in found({"product": "preserved lemons", **closed, "ph": 4.8})
    assert "sealed-low-acid" in found({"product": "lemon and garlic", **closed})
    assert "sealed-low-acid" in found({"product": "cherry tomatoes", **closed})


def test_words_of_plants_stand_once_and_name_no_flesh() -> None:
    rows = load.rows("plants")
    assert len(rows) == len({row["word"] for row in rows}) == 288
    assert all(row["sort"] == "plant" for row in rows if row["airless"])
    known = [products.find(row["word"]) for row in rows if row["sort"] == "plant" and row["word"] in products.names()]
    assert {product.group for product in known} == {"vegetable"}
