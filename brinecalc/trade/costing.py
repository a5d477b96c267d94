"""What things cost and how many packs to buy.

One idea: a price belongs to an amount of one kind (mass, volume, length or pieces), and amounts of different
kinds never meet in a sum. A pack is read as purchasing writes it ("24 x 12 fl oz", "dozen", "50 lb bag"); what
invoices write with a stroke ("6/1 gal") looks like a fraction and is refused with the way to write it.
"""

from __future__ import annotations

import math
import re
from typing import Any, Dict, List, NamedTuple, Optional, Sequence, Tuple

from brinecalc import misread, quantity, units
from brinecalc.errors import BrineError, OutOfRange, UnknownName, Unreadable
from brinecalc.names import Names, fold

_TIMES = re.compile(r"([0-9]{1,6}) ?[xX×] ?(?=[0-9.½⅓⅔¼¾⅛])")
_CASE = re.compile(r"(?:case|box|carton|crate|tray|pack) of (?=[0-9])", re.IGNORECASE)
_STROKE = re.compile(r"([0-9]+)/([0-9]+)")
_FRACTIONS = frozenset(((1, 2), (1, 3), (2, 3), (1, 4), (3, 4), (1, 8), (3, 8), (5, 8), (7, 8)))
_KINDS = ("mass", "volume", "length", "count")
_SHOWN = {"mass": "2.5 kg", "volume": "5 L", "length": "30 m", "count": "30 each"}
_ONE = {"mass": "350 g", "volume": "750 mL", "length": "2 m"}
"""One piece, for example."""
_HEAVY = {"mass": "weight", "volume": "volume", "length": "length"}
_PER = {"mass": "kg", "volume": "L", "length": "m", "count": "each"}
_SLACK = 1e-9  # of a pack: less than rounding in a sheet, far more than rounding in a sum
_ROUNDED = 1e-12  # of the packs where they are many, whose number is not exact either
_MEMORY = 4096
_folded: Dict[str, str] = {}


class Amount(NamedTuple):
    """How much, in base units, and of which kind; a number alone is grams."""

    value: float
    kind: str
    bare: bool = False


_amounts: Dict[str, Amount] = {}


def amount(cell: Any, argument: str) -> Amount:
    """A pack size, need or unit of price from a number or text; the name of a unit alone means one of it."""
    if not isinstance(cell, str):
        return Amount(quantity.read(cell, "mass"), "mass", True)
    known = _amounts.get(cell) if len(cell) <= units.LONGEST else None
    if known is not None:
        return known
    try:
        found = _written(cell)
    except BrineError as error:
        error.argument = argument
        error.got = error.got or units.quoted(cell)
        raise
    if found.kind not in _KINDS:
        raise Unreadable(
            "must be a weight, volume, length or number of pieces",
            argument=argument,
            got=units.quoted(cell),
            advice="write it as 25 kg, 24 x 12 fl oz or 2 dozen",
        )
    if len(_amounts) >= _MEMORY:
        _amounts.clear()
    _amounts[cell] = found
    return found


def _written(text: str) -> Amount:
    if len(text) > units.LONGEST:
        raise misread.too_long(text, "")
    rest, times = _CASE.sub("", quantity.tidied(text)), 1
    while True:
        match = _TIMES.match(rest)
        if match is None:
            break
        rest, times = rest[match.end() :], times * int(match[1])
    for stroke in _STROKE.finditer(rest):
        if (int(stroke[1]), int(stroke[2])) not in _FRACTIONS:
            way = rest.replace(stroke[0], f"{stroke[1]} x {stroke[2]}", 1)
            raise Unreadable("must be an amount", advice=f'a stroke reads as a fraction, so write a pack as "{way}"')
    head, _, last = rest.rpartition(" ")
    packed = bool(head) and units.is_vessel(last)
    rest = head.rstrip() if packed else rest
    one = units.find(rest)
    if one is None and not any(c.isdigit() or c in "½⅓⅔¼¾⅛" for c in rest):
        raise Unreadable("must be an amount or a unit", advice=units.advice(rest))
    value, kind = (one.to_base(1.0), one.dimension) if one else quantity.split(rest)
    if kind or not (packed or times > 1):
        return Amount(times * value, kind or "mass", not kind)
    raise Unreadable("must be an amount with its unit", advice="say how much one holds, such as 24 x 12 fl oz")


