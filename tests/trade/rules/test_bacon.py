"""Pumped bacon by US rules goes with a level that is set, and an accelerator."""

from __future__ import annotations

from each import each

from tests.trade.cases import found, of


@each(
    ("name", "grams", "told"),
    [
        ("sodium erythorbate", 0.1, ("bacon-accelerator", "it comes to 10 ppm")),
        ("sodium erythorbate", 5.2, ("bacon-accelerator", "it comes to 5")),
        ("sodium erythorbate", 5.5, None), ("sodium erythorbate", 6.0, None),
        ("sodium erythorbate", 6.5, ("over-in-product", "the limit by US rules is 550 ppm")),
        ("sodium ascorbate", 5.5, None), ("sodium ascorbate", 5.9, ("over-in-product", "550 ppm")),
        ("sodium ascorbate", None, ("bacon-accelerator", "not known")),
        ("bay leaf", 1.0, ("bacon-accelerator", "none is in this row")),
    ],
)  # fmt: skip
def test_pumped_bacon_has_its_accelerator_weighed(name: str, grams: float | None, told: tuple[str, str] | None) -> None:
    """9 CFR 424.22(b)(1): 550 ppm dry, which is 5.5 g in 10 kg; 6.0 g of the monohydrate (198.11 and 216.12 g/mol)."""
    row = {
        "product": "pork belly", "weight": 10000.0, "cure": 19.2, "cure method": "pumped", "gain": 0.1,
        "water": 880.0, "salt": 95.0, "pickle": 1000.0, "ingredient": name,
        "level": f"{grams} g" if grams else None,
    }  # fmt: skip
    hits = [hit for rule in ("bacon-accelerator", "over-in-product") for hit in of(rule, row)]
    assert [hit.rule.id for hit in hits] == ([told[0]] if told else [])
    assert all(told is not None and told[1] in hit.sentence for hit in hits)
    assert "bacon-accelerator" not in found({**row, "kind": "general"})
    assert "bacon-accelerator" not in found({**row, "cure method": "pick-up"})
