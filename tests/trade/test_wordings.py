"""What cooks write for one and the same thing: a rule that stops a batch must not hang on the choice of a word.

The words are common practice, no source; the rules behind them have theirs in tests/trade/rules/.
"""

from __future__ import annotations

import pytest
from each import each

from brinecalc.trade.findings import all_of
from tests.trade.cases import BACON, CURED, found

NO_AIR = ["vacuum", "vacuumed", "vac", "vac pac", "sous vide", "reduced oxygen", "ROP", "MAP", "no air", "airless bag"]
UNCHILLED = ["ambient", "shelf", "room temperature", "pantry", "unrefrigerated", "unchilled", "canned", "for canning",
             "room temp", "on the counter"]  # fmt: skip
SMOKED = ["smoked", "smoke", "cold smoking", "smokehouse", "lox", "kippered", "kipper"]
FISH = [
    "salmon", "trout", "mackerel", "herring", "eel", "tuna", "sablefish", "shad", "chub", "sturgeon", "haddock", "cod",
    "whitefish", "mullet", "bluefish", "char",
]  # fmt: skip
WAYS = {
    "dry": ["equilibrium dry", "dry eq", "dry", "dry cure", "dry cured", "dry curing", "dry equilibrium", "dry rub",
            "rubbed"],
    "comminuted": ["mince", "mixed in", "comminuted", "ground", "minced", "chopped", "sausage", "ground meat"],
    "pumped": ["stitch", "tumble", "massage", "inject", "pumped", "pump", "injected", "injection", "massaged",
               "tumbled", "stitch pumped", "artery pumped"],
    "pick-up": ["pick-up", "pickup", "immersion by pick-up", "immersion pick-up", "by pick-up"],
    "equilibrium": [
        "equilibrium", "equilibrium immersion", "immersion equilibrium", "immersion by meat and pickle together",
    ],
}  # fmt: skip
TOXIC = ["copper", "brass", "bronze", "zinc", "galvanised", "galvanized", "lead", "pewter", "cadmium", "lead glazed"]


@each("packaging", NO_AIR)
def test_packed_without_air(packaging: str) -> None:
    assert "packed-without-air" in found({"product": "pork chop", "packaging": packaging})
    assert "fish-salt-unknown" in found({"product": "salmon fillet", "method": "smoked", "packaging": packaging})


@each("packaging", ["not vacuum packed", "no vacuum", "not sealed", "tray, never vacuumed", "not MAP", "CO2-free"])
def test_a_pack_that_is_said_not_to_be_without_air_has_air(packaging: str) -> None:
    assert "packed-without-air" not in found({"product": "pork chop", "packaging": packaging})
    assert "packed-without-air" in found({"product": "pork chop", "packaging": f"{packaging}; sous vide"})


@each("packaging", ["crock, not sealed", "bucket, never sealed", "not shelf stable", "not ambient", "no jar, open tub"])
def test_what_is_said_not_to_be_shut_stops_no_ferment(packaging: str) -> None:
    row = {"product": "cabbage", "bath temperature": "20 °C", "soak hours": "5 days"}
    assert "sealed-low-acid" not in found({**row, "packaging": packaging})
    assert "sealed-low-acid" in found({**row, "packaging": f"{packaging}; sealed jar"})


@each("packaging", ["no air", "without air", "no oxygen", "oxygen-free", "not without air, vacuum", "not chilled",
                    "not refrigerated", "no fridge"])  # fmt: skip
def test_a_no_that_is_part_of_the_word_is_heard(packaging: str) -> None:
    hits = found({"product": "cucumber", "packaging": packaging}) + found(
        {"product": "pork chop", "packaging": packaging}
    )
    assert {"packed-without-air", "sealed-low-acid"} & set(hits)


@each("packaging", UNCHILLED)
def test_kept_without_cold(packaging: str) -> None:
    assert "sealed-low-acid" in found({"product": "cucumber", "packaging": packaging})


@each("method", SMOKED)
def test_what_is_smoked_is_known_by_its_words(method: str) -> None:
    assert "fish-salt-unknown" in found({"product": "salmon fillet", "method": method})


@each("fish", FISH)
def test_a_fish_that_stands_in_no_table(fish: str) -> None:
    assert "fish-salt-unknown" in found({"product": f"wild river {fish}", "method": "smoked"})
    assert "fish-salt-unknown" not in found({"product": "wild river duck", "method": "smoked"})


@each("fish", ["halibut", "sprats", "carp", "oysters", "mussels", "sardines", "Forelle", "saumon"])
def test_every_fish_and_shellfish_that_is_smoked_needs_its_salt(fish: str) -> None:
    """What the rules on curing salt know as fish is fish to the rule on its salt, too."""
    weak = {"product": f"smoked {fish}", "packaging": "vacuum", "water phase salt": "2%"}
    assert "fish-salt-low" in found(weak)
    assert "fish-salt-unknown" in found({"product": f"smoked {fish}", "packaging": "tray"})


