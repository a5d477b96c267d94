"""Worksheet functions of the family "Label, limits, sources": sodium, added solution, checks, limits and their origin.

One idea: a number that matters can always be asked where it comes from, and a row that could harm someone says so
before anything is weighed. The rules are read on first use: they are half the house, and few calls need them.
"""

from __future__ import annotations

from typing import Any, List, Optional, Tuple

from brinecalc import catalogue
from brinecalc.catalogue import worksheet_function
from brinecalc.errors import BrineError, Unreadable
from brinecalc.trade import labels as _labels
from brinecalc.trade import limits

FAMILY = "Label, limits, sources"


@worksheet_function(family=FAMILY)
def sodium(
    serving: float,
    salt_share: float,
    rounding: str = "none",
    ingredients: Optional[Tuple[Any, ...]] = None,
    shares: Optional[Tuple[Any, ...]] = None,
) -> float:
    """Milligrams of sodium in a serving, from salt and from the other sources given.

    Parameters
    ----------
    serving : mass
        Weight of the serving [g]; above 0. Example: 150.
    salt_share : share
        Salt in the finished product, without the ingredients below; 0 is allowed [-]; at least 0, below 1.
        Example: 1.2%.
    rounding : {none, US}
        US rounds as a nutrition label does: below 5 mg to 0, up to 140 to the nearest 5, above to the nearest 10 [-].
    ingredients : column
        Other sources of sodium by name: phosphates, baking soda, soy sauce, curing salt [-].
    shares : column
        Their shares of the finished product, in the same order [-].

    Returns
    -------
    number
        Sodium in the serving [mg]; the raw meat's own sodium counts too, so put its salt into salt_share.

    Notes: It is serving·share·393.37 mg/g, and each other ingredient by the sodium in the ingredient table. Do not name
    the salt of salt_share again. What is lost in cooking is not taken off.
    Sources: atomic-masses, 21cfr-101.9
    Examples
    --------
    >>> round(sodium(100, 0.01), 2)
    393.37
    >>> sodium(100, 0.01, "US")
    390.0
    """
    if (ingredients is None) != (shares is None):
        missing = "shares" if shares is None else "ingredients"
        raise Unreadable("is missing", argument=missing, advice="give ingredients and shares together, or neither")
    others = _labels.sources(ingredients, shares) if ingredients is not None and shares is not None else ()
    milligrams = _labels.sodium(serving, salt_share, others)
    return _labels.rounded(milligrams) if rounding == "US" else milligrams


@worksheet_function(family=FAMILY)
def added_solution(green: float, finished: float) -> float:
    """Added solution as a share of the raw weight, as the label of a raw product states it.

    Parameters
    ----------
    green : mass
        Raw weight before the solution went in [g]; above 0. Example: 5 kg.
    finished : mass
        Weight with the solution in it, at least the green weight [g]; above 0. Example: 5.6 kg.

    Returns
    -------
    share
        Weight of the solution over the raw weight [-]; 12 % for 5 kg that became 5.6 kg.

    Notes: US names of raw products with added solution state this per cent and list the ingredients in falling order;
    recheck, rules change, and defer to your local code.
    Sources: 9cfr-317.2
    Examples
    --------
    >>> round(added_solution(5000, 5600), 10)
    0.12
    """
    return _labels.added_solution(green, finished)


@worksheet_function(family=FAMILY)
def check(headings: Tuple[Any, ...], values: Tuple[Any, ...]) -> str:
    """Worst finding of a production row; ok when the rules find nothing.

    Parameters
    ----------
    headings : column
        Heading row: product, weight, method, water, strength, ingredient, level, cure and so on, in any order [-].
    values : column
        The row to check, as many cells as headings; write IFERROR(cell,"error") round computed cells [-].

    Returns
    -------
    text
        ok, or STOP, CAUTION or NOTE with the column it is about, what is wrong and what to do [-].

    Notes: A text error reads as CAUTION, and as STOP in a column of the cure; never write IFERROR(cell,""), which
    would hide a refused cure. Missing columns are allowed; what is missing is not checked. A value under a heading
    that is not known gives a NOTE; head your own remarks note, batch, date, cook or cost. ok means that these rules
    found nothing, not that the batch is safe: it computes, it does not permit. Defer to your local code and licensed
    practice.
    Sources: 9cfr-424.21, 9cfr-424.22, food-code, fda-hazards, common-practice, judgement
    Examples
    --------
    >>> check(("product", "bath temperature"), ("chicken breast", 4))
    'ok'
    >>> check(("liquid", "cure"), ("cola", 10))[:10]
    'STOP cure:'
    """
    from brinecalc.trade.findings import worst

    return worst(headings, values)


