"""How the cells of a production row become a `Row`.

One idea: reading never fails. Each cell ends up as a number, a name, a blank, an error or something unreadable, and
the rules decide what each of these means; a blank is "not given", and 0 under a name is a blank, as some hosts hand
it over. What a name brings is kept per gram of water, so that it can be weighed against the rest.
"""

from __future__ import annotations

from typing import Any, Dict, List, Optional, Sequence, Tuple

from brinecalc import quantity
from brinecalc.errors import BrineError, OutOfRange, Unreadable
from brinecalc.names import fold
from brinecalc.trade import cells, doses, headings, named, ph_readings, products
from brinecalc.trade.headings import Column, Strange
from brinecalc.trade.row import Row
from brinecalc.trade.things import NAMELESS, Thing, Unread, cure_named, grade_named, salt_named, with_mass, with_share

_TELLING = frozenset(("cola", "nitrate", "unclear", "alkali", "sulphite", "poison"))
"""Hazards that the words of an unknown heading are believed to name."""
_WORST = {
    **dict.fromkeys(("ph", "bath temperature", "soak hours", "rest hours", "brine age", "reused"), max),
    **dict.fromkeys(("cure strength", "nitrite", "gain"), max), "water phase salt": min,
}  # fmt: skip
"""Of two columns with one heading the first counts, except where one of the two values is the safer to go by.

Where that hangs on the rule, the lower of the two is kept beside it. Curing salt in two columns is added up.
"""
_REMARKS = frozenset(("for", "note"))
"""Texts in which a number or an error hides nothing that a rule would look for there."""
_HEARD_TOGETHER = frozenset(("packaging", "treatment", "vessel material", *_REMARKS))
"""Texts of which two columns say more than one: a jar, and the shelf it stands on."""


def read(heading_cells: Sequence[Any], value_cells: Sequence[Any]) -> Row:
    """Reads a row of values under its headings; raises only for rows of unequal length."""
    plan = headings.read(tuple(heading_cells))
    if len(value_cells) != plan.width:
        raise Unreadable(
            "must have as many cells as headings",
            argument="values",
            got=f"{len(value_cells)} cells under {plan.width} headings",
            advice="give one row of values, of the same width as the heading row",
        )
    row = Row(plan, value_cells)
    for column in plan.columns:
        cell = value_cells[column.at]
        if cell is None or cell == "":
            continue
        if isinstance(cell, str):
            cell = cell.strip()
            if cells.is_error(cell):
                if column.name in _REMARKS:
                    continue
                row.errors.append(column)
                row.cure_is_wrong = row.cure_is_wrong or column.cure
                continue
            if cell.casefold() in cells.BLANKS:
                continue
        if column.kind in ("name", "text") or _is_word(cell, column):
            _take_text(row, column, cell)
        elif column.name not in cells.LEVELS:
            _take_number(row, column, cell)
    _gather(row, value_cells)
    return row


def _is_word(cell: Any, column: Column) -> bool:
    """Whether a cell that should hold a quantity holds a name: a grade of cure, or what a vessel is called."""
    if not isinstance(cell, str):
        return False
    if column.name == "cure":
        return cell[0].isalpha()  # E250 and NaNO2 are names
    return column.name == "vessel" and not any(c.isdigit() for c in cell)


def _take_number(row: Row, column: Column, cell: Any) -> None:
    try:
        value = cells.read(cell, column)
    except BrineError as error:
        _not_read(row, column, cell, error)
        if column.kind == "ph" and isinstance(cell, str):
            _keep_low_ph(row, cell)
        if column.name == "salt" and isinstance(cell, str):
            row.things.extend(salt_named(cell))
        return
    name = column.name
    low = cells.least(cell, column, value)
    row.lows[name] = min(low, row.lows.get(name, low))
    if name == "cure":
        value = _all_weighed(row, column, value)
    elif name in row.numbers:
        worst = _WORST.get(name)
        if worst:
            row.numbers[name] = worst(value, row.numbers[name])
        return
    row.numbers[name] = value
    if column.kind in ("mass", "water"):
        has_unit = column.unit is not None or (isinstance(cell, str) and quantity.split(cell)[1] != "")
        (row.with_unit if has_unit else row.bare).add(name)


def _keep_low_ph(row: Row, cell: str) -> None:
    """Keeps the low end of a pH that has no upper one, for the rules to which what is sour matters."""
    try:
        low = ph_readings.read(cell).low
    except BrineError:
        return
    row.lows["ph"] = min(low, row.lows.get("ph", low))


def _all_weighed(row: Row, column: Column, grams: float) -> float:
    """All curing salt of the columns so far; under one heading twice it is the same dose, and the larger counts."""
    same = row.weighed.get(column.key, ("", 0.0))[1]
    row.weighed[column.key] = (column.number, max(grams, same))
    return sum(each for _, each in row.weighed.values())


