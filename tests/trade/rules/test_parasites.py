"""Fish that is eaten with what lives in it: raw, marinated, salted, smoked cold; not when it is cooked.

Regulation (EC) 853/2004, annex III, section VIII, chapter III D, and Food Code 3-402.11, read.
"""

from __future__ import annotations

import pytest
from each import each

from tests.trade.cases import found, of

ASKED = [
    {"product": "herring fillet", "method": "gradient, cold smoked"},
    {"product": "mackerel fillet", "method": "gradient", "treatment": "cold-smoked"},
    {"product": "herring fillet", "method": "marinated"},
    {"product": "herring fillet", "method": "gradient", "acid": "vinegar", "acid level": 0.4, "rules": "EU"},
    {"product": "salmon fillet", "method": "gradient", "note": "sashimi, served raw"},
    {"product": "halibut fillet", "method": "ceviche"},
    {"product": "halibut fillet", "method": "gradient", "liquid": "lime juice"},
    {"product": "salmon fillet", "method": "dry equilibrium"},
    {"product": "salmon fillet", "method": "rubbed"},
    {"product": "herring fillet", "method": "salted"},
    {"product": "sea bream fish", "note": "crudo"},
    {"product": "tuna loin", "note": "tartare", "rules": "EU"},
    {"product": "cod fillet", "method": "dry salted", "note": "not cooked"},
    {"product": "salmon fillet", "method": "gravlax", "note": "with roasted beetroot"},
    {"product": "salmon fillet", "method": "gradient", "note": "sashimi, boiled rice", "treatment": "boiled"},
    {"product": "salmon fillet", "method": "gradient", "note": "cold smoked over oak"},
    {"product": "salmon fillet", "method": "gradient", "note": "for Friday, then cold-smoked"},
    {"product": "salmon fillet", "method": "gradient", "note": "lox"},
    {"product": "salmon fillet", "method": "gradient", "remarks": "for gravlax"},
    {"product": "salmon fillet", "method": "gradient", "note": "cold smoke on Tuesday"},
    {"product": "salmon fillet", "method": "gradient", "note": "cold smoked 24 h"},
    {"product": "salmon fillet", "method": "gradient", "note": "kalt geräuchert"},
    {"product": "salmon fillet", "method": "gradient", "for": "lox bagels"},
    {"product": "salmon fillet", "method": "gradient", "note": "guests eat it raw"},
    {"product": "herring fillet", "method": "gradient", "for": "pickled herring"},
    {"product": "salmon fillet", "method": "gradient", "treatment": "Rohverzehr"},
    {"product": "salmon fillet", "method": "gradient", "note": "zum Rohverzehr"},
    {"product": "salmon fillet", "method": "gradient", "for": "raw"},
    {"product": "salmon fillet", "method": "gradient", "dish": "eaten raw"},
]
QUIET = [
    {"product": "haddock fillet", "method": "gradient, cold smoked, to be cooked"},
    {"product": "haddock fillet", "method": "gradient, cold smoked", "note": "cooked through"},
    {"product": "mackerel fillet", "method": "dry salted, hot smoked"},
    {"product": "cod fillet", "method": "dry equilibrium", "note": "fully cooked"},
    {"product": "herring fillet", "method": "marinated", "treatment": "fried"},
    {"product": "herring fillet", "method": "marinated", "note": "no skin", "treatment": "hot smoked"},
    {"product": "salmon fillet", "method": "gradient"},
    {"product": "salmon fillet", "method": "gradient", "acid": "lemon juice", "acid level": 0.05},
    {"product": "tuna loin", "note": "tartare"},
    {"product": "peeled shrimp", "method": "ceviche"},
    {"product": "scallops", "note": "crudo"},
    {"product": "salmon fillet", "method": "gradient", "note": "with pickled onions and smoked butter"},
    {"product": "salmon fillet", "method": "gradient", "note": "not smoked, smoked salt beside it"},
    {"product": "salmon fillet", "method": "gradient", "note": "smoked paprika; pickled cucumber"},
    {"product": "salmon fillet", "method": "gradient", "note": "bought raw, dry the skin"},
    {"product": "salmon fillet", "method": "gradient", "note": "lox", "for": "cooked through"},
    {"product": "salmon fillet", "method": "gradient", "for": "not raw"},
    {"product": "salmon fillet", "method": "gradient", "for": "Friday, 40 guests"},
    {"product": "pork chop", "method": "dry"},
    {"product": "salt cod", "method": "gradient", "strength": 0.0, "note": "dry salted"},
]


@each("row", ASKED)
def test_fish_eaten_raw_or_nearly_is_asked_about(row: dict[str, object]) -> None:
    assert "parasites" in found(row)
    assert "parasites-maybe" not in found(row)


@each("row", QUIET)
def test_fish_that_is_cooked_or_carries_none_is_not(row: dict[str, object]) -> None:
    assert not {"parasites", "parasites-maybe"} & set(found(row))


