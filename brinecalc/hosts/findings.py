"""What ``doctor`` finds in each spreadsheet program, in one form for all of them.

One idea: whatever is found comes with the one thing to do about it.
"""

from __future__ import annotations

from typing import NamedTuple

OK, ABSENT, UNUSED, TROUBLE = "ok", "not found", "not set up", "trouble"


class Finding(NamedTuple):
    """One thing looked at: what it is, how it stands (one of the words above), the facts, and the one thing to do."""

    subject: str
    state: str
    says: str
    do: str = ""

    def __str__(self) -> str:
        return f"{self.subject}: {self.says}" + (f"; {self.do}" if self.do else "") + "."


class SetupTrouble(Exception):
    """A program could not be set up; the message says why and what to do. Nothing was left half done."""
