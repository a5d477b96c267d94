"""A copy for people who have nothing installed: our functions' values in place of their formulas.

One idea: what cannot be computed at the other end must not look as if it could. Formulas made of built-in functions
live on; ours become values; the inputs that those values rest on are locked; and if someone unlocks and changes one
all the same, every batch of the plan fails with the reason. What follows from a batch number alone is worked out for
every batch beforehand, so that cards and charts can still be chosen.
"""

from __future__ import annotations

import re
from typing import Any, Callable, Dict, List, NamedTuple, Optional, Set, Tuple

from brinecalc.hosts import spelling
from brinecalc.hosts.formulas.lexer import tokens
from brinecalc.hosts.headless import reasons
from brinecalc.hosts.headless.trial import Cell, Formula, Trial
from brinecalc.workbook.agreed import AS_VALUES, taken_for_installed
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.edit.cells import Fault, Value
from brinecalc.workbook.edit.looks import Looks
from brinecalc.workbook.paths import Paths
from brinecalc.workbook.sent import Sent

CHOICE = "_batch"
"""What the names of cells end with in which a batch is chosen by its number."""

_CHANGED = "figures were changed after this copy was sent; open the live copy where brinecalc is installed."


class Frozen(NamedTuple):
    """The copy, the formulas that became values (cell → formula and value), and the inputs that were locked."""

    content: bytes
    replaced: Dict[Cell, Tuple[str, Value]]
    chosen: int
    locked: int


def freeze(trial: Trial, name: str, progress: Callable[[str], None]) -> Frozen:
    """Makes the copy from a computed workbook; the trial is used up by it."""
    return _Freezer(trial, name, progress).run()


def is_ours(formula: str) -> bool:
    """Whether a formula calls one of our functions."""
    return "brine" in formula.casefold() and any(
        token.kind == "call" and spelling.canonical(token.text) for token in tokens(formula)
    )


def freed(formula: str) -> str:
    """A formula without the test of whether our functions are there; nothing in the copy needs them."""
    rest = taken_for_installed(formula)
    return formula if rest is None else rest


