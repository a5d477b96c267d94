"""Ingredients are found by every name a cook would type, or the nearest is named; what must not meet is known."""

from __future__ import annotations

import pytest
from each import each

from brinecalc.errors import UnknownName
from brinecalc.tables import load
from brinecalc.trade import doses, ingredients, volumes

TYPED = """
    Salt: salt | NaCl: salt | kosher salt: salt | sea salt: salt | table salt: table salt
    iodized salt: table salt | canning salt: pickling salt | coarse sea salt: coarse sea salt
    flaky salt: pyramid flake salt | Himalayan salt: Himalayan pink salt | rock salt: rock salt
    KCl: potassium chloride | salt substitute: potassium chloride | sugar: white sugar | white sugar: white sugar
    Caster sugar: white sugar | granulated sugar: white sugar | brown sugar: brown sugar
    light brown sugar: brown sugar | demerara: raw sugar | icing sugar: powdered sugar | honey: honey
    maple syrup: maple syrup | molasses: molasses | treacle: molasses | golden syrup: golden syrup
    corn syrup: light corn syrup | HFCS: high-fructose corn syrup | dextrose: dextrose
    dextrose monohydrate: dextrose | fructose: fructose | agave: agave syrup | agave nectar: agave syrup
    malt syrup: malt syrup | jaggery: palm sugar | piloncillo: palm sugar | rice syrup: rice syrup
    invert sugar: invert sugar syrup | lactose: lactose | lemon juice: lemon juice
    fresh lemon juice: lemon juice | lime juice: lime juice | orange juice: orange juice | OJ: orange juice
    apple cider: apple juice | apple juice: apple juice | pineapple juice: pineapple juice
    pickle juice: pickle juice | vinegar: vinegar | white vinegar: vinegar | distilled vinegar: vinegar
    apple cider vinegar: cider vinegar | ACV: cider vinegar | red wine vinegar: red wine vinegar
    balsamic: balsamic vinegar | rice vinegar: rice vinegar | malt vinegar: malt vinegar
    sherry vinegar: sherry vinegar | red wine: red wine | white wine: white wine | wine: red wine
    sake: rice wine | mirin: mirin | port: port or sherry | beer: beer | stout: beer | cola: cola
    ginger ale: ginger ale | hard cider: hard cider | tea: brewed tea | coffee: brewed coffee
    buttermilk: buttermilk | yogurt: yoghurt | yoghurt: yoghurt | kefir: kefir | milk: milk | stock: stock
    chicken broth: stock | dashi: dashi | soy sauce: soy sauce | shoyu: soy sauce | tamari: tamari
    fish sauce: fish sauce | nuoc mam: fish sauce | Worcestershire sauce: worcestershire sauce | miso: miso
    hot sauce: hot sauce | dijon mustard: prepared mustard | liquid smoke: liquid smoke | bourbon: spirits
    vanilla: vanilla extract | MSG: monosodium glutamate | msg: monosodium glutamate | baking soda: baking soda
    bicarb: baking soda | bicarbonate of soda: baking soda | sodium bicarbonate: baking soda
    washing soda: washing soda | kansui: washing soda | citric acid: citric acid | lactic acid: lactic acid
    ascorbic acid: ascorbic acid | vitamin C: ascorbic acid | malic acid: malic acid
    tartaric acid: tartaric acid | cream of tartar: cream of tartar | GDL: glucono delta-lactone
    STPP: sodium tripolyphosphate | sodium tripolyphosphate: sodium tripolyphosphate
    E451: sodium tripolyphosphate | SHMP: sodium hexametaphosphate | TSPP: tetrasodium pyrophosphate
    SAPP: sodium acid pyrophosphate | DSP: disodium phosphate | TSP: trisodium phosphate
    sodium citrate: sodium citrate | calcium chloride: calcium chloride | CaCl2: calcium chloride
    nigari: magnesium chloride | calcium lactate: calcium lactate | sodium erythorbate: sodium erythorbate
    sodium ascorbate: sodium ascorbate | sodium lactate: sodium lactate | cure #1: curing salt no. 1
    Cure No. 1: curing salt no. 1 | pink curing salt: curing salt no. 1 | pink salt: curing salt no. 1
    curing salt: curing salt no. 1 | cure 2: curing salt no. 2 | nitrite salt: nitrite salt 0.6 %
    Pökelsalz: nitrite salt 0.6 % | sodium nitrite: sodium nitrite | saltpetre: potassium nitrate
    saltpeter: potassium nitrate | celery powder: cultured celery powder | lye: lye | caustic soda: lye
    pickling lime: slaked lime | slaked lime: slaked lime | parsley: fresh parsley
    flat-leaf parsley: fresh parsley | dill: fresh dill | dill weed: fresh dill | dill seed: dill seed
    cilantro: fresh coriander | basil: fresh basil | chives: fresh chives | mint: fresh mint
    tarragon: fresh tarragon | thyme: fresh thyme | Thyme sprigs: fresh thyme | dried thyme: dried thyme
    oregano: dried oregano | rosemary: fresh rosemary | dried rosemary: dried rosemary | sage: fresh sage
    rubbed sage: dried sage | marjoram: dried marjoram | bay: bay leaf | bay leaves: bay leaf | Bay Leaf: bay leaf
    lemongrass: lemongrass | kaffir lime leaves: makrut lime leaf | herbes de provence: italian herbs
    black pepper: black peppercorns | peppercorns: black peppercorns | white pepper: white peppercorns
    Sichuan pepper: sichuan pepper | coriander seed: coriander seed | coriander seeds: coriander seed
    mustard seeds: mustard seed | yellow mustard seed: mustard seed | fennel seed: fennel seed
    caraway: caraway seed | cumin: cumin seed | star anise: star anise | allspice: allspice
    allspice berries: allspice | cloves: cloves | clove: cloves | whole cloves: cloves | cinnamon: cinnamon
    cinnamon stick: cinnamon | nutmeg: nutmeg | mace: mace | cardamom: cardamom | juniper: juniper berries
    juniper berry: juniper berries | turmeric: turmeric | paprika: paprika | smoked paprika: paprika
    chilli flakes: dried chilli | red pepper flakes: dried chilli | cayenne: dried chilli
    chili powder: chilli powder | curry powder: curry powder | saffron: saffron | pickling spice: pickling spice
    five spice: five-spice powder | garlic powder: garlic powder | onion powder: onion powder
    garlic: fresh garlic | garlic cloves: fresh garlic | onion: onion | onions: onion | shallots: shallot
    leek: leek | celery: celery | carrots: carrot pieces | ginger: fresh ginger | jalapeño: fresh chilli
    lemon zest: lemon zest | orange peel: lemon zest | lemon slices: lemon slices
    horseradish: prepared horseradish | capers: capers | anchovies: anchovy | kombu: kombu
    herbs: herbs and spices | spices: herbs and spices | gelatin: gelatine | water: water | ice: water
    citrate: sodium citrate
"""
PAIRS = [tuple(part.strip().split(": ")) for line in TYPED.split("\n") for part in line.split("|") if part.strip()]


