"""How long something was frozen at -20 °C or below, as a text tells it.

One idea: this lets fish pass that is eaten raw, so it has to be told in full and as done: a frost, its warmest figure
and its shortest time, in one text that takes nothing back. The words are common practice, no source.
"""

from __future__ import annotations

import re

_READ = 300  # characters in which words of frost are looked for
_FROZEN = re.compile(r"\b(?:frozen|froze)\b")
_NOT_DONE = re.compile(r"\b(?:not|never|no|to be|must|should|will)\b")
_COLD = re.compile(r"(-\d+(?:\.\d+)?) ?°? ?([cf]?)\b")
_TIME = re.compile(r"(?<![-\d.,])(\d+(?:[.,]\d+)?) ?(h|d|w)(?:(?:ou)?rs?|ays?|(?:ee)?ks?|)\b")
_WEEK = re.compile(r"\b(?:a|one) week\b|\bseven days\b")
_HOURS = {"h": 1.0, "d": 24.0, "w": 7 * 24.0}
WARMEST = -20.0
"""°C, the warmest frost of the rules on fish: limits.csv has how long it takes."""


def hours_in(text: str) -> float:
    """Hours of such a frost that the text tells of; 0 where it tells of none."""
    plain = text[:_READ].casefold().replace("−", "-").replace("minus ", "-")
    if not _FROZEN.search(plain) or _NOT_DONE.search(plain):
        return 0.0
    cold = [(float(figure) - 32.0) / 1.8 if scale == "f" else float(figure) for figure, scale in _COLD.findall(plain)]
    times = [float(figure.replace(",", ".")) * _HOURS[unit] for figure, unit in _TIME.findall(plain)]
    times += [_HOURS["w"]] * len(_WEEK.findall(plain))
    return min(times) if cold and times and max(cold) <= WARMEST else 0.0
