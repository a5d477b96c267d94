"""How long something was frozen at -20 °C or below, as a text tells it.

One idea: this lets fish pass that is eaten raw, so it has to be told in full and as done: a frost, its warmest figure,
and right beside that its shortest time, in one text that takes nothing back and speaks of no other time, as "use
within" does. The words are common practice, no source.
"""

from __future__ import annotations

import re
from typing import List

_READ = 300  # characters in which words of frost are looked for
_FROZEN = re.compile(r"\b(?:frozen|froze)\b")
_NOT_DONE = re.compile(
    r"\b(?:not|never|no|to be|must|should|will|can|may|could|if|within|ago|used?|life|thaw\w*|keeps?|best|expir\w*"
    r"|up to|at most|max\w*|less than|about|old)\b"
)
"""What takes it back, leaves it open, or speaks of the time of something else."""
_COLD = re.compile(
    r"(?P<at>\b(?:at|below|to) )?(?<![\d.,])(?<!\d )-(?P<figure>\d+(?:\.\d+)?)(?![\d-])"
    r"(?P<scale> ?[°º]? ?(?P<f>f)(?:ahrenheit)?\b| ?[°º]? ?c(?:elsius|entigrade)?\b| ?(?:[°º]|degrees?\b|deg\b))?"
)
_TIME = re.compile(
    r"(?<![-\d.,])(?:(?P<figure>\d+(?:[.,]\d+)?) ?(?P<unit>h|d|w)(?:(?:ou)?rs?|ays?|(?:ee)?ks?|)|(?:a|one) week"
    r"|seven days)\b"
)
_TOLD = re.compile(
    r"<cold>(?: or (?:below|colder|lower|less))?,? (?:for )?(?:at least |more than )?<time>"
    r"|<time>(?: in the freezer)?,? <cold>"
)
_HOURS = {"h": 1.0, "d": 24.0, "w": 7 * 24.0}
WARMEST = -20.0
"""°C, the warmest frost of the rules on fish: limits.csv has how long it takes."""


def hours_in(text: str) -> float:
    """Hours of such a frost that the text tells of; 0 where it tells of none."""
    plain = text[:_READ].casefold().replace("−", "-").replace("minus ", "-")
    if not _FROZEN.search(plain) or _NOT_DONE.search(plain):
        return 0.0
    cold: List[float] = []
    times: List[float] = []

    def a_cold(found: "re.Match[str]") -> str:
        figure = -float(found["figure"])
        cold.append((figure - 32.0) / 1.8 if found["f"] else figure)
        return "<cold>" if found["at"] or found["scale"] else "<number>"

    def a_time(found: "re.Match[str]") -> str:
        times.append(
            float(found["figure"].replace(",", ".")) * _HOURS[found["unit"]] if found["figure"] else _HOURS["w"]
        )
        return "<time>"

    told = _TOLD.search(_TIME.sub(a_time, _COLD.sub(a_cold, plain)))
    return min(times) if told and max(cold) <= WARMEST else 0.0
