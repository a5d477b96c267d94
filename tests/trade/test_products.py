"""Products are found by what a cook types, and a miss names the nearest."""

from __future__ import annotations

import pytest
from each import each

from brinecalc.errors import UnknownName
from brinecalc.trade import groups, products

TYPED = """
    Chicken Breast: chicken breast | chicken breasts: chicken breast
    boneless skinless chicken breast: chicken breast | BONE-IN CHICKEN BREAST: bone-in chicken breast
    bone in chicken breasts: bone-in chicken breast | chicken thighs: chicken thigh
    boneless chicken thighs: boneless chicken thigh | drumsticks: chicken drumstick | chicken legs: chicken leg
    chicken wings: chicken wing | wings: chicken wing | whole chicken: whole chicken | chicken: whole chicken
    spatchcock chicken: whole chicken | enhanced chicken: enhanced chicken thigh | turkey: whole turkey
    whole turkeys: whole turkey | turkey breast: turkey breast | turkey crown: bone-in turkey breast
    duck: whole duck | duck breasts: duck breast | goose: whole goose | quails: quail | pheasant: pheasant
    pork chops: pork chop | bone-in pork chops: bone-in pork chop | pork loin: pork loin
    pork tenderloin: pork tenderloin | pork fillet: pork tenderloin | belly: pork belly | bacon: pork belly
    coppa: pork collar | pork neck: pork collar | boneless pork shoulder: pork collar | pork collars: pork collar
    boston butt: pork shoulder | ham: ham leg | gammon: ham leg | spare ribs: pork spareribs
    ribs: pork spareribs | baby back ribs: pork back ribs | brisket: beef brisket | corned beef: beef brisket
    brisket flat: beef brisket flat | leg of lamb: lamb leg | salmon: salmon fillet
    side of salmon: salmon fillet | sockeye: sockeye salmon fillet | trout: trout fillet | cod: cod fillet
    pacific cod: pacific cod fillet | haddock: haddock fillet | sole: flatfish fillet | shrimp: peeled shrimp
    prawns: peeled shrimp | shell-on shrimp: shell-on shrimp | treated shrimp: treated shrimp | bacalao: salt cod
    tofu: firm tofu | extra firm tofu: extra firm tofu | feta: feta | mozzarella: mozzarella
    paneer: fresh white cheese | halloumi: fresh white cheese | eggs: hard-boiled egg | gherkins: cucumber
    cucumbers: cucumber | cabbage: cabbage | sauerkraut: cabbage | kimchi cabbage: napa cabbage | carrots: carrot
    jalapeno: chilli pepper | jalapeño: chilli pepper | zucchini: courgette | daikon: white radish
"""
PAIRS = [tuple(part.strip().split(": ")) for line in TYPED.split("\n") for part in line.split("|") if part.strip()]


def test_a_product_is_found_by_what_a_cook_types():
    assert [(typed, products.find(typed).name) for typed, _ in PAIRS] == PAIRS


@each(
    ("typed", "near"),
    [
        ("chiken brest", "chicken breast"),
        ("turky", "whole turkey"),
        ("porc chop", "pork chop"),
        ("samon", "salmon fillet"),
        ("shrimps peeled raw", "peeled shrimp"),
    ],
)
def test_a_miss_names_the_nearest(typed, near):
    with pytest.raises(UnknownName) as caught:
        products.find(typed)
    assert f'"{near}"' in caught.value.sentence()
    assert caught.value.argument == "product"


def test_the_example_product_of_the_documentation_stays():
    """Chicken breast: USDA SR27 05062, 73.9 % water and 45 mg sodium in 100 g; diffusivity an assumption like pork."""
    breast = products.find("chicken breast")
    assert (breast.water, breast.native_salt, breast.perishable) == (0.739, 0.00114, True)
    assert breast.diffusivity() == breast.diffusivity("typical") == 4e-10
    assert breast.diffusivity("slow") < breast.diffusivity() < breast.diffusivity("fast")


def test_what_is_bought_without_bone_or_skin_loses_nothing():
    assert products.find("boneless pork loin").refuse == products.find("skinless pork belly").refuse == 0.0
    assert products.find("bone-in pork loin").refuse == products.find("pork loin").refuse > 0.2
    for name in ("boneless pork loin", "skinless pork belly"):
        assert products.find(name).diffusivity() == products.find(name.split(" ", 1)[1]).diffusivity()


def test_meat_and_fish_are_perishable_and_pickles_are_not():
    for product in map(products.find, products.names().names):
        if groups.row(product.group)["kind"] in ("meat", "fish") or product.group in ("egg", "soy"):
            assert product.perishable, product.name
        if product.group == "vegetable":
            assert not product.perishable, product.name