@each(
    "row",
    [{"product": "pork belly", "method": "char, then smoke"}, {"product": "chicken breast", "treatment": "hot smoked",
     "method": "fish sauce brine"}, {"product": "salmon fillet", "treatment": "not smoked"},
     {"product": "unsmoked trout"}, {"product": "salmon fillet", "method": "equilibrium, never smoked"},
     {"product": "smoked turkey with oysters"}],
)  # fmt: skip
def test_neither_meat_nor_what_is_not_smoked_is_smoked_fish(row: dict[str, object]) -> None:
    assert not [hit for hit in found(row) if hit.startswith("fish-salt")]


@each(("method", "said"), [(method, word) for method, words in WAYS.items() for word in words])
def test_how_the_curing_salt_gets_in(method: str, said: str) -> None:
    """900 g of 6.25 % on 10 kg pass every limit: the finding names the method that it was reckoned by."""
    row = {**CURED, "cure": 900.0, "cure method": said, "gain": 0.1, "pickle": 20000.0}
    assert "nitrite-no-method" not in found(row)
    assert "nitrite-over-limit" in found(row)
    other = {**row, "cure method": "dry" if method != "dry" else "pumped"}
    reckoned = {name: _sentence(each, "nitrite-over-limit") for name, each in (("this", row), ("other", other))}
    assert reckoned["this"] == _sentence({**row, "cure method": method}, "nitrite-over-limit") != reckoned["other"]


@each(
    ("rule", "row"),
    [
        ("packed-without-air", {"product": "pork chop", "packaging": "vaccum"}),
        ("packed-without-air", {"product": "pork chop", "packaging": "vacum pack"}),
        ("sealed-low-acid", {"product": "cucumber", "packaging": "ambiant"}),
        ("sealed-low-acid", {"product": "cucumber", "packaging": "hermetical"}),
        ("fish-salt-unknown", {"product": "salmon fillet", "method": "cold smokd"}),
        ("fish-salt-unknown", {"product": "grandma's smoked salmn"}),
        ("vessel-toxic", {"vessel material": "coper pot"}),
        ("vessel-toxic", {"vessel material": "galvanied"}),
        ("vessel-reactive", {"vessel material": "aluminun"}),
    ],
)
def test_a_slip_of_the_keyboard_hides_no_danger(rule: str, row: dict[str, object]) -> None:
    assert rule in found(row)


@each(
    ("heading", "word"),
    [("packaging", "tray"), ("packaging", "paper"), ("packaging", "egg shells"), ("packaging", "freezer bag"),
     ("vessel material", "stainles steel"), ("vessel material", "bowl of the chopper"), ("vessel material", "crock"),
     ("vessel material", "polypropylene"), ("vessel material", "glass"), ("packaging", "x" * 300)],
)  # fmt: skip
def test_another_word_is_not_taken_for_a_slip(heading: str, word: str) -> None:
    hits = found({"product": "cucumber", heading: word})
    assert not [hit for hit in hits if hit.startswith(("vessel", "packed", "sealed"))]


@each("rules", ["US", "us", "USA", "u.s.", "U.S.A.", "United States", "America", "american", "EU", "USDA", "France",
                "european", "E.U", "US rules", "Deutschland", "Österreich", "Holland", "the Netherlands", "EU law",
                "Czech Republic", "German regulations", "EU (Germany)", "EU Regulation 1333/2008",
                "rules of the EU", "EC", "USDA FSIS", "US law (federal)", "Κύπρος"])  # fmt: skip
def test_whose_rules_hold_is_known_by_their_words(rules: str) -> None:
    assert "rules-unknown" not in found({**CURED, "rules": rules})


@each("liquid", ["water", "tap water", "cold water", "ice water", "iced water", "fresh water", "ice"])
def test_water_is_no_unknown_liquid(liquid: str) -> None:
    assert "nitrite-unknown-liquid" not in found({**CURED, "liquid": liquid})
    assert "ingredient-unknown" not in found({"liquid": liquid})


@each("acid", ["ascorbic acid", "erythorbic acid", "ascorbic", "erythorbic", "vitamin C"])
def test_what_turns_nitrite_into_gas_at_once(acid: str) -> None:
    assert "nitrite-ascorbic" in found({**CURED, "water": 5000.0, "ingredient": acid, "level": 0.0001})


@each("metal", TOXIC)
def test_metal_that_poisons(metal: str) -> None:
    assert "vessel-toxic" in found({"vessel material": f"{metal} pot"})