def _take_text(row: Row, column: Column, cell: Any) -> None:
    if column.name == "cure name" and cell in (1, 2) and not isinstance(cell, bool):
        cell = f"no. {cell:.0f}"
    if not isinstance(cell, str):
        if column.name not in _REMARKS and (
            isinstance(cell, bool) or cell != 0
        ):  # a blank cell reaches some hosts' functions as 0
            _not_read(row, column, cell, Unreadable("must be a name or word"))
        return
    name = column.name
    if name == "ingredient":
        return
    if name == "product" and row.product is None and cell in products.names():
        row.product = products.find(cell)
    if name == "cure name":
        cell = grade_named(cell)
    if name == "salt name":
        row.things.extend(salt_named(cell))
    elif name != "product" and (column.kind == "name" or name == "cure"):
        what = named.find(cell)
        if name == "cure" and not what.is_cure:
            _not_read(row, column, cell, Unreadable("must be a mass such as 12.5 g"))
            return
        if name == "cure name" and not what.is_cure:  # whatever it is called, it is weighed out as curing salt
            what = what._replace(hazards=what.hazards | {"cure"})
        row.things.append(Thing(name, cell, what, number=column.number))
    _keep_text(row, column, cell)


def _keep_text(row: Row, column: Column, cell: str) -> None:
    """Keeps a text, of two columns with one heading both; where they contradict each other the second is told."""
    name, before = column.name, row.texts.get(column.name)
    if before is None:
        row.texts[name] = cell
    elif name in _HEARD_TOGETHER:
        row.texts[name] = f"{before}; {cell}"
    elif column.kind == "text" and fold(before) != fold(cell):
        rule = f'must say the same as the other column for {name}, "{cells.shown(before)}"'
        _not_read(row, column, cell, Unreadable(rule, advice="keep one of the two"))


def _not_read(row: Row, column: Column, cell: Any, error: BrineError) -> None:
    reason = error.rule + (f"; {error.advice}" if error.advice else "")
    row.unread.append(Unread(column, cells.shown(cell), reason))
    row.cure_is_wrong = row.cure_is_wrong or column.cure


def _gather(row: Row, value_cells: Sequence[Any]) -> None:
    """Puts names and amounts together, and finds the curing salts among them."""
    water = row.numbers.get("water") or None
    if row.weighed and not any(thing.heading == "cure name" for thing in row.things):
        weighed = {number for number, _ in row.weighed.values()}  # a grade and its dose, each in a column for cure
        named_so = [thing.heading == "cure" and thing.number in weighed for thing in row.things]
        row.things = [t._replace(heading="cure name") if so else t for t, so in zip(row.things, named_so)]
    made = [_with_amount(row, thing, water) for thing in row.things]
    for column in row.plan.columns:
        named_by = [thing for thing in made if column.name == f"{thing.heading} level"]
        if column.name in cells.LEVELS and column.name != "level" and not named_by:
            _with_level(row, NAMELESS, column, value_cells[column.at], water)
    by_index = {column.at: column for column in row.plan.columns} if row.plan.pairs else {}
    for name_at, level_at in row.plan.pairs:
        text = value_cells[name_at]
        if not isinstance(text, str) or cells.is_blank(text) or cells.is_error(text.strip()):
            continue
        text = text.strip()
        thing = Thing("ingredient", text, named.find(text))
        if level_at >= 0:
            thing = _with_level(row, thing, by_index[level_at], value_cells[level_at], water)
        made.append(thing)
    for strange in row.plan.strange:
        if not _is_absent(value_cells[strange.at]):
            made.extend(_named_by(row, strange, value_cells[strange.at], water))
    _add_strength(row, water)
    unnamed = _unnamed_cure(row, made)
    if unnamed > 0.0:
        made.append(with_mass(Thing("cure", "curing salt", named.find("curing salt")), unnamed, water))
    elif row.numbers.get("nitrite", 0.0) > 0.0 and not any(thing.what.is_cure for thing in made):
        made.append(Thing("nitrite", "curing salt", named.find("curing salt")))
    row.things = made
    row.cures = [thing for thing in made if thing.what.is_cure]


def _cure_by_number(row: Row, things: Sequence[Thing]) -> Optional[Dict[str, float]]:
    """Grams of curing salt by the number of the column, None where names and columns do not go in pairs."""
    by_number: Dict[str, float] = {}
    for number, grams in row.weighed.values():
        by_number[number] = by_number.get(number, 0.0) + grams
    names = [thing.number for thing in things if thing.heading == "cure name"]
    paired = len(set(names)) == len(names) and all(number in by_number for number in names)
    return by_number if paired else None


def _unnamed_cure(row: Row, things: Sequence[Thing]) -> float:
    """Grams of curing salt weighed in columns that have no name of their own for it."""
    names = [thing.number for thing in things if thing.heading == "cure name"]
    by_number = _cure_by_number(row, things)
    if by_number is None:
        return 0.0  # each name stands for all of it
    return sum(grams for number, grams in by_number.items() if number not in names)


