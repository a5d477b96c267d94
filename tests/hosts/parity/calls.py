"""The calls that every host has to answer alike: each worked example, and variations of them drawn with a fixed seed.

One idea: a variation of an example is what a person types (another number, another unit, a cell instead of a number,
a column, a blank, a slip), so good answers and every kind of refusal come up for each function. An argument stands
here as it stands in a formula: literally, left empty between commas, or as a reference to cells with some content.
"""

from __future__ import annotations

import random
from typing import Any, NamedTuple

import cells as wild

from brinecalc import registry
from brinecalc.describe import Argument, FunctionSpec, worked_examples

SEED = 20261125
VARIATIONS = 18
WILD = 6


class Gap:
    """An empty place between commas."""

    def __repr__(self) -> str:
        return "gap"


GAP = Gap()


class Cells(NamedTuple):
    """A reference to cells: their content row by row. None is a blank cell, "#N/A" and the like are errors."""

    rows: tuple[tuple[Any, ...], ...]

    @property
    def single(self) -> bool:
        return len(self.rows) == len(self.rows[0]) == 1

    @property
    def errors(self) -> list[str]:
        return [cell for row in self.rows for cell in row if is_error(cell)]


class Error(NamedTuple):
    """An error that a part of the formula gives."""

    text: str


class Table(NamedTuple):
    """An array constant."""

    rows: tuple[tuple[Any, ...], ...]


class Call(NamedTuple):
    """One call as it stands in a formula."""

    name: str
    arguments: tuple[Any, ...]
    example: bool = False


def is_error(cell: Any) -> bool:
    return isinstance(cell, str) and cell in ERRORS


ERRORS = ("#N/A", "#NUM!", "#VALUE!", "#DIV/0!")
"""The errors that every host can be made to give: two by itself, two by a function of ours."""

UNITS = {
    "mass": (("kg", 1000.0), ("lb", 453.59237), ("oz", 28.349523125)),
    "water": (("kg", 1000.0), ("L", 998.207), ("gal", 3778.624498935)),
    "length": (("cm", 10.0), ("in", 25.4)),
    "size": (("cm", 10.0), ("in", 25.4)),
    "hours": (("min", 1 / 60), ("d", 24.0)),
    "volume": (("L", 1000.0), ("qt", 946.352946)),
    "share": (("%", 0.01),),
    "ppm": (("ppm", 1.0),),
}
"""Units a person may write beside a number, and how much of the base unit they are."""

SLIPS = ("1,000 g", "5 kgg", "abc", "9**9**9 kg", "5 %%", "−5", "2 T", "kg", "unicorn", "=1+1", "½½ cup", " ", "1:30")
EDGES = (0.0, -1.0, 5.0, 1e-9, 1e9, 1e300, 0.3592, 1.0, 100.0)


def all_calls() -> list[Call]:
    """Every example, then the variations, always the same."""
    made = []
    for name in registry.names():
        examples = [tuple(_literal(cell) for cell in e.cells) for e in worked_examples(registry.spec(name))]
        made += [Call(name, arguments, example=True) for arguments in examples]
        pick = random.Random(f"{SEED}{name}")
        if not registry.spec(name).arguments:
            continue
        given = examples or [_told(registry.spec(name))]
        made += [Call(name, _variation(pick, name, pick.choice(given))) for _ in range(VARIATIONS)]
        made += [Call(name, _wild(pick, name)) for _ in range(WILD)]
    return made


def _literal(cell: Any) -> Any:
    """An example's cell: a list becomes an array constant, or a range where it has blanks."""
    if not isinstance(cell, (list, tuple)):
        return float(cell) if isinstance(cell, int) and not isinstance(cell, bool) else cell
    rows = cell if any(isinstance(row, (list, tuple)) for row in cell) else [[item] for item in cell]
    flat = [item for row in rows for item in row]
    kind = Cells if any(item is None or item == "" for item in flat) else Table
    return kind(tuple(tuple(_number(item) for item in row) for row in rows))


def _told(spec: FunctionSpec) -> tuple[Any, ...]:
    """A call put together from the examples that the arguments' own texts give."""
    made: list[Any] = []
    for argument in spec.arguments:
        text = argument.example
        if not argument.required:
            break
        if not text:
            made.append(_number((*argument.choices, *wild.LIKELY.get(argument.kind, wild.NAMES))[0]))
        elif text.endswith("%"):
            made.append(float(text[:-1]) / 100)
        else:
            made.append(text.strip('"') if text.startswith('"') else float(text))
    return tuple(made)


def _number(cell: Any) -> Any:
    return float(cell) if isinstance(cell, int) and not isinstance(cell, bool) else cell


def _variation(pick: random.Random, name: str, example: tuple[Any, ...]) -> tuple[Any, ...]:
    """The example with some of its arguments changed, and perhaps fewer or more of the optional ones."""
    spec = registry.spec(name)
    arguments = list(example)
    fewest = sum(argument.required for argument in spec.arguments)
    if not spec.variadic:
        while len(arguments) < len(spec.arguments) and pick.random() < 0.35:
            arguments.append(_optional(pick, spec.arguments[len(arguments)]))
        if len(arguments) > fewest and pick.random() < 0.1:
            del arguments[fewest:]
    for _ in range(pick.choice((1, 1, 2, 3))):
        if arguments:
            index = pick.randrange(len(arguments))
            argument = spec.arguments[min(index, len(spec.arguments) - 1)]
            arguments[index] = _changed(pick, argument, arguments[index])
    return tuple(arguments)


def _optional(pick: random.Random, argument: Argument) -> Any:
    """Something for an optional argument that the example leaves out."""
    dice = pick.random()
    if dice < 0.25:
        return GAP
    if dice < 0.4:
        return ""
    if argument.choices and argument.kind == "choice":
        return pick.choice(argument.choices)
    if argument.kind in wild.LIKELY:
        return _number(pick.choice(wild.LIKELY[argument.kind]))
    return Cells(((None,),))


