"""Many cases of one sentence in one test: all of them are tried, and every one that fails is shown.

A test of its own costs more than a row of a table does.
"""

from __future__ import annotations

import builtins
import functools
import inspect
from collections.abc import Iterable, Sequence
from typing import Any, Callable

import pytest

LONGEST = 300
"""Letters of a case that are shown."""


def each(names: str | Sequence[str], cases: Iterable[Any]) -> Callable[..., Callable[..., None]]:
    """As `pytest.mark.parametrize`, in one test; for cases that take no time and leave nothing behind."""
    keys = [name.strip() for name in names.split(",")] if isinstance(names, str) else list(names)
    rows = [tuple(case) if len(keys) > 1 else (case,) for case in cases]
    assert all(len(row) == len(keys) for row in rows)

    def of_all(test: Callable[..., None]) -> Callable[..., None]:
        @functools.wraps(test)
        def every(**fixtures: Any) -> None:
            assert rows, "there is no case"
            failed = []
            for row in rows:
                try:
                    test(**fixtures, **dict(zip(keys, row)))
                except BaseException as error:
                    error.add_note(f"in the case {repr(row)[:LONGEST]}")
                    if not isinstance(error, (Exception, pytest.fail.Exception, pytest.skip.Exception)):
                        raise
                    failed.append(error)  # a case that is skipped is one that was not tried
            if failed:
                raise builtins.BaseExceptionGroup(f"{len(failed)} of {len(rows)} cases", failed)

        whole = inspect.signature(test)
        left = [value.replace(kind=value.KEYWORD_ONLY) for name, value in whole.parameters.items() if name not in keys]
        assert len(left) + len(keys) == len(whole.parameters)
        every.__signature__ = whole.replace(parameters=left)  # type: ignore[attr-defined]
        return every

    return of_all
