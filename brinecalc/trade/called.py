"""What a name of food says once the names that only sound like something else are taken for what they are.

One idea: turkey tail is a mushroom, lamb's lettuce a leaf and rock salmon no salmon, so each such phrase is put down as
the plain word of what is meant before anybody listens for turkeys, lambs and salmon. The phrases are common practice,
no source.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import Dict

from brinecalc.trade.hazards import words_in

_MEANT = {
    "mushroom": (
        "turkey tail", "chicken of the woods", "hen of the woods", "chicken mushroom", "lobster mushroom",
        "pheasant back mushroom", "pheasant's back", "pig's ear mushroom", "pig's ear fungus", "hare's foot",
        "beefsteak fungus", "beefsteak mushroom", "wolf's milk", "ox tongue fungus", "horse mushroom",
    ),
    "leaf": (
        "lamb's lettuce", "lamb lettuce", "lamb's quarters", "bear garlic", "bear's garlic", "bear leek", "bear's leek",
        "bear onion", "bear's onion", "sheep sorrel", "sheep's sorrel", "bison grass", "buffalo grass", "fish mint",
        "ox eye daisy", "horse mint", "cow parsley",
    ),
    "root": ("duck potato", "bear root", "turkey rhubarb", "horse radish"),
    "fruit": (
        "ox heart tomato", "ox heart tomatoes", "ox heart cabbage", "turkey berry", "partridge berry", "grouse berry",
        "buffalo berry", "bear berry", "fish pepper", "hog plum", "goose berry", "fox grape", "dog rose", "fox nut",
        "horse chestnut", "cow berry", "wolf berry", "crab apple",
    ),
    "bean": ("pigeon pea", "cow pea", "horse bean", "horse gram", "turtle bean", "hog peanut"),
    "sweet": ("gummy bear", "bear claw", "swedish fish", "horse cake"),
    "cheese": ("welsh rabbit",),
    "sausage": ("hot dog", "corn dog"),
    "tripe": ("honeycomb tripe",),
    "chicken": ("buffalo wing",),
    "fish": (
        "rock salmon", "australian salmon", "bombay duck", "turkey fish", "wolf fish", "sea wolf", "dog fish",
        "hog fish",
        "goat fish", "goose fish", "rabbit fish", "needle fish", "wolf herring", "wolf eel", "jack salmon",
    ),
    "mackerel": ("horse mackerel", "chub mackerel"),
    "trout": ("salmon trout",),
    "flatfish": ("yellowfin sole",),
    "bream": ("yellowfin bream",),
    "trevally": ("bluefin trevally",),
    "salmon": ("dog salmon",),
    "shellfish": ("goose barnacle", "horse clam", "horse mussel"),
}  # fmt: skip
"""The plain word, and what sounds like something else."""
_FOOD_OF = re.compile(
    r" (?:chicken|duck|goose|turkey|hen|quail|ostrich|pheasant|pigeon|goat|buffalo|sheep|ewe|cow|camel|yak)(?: s)?"
    r"(?= (?:egg|yolk|milk|cheese|mozzarella|ricotta|feta|butter|cream|yogh?urt|curd) )"
)
"""An animal whose food is meant and not its meat."""


@lru_cache(maxsize=1024)
def heard(text: str) -> str:
    """The words of a name as `words_in` gives them, each phrase that only sounds like something else in plain words."""
    said = words_in(text)
    for phrase, plain in _plain_words().items():
        if phrase in said:
            said = said.replace(phrase, f" {plain} ")
    return _FOOD_OF.sub("", said)


@cache
def _plain_words() -> Dict[str, str]:
    return {words_in(phrase): plain for plain, phrases in _MEANT.items() for phrase in phrases}


__all__ = ["heard"]
