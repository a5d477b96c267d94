"""Workbooks computed once and kept in the engine, for all tests of a process that ask what would be if."""

from __future__ import annotations

import functools

from brinecalc.hosts.headless.trial import Trial


@functools.lru_cache(maxsize=8)
def kept(content: bytes) -> Trial:
    """The workbook computed; whoever supposes something puts it back."""
    return Trial(content, "Plan.xlsx")
