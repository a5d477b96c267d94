"""formualizer with our functions: loads cells and formulas, computes them, hands out values.

One idea: the engine is given a package made for it alone, with cells and rewritten formulas and nothing else, and
each function goes in through as thin a gate as possible: errors in as texts, errors out as error values.
"""

from __future__ import annotations

import io
import zipfile
from typing import Any, Callable, Dict, Iterable, List, Optional, Set, Tuple

import formualizer

from brinecalc.hosts import spelling
from brinecalc.hosts.headless import stand_ins, values, watches
from brinecalc.hosts.headless.library import Library
from brinecalc.hosts.headless.markup import escape

Value = Any
"""A float, a text, True or False, None for a blank cell, a dict for an error, or rows of these."""

ERROR_TEXTS = {
    "Null": "#NULL!",
    "Div": "#DIV/0!",
    "Value": "#VALUE!",
    "Ref": "#REF!",
    "Name": "#NAME?",
    "Num": "#NUM!",
    "Na": "#N/A",
}
"""The engine's kinds of error and how they stand in a cell."""

_KINDS = {text: kind for kind, text in ERROR_TEXTS.items()}
_KINDS.update({"#SPILL!": "Value", "#CALC!": "Value"})
_NS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_R = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_P = "http://schemas.openxmlformats.org/package/2006/"
_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml."
_SECONDS = 600


class Engine:
    """One workbook in the engine."""

    def __init__(self, library: Library, package: Optional[bytes] = None, *, from_1904: bool = False) -> None:
        config = formualizer.EvaluationConfig()
        config.enable_parallel = False  # callbacks take turns anyway; several threads make them seven times slower
        config.max_eval_time_ms = _SECONDS * 1000
        if from_1904:
            config.date_system = "1904"
        settings = formualizer.WorkbookConfig(eval_config=config)
        made = formualizer.Workbook
        self.workbook = made(config=settings) if package is None else made.from_bytes(package, config=settings)
        self.workbook.set_temporal_egress("serial")
        self.flagged: Dict[Tuple[int, int], str] = {}
        self.tables: Dict[int, Tuple[int, int]] = {}
        self.failures: Optional[List[Tuple[str, Tuple[Value, ...], str]]] = None
        self.library = library
        self._registered: Set[str] = set()
        self._register_helpers()

    def use(self, names: Iterable[str]) -> None:
        """Makes worksheet functions known to the engine, under every spelling that a file may hold."""
        for name in names:
            if name in self._registered:
                continue
            self._registered.add(name)
            gate = self._gate(name, self.library.function(name))
            for way in spelling.SPELLINGS:
                self.workbook.register_function(spelling.written(name, way), gate)

    def set_formula(self, sheet: str, row: int, col: int, formula: str) -> None:
        """Puts a formula into a cell."""
        self.workbook.set_formula(sheet, row, col, "=" + formula)

    def set_value(self, sheet: str, row: int, col: int, value: Value) -> None:
        """Puts a value into a cell; what depends on it is computed at the next `compute`."""
        self.workbook.set_value(sheet, row, col, formualizer.LiteralValue.empty() if value is None else value)

    def compute(self) -> None:
        """Computes every formula."""
        self.workbook.evaluate_all()

    def value(self, sheet: str, row: int, col: int) -> Value:
        """The value of a cell as last computed."""
        return self.workbook.get_value(sheet, row, col)

    def computed(self, sheet: str, row: int, col: int) -> Value:
        """The value of one cell, computed if need be; rows of values for a formula that gives several."""
        return self.workbook.evaluate_cell(sheet, row, col)

    def capture(self, sheet: str, row: int, formula: str, into: List[Value]) -> None:
        """Computes a formula that stands in no cell; whatever it gives is put into the list."""
        self.workbook.add_sheet(sheet)

        def answer(value: Value) -> Value:
            into.append(value)
            return 0.0

        self.workbook.register_function(stand_ins.PREFIX + "ANSWER", answer)
        self.set_formula(sheet, row, 1, f"{stand_ins.PREFIX}ANSWER({formula})")
        self.workbook.evaluate_cell(sheet, row, 1)

    def values(self, sheet: str, bottom: int, right: int) -> List[List[Value]]:
        """All values of a sheet down to a row and column, counted from 0."""
        if not bottom or not right:
            return []
        return self.workbook.sheet(sheet).get_values(formualizer.RangeAddress(sheet, 1, 1, bottom, right))

    def _gate(self, name: str, function: Callable[..., Any]) -> Callable[..., Value]:
        """The worksheet function as the engine calls it. The first lines are the common case and run often."""

        def gate(*cells: Value) -> Value:
            for cell in cells:
                if cell.__class__ is dict or cell.__class__ is list:
                    cells = tuple(_inward(each) for each in cells)
                    break
            answer = function(*cells)
            if answer.__class__ is float:
                return answer
            if self.failures is not None:
                refused = next(
                    (cell for cell in values.flat((answer,)) if isinstance(cell, str) and cell in _KINDS), None
                )
                if refused:
                    self.failures.append((name, cells, refused))
            return _outward(answer)

        return gate

    def _register_helpers(self) -> None:
        register = self.workbook.register_function
        for name, function in stand_ins.FUNCTIONS.items():
            register(stand_ins.PREFIX + name, _shielded(function))
        for name, function in watches.FUNCTIONS.items():
            register(stand_ins.PREFIX + name, self._watched(function))
        register(stand_ins.PREFIX + "TEXT", _text)
        register(stand_ins.PREFIX + "TABLE", self._table)

    def _watched(self, function: Callable[..., Value]) -> Callable[..., Value]:
        """A function that may raise a doubt: then the formula of that number in that row is not to be trusted."""

        def watched(formula: float, row: float, *given: Value) -> Value:
            try:
                answer = function(*given)
            except values.Fault as fault:
                return fault.error
            except watches.Doubt as doubt:
                self.flagged.setdefault((int(formula), int(row)), str(doubt))
                return values.error("Na")
            return formualizer.LiteralValue.empty() if answer is None else answer  # a blank stays blank

        return watched

    def _table(self, number: float, height: float, width: float, value: Value) -> Value:
        """The result of an array formula, fitted to the cells that the file gives it."""
        rows = value if isinstance(value, list) else [[value]]
        self.tables[int(number)] = (len(rows), len(rows[0]))
        if height == width == 1:
            return _kept(rows[0][0])
        fitted = []
        for r in range(int(height)):
            row = rows[r] if r < len(rows) else rows[0] if len(rows) == 1 else []
            fitted.append([_kept(_in_row(row, c)) for c in range(int(width))])
        return fitted


