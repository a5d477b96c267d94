"""Whatever a host hands over, every function answers with a cell and a reason, and never fails inside."""

from __future__ import annotations

import random

import cells
from each import each

from brinecalc import registry
from brinecalc.errors import CELL_ERRORS


def drawn(name, seeds):
    """Calls of a function with cells of every kind, always the same; a seed says all that there is to shrink."""
    for seed in range(seeds):
        yield cells.arguments(random.Random(f"{name} {seed}"), name)


@each("name", registry.names())
def test_any_cells_get_a_cell_back(name):
    for arguments in drawn(name, 40):
        answers_with_a_cell(name, arguments)


def answers_with_a_cell(name, arguments):
    answer = registry.call(name, *arguments)
    assert cells.is_a_cell(answer), (arguments, answer)
    reason = registry.why(name, *arguments)
    texts = [reason] if isinstance(reason, str) else [text for row in reason for text in row]
    assert all("internal fault" not in text for text in texts), (arguments, texts)
    if isinstance(reason, str) and not isinstance(answer, list):
        failed = isinstance(answer, str) and answer in CELL_ERRORS
        assert failed == (not reason.startswith("ok")), (arguments, answer, reason)


@each("name", registry.names())
def test_the_same_cells_give_the_same_answer(name):
    for arguments in drawn(name, 15):
        assert registry.call(name, *arguments) == registry.call(name, *arguments)
