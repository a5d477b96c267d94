"""What those who build a workbook and those who open it later have agreed on.

One idea: how a cell tells what kind of copy it stands in is written once, for both. Nothing that builds workbooks is
imported here, so that a command which only opens one starts in a third of the time.
"""

from __future__ import annotations

import re
from typing import Dict, Optional, Tuple

AS_VALUES = "copy_as_values"
"""The named cell that is 1 in a copy with values in place of our formulas: what asks to be filled in says so there."""
WITHOUT_PRICES = "copy_without_prices"
"""The named cell that is 1 in a copy without prices."""
LEFT_OUT = "Prices are left out of this copy."
"""What stands there in place of money."""
ORDER_ON_FIRST_PAGE = 55
"""Lines of the order that fit on its first page."""

# ---- names by which a copy without prices finds what it leaves out

MONEY = "money_"
"""What the names of cells with money in them begin with."""

HIDDEN = "left_out_columns_"
"""What the names of cells begin with whose columns are hidden in a copy without money."""

ROOM = "left_out_room_"
"""What the name of a cell begins with whose column takes the room of those: the page keeps its scale."""

SHELL = "left_out_part_"
"""What the names of parts of a page begin with that a copy without money lacks: headings, words, charts."""

CELLS: Dict[str, Tuple[str, str]] = {"price_state": ("Prices", "$A$3"), "order_state": ("Order", "$A$5"),
                                    "results_lead": ("Results", "$D$1")}  # fmt: skip
"""Name → sheet and cell of the lines that say which prices are missing, or that prices are left out."""

# ---- what a sheet says where our functions are missing

NOT_INSTALLED = "brinecalc is not installed here: nothing that you change is worked out."
"""What stands at the head of a sheet that is worked out anew by a program without our functions."""

_MISSING = "ISERROR(BRINE_ABOUT())"


def where_installed(formula: str, otherwise: str = NOT_INSTALLED) -> str:
    """A formula for `formula`, without its sign, where our functions are there, and for other words where they are not.

    The test stands in each such cell by itself: it is made anew whenever something that the cell reads is changed.
    """
    return f'IF({_MISSING},"{otherwise}",{formula})'


def taken_for_installed(formula: str) -> Optional[str]:
    """What such a formula comes to where nothing of ours has to be installed; None for any other formula."""
    found = re.fullmatch(
        r'IF\(ISERROR\([\w.]*ABOUT\(\)\),"[^"]*",(.*)\)', formula.lstrip("="), re.DOTALL | re.IGNORECASE
    )
    return found[1] if found else None
