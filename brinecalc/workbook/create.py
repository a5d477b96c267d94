"""A finished workbook: built from its sheets, computed, its function names spelled for the program that will open it.

One idea: whoever opens the file sees figures at once, whether or not the functions are installed there, because the
values are in it as if a spreadsheet program had saved it.
"""

from __future__ import annotations

import re
from typing import Callable, NamedTuple, Optional
from xml.sax.saxutils import unescape

from brinecalc.hosts import spelling
from brinecalc.hosts.headless import Report, calculate, markup
from brinecalc.workbook import build
from brinecalc.workbook.book import Options
from brinecalc.workbook.edit.book import Edit

PAPERS = {"metric": "A4", "US": "Letter"}
"""The paper that goes with the units, unless another is asked for."""

_FORMULA = re.compile(rb"(<(?:\w+:)?(?:f|formula[12]?|definedName|calculatedColumnFormula)(?:\s[^>]*)?>)([^<]+)(?=</)")


class Created(NamedTuple):
    """The finished file, and the account of what was computed."""

    content: bytes
    report: Report


class Respelled(NamedTuple):
    """The workbook in another spelling, and how many of its formulas changed."""

    content: bytes
    formulas: int


def create(options: Options, program: str = "excel", progress: Optional[Callable[[str], None]] = None) -> Created:
    """Builds and computes a workbook; the same arguments give the same bytes."""
    if progress is not None:
        progress("building")
    return completed(build.build(options), program, progress)


def completed(content: bytes, program: str, progress: Optional[Callable[[str], None]] = None) -> Created:
    """What was built, spelled for the program and computed."""
    way = spelling.PROGRAMS[program]
    if way != spelling.PLAIN:  # as it is built
        content = respelled(content, way).content
    outcome = calculate(content, "workbook.xlsx", progress=progress)
    return Created(outcome.content, outcome.report)


def respelled(content: bytes, way: str, name: str = "workbook.xlsx") -> Respelled:
    """The workbook with our functions in another spelling; values, texts and everything else stay."""
    count = 0

    def anew(match: "re.Match[bytes]") -> bytes:
        nonlocal count
        old = unescape(match[2].decode(), {"&quot;": '"', "&apos;": "'"})
        new = spelling.respell(old, way)
        if new == old:
            return match[0]
        count += 1
        return match[1] + markup.escape(new).encode()

    edit = Edit(content, name)
    tables = [part for part in edit.part_names() if part.startswith("xl/tables/")]
    for part in (*edit.sheets.values(), edit.book.part, *tables):
        markup.check(edit.part(part), part)
        edit.set_part(part, _FORMULA.sub(anew, edit.part(part)))
    return Respelled(edit.done() if count else content, count)
