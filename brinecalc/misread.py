"""Why a text is not a quantity, and what to type instead.

One idea: a refusal is only kind if it shows the way out, so each likely slip (a thousands mark, a hidden
character, a purchasing fraction, a unit of another kind) has its own sentence. Nothing here computes a value.
"""

from __future__ import annotations

import re
import unicodedata
from typing import Callable, Optional, Union

from brinecalc import units
from brinecalc.errors import Unreadable
from brinecalc.units import Unit

_WANTED = {
    "mass": ("a mass", "2.5 kg or 3 lb 4 oz"),
    "water": ("a mass or volume of water", "2 L, 1 gal or 5 kg"),
    "length": ("a length", "25 mm or 1 in"),
    "time": ("a time", "4 h or 90 min"),
    "temperature": ("a temperature", "4 °C or 40 °F"),
    "volume": ("a volume", "500 mL or 2 cups"),
    "share": ("a share", "5% or 0.05"),
    "count": ("a count", "12 each or 2 dozen"),
    "number": ("a number", "12.5"),
    "": ("a number, with a unit or without", "2.5 kg"),
}
_BY_UNIT = {
    ("oz", "volume"): "for fluid ounces write fl oz",
    ("°C", "volume"): "for cups write cup",
    ("°C", "mass"): "for cups write cup, and weigh them",
    ("°C", "water"): "for cups write cup",
    ("m", "time"): "for minutes write min",
    ("min", "length"): "for metres write m",
}
_BY_KIND = {
    ("volume", "mass"): "give its weight; BRINE_WEIGHT turns a measure of an ingredient into grams, but never of curing"
    " salt; a brine weighs its mL times BRINE_DENSITY",
    ("mass", "volume"): "measure it, or turn it into mL with BRINE_VOLUME",
    ("mass", "share"): "give its share, such as 5% or 0.05",
}
_THOUSANDS = re.compile(r"(?<![0-9.,])([0-9]{1,3})([,'’ ])([0-9]{3})(?![0-9/]|[½⅓⅔¼¾])")
_MARKS = re.compile(r"(?<=[0-9])[,'’ ](?=[0-9]{3}(?![0-9]))")
_RATIO = re.compile(r" *([0-9]{1,6}(?:\.[0-9]{1,6})?) *: *([0-9]{1,6}(?:\.[0-9]{1,6})?) *")
_LETTER = re.compile(r"(?<![A-Za-z])(?:[0-9][0-9.,]*[Oo]+(?![A-Za-z])|[OoIl|][0-9.,]*[0-9])")
"""A letter among digits that looks like one of them."""
_SCALES = {
    "be": "baume", "bé": "baume", "baume": "baume", "baumé": "baume", "bume": "baume",
    "sal": "salometer", "salometer": "salometer", "salinometer": "salometer", "salimeter": "salometer",
    "sg": "sg", "s.g.": "sg", "specific gravity": "sg", "g/l": "g/L", "lb/gal": "lb/gal water",
    "lb/gal water": "lb/gal water", "lb/gal brine": "lb/gal brine",
}  # fmt: skip
"""Scales of a brine's strength that people write behind a figure, by the names that BRINE_CONVERT has for them."""
_ON_SCALE = re.compile(r" *([0-9]{1,4}(?:[.,][0-9]{1,4})?) *(?:°|º|deg(?:rees?)?\b)? *([^\W\d_][^\d_]*?) *")
_ONE_FIGURE = "give one figure, not two"
_TWO = re.compile(
    r"[0-9] {0,9}[a-z°%‰\"]{0,9} {0,9}(?:\b(?:or|to|and|oder|und|bis)\b|;|\.\.|…|(?<![0-9 ]) {0,9}/(?! {0,9}10{1,3}\b))"
    r" {0,9}[0-9]",
    re.IGNORECASE,
)
"""A figure and another, in the place of one: "2 kg or 3 kg", "2 kg/3 kg"; what is taken by the hundred is none."""
_CURRENCY = re.compile(r"[$€£¥₹¢]")