def test_there_are_spellings_enough():
    assert len({typed for typed, _ in PAIRS}) >= 200


def test_an_ingredient_is_found_by_what_a_cook_types():
    assert [(typed, ingredients.find(typed).name) for typed, _ in PAIRS] == PAIRS


@each(
    ("typed", "near"),
    [
        ("tripolyphospate", "sodium tripolyphosphate"),
        ("parsely", "fresh parsley"),
        ("rosmary", "fresh rosemary"),
        ("phosphate", "sodium tripolyphosphate"),
        ("coriander", "fresh coriander"),
        ("lemon", "lemon juice"),
        ("glucose", "light corn syrup"),
        ("worcestshire", "worcestershire sauce"),
        ("bay laef", "bay leaf"),
        ("erythorbat", "sodium erythorbate"),
        ("cinamon", "cinnamon"),
        ("buttermlk", "buttermilk"),
    ],
)
def test_a_miss_names_the_nearest(typed, near):
    """Words that mean two things ("coriander", "lemon", "phosphate") are not guessed at either."""
    with pytest.raises(UnknownName) as caught:
        ingredients.find(typed)
    assert near in caught.value.sentence()
    assert caught.value.argument == "ingredient"


def test_the_names_of_the_acid_and_cure_tables_are_known_here_too():
    for row in load.rows("acid_ingredients"):
        for spelling in (row["ingredient"], *row["aliases"]):
            assert spelling in ingredients.names(), spelling
    for row in load.rows("cures"):
        for spelling in (row["cure"], *row["aliases"]):
            assert ingredients.find(spelling).role == "cure", spelling


