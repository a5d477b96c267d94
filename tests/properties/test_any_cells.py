"""Whatever a host hands over, every function answers with a cell and a reason, and never fails inside."""

from __future__ import annotations

import random

import cells
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from brinecalc import registry
from brinecalc.errors import CELL_ERRORS


@pytest.mark.parametrize("name", registry.names())
@settings(max_examples=40, deadline=None, derandomize=True)
@given(seed=st.integers(0, 2**32))
def test_any_cells_get_a_cell_back(name, seed):
    arguments = cells.arguments(random.Random(seed), name)
    answer = registry.call(name, *arguments)
    assert cells.is_a_cell(answer), (arguments, answer)
    reason = registry.why(name, *arguments)
    texts = [reason] if isinstance(reason, str) else [text for row in reason for text in row]
    assert all("internal fault" not in text for text in texts), (arguments, texts)
    if isinstance(reason, str) and not isinstance(answer, list):
        failed = isinstance(answer, str) and answer in CELL_ERRORS
        assert failed == (not reason.startswith("ok")), (arguments, answer, reason)


@pytest.mark.parametrize("name", registry.names())
@settings(max_examples=15, deadline=None, derandomize=True)
@given(seed=st.integers(0, 2**32))
def test_the_same_cells_give_the_same_answer(name, seed):
    arguments = cells.arguments(random.Random(seed), name)
    assert registry.call(name, *arguments) == registry.call(name, *arguments)
