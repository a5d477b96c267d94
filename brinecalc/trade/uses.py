"""How the brine of a row is used: pumped in, as a pickle of vegetables, on cheese, or to soak in.

One idea: what is usual of an ingredient goes by the use, so a row has one, in the words of the dose table.
"""

from __future__ import annotations

from brinecalc.trade import methods, needles
from brinecalc.trade.row import Row


def of(row: Row) -> str:
    """How the brine is used, in the words of the dose table."""
    if is_injected(row):
        return "injection"
    return row.group if row.group in ("vegetable", "cheese") else "immersion"


def is_injected(row: Row) -> bool:
    """Whether brine is brought in by needles or worked in, in whatever words."""
    texts = [row.text(heading) for heading in ("method", "treatment", "cure method")]
    return any("injected" in methods.ways(text) or needles.works_in(text) for text in texts)
