"""Reads what a workbook says about itself, from the few small parts that say it.

One idea: only what computing needs is read, and everything else in the package stays unread.
"""

from __future__ import annotations

import posixpath
from typing import Dict, List, Tuple

from brinecalc.files import FileTrouble
from brinecalc.hosts.headless import markup
from brinecalc.hosts.headless.outline import Outline
from brinecalc.hosts.headless.package import Package

MOST_SHEETS = 2_000
MOST_NAMES = 50_000


def read(package: Package) -> Outline:
    """Reads what a package says about its workbook."""
    book = Outline()
    book.part = _workbook_part(package)
    book.signed = any(part.startswith("_xmlsignatures/") for part in package.parts)
    targets = _relations(package, book.part)
    data = package.read(book.part)
    wanted = ("workbook", "workbookPr", "sheet", "definedName")
    found = markup.elements(data, book.part, wanted)
    if not found or found[0][0] != "workbook":
        raise FileTrouble(f"{package.name} is damaged: {book.part} is not a workbook")
    order = [attributes.get("name", "") for name, attributes, _ in found if name == "sheet"]
    if len(order) > MOST_SHEETS:
        raise FileTrouble(f"{package.name} has {len(order)} sheets; no more than {MOST_SHEETS} are read")
    for name, attributes, text in found:
        if name == "workbookPr":
            book.from_1904 = attributes.get("date1904", "0") in ("1", "true")
        elif name == "sheet":
            kind, part = targets.get(_relation_id(attributes), ("", ""))
            if kind == "worksheet":
                _take_sheet(book, attributes.get("name", ""), part)
        elif name == "definedName":
            _take_name(book, attributes, text, order)
    if book.name_count > MOST_NAMES:
        raise FileTrouble(f"{package.name} has {book.name_count} names; no more than {MOST_NAMES} are read")
    book.shared_texts = next((part for kind, part in targets.values() if kind == "sharedStrings"), None)
    return book


def _take_sheet(book: Outline, name: str, part: str) -> None:
    if book.sheet(name) is not None:
        raise FileTrouble(f"the workbook is damaged: two sheets are called {name}")
    book.add_sheet(name, part)


def _take_name(book: Outline, attributes: Dict[str, str], text: str, order: List[str]) -> None:
    local = attributes.get("localSheetId", "")
    scope = ""
    if local:
        if not local.isdigit() or int(local) >= len(order):
            return  # a name of a sheet that is not there cannot be used by any formula
        scope = order[int(local)]
    book.add_name(attributes.get("name", ""), text.strip(), scope)


def _relation_id(attributes: Dict[str, str]) -> str:
    return next((value for key, value in attributes.items() if markup.local(key) == "id" and ":" in key), "")


def _workbook_part(package: Package) -> str:
    for kind, part in _relations(package, "").values():
        if kind == "officeDocument":
            if not package.has(part):
                break
            return part
    raise FileTrouble(f"{package.name} is damaged: it does not say where its workbook is")


def _relations(package: Package, part: str) -> Dict[str, Tuple[str, str]]:
    """Id → kind and part, for everything inside the package that a part refers to."""
    folder, base = posixpath.split(part)
    source = posixpath.join(folder, "_rels", base + ".rels")
    if not package.has(source):
        raise FileTrouble(f"{package.name} is damaged: its part {source} is missing")
    found: Dict[str, Tuple[str, str]] = {}
    for _, attributes, _ in markup.elements(package.read(source), source, ("Relationship",)):
        if attributes.get("TargetMode") == "External":
            continue
        target = attributes.get("Target", "")
        path = target.lstrip("/") if target.startswith("/") else posixpath.normpath(posixpath.join(folder, target))
        found[attributes.get("Id", "")] = (attributes.get("Type", "").rpartition("/")[2], path)
    return found
