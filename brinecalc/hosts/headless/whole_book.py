"""Computes every formula of a workbook and writes the values into a copy of its bytes.

One idea: judge first, compute second, write last. What is distrusted goes into the engine as the value that the file
had, what depends on it is distrusted in turn, and only what remains is written.
"""

from __future__ import annotations

import contextlib
import functools
import gc
from typing import Callable, Collection, Dict, Iterator, List, Mapping, NamedTuple, Optional, Set, Tuple

from brinecalc.files import FileTrouble
from brinecalc.hosts.formulas import places
from brinecalc.hosts.headless import engine_package, inject, judges, markup, read_book, reasons, taint
from brinecalc.hosts.headless.cells import FormulaCell, SheetCells, scan
from brinecalc.hosts.headless.engine import Engine, Value
from brinecalc.hosts.headless.gates import ERROR_TEXTS
from brinecalc.hosts.headless.items import Item, for_engine, wrapped
from brinecalc.hosts.headless.library import REGISTRY, Library
from brinecalc.hosts.headless.package import Package
from brinecalc.hosts.headless.report import Problem, Report, SheetReport
from brinecalc.hosts.headless.shapes import PLAIN, WHOLE, Verdict
from brinecalc.hosts.headless.trust import Judge

_ENGINE_FAULTS = {
    "Circ": "it refers to itself, directly or through other cells",
    "Spill": "its result does not fit into its cells",
    "Name": "the engine does not know a name in it",
    "NImpl": "the engine cannot compute it",
    "Error": "the engine cannot read it",
    "Cancelled": "the engine gave up on it",
}

_VOID: Value = {"type": "Error", "kind": "Na"}
"""What a formula shows that is not computed, where its old value must not stand."""

_LARGEST_GRID = 4_000_000  # cells of a sheet that are fetched in one go

Progress = Callable[[str], None]


class Outcome(NamedTuple):
    """The workbook with its values, and the account of how they came about."""

    content: bytes
    report: Report


def calculate(
    content: bytes, name: str, library: Optional[Library] = None, progress: Optional[Progress] = None
) -> Outcome:
    """Computes a workbook given as bytes; `name` is its file name. FileTrouble when it cannot be used."""
    calculation = _Calculation(content, name, library or REGISTRY, progress or (lambda step: None))
    calculation.run()
    return calculation.written()


