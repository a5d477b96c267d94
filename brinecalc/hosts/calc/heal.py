"""The job inside LibreOffice: repairs our function names when a workbook is opened and when one is saved.

One idea: older versions of Calc (7.4 among them) do not know an add-in's plain names in a file, and no version knows
the spelling of Excel's web add-ins. So after a load each formula that holds an unresolved name of ours is entered
again, and after a save as .xlsx the names are put back to the plain spelling in the file. A workbook that needs
nothing is only read. Text, and formulas without our names, are never written.
"""

from __future__ import annotations

import os
import sys
from functools import partial
from typing import Any, Callable, Dict, Iterator, List, Set, Tuple

import uno
import unohelper
from com.sun.star.lang import XServiceInfo
from com.sun.star.table import CellAddress
from com.sun.star.task import XJob
from com.sun.star.uno import Exception as UnoException

FOLDER = os.path.dirname(os.path.abspath(__file__))
LIBRARY = os.path.join(FOLDER, "pythonpath")
if sys.path[:1] != [LIBRARY]:
    sys.path.insert(0, LIBRARY)

from brinecalc.hosts.calc.rename import Renamer  # noqa: E402 - found only once the path is set

IMPLEMENTATION = "brinecalc.calc.Heal"
JOB = "com.sun.star.task.Job"
ALL_RESULTS = 7  # formulas whatever they result in: a value, a text or an error
Fix = Callable[[str], str]
Repair = Callable[[], Any]

with open(os.path.join(FOLDER, "functions.txt"), encoding="ascii") as names:
    RENAMER = Renamer("BRINE_" + line.split()[0] for line in names)


def repairs(document: Any, fix: Fix) -> List[Repair]:
    """What has to be entered anew because ``fix`` changes it. The document is only read."""
    found: List[Repair] = list(_name_repairs(document.NamedRanges, fix))
    for sheet in document.Sheets:
        found += _name_repairs(sheet.NamedRanges, fix)
    for sheet in document.Sheets:
        found += _cell_repairs(sheet, fix)
        found += _condition_repairs(sheet, fix)
    return found


def _name_repairs(named: Any, fix: Fix) -> Iterator[Repair]:
    for name in named:
        old = name.getContent()
        new = fix(old)
        if new != old:
            yield partial(name.setContent, new)


def _cell_repairs(sheet: Any, fix: Fix) -> Iterator[Repair]:
    arrays: Set[Tuple[int, int]] = set()
    for area in sheet.queryFormulaCells(ALL_RESULTS):
        old = area.getFormulaArray()
        new = [[fix(formula) for formula in row] for row in old]
        for column in range(len(old[0])):
            for row, formulas in changed_runs([line[column] for line in old], [line[column] for line in new]):
                if formulas[0][:1] != "{":
                    run = area.getCellRangeByPosition(column, row, column, row + len(formulas) - 1)
                    yield partial(_enter, run, formulas, fix)
                    continue
                cells = _array_cells(sheet, area.getCellByPosition(column, row))
                place = cells.getRangeAddress()
                if (place.StartColumn, place.StartRow) not in arrays:
                    arrays.add((place.StartColumn, place.StartRow))
                    yield partial(_enter_array, cells, formulas[0][1:-1], fix)


def changed_runs(old: List[str], new: List[str]) -> Iterator[Tuple[int, List[str]]]:
    """The runs of changed formulas in a column, with the row each begins at; an array formula is a run of its own."""
    first = 0
    run: List[str] = []
    for row, (before, after) in enumerate(zip(old, new)):
        changed = before != after
        if run and (not changed or after[:1] == "{"):
            yield first, run
            run = []
        if changed and after[:1] == "{":
            yield row, [after]
        elif changed:
            first = first if run else row
            run.append(after)
    if run:
        yield first, run


def _array_cells(sheet: Any, cell: Any) -> Any:
    """The whole range of the array formula that a cell belongs to."""
    cursor = sheet.createCursorByRange(cell)
    cursor.collapseToCurrentArray()
    return cursor


def _enter(run: Any, formulas: List[str], fix: Fix) -> None:
    """Enters what is still unresolved of a run, at once where the sheet allows it, else cell by cell."""
    old = [row[0] for row in run.getFormulaArray()]
    if all(fix(formula) == formula for formula in old):
        return
    try:
        run.setFormulaArray(tuple((formula,) for formula in formulas))
    except UnoException:  # a protected sheet refuses ranges, yet takes single cells
        for row, formula in enumerate(formulas):
            run.getCellByPosition(0, row).setFormula(formula)


def _enter_array(cells: Any, formula: str, fix: Fix) -> None:
    old = cells.getArrayFormula()
    if fix(old) != old:
        cells.setArrayFormula("")
        cells.setArrayFormula(formula)


def read_again(document: Any) -> None:
    """Has Calc itself read all formulas with unknown names again, which it does when the list of names changes.

    Far quicker than entering formulas, and it settles all plain names; what it cannot settle is entered afterwards.
    """
    named = document.NamedRanges
    name = "brinecalc_"
    while named.hasByName(name):
        name += "_"
    named.addNewByName(name, "1", CellAddress(), 0)
    named.removeByName(name)


def _condition_repairs(sheet: Any, fix: Fix) -> Iterator[Repair]:
    for conditions in sheet.ConditionalFormats.getConditionalFormats():
        for index in range(conditions.getCount()):
            condition = conditions.getByIndex(index)
            for place in ("Formula1", "Formula2"):
                old = getattr(condition, place, "") or ""
                new = fix(old)
                if new != old:
                    yield partial(setattr, condition, place, new)


def heal_loaded(document: Any) -> None:
    """Repairs a workbook just loaded, in one step, without a trace in its undo list."""
    found = repairs(document, RENAMER.for_calc)
    if not found:
        return
    undo = document.getUndoManager()
    automatic = document.isAutomaticCalculationEnabled()
    undo.lock()
    document.lockControllers()
    document.enableAutomaticCalculation(False)
    try:
        read_again(document)
        for repair in found:
            repair()
    finally:
        document.enableAutomaticCalculation(automatic)
        document.unlockControllers()
        undo.unlock()
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
