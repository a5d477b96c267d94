"""What is said of an ingredient that no table knows and that nobody is to guess at.

One idea: a name whose words speak of what can hurt, of a preservative or of nitrite is led to no other name, however
like it is; what to do is said instead, in the same words by the functions and by the rules.
"""

from __future__ import annotations

from brinecalc.trade import denials
from brinecalc.trade.hazards import hazards_in

PRESERVATIVE = (
    "leave it out of the sheet and weigh it by its maker's instructions, or take it up among your own ingredients"
)
"""What is to be done with a preservative that no table knows: its level is for the law and its label to say."""
NO_NITRITE = (
    "leave it out, or write its plain name; where its pack names celery, chard, a culture or nitrite, write cultured "
    "celery powder"
)
"""The same with what says that it has no nitrite."""
_HURTS = frozenset(("alkali", "sulphite", "poison"))


def instead_of_a_guess(text: str) -> str:
    """What to say of a name that no table knows and whose words speak of such; empty for any other name."""
    said = hazards_in(text)
    if said & {"cure", "nitrate"}:
        if denials.without_cure(text):
            return f"it says that it has no nitrite: {NO_NITRITE}"
        return (
            'write which curing salt it is, "curing salt no. 1" or "curing salt no. 2", or the nitrite on its label '
            'in per cent, as in "curing salt 0.6 %"'
        )
    if said & _HURTS:
        return "write its full name; what can hurt is never guessed at"
    if "preservative" in said:
        law = "it is a preservative, and the law of your place and its label rule how much of it goes in"
        return f"{law}; {PRESERVATIVE}"
    return ""
