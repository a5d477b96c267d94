"""The known differences between hosts, in one place: what each host makes of a call instead.

One idea: a host that differs reads the call as if something else stood there, so what it must answer is what the
registry answers to that other call. The same sentences stand in DEVELOPERS.md; a test compares them.
"""

from __future__ import annotations

from typing import Any, Callable, NamedTuple

from parity.calls import GAP, Call, Cells, Error, Gap, Table

from brinecalc import registry

CALC, LITE = "LibreOffice Calc", "xlwings Lite"
BLANK = Cells(((None,),))


class Difference(NamedTuple):
    """A host, what it does in words, and the call as that host reads it (`asked_why`: as arguments of BRINE_WHY)."""

    host: str
    says: str
    read: Callable[[Call, bool], Call]


def _logical_values(call: Call, asked_why: bool) -> Call:
    def read(place: int, old: Any) -> Any:
        if isinstance(old, (Cells, Table)):
            return type(old)(tuple(tuple(_as_number(cell) for cell in row) for row in old.rows))
        return _as_number(old)

    return _each(call, read)


def _as_number(cell: Any) -> Any:
    return float(cell) if isinstance(cell, bool) else cell


def _blank_is_left_out(call: Call, asked_why: bool) -> Call:
    optional = [not argument.required and argument.kind != "cells" for argument in registry.spec(call.name).arguments]

    def read(place: int, argument: Any) -> Any:
        left_out = argument == BLANK and not asked_why and place < len(optional) and optional[place]
        return GAP if left_out else argument

    return _each(call, read)


def _empty_place_is_blank(call: Call, asked_why: bool) -> Call:
    arguments = registry.spec(call.name).arguments

    def read(place: int, argument: Any) -> Any:
        nearest = arguments[min(place, len(arguments) - 1)] if arguments else None
        needed = asked_why or nearest is None or nearest.required
        return BLANK if isinstance(argument, Gap) and needed else argument

    return _each(call, read)


DIFFERENCES = (
    Difference(CALC, "`TRUE` and `FALSE` are the numbers 1 and 0; elsewhere they are refused", _logical_values),
    Difference(LITE, "a blank cell given for an optional argument is left out; elsewhere it is 0", _blank_is_left_out),
    Difference(
        LITE,
        "an empty place between commas is a blank cell where an argument is needed and inside `BRINE_WHY`; elsewhere "
        "it is left out",
        _empty_place_is_blank,
    ),
)

STOPS = (
    "a range with an error in it stops the call: every cell of the result is an error; elsewhere only the answers that "
    "need that cell are"
)
OTHER_ERROR = "of several errors that come in, any one may go out; elsewhere the first"
"""Two differences of Calc that are not a matter of reading."""

LISTED = ((CALC, STOPS), (CALC, OTHER_ERROR), *((difference.host, difference.says) for difference in DIFFERENCES))
"""Host and difference, as they are listed for people."""


def as_read(host: str, call: Call, asked_why: bool = False) -> tuple[Call, list[str]]:
    """The call as a host reads it, and the differences that made it another."""
    found = []
    for difference in DIFFERENCES:
        if difference.host == host:
            other = difference.read(call, asked_why)
            if repr(other) != repr(call):  # True equals 1.0
                found.append(difference.says)
            call = other
    return call, found


def errors_only(host: str, call: Call) -> tuple[str, set[str] | None] | None:
    """The difference by which the host gives nothing but errors for the call, and which ones (None: any)."""
    if host != CALC:
        return None
    if any(isinstance(a, Cells) and not a.single and a.errors for a in call.arguments):
        return STOPS, None
    single = {error for argument in call.arguments for error in _single_errors(argument)}
    return (OTHER_ERROR, single) if len(single) > 1 else None


def _single_errors(argument: Any) -> list[str]:
    """The error of an argument that is a single cell or a part of the formula."""
    if isinstance(argument, Error):
        return [argument.text]
    return argument.errors if isinstance(argument, Cells) and argument.single else []


def _each(call: Call, read: Callable[[int, Any], Any]) -> Call:
    return call._replace(arguments=tuple(read(place, argument) for place, argument in enumerate(call.arguments)))
