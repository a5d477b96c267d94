"""Workbooks that several files look at; each is made once for all of them."""

from __future__ import annotations

import pytest
from built import built
from copied import EXAMPLE, FROZEN, LIVE, folder
from priced import Book, shared


@pytest.fixture(scope="session")
def example() -> bytes:
    """The worked example, computed."""
    return built(EXAMPLE)


@pytest.fixture(scope="session")
def live() -> bytes:
    """A copy of it in which our formulas compute."""
    return folder()[LIVE]


@pytest.fixture(scope="session")
def frozen() -> bytes:
    """A copy of it with values in place of our formulas."""
    return folder()[FROZEN]


@pytest.fixture(scope="session")
def book() -> Book:
    """The worked example, to be asked what would be if."""
    return shared()


@pytest.fixture(scope="session")
def us_book() -> Book:
    """The same in US units."""
    return shared("US")


@pytest.fixture(scope="session")
def blank_book() -> Book:
    """A workbook with nothing filled in."""
    return shared(filled=False)
