"""What a refusal owes its reader: which argument, what it must be, what was given, what to type instead."""

from __future__ import annotations

import re
from typing import Any, Callable, NamedTuple

import pytest

from brinecalc import registry
from brinecalc.errors import BrineError


class Refusal(NamedTuple):
    """A call that must be refused, and the parts of the refusal; `got` is whole, the words are pieces."""

    call: Callable[[], Any]
    kind: type[BrineError]
    argument: str | None
    got: str | None
    words: tuple[str, ...]
    nearest: float | None = None


def check(refusal: Refusal) -> None:
    """Makes the call and compares every part of what comes of it."""
    with pytest.raises(refusal.kind) as caught:
        refusal.call()
    error = caught.value
    assert type(error) is refusal.kind, type(error)
    assert (error.argument, error.got) == (refusal.argument, refusal.got), (error.argument, error.got)
    said = error.sentence()
    for words in refusal.words:
        assert words in said, said
    assert "None" not in said, said
    reads_on(error)
    if refusal.nearest is None:
        assert error.nearest is None, error.nearest
    else:
        assert error.nearest == pytest.approx(refusal.nearest, rel=1e-3)


def reads_on(error: BrineError) -> None:
    """The rule goes on after the argument's name and the advice after a semicolon; both name only what there is."""
    said = error.sentence()
    for part in (error.rule, error.advice or ""):
        assert not part[:1].isupper() or part.startswith("BRINE_"), said
    assert set(re.findall(r"BRINE_\w+", said)) <= set(registry.names()), said
