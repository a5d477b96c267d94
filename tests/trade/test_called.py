"""Names of food that hold the name of something else, and names of animals that stand in no table.

What each is stands in any book of food; a wrong one would hear the rules of another food, or none.
"""

from __future__ import annotations

from each import each

from brinecalc.trade import called, cured_fish, flesh, needles, row_reading
from tests.trade.cases import CURED, found, of

LEAVES = (
    "turkey tail", "turkey tail mushroom", "chicken of the woods", "hen of the woods", "pheasant back mushroom",
    "lobster mushroom", "beefsteak fungus", "oyster mushrooms", "lamb's lettuce", "lamb lettuce", "lamb's quarters",
    "bear garlic", "bear's garlic", "bear leek", "wild garlic", "horseradish", "horse radish", "duck potato",
    "ox heart tomato",
    "beefsteak tomato", "pigeon peas", "cow peas", "horse beans", "turtle beans", "hog plum", "dog rose", "fish mint",
    "duck egg", "quail eggs", "hen's eggs", "goat cheese", "buffalo mozzarella", "sheep's cheese", "gummy bears",
    "bear claw",
    "sheep sorrel", "horse chestnut", "partridge berries", "welsh rabbit",
)  # fmt: skip
"""Neither meat nor fish."""
FISHES = (
    "horse mackerel", "chub mackerel", "sea bass", "goose barnacles", "hogfish", "goatfish", "rabbitfish", "dogfish",
    "wolf fish", "turkey fish", "bombay duck", "rock salmon", "goosefish", "needle fish", "lingcod", "saithe", "shark",
    "langoustines", "cuttlefish", "whelks", "abalone", "surimi", "pangasius", "bonito", "yellowfin sole", "lemon sole",
)  # fmt: skip
MEATS = (
    "blade steak", "feather blade", "blade roast", "flat iron", "beef meatballs", "meatballs", "kofta", "hot dog",
    "horse steak",
    "moose roast", "caribou loin", "kangaroo", "ox tongue", "ox cheek", "pig trotters", "piglet", "suckling pig",
    "stag",
    "sirloin", "ribeye", "short ribs", "bear roast", "buffalo steak", "head cheese", "oyster blade", "ostrich fillet",
)  # fmt: skip
BIRDS = (
    "capon breast", "rooster", "cockerel", "squab", "pigeon breast", "partridge", "grouse", "woodcock", "mallard",
    "teal",
    "wild duck", "gosling", "wildfowl", "buffalo wings",
)  # fmt: skip


@each(
    ("names", "is_fish", "is_meat", "is_poultry"),
    [(LEAVES, False, False, False), (FISHES, True, False, False), (MEATS, False, True, False),
     (BIRDS, False, True, True)],
)  # fmt: skip
def test_a_name_is_taken_for_what_it_is(names, is_fish, is_meat, is_poultry):
    rows = {name: row_reading.read(["product"], [name]) for name in names}
    assert [name for name, row in rows.items() if flesh.is_fish(row) is not is_fish] == []
    assert [name for name, row in rows.items() if flesh.is_meat(row) is not is_meat] == []
    assert [name for name, row in rows.items() if flesh.is_poultry(row) is not is_poultry] == []


@each(
    "name", ["rock salmon", "chub mackerel", "salmon trout", "yellowfin sole", "bluefin trevally", "Australian salmon"]
)
def test_a_fish_called_after_another_may_carry_no_nitrite_for_it(name):
    """21 CFR 172.175 and 172.177 name sablefish, salmon, shad, tuna and chub, and no other fish."""
    assert cured_fish.listed(row_reading.read(["product"], [name])) is None


@each(
    ("product", "asked"),
    [
        ("bear salami", True), ("boar ham", True), ("horse salami", True), ("seal jerky", True), ("cougar jerky", True),
        ("bear garlic salami", False), ("bear's garlic", False), ("horse mackerel", False), ("hot dog sausage", False),
        ("wolf fish", False), ("horse bean", False), ("dog rose", False),
    ],
)  # fmt: skip
def test_worms_of_game_are_asked_about_by_the_animal_and_not_by_what_is_called_after_it(product, asked):
    """cdc-trichinella, the list of animals from memory."""
    assert ("trichinella" in found({**CURED, "product": product})) is asked


@each(
    ("name", "needled"),
    [
        ("bladed steak", True), ("needled beef", True), ("mechanically tenderised beef", True),
        ("blade tenderized pork", True),
        ("blade-tenderised steak", True), ("jaccarded flank", True), ("injected turkey", True),
        ("blade steak", False), ("shoulder blade lamb chop", False), ("pork blades", False),
        ("blade-end pork loin", False),
        ("pork tenderloin", False), ("not bladed pork", False), ("ham on pine needles", False),
    ],
)  # fmt: skip
def test_a_blade_is_a_cut_and_bladed_is_needled(name, needled):
    assert needles.are_in_the_name(name) is needled
    assert ("cure-pumped-before" in found({**CURED, "product": name})) is needled


def test_meat_smoked_over_needles_of_a_tree_is_not_opened_by_them() -> None:
    assert "cook-through" not in found({"product": "pork loin", "treatment": "smoked over pine needles"})
    assert "cook-through" in found({"product": "pork loin", "treatment": "pine smoke, needles"})


@each(
    ("product", "celsius", "limit"),
    [
        ("capon breast", 4.5, "4"),
        ("rooster legs", 4.5, "4"),
        ("squab", 4.5, "4"),
        ("beef meatballs", 3.0, "2"),
        ("lamb kofta", 3.0, "2"),
        ("Frikadellen", 3.0, "2"),
    ],
)
def test_birds_and_mince_are_kept_as_cold_as_their_like(product, celsius, limit):
    """eu-853-2004, as the table of limits has it: 4 °C for poultry, 2 °C for minced meat."""
    row = {"product": product, "rules": "EU", "bath temperature": celsius}
    (hit,) = of("cold-eu", row)
    assert f"is kept at {limit}" in hit.sentence
    assert "cold-eu" not in found({**row, "bath temperature": float(limit)})


@each("product", ["duck eggs", "goose egg", "bean meatballs", "lamb's lettuce"])
def test_what_is_neither_bird_nor_mince_is_not(product):
    assert "cold-eu" not in found({"product": product, "rules": "EU", "bath temperature": 4.5})


@each("sweet", ["honey", "manuka", "honeycomb", "Manuka UMF 10", "miel", "Honig"])
def test_honey_by_any_name_is_kept_from_babies(sweet):
    assert "honey-infant" in found({"product": "carrot", "sweetener": sweet, "note": "for a baby of 6 months"})


@each("text", ["honeycomb tripe", "honeydew", "bee balm"])
def test_what_is_called_after_honey_is_none(text):
    assert "honey-infant" not in found({"product": text, "note": "for a baby of 6 months"})


@each(
    ("text", "heard"),
    [("Turkey Tail", " mushroom "), ("hot dogs", " sausage "), ("chub mackerel fillet", " mackerel fillet "),
     ("duck egg", " egg "), ("duck with egg", " duck with egg "), ("bear", " bear ")],
)  # fmt: skip
def test_what_is_heard_of_a_name(text, heard):
    assert called.heard(text).split() == heard.split()
