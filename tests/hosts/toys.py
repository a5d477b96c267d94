"""Toy functions and small workbooks for the tests of the headless engine."""

from __future__ import annotations

import io
import zipfile
from typing import Any, Callable, Dict, List, Mapping, Optional, Sequence, Tuple
from xml.sax.saxutils import escape, quoteattr

import openpyxl
from xlsx import opened, parts, saved

from brinecalc.hosts.headless import Outcome, calculate

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006"
SHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml"


def salt(water: Any, share: Any = 0.05, *rest: Any) -> Any:
    """Water times share; a share above 1 is refused, errors pass through, ranges go cell by cell."""
    if isinstance(water, list):
        return [[salt(cell, share) for cell in row] for row in water]
    for cell in (water, share):
        if isinstance(cell, str) and cell.startswith("#"):
            return cell
    if isinstance(water, str):
        return "#VALUE!"
    return "#NUM!" if share > 1 else float(water or 0) * share


class Toys:
    """A library of a few functions that do as little as possible."""

    def __init__(self) -> None:
        self.seen: List[Tuple[Any, ...]] = []
        self.functions: Dict[str, Callable[..., Any]] = {
            "BRINE_SALT": salt,
            "BRINE_SEEN": self.see,
            "BRINE_TABLE": lambda *cells: [["depth", "share"], [1.0, 0.02]],
            "BRINE_TOTAL": lambda cells: float(sum(c or 0 for row in cells for c in row)),
        }

    def see(self, *cells: Any) -> str:
        self.seen.append(cells)
        return repr(cells)

    def names(self) -> List[str]:
        return list(self.functions)

    def function(self, name: str) -> Callable[..., Any]:
        return self.functions[name]

    def why(self, name: str, *cells: Any) -> str:
        return f"{name}: share must be at most 1, got {cells[1] if len(cells) > 1 else '?'}."

    def unknown(self, name: str) -> Optional[str]:
        return None if name in self.functions else f"{name} is not a known function; did you mean BRINE_SALT?"

    def by_cell(self, name: str, index: int) -> bool:
        return name == "BRINE_SALT"

    def gives_table(self, name: str) -> bool:
        return name == "BRINE_TABLE"


def book_of(cells: Mapping[str, Any], title: str = "Plan", **other: Mapping[str, Any]) -> bytes:
    """A workbook with one sheet of those cells, and further sheets by keyword."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = title
    for name, content in {title: cells, **other}.items():
        page = sheet if name == title else book.create_sheet(name)
        for place, value in content.items():
            page[place] = value
    return saved(book)


def computed(content: bytes, name: str = "Plan.xlsx", library: Any = None) -> Outcome:
    """The workbook computed with the toys."""
    return calculate(content, name, library or Toys())


def value(content: bytes, place: str, sheet: Optional[str] = None) -> Any:
    book = opened(content, values=True)
    return (book[sheet] if sheet else book.worksheets[0])[place].value


def one(formula: str, cells: Optional[Mapping[str, Any]] = None) -> Any:
    """The value of one formula over those cells, or the reason (in brackets) why it was not computed."""
    outcome = computed(book_of({**(cells or {}), "Z99": "=" + formula.removeprefix("=")}))
    problem = next((p for p in outcome.report.problems if p.cell == "Z99" and p.error is None), None)
    return f"[{problem.reason}]" if problem else value(outcome.content, "Z99")


def reason(formula: str, cells: Optional[Mapping[str, Any]] = None) -> str:
    """Why a formula is not computed, or ends in an error."""
    outcome = computed(book_of({**(cells or {}), "Z99": "=" + formula.removeprefix("=")}))
    return next((p.reason for p in outcome.report.problems if p.cell == "Z99"), "")


def changed(content: bytes, **new: Any) -> bytes:
    """The package with some parts replaced or added; a part's name is given in `new["parts"]`."""
    replaced: Mapping[str, Any] = new["parts"]
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for name, data in {**parts(content), **replaced}.items():
            if data is not None:
                package.writestr(name, data)
    return out.getvalue()


def raw_book(
    sheets: Sequence[Tuple[str, str]],
    *,
    inside: str = "",
    names: str = "",
    after: str = '<calcPr calcId="124519" fullCalcOnLoad="1"/>',
    root: str = f'<worksheet xmlns="{MAIN}">',
    end: str = "</worksheet>",
    extra: Optional[Mapping[str, Any]] = None,
) -> bytes:
    """A workbook from the XML of its rows, for what openpyxl does not write."""
    count = range(1, len(sheets) + 1)
    kinds = "".join(
        f'<Override PartName="/xl/worksheets/sheet{i}.xml" ContentType="{SHEET_TYPE}.worksheet+xml"/>' for i in count
    )
    links = "".join(
        f'<Relationship Id="rId{i}" Type="{OFFICE}/worksheet" Target="worksheets/sheet{i}.xml"/>' for i in count
    )
    listed = "".join(
        f'<sheet name={quoteattr(name)} sheetId="{i}" r:id="rId{i}"/>'
        for i, (name, _) in zip(count, sheets, strict=True)
    )
    made = {
        "[Content_Types].xml": f'<Types xmlns="{PACKAGE}/content-types"><Default Extension="rels" '
        'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        f'<Override PartName="/xl/workbook.xml" ContentType="{SHEET_TYPE}.sheet.main+xml"/>{kinds}</Types>',
        "_rels/.rels": f'<Relationships xmlns="{PACKAGE}/relationships"><Relationship Id="rId1" '
        f'Type="{OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{PACKAGE}/relationships">{links}</Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{MAIN}" xmlns:r="{OFFICE}">{inside}<sheets>{listed}</sheets>'
        f"{names}{after}</workbook>",
    }
    for i, (_, rows) in zip(count, sheets, strict=True):
        made[f"xl/worksheets/sheet{i}.xml"] = f"{root}<sheetData>{rows}</sheetData>{end}"
    made.update(extra or {})
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for name, data in made.items():
            package.writestr(name, data)
    return out.getvalue()


def formula_cell(place: str, formula: str, rest: str = "") -> str:
    return f'<c r="{place}"><f>{escape(formula)}</f>{rest}</c>'
