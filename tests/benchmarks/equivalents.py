"""Faults that no test can see, each with its reason: `equivalent.csv`, by module, line and change."""

from __future__ import annotations

import ast
import csv
import functools
from pathlib import Path
from typing import Dict, List, NamedTuple, Tuple

from tests.benchmarks.faults import ROOT

FILE = Path(__file__).with_name("equivalent.csv")
KINDS = ("start", "speed", "rounding", "limit", "unreached", "same answer", "words")
"""What a reason begins with, before its colon; the file's head says what each means."""


class Entry(NamedTuple):
    """One fault that changes nothing anybody can see."""

    module: str
    function: str
    code: str
    change: str
    reason: str

    @property
    def kind(self) -> str:
        """What sort of reason it is."""
        return self.reason.partition(":")[0]


@functools.cache
def entries() -> Tuple[Entry, ...]:
    """All of them, in the order of the file."""
    with FILE.open(encoding="utf-8", newline="") as lines:
        return tuple(Entry(**row) for row in csv.DictReader(line for line in lines if not line.startswith("#")))


def by_words() -> Dict[Tuple[str, str], Entry]:
    """Each under its module and the words that a fault goes by."""
    return {(entry.module, f"{entry.code} : {entry.change}"): entry for entry in entries()}


def stale() -> List[Entry]:
    """Those whose line is no longer in its function, or no longer holds what is changed."""
    return [entry for entry in entries() if not _stands(entry)]


def _stands(entry: Entry) -> bool:
    old = entry.change.partition(" -> ")[0].partition("\n")[0]
    return entry.code in _lines(entry.module).get(entry.function, ()) and old.strip() in entry.code


@functools.cache
def _lines(module: str) -> Dict[str, List[str]]:
    """The lines of each function and method by name, and under "" those of the whole module."""
    path = ROOT / (module.replace(".", "/") + ".py")
    if not path.exists():
        path = path.with_suffix("") / "__init__.py"
    if not path.exists():
        return {}
    text = path.read_text(encoding="utf-8")
    lines = [line.strip() for line in text.splitlines()]
    found = {"": lines}
    for node in ast.walk(ast.parse(text)):
        for inner in ast.iter_child_nodes(node):
            if isinstance(inner, ast.FunctionDef):
                name = f"{node.name}.{inner.name}" if isinstance(node, ast.ClassDef) else inner.name
                found.setdefault(name, []).extend(lines[inner.lineno - 1 : inner.end_lineno])
    return found
