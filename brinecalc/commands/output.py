"""How values and texts from files appear on a terminal.

One idea: whatever comes out of a workbook is someone else's text. Control characters, which could steer a terminal or
turn a line round, are shown as what they are and never sent.
"""

from __future__ import annotations

import sys
import unicodedata
from typing import Any, List

import click


def value(cell: Any) -> str:
    """A value as a person reads it: 12 significant digits at most."""
    if isinstance(cell, bool):
        return "TRUE" if cell else "FALSE"
    if isinstance(cell, (int, float)):
        return f"{cell + 0.0:.12g}"
    return text(str(cell))


def text(words: str) -> str:
    """A text without control characters."""
    if words.isprintable():
        return words
    return "".join(c if unicodedata.category(c) not in ("Cc", "Cf", "Cs", "Zl", "Zp") else _shown(c) for c in words)


def _shown(c: str) -> str:
    return {"\n": "⏎", "\t": " ", "\r": ""}.get(c, f"<U+{ord(c):04X}>")


def table(rows: List[List[Any]]) -> str:
    """Rows of values with numbers to the right and texts to the left."""
    shown = [[value(cell) for cell in row] for row in rows]
    widths = [max(len(row[i]) for row in shown) for i in range(len(shown[0]))]
    lines = []
    for cells, words in zip(rows, shown):
        line = [
            word.rjust(width) if isinstance(cell, (int, float)) else word.ljust(width)
            for cell, word, width in zip(cells, words, widths)
        ]
        lines.append("  ".join(line).rstrip())
    return "\n".join(lines)


def answer(given: Any) -> str:
    """What a formula gives: a value, or a table."""
    return table(given) if isinstance(given, list) else value(given)


def progress(step: str) -> None:
    """A line that names the step at work, on a terminal only; an empty step clears it."""
    if sys.stderr.isatty():
        click.echo(f"\r\033[K{text(step) + ' …' if step else ''}", nl=False, err=True)


def as_json(data: Any) -> None:
    """Prints data for a program to read."""
    import json  # only for programs, and it costs as much as a formula

    click.echo(json.dumps(data, ensure_ascii=False, indent=2))
