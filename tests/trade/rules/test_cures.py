"""Curing salt: whom it is never for, and how it is said to get in."""

from __future__ import annotations

import pytest
from each import each

from brinecalc.trade import limits
from tests.trade.cases import CURED, found, of, said


@each("heading", ["note", "batch", "customer", "use", "product", "packaging", "for"])
def test_curing_salt_for_infants_is_seen_under_any_heading(heading: str) -> None:
    assert "cure-infant" in found({**CURED, heading: "ham for toddlers"})
    assert "cure-infant" not in found({**CURED, heading: "ham with baby carrots"})


def test_baby_back_ribs_are_nobodys_age() -> None:
    assert "cure-infant" not in found({**CURED, "product": "baby back ribs"})


@pytest.mark.parametrize("method", ["dry", "pumped", "injected", "equilibrium"])
def test_the_brining_method_serves_as_curing_method_where_there_is_no_column_for_it(method: str) -> None:
    row = {"edible weight": 5000.0, "cure": 10.0, "method": method, "gain": 0.1, "pickle": 5000.0}
    assert not [rule for rule in found(row) if rule in ("nitrite-no-method", "cure-not-reckoned")]
    assert "nitrite-no-method" in found({**row, "cure method": ""})
    assert "nitrite-no-method" in found({**row, "method": "gradient"})


@each("name", ["NaNO2", "E250", "E 250", "KNO2", "e249", "sodium nitrite", " NaNO2 "])
def test_a_formula_or_number_in_a_cure_column_is_a_name_and_no_amount(name):
    (hit,) = of("pure-nitrite", {"product": "pork loin", "weight": "5 kg", "cure": name})
    assert "is no premixed curing salt" in hit.sentence


@pytest.mark.parametrize("amount", ["12.5 g", "½ oz", ".5 oz", "2 oz"])
def test_an_amount_in_a_cure_column_is_an_amount(amount):
    hits = found({"product": "pork loin", "weight": "5 kg", "cure": amount, "cure method": "equilibrium"})
    assert "cure-error" not in hits
    assert "pure-nitrite" not in hits


WAYS = ("dry", "comminuted", "pumped", "pick-up", "equilibrium")


@each(
    ("method", "fits"),
    [("gradient", WAYS[3:]), ("Equilibrium", WAYS[3:]), ("dry equilibrium", WAYS[:2]), ("injected", WAYS[2:3]),
     ("pumped", WAYS[2:3]), ("a method of one's own", WAYS)],
)  # fmt: skip
def test_curing_salt_is_reckoned_as_it_gets_in(method: str, fits: tuple[str, ...]) -> None:
    """The ways of FSIS 7620.3: what is pumped by its gain, what lies in a pickle by pick-up or by both together."""
    told = {way for way in WAYS if "cure-other-way" in found({**CURED, "method": method, "cure method": way})}
    assert told == set(WAYS) - set(fits)


@each("product", ["salmon fillet", "trout fillet", "herring fillet", "smoked tuna", "peeled shrimp"])
@each("grams", [1.0, 17.6, 30.4])
def test_by_eu_rules_no_fish_carries_nitrite_and_no_us_rule_is_told_of(product: str, grams: float) -> None:
    """Regulation (EC) 1333/2008, annex II, as the UK order 2007/1778 carries it: E 249 and E 250 are for meat only."""
    row = {**CURED, "product": product, "cure": grams, "rules": "EU"}
    assert said(row).startswith("STOP cure: By EU rules nitrite is authorised for no fish")
    assert "as reported by others" in of("cure-fish-eu", row)[0].source
    assert not {"cure-fish", "cure-fish-limit", "cure-fish-not-listed"} & set(found(row))
    assert limits.value("nitrite fish", "EU") == 0.0


HAM = {"product": "pork shoulder", "weight": 10000.0, "cure": 2400.0, "pickle": 5000.0}


@each(
    ("row", "missing"),
    [
        ({"cure method": "pick-up"}, "the gain is not given"), ({"cure method": "pumped"}, "the gain is not given"),
        ({"cure method": "pumped", "gain": 0.0}, "a gain above 0 is not given"),
        ({"cure method": "equilibrium", "pickle": None}, "the pickle or the water is not given"),
        ({"cure method": "dry", "weight": None}, "the weight of the product is not given"),
        ({"cure method": "dry", "cure": None, "cure name": "curing salt"}, "how much curing salt no. 1 is used"),
    ],
)  # fmt: skip
def test_curing_salt_that_was_not_checked_is_not_weighed_out(row: dict[str, object], missing: str) -> None:
    """A dose that cannot be checked is as wrong as one over its limit: 150 g of nitrite to 10 kg, whatever gets in."""
    (hit,) = of("cure-not-reckoned", {**HAM, **row})
    assert (hit.severity, missing in hit.sentence) == ("STOP", True)


