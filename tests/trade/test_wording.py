"""A figure and the limit that it passes are told apart."""

from __future__ import annotations

from brinecalc.trade.findings import all_of
from tests.trade.cases import CURED

# (row, time typed, limit)
CLOSE = [
    ({"product": "chicken breast", "soak hours": 8.01}, "8.01 h", "8 h"),
    ({"product": "chicken breast", "bath temperature": 9.0, "soak hours": 4.003}, "4.003 h", "4 h"),
    ({**CURED, "cure method": "pumped", "gain": 0.1, "rest hours": 11.98}, "11.98 h", "12 h"),
    ({**CURED, "thickness": 25.4, "soak hours": 95.95}, "3.998 days", "4 days"),
    ({"product": "chicken breast", "brine age": "7.002 d"}, "7.002 days", "7 days"),
    ({"product": "chicken breast", "strength": 0.02, "soak hours": 100.0, "rest hours": 68.1}, "7.004 days", "7 days"),
]


def test_two_times_of_a_sentence_never_look_alike():
    for row, typed, limit in CLOSE:
        said = [finding.sentence for finding in all_of(tuple(row), tuple(row.values()))]
        assert any(typed in words and limit in words.replace(typed, "") for words in said), (row, said)
