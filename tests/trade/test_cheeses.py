"""Cheese that ripens lies in a strong brine that is neither cold nor new; fresh cheese and dishes of cheese do not."""

from __future__ import annotations

from brinecalc.trade import cheeses
from tests.trade.cases import CURED, found, said

BATH = {"strength": 0.22, "bath temperature": 13.0, "soak hours": 72.0, "reused": "yes", "brine age": 1440.0}


def test_a_wheel_lies_in_a_cellar_brine_for_days() -> None:
    """Floury and others (2010), table II: cheeses are brined at 4 to 20 °C, Emmental and Sbrinz at up to 20."""
    for name in ("gouda wheel", "Young Gouda", "raw milk tomme", "Gruyère"):
        assert found({"product": name, **BATH}) == ["product-plant"], name
    assert "cheese-warm" in found({"product": "gouda wheel", **BATH, "strength": 0.03})
    assert "cure-no-rule" in found({**CURED, "product": "gouda wheel"})


def test_no_salt_keeps_a_cheese_that_is_warmer_than_cheese_is_brined() -> None:
    """The same table: no study of cheese in brine was made above 20 °C."""
    warm = {"cheese-warm", "brine-warm", "brine-warm-long"}
    for name, told in (("gouda wheel", warm), ("parmesan", warm), ("feta", {"cheese-warm"})):
        for celsius in (20.0, 20.1, 38.0, 45.0):
            hits = found({"product": name, "strength": 0.22, "bath temperature": celsius, "soak hours": 300.0})
            assert warm & set(hits) == (told if celsius > 20.0 else set()), (name, celsius)
    row = {"product": "feta", "strength": 0.22, "bath temperature": 38.0, "soak hours": 300.0}
    assert "38.0 °C / 100 °F for 12.5 days, however salt the brine: cheese is brined at 20.0 °C / 68 °F" in said(row)
    assert found({**row, "ph": 4.4}) == found({**row, "soak hours": 3.0}) == []
    assert {"brine-warm", "brine-reused"} <= set(found({**BATH, "product": "gouda", "bath temperature": 21.0}))


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