def _add_strength(row: Row, water: Optional[float]) -> None:
    """The strength that salt and water make, where none is given."""
    salt = row.numbers.get("salt")
    if salt is not None and water and "strength" not in row.plan.present:
        row.numbers["strength"] = salt / water


def _is_absent(cell: Any) -> bool:
    """Whether a cell says that what its heading names is not there."""
    return cells.is_blank(cell) or (isinstance(cell, (bool, int, float)) and cell == 0)


def _named_by(row: Row, strange: Strange, cell: Any, water: Optional[float]) -> List[Thing]:
    """The ingredient that an unknown heading names, with its amount where that has a unit; else it is passed over."""
    what, cure = named.find(strange.name), cure_named(cell)
    if cure is not None:
        if strange.alarming:
            row.passed_over.append(strange)
        return [Thing("ingredient", cell.strip(), cure)]
    found = _amount(strange, cell)
    is_weighed = found is not None or isinstance(cell, (int, float))
    is_cure = "cure" in what.hazards and is_weighed and not strange.alarming  # which is asked about
    if not (what.is_known or is_cure or what.hazards & _TELLING):
        row.passed_over.append(strange)
        return []
    thing = Thing("ingredient", strange.name, what)
    if found is None:
        row.unweighed.append(strange)
        return [thing]
    kind, amount = found
    if kind == "share":
        try:
            _check_poured(thing, amount, cell)
        except BrineError as error:
            _not_read(row, Column(strange.at, strange.name, kind, False, None), cell, error)
            return [thing]
    return [with_share(thing, amount, water) if kind == "share" else with_mass(thing, amount, water)]


def _amount(strange: Strange, cell: Any) -> Optional[Tuple[str, float]]:
    """A cell under an unknown heading as a mass or a share; None where it gives no unit to go by."""
    try:
        kind = quantity.split(cell)[1] if isinstance(cell, str) else ""
        if not kind and strange.unit is not None:
            kind = "mass"
        if kind not in ("mass", "share"):
            return None
        return kind, cells.read(cell, Column(strange.at, "level", kind, False, strange.unit))
    except BrineError:
        return None


def _with_amount(row: Row, thing: Thing, water: Optional[float]) -> Thing:
    """A thing with the amount that stands in a column of its own."""
    numbers = row.numbers
    if thing.heading == "liquid":
        return thing._replace(grams=water)
    if thing.heading == "salt name":
        salt = numbers.get("salt") or (water or 0.0) * numbers.get("strength", 0.0)
        return with_mass(thing, salt or None, water)
    if thing.heading == "sweetener":
        return _with_level_under(row, thing, "sweetener level", water)
    if thing.heading == "cure name":
        by_number = _cure_by_number(row, row.things)
        grams = numbers.get("cure") if by_number is None else by_number[thing.number]
        return with_mass(thing, grams or None, water)
    if thing.heading == "acid":
        mass = numbers.get("acid mass")
        leveled = _with_level_under(row, thing, "acid level", water)
        return with_mass(thing, mass, water) if mass else leveled if leveled.ratio or leveled.grams else thing
    return thing


def _with_level_under(row: Row, thing: Thing, heading: str, water: Optional[float]) -> Thing:
    """A thing with the level that stands in the first column of that heading that is filled in."""
    for column in row.plan.columns:
        if column.name == heading and not cells.is_blank(row.typed[column.at]):
            return _with_level(row, thing, column, row.typed[column.at], water)
    return thing


def _with_level(row: Row, thing: Thing, column: Column, cell: Any, water: Optional[float]) -> Thing:
    """A thing with its level: a share of the water, or a mass with its unit."""
    if cells.is_blank(cell) or (isinstance(cell, str) and cells.is_error(cell.strip())):
        return thing
    cell = cell.strip() if isinstance(cell, str) else cell
    try:
        if _is_mass(cell):
            return with_mass(thing, cells.read(cell, column._replace(kind="mass")), water)
        share = cells.read(cell, column)
        _check_poured(thing, share, cell)
        return with_share(thing, share, water)
    except BrineError as error:
        _not_read(row, column, cell, error)
        return thing


def _is_mass(cell: Any) -> bool:
    """Whether a cell gives a mass with its unit."""
    try:
        return isinstance(cell, str) and quantity.split(cell)[1] == "mass"
    except BrineError:
        return False


def _check_poured(thing: Thing, share: float, cell: Any) -> None:
    """Refuses as much as the water, or more, of what is no liquid."""
    if share >= 1.0 and thing.what.role not in doses.POURED:
        what = f" for {thing.what.name}, which is no liquid" if thing.what.is_known else ""
        raise OutOfRange(f"must be a share from 0 % to below 100 %{what}", advice=cells.share_advice(cell))
