"""The printed pages: as many as are needed, in print that can be read on a kitchen's wall."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path
from statistics import mode

import pytest
from built import built

from brinecalc.hosts.calc import office
from brinecalc.workbook import prints
from brinecalc.workbook.book import Options

pytestmark = [
    pytest.mark.skipif(office.find() is None, reason="there is no LibreOffice here"),
    pytest.mark.skipif(shutil.which("pdftotext") is None, reason="there is no pdftotext here"),
]

PAPERS = (("metric", "A4"), ("US", "Letter"))
POINTS = {
    "Plan": 9.0,
    "Results": 8.5,
    "Findings": 7.5,
    "Card": 8.5,
    "Order": 8.5,
    "Prices": 8.5,
    "Limits": 6.5,
    "Log": 7.7,
}
"""The least size of most of a sheet's print. A newspaper's tables are of 6 to 7 points (common practice)."""
PAGES = {
    "Start": 1,
    "Plan": 4,
    "Results": 3,
    "Findings": 2,
    "Card": 1,
    "Order": 2,
    "Prices": 2,
    "Log": 2,
    "Workings": 1,
    "Checks": 1,
    "Lists": 1,
}
"""Most pages of each. Of the sheets behind, too wide for paper, the head prints."""
HEIGHT = 1.117
"""Height of a word's box for a font of one point: ascender and descender of Liberation Sans, which stands for Arial."""


@pytest.fixture(scope="module", params=PAPERS, ids=" ".join)
def pages(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> list[tuple[str, list[float]]]:
    """Of every page the sheet it is of, by its footer, and the heights of its words in points."""
    drawn = Path(tmp_path_factory.mktemp("paper"), "pages.pdf")
    drawn.write_bytes(prints.pdf(built(Options(*request.param, True)), prints.drawer()))
    told = subprocess.run(["pdftotext", "-bbox", str(drawn), "-"], check=True, capture_output=True, text=True).stdout
    found = []
    for page in told.split("<page ")[1:]:
        words = re.findall(r'yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)">(.*)</word>', page)
        heights = [round((float(bottom) - float(top)) / HEIGHT, 1) for top, bottom, _ in words]
        footer = " ".join(word for _, _, word in words[-8:])
        sheet = re.search(r"(\w+), page \d+ of \d+$", footer)
        found.append((sheet[1] if sheet else "", heights))
    return found


@pytest.mark.parametrize("sheet", POINTS)
def test_the_print_can_be_read(pages: list[tuple[str, list[float]]], sheet: str) -> None:
    heights = [height for name, found in pages if name == sheet for height in found]
    assert mode(heights) >= POINTS[sheet]


@pytest.mark.parametrize("sheet", PAGES)
def test_no_sheet_takes_more_pages_than_it_says(pages: list[tuple[str, list[float]]], sheet: str) -> None:
    assert 0 < sum(name == sheet for name, _ in pages) <= PAGES[sheet]
