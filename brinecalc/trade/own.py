"""Ingredients of the user's own, read from a sheet's rows or the text of a CSV file, and checked before they count.

One idea: a user's row goes by the same declared columns as the library's own tables, plus a few of the dose table,
and can make things stricter but never laxer: a legal or safety ceiling stays, a curing salt stays a curing salt, and
text that a spreadsheet would run as a formula is refused. Nothing is taken in until every cell is good.
"""

from __future__ import annotations

import csv
from typing import Any, Dict, Iterable, List, NamedTuple, Optional, Tuple, Union

from brinecalc import quantity
from brinecalc.errors import BrineError, OutOfRange, Refused, Unreadable
from brinecalc.names import fold
from brinecalc.tables import load
from brinecalc.tables.load import Column
from brinecalc.trade import doses, ingredients, named, sweeteners
from brinecalc.trade.doses import Dose
from brinecalc.trade.ingredients import Ingredient
from brinecalc.trade.sweeteners import Sweetness

WHAT = "own ingredients"
NEEDED = ("name", "role", "water", "sugars", "sodium")
_DOSE_COLUMNS = ("uses", "low", "high", "ceiling", "kind")
_MOST_ROWS = 2000
_LONGEST = 300
_RUN_BY_SHEETS = ("=", "+", "-", "@", "＝", "＋", "－", "＠", "\t", "\r")
_BOUND_ROLES = frozenset(("phosphate", "calcium", "antioxidant", "preservative", "base"))
_DEFAULTS: Dict[str, Any] = {
    "aliases": (), "p2o5": 0.0, "density": None, "allergens": (), "add": "as its maker says", "avoid": (),
    "basis": "judgement", "source": "own", "source_place": None, "note": None,
}  # fmt: skip


class Own(NamedTuple):
    """What a sheet of own ingredients holds, checked."""

    ingredients: Tuple[Ingredient, ...]
    doses: Tuple[Dose, ...]
    sweetness: Tuple[Sweetness, ...]


def extend(rows: Union[str, Iterable[Any]]) -> List[str]:
    """Adds the user's own ingredients from a sheet's rows or the text of a CSV file; gives the names taken in.

    All or nothing: the first bad cell is refused with its line and column, and nothing is changed.
    """
    found = read(rows)
    ingredients.install(found.ingredients)
    doses.install(found.doses)
    sweeteners.install(found.sweetness)
    return [made.name for made in found.ingredients]


def forget() -> None:
    """Drops all that is the user's own."""
    for place in (ingredients, doses, sweeteners):
        place.forget()


def columns() -> Dict[str, Column]:
    """The columns a sheet of own ingredients may have, by name, as the tables declare them."""
    found = {c.name: c for c in load.table("ingredients").columns if c.name not in ("basis", "source", "source_place")}
    for column in load.table("doses").columns:
        if column.name in _DOSE_COLUMNS:
            found[column.name] = column._replace(optional=True)
    sweetness = next(c for c in load.table("sweetness").columns if c.name == "typical")
    found["sweetness"] = sweetness._replace(name="sweetness", optional=True)
    return found


def read(rows: Union[str, Iterable[Any]]) -> Own:
    """The ingredients of a sheet; raises with line and column at the first bad cell."""
    lines = _lines(rows)
    heading, body = lines[0], lines[1:]
    allowed = columns()
    names = _headings(heading, allowed)
    made: List[Ingredient] = []
    dosed: List[Dose] = []
    sweet: List[Sweetness] = []
    seen: Dict[str, int] = {}
    for number, cells in enumerate(body, 2):
        if not any(_text(cell) for cell in cells):
            continue
        if len(made) >= _MOST_ROWS:
            raise OutOfRange(f"{WHAT}: must have at most {_MOST_ROWS} rows")
        if len(cells) != len(names) and any(_text(cell) for cell in cells[len(names) :]):
            raise Unreadable(f"{WHAT}, line {number}: must have {len(names)} cells", got=str(len(cells)))
        given = {name: _cell(cells[i] if i < len(cells) else "", allowed[name], number) for i, name in enumerate(names)}
        row = _ingredient(given, number)
        _check_spellings(row, number, seen)
        _check_honest(row, number)
        made.append(row)
        dosed.extend(_doses(row, given, number))
        if given.get("sweetness") is not None:
            value = given["sweetness"]
            sweet.append(Sweetness(row.name, value, value, value, "judgement", "own", None))
    return Own(tuple(made), tuple(dosed), tuple(sweet))