def test_what_a_share_of_the_weight_takes_up_of_a_pickle_needs_no_weight() -> None:
    """150 g of nitrite in 5 kg of pickle, of which a tenth of the weight gets in: 3000 ppm, whatever the weight."""
    (hit,) = of("nitrite-over-limit", {**HAM, "weight": None, "gain": 0.1, "cure method": "pumped"})
    assert "is 3000 ppm for pumping" in hit.sentence


def test_no_amount_of_nitrite_is_written_as_a_power_of_ten() -> None:
    """150 g in 15 kg of meat and pickle; 150 g in 10 kg of meat alone."""
    assert "together hold 10000 ppm" in of("cure-taken-out", {**HAM, "cure method": "pick-up"})[0].sentence
    assert "is 15000 ppm" in of("nitrite-over-limit", {**HAM, "cure method": "dry"})[0].sentence


@pytest.mark.parametrize("strength", [0, 0.0, "", None])
def test_a_blank_under_cure_strength_is_no_curing_salt_without_nitrite(strength: object) -> None:
    """48 g of 6.25 % in 5 kg is 600 ppm; some hosts hand a blank cell over as 0."""
    row = {"weight": 5000.0, "cure": 48.0, "cure method": "comminuted", "cure strength": strength}
    assert "nitrite-over-limit" in found(row)


def test_a_grade_under_curing_salt_is_the_name_of_the_dose_beside_it() -> None:
    row = {"edible weight": 5000.0, "curing salt": "curing salt no. 2", "cure dose": "9 g", "cure method": "dry"}
    assert found({**row, "rules": "EU"}) == ["nitrate-cure"]  # 112 ppm of nitrite and 72 of nitrate
    assert said({**row, "cure dose": "51 g"}).startswith("STOP cure: Ingoing nitrite is 637.5 ppm")
    (hit,) = of("cure-not-reckoned", {**row, "cure dose": None, "cure dose 2": "9 g"})
    assert "how much curing salt no. 2 is used is not given" in hit.sentence


def test_the_strength_in_a_name_counts_where_the_name_is_that_of_any_grade() -> None:
    """30 g to the kilogram of 0.4 % is 120 ppm; of 0.6 %, for which such a name stands alone, 180."""
    row = {"edible weight": 4000.0, "cure": 120.0, "cure method": "dry", "rules": "EU"}
    for name in ("Nitritpökelsalz 0.4 %", "Nitritpökelsalz (0,4 %)", "sel nitrité 0.4 %"):
        assert found({**row, "cure name": name}) == [], name
    assert "nitrite-over-limit" in found({**row, "cure name": "Nitritpökelsalz"})
    assert "is 270 ppm" in said({**row, "cure name": "Nitritpökelsalz 0.9 %"})
    assert found({**row, "cure name": "pink salt #1", "cure": 7.0}) == []  # 109 ppm


def test_curing_salt_in_the_place_of_salt_is_curing_salt() -> None:
    """Of 0.6 % salt 200 g bring 1.2 g of nitrite: 240 ppm of 5 kg; the EU allows 120 and a dry cure in the US 625."""
    row = {"product": "pork loin", "edible weight": 5000.0, "salt": "200 g", "method": "dry", "rules": "EU"}
    for heading in ("salt type", "Type of salt", "salt name"):
        assert "is 240 ppm" in said({**row, heading: "Nitritpökelsalz"}), heading
        assert found({**row, heading: "fine sea salt"}) == found({**row, heading: "no nitrite"}) == [], heading
    assert found({**row, "salt type": "Nitritpökelsalz", "rules": "US"}) == []
    assert said({**row, "salt type": "road salt"}).startswith("STOP ingredient: Road salt is no food")
    for salt in ("pink salt", "200 g of pink salt"):
        assert said({**row, "salt": salt}).startswith("STOP cure: The nitrite was not checked: how much"), salt
    assert said({**row, "our mix": "curing salt no. 1"}).startswith("STOP cure: The nitrite was not checked: how much")
    wet = {**row, "method": "equilibrium", "water": 5000.0, "salt type": "nitrite salt 0.6 %", "bath temperature": 3.0}
    assert found(wet) == []  # 1.2 g of 10.2 kg, 117.6 ppm
    assert "is 121.1 ppm" in said({**wet, "salt": "206 g"})  # 1.236 of 10.206 kg
    assert "is 625 ppm" in said({**row, "salt type": "curing salt", "cure strength": 0.015625})


def test_what_is_taken_in_the_place_of_salt_is_weighed_once() -> None:
    """0.6 g of nitrite in 2.1 kg of meat and pickle; 1.1 kg of pickle takes up 1.03 L, and the meat 0.95."""
    row = {"water": 1000.0, "salt": 100.0, "weight": 1000.0, "salt type": "NPS", "cure method": "equilibrium"}
    assert "is 285.7 ppm" in said(row)
    assert "vessel-full" not in found({**row, "vessel": "1.99 L"})
    assert "vessel-full" in found({**row, "vessel": "1.95 L"})