@each(
    ("one", "other"),
    [
        ("curing salt no. 1", "cola"), ("curing salt no. 1", "vinegar"), ("sodium nitrite", "white wine"),
        ("curing salt no. 2", "buttermilk"), ("curing salt no. 1", "ascorbic acid"), ("baking soda", "citric acid"),
        ("calcium chloride", "STPP"), ("calcium chloride", "baking soda"), ("washing soda", "lemon juice"),
        ("liquid smoke", "cure #1"), ("lye", "vinegar"), ("saltpetre", "orange juice"),
    ],
)  # fmt: skip
def test_what_must_not_meet_is_known_from_both_sides(one, other):
    """Common practice: nitrite with acid gives gas, acid with soda foams, calcium with phosphate clouds."""
    assert ingredients.find(one).must_not_meet(ingredients.find(other))
    assert ingredients.find(other).must_not_meet(ingredients.find(one))


@pytest.mark.parametrize(
    ("one", "other"),
    [("salt", "white sugar"), ("curing salt no. 1", "sodium erythorbate"), ("STPP", "salt"), ("cola", "black pepper")],
)
def test_what_may_meet_may(one, other):
    assert not ingredients.find(one).must_not_meet(ingredients.find(other))


def test_what_an_ingredient_must_not_meet_is_a_role_or_a_name_or_a_plain_word():
    known = {*(made.role for made in ingredients.shipped()), "heat", "aluminium"}
    for made in ingredients.shipped():
        for other in made.avoid:
            assert other in known or other in ingredients.names(), (made.name, other)


def test_every_ingredient_says_how_to_add_it():
    """Common practice: phosphate first, in warm water and not hot; herbs steeped, strained, chilled; nitrite last."""
    for made in ingredients.shipped():
        assert made.add
        if made.role == "phosphate":
            assert "first" in made.add
            assert "not hot" in made.add
        if made.role == "cure":
            assert "last" in made.add
        if made.role == "spice":
            assert "strain" in made.add
            assert "chill" in made.add


def test_allergens_are_named():
    """The common allergens that brines bring: milk, soy, gluten, fish, mustard, celery, sulphites."""
    for name, allergen in (
        ("buttermilk", "milk"), ("soy sauce", "soy"), ("soy sauce", "gluten"), ("beer", "gluten"),
        ("fish sauce", "fish"),
        ("mustard seed", "mustard"), ("celery", "celery"), ("white wine", "sulphites"), ("sesame seed", "sesame"),
    ):  # fmt: skip
        assert allergen in ingredients.find(name).allergens


def test_every_ingredient_is_usable_by_volume_or_says_why_not():
    for made in ingredients.shipped():
        if made.density is not None and made.role != "cure":
            assert volumes.volume(volumes.weight(10.0, made.name), made.name) == pytest.approx(10.0, rel=1e-12)


def test_figures_of_a_dose_are_found_for_each_dosed_ingredient():
    assert doses.find("fresh rosemary", "immersion").high == 0.005
    assert doses.find("curing salt no. 1", "immersion") is None
