"""A workbook opened where our functions are missing: it says so, and blames nobody's figures."""

from __future__ import annotations

from typing import Any, Callable, List, Optional

import pytest
from built import FEW, bare
from copied import FROZEN, folder
from openpyxl.utils.cell import coordinate_to_tuple
from xlsx import stored

from brinecalc.hosts.headless import reasons
from brinecalc.hosts.headless.trial import Trial
from brinecalc.workbook.agreed import NOT_INSTALLED
from brinecalc.workbook.book import Options

HEADS = {
    "Plan": "D2",
    "Results": "D2",
    "Findings": "A3",
    "Prices": "A3",
    "Order": "A3",
    "Card": "H5",
    "Log": "A3",
    "Recipe": "A3",
}
"""Where each sheet says how it stands."""

BLAMES = ("A name or figure", "NOT PRICED", "hold yet", "Mend the row", "cannot be used")


class Missing:
    """A program in which each of our functions is an unknown name."""

    def names(self) -> List[str]:
        from brinecalc import registry

        return registry.names()

    def function(self, name: str) -> Callable[..., Any]:
        return lambda *arguments: "#NAME?"

    def why(self, name: str, *given: Any) -> str:
        return f"{name} is not known"

    def unknown(self, name: str) -> Optional[str]:
        return None

    def by_cell(self, name: str, index: int) -> bool:
        return False

    def gives_table(self, name: str) -> bool:
        return False


def test_every_sheet_says_that_the_functions_are_missing_and_blames_no_figures(monkeypatch: pytest.MonkeyPatch) -> None:
    """The worked example, worked out anew where nothing of ours is installed; why is asked of no formula."""
    monkeypatch.setattr(reasons, "MOST_EXPLAINED", 0)
    without = Trial(bare(Options("US", "Letter", True, FEW)), "Plan.xlsx", Missing())
    heads = {sheet: without.value(sheet, *coordinate_to_tuple(at)) for sheet, at in HEADS.items()}
    assert heads == dict.fromkeys(HEADS, NOT_INSTALLED)
    shown = [without.value(*formula.cell) for formula in without.formulas() if formula.cell[0] in HEADS]
    assert not [text for text in shown if isinstance(text, str) and any(blame in text for blame in BLAMES)]
    assert any(text == f"FAILS: {NOT_INSTALLED}" for text in shown)
    assert without.value("Card", 5, 1) == "DO NOT START"


def test_where_they_are_there_nothing_of_it_is_said(example: bytes) -> None:
    assert NOT_INSTALLED not in " ".join(map(str, stored(example).values()))


def test_a_copy_as_values_needs_no_functions_and_never_says_so() -> None:
    shown, formulas = stored(folder()[FROZEN]), stored(folder()[FROZEN], values=False)
    for sheet, at in HEADS.items():
        assert str(formulas[sheet, at]).startswith("="), "the head is worked out still"
        assert NOT_INSTALLED not in str(shown[sheet, at])
        assert "BRINE_" not in str(formulas[sheet, at]).upper()
