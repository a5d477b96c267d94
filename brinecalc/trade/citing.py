"""Where a number comes from, said in words: the citation of a source key, and of each limit that rests on it.

One idea: a figure is only as good as the way it is known, so a citation always ends with that: read, reported by
others, computed, from memory, a judgement or the custom of the trade.
"""

from __future__ import annotations

from functools import cache
from typing import Any, Dict

from brinecalc.names import Names
from brinecalc.tables import load
from brinecalc.trade.limits import RECHECK, Limit

KNOWN_BY = {
    "read": "read in the source",
    "second-hand": "as reported by others, the source itself was not read",
    "computed": "computed",
    "memory": "from memory, not verified",
    "judgement": "a judgement made for this library",
    "common practice": "common practice, no source",
}


@cache
def KEYS() -> Names[Dict[str, Any]]:  # noqa: N802 - reads as the constant it stands for, made on first use
    """Every source under its key."""
    return Names("source", [(row["key"], (), row) for row in load.rows("sources")])


@cache
def title(key: str) -> str:
    """A source in a few words: its title and year."""
    row = KEYS().find(key, "source")
    return f"{row['title']} ({row['year']})" if row["year"] else str(row["title"])


@cache
def cite(key: str) -> str:
    """A source in full: author, title, year, place, and how it is known."""
    row = KEYS().find(key, "source")
    if row["status"] in ("common practice", "judgement"):
        return f"{row['title']}; {KNOWN_BY[row['status']]}"
    parts = [f"{row['author']}, {title(key)}", row["place"], KNOWN_BY[row["status"]]]
    return "; ".join(part for part in parts if part)


def cite_limit(found: Limit) -> str:
    """A limit with its rule: figure, meaning, jurisdiction, source, how it is known, and the call to recheck."""
    head = f"{found.meaning}: {found.bounded}"
    if not found.is_rule:
        whose = ""
    elif found.rules == "Codex":
        whose = ", Codex"
    else:
        whose = f", {found.rules} rules"
    parts = [f"{head}{whose}", _origin(found), found.note, RECHECK if found.is_rule else None]
    return "; ".join(part for part in parts if part) + "."


def _origin(found: Limit) -> str:
    """The source of a limit with its place and year, each said once, and how the figure is known."""
    known = KNOWN_BY[found.status]
    if found.status in ("common practice", "judgement"):
        return known
    row = KEYS().find(found.source, "source")
    text = f"{row['author']}, {row['title']}"
    for part in (found.place, found.year or row["year"]):
        if part and part not in text:
            text += f", {part}"
    return f"{text}; {known}"