class _Freezer:
    def __init__(self, trial: Trial, name: str, progress: Callable[[str], None]) -> None:
        self.trial = trial
        self.edit = Edit(trial.outcome.content, name)
        as_values = self.edit.place(AS_VALUES)
        if as_values is not None:  # what is worked out for the copy is what the copy would say
            trial.suppose({(as_values.sheet, as_values.area.top, as_values.area.left): 1.0})
        self.name = name
        self.progress = progress
        self.looks = Looks(self.edit)
        self.paths = Paths(trial.formulas())
        self.ours = [formula for formula in self.paths.formulas if is_ours(freed(formula.text))]
        self.freed = {
            f.cell: (freed(f.text), plain(trial.value(*f.cell)))
            for f in self.paths.formulas
            if is_ours(f.text) and not is_ours(freed(f.text))
        }
        doubtful = trial.distrusted()
        self.values: Dict[Cell, Value] = {
            f.cell: self.edit.look(*f.cell).value if f.cell in doubtful else plain(trial.value(*f.cell))
            for f in self.ours
        }
        self.sent = Sent(self.edit)
        why = self.edit.place("plan_reasons")
        self.reasons = {(why.sheet, *cell) for cell in why.cells()} if why else set()

    def run(self) -> Frozen:
        choices = self.choices()
        tables = self.worked_out(choices)
        inputs = self.inputs() - {cell for cell in choices.values() if cell in {c for c, _ in tables.values()}}
        for sheet, row, col in sorted(inputs):
            self.edit.restyle(sheet, row, col, self.looks.locked_twin(self.style((sheet, row, col))))
        changes = self.sent.watch(sorted(inputs)) if inputs else None
        for cell, (formula_text, value) in self.freed.items():
            self.edit.put(*cell, value, formula=formula_text)
        for formula in self.ours:
            self.replace(formula, tables.get(formula.cell), changes)
        if changes is not None:
            self.warn(changes)
        as_values = self.edit.place(AS_VALUES)
        if as_values is not None:
            self.edit.put(as_values.sheet, as_values.area.top, as_values.area.left, 1.0)
        self.sent.write()
        _drop_chain(self.edit)
        replaced = {f.cell: (spelling.respell(f.text), self.values[f.cell]) for f in self.ours}
        return Frozen(self.edit.done(), replaced, len(tables), len(inputs))

    def style(self, cell: Cell) -> str:
        place = self.edit.map(cell[0]).cells.get(cell[1:])
        return place.style if place else ""

    # ---- what is chosen by a batch number

    def choices(self) -> Dict[str, Cell]:
        """The cells in which a batch is chosen, by name."""
        found = {}
        for name in self.edit.book.names():
            place = self.edit.place(name) if name.endswith(CHOICE) else None
            if place is not None and place.area.single:
                cell = (place.sheet, place.area.top, place.area.left)
                where = self.edit.map(place.sheet).cells.get(cell[1:])
                if where is not None and not where.formula and self.looks.unlocked(where.style):
                    found[name] = cell
        return found

    def worked_out(self, choices: Dict[str, Cell]) -> Dict[Cell, Tuple[Cell, List[Value]]]:
        """For each of our formulas that follows from one choice: that choice, and its value for each state of it.

        A choice may be blank, no batch of the plan (0 stands for all such), or the number of one.
        """
        ours = {formula.cell for formula in self.ours}
        follows: Dict[Cell, List[Cell]] = {}
        for choice, found in zip(choices.values(), self.paths.following(choices.values())):
            for cell in found & ours:
                follows.setdefault(cell, []).append(choice)
        single = {cell: found[0] for cell, found in follows.items() if len(found) == 1}
        products = self.edit.place("plan_products")
        if not single or products is None:
            return {}
        rows = range(1, products.area.cells + 1)
        tables: Dict[Cell, Tuple[Cell, List[Value]]] = {cell: (choice, []) for cell, choice in single.items()}
        for number in (None, 0, *rows):
            self.progress(f"working out batch {number}" if number else "working out")
            for cell, value in self.supposed(set(choices.values()), number, single).items():
                tables[cell][1].append(value)
        return tables

    def supposed(self, choices: Set[Cell], number: Optional[int], wanted: Dict[Cell, Cell]) -> Dict[Cell, Value]:
        self.trial.suppose({cell: None if number is None else float(number) for cell in choices})
        doubtful = self.trial.distrusted()
        return {cell: Fault("#N/A") if cell in doubtful else plain(self.trial.value(*cell)) for cell in wanted}

    # ---- what is locked

    def inputs(self) -> Set[Cell]:
        """The inputs that our formulas rest on."""
        found: Set[Cell] = set()
        for sheet, areas in self.paths.beneath(formula.cell for formula in self.ours).items():
            cells = self.edit.map(sheet).cells
            for area in areas:
                for row in range(area.top, area.bottom + 1):
                    for col in range(area.left, area.right + 1):
                        place = cells.get((row, col))
                        if place is not None and not place.formula and self.looks.unlocked(place.style):
                            found.add((sheet, row, col))
        return found

    # ---- what is put in

    def replace(self, formula: Formula, table: Optional[Tuple[Cell, List[Value]]], changes: Optional[str]) -> None:
        value = self.values[formula.cell]
        if table is not None:
            self.edit.put(*formula.cell, value, formula=self.sent.look_up(*table))
        elif changes and value == "" and formula.cell in self.reasons:
            self.edit.put(*formula.cell, "", formula=f'IF({changes}=0,"","{_CHANGED}")')
        elif value == "":
            self.edit.put(*formula.cell, "", formula='""')  # an empty text, where a blank cell would count as 0
        else:
            self.edit.put(*formula.cell, value)

    def warn(self, changes: str) -> None:
        """Lets the line on the state of the plan say that figures were changed."""
        state = self.edit.place("plan_state")
        if state is None:
            return
        found = self.edit.look(state.sheet, state.area.top, state.area.left)
        if found.formula is not None:
            words = '" figures were changed after this copy was sent; nothing here is worked out again. "'
            formula = f'IF({changes}=0,"",{changes}&{words})&({found.formula})'
            self.edit.put(state.sheet, state.area.top, state.area.left, found.value, formula=formula)


def plain(value: Any) -> Value:
    """A value of the engine as a file has it: nothing as 0."""
    error = reasons.error_text(value)
    if error is not None:
        return Fault(error)
    return 0.0 if value is None else value


def _drop_chain(edit: Edit) -> None:
    """Takes out the list of the order in which formulas are computed: it would name cells that have none any more."""
    part = next((part for part in edit.part_names() if part.endswith("/calcChain.xml")), None)
    if part is None:
        return
    edit.drop_part(part)
    for place in ("[Content_Types].xml", edit.book.part.replace("xl/", "xl/_rels/", 1) + ".rels"):
        if edit.has(place):
            edit.set_part(place, re.sub(rb"<[^<>]*calcChain[^<>]*/>", b"", edit.part(place)))
