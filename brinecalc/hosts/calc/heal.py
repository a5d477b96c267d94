"""The job inside LibreOffice: repairs our function names when a workbook is opened and when one is saved.

One idea: older versions of Calc (7.4 among them) do not know an add-in's plain names in a file, and no version knows
the spelling of Excel's web add-ins. So after a load each formula that holds an unresolved name of ours is entered
again, and after a save as .xlsx the names are put back to the plain spelling in the file. A workbook that needs
nothing is only read. Text, and formulas without our names, are never written.
"""

from __future__ import annotations

import os
import sys
from typing import Any, Callable, Dict, Iterator, List, Set, Tuple

import uno  # type: ignore[import-not-found]
import unohelper  # type: ignore[import-not-found]
from com.sun.star.lang import XServiceInfo  # type: ignore[import-not-found]
from com.sun.star.task import XJob  # type: ignore[import-not-found]
from com.sun.star.uno import Exception as UnoException  # type: ignore[import-not-found]

FOLDER = os.path.dirname(os.path.abspath(__file__))
LIBRARY = os.path.join(FOLDER, "pythonpath")
if sys.path[:1] != [LIBRARY]:
    sys.path.insert(0, LIBRARY)

from brinecalc.hosts.calc.rename import Renamer  # noqa: E402 - found only once the path is set

IMPLEMENTATION = "brinecalc.calc.Heal"
JOB = "com.sun.star.task.Job"
ALL_RESULTS = 7  # formulas whatever they result in: a value, a text or an error
Fix = Callable[[str], str]

with open(os.path.join(FOLDER, "functions.txt"), encoding="ascii") as names:
    RENAMER = Renamer("BRINE_" + name.rstrip("*") for name in names.read().split())


def heal(document: Any, fix: Fix) -> int:
    """Enters every formula again that ``fix`` changes; answers how many."""
    healed = _heal_names(document.NamedRanges, fix)
    for sheet in document.Sheets:
        healed += _heal_names(sheet.NamedRanges, fix)
    for sheet in document.Sheets:
        healed += _heal_cells(sheet, fix) + _heal_conditions(sheet, fix)
    return healed


def _heal_names(named: Any, fix: Fix) -> int:
    healed = 0
    for name in named:
        old = name.getContent()
        new = fix(old)
        if new != old:
            name.setContent(new)
            healed += 1
    return healed


def _heal_cells(sheet: Any, fix: Fix) -> int:
    healed = 0
    for area in sheet.queryFormulaCells(ALL_RESULTS):
        old = area.getFormulaArray()
        new = [[fix(formula) for formula in row] for row in old]
        arrays: Set[Tuple[int, int]] = set()
        for column in range(len(old[0])):
            for first, formulas in _changed_runs([row[column] for row in old], [row[column] for row in new]):
                healed += _enter(sheet, area, column, first, formulas, arrays)
    return healed


def _changed_runs(old: List[str], new: List[str]) -> Iterator[Tuple[int, List[str]]]:
    """The runs of changed formulas in a column, with the row each begins at; an array formula is a run of its own."""
    first = 0
    run: List[str] = []
    for row, (before, after) in enumerate(zip(old, new)):
        changed = before != after
        if run and (not changed or after[:1] == "{"):
            yield first, run
            run = []
        if not changed:
            continue
        if after[:1] == "{":
            yield row, [after]
            continue
        if not run:
            first = row
        run.append(after)
    if run:
        yield first, run


def _enter(sheet: Any, area: Any, column: int, row: int, formulas: List[str], arrays: Set[Tuple[int, int]]) -> int:
    """Enters a run of formulas, at once where the sheet allows it, cell by cell where it is protected."""
    if formulas[0][:1] == "{":
        return _enter_array(sheet, area.getCellByPosition(column, row), formulas[0], arrays)
    if len(formulas) > 1:
        run = area.getCellRangeByPosition(column, row, column, row + len(formulas) - 1)
        try:
            run.setFormulaArray(tuple((formula,) for formula in formulas))
            return len(formulas)
        except UnoException:  # a protected sheet refuses ranges, yet takes single cells
            return sum(_enter_cell(area.getCellByPosition(column, row + i), f) for i, f in enumerate(formulas))
    return _enter_cell(area.getCellByPosition(column, row), formulas[0])


def _enter_cell(cell: Any, formula: str) -> int:
    cell.setFormula(formula)
    return 1