def test_a_grade_may_be_given_by_its_number_alone() -> None:
    row = {"edible weight": 5000.0, "cure": "9 g", "cure method": "dry", "rules": "EU"}
    assert [found({**row, "cure name": name}) for name in ("No. 1", "#1", "no 1", "1", 1, 1.0)] == [[]] * 6
    assert [found({**row, "cure name": name}) for name in ("No. 2", "nr 2", 2)] == [["nitrate-cure"]] * 3
    for name in ("no. 3", 3, True, "12"):
        assert said({**row, "cure name": name}).startswith("STOP cure"), name


def test_food_that_no_table_knows_takes_no_curing_salt_when_it_is_no_flesh() -> None:
    for product in ("cured egg yolks", "smoked tempeh", "nut cheese", "cured duck egg yolks", "chicken egg yolks",
                    "hen eggs", "hen's eggs", "goat cheese"):  # fmt: skip
        assert "cure-no-rule" in found({**CURED, "product": product}), product
    for product in ("cheese sausage", "ham with egg", "duck and egg", "head cheese", "unicorn loin"):
        assert "cure-no-rule" not in found({**CURED, "product": product}), product


def test_curing_salt_told_in_words_alone_stops_the_batch() -> None:
    for row in ({"method": "rub with cure #1"}, {"treatment": "NPS 2 %"}, {"product": "ham with saltpetre"},
                {"method": "brine with curing salt no. 2"}, {"method": "Pökelsalz"}):  # fmt: skip
        assert "cure-in-words" in found(row), row
        assert "cure-in-words" not in found({**CURED, **row}), row
    for row in ({"method": "dry cure"}, {"method": "cured, nitrite free"}, {"method": "Himalayan pink salt block"},
                {"product": "uncured ham"}, {"method": "cured with salt"}, {"note": "no. 1 curing salt"}):  # fmt: skip
        assert "cure-in-words" not in found(row), row


@each(
    "row",
    [
        {"method": "equilibrium with pink salt, no sugar"}, {"method": "rub with cure #1, sugar free"},
        {"method": "Pökelsalz, no smoke"}, {"treatment": "pink salt 25 g, not smoked"},
        {"product": "gluten free sausage with pink salt"}, {"method": "never without pink salt"},
        {"method": "with pink salt free range"}, {"method": "not nitrite free"}, {"method": "cure no. 1, rubbed in"},
        {"method": "Himalayan salt and pink salt"}, {"method": "no nitrate, pink salt 25 g"},
    ],
)  # fmt: skip
def test_curing_salt_is_taken_back_by_a_word_right_beside_it_alone(row: dict[str, object]) -> None:
    assert "cure-in-words" in found({"product": "pork loin", **row})


@each(
    "method",
    [
        "no pink salt", "nitrite-free", "nitrate/nitrite free", "no nitrites or nitrates", "free of nitrite",
        "without any curing salt", "dry, no added nitrite, no nitrate", "pink Himalayan salt",
    ],
)  # fmt: skip
def test_curing_salt_that_is_said_not_to_be_there_is_none(method: str) -> None:
    assert "cure-in-words" not in found({"product": "pork loin", "method": method})


@each("name", ["free flowing nitrite salt", "nitrite salt, gluten free", "pink salt, not iodised"])
def test_a_salt_that_lacks_something_else_is_still_a_curing_salt(name: str) -> None:
    row = {"product": "pork loin", "edible weight": 5000.0, "salt": "250 g", "method": "dry", "salt name": name}
    assert said({**row, "rules": "EU"}).startswith("STOP cure")
    assert found({**row, "salt name": "nitrite-free salt"}) == []


@each(
    "method",
    ["dry rub with sel rosé", "soak with celery powder", "KNO3 rub", "rub of nitrito", "azotyn, dry", "sal de cura rub",
     "soaked with salnitro", "dry, cultured celery powder", "E 251 rub", "uk curing salt",
     "rub with nitrite pickling salt", "dry with beet powder cure"],
)  # fmt: skip
def test_every_name_by_which_curing_salt_is_known_is_heard_in_a_method(method: str) -> None:
    """Whatever the tables call curing salt under its own heading is curing salt under another one."""
    assert "cure-in-words" in found({"product": "pork loin", "method": method})


@each(
    "method",
    [
        "dry cure",
        "slow cure, dry",
        "dry cure 2 days",
        "cure 1 to 2 weeks, dry",
        "cured, then cold smoked",
        "curing, dry",
        "no celery powder",
        "sel rosé-free rub",
        "pickle",
    ],
)
def test_a_word_of_curing_alone_names_no_salt(method: str) -> None:
    assert "cure-in-words" not in found({"product": "pork loin", "method": method})


def test_a_grade_by_its_number_is_no_number_of_days() -> None:
    for method in ("rub with cure 1, 2 days", "cure 2, dry"):
        assert "cure-in-words" in found({"product": "pork loin", "method": method}), method
