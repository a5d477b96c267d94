"""The cards of all batches and the order on paper."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from built import FEW, built
from copied import share
from kitchens import with_card

from brinecalc.hosts.calc import office
from brinecalc.workbook.book import Options


@pytest.mark.skipif(office.find() is None, reason="there is no LibreOffice here")
def test_the_order_without_prices_is_one_page_in_the_pdf(example: bytes, tmp_path: Path) -> None:
    (tmp_path / "Plan.xlsx").write_bytes(example)
    assert share(tmp_path / "Plan.xlsx", "--pdf", "--no-prices").exit_code == 0
    data = (tmp_path / "Plan copy 1 no prices.pdf").read_bytes()
    assert len(re.findall(rb"/Type\s*/Page(?![a-zA-Z])", data)) == 16  # fifteen cards, and the order


@pytest.mark.skipif(office.find() is None, reason="there is no LibreOffice here")
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_batch_gets_one_page_and_the_order_follows(paper: str, tmp_path: Path) -> None:
    (tmp_path / "Plan.xlsx").write_bytes(built(Options("metric", paper, True, FEW)))
    result = share(tmp_path / "Plan.xlsx", "--pdf")
    assert result.exit_code == 0, result.output
    data = (tmp_path / "Plan copy 1.pdf").read_bytes()
    sizes = re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", data)
    width = {"A4": 595, "Letter": 612}[paper]
    assert {round(float(size[0])) for size in sizes} == {width}
    assert 16 <= len(re.findall(rb"/Type\s*/Page(?![a-zA-Z])", data)) <= 18  # fifteen cards, the order on one to three


def test_without_libreoffice_the_copy_is_made_and_the_pdf_is_not(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(office, "find", lambda: None)
    (tmp_path / "Plan.xlsx").write_bytes(with_card())
    result = share(tmp_path / "Plan.xlsx", "--pdf")
    assert result.exit_code == 1
    assert "there is no LibreOffice" in result.output
    assert [path.name for path in sorted(tmp_path.iterdir())] == ["Plan copy 1.xlsx", "Plan.xlsx"]