def _enter_array(sheet: Any, cell: Any, formula: str, arrays: Set[Tuple[int, int]]) -> int:
    """Enters an array formula over its whole range, once."""
    cursor = sheet.createCursorByRange(cell)
    cursor.collapseToCurrentArray()
    place = cursor.getRangeAddress()
    corner = (place.StartColumn, place.StartRow)
    if corner in arrays:
        return 0
    arrays.add(corner)
    cells = sheet.getCellRangeByPosition(place.StartColumn, place.StartRow, place.EndColumn, place.EndRow)
    cells.setArrayFormula("")
    cells.setArrayFormula(formula[1:-1])
    return 1


def _heal_conditions(sheet: Any, fix: Fix) -> int:
    healed = 0
    for conditions in sheet.ConditionalFormats.getConditionalFormats():
        for index in range(conditions.getCount()):
            condition = conditions.getByIndex(index)
            for place in ("Formula1", "Formula2"):
                old = getattr(condition, place, "") or ""
                new = fix(old)
                if new != old:
                    setattr(condition, place, new)
                    healed += 1
    return healed


def heal_loaded(document: Any) -> None:
    """Repairs a workbook just loaded, in one step, without a trace in its undo list."""
    undo = document.getUndoManager()
    automatic = document.isAutomaticCalculationEnabled()
    undo.lock()
    document.lockControllers()
    document.enableAutomaticCalculation(False)
    try:
        healed = heal(document, RENAMER.for_calc)
    finally:
        document.enableAutomaticCalculation(automatic)
        document.unlockControllers()
        undo.unlock()
    if healed:
        document.calculate()
        mark_unchanged(document)
        HEALED.add(document.RuntimeUID)


def mark_unchanged(document: Any) -> None:
    """The repair is no change of the person's: a chart that drew itself again must not ask to be saved either."""
    for sheet in document.Sheets:
        for index in range(sheet.Charts.Count):
            sheet.Charts.getByIndex(index).getEmbeddedObject().setModified(False)
    document.setModified(False)


def heal_view(document: Any) -> None:
    """The mark is kept only from the first view on, so it is taken off again there, unless somebody was quicker."""
    if document.RuntimeUID in HEALED:
        HEALED.discard(document.RuntimeUID)
        if not document.getUndoManager().isUndoPossible():
            mark_unchanged(document)


def heal_saved(document: Any) -> None:
    """Puts plain names into the file just saved. A file that cannot be replaced keeps names that Calc still reads."""
    address = document.getURL()
    if not (address.startswith("file:") and address.lower().endswith((".xlsx", ".xlsm"))):
        return
    try:
        RENAMER.plain_file(uno.fileUrlToSystemPath(address))
    except OSError:
        return  # in use or in a folder that takes no new file: `brinecalc respell` mends it from outside


HEALED: Set[str] = set()
EVENTS: Dict[str, Callable[[Any], None]] = {
    "OnLoadFinished": heal_loaded,
    "OnViewCreated": heal_view,
    "OnSaveDone": heal_saved,
    "OnSaveAsDone": heal_saved,
}


class Heal(unohelper.Base, XJob, XServiceInfo):  # type: ignore[misc]
    """The job that LibreOffice runs at each of the events."""

    def __init__(self, context: Any) -> None:
        self.context = context

    def getImplementationName(self) -> str:  # noqa: N802 - the names of UNO's interfaces
        """The name it is registered under."""
        return IMPLEMENTATION

    def supportsService(self, name: str) -> bool:  # noqa: N802
        """Whether it is that service."""
        return name == JOB

    def getSupportedServiceNames(self) -> Tuple[str, ...]:  # noqa: N802
        """The one service it is."""
        return (JOB,)

    def execute(self, arguments: Any) -> Tuple[Any, ...]:
        """Does what the event asks for, if a workbook is concerned."""
        given = {argument.Name: argument.Value for argument in arguments}
        about = {argument.Name: argument.Value for argument in given.get("Environment", ())}
        document = about.get("Model")
        act = EVENTS.get(about.get("EventName", ""))
        if act and document and document.supportsService("com.sun.star.sheet.SpreadsheetDocument"):
            act(document)
        return ()


g_ImplementationHelper = unohelper.ImplementationHelper()  # noqa: N816 - LibreOffice looks for this name
g_ImplementationHelper.addImplementation(Heal, IMPLEMENTATION, (JOB,))
