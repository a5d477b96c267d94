"""What a production row says of how the salt gets in. The words are common practice, no source."""

from __future__ import annotations

import pytest
from each import each

from brinecalc import registry
from brinecalc.trade import ingoing, methods
from brinecalc.trade.row_reading import read
from tests.trade.cases import BACON, CURED, found, of, said

WORDS = {
    "gradient": "gradient; Gradient brining; brine; brined overnight; wet brine; soaked; tumbled in brine; pick-up; "
    "marinade; marinated overnight; desalting; wet salting; salted in brine",
    "equilibrium": "equilibrium; Equilibrium Brine; equilibrium immersion; immersion, equilibrium",
    "dry equilibrium": "dry equilibrium; dry; dry brine; dry rub; dry cured 5 days; rubbed; gravlax; dry, equilibrium; "
    "dry brined; salting; salted; gravlax, dry",
    "injected": "injected; injected with brine; pump; stitch pumped; pumping; injected marinade",
    "": "comminuted; ground; smoked; cold-smoked; cured; cola glaze; corned; pickled; fermented; "
    "lacto-fermentation; lacto-fermented; ceviche; pickling",
}


@each(("way", "text"), [(way, text) for way, all_of in WORDS.items() for text in all_of.split("; ")])
def test_a_method_in_the_words_of_the_trade_is_understood(way: str, text: str) -> None:
    assert methods.ways(text) == ({way} if way else set())
    assert not {"method-unknown", "method-two-ways"} & set(found({"product": "pork loin", "method": text}))


@each(
    ("text", "meant"),
    [
        ("steeped overnight", "gradient"), ("gradiant", "gradient"), ("equilibrum", "equilibrium"),
        ("injectd", "injected"), ("pumpd", "injected"), ("syringe", "injected"), ("sous vide", ""),
        ("x" * 3000, ""), ("?", ""),
    ],
)  # fmt: skip
def test_a_method_that_is_not_understood_is_told_with_what_it_may_mean(text: str, meant: str) -> None:
    (hit,) = of("method-unknown", {"method": text})
    assert f'"{text[:40]}" is not known here' in hit.sentence
    assert ("may mean" in hit.sentence) == bool(meant)
    assert f"may mean {meant}" in hit.sentence or not meant
    assert len(hit.text) < 255


@pytest.mark.parametrize(
    "text", ["pumped and soaked", "inject, then immerse", "dry rub then soak", "injected + gradient"]
)
def test_two_ways_in_one_row_are_told(text: str) -> None:
    assert len(methods.ways(text)) == 2
    assert "method-two-ways" in found({"method": text})


@pytest.mark.parametrize(
    ("reckoned", "stops"), [("pumped", True), ("pick-up", True), ("dry", True), ("equilibrium", False)]
)
def test_what_is_pumped_and_soaked_holds_the_curing_salt_of_both(reckoned: str, stops: bool) -> None:
    """25 g of 6.25 % in 5 kg of meat and 5.5 kg of pickle are 149 ppm; the limit is 200."""
    row = {"edible weight": 5000.0, "cure": 25.0, "pickle": 5500.0, "gain": 0.1, "method": "pumped and soaked"}
    hits = found({**row, "cure method": reckoned})
    assert ("cure-other-way" in hits) is stops
    assert said({**row, "cure method": reckoned}).startswith("STOP" if stops else "CAUTION method")
    assert "nitrite-over-limit" in found({**row, "cure method": "equilibrium", "cure": 34.0})


@pytest.mark.parametrize("text", ["brining", "wet brine", "soaked"])
def test_a_brine_by_any_name_is_no_dry_cure(text: str) -> None:
    assert "cure-other-way" in found({**CURED, "method": text, "cure method": "dry"})


@each(
    ("text", "meant"),
    [("neddled", "needled"), ("thawd", "thawed"), ("tumled", "tumbled"), ("injeccted", "injected"), ("needled", ""),
     ("cold smoked", ""), ("butterflied", ""), ("massaged", ""), ("none", ""), ("pumped", "")],
)  # fmt: skip
def test_a_misspelt_treatment_is_told(text: str, meant: str) -> None:
    hits = of("treatment-unknown", {"treatment": text})
    assert [f"may mean {meant}." in hit.sentence for hit in hits] == ([True] if meant else [])