def _lines(rows: Union[str, Iterable[Any]]) -> List[List[Any]]:
    if isinstance(rows, str):
        text = rows.lstrip("\ufeff")
        first = text.splitlines()[0] if text.strip() else ""
        mark = max(",;\t|", key=first.count)
        try:
            lines: List[List[Any]] = [list(line) for line in csv.reader(text.splitlines(), delimiter=mark)]
        except csv.Error as error:
            raise Unreadable(f"{WHAT}: cannot be read as CSV ({error})", advice="save the sheet as CSV anew") from None
    else:
        given = list(rows)
        if given and all(isinstance(row, dict) for row in given):
            heads = list(given[0])
            lines = [heads] + [[row.get(head, "") for head in heads] for row in given]
        else:
            lines = [list(row) if isinstance(row, (list, tuple)) else [row] for row in given]
    if not lines or not any(_text(cell) for cell in lines[0]):
        raise Unreadable(f"{WHAT}: must begin with a heading row", advice="head the columns " + ", ".join(NEEDED))
    return lines


def _headings(cells: List[Any], allowed: Dict[str, Column]) -> List[str]:
    known = {fold(name): name for name in allowed}
    names: List[str] = []
    while cells and not _text(cells[-1]):
        cells = cells[:-1]
    for place, cell in enumerate(cells, 1):
        name = known.get(fold(_text(cell)))
        if name is None or name in names:
            raise Unreadable(
                f"{WHAT}, line 1, column {place}: is not a heading, or stands there twice",
                got=repr(_text(cell)[:40]),
                advice="headings are " + ", ".join(allowed),
            )
        names.append(name)
    missing = [name for name in NEEDED if name not in names]
    if missing:
        raise Unreadable(f"{WHAT}, line 1: must have a column {missing[0]}", advice="needed are " + ", ".join(NEEDED))
    return names


def _text(cell: Any) -> str:
    return "" if cell is None else str(cell).strip(" ")


def _cell(cell: Any, column: Column, number: int) -> Any:
    """One cell as its column declares it; text that a spreadsheet would run is refused first."""
    where = f"{WHAT}, line {number}, column {column.name}:"
    if isinstance(cell, bool):
        raise Unreadable(f"{where} must not be TRUE or FALSE", got=str(cell).upper())
    text = _text(cell)
    if isinstance(cell, str) and text.startswith(_RUN_BY_SHEETS):
        raise Refused(
            f"{where} must not begin with = + - @, which a spreadsheet would run as a formula",
            got=repr(text[:40]),
            advice="write the text or number itself",
        )
    if len(text) > _LONGEST or any(not c.isprintable() for c in text):
        raise Unreadable(f"{where} must be at most {_LONGEST} plain characters", got=repr(text[:40]))
    if column.is_number and text:
        return load.convert(repr(_number(cell, column, where)), column, WHAT, number)
    return load.convert(text, column, WHAT, number)


def _number(cell: Any, column: Column, where: str) -> float:
    if isinstance(cell, (int, float)):
        return float(cell)
    try:
        if column.type == "share":
            return quantity.read(cell, "share")
        return quantity.read(cell, "number")
    except BrineError as error:
        raise Unreadable(f"{where} must be a number", got=repr(_text(cell)[:40]), advice=error.advice) from None