@contextlib.contextmanager
def _uncollected() -> Iterator[None]:
    """Without the search for objects that hold each other, of which few are made: it takes a twentieth of all."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


class _Calculation:
    @_uncollected()
    def __init__(self, content: bytes, name: str, library: Library, progress: Progress) -> None:
        self.library = library
        self.progress = progress
        progress("reading")
        self.package = Package(content, name)
        self.book = read_book.read(self.package)
        self.sheets: Dict[str, SheetCells] = {}
        for sheet in self.book.sheets:
            self.sheets[sheet.name] = scan(self.package.read(sheet.part), sheet.part)
        self.book.hides_rows = any(sheet.hides_rows for sheet in self.sheets.values())
        self.items: List[Item] = []
        self.items_of: Dict[str, List[Tuple[int, Item]]] = {}
        self.grids: Dict[str, List[List[Value]]] = {}
        self.read_by: Dict[str, Set[str]] = {}
        self.doubts: Dict[Tuple[str, int, int], str] = {}
        self.caught: Dict[int, int] = {}

    @_uncollected()
    def run(self) -> None:
        self.progress("judging formulas")
        with judges.judge_of(self.book, self.library) as judge:
            for name, sheet in self.sheets.items():
                items = [self.judged(judge, name, cell) for cell in sheet.formulas]
                self.items_of[name] = list(enumerate(items, len(self.items)))
                self.items += items
            used = sorted(judge.used)
        self.progress("computing")
        self.engine = self.load(used)
        self.settle(self.sheets)

    @_uncollected()
    def written(self, voided: Collection[str] = ()) -> Outcome:
        """The file with its values; what is not computed keeps its old one, but on `voided` sheets it shows #N/A."""
        self.progress("writing")
        void = self.void(voided)
        changed = self.changed_parts(void)
        report = self.report(self.engine, void)
        return Outcome(self.package.rewritten(changed) if changed else self.package.content, report)

    def void(self, sheets: Collection[str]) -> Set[int]:
        """What is not computed of these sheets, and what depends on that, on whatever sheet."""
        found = {i for i, item in enumerate(self.items) if item.reason is not None and item.sheet in sheets}
        for index, source in self.caught.items():  # a source was itself caught before what caught it
            if source in found:
                found.add(index)
        return found

    def settle(self, sheets: Collection[str]) -> None:
        """Computes what is not computed yet, and finds what of it on these sheets is to be distrusted."""
        self.engine.compute()
        for sheet in sheets:
            self.collect(sheet)
            self.find_faults(sheet)
        self.spread_doubt()

    def suppose(self, cells: Mapping[Tuple[str, int, int], Value]) -> None:
        """Computes with other values in some cells; `look` and `distrusted` then tell of that, the file does not."""
        new: Dict[str, Dict[Tuple[int, int], Value]] = {}
        for (sheet, row, col), value in cells.items():
            held = self.engine.value(sheet, row, col)
            if held != value or type(held) is not type(value):  # a value put in again would be computed with again
                new.setdefault(sheet, {})[row, col] = value
        for sheet, values in new.items():
            self.engine.set_values(sheet, values)
        sheets = self.reached(set(new))
        for sheet in sheets:
            for _, item in self.items_of[sheet]:
                item.reason = item.verdict.reason
        self.settle(sheets)

    def reached(self, sheets: Set[str]) -> Set[str]:
        """These sheets, and all that read them, through however many others."""
        if not self.read_by:
            for sheet, items in self.items_of.items():
                for verdict in {id(item.verdict): item.verdict for _, item in items}.values():
                    for source, _ in verdict.reads:
                        self.read_by.setdefault(source, set()).add(sheet)
        found, fresh = set(sheets), list(sheets)
        while fresh:
            new = self.read_by.get(fresh.pop(), set()) - found
            found |= new
            fresh += new
        return found

    def distrusted(self) -> Set[Tuple[str, int, int]]:
        """The formulas whose values are not to be trusted, as sheet, row and column."""
        return {(item.sheet, item.cell.row, item.cell.col) for item in self.items if item.reason is not None}

    def judged(self, judge: Judge, sheet: str, cell: FormulaCell) -> Item:
        if cell.kind == "dataTable":
            return Item(sheet, cell, Verdict("", "it is a what-if data table", (), 0))
        mode = WHOLE if cell.kind == "array" else PLAIN
        return Item(sheet, cell, judge.verdict(cell.text, sheet, cell.row, mode))

    def load(self, used: List[str]) -> Engine:
        pages = [(name, for_engine(sheet, self.items_of[name])) for name, sheet in self.sheets.items()]
        texts = self.book.shared_texts
        shared = self.package.read(texts) if texts and self.package.has(texts) else None
        if shared is not None and texts:
            markup.check(shared, texts)
        packed = engine_package.package(pages, shared, from_1904=self.book.from_1904)
        try:
            engine = Engine(self.library, packed, from_1904=self.book.from_1904)
        except (OSError, ValueError, RuntimeError) as error:
            raise FileTrouble(f"{self.package.name} is damaged: {error}") from error
        engine.use(used)
        return engine

    def collect(self, sheet: str) -> None:
        """Fetches all values of a sheet, and gives each formula its own."""
        items = self.items_of[sheet]
        bottom = max((item.fills.bottom for _, item in items), default=0)
        right = max((item.fills.right for _, item in items), default=0)
        fits = bottom * right <= _LARGEST_GRID
        grid = self.grids[sheet] = self.engine.values(sheet, bottom, right) if fits else []
        for _, item in items:
            cell = item.cell
            item.value = grid[cell.row - 1][cell.col - 1] if grid else self.look(sheet, cell.row, cell.col)

    def look(self, sheet: str, row: int, col: int) -> Value:
        """The value of a cell; where a few formulas lie far apart, each is asked for on its own."""
        grid = self.grids[sheet]
        if row <= len(grid) and col <= len(grid[row - 1]):
            return grid[row - 1][col - 1]
        return self.engine.value(sheet, row, col)

    def find_faults(self, sheet: str) -> None:
        """Distrusts what a watch or the engine stumbled over on this sheet."""
        doubts = self.engine.notes.doubts
        for number, item in self.items_of[sheet]:
            if item.reason is not None:
                continue
            value, judged = item.value, item.verdict.number
            flag = doubts and (doubts.get((judged, item.cell.row)) or doubts.get((judged, 0)))
            if flag:
                item.reason = flag
            elif isinstance(value, dict) and value.get("kind") not in ERROR_TEXTS:
                item.reason = _ENGINE_FAULTS.get(value.get("kind", ""), "the engine cannot compute it")
            elif isinstance(value, float) and value - value != 0.0:
                item.reason = "a number in it grows beyond all bounds"
            elif item.cell.kind == "array" and self.misfits(number, item, self.engine):
                item.reason = "its result has another size than the cells it fills; open it in a spreadsheet program"

    def misfits(self, number: int, item: Item, engine: Engine) -> bool:
        """Whether a dynamic array formula would now fill other cells; one of the old kind has its cells fixed."""
        sheet = self.sheets[item.sheet]
        tag = sheet.data[item.cell.start : item.cell.open_end]
        height, width = engine.notes.tables.get(number, (1, 1))
        fills = item.fills
        dynamic = b' cm="' in tag
        return dynamic and (height, width) != (fills.bottom - fills.top + 1, fills.right - fills.left + 1)

    def spread_doubt(self) -> None:
        """Distrusts every formula that depends on one that is distrusted."""
        doubtful = {i for i, item in enumerate(self.items) if item.reason is not None}
        found = [(self.items[i], self.items[i].reason) for i in sorted(doubtful)]
        self.doubts = {(item.sheet, item.cell.row, item.cell.col): reason for item, reason in found if reason}
        self.caught = {}
        if not doubtful:
            return
        self.caught = self.links.spread(doubtful)
        for index, source in self.caught.items():
            item = self.items[index]
            place = self.shown(item.sheet, self.items[source])
            item.reason = f"it depends on {place}, which is not computed"

    @functools.cached_property
    def links(self) -> taint.Links:
        """Which formula reads which cells; no value changes that."""
        return taint.Links(
            [taint.Reader(item.sheet, item.fills, item.reads() if item.verdict.formula else ()) for item in self.items]
        )

    def shown(self, sheet: str, item: Item) -> str:
        cell = places.name(item.cell.row, item.cell.col)
        return cell if item.sheet == sheet else f"{item.sheet}!{cell}"

    def changed_parts(self, void: Set[int]) -> Dict[str, bytes]:
        changed: Dict[str, bytes] = {}
        patches: Dict[str, List[inject.Patch]] = {name: [] for name in self.sheets}
        arrays: Dict[str, List[Tuple[places.Area, List[List[Value]]]]] = {name: [] for name in self.sheets}
        taken: Dict[str, Set[Tuple[int, int]]] = {name: set() for name in self.sheets}
        if any(not item.fills.single for item in self.items):
            for item in self.items:
                taken[item.sheet].add((item.cell.row, item.cell.col))
        for index, item in enumerate(self.items):
            if item.reason is not None and index not in void:
                continue
            sheet = self.sheets[item.sheet]
            value = item.value if item.reason is None else _VOID
            patches[item.sheet].append(inject.value_patch(sheet, item.cell, inject.written(value)))
            if not item.fills.single:
                arrays[item.sheet].append((item.fills, self.filled(item)))
        for part in self.book.sheets:
            sheet = self.sheets[part.name]
            patches[part.name] += inject.array_patches(sheet, arrays[part.name], taken[part.name])
            data = inject.patched(sheet.data, patches[part.name])
            if data != sheet.data:
                changed[part.part] = data
        if all(item.reason is None for item in self.items) and self.items:
            old = self.package.read(self.book.part)
            new = inject.settled(old, self.book.part)
            if new != old:
                changed[self.book.part] = new
        return changed

    def filled(self, item: Item) -> List[List[Value]]:
        area = item.fills
        if item.reason is not None:
            return [[_VOID] * (area.right - area.left + 1)] * (area.bottom - area.top + 1)
        columns = range(area.left, area.right + 1)
        return [[self.look(item.sheet, row, col) for col in columns] for row in range(area.top, area.bottom + 1)]

    def report(self, engine: Engine, void: Set[int]) -> Report:
        problems: List[Problem] = []
        counts = {name: [0, 0, 0] for name in self.sheets}
        for number, item in enumerate(self.items):
            count = counts[item.sheet]
            count[0] += 1
            error = None if item.reason is not None else self.error(item)
            if item.reason is None and error is None:
                continue
            count[2 if item.reason is not None else 1] += 1
            reason = item.reason or self.why(engine, number, item, error or "", len(problems))
            place = places.name(item.cell.row, item.cell.col)
            problems.append(Problem(item.sheet, place, "=" + item.cell.text, error, reason))
        sheets = [SheetReport(name, *count) for name, count in counts.items()]
        return Report(sheets, problems, self.notes(void))

    def error(self, item: Item) -> Optional[str]:
        if item.fills.single:
            return reasons.error_text(item.value)
        return next((error for row in self.filled(item) for error in map(reasons.error_text, row) if error), None)

    def why(self, engine: Engine, number: int, item: Item, error: str, so_far: int) -> str:
        if so_far >= reasons.MOST_EXPLAINED:
            return reasons.plain(error)
        source = reasons.inherited(error, item.reads(), self.look)
        if source:
            sheet, cell = source
            return f"it comes from {cell if sheet == item.sheet else f'{sheet}!{cell}'}"
        row, col = item.cell.row, item.cell.col
        formula = wrapped(number, item)

        def again() -> Value:
            engine.set_formula(item.sheet, row, col, formula)
            return engine.computed(item.sheet, row, col)

        told = reasons.watched(engine, self.library, again)(error) if "BRINE_" in formula else None
        return told or reasons.plain(error)

    def notes(self, void: Set[int]) -> List[str]:
        notes = []
        if self.book.signed:
            notes.append("the workbook was signed; the signature no longer holds for the copy")
        if void:
            notes.append("formulas of the plan that were not computed show #N/A, so that no old figure looks new")
        if any(item.reason is not None and index not in void for index, item in enumerate(self.items)):
            notes.append("formulas that were not computed keep the value that the file had")
        return notes
