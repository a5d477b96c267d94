"""Sulphite on meat, in the preparations that may carry it by EU rules, and elsewhere."""

from __future__ import annotations

from tests.each import each
from tests.trade.cases import BURGER, found, of


@each(
    "row, rule",
    [
        ({"product": "breakfast sausage", "level": "6 g", "weight": "10 kg"}, "sulphite-sausage"),
        ({"product": "longaniza fresca", "level": "7 g", "weight": "10 kg"}, "sulphite-over-limit"),
        ({"level": 0.0006}, "sulphite-sausage"), ({"level": None}, "sulphite-sausage"),
        ({"level": 0.0007}, "sulphite-over-limit"), ({"ingredient": "E220", "level": 0.0006}, "sulphite-over-limit"),
        ({"rules": "US", "level": 0.0001}, "sulphite-meat"), ({"product": "steak tartare"}, "sulphite-meat-eu"),
        ({"product": "venison sausage"}, "sulphite-meat-eu"), ({"product": "rabbit"}, "sulphite-meat-eu"),
        ({"product": "salmon burger", "rules": "US"}, "sulphite-limit"), ({"product": "tofu steak"}, "sulphite-limit"),
        ({"product": "salmon burger"}, "sulphite-limit"), ({"product": "vegan burger"}, "sulphite-limit"),
        ({"product": "burger, vegan"}, "sulphite-limit"), ({"product": "mushroom burger"}, "sulphite-limit"),
        ({"product": "venison with mushrooms"}, "sulphite-meat-eu"), ({"product": "goat cheese"}, "sulphite-limit"),
        ({"product": "steak in soy and beans"}, "sulphite-meat-eu"), ({"product": "hen eggs"}, "sulphite-limit"),
        ({"product": "rabbit with prawns"}, "sulphite-meat-eu"), ({"level": 0.0006}, "sulphite-sausage"),
        ({"product": "beef burger with anchovies", "level": 0.0006}, "sulphite-sausage"),
        ({"product": "salmon breakfast sausage", "level": 0.0006}, "sulphite-meat-eu"),
        ({"product": "vegan breakfast sausage", "level": 0.0006}, "sulphite-meat-eu"),
        ({"product": "tuna steak"}, "sulphite-limit"), ({"product": "kidney beans"}, "sulphite-limit"),
    ],
)  # fmt: skip
def test_where_sulphite_has_a_place(row: dict[str, object], rule: str) -> None:
    """Regulation (EC) 1333/2008, annex II, category 08.2: 450 mg/kg as SO2, 67.4 % of the metabisulphite."""
    assert [hit for hit in found({**BURGER, **row}) if hit.startswith("sulphite")] == [rule]


def test_the_reason_and_its_source_are_those_of_the_rules_of_the_row() -> None:
    (hit,) = of("sulphite-meat-eu", {**BURGER, "product": "pork loin"})
    assert "EU rules name breakfast sausages" in hit.sentence
    assert "1333/2008" in hit.source
    (hit,) = of("sulphite-meat", {**BURGER, "product": "pork loin", "rules": "US"})
    assert "21 CFR 182.3766" in hit.source
    assert "how much is here is not known" in of("sulphite-sausage", {**BURGER, "level": None})[0].sentence


def test_a_sulphite_that_is_free_of_something_else_is_still_one() -> None:
    row = {"product": "pork loin", "level": 0.001}
    for name in ("sodium metabisulphite, free flowing", "metabisulphite without lumps", "sulphite not for sale"):
        assert "sulphite-meat" in found({**row, "ingredient": name}), name
    for name in ("sulphite-free white wine", "white wine (no added sulphites)", "wine without sulphite"):
        assert "sulphite-meat" not in found({**row, "ingredient": name}), name
