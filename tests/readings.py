"""What an instrument shows in a brine: the way that BRINE_METER goes back."""

from __future__ import annotations

from brinecalc.science import meter


def expected_reading(
    strength: float, instrument: str, temperature: float | None = None, sugar: float = 0.0, basis: str = "water"
) -> float:
    """What the instrument shows in a brine of that strength; `sugar` is a share of the solution."""
    found = meter.INSTRUMENTS[instrument]
    salt = strength * (1.0 - sugar) / (1.0 + strength) if basis == "water" else strength
    return found.shows(salt, sugar, found.celsius if temperature is None else temperature)