def unit_cost(price: float, pack: Amount, usable: float, per: Amount) -> float:
    """Price of `per` of what can be used of a pack."""
    return price / (pack.value * usable) * per.value


def packs(need: float, on_hand: float, pack: float, usable: float) -> float:
    """Whole packs that cover a need; none when enough is on hand."""
    exact = (need - on_hand) / (pack * usable)
    return float(max(0, math.ceil(exact * (1.0 - _ROUNDED) - _SLACK)))


def positive(found: Amount, argument: str) -> Amount:
    """The amount itself when it is above 0."""
    if found.value > 0:
        return found
    raise OutOfRange(
        "must be above 0", argument=argument, got=quantity.show(found.value, found.kind), advice="write it as 25 kg"
    )


def not_negative(found: Amount, argument: str) -> Amount:
    """The amount itself when it is 0 or more."""
    if found.value >= 0:
        return found
    raise OutOfRange("must be at least 0", argument=argument, got=quantity.show(found.value, found.kind))


def alike(found: Amount, pack: Amount, argument: str) -> Amount:
    """The amount itself when it is of the pack's kind; nothing at all is of every kind."""
    if found.kind == pack.kind or found.value == 0:
        return found
    word = misread.wanted(pack.kind)
    way = f'write it as one, such as "{_SHOWN[pack.kind]}"'
    if found.bare:
        way = f'a number alone is grams, so write its unit, as in "{_SHOWN[pack.kind]}"'
    elif pack.bare:
        way = f'a pack_size without a unit is grams, so write its unit, as in "{_SHOWN[found.kind]}"'
    elif found.kind == "count":
        way = f'write it with the {_HEAVY[pack.kind]} of one piece, such as "{_of_pieces(found, pack.kind)}"'
    if pack.kind == "count":
        way += f', or give pack_size with the {_HEAVY[found.kind]} of one piece, as "{_of_pieces(pack, found.kind)}"'
    got = quantity.show(found.value, found.kind)
    raise Unreadable(f"must be {word} like pack_size", argument=argument, got=got, advice=way)


def priced_alike(per: Amount, pack: Amount, given: str) -> Amount:
    """The unit of the price when it is of the pack's kind; otherwise the error says which to use."""
    if per.kind == pack.kind:
        return per
    way = f'write "{_PER[pack.kind]}" for per'
    if {per.kind, pack.kind} == {"mass", "volume"}:
        other = "BRINE_WEIGHT" if per.kind == "mass" else "BRINE_VOLUME"
        way += f", or give pack_size as {misread.wanted(per.kind)} ({other} turns one into the other)"
    elif pack.kind == "count":
        way += f', or give pack_size with the {_HEAVY[per.kind]} of one piece, such as "{_of_pieces(pack, per.kind)}"'
    elif pack.bare:
        way = f'a pack_size without a unit is grams, so write its unit, as in "{_SHOWN[per.kind]}"'
    elif per.kind == "count":
        way += f', or the {_HEAVY[pack.kind]} of one piece, such as "{_ONE[pack.kind]}"'
    raise Unreadable(
        f"must be {misread.wanted(pack.kind)} like pack_size", argument="per", got=units.quoted(given), advice=way
    )


def _of_pieces(pieces: Amount, kind: str) -> str:
    """That many pieces with what one of them weighs or holds, as a pack is written."""
    return f"{pieces.value:.6g} x {_ONE[kind]}"


