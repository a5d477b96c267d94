"""Food that is packed: what nobody may take for kept."""

from __future__ import annotations

import pytest

from tests.trade.cases import found


@pytest.mark.parametrize("level", [0.0001, 0.01, 0.9])
def test_vinegar_in_the_brine_never_releases_sealed_food(level: float) -> None:
    """21 CFR 114.3: the equilibrium pH of the food counts, not that of the fresh brine."""
    row = {"product": "cucumber", "water": 1000.0, "strength": 0.05, "ingredient": "vinegar", "level": level}
    assert "sealed-low-acid" in found({**row, "packaging": "sealed jar"})
    assert "sealed-low-acid" in found({**row, "packaging": "sealed jar", "ph": 4.7})
    assert "sealed-low-acid" not in found({**row, "packaging": "sealed jar", "ph": 4.6})
