"""Cheese that ripens and has no row of the product table, known by its words.

One idea: such a wheel lies in a strong brine at 10 to 14 °C, which is used for months, while fresh cheese belongs in
the cold; so a name is believed only when every word of it is in these lists. The words are common practice, no source.
Warmer than cheese is brined, salt keeps none, and the wheel is judged like any food that spoils.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Optional

from brinecalc.trade import limits, named

_RIPENED = frozenset(
    "gouda edam cheddar emmental emmentaler gruyere gruyère comte comté beaufort cantal parmesan parmigiano reggiano "
    "grana padano pecorino manchego tilsit tilsiter raclette appenzeller provolone caciocavallo asiago montasio "
    "havarti tomme maasdam bergkäse".split()
)
_BESIDE = frozenset(
    "cheese wheel block loaf round piece young aged new small large half whole raw milk cow sheep goat style type "
    "alpine mountain hard semi washed rind for brining from own and".split()
)


@lru_cache(maxsize=256)
def is_ripened(text: str) -> bool:
    """Whether the text names a cheese that ripens, and nothing else."""
    words = frozenset(named.words_in(text[:200]).split())
    return bool(words & _RIPENED) and words <= _RIPENED | _BESIDE


def is_too_warm(celsius: Optional[float]) -> bool:
    """Whether a brine is warmer than any in which cheese is known to lie."""
    return celsius is not None and limits.find("cheese brine temperature").passed_by(celsius)