@pytest.mark.parametrize(
    ("product", "is_belly"), [("pork belly", True), ("skinless pork belly", True), ("pork loin", False)]
)
def test_a_belly_is_bacon_unless_the_row_says_otherwise(product: str, is_belly: bool) -> None:
    """9 CFR 424.22(b): pumped bacon is made at 120 ppm; 17.6 g of 6.25 % on 10 kg are 110 ppm."""
    row = {**BACON, "product": product, "cure": 17.6}
    assert ("bacon-set-level" in found(row)) is is_belly
    assert "bacon-set-level" not in found({**row, "kind": "general"})


@pytest.mark.parametrize("use", ["method", "treatment", "cure method"])
def test_injected_under_any_of_its_columns(use: str) -> None:
    """Needles carry what is on the surface to the centre, whichever column says that there are needles."""
    row = {"product": "beef brisket", "ingredient": "sodium tripolyphosphate", "level": 0.04}
    assert "over-ceiling" in found(row)
    assert "over-ceiling" not in found({**row, use: "injected"})


def _sentence(row: dict[str, object], rule: str) -> str:
    return next(hit.sentence for hit in all_of(list(row), list(row.values())) if hit.rule.id == rule)


def worded(rule: str, row: dict[str, object], heading: str, words: str) -> list[tuple[str, dict[str, object], str]]:
    """The rule with each of the words under that heading; the words are those of the trade, from memory."""
    return [(rule, {**row, heading: word}, word) for word in words.split(", ")]


SALMON = {"product": "salmon fillet"}
WORDED = [
    *worded(
        "vessel-toxic", {}, "vessel material",
        "copper, brass, bronze, zinc, galvanised steel, galvanized tub, lead crystal, pewter, cadmium plated, "
        "lead-glazed",
    ),
    *worded(
        "vessel-reactive", {}, "vessel material",
        "aluminium, aluminum, alu tray, cast iron, carbon steel, mild steel, black steel, tin, tinned, chipped enamel",
    ),
    *worded(
        "vessel-not-food-grade", {}, "vessel",
        "bin bag, bin liner, trash bag, garbage bag, garbage can, trash can, dustbin, rubbish bin, "
        "paint bucket, builder bucket, painted tub, non-food-grade tub, not food grade, unlined wood, "
        "treated wood, concrete",
    ),
    *worded(
        "fish-salt-unknown", SALMON, "method",
        "smoked, cold smoke, hot smoking, smokehouse, lox, kippered, kipper style",
    ),
    *worded(
        "fish-salt-unknown", {"method": "smoked"}, "product",
        "wild fish, salmon x, trout x, mackerel x, herring x, eel x, tuna x, sablefish x, shad x, chub x, sturgeon x, "
        "haddock x, cod x, whitefish x, mullet x, bluefish x, char x, lox x, kipper x",
    ),
    *worded(
        "packed-without-air", {"product": "pork chop"}, "packaging",
        "vacuum, vacuumed, vac, vac pac, sous-vide, reduced oxygen, ROP, MAP, no air, airless",
    ),
    *worded(
        "sealed-low-acid", {"product": "cucumber"}, "packaging",
        "sealed, jar, jarred, can, canned, canning, bottle, bottled, hermetic",
    ),
    *worded(
        "sealed-low-acid", {"product": "pork chop"}, "packaging",
        "ambient, shelf, room temperature, pantry, unrefrigerated, unchilled, canned, canning",
    ),
    *worded(
        "nitrite-ascorbic", CURED, "ingredient",
        "ascorbic acid, erythorbic acid, ascorbic powder, erythorbic x, vitamin C",
    ),
    *worded("cure-infant", CURED, "kind", "baby food, infant, toddlers, child, children, nursery"),
    *worded("parasites", SALMON, "method", "dry, cured, gravlax, gravad, marinated, cold smoked"),
    *worded("parasites-maybe", SALMON, "method", "equilibrium, smoked"),
    *worded(
        "cook-through", {"product": "lean beef"}, "treatment",
        "needled, injected, pumped, stitch pumped, artery pumped, tenderised, tenderized, bladed",
    ),
    *worded(
        "brine-reused", {"product": "pork chop"}, "reused",
        "yes, y, true, x, 1, reused, again, used, second use, twice",
    ),
]  # fmt: skip


def test_a_word_of_the_trade_is_understood():
    assert [(rule, word) for rule, row, word in WORDED if rule not in found(row)] == []


@each("method", WAYS)
def test_a_curing_method_goes_by_what_curers_call_it(method):
    """The same row, and so the same ingoing nitrite, whichever word names the method."""
    row = {"weight": 10000.0, "cure": 25.0, "water": 900.0, "gain": 0.1, "salt": 75.0}
    plain = all_of([*row, "cure method"], [*row.values(), method])
    assert "nitrite-no-method" not in {finding.rule.id for finding in plain}
    for word in WAYS[method]:
        assert all_of([*row, "cure method"], [*row.values(), word]) == plain, word