def _in_row(row: List[Value], index: int) -> Value:
    if index < len(row):
        return row[index]
    return row[0] if len(row) == 1 else values.error("Na")


def _kept(value: Value) -> Value:
    return 0.0 if value is None else value


def _shielded(function: Callable[..., Value]) -> Callable[..., Value]:
    def shielded(*given: Value) -> Value:
        try:
            return function(*given)
        except values.Fault as fault:
            return fault.error

    return shielded


def _text(value: Value) -> Value:
    """A value as text, or each cell of a range."""
    if isinstance(value, list):
        return [[_text(cell) for cell in row] for row in value]
    try:
        return values.short(values.text(value))
    except values.Fault as fault:
        return fault.error


def _inward(cell: Value) -> Value:
    """A cell as our functions take it: errors are texts."""
    if cell.__class__ is dict:
        return ERROR_TEXTS.get(cell.get("kind", ""), "#VALUE!")
    if cell.__class__ is list:
        return [[_inward(each) for each in row] for row in cell]
    return cell


def _outward(answer: Value) -> Value:
    """An answer as the engine takes it: texts that are errors become error values."""
    if isinstance(answer, str):
        kind = _KINDS.get(answer)
        return values.error(kind) if kind else answer
    if isinstance(answer, (list, tuple)):
        return [[_outward(cell) for cell in row] for row in answer]
    return answer


def package(sheets: Iterable[Tuple[str, bytes]], shared_texts: Optional[bytes], *, from_1904: bool = False) -> bytes:
    """A workbook for the engine's eyes only: sheets by name, as XML, and the texts that they share."""
    given = list(sheets)
    kinds = "".join(
        f'<Override PartName="/xl/worksheets/sheet{i}.xml" ContentType="{_TYPE}worksheet+xml"/>'
        for i in range(len(given))
    )
    links = "".join(
        f'<Relationship Id="r{i}" Type="{_R}/worksheet" Target="worksheets/sheet{i}.xml"/>' for i in range(len(given))
    )
    if shared_texts is not None:
        kinds += f'<Override PartName="/xl/sharedStrings.xml" ContentType="{_TYPE}sharedStrings+xml"/>'
        links += f'<Relationship Id="texts" Type="{_R}/sharedStrings" Target="sharedStrings.xml"/>'
    listed = "".join(
        f'<sheet name="{escape(name).replace(chr(34), "&quot;")}" sheetId="{i + 1}" r:id="r{i}"/>'
        for i, (name, _) in enumerate(given)
    )
    settings = '<workbookPr date1904="1"/>' if from_1904 else ""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as made:
        made.writestr(
            "[Content_Types].xml",
            f'<Types xmlns="{_P}content-types"><Default Extension="rels" '
            'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
            f'<Override PartName="/xl/workbook.xml" ContentType="{_TYPE}sheet.main+xml"/>{kinds}</Types>',
        )
        made.writestr(
            "_rels/.rels",
            f'<Relationships xmlns="{_P}relationships"><Relationship Id="r" Type="{_R}/officeDocument" '
            'Target="xl/workbook.xml"/></Relationships>',
        )
        made.writestr("xl/_rels/workbook.xml.rels", f'<Relationships xmlns="{_P}relationships">{links}</Relationships>')
        made.writestr(
            "xl/workbook.xml",
            f'<workbook xmlns="{_NS}" xmlns:r="{_R}">{settings}<sheets>{listed}</sheets></workbook>',
        )
        if shared_texts is not None:
            made.writestr("xl/sharedStrings.xml", shared_texts)
        for i, (_, data) in enumerate(given):
            made.writestr(f"xl/worksheets/sheet{i}.xml", data)
    return out.getvalue()
