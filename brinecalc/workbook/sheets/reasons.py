"""Why a row of the plan fails, in the words of the plan, and the one line that stands beside each row.

One idea: BRINE_WHY speaks of a function and its arguments, which nobody who fills in the plan has ever seen. So the
function's name is taken off and the argument's name becomes the heading of the column that was filled in.
"""

from __future__ import annotations

from typing import List, Sequence

from brinecalc.workbook.agreed import where_installed
from brinecalc.workbook.frame import Field
from brinecalc.workbook.sheets import near, prices
from brinecalc.workbook.sheets.steps import got, step, when_on

UNREAD = "A name or figure in this row cannot be read; take names from the lists and type figures as plain numbers."
_FIGURES = (("gain", "Weight gained"),)
SETTINGS = {
    "bath_ratio": "Brine water per weight of product",
    "evenness": "Even enough",
    "closeness": "Equilibrium counts as reached at",
    "overage": "Injection brine mixed beyond the gain",
    "headroom": "Room left in a vessel",
}
"""Inputs and settings that the sheet itself reckons with, so that text in them is met before any function can name it."""

SPOKEN = (
    ("product", "Product"),
    ("weight", "Weight as bought"),
    ("product_weight", "Weight as bought"),
    ("thickness", "Thickness"),
    ("shape", "Shape"),
    ("treatment", "Treated"),
    ("native_salt", "Salt in it already"),
    ("target", "Salt wanted in the product"),
    ("strength", "Strength, of the water,"),
    ("hours", "Hours I have"),
    ("bath", "Water per product"),
    ("water", "The brine's water"),
    ("gain", "Weight gained"),
    ("level", "Level"),
    ("sweetener", "Sweetener"),
    ("ingredient", "The name beside a level"),
    ("ppm", "Nitrite"),
    ("method", "Reckoned as"),
    ("pickle", "The whole brine"),
    ("cure_strength", "Curing salt"),
    ("temperature", "Brine temperature"),
    ("to_temperature", "Brine temperature"),
    ("from_temperature", "Water from the tap, on Start,"),
    ("ice_temperature", "Ice, on Start,"),
    ("evenness", "Even enough, on Start,"),
    ("closeness", "Equilibrium counts as reached at, on Start,"),
    ("headroom", "Room left in a vessel, on Start,"),
    ("vessel", "Vessel"),
    ("serving", "Portion"),
    ("rest_hours", "Rest"),
    ("soak_hours", "The soak"),
    ("finished", "The finished weight"),
)
"""Name of an argument, and the column or setting it is filled in as."""

_PLAINER = (
    (" (BRINE_INJECTION_STRENGTH)", ""),
    (" (BRINE_TOP_UP)", ""),
    ("ingredients must all have a price, got ", "no price yet for "),
    ("add it to price_names with its price", "give its price on Prices"),
    ("give it a price in unit_costs, 0 if it costs nothing", "give its price on Prices, 0 if it costs nothing"),
    ("price_names must hold one price for each name, got two for ", "Prices has two different prices of "),
    ("; for example 38.", "."),
)
"""What a reason says to those who write formulas, and what it says here."""


def _unread() -> str:
    """A formula for the sentence where a row fails and no function can say why."""
    found = f'"{UNREAD}"'
    for key, heading in reversed(_FIGURES):
        found = f"IF(ISTEXT({{{key}}}),{got(f'{heading} must be a plain number', key)},{found})"
    for name, heading in SETTINGS.items():
        found = f'IF(ISTEXT({name}),"{heading}, on Start, must be a plain number, got """&{name}&""".",{found})'
    unlisted = 'AND({cure}<>"",ISNA(MATCH({cure},cure_names,0)))'
    says = got("Curing salt must be a name of its list, spelled as there", "cure")
    other = near.listed_as("{cure}", "other_cure")
    says = f'{says}&IF({other}="",""," If that is what it is, choose "&{other}&".")'
    return where_installed(f"IF({unlisted},{says},{found})")


def spoken(reason: str) -> str:
    """A formula for what follows the function's name, with the argument's name as the plan has it."""
    word = f'LEFT({reason},FIND(" ",{reason}&" ")-1)'
    label = f"INDEX(spoken_labels,MATCH({word},spoken_names,0))"
    return f"IF(ISNUMBER(MATCH({word},spoken_names,0)),{label},UPPER(LEFT({reason},1))&MID({word},2,50))&MID({reason},LEN({word})+1,900)"


