"""Conversion between the units that cells know.

One idea: people convert with the same closed table that reads their quantities, so that a sheet and a function
can never disagree about a cup.
"""

from __future__ import annotations

from typing import Any, Optional, Tuple

from brinecalc import misread, quantity
from brinecalc import units as table
from brinecalc.catalogue import worksheet_function
from brinecalc.errors import BrineError, Unreadable


@worksheet_function(family="Label, limits, sources")
def unit(value: Any, from_unit: Optional[str] = None, to_unit: Optional[str] = None) -> float:
    """A quantity in another unit of the same kind.

    Parameters
    ----------
    value : amount
        Number, or text with its unit [-]. Example: "3 lb 4 oz".
    from_unit : text
        Unit of the value; "" when its text has one [-]. Example: "gal".
    to_unit : text
        Unit wanted; left out, the library's own: g, mm, h, °C, mL, each [-]. Example: "L".

    Returns
    -------
    number
        Value in to_unit [-].

    Notes: Cups, pints and gallons are US; write imp gal or metric cup for the others. Weight and volume are not turned
    into one another here, since that takes an ingredient: see BRINE_WEIGHT and BRINE_VOLUME.
    Sources: si-units
    Examples
    --------
    >>> unit(2, "gal", "L")
    7.570823568
    >>> unit("2 lb", "", "kg")
    0.90718474
    >>> unit("38 °F", "", "°C")
    3.3333333333333335
    """
    base, start = _given(value, _named(from_unit, "from_unit"))
    end = _named(to_unit, "to_unit", start.dimension)
    if end is None:
        return base
    if start.dimension == end.dimension:
        return end.from_base(base)
    raise misread.unlike(start, end)


def _named(name: Optional[str], argument: str, dimension: str = "any") -> Optional[table.Unit]:
    """The unit of that name; where there is none, the known ones of the kind wanted are named."""
    if not name:
        return None
    try:
        return table.unit(name, dimension)
    except BrineError as error:
        error.argument = argument
        raise


def _given(value: Any, start: Optional[table.Unit]) -> Tuple[float, table.Unit]:
    """The value in the base unit, and the unit it came in, which stands in the text or in from_unit but not in both."""
    if isinstance(value, str):
        try:
            found = quantity.parse(value)
        except BrineError as error:
            error.argument, error.got = "value", error.got or table.quoted(value)
            raise
        if found.unit is not None and start is not None and found.unit is not start:
            raise Unreadable(
                "must be empty when the value has its own unit",
                argument="from_unit",
                got=f'"{start.name}" beside {table.quoted(value)}',
                advice='write ""',
            )
        if found.unit is not None:
            return found.value, found.unit
        value = found.value
    if start is None:
        raise Unreadable("is missing", argument="from_unit", advice='say what the number is in, such as "lb"')
    return start.to_base(value), start
