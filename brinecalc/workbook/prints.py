"""The cards of all batches and the order as one PDF, drawn by LibreOffice.

One idea: what is printed is a workbook made for printing alone: one sheet per batch with the card's values in it, the
order, and everything else hidden. So the drawing program computes nothing and needs none of our functions.
"""

from __future__ import annotations

import re
import subprocess
import tempfile
from html import unescape
from pathlib import Path
from typing import Callable, Dict, List, Optional, Tuple

from brinecalc.files import FileTrouble
from brinecalc.hosts.formulas import places
from brinecalc.hosts.headless.markup import escape
from brinecalc.hosts.headless.trial import Cell, Trial
from brinecalc.workbook import frozen
from brinecalc.workbook.agreed import LEFT_OUT, ORDER_ON_FIRST_PAGE
from brinecalc.workbook.edit import sheets, tags
from brinecalc.workbook.edit.book import Edit, Range
from brinecalc.workbook.edit.cells import Value

CARD, ORDER, CHOICE = "Card", "Order", "card_batch"
_PATIENCE = 300
_SHEET = re.compile(rb"<(?:\w+:)?sheet\b[^>]*>")
_HANGING = re.compile(
    rb"<(?:\w+:)?(?:drawing|legacyDrawing|legacyDrawingHF|picture)\b[^>]*/>"
    rb"|<((?:\w+:)?dataValidations)\b[^>]*>.*?</\1>",
    re.DOTALL,
)
"""What a sheet has from elsewhere, and the lists that its inputs are chosen from."""


def batches(edit: Edit) -> List[int]:
    """The numbers of the batches in use."""
    place = edit.place("plan_products")
    if place is None:
        return []
    return [i for i, cell in enumerate(place.cells(), 1) if edit.look(place.sheet, *cell).value not in (None, "")]


def wanted(edit: Edit, name: str) -> Tuple[Range, List[int]]:
    """The cell in which a batch is chosen on the card, and the batches to print; FileTrouble where there is none."""
    choice = edit.place(CHOICE)
    if choice is None or choice.sheet not in edit.sheets:
        raise FileTrouble(f"{name} has no card to print (no cell is named {CHOICE})")
    numbers = batches(edit)
    if not numbers:
        raise FileTrouble(f"no batch is planned in {name}, so there is nothing to print")
    return choice, numbers


def print_book(trial: Trial, name: str, progress: Callable[[str], None]) -> bytes:
    """The workbook that is printed."""
    edit = Edit(trial.outcome.content, name)
    choice, numbers = wanted(edit, name)
    card, order = choice.sheet, edit.place("order_total")
    cell = (choice.sheet, choice.area.top, choice.area.left)
    formulas = [f.cell for f in trial.formulas() if f.cell[0] == card]
    pages: List[Tuple[str, bytes]] = []
    for number in numbers:
        progress(f"card {number}")
        trial.suppose({cell: float(number)})
        values: Dict[Cell, Value] = {each: frozen.plain(trial.value(*each)) for each in formulas}
        pages.append((f"{card} {number}", _filled(trial, name, {**values, cell: float(number)})))
    if order is not None:
        _settle_order(edit, trial, order.sheet)
    areas = {title: edit.book.name("_xlnm.Print_Area", card) for title, _ in pages}
    for title, data in pages:
        sheets.put_sheet(edit, title, _HANGING.sub(b"", data))
    if order is not None:
        areas[order.sheet] = _order_area(edit, order.sheet)
    _keep_only(edit, areas)
    return edit.done()


def _order_area(edit: Edit, sheet: str) -> Optional[str]:
    """What is printed of the order: its first page alone where the second has neither lines nor money on it."""
    first, lines, second = (
        edit.place(name) for name in ("order_first_page", "order_lines", "left_out_part_order_money")
    )
    if first is not None and lines is not None and second is not None:
        told = edit.look(sheet, second.area.top, second.area.left).value
        count = edit.look(sheet, lines.area.top, lines.area.left).value
        if told == LEFT_OUT and isinstance(count, float) and count <= ORDER_ON_FIRST_PAGE:
            return edit.book.name("order_first_page", "")
    return edit.book.name("_xlnm.Print_Area", sheet)


def _filled(trial: Trial, name: str, values: Dict[Cell, Value]) -> bytes:
    """The XML of a sheet with values in place of its formulas."""
    edit = Edit(trial.outcome.content, name)
    for (sheet, row, col), value in values.items():
        edit.put(sheet, row, col, None if value == "" else value)
    return edit.part(edit.sheets[next(iter(values))[0]])


def _settle_order(edit: Edit, trial: Trial, sheet: str) -> None:
    """Puts values in place of the order's formulas."""
    for formula in trial.formulas():
        if formula.cell[0] == sheet:
            value = edit.look(*formula.cell).value
            edit.put(*formula.cell, None if value == "" else value)


def _keep_only(edit: Edit, areas: Dict[str, Optional[str]]) -> None:
    """Leaves only these sheets in the workbook, in this order, each with its print area.

    Hiding the others is not enough: what has a print area is printed all the same.
    """
    workbook = edit.part(edit.book.part)
    tag = {unescape(tags.attribute(found, "name") or ""): found for found in _SHEET.findall(workbook)}
    listed = tags.element(workbook, "sheets")
    if listed is None:
        raise FileTrouble(f"{edit.package.name} is damaged: its list of sheets is missing")
    kept = b"".join(tag[name] for name in areas)
    lines = "".join(
        f'<definedName name="_xlnm.Print_Area" localSheetId="{number}">'
        f"{escape(places.quoted(name))}!{area.rpartition('!')[2]}</definedName>"
        for number, (name, area) in enumerate(areas.items())
        if area
    ).encode()
    workbook = workbook[: listed[1]] + kept + workbook[listed[2] :]
    names = tags.element(workbook, "definedNames")
    if names is not None:
        workbook = workbook[: names[1]] + lines + workbook[names[2] :]
    view = re.compile(rb"<(?:\w+:)?workbookView\b[^>]*>")
    workbook = view.sub(lambda found: tags.with_attribute(found[0], "activeTab", "0"), workbook, count=1)
    edit.set_part(edit.book.part, workbook)


def drawer() -> Path:
    """The program that draws; FileTrouble where there is no LibreOffice."""
    from brinecalc.hosts.calc import office

    found = office.find()
    if found is None:
        raise FileTrouble("there is no LibreOffice on this machine, which draws the PDF; all else was written")
    return found.tool("soffice")


def pdf(content: bytes, program: Path) -> bytes:
    """The visible sheets of a workbook as PDF."""
    with tempfile.TemporaryDirectory(prefix="brinecalc-print") as folder:
        source = Path(folder, "print.xlsx")
        source.write_bytes(content)
        profile = f"-env:UserInstallation={Path(folder, 'profile').as_uri()}"
        command = [
            str(program),
            "--headless",
            profile,
            "--convert-to",
            "pdf",
            "--outdir",
            folder,
            str(source),
        ]
        try:
            subprocess.run(command, check=True, capture_output=True, timeout=_PATIENCE)  # noqa: S603 - LibreOffice itself
            return Path(folder, "print.pdf").read_bytes()
        except (subprocess.SubprocessError, OSError) as error:
            raise FileTrouble(f"LibreOffice could not draw the PDF: {error}; all else was written") from error