def _changed(pick: random.Random, argument: Argument, old: Any) -> Any:
    """Another value for an argument, close to the old one or plainly wrong."""
    if isinstance(old, (Cells, Table)):
        return _changed_table(pick, argument, old)
    dice = pick.random()
    if dice < 0.3:
        return _near(pick, argument, old)
    if dice < 0.45:
        return _as_text(pick, argument, old)
    if dice < 0.55:
        return Cells(((_near(pick, argument, old),),))
    if dice < 0.67 and argument.kind not in ("cell", "cells"):
        return _range(pick, argument, old)
    return _slip(pick, argument)


def _slip(pick: random.Random, argument: Argument) -> Any:
    """What should not be there, or counts as nothing."""
    if not argument.required and pick.random() < 0.3:
        return pick.choice((GAP, ""))
    ways = (
        lambda: Cells(((None,),)),
        lambda: Error(pick.choice(ERRORS)),
        lambda: Cells(((pick.choice(ERRORS),),)),
        lambda: pick.choice(SLIPS),
        lambda: Cells(((pick.choice(SLIPS),),)),
        lambda: pick.choice(EDGES),
        lambda: Cells(((pick.choice(EDGES),),)),
        lambda: "",
        lambda: Cells((("",),)),
        lambda: pick.choice((True, False)),
        lambda: pick.choice(wild.NAMES),
    )
    return pick.choice(ways)()


def _near(pick: random.Random, argument: Argument, old: Any) -> Any:
    if isinstance(old, float):
        return fifteen(old * pick.uniform(0.6, 1.5))
    if argument.choices:
        return pick.choice((*argument.choices, argument.choices[0].upper()))
    if not isinstance(old, str):
        return _number(pick.choice(wild.LIKELY.get(argument.kind, wild.NAMES)))
    return old.title() if pick.random() < 0.5 else old


def _as_text(pick: random.Random, argument: Argument, old: Any) -> Any:
    """The number as text with a unit, as a person writes it."""
    if not isinstance(old, float):
        return _near(pick, argument, old)
    if argument.kind == "temperature":
        return f"{old * 1.8 + 32:.4g} °F"
    unit, size = pick.choice(UNITS.get(argument.kind, (("", 1.0),)))
    text = f"{old / size:.5g}".replace("e+0", "e") + (f" {unit}" if unit and unit != "%" else unit)
    return text.replace(".", ",") if pick.random() < 0.2 else text


def _range(pick: random.Random, argument: Argument, old: Any) -> Cells:
    """A column or row of values round the old one, now and then with a blank, a slip or an error among them."""
    made = [_near(pick, argument, old) for _ in range(pick.choice((2, 3)))]
    dice = pick.random()
    if dice < 0.2:
        made[-1] = None
    elif dice < 0.35:
        made[-1] = pick.choice(SLIPS)
    elif dice < 0.5:
        made[0] = pick.choice(ERRORS)
    return Cells((tuple(made),)) if pick.random() < 0.3 else Cells(tuple((cell,) for cell in made))


def _changed_table(pick: random.Random, argument: Argument, old: Any) -> Any:
    rows = [list(row) for row in old.rows]
    row = pick.choice(rows)
    place = pick.randrange(len(row))
    dice = pick.random()
    if dice < 0.4:
        row[place] = _near(pick, argument, row[place])
    elif dice < 0.55:
        row[place] = None
    elif dice < 0.7:
        row[place] = pick.choice(SLIPS)
    elif dice < 0.8:
        row[place] = pick.choice(ERRORS)
    elif len(rows) > 1 and dice < 0.9:
        rows.pop()
    return Cells(tuple(tuple(_number(cell) for cell in each) for each in rows))


def _wild(pick: random.Random, name: str) -> tuple[Any, ...]:
    """Cells of every kind, as far as they can stand in a formula or a cell."""
    spec = registry.spec(name)
    fewest = sum(argument.required for argument in spec.arguments)
    count = pick.randint(fewest, len(spec.arguments))
    made = []
    for argument in spec.arguments[:count]:
        made.append(_placed(pick, wild.cell(pick, argument)))
    return tuple(made)


def _placed(pick: random.Random, cell: Any) -> Any:
    """A wild cell as an argument; what no cell can hold becomes a blank."""
    if isinstance(cell, (list, tuple)):
        rows = [row for row in cell if isinstance(row, (list, tuple)) and row] or [[None]]
        width = min(len(row) for row in rows)
        return Cells(tuple(tuple(_held(item) for item in row[:width]) for row in rows))
    held = _held(cell)
    if is_error(held):
        return Error(held)
    if held is None or (isinstance(held, str) and len(held) > 200):
        return Cells(((held,),))
    return Cells(((held,),)) if pick.random() < 0.3 and held != "" else held


def _held(cell: Any) -> Any:
    """What a cell can hold: a number a program keeps, a text that can stand in a file, or nothing."""
    if isinstance(cell, bool) or cell is None:
        return cell
    if isinstance(cell, (int, float)):
        return fifteen(float(cell)) if cell == 0 or 1e-300 <= abs(cell) <= 1e300 else None
    if isinstance(cell, str) and cell and len(cell) < 32000 and all(c.isprintable() for c in cell):
        return None if cell.startswith("#") and not is_error(cell) else cell
    return None


def fifteen(number: float) -> float:
    """The number as every program keeps it in a formula: 15 digits, and below a millionth 20 decimal places."""
    if 1e-15 < abs(number) < 1e-6:
        number = float(f"{number:.20f}")
    return float(f"{number:.15g}")
