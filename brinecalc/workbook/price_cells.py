"""The cells of a price list: a price, a pack, a date, a name, each read strictly or refused with what to write.

One idea: a price that can be read in two ways is not read. A wrong guess at a comma is wrong by a factor of a thousand,
in every workbook at once.
"""

from __future__ import annotations

import datetime
import re
from typing import Optional

from brinecalc import misread
from brinecalc.errors import BrineError
from brinecalc.hosts import days
from brinecalc.trade import costing

FORMULA_SIGNS = ("=", "+", "-", "@", "＝", "＋", "－", "＠", "\t", "\r")
"""What a cell may not begin with: a spreadsheet program would take the rest for a formula."""

MOST = 1_000_000
"""The dearest pack that a workbook takes."""

_CODES = "AUD BGN BRL CAD CHF CNY CZK DKK EUR GBP HKD HUF INR ISK JPY MXN NOK NZD PLN RON SEK SGD TRY USD ZAR".split()
MONEY = re.compile(r"[€$£¥₹]|\b(?:" + "|".join(_CODES) + r")\b")
"""Signs and codes of currencies; a price may carry one."""

# ASCII: digits of other scripts are refused in formulas, and so they are here
_PLAIN = re.compile(r"\d+(?:[.,]\d+)?|[.,]\d+", re.ASCII)
_NUMBER = re.compile(r"\d[\d.,'’ \u00a0\u202f]*", re.ASCII)
_BELOW = re.compile(r"[-−–] ?[\d.,]+|[\d.,]*\d ?[-−–]|\([\d.,]+\)", re.ASCII)
_NOTHING = ("", "-", "–", "—", "n/a", "n.a.", "na", "nil", "tbc", "tba", "?", "on request", "ask")


class Misread(Exception):
    """A cell that cannot be used; the message says what is wrong and what to write."""


def price(text: str, mark: str = ".") -> float:
    """A price of one pack. `mark` is what decimals are surely written with in its list, empty where nothing says it.

    A point that is not surely that mark may mean thousands.
    """
    bare = MONEY.sub("", text, count=1).strip(" \u00a0\u202f")
    if bare.casefold() in _NOTHING:
        told = f" (“{text[:40]}”)" if text else ""
        raise Misread(f"the price is missing{told}; take the row out, or write 0 if it costs nothing")
    if _BELOW.fullmatch(bare):
        raise Misread(f"the price “{text[:40]}” is below 0; write what one pack costs, 0 if it costs nothing")
    refuse_formula(text)
    if mark != "." and re.fullmatch(r"[1-9]\d{0,2}\.\d{3}", bare):
        whole, part = bare.split(".")
        raise Misread(
            f"the price “{text[:40]}”: thousands or decimals? Write {whole}{part}, or {_cents(whole, part, mark or '.')}"
        )
    if not _PLAIN.fullmatch(bare) or misread.is_ambiguous(bare):
        raise Misread(f"the price “{text[:40]}” {_slip(bare)}")
    found = float(bare.replace(",", "."))
    if found > MOST:
        raise Misread(f"the price {found:g} is above {MOST} for one pack")
    return found


def _cents(whole: str, part: str, mark: str) -> str:
    """A number with three decimals in a form that nobody takes for thousands."""
    return f"{whole}{mark}{part.rstrip('0').ljust(2, '0')}" if part.endswith("0") else f"{whole}{mark}{part}0"


def _slip(bare: str) -> str:
    """What is wrong with a price, and how to write it."""
    if re.fullmatch(r"\d{1,3},\d{3}", bare):
        whole, part = bare.split(",")
        return f"is thousands or decimals; write {whole}{part}, or {_cents(whole, part, '.')}"
    if _NUMBER.fullmatch(bare):
        cut = max(bare.rfind("."), bare.rfind(","))
        groups = len(re.findall(r"[.,]", bare)) > 1 and len({c for c in bare if c in ".,"}) == 1
        whole, part = (bare, "") if groups or cut < 0 else (bare[:cut], bare[cut + 1 :])
        digits = re.sub(r"\D", "", whole)
        return f"has a thousands mark; write {digits}.{part}" if part else f"has a thousands mark; write {digits}"
    if MONEY.search(bare):
        return "names more than one currency; write the number alone, such as 11.90"
    number = _NUMBER.search(bare)
    if number is None:
        return "is not a number; write what one pack costs, such as 11.90"
    return f"is more than a number; write the price of one pack alone, such as {number[0].strip(' .,')}"


def money(text: str) -> Optional[str]:
    """The sign or code of the currency that a price carries."""
    found = MONEY.search(text)
    return found[0] if found else None


def currency(text: str) -> Optional[str]:
    """The sign or code that stands alone in a column of currencies."""
    if not text:
        return None
    if not MONEY.fullmatch(text.upper()):
        raise Misread(
            f"the currency “{text[:40]}” is not known; write its sign or code, such as EUR, and one in all rows"
        )
    return text.upper()


_SIGNS = {"€": {"EUR"}, "£": {"GBP"}, "₹": {"INR"}, "¥": {"JPY", "CNY"},
          "$": {"USD", "AUD", "CAD", "HKD", "MXN", "NZD", "SGD"}}  # fmt: skip
"""Which currencies a sign is used for."""


def other_money(one: str, word: str) -> bool:
    """Whether a workbook's word for money surely means another currency than a list's sign or code."""
    found = money(word.upper())
    return found is not None and not _SIGNS.get(one, {one}) & _SIGNS.get(found, {found})


def writes_commas(text: str) -> bool:
    """Whether a price is surely written with a decimal comma."""
    return re.search(r"\d,\d{1,2}(?!\d)", text) is not None


def pack(text: str) -> Optional[str]:
    """The pack as the list writes it, once it has been seen to be one with a unit."""
    if not text:
        return None
    refuse_formula(text)
    try:
        found = costing.positive(costing.amount(text, "pack"), "pack")
    except BrineError as error:
        raise Misread(f"the pack “{text[:40]}” {error.rule}; {error.advice or 'write it as 25 kg'}") from error
    if found.bare:
        raise Misread(f"the pack “{text[:40]}” needs its unit, such as 25 kg or 24 x 330 mL")
    return text


def day(text: str) -> Optional[float]:
    """A date written year first, as days; other orders are read differently in different countries."""
    if not text:
        return None
    refuse_formula(text)
    try:
        found = datetime.date.fromisoformat(text)
    except ValueError:
        raise Misread(f"“{text[:40]}” is not a date written as 2026-11-30") from None
    if not 2000 <= found.year < 2100:
        raise Misread(f"the date {text} is not of this century")
    return days.number(found)


def name(text: str) -> str:
    """What a price is for."""
    refuse_formula(text)
    if len(text) > 120:
        raise Misread(f"the name “{text[:20]}…” is longer than 120 characters")
    return text


def refuse_formula(text: str) -> None:
    """Refuses a cell that a spreadsheet program would compute."""
    if text.startswith(FORMULA_SIGNS):
        raise Misread(
            f"“{text[:40]}” begins with {text[:1].strip() or 'a tab'}, which a spreadsheet program takes for a formula; "
            "write plain words and numbers, or leave the cell empty"
        )