@pytest.mark.parametrize(("rules", "frost"), [("US", "7 days at"), ("EU", "24 h at")])
def test_it_says_how_long_frost_takes(rules: str, frost: str) -> None:
    """Food Code 3-402.11: 168 h at -20 °C; annex of Regulation (EU) 1276/2011: 24 h; both read."""
    (hit,) = of("parasites", {"product": "herring fillet", "method": "marinated", "rules": rules})
    assert f"{frost} -20 °C / -4 °F or below" in hit.text


def test_game_that_eats_meat_is_asked_about_unless_it_is_cooked() -> None:
    """Freezing, curing, drying and smoking do not kill the worms of game (advice of the CDC, as reported by others)."""
    for row in ({"product": "bear meat", "note": "medium rare"}, {"product": "wild boar", "method": "cold smoked"},
                {"product": "walrus", "method": "dry equilibrium"}, {"product": "boar ham", "cure": 1.0}):  # fmt: skip
        assert "trichinella" in found(row), row
    for row in ({"product": "bear meat"}, {"product": "boar ham", "note": "cook through"}, {"product": "deer salami"},
                {"product": "ham leg", "note": "as rare as bear"}):  # fmt: skip
        assert "trichinella" not in found(row), row


def test_smoke_that_is_neither_called_hot_nor_cold_is_noted() -> None:
    assert "parasites-maybe" in found({"product": "trout fillet", "method": "gradient, smoked"})
    assert "parasites-maybe" not in found({"product": "trout fillet", "method": "gradient, hot smoked"})
    for told in (
        "smoked",
        "then smoked over alder",
        "for the smoker",
        "smoked salmon platter",
        "smoked on alder",
        "to be smoked at 25 °C",
    ):
        row = {"product": "trout fillet", "method": "gradient", "note": told}
        assert {"parasites-maybe", "fish-salt-unknown"} <= set(found(row)), told


@each(
    "told, rules, asked",
    [
        ("frozen at -20 °C for 7 days", "US", False), ("previously frozen, a week at −21 C", "US", False),
        ("frozen 24 h at -20", "EU", False), ("was frozen at -4 F for 168 hours", "US", False),
        ("frozen at minus 22 for 2 weeks", "US", False), ("frozen 24 h at -20", "US", True),
        ("frozen 23 h at -20", "EU", True), ("frozen at -18 °C for 7 days", "US", True), ("frozen", "EU", True),
        ("to be frozen at -20 for 7 days", "US", True), ("not frozen at -20 for 7 days", "US", True),
        ("7 days in the cold at -1", "US", True), ("frozen at -20 for 7 days, one at -12", "US", True),
        ("frozen at -20 C or below for at least 7 days", "US", False), ("frozen, 7 days at -20 °C", "US", False),
        ("frozen, -20 °C, 7 days", "US", False), ("frozen at -20 degrees for one week", "US", False),
        ("frozen at -20 C, use within 7 days", "US", True), ("frozen at -20 C; cured for 7 days", "US", True),
        ("caught 7 days ago, frozen at -20 C last night", "US", True), ("frozen, lot 11-26, 7 days", "US", True),
        ("frozen 10-20 portions, 7 days", "US", True), ("frozen 24-26 November, 7 days", "US", True),
        ("frozen at -20 C, shelf life 30 days", "US", True), ("frozen, lot -26, 7 days", "US", True),
        ("frozen at -20 C, thaw for 7 days", "US", True), ("frozen, keeps 7 days at -20 C", "US", True),
        ("frozen up to 7 days at -20 C", "US", True), ("frozen 2026-11-26, 7 days", "US", True),
    ],
)  # fmt: skip
def test_what_was_frozen_as_the_rules_ask_is_not_asked_about(told: str, rules: str, asked: bool) -> None:
    """-20 °C for seven days (Food Code 3-402.11) or for 24 h (Regulation (EC) 853/2004)."""
    row = {"product": "salmon fillet", "method": "gravlax", "treatment": "thawed", "note": told, "rules": rules}
    assert ("parasites" in found(row)) is asked
    even = {**row, "method": "equilibrium"}
    assert bool({"parasites", "parasites-maybe"} & set(found(even))) is asked


@each("product", ["gravlax", "rollmops", "pickled herring", "marinated salmon", "cured trout", "Matjes",
                  "salted mackerel", "escabeche of sardines", "salmon, cold-smoked", "dry-aged hamachi"])  # fmt: skip
def test_a_product_that_is_called_so_is_asked_about_without_a_method(product: str) -> None:
    assert "parasites" in found({"product": product})
    assert "parasites" not in found({"product": product, "note": "cooked through"})


@each("method", ["soak, secured in a net", "gradient, laundry bag", "with unsalted butter", "obscure custom, soak"])
def test_a_word_inside_another_is_no_treatment(method: str) -> None:
    assert "parasites" not in found({"product": "salmon fillet", "method": method})


@each("note", ["never eat raw", "not to be served raw", "not eaten raw", "do not serve raw", "never eat it raw"])
def test_a_warning_not_to_eat_it_raw_is_no_raw_dish(note: str) -> None:
    assert "parasites" not in found({"product": "salmon fillet", "method": "gradient", "note": note})
    assert "parasites" in found({"product": "salmon fillet", "method": "gradient", "note": f"{note} but as sashimi"})