@each("kind", ["bacon", "Streaky bacon", "bakon", "baccon", "becon"])
def test_bacon_misspelt_is_held_to_the_limits_of_bacon(kind: str) -> None:
    """19.3 g of 6.25 % on 10 kg are 120.6 ppm; pumped bacon is made at 120, other pumped meat at 200 at most."""
    row = {**BACON, "cure": 19.3}
    assert "nitrite-over-limit" in found({**row, "kind": kind})
    assert "nitrite-over-limit" not in found({**row, "kind": "general"})
    assert ingoing.kind_of(read(["kind"], [kind])) == "bacon"


def test_only_of_a_belly_an_unknown_kind_is_told() -> None:
    assert "kind-unknown" in found({**BACON, "kind": "pancetta"})
    assert "kind-unknown" not in found({**BACON, "kind": "ham", "product": "pork loin"})
    assert "kind-unknown" not in found({"product": "pork belly", "kind": "pancetta"})


def test_what_is_advised_for_pumped_and_soaked_can_be_done() -> None:
    """As both sentences say: a row for each, a third for the curing salt of both; and the two calls for the salt."""
    ham = {"product": "ham leg", "edible weight": 5000.0}
    pumped = {**ham, "method": "injected", "gain": 0.1, "pickle": 500.0, "cure": 8.0, "cure method": "pumped"}
    soaked = {"product": "ham leg", "edible weight": 5500.0, "method": "gradient", "treatment": "needled",
              "native salt": 0.008, "pickle": 5000.0, "cure": 8.0, "cure method": "equilibrium"}  # fmt: skip
    both = {**ham, "pickle": 5500.0, "cure": 16.0, "cure method": "equilibrium"}
    for row in (pumped, soaked, both):
        assert not said(row).startswith("STOP"), said(row)
        assert not {"cure-not-reckoned", "method-two-ways", "method-unknown", "no-method"} & set(found(row))
    assert "nitrite-over-limit" in found({**both, "cure": 34.0})  # 202 ppm
    assert "native_salt" in registry.why("SOAK_HOURS", "ham leg", 90, 0.012, 0.06, 4, "large", "", "injected")
    one = registry.call("SOAK_HOURS", "ham leg", 90, 0.012, 0.06, 4, "large", "", "needled", "", 0.008)
    assert 0.0 < one < registry.call("SOAK_HOURS", "ham leg", 90, 0.012, 0.06, 4, "large", "", "needled")


DRY = ("dry equilibrium", "dry brine", "dry-brined", "dry rub", "rubbed", "gravlax dry", "salting")


@each("text", [*DRY, "equilibrium", "equilibrium brine"])
def test_what_goes_to_equilibrium_is_weighed_without_bone_whatever_it_is_called(text: str) -> None:
    assert "bone-in-weight" in found({"product": "whole turkey", "weight": "7 kg", "method": text})
    assert "bone-in-weight" not in found({"product": "whole turkey", "weight": "7 kg", "method": "brine"})


@each(("product", "hours"), [("salmon fillet", 36), ("salmon fillet", 72), ("whole turkey", 72), ("whole chicken", 24)])
@each("text", DRY)
def test_the_cap_of_a_soak_in_brine_does_not_hold_for_what_is_salted_dry(product: str, hours: int, text: str) -> None:
    row = {"product": product, "soak hours": hours, "method": text}
    assert "over-cap" not in found(row)
    assert "over-cap" in found({**row, "method": "brine"})
    assert "soak-long" in found({**row, "soak hours": 169})


@each("text", [*DRY, "cured", "ceviche", "curing"])
def test_fish_that_may_be_eaten_raw_is_told_of_parasites_whatever_the_method_is_called(text: str) -> None:
    assert "parasites" in found({"product": "salmon fillet", "method": text})
    assert "parasites-maybe" in found({"product": "salmon fillet", "method": "equilibrium"})


@pytest.mark.parametrize("text", ["stitch", "artery", "injection", "pumped"])
def test_needles_by_any_name_carry_germs_inside_and_take_the_doses_of_injection(text: str) -> None:
    assert "cook-through" in found({"product": "lean beef", "method": text})
    brine = {"ingredient": "sodium tripolyphosphate", "level": 0.03}
    assert "over-ceiling" in found({**brine, "method": "brine"})
    assert "over-ceiling" not in found({**brine, "method": text})
