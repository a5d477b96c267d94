"""Each rule has one condition."""

from __future__ import annotations

import pytest

from brinecalc.trade.rules import condition


def test_two_conditions_under_one_id_are_a_mistake(monkeypatch):
    monkeypatch.setattr(condition, "known", {})
    condition.condition("brine-old")(lambda row: ())
    with pytest.raises(ValueError, match="'brine-old' has two conditions"):
        condition.condition("brine-old")(lambda row: ())
