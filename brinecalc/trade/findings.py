"""What is wrong with a production row: every rule of the table of findings put to it, the worst first.

One idea: the rules are rows of ``tables/findings.csv`` with their sentence, what to do, source and jurisdiction;
code only says when each applies. Nothing here permits anything: rules change, and the local code and a licensed
process come first.
"""

from __future__ import annotations

from functools import cache
from typing import Any, List, NamedTuple, Sequence, Tuple

from brinecalc import told
from brinecalc.names import Names, fold
from brinecalc.tables import load
from brinecalc.trade import citing, row_reading, rules
from brinecalc.trade.limits import RECHECK
from brinecalc.trade.row import Row
from brinecalc.trade.rules.condition import Condition, Words

SEVERITIES = ("STOP", "CAUTION", "NOTE")
OK = "ok"
_MEASURES = frozenset(("mass", "water", "length", "temperature", "volume"))
_US = frozenset(map(fold, ("US", "US units", "US customary", "imperial", "inches and pounds")))
"""What may stand under "figures in" where sentences are to name US units first."""


class Rule(NamedTuple):
    """One rule, as the table has it."""

    id: str
    severity: str
    subject: str
    condition: str
    sentence: str
    todo: str
    source: str
    jurisdiction: str

    def says(self, words: Words) -> str:
        """The sentence and what to do, with the row's own words filled in."""
        return f"{self.sentence.format(**words)} {self.todo.format(**words)}"


class Finding(NamedTuple):
    """One thing found in a row."""

    rule: Rule
    severity: str
    subject: str
    sentence: str

    @property
    def text(self) -> str:
        """The finding as one cell shows it."""
        return f"{self.severity} {self.subject}: {self.sentence}"

    @property
    def source(self) -> str:
        """Where the rule comes from, whose it is, and how it is known."""
        return cite(self.rule)


@cache
def table() -> Tuple[Rule, ...]:
    """Every rule, the worst severity first and within it in the order of the table."""
    made = [Rule(**row) for row in load.rows("findings")]
    return tuple(sorted(made, key=lambda rule: SEVERITIES.index(rule.severity)))


@cache
def ids() -> Names[Rule]:
    """Every rule under its id."""
    return Names("finding", [(rule.id, (), rule) for rule in table()])


@cache
def _applied() -> Tuple[Tuple[Rule, Condition], ...]:
    """Each rule with its condition; a rule without one, or a condition without a rule, is a mistake."""
    known = rules.conditions()
    ids = {rule.id for rule in table()}
    if ids != set(known):
        raise ValueError(f"findings and conditions differ: {sorted(ids ^ set(known))}")
    return tuple((rule, known[rule.id]) for rule in table())


def worst(headings: Sequence[Any], values: Sequence[Any]) -> str:
    """The worst finding of a row as one text, ``ok`` when there is none."""
    row = row_reading.read(headings, values)
    for rule, applies in _applied():
        for words in applies(row):
            return _finding(row, rule, words).text
    return OK


def all_of(headings: Sequence[Any], values: Sequence[Any]) -> List[Finding]:
    """Every finding of a row, the worst first."""
    row = row_reading.read(headings, values)
    return [_finding(row, rule, words) for rule, applies in _applied() for words in applies(row)]


def cite(rule: Rule) -> str:
    """A rule's source with its jurisdiction, and the call to recheck where it is somebody's rule."""
    text = citing.cite(rule.source)
    if rule.jurisdiction == "any":
        return text
    return f"{rule.jurisdiction}: {text}" + ("" if RECHECK in text else f"; {RECHECK}")


def _finding(row: Row, rule: Rule, words: Words) -> Finding:
    says = rule.says(words)
    says = told.us_first(says) if " / " in says and _is_in_us_units(row) else says
    return Finding(rule, rule.severity, words.get("subject", rule.subject), says)


def _is_in_us_units(row: Row) -> bool:
    """Whether a row is written in US units, by its own word for that or by a unit of its headings and cells."""
    if row.text("figures in"):
        return fold(row.text("figures in")) in _US
    units = [
        column.unit or told.unit_of(row.typed[column.at]) for column in row.plan.columns if column.kind in _MEASURES
    ]
    return any(map(told.is_us, units))