def test_trade_names_of_other_languages_hide_no_danger() -> None:
    """Common practice, no source: what labels say in the languages of the countries whose rules are known here."""
    sour = [
        "Apfelessig",
        "vinaigre",
        "jus de citron",
        "vino tinto",
        "Zitronensäure",
        "acide citrique",
        "ocet",
        "ättika",
    ]
    cured = {**CURED, "water": 5000.0}
    assert [name for name in sour if "nitrite-acid" not in found({**cured, "ingredient": name})] == []
    lyes = ["Natronlauge", "soude caustique", "sosa cáustica", "natriumhydroxid"]
    assert [name for name in lyes if "alkali-raw" not in found({"product": "pork loin", "ingredient": name})] == []
    nitrates = ["Kaliumnitrat", "salnitro", "nitraat"]
    assert [name for name in nitrates if "nitrate-cure" not in found({**CURED, "cure name": name})] == []
    poisons = [
        "lead oxide",
        "copper sulphate",
        "hydrogen peroxide",
        "oxalic acid",
        "oleander",
        "yew twigs",
        "apricot kernels",
    ]
    assert [name for name in poisons if "not-food" not in found({"ingredient": name})] == []
    assert "mineral-acid" in found({"product": "pork loin", "acid": "spirits of salt"})


def test_the_age_of_a_child_is_heard_and_that_of_a_ham_is_not() -> None:
    honey = {"product": "carrot", "sweetener": "honey", "sweetener level": 0.01}
    for told in ("for 6-month-olds", "for a 9 month old", "for 6 to 8 month olds", "weaning menu", "for a 1-year-old",
                 "for six month olds", "for one year olds"):  # fmt: skip
        assert "honey-infant" in found({**honey, "note": told}), told
    for told in ("18 month old ham", "for 14-month-olds", "12 months old", "for 2-year-olds", "1 year old ham"):
        assert "honey-infant" not in found({**honey, "note": told}), told
    for told in ("for 14-month-olds", "for a two year old", "for 2 to 3 year olds", "menu for 3-year-olds"):
        assert "cure-infant" in found({**CURED, "note": told}), told
    assert "cure-infant" not in found({**CURED, "note": "for 4-year-olds"})
    assert "cure-infant" not in found({**CURED, "note": "a 2 year old ham, for the cellar"})
    assert "cure-infant" in found({**CURED, "customer": "village kindergarten"})
    assert "cure-infant" not in found({**CURED, "product": "18 month old ham"})


def test_a_member_state_means_the_rules_of_the_eu() -> None:
    row = {"weight": 10000.0, "cure": 20.0, "cure method": "dry"}
    for rules in ("Germany", "Spain", "european", "E.U", "Holland", "Deutschland", "Czech Republic", "the Netherlands",
                  "Polska", "España", "French law", "UE", "UK", "Norway", "UK rules", "Schweiz", "EU (Germany)",
                  "EU Regulation 1333/2008", "the rules of the EU", "EC", "Κύπρος"):  # fmt: skip
        assert "nitrite-over-limit" in found({**row, "rules": rules}), rules
        assert ("rules-unknown" in found({**row, "rules": rules})) is (rules in ("UK", "Norway", "UK rules", "Schweiz"))
    assert "nitrite-over-limit" not in found({**row, "rules": "Ontario"})


@each(
    ("rule", "row"),
    [
        ("texture-acid", {"product": "venison haunch", "ph": 4.0}),
        ("texture-alkali", {"product": "rabbit saddle", "ph": 9.0}),
        ("sour-liquid", {"product": "venison haunch", "liquid": "red wine"}),
        ("soak-long", {"product": "venison haunch", "soak hours": "8 days"}),
        ("strong-brine", {"product": "mutton shoulder", "strength": 0.2}),
        ("sweetener-high", {"product": "boar loin", "water": 1000.0, "sweetener": "honey", "sweetener level": 0.06}),
        ("added-solution", {"product": "pork sausages", "gain": 0.1, "packaging": "tray"}),
        ("phosphate-eu-raw", {"product": "pork sausages", "rules": "EU", "ingredient": "STPP", "level": 0.003,
                              "packaging": "tray"}),
        ("fish-long-hold", {"product": "turbot fillets", "bath temperature": 4.5, "soak hours": 10.0}),
    ],
)  # fmt: skip
def test_meat_and_fish_of_no_table_are_known_by_their_words(rule: str, row: dict[str, object]) -> None:
    """A rule that holds for all meat and fish hangs on no row of the product table."""
    assert rule in found(row)
    assert rule not in found({**row, "product": "carrot"})