def heard(reason: str) -> str:
    """A formula for a reason without the function's name, and without advice on formulas."""
    found = f'IF(LEFT({reason},6)="BRINE_",MID({reason},FIND(": ",{reason}&": ")+2,900),{reason})'
    for theirs, ours in _PLAINER:
        found = f'SUBSTITUTE({found},"{theirs}","{ours}")'
    return found


WRONG_PRICE = (
    f'"the price of "&{{w_unread}}&" on Prices, row "&(MATCH({{w_unread}},unread_names,0)+{prices.FIRST_ROW - 1})&", cannot be used. "'
    "&INDEX(unread_whys,MATCH({w_unread},unread_names,0))"
)
"""A formula for which price cannot be used, where it stands, and what is wrong with it."""


_CLOCK = (
    '&IF(ISNUMBER({hours}),IF({hours}>1,"",IF(ISNUMBER(FIND("cannot be reached in ",{w_why})),'
    '" A time of day counts as part of a day: where 20:00 was typed, type 20 for twenty hours.","")),"")'
)
"""A formula for what follows where a wish cannot be met in hours that may be a time of day; 24:00 is one."""


def _unread_price(parts: Sequence[str]) -> str:
    """A formula for the first thing of a batch that has a price which is none, such as a text."""
    found = '""'
    for key in reversed(parts):
        named = f'IF({{n_{key}}}="",0,COUNTIF(unread_names,{{n_{key}}}))'
        found = f"IF({named}>0,{{n_{key}}},{found})"
    return f'IF(ISERROR({{w_cost}}),{found},"")'


def _first_that_fails(fields: Sequence[Field]) -> str:
    """A formula for the reason of the first step that fails, "" where none does. All steps in one pass 8,192 letters."""
    reason = '""'
    for field in reversed(fields):
        reason = f"IF(ISERROR({{{field.key}}}),{field.why},{reason})"
    return reason


def columns(fields: List[Field], parts: Sequence[str]) -> List[Field]:
    """The reason of the first step that fails, the line beside the row, and the short word for the plan.

    A missing price does not make a batch fail: the brine is as good without it; only the money stays open.
    """
    asked = [field for field in fields if field.why and field.key != "w_cost"]
    early, late = (_first_that_fails(half) for half in (asked[: len(asked) // 2], asked[len(asked) // 2 :]))
    cost = next(field for field in fields if field.key == "w_cost")
    no_price = f'IF({{w_unread}}="",{heard(cost.why)},{WRONG_PRICE})'
    return [
        Field("w_beyond", "What is to mend where no function can say why the row fails", "text", when_on(_unread())),
        Field("w_early", "Why one of the first steps fails", "text", when_on(f"IFERROR({early},{{w_beyond}})")),
        Field("w_why", "Why the row fails, as the functions say it", "text",
              when_on(f'IF({{w_early}}<>"",{{w_early}},IFERROR({late},{{w_beyond}}))')),
        step("w_heard", "The same without the function's name", f'IF({{w_why}}="","",{heard("{w_why}")})', "text"),
        step("w_reason", "Why the row fails", f'IF(LEFT({{w_why}},6)="BRINE_",{spoken("{w_heard}")},{{w_why}}){_CLOCK}', "text"),
        step("w_unread", "What has a price that cannot be used", _unread_price(parts), "text"),
        step("w_no_price", "Why there is no cost",
             f'IF(AND(ISERROR({{w_cost}}),{{w_reason}}=""),{where_installed(no_price)},"")', "text"),
        step("w_message", "Message",
             'IF({w_reason}<>"","FAILS: "&{w_reason},{c_first}&{c_more})&IF({w_no_price}="","","  Money: "&{w_no_price})', "text"),
        Field("w_fails", "Fails", "0", '=IF({w_on}=0,0,IF({w_reason}="",0,1))'),
        Field("w_unpriced", "No cost", "0", '=IF({w_on}=0,0,IF(ISERROR({w_cost}),1,0))'),
        step("w_says", "Says",
             'IF({w_fails}<>0,"FAILS",IF(LEFT({w_message},4)="STOP","STOP",IF(LEFT({w_message},7)="CAUTION","CAUTION",'
             'IF(LEFT({w_message},4)="NOTE","NOTE","ok"))))', "text"),
    ]  # fmt: skip
