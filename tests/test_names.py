"""Names that are not known: a slip of the keyboard is led to the name that was meant, anything else nowhere."""

from __future__ import annotations

import difflib

import pytest
from each import each

from brinecalc.names import Names, fold
from brinecalc.registry import why
from brinecalc.trade import ingredients, limits, products

SLIPS = {
    "chiken brest": "chicken breast", "turky": "whole turkey", "samon": "salmon fillet", "shimp": "peeled shrimp",
    "beef brisquet": "beef brisket", "lam leg": "lamb leg", "cucmber": "cucumber", "cod filet": "cod fillet",
    "pork tenderlion": "pork tenderloin", "prok chop": "pork chop", "tofoo": "firm tofu", "dill pickles": "cucumber",
}  # fmt: skip
MISSPELT = {
    "rosmary": "fresh rosemary", "tyme": "fresh thyme", "garlick": "fresh garlic", "vinigar": "vinegar",
    "corriander": "coriander seed", "mapel syrup": "maple syrup", "dextros": "dextrose", "fish sause": "fish sauce",
    "tripolyphospate": "sodium tripolyphosphate", "sodium erithorbate": "sodium erythorbate",
}  # fmt: skip


@each(("typed", "meant"), SLIPS.items())
def test_a_misspelt_product_is_named_first(typed: str, meant: str) -> None:
    assert products.names().nearest(typed)[0] == meant


@each(("typed", "meant"), MISSPELT.items())
def test_a_misspelt_ingredient_is_named_first(typed: str, meant: str) -> None:
    assert ingredients.names().nearest(typed)[0] == meant


@pytest.mark.parametrize(
    ("typed", "meant"),
    {"nitrite bacon": "nitrite dry bacon", "bacon pumped nitrite": "nitrite pumped bacon"}.items(),
)
def test_a_name_that_has_all_the_words_is_named_before_one_that_looks_alike(typed: str, meant: str) -> None:
    assert limits.everywhere().nearest(typed)[0] == meant


@each(
    "typed",
    [
        "chocolate cake",
        "potatoes",
        "ostrich",
        "bread",
        "kangaroo",
        "octopus",
        "aubergine",
        "catfish",
        "pastrami",
    ],
)
def test_another_food_is_not_taken_for_a_product_we_have(typed: str) -> None:
    assert products.names().nearest(typed) == []
    said = why("SOAK_HOURS", typed, 25, 0.01, 0.06)
    assert "did you mean" not in said
    assert f"none of the {len(products.names().names)} product names is like it" in said


@pytest.mark.parametrize("typed", ["unicorn dust", "plutonium", "peanut butter"])
def test_something_else_is_not_taken_for_an_ingredient(typed: str) -> None:
    assert ingredients.names().nearest(typed) == []


@each("typed", ["sodium benzoate", "potassium sorbate", "sodium propionate", "calcium propionate"])
def test_a_salt_is_not_taken_for_another_of_the_same_metal(typed: str) -> None:
    assert ingredients.names().nearest(typed) == []
    assert "did you mean" not in why("WATER_IN", 1000, typed)


@each(
    ("typed", "meant"),
    [("sodium erithorbate", "sodium erythorbate"), ("potasium carbonate", "potassium carbonate"),
     ("sodium citrat", "sodium citrate"), ("calcium chlorid", "calcium chloride")],
)  # fmt: skip
def test_a_misspelt_salt_is_still_named_first(typed: str, meant: str) -> None:
    assert ingredients.names().nearest(typed)[0] == meant


@each("typed", ["prague powder", "prague salt", "curing sallt mix", "pink salt nitrite", "nitrite powder"])
def test_what_speaks_of_a_cure_is_led_to_its_grade_and_to_nothing_harmless(typed: str) -> None:
    said = why("WATER_IN", 1000, typed)
    assert "did you mean" not in said
    assert '"curing salt no. 1" or "curing salt no. 2"' in said


@each("typed", ["peracetic acid", "peroxyacetic acid", "lye flakes", "sulphite mix"])
def test_what_can_hurt_is_led_to_nothing_harmless(typed: str) -> None:
    said = why("WATER_IN", 1000, typed)
    assert "did you mean" not in said
    assert "what can hurt is never guessed at" in said


@each("typed", ["potassium sorbate", "Sodium benzoate", "sorbic acid", "E202", "E 211", "natamycin", "Kaliumsorbat"])
def test_a_preservative_is_called_one_and_no_level_is_suggested(typed: str) -> None:
    """Not even vitamin C is offered in its place, which is what the letters of sorbic acid are most like."""
    said = why("WATER_IN", 1000, typed)
    assert "it is a preservative" in said
    assert "its label" in said
    assert "your own ingredients" in said
    assert "did you mean" not in said
    assert not any(sign.isdigit() or sign == "%" for sign in said.replace(typed, ""))


@each("typed", ["no nitrite", "nitrite-free rub", "Without nitrite"])
def test_a_name_that_denies_nitrite_is_not_asked_which_curing_salt_it_is(typed: str) -> None:
    for said in (why("WATER_IN", 1000, typed), why("DOSE", 1000, 0.01, typed)):
        assert "it says that it has no nitrite: leave it out, or write its plain name" in said
        assert "which curing salt" not in said
        assert "did you mean" not in said


@each("typed", ["fairy dust", "peanut butter", "xanthan"])
def test_what_is_like_nothing_that_can_hurt_is_not_said_to_be(typed: str) -> None:
    said = why("WATER_IN", 1000, typed)
    assert f"none of the {len(ingredients.names().names)} ingredient names is like it" in said
    assert "can hurt" not in said


@each("typed", ["orange juice, preservative free", "lemon juice without preservatives"])
def test_what_has_no_preservative_is_not_called_one(typed: str) -> None:
    assert "preservative, and" not in why("WATER_IN", 1000, typed)


@pytest.mark.parametrize("least", [0.65, 0.85])
def test_what_is_ruled_out_by_its_letters_alone_is_not_like_enough(least: float) -> None:
    """The likest names are those that comparing every name gives."""
    spellings = [spelling for made in ingredients.shipped() for spelling in (made.name, *made.aliases)]
    spellings += ["соль морская", "粗塩", "mix 1001", "aaaaaaaa"]
    names = Names("ingredient", [(key, (), key) for key in {fold(spelling) for spelling in spellings}])
    odd = ("a", "zzz", "saltsaltsalt", "соль морский", "粗塩塩", "xim 1010", "aaaaaaaaaa", "øøøøæ")
    for typed in (*SLIPS, *MISSPELT, *odd, *spellings[::40]):
        every = difflib.get_close_matches(fold(typed), names.names, 9, least)
        assert names._like(fold(typed), 9, least) == every