def mix_cost(
    ingredients: Sequence[Any], masses: Sequence[Any], names: Sequence[Any], prices: Sequence[Any], per: float
) -> float:
    """Cost of a mix: every ingredient with a mass must have one price; `prices` are for `per` grams each."""
    rows = mix_rows(ingredients, masses)
    _same_length(names, prices, "price_names", "unit_costs")
    places: Dict[str, List[int]] = {}
    for place, name in enumerate(names):
        if not quantity.is_nothing(name):
            places.setdefault(_key(name), []).append(place)
    return math.fsum(mass * _price(name, places.get(_key(name), []), prices, names) / per for name, mass in rows)


def mix_rows(ingredients: Sequence[Any], masses: Sequence[Any]) -> List[Tuple[str, float]]:
    """Ingredients that have a mass, with that mass in grams."""
    _same_length(ingredients, masses, "ingredients", "masses")
    made = []
    for row, (name, cell) in enumerate(zip(ingredients, masses), 1):
        if quantity.is_nothing(cell):
            continue
        named = not quantity.is_nothing(name)
        mass = _read(cell, "water" if named and _key(name) == "water" else "mass", "masses", row)
        if mass < 0:
            got = f"{quantity.show(mass, 'mass')} in row {row}"
            raise OutOfRange("must be at least 0 g", argument="masses", got=got)
        if not named:
            raise Unreadable("must name every mass", argument="ingredients", got=f"a blank cell in row {row}")
        made.append((str(name), mass))
    return made


def _price(name: str, places: List[int], prices: Sequence[Any], names: Sequence[Any]) -> float:
    """The one price of an ingredient; a missing price is not 0, and two that differ are not averaged."""
    found: Optional[float] = None
    for place in places:
        # a lone blank cell reaches some hosts as 0, and an ingredient without a price must never be free
        if prices[place] is None or prices[place] == "" or (len(prices) == 1 and quantity.is_nothing(prices[place])):
            continue
        price = _read(prices[place], "number", "unit_costs", place + 1)
        if price < 0:
            raise OutOfRange("must be at least 0", argument="unit_costs", got=f"{price:.12g} in row {place + 1}")
        if found is not None and price != found:
            raise Unreadable(
                "must hold one price for each name",
                argument="price_names",
                got=f"two for {units.quoted(name)}",
                advice="take one of the rows out",
            )
        found = price
    if found is None:
        raise _unpriced(name, names, bool(places))
    return found


def _unpriced(name: str, names: Sequence[Any], listed: bool) -> UnknownName:
    way = "give it a price in unit_costs" if listed else "add it to price_names with its price"
    if not listed:
        known = {_key(n): str(n) for n in names if not quantity.is_nothing(n)}
        near = Names("price", [(n, (), n) for n in known.values()]).nearest(name)
        way += f', or did you mean "{near[0]}"?' if near else ", 0 if it costs nothing"
    else:
        way += ", 0 if it costs nothing"
    return UnknownName("must all have a price", argument="ingredients", got=units.quoted(name), advice=way)


def _read(cell: Any, dimension: str, argument: str, row: int) -> float:
    """A mass or a plain number of a column; an error names the row."""
    try:
        return quantity.read_in_row(cell, dimension, argument, row)
    except BrineError as error:
        if dimension != "number" and _is_count(cell):
            error.advice = "give the weight of them all: that of one piece times how many"
        raise


def _is_count(cell: Any) -> bool:
    try:
        return isinstance(cell, str) and quantity.split(cell)[1] == "count"
    except BrineError:
        return False


def _same_length(one: Sequence[Any], other: Sequence[Any], first: str, second: str) -> None:
    if len(one) != len(other):
        raise Unreadable(
            f"must have as many cells as {first} ({len(one)})",
            argument=second,
            got=f"{len(other)}",
            advice="let both ranges begin and end in the same rows",
        )


def _key(name: Any) -> str:
    text = str(name)
    found = _folded.get(text)
    if found is None:
        if len(_folded) >= _MEMORY:
            _folded.clear()
        found = _folded[text] = fold(text) or text.strip()
    return found
