"""Nitrite and nitrate in fish: the short list of each jurisdiction, and nobody else's limit."""

from __future__ import annotations

from tests.trade.cases import HERRING, found, said


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


def test_fish_goes_by_many_names() -> None:
    row = {**HERRING, "cure name": "curing salt no. 1", "cure": 5.0}
    names = "Lachs|saumon|trucha|sea bream|Kabeljau|boquerones|mahi mahi|zander|Matjes|gravlax".split("|")
    assert [name for name in names if "cure-fish-eu" not in found({**row, "product": name})] == []
    assert "parasites" in found({"product": "ceviche of sea bream", "method": "marinated in lime juice"})
    others = ("lamb", "hen of the woods", "oyster mushroom", "roe deer", "oyster blade steak")
    assert [name for name in others if "cure-fish-eu" in found({**row, "product": name})] == []
