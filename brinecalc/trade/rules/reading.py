"""When a row was not, or not wholly, understood.

One idea: whatever was not read was not checked, and a sheet that looks fine for that reason is the worst of all; so
each such cell is named.
"""

from __future__ import annotations

from typing import List

from brinecalc.trade import denials, ingredients, methods, named, not_guessed, products
from brinecalc.trade.row import Row, Thing
from brinecalc.trade.rules.condition import NOTHING, Hits, condition

_ASKED_ABOUT = frozenset(("unclear", "sulphite"))
"""Hazards that have a finding of their own, so that nobody is told to ask the maker how much to use."""
_SOUR = {
    "or_else": " or an acerola powder that brings ascorbic acid",
    "way": "for the one, acerola powder for the other, dried cherries for mere fruit",
}
_DENIED = {
    "or_else": ", though it is said to have none",
    "way": "where that names nitrite, celery, chard or a culture, else its plain name",
}
"""What to say of a name that is unclear, as it may be sour, or as it denies what it may bring."""


@condition("cell-error")
def _error(row: Row) -> Hits:
    return [{"heading": column.name, "subject": column.name} for column in row.errors if not column.cure]


@condition("cell-unreadable")
def _unreadable(row: Row) -> Hits:
    return [
        {
            "heading": unread.column.name.capitalize() if unread.column.kind != "ph" else "pH",
            "text": f'"{unread.text}"', "reason": unread.sentence,
            "subject": unread.column.name, "way": "Write it anew." if unread.is_bare else "Nothing in it was checked.",
        }
        for unread in row.unread
        if not unread.column.cure
    ]  # fmt: skip


@condition("product-unknown")
def _product(row: Row) -> Hits:
    text = row.text("product")
    if not text or row.group:
        return NOTHING
    return ({"text": f'"{text[:40]}"', "near": _near(products.names().nearest(text[:60], 2))},)


@condition("product-plant")
def _plant(row: Row) -> Hits:
    what = "a vegetable" if row.is_plant else "a cheese that ripens" if row.is_ripened else ""
    return ({"text": f'"{row.text("product")[:40]}"', "what": what},) if what else NOTHING


@condition("method-unknown")
def _method(row: Row) -> Hits:
    text = row.text("method")
    if not text or methods.is_known(text):
        return NOTHING
    meant = methods.meant(text)
    return ({"text": f'"{text[:40]}"', "meant": f", which may mean {meant}" if meant else ""},)


@condition("method-two-ways")
def _two_ways(row: Row) -> Hits:
    text = row.text("method")
    return ({"text": f'"{text[:40]}"'},) if len(methods.ways(text)) > 1 else NOTHING


@condition("treatment-unknown")
def _treatment(row: Row) -> Hits:
    text = row.text("treatment")
    meant = methods.treatment_meant(text)
    return ({"text": f'"{text[:40]}"', "meant": meant},) if meant else NOTHING


@condition("name-unclear")
def _unclear(row: Row) -> Hits:
    return [
        {
            "name": f'"{thing.text[:40]}"',
            "subject": thing.heading,
            **(_DENIED if denials.without_cure(thing.text) else _SOUR),
        }
        for thing in row.things
        if "unclear" in thing.what.hazards
    ]


@condition("ingredient-unknown")
def _ingredient(row: Row) -> Hits:
    return [
        {
            "name": f'"{thing.text[:40]}"', "near": _near(_alike(thing)),
            "subject": thing.heading, "way": _way_on(thing),
        }
        for thing in row.things
        if not thing.what.is_known and not thing.what.hazards & _ASKED_ABOUT
    ]  # fmt: skip


def _way_on(thing: Thing) -> str:
    """What to do with an ingredient that is in no table."""
    if "preservative" in thing.what.hazards:
        law = "It is a preservative: the law of your place and its label rule where it may go in, and how much."
        return f"{law} {not_guessed.PRESERVATIVE.capitalize()}."
    if denials.without_cure(thing.text):
        return f"It says that it has no nitrite: {not_guessed.NO_NITRITE}."
    return "Correct the name, or ask whoever makes it how much to use."


def _alike(thing: Thing) -> List[str]:
    """The known names nearest to an unknown one; of a curing salt only curing salts, never mere salt."""
    near = ingredients.names().nearest(thing.text[:60], 2)
    return [name for name in near if named.find(name).is_cure] if thing.what.is_cure else near


@condition("heading-unknown")
def _heading(row: Row) -> Hits:
    return [{"heading": f'"{found.shown[:40]}"', "like": found.like} for found in row.passed_over if found.alarming]


@condition("heading-passed-over")
def _passed_over(row: Row) -> Hits:
    return [
        {
            "heading": f'"{found.shown[:40]}"',
            "like": (f'Head it "{found.like}" if that is meant, or' if found.like else "Head it")
            + ' "note" if it is your '
            "own; brinecalc functions CHECK lists the headings",
        }
        for found in row.passed_over
        if not found.alarming
    ]


@condition("heading-names-ingredient")
def _names_ingredient(row: Row) -> Hits:
    return [{"heading": f'"{found.shown[:40]}"'} for found in row.unweighed]


def _near(names: "list[str]") -> str:
    """The nearest known names, as a clause."""
    return f" (nearest: {', '.join(names)})" if names else ""
