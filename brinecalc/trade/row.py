"""A production row, read: numbers in base units, names looked up, and what could not be read.

One idea: the rules ask the row and never its cells, so that one reading serves them all. ``row_reading`` fills it in.
"""

from __future__ import annotations

from functools import cached_property
from typing import Any, Callable, Dict, List, Optional, Sequence, Set, Tuple

from brinecalc.trade import cells, cheeses, plants, products
from brinecalc.trade.hazards import words_in
from brinecalc.trade.headings import Column, Plan, Strange
from brinecalc.trade.products import Product
from brinecalc.trade.things import Thing as Thing
from brinecalc.trade.things import Unread


class Row:
    """One production row."""

    def __init__(self, plan: Plan, typed: Sequence[Any] = ()) -> None:
        self.plan = plan
        self.typed = typed
        self.numbers: Dict[str, float] = {}
        self.lows: Dict[str, float] = {}
        """The low end of each number: the shorter, the colder, the sourer, where a cell or two of them give a range."""
        self.texts: Dict[str, str] = {}
        self.unread: List[Unread] = []
        self.errors: List[Column] = []
        self.passed_over: List[Strange] = []
        """Columns with a value and a heading that is not known."""
        self.unweighed: List[Strange] = []
        """Columns headed with the name of an ingredient whose amount was not read."""
        self.bare: Set[str] = set()
        """Columns whose quantity came as a bare number."""
        self.with_unit: Set[str] = set()
        """Columns whose quantity came with a unit."""
        self.product: Optional[Product] = None
        self.weighed: Dict[str, Tuple[str, float]] = {}
        """Curing salt by the heading of its column: the number at its end, and grams."""
        self.things: List[Thing] = []
        self.cures: List[Thing] = []
        """Curing salts in the row, whatever the column."""
        self.cure_is_wrong = False
        """Whether a cure column holds an error or something unreadable."""
        self.memo: Dict[str, Any] = {}
        """What rules have worked out of this row already."""

    def number(self, heading: str) -> Optional[float]:
        """The number under a heading, the high end of a range, None where it is not given."""
        return self.numbers.get(heading)

    def least(self, heading: str) -> Optional[float]:
        """The low end of it, which counts where a rule asks for a least; None where it is not given."""
        return self.lows.get(heading)

    def text(self, heading: str) -> str:
        """The text under a heading, empty where it is not given."""
        return self.texts.get(heading, "")

    @cached_property
    def said(self) -> List[str]:
        """Every text of the row, whatever its heading, but for names of products: baby back ribs are nobody's age."""
        return [cell for cell in self.typed if isinstance(cell, str) and cell not in products.names()]

    @cached_property
    def words(self) -> str:
        """The words of all that is `said`, two blanks between texts."""
        return "".join(map(words_in, self.said))

    @property
    def weight(self) -> Optional[float]:
        """Weight of the product as it goes in, without bone where that is given."""
        edible = self.numbers.get("edible weight")
        return self.numbers.get("weight") if edible is None else edible

    @property
    def group(self) -> str:
        """The product's group in the product table, vegetable or cheese by its words, or empty where not known."""
        if self.product:
            return self.product.group
        return "vegetable" if self.is_plant else "cheese" if self.is_ripened else ""

    @property
    def is_plant(self) -> bool:
        """Whether the product has no row of its own and is a vegetable or fruit by its words."""
        return self._is_unlisted(plants.is_plant)

    @property
    def is_ripened(self) -> bool:
        """Whether the product has no row of its own and is a cheese that ripens, by its words."""
        return self._is_unlisted(cheeses.is_ripened)

    def _is_unlisted(self, known: Callable[[str], bool]) -> bool:
        """Whether every name of the product is known by its words, and none by the table."""
        return self.product is None and bool(self._named_by) and all(known(text) for text in self._named_by)

    @cached_property
    def _named_by(self) -> List[str]:
        """Every name of the product that was typed."""
        named_by = [self.typed[column.at] for column in self.plan.columns if column.name == "product"]
        return [cell for cell in named_by if isinstance(cell, str) and not cells.is_blank(cell)]

    @property
    def is_perishable(self) -> bool:
        """Whether the product must be kept cold; a product that is not known is taken to be so."""
        if self.product:
            return self.product.perishable
        return not (self.is_plant or (self.is_ripened and not cheeses.is_too_warm(self.number("bath temperature"))))

    @property
    def has_cure(self) -> bool:
        """Whether there is, or may be, curing salt in the brine."""
        return bool(self.cures) or self.cure_is_wrong

    def has(self, hazard: str) -> bool:
        """Whether anything named in the row has that hazard."""
        return any(hazard in thing.what.hazards for thing in self.things)

    def of_role(self, *roles: str) -> List[Thing]:
        """The things of these roles."""
        return [thing for thing in self.things if thing.what.role in roles]