@worksheet_function(family=FAMILY)
def findings(headings: Tuple[Any, ...], values: Tuple[Any, ...]) -> List[List[str]]:
    """All findings of a production row as a table, the worst first.

    Parameters
    ----------
    headings : column
        Heading row: product, weight, method, water, strength, ingredient, level, cure and so on, in any order [-].
    values : column
        The row to check, as many cells as headings; write IFERROR(cell,"error") round computed cells [-].

    Returns
    -------
    table
        Severity, subject, sentence, source; one row that begins with ok when there is no finding [-].

    Notes: The same rules as BRINE_CHECK. It computes, it does not permit; recheck the rules named, they change.
    Sources: 9cfr-424.21, 9cfr-424.22, food-code, fda-hazards, common-practice, judgement
    Examples
    --------
    >>> findings(("product", "bath temperature"), ("chicken breast", 4))
    [['ok', '', '', '']]
    """
    from brinecalc.trade.findings import OK, all_of

    found = all_of(headings, values)
    return [[f.severity, f.subject, f.sentence, f.source] for f in found] or [[OK, "", "", ""]]


@worksheet_function(family=FAMILY)
def limit(limit: str, rules: Optional[str] = None) -> float:
    """A legal or safety limit, a custom or a constant, as a number.

    Parameters
    ----------
    limit : name
        Name of the limit: nitrite pumped bacon, phosphate, brine temperature, texture ph low … [-].
        Example: "nitrite pumped".
    rules : {US, EU, Codex, any}
        Whose limit; left out, the US one, else the one that holds everywhere [-].

    Returns
    -------
    number
        The figure in its own unit, which BRINE_SOURCE names: share, ppm, °C, h, pH, mg [-].

    Notes: Kept exactly as the rule gives it (156.25 ppm, 15.5556 °C for 60 °F). Recheck, rules change; some rows are
    from memory, and BRINE_SOURCE says which. Defer to your local code.
    Sources: 9cfr-424.21, 9cfr-424.22, fda-growth, eu-2023-2108, common-practice
    Examples
    --------
    >>> limit("nitrite pumped bacon")
    120.0
    >>> limit("nitrite ion", "EU")
    80.0
    """
    return limits.find(limit, rules).value


@worksheet_function(family=FAMILY)
def source(topic: str) -> str:
    """Where a number comes from, and how far it can be trusted.

    Parameters
    ----------
    topic : text
        Function, limit, constant, product, ingredient, finding or source by its name [-]. Example: "SOAK_HOURS".

    Returns
    -------
    text
        Author, title, year, place and how it is known; for limits whose rule, and the call to recheck [-].

    Notes: "From memory" means that nobody looked it up; "common practice" means that there is no source.
    Sources: definition
    Examples
    --------
    >>> source("texture ph low")
    'Brine pH below which meat turns mealy and chalky: at least pH 4.8; common practice, no source.'
    >>> source("usda-sr27").startswith("United States Department of Agriculture")
    True
    """
    from brinecalc.trade import topics

    told = topics.about(topic) + _of_function(topic)
    if not told:
        raise topics.unknown(topic, catalogue.names())
    return " ".join(told)


def _of_function(topic: str) -> List[str]:
    """The sources of the worksheet function of that name."""
    from brinecalc.trade import citing

    try:
        spec = catalogue.spec(topic)
    except BrineError:
        return []
    return [f"{spec.name}: " + ". ".join(citing.cite(key) for key in spec.sources) + "."]