def as_per_cent(value: float, most: float = 1.0) -> str:
    """The advice for a share of 1 or more, which most likely was meant in per cent, if that is no more than `most`."""
    if value > 100.0 * most:  # nor was this meant in per cent
        return example("share") + (", never above 100 %" if value > 100.0 else "")
    return f"write {value:.6g}% or {value / 100.0:.6g} for {value:.6g} per cent"


def knows(dimension: str) -> bool:
    """Whether the dimension is one that quantities are read in."""
    return dimension in _WANTED and dimension not in ("", "number")


def wanted(dimension: str) -> str:
    """The kind of quantity in words: "a mass"."""
    return _WANTED[dimension][0]


def example(dimension: str) -> str:
    """An advice that shows how such a quantity is written."""
    return f"write it as {_WANTED[dimension][1]}"


def is_ambiguous(plain: str) -> bool:
    """Whether a comma, space or apostrophe could be a thousands mark as well as something else."""
    match = _THOUSANDS.search(plain)
    return match is not None and (match[2] != "," or int(match[1]) > 0)


def refusal(dimension: str, advice: Union[str, Callable[[], str]]) -> Unreadable:
    """The error itself; the value given and the argument are filled in where they are known."""
    return Unreadable(f"must be {wanted(dimension)}", advice=advice)


def too_long(text: str, dimension: str) -> Unreadable:
    """The error for a text that is longer than any quantity."""
    error = refusal(dimension, f"that text is too long to be a quantity, so {example(dimension)}")
    error.got = f"{len(text)} characters"
    return error


def explain(plain: str, dimension: str) -> Unreadable:
    """The error for a text that the pattern does not match, by the likeliest slip."""
    return refusal(dimension, _on_scale(plain, dimension) or _slip(plain, dimension) or example(dimension))