def _ingredient(given: Dict[str, Any], number: int) -> Ingredient:
    values = {**_DEFAULTS, **{k: v for k, v in given.items() if k in Ingredient._fields and v not in (None, ())}}
    row = Ingredient(**values)
    if row.water + row.sugars > 1.0 + 1e-9:
        raise OutOfRange(f"{WHAT}, line {number}, column sugars: water and sugars must not pass 100 % together")
    before = ingredients.known(row.name)
    if before is None:
        return row
    if before.role in ingredients.HARMFUL and row.role != before.role:
        raise Refused(
            f'{WHAT}, line {number}, column role: "{before.name}" must stay {before.role}',
            got=repr(row.role),
            advice="give your ingredient another name",
        )
    return row._replace(name=before.name, aliases=tuple(dict.fromkeys((*before.aliases, *row.aliases))))


def _check_honest(row: Ingredient, number: int) -> None:
    """A name that speaks of curing salt or lye stands for it, whatever role is written beside it."""
    said = named.hazards_in(" ; ".join((row.name, *row.aliases)))
    for hazard, roles in (("cure", "cure"), ("nitrate", "cure"), ("unclear", "cure or acid"), ("alkali", "alkali")):
        if hazard in said and row.role not in roles.split(" or "):
            raise Refused(
                f"{WHAT}, line {number}, column role: must be {roles} for a name like that",
                got=repr(row.name),
                advice=f"write {roles}, or give your ingredient another name",
            )


def _check_spellings(row: Ingredient, number: int, seen: Dict[str, int]) -> None:
    """A name may replace its own row, never take a spelling that means something else."""
    for spelling in (row.name, *row.aliases):
        key = fold(spelling)
        if not key:
            raise Unreadable(f"{WHAT}, line {number}, column name: must hold a letter or figure", got=repr(spelling))
        other = ingredients.known(spelling)
        if other is not None and other.name != row.name:
            raise Refused(
                f'{WHAT}, line {number}, column aliases: "{spelling}" already means {other.name}',
                advice="choose another spelling",
            )
        if seen.setdefault(key, number) != number:
            raise Unreadable(f'{WHAT}, line {number}, column name: "{spelling}" stands in line {seen[key]} already')


def _doses(row: Ingredient, given: Dict[str, Any], number: int) -> List[Dose]:
    """The user's range for each use, under the ceilings that hold already."""
    uses = given.get("uses") or ("immersion", "vegetable")
    for use in uses:
        if use not in doses.USES:
            raise Unreadable(
                f"{WHAT}, line {number}, column uses: must be among {', '.join(doses.USES)}", got=repr(use)
            )
    low, high = given.get("low"), given.get("high")
    ceiling, kind = given.get("ceiling"), given.get("kind")
    if low is None and high is None and ceiling is None and ingredients.known(row.name):
        return []
    for below, above, name in ((low, high, "high"), (high, ceiling, "ceiling")):
        if below is not None and above is not None and above < below:
            raise OutOfRange(f"{WHAT}, line {number}, column {name}: must not be below the figure before it")
    made = []
    for use in uses:
        bound = _bound(row, use)
        if bound is not None and bound.stop is not None:
            if ceiling is not None and ceiling > bound.stop * (1 + 1e-9):
                raise Refused(
                    f"{WHAT}, line {number}, column ceiling: must be at most {100 * bound.stop:.4g} %, "
                    f"the {bound.kind} ceiling for {use}",
                    got=f"{100 * ceiling:.4g} %",
                    advice="leave it empty to keep that ceiling",
                )
            stop: Optional[float] = bound.stop if ceiling is None else ceiling
            made.append(Dose(row.name, (use,), low, high, stop, bound.kind, bound.of_what, "judgement", "own", None))
        else:
            sort = (kind or "taste") if ceiling is not None else None
            made.append(Dose(row.name, (use,), low, high, ceiling, sort, "water", "judgement", "own", None))
    return made


def _bound(row: Ingredient, use: str) -> Optional[Dose]:
    """The strictest ceiling that holds whatever the user writes: the ingredient's own, or that of its kind."""
    own = doses.shipped(row.name, use)
    if own is not None and own.stop is not None:
        return own
    if row.role not in _BOUND_ROLES:
        return own
    alike = [doses.shipped(made.name, use) for made in ingredients.shipped() if made.role == row.role]
    stops = [found for found in alike if found is not None and found.stop is not None]
    return min(stops, key=lambda found: found.stop or 0.0) if stops else own
