"""Nitrite and nitrate in fish: the short list of each jurisdiction, and nobody else's limit."""

from __future__ import annotations

from tests.trade.cases import HERRING, found, of, said


def test_by_eu_rules_nitrate_is_for_herring_and_sprat_and_nitrite_for_no_fish() -> None:
    """Regulation (EC) 1333/2008, annex II, category 09.2: 500 mg/kg, as a list of the uses of E 251 gives it."""
    row = {**HERRING, "cure": 5.0}
    assert found(row) == ["nitrate-fish-eu"]
    for other in ("trout fillet", "Lachs", "peeled shrimp"):
        assert said({**row, "product": other}).startswith("STOP cure: By EU rules nitrate is authorised for no fish or "
                                                          "shellfish but pickled herring and sprat; this")  # fmt: skip
    for cure in ("curing salt no. 2", "curing salt no. 1"):
        assert said({**row, "cure name": cure}).startswith("STOP cure: By EU rules nitrite is authorised for no fish")
    assert "nitrate-fish-eu" in found({**row, "product": "Baltic sprats"})
    assert "nitrate cannot be checked" in said({**row, "cure method": "brine"})
    assert not {"nitrate-fish-eu", "nitrate-fish-limit-eu"} & set(found({**row, "rules": "US"}))


def test_what_soaks_on_into_herring_is_held_to_the_limit_of_herring() -> None:
    """500 mg/kg as sodium nitrate, category 09.2, in 10 kg of fish and water; saltpetre counts as much."""
    row = {"product": "herring fillet", "weight": 5000.0, "water": 5000.0, "cure name": "saltpetre", "rules": "EU"}
    row |= {"cure method": "pick-up", "gain": 0.1, "soak hours": 72.0}
    assert [g for g in (4.0, 5.0, 5.1) if "cure-soaks-on" in found({**row, "cure": g})] == [5.1]
    assert "the limit by EU rules is 500 ppm" in said({**row, "cure": 5.1})
    (hit,) = of("cure-soaks-on", {**row, "product": "pork loin", "cure": 4.0})
    assert "the limit by EU rules is 123 ppm" in hit.sentence


def test_fish_goes_by_many_names() -> None:
    row = {**HERRING, "cure name": "curing salt no. 1", "cure": 5.0}
    names = "Lachs|saumon|trucha|sea bream|Kabeljau|boquerones|mahi mahi|zander|Matjes|gravlax".split("|")
    assert [name for name in names if "cure-fish-eu" not in found({**row, "product": name})] == []
    assert "parasites" in found({"product": "ceviche of sea bream", "method": "marinated in lime juice"})
    others = ("lamb", "hen of the woods", "oyster mushroom", "roe deer", "oyster blade steak")
    assert [name for name in others if "cure-fish-eu" in found({**row, "product": name})] == []
