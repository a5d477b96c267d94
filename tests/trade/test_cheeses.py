"""Cheese that ripens lies in a strong brine that is neither cold nor new; fresh cheese and dishes of cheese do not."""

from __future__ import annotations

from brinecalc.trade import cheeses
from tests.trade.cases import CURED, found

BATH = {"strength": 0.22, "bath temperature": 13.0, "soak hours": 72.0, "reused": "yes", "brine age": 1440.0}


def test_a_wheel_lies_in_a_cellar_brine_for_days() -> None:
    """Floury and others (2010), table II: cheeses are brined at 4 to 20 °C, Emmental and Sbrinz at up to 20."""
    for name in ("gouda wheel", "Young Gouda", "raw milk tomme", "Gruyère"):
        assert found({"product": name, **BATH}) == ["product-plant"], name
    assert "cheese-warm" in found({"product": "gouda wheel", **BATH, "strength": 0.03})
    assert "cure-no-rule" in found({**CURED, "product": "gouda wheel"})


def test_what_is_more_than_such_a_cheese_stays_perishable() -> None:
    for name in (
        "ricotta",
        "cottage cheese",
        "cheese",
        "gouda sauce",
        "chicken with cheddar",
        "goat cheese",
        "gouda dip",
    ):
        assert not cheeses.is_ripened(name), name
        assert {"brine-warm-long", "brine-reused"} <= set(found({"product": name, **BATH})), name
