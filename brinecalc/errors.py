"""What can go wrong, and which spreadsheet error each kind becomes.

BrineError                     anything this library says no to
├── Unreadable   #VALUE!       not a quantity of the kind asked for (also a ValueError)
├── OutOfRange   #NUM!         readable, but outside what the argument allows (also a ValueError)
│   ├── Impossible  #NUM!      allowed in itself, but no answer exists: the reason names the nearest one
│   └── Refused     #NUM!      an answer exists and is not given, for safety
├── UnknownName  #N/A          a name that is in no table: the reason names the nearest (also a LookupError)
└── CellError    any           an error that came in with a cell and goes out unchanged

An error keeps its parts, so that the sentence is put together once, where the worksheet function and the
value as the person typed it are known: ``function: argument must be RULE, got VALUE; ADVICE.``
"""

from __future__ import annotations

from typing import Callable, Optional, Union

NUM = "#NUM!"
VALUE = "#VALUE!"
NOT_AVAILABLE = "#N/A"

CELL_ERRORS = frozenset((NUM, VALUE, NOT_AVAILABLE, "#DIV/0!", "#REF!", "#NAME?", "#NULL!", "#SPILL!", "#CALC!"))
"""Every error text that a host may hand over in a cell; these pass through untouched."""


class BrineError(Exception):
    """A refusal with its parts: which argument, what it must be, what was given, what to do instead."""

    cell = VALUE

    def __init__(
        self,
        rule: str,
        *,
        argument: Optional[str] = None,
        got: Optional[str] = None,
        advice: Union[str, Callable[[], str], None] = None,
        nearest: Optional[float] = None,
    ) -> None:
        super().__init__(rule)
        self.rule = rule
        self.argument = argument
        self.got = got
        self._advice = advice
        self.place: Optional[str] = None
        """Where in a list or table the value stands, for whoever gave one from Python."""
        self.nearest = nearest
        """The closest possible answer or argument, in base units, where one exists."""

    @property
    def advice(self) -> Optional[str]:
        """What to do instead. May be given as a function, worked out only when somebody asks for the sentence."""
        return self._advice() if callable(self._advice) else self._advice

    @advice.setter
    def advice(self, words: Optional[str]) -> None:
        self._advice = words

    def put_advice(self, better: str, instead_of: str) -> None:
        """A better advice in the place of that one, looked at only when somebody asks for the sentence."""
        given = self._advice

        def words() -> str:
            found = (given() if callable(given) else given) or ""
            return better if found == instead_of else found

        self._advice = words

    def sentence(self, function: Optional[str] = None) -> str:
        """The reason in one sentence; `function` is the worksheet name to open with."""
        head = "".join(f"{part}: " for part in (function, self.place) if part)
        body = f"{self.argument} {self.rule}" if self.argument else self.rule
        got = f", got {self.got}" if self.got is not None else ""
        words = self.advice
        advice = f"; {words}" if words else ""
        text = f"{head}{body}{got}{advice}"
        return text if text.endswith((".", "!", "?")) else text + "."

    def __str__(self) -> str:
        return self.sentence()


class Unreadable(BrineError, ValueError):
    """The cell holds something that is not a quantity, choice or table of the kind asked for."""

    cell = VALUE


class OutOfRange(BrineError, ValueError):
    """The value can be read but lies outside the range the argument allows."""

    cell = NUM


class Impossible(OutOfRange):
    """Each argument is allowed, but together they have no answer."""


class Refused(OutOfRange):
    """An answer exists and is withheld, because acting on a bare number would be dangerous."""


class UnknownName(BrineError, LookupError):
    """A product, ingredient, shape or other name that no table knows."""

    cell = NOT_AVAILABLE


class CellError(BrineError):
    """An error value that came in with a cell; it goes out as it came."""

    def __init__(self, cell: str, argument: Optional[str] = None) -> None:
        super().__init__(f"holds the error {cell}", argument=argument, advice="mend that cell first")
        self.cell = cell