def _slip(plain: str, dimension: str) -> Optional[str]:
    if not plain:
        return None
    if any(unicodedata.category(c) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp") for c in plain):
        return "it holds a hidden character (a line break, tab or direction mark), so type it afresh"
    if any(c.isdigit() and not "0" <= c <= "9" and c not in "²³¹" for c in plain):
        return "write the digits as 0 to 9"
    if _LETTER.search(plain):
        return "it holds a letter that looks like 0 or 1, so type the number afresh in figures"
    if _CURRENCY.search(plain):
        return "write the number without the currency sign"
    match = _THOUSANDS.search(plain)
    if match is not None and is_ambiguous(plain):
        return _either_way(plain, match)
    if re.search(r"[0-9][.,][0-9]+[.,][0-9]", plain):
        return "use one decimal mark and no thousands marks, such as 1234.5"
    if re.search(r"[0-9] *: *[0-9]", plain):
        return _with_colon(plain, dimension)
    several = _several(plain)
    if several or re.search(r"[0-9][eE][-+]?[0-9]", plain):
        return several or "that number is too large or too small to be a quantity"
    if re.search(r"[a-z°] *[0-9.,]+$", plain, re.IGNORECASE) and plain[0].isdigit():
        return "write a unit after each number, such as 3 lb 4 oz"
    return None


def _several(plain: str) -> str:
    """What to say of two figures or a range; empty for any other text."""
    if _TWO.search(plain):
        return _ONE_FIGURE
    return "give one number, not a range" if re.search(r"[0-9] *[-–—] *[0-9]", plain) else ""


def _on_scale(plain: str, dimension: str) -> str:
    """How a strength on the scale of an instrument is turned into a share; empty for what is on none."""
    match = _ON_SCALE.fullmatch(plain) if dimension == "share" else None
    scale = _SCALES.get(match[2].casefold()) if match else None
    if match is None or scale is None:
        return ""
    return f'turn it into a share with BRINE_CONVERT({match[1].replace(",", ".")},"{scale}","water")'


def _with_colon(plain: str, dimension: str) -> str:
    """A clock time, or a ratio where a number is wanted."""
    ratio = _RATIO.fullmatch(plain)
    if dimension in ("", "number") and ratio and float(ratio[2]) > 0.0:
        return f"write a ratio as one number: {float(ratio[1]) / float(ratio[2]):.4g} for {ratio[0].strip()}"
    return "write a time as 1 h 30 min"


def _either_way(plain: str, match: re.Match[str]) -> str:
    """Both ways to write a number whose comma or space may be a thousands mark or a decimal one."""
    without = _MARKS.sub("", plain)
    if match[2] != "," or without != plain.replace(match[0], match[1] + match[3], 1) or "." in plain:
        return f'thousands have no mark here, so write "{without}"'
    decimals = plain.replace(match[0], f"{match[1]}.{match[3]}", 1)
    return f'thousands or decimals? Write "{without}" or "{decimals}"'


def two_figures(dimension: str) -> Unreadable:
    """The error for two figures in the place of one."""
    return refusal(dimension, _ONE_FIGURE)


def fraction(plain: str, dimension: str, top: int, bottom: int) -> Unreadable:
    """The error for a fraction that is not below one, or might be two figures: a slip, or a pack such as 6/1 gal."""
    if 0 < top < bottom:
        return refusal(dimension, f"two figures, or a fraction? Write one of them, or {top / bottom:.3g}")
    return refusal(dimension, "write a fraction as 1/2 or 1 1/2, and a pack as 6 x 1 gal")


def no_unit(name: str, plain: str, dimension: str) -> Unreadable:
    """The error for a unit that the table does not hold."""
    return refusal(dimension, lambda: _no_unit(name, plain, dimension))


def _no_unit(name: str, plain: str, dimension: str) -> str:
    return _on_scale(plain, dimension) or _slip(plain, dimension) or _instead(name, plain, dimension)


def _instead(name: str, plain: str, dimension: str) -> str:
    """What to write instead of a unit that the table does not hold; it may be a misspelt one of another kind."""
    if ("/" in name or "." in name) and units.fold(name.strip("/. ")) in ("", "and"):
        return example(dimension)
    if knows(dimension) and not units.unclear(name) and not units.nearest(name, dimension):
        for other in units.nearest(name, "any", units.PLAIN)[:1]:
            found = units.unit(other)
            return f'did you mean "{other}"? That makes it {wanted(found.dimension)}; {_way(found, dimension)}'
    return units.advice(name, dimension, plain)


def wrong_kind(found: Optional[Unit], dimension: str) -> Unreadable:
    """The error for a quantity of another kind than the one asked for."""
    if found is None:
        return refusal(dimension, example(dimension))
    return refusal(dimension, f"{found.name} makes it {wanted(found.dimension)}; {_way(found, dimension)}")


def _way(found: Unit, dimension: str) -> str:
    """What to give instead of a quantity in a unit of another kind."""
    way = _BY_UNIT.get((found.name, dimension)) or _BY_KIND.get((found.dimension, dimension))
    return way or f"give {wanted(dimension)} such as {_WANTED[dimension][1]}"


def unlike(start: Unit, end: Unit) -> Unreadable:
    """The error for a conversion between kinds."""
    way = "choose two units of one kind"
    if {start.dimension, end.dimension} == {"mass", "volume"}:
        way = "use BRINE_WEIGHT or BRINE_VOLUME, which know how much a cup of an ingredient weighs"
    rule = f"must be a unit of the same kind as {start.name} ({wanted(start.dimension)})"
    return Unreadable(rule, argument="to_unit", got=units.quoted(end.name), advice=way)


def unlike_parts(plain: str, larger: Unit, smaller: Unit) -> Unreadable:
    """The error for parts that do not add up to one quantity."""
    if larger is smaller:
        way = _ONE_FIGURE
    elif larger.dimension == smaller.dimension:
        way = "put the larger unit first and name each once, such as 3 lb 4 oz"
    else:
        way = f"{larger.name} is {wanted(larger.dimension)} and {smaller.name} {wanted(smaller.dimension)}"
    return Unreadable("must be one quantity", advice=way)
