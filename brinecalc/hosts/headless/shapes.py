"""What is known of a part of a formula before anything is computed: whether it is one value or several.

One idea: the shape of a part follows from its text alone in nearly every case; where it does not, the part is
marked "perhaps several" and watched while it is computed.
"""

from __future__ import annotations

from typing import NamedTuple, Optional, Tuple

from brinecalc.hosts.formulas import places
from brinecalc.hosts.formulas.lexer import ROW

ONE, CONSTANT, MAYBE, MANY = range(4)
"""Shapes: one value, an array constant, perhaps several values, several values."""

PLAIN, PRODUCT, WHOLE = range(3)
"""Modes: a plain formula, inside SUMPRODUCT, an array formula."""


class Distrust(Exception):
    """Why a formula is not computed."""


class Exact(Exception):
    """The formula must be judged with its own row number in it."""


class Part(NamedTuple):
    """A part of a formula as the engine shall read it; kind is n, t, l or v as in ``builtins``.

    Where it may be several values, `alone` is how it reads when it must be one, if that can be told without a watch.
    """

    text: str
    shape: int
    kind: str
    alone: str = ""


class Verdict(NamedTuple):
    """What was decided about a formula; a reason means that it is distrusted.

    `formula` and `reads` may hold the sign for the formula's own row. `reads` are sheet and range. `number` is what
    the watches in the formula call out when one of them has a doubt.
    """

    formula: str
    reason: Optional[str]
    reads: Tuple[Tuple[str, str], ...]
    number: int

    def formula_in(self, row: int) -> str:
        """The formula as the engine shall read it in that row."""
        return self.formula.replace(ROW, str(row)) if ROW in self.formula else self.formula

    def reads_in(self, row: int) -> Tuple[Tuple[str, places.Area], ...]:
        """Sheet and range of everything that the formula reads in that row."""
        own = str(row)
        return tuple([(sheet, places.area(area.replace(ROW, own))) for sheet, area in self.reads])
