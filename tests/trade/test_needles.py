"""Needles are heard in any word for them, and not where they are denied or merely rhyme."""

from __future__ import annotations

from each import each

from brinecalc.trade import methods, needles
from tests.trade.cases import CURED, found

LOIN = {"product": "pork loin"}


@each("text", ["needled", "stitch pumped", "artery", "injected", "Injecting", "multi-needle", "blade tenderised",
               "tenderizer", "bladed, no rub", "not frozen, injected", "pumped to 110 %"])  # fmt: skip
def test_needles_and_blades_are_known_by_their_words(text: str) -> None:
    assert needles.pierces(text)
    assert "cook-through" in found({**LOIN, "treatment": text})


@each("text", ["not injected", "no needles", "uninjected", "pumpkin spice rub", "soaked, never pumped", "not needled",
               "thawed", "", "no blades or needles"])  # fmt: skip
def test_neither_a_no_nor_a_pumpkin_is_a_needle(text: str) -> None:
    assert not needles.pierces(text)
    assert "cook-through" not in found({**LOIN, "treatment": text})
    assert "strong-brine" in found({**LOIN, "treatment": text, "strength": "20%"})
    assert "cure-pumped-before" not in found({**LOIN, **CURED, "treatment": text})


@each(
    ("text", "ways"),
    [
        ("equilibrium, no injection", {"equilibrium"}), ("dry equilibrium (not injected)", {"dry equilibrium"}),
        ("soak, not pumped", {"gradient"}), ("injected, no soaking", {"injected"}),
        ("immersion, never dry", {"gradient"}),
        ("pumped, then soaked", {"injected", "gradient"}), ("not injected", set()),
    ],
)  # fmt: skip
def test_a_way_that_is_denied_is_no_way(text: str, ways: "set[str]") -> None:
    assert methods.ways(text) == ways


def test_massage_works_a_brine_in_and_opens_nothing() -> None:
    assert needles.works_in("vacuum massaged")
    assert not needles.pierces("vacuum massaged")
    assert not needles.works_in("needled")
