"""The steps of a batch in the order in which they are done, each with the condition that calls for it.

One idea: all steps that any batch may need stand in one list; a step counts when its condition holds, and the card
shows the first, the second and so on of those that count. So the numbers never have a gap, and the curing salt is
always the last thing that goes into the brine.
"""

from __future__ import annotations

from typing import List, NamedTuple

from openpyxl.utils import get_column_letter

from brinecalc.workbook import styles
from brinecalc.workbook.chosen import Chosen
from brinecalc.workbook.frame import hours_range
from brinecalc.workbook.sheets.card_lists import SOUR
from brinecalc.workbook.sheets.ingredient_lists import ICE_TURN

MOST = 11
"""Lines for steps on the card; the longest list of steps has as many."""


class Step(NamedTuple):
    """A step: when it is called for, what to do, and the moment at which to do it."""

    when: str
    words: str
    moment: str = '""'


_DISSOLVED = (
    'IF({salt}>0,"the salt","")&IF(AND({salt}>0,{sweetener}<>"")," and ","")'
    '&IF({sweetener}="","",IF({salt}>0,"","the ")&{sweetener})'
)
_DAILY = 'IF({soak}+{rest}>48," and once a day","")'


def sort(chosen: Chosen) -> None:
    """What is steeped, and what goes in cold, after the ice: the turns are those of the recipe.

    Beside a curing salt nothing sour goes in before the ice, so no list of steps has a place for either.
    """
    for key in ("aroma_one", "aroma_two", "acid"):
        late = f"IFERROR(INDEX(list_turn,MATCH({{{key}}},ingredient_names,0)),0)>{ICE_TURN}"
        late = f'OR({{cure}}<>"",{late})' if key == "acid" else late
        chosen.add(
            f"{key}_late",
            f"After the ice (1 yes): {key.replace('_', ' ')}",
            f'IF({{{key}}}="",0,IF({late},1,0))',
            "count",
        )
    early = "&".join(
        f'IF(OR({{{key}}}="",{{{key}_late}}=1),""," and "&{{{key}}})' for key in ("aroma_one", "aroma_two")
    )
    later = "&".join(f'IF({{{key}_late}}=1," and "&{{{key}}},"")' for key in ("aroma_one", "aroma_two", "acid"))
    chosen.add("steeped", "Steeped", f"MID({early},6,200)", "text")
    chosen.add("later", "Goes in after the ice", f"MID({later},6,200)", "text")


def mixing() -> List[Step]:
    """From the scale to a cold brine, or to a dry rub."""
    return [
        Step('AND({dry}=0,{phosphate}<>"")',
             '"Phosphate first: stir into some "&{base}&" at "&{lukewarm}&", not hotter, until clear."'),
        Step('AND({dry}=0,OR({salt}>0,{sweetener}<>""))',
             f'"Dissolve "&{_DISSOLVED}&IF({{phosphate}}<>""," in the same, until clear.",'
             'IF({liquid}=""," in part of the water; warm is quicker."," in the "&{liquid}&"; slowly, if it foams."))'),
        Step('AND({dry}=0,{steeped}<>"")',
             'IF({liquid}="","Steep "&{steeped}&" 15 min in a little boiled water; "'
             '&IF({injected}=1,"strain, ","")&"cool it.","Stir in the "&{steeped}&".")'),
        Step('AND({dry}=0,{acid}<>"",{acid_late}=0)', '"Add the "&{acid}&" slowly, stirring"&IF({liquid}="",".","; leave room to foam.")'),
        Step("{dry}=0",
             'IF({ice}>0,"Add the ice and the rest of the water. ",IF({liquid}="","Add the rest of the water. ",""))'
             '&IF({perishable}=1,"No food in it before it is at "&{cold}&".","Bring it to "&{bath_degree}&".")'),
        Step('AND({dry}=0,{later}<>"")',
             '"Stir the "&{later}&" slowly into the "&IF({perishable}=1,"cold ","")&"brine"&IF({liquid}="",".","; leave room to foam.")'),
        Step('AND({dry}=0,{cure}<>"")',
             '"Curing salt last, in the cold brine; stir 2 min. Never into cola, juice or vinegar."'),
        Step("{dry}=1",
             '"Mix it all dry"&IF({cure}="","",", the curing salt evenly through the rest")&". No water."'),
    ]  # fmt: skip


def soaking() -> List[Step]:
    """From the product going in to the plate."""
    count = 'IF({pieces}="","the product",IF({pieces}="1","the piece","all "&{pieces}&" pieces"))'
    cooked = (
        f'IF({{ferment}}=1,IF({{open}}=1,"Throw it away if slimy, foul or mouldy inside. Above pH {SOUR}: do not eat it.",'
        f'"Throw it away if slimy, foul, mouldy inside, or above pH {SOUR} on its last day.")&" Else keep it cold.",'
        'IF({perishable}=0,"Ready at the time shown: taste, drain.",IF({core}="",'
        '"Cook as the dish asks. Taste a cooked piece before serving the rest.",'
        '"Cook to at least "&{core}&" in the core. Taste a cooked piece first.")))'
    )
    return [
        Step("1",
             f'IF({{injected}}=1,"Inject evenly until "&{count}&IF(OR({{pieces}}="",{{pieces}}="1")," weighs "," weigh ")&{{pumped}}&": "&{{taken_up}}&" brine, "&{{gain}}&IF({{bone}}=1," of the edible.","."),'
             f'IF({{dry}}=1,IF({{ferment}}=1,"Rub it into "&{count}&"; pack it tight, weighted under its juice; a lid that lets gas out.",'
             f'"Rub it all into "&{count}&"; bag, press the air out, lay flat in the cold."),'
             f'IF({{ferment}}=1,"Put in "&{count}&", weighted down under the brine; a lid that lets gas out.",'
             f'"Put in "&{count}&", all under the brine; lid on"&IF({{perishable}}=1,", into the cold room.","."))))',
             'IF({open}=1,"",{put_in})'),
        Step("{wet}=1", 'IF({ferment}=1,"Daily: press it under, skim. Read meter, temperature, pH at the times below; sign.","Stir; read meter and temperature at the times below"&'+_DAILY+'&"; sign.")'),
        Step("{wet}=0", 'IF({ferment}=1,"Daily: press it under its juice, skim. Read temperature, pH at the times below; sign.",'
             '"Read the temperature at the times below"&'+_DAILY+'&IF({dry}=1,"; turn the bag","")&"; sign.")'),
        Step("{injected}=0",
             f'IF({{ferment}}=1,"Done when its pH is {SOUR} or below, by meter; not before. "&IF({{open}}=1,"It takes days.","This is its last day."),'
             'IF({dry}=1,"Open the bag; throw the juice away.",IF({method}="gradient",'
             '"Take out when the meter says so"&IF({past}=1,", maybe past Ready: ask in time.",", within the times above.")&" Throw the brine away.",'
             'IF({short}=1,"Take out on time; it is still getting saltier. Throw the brine away.",'
             '"Take out; longer does not make it saltier. Throw the brine away."))))',
             'IF({open}=1,"",{take_out})'),
        _rest(),
        Step("1", cooked, 'IF({open}=1,"",{ready})'),
    ]  # fmt: skip


def _rest() -> Step:
    """The rest, and what it does: it seldom takes as long as the salt does to even out."""
    salt = (
        'IF({even_slow}=""," room: the salt goes on evening out.",IF({rest}>={even_slow}," room: the salt evens out.",'
        f'". The salt evens out in "&{hours_range("{even_fast}", "{even_slow}")}&"."))'
    )
    how = (
        'IF({injected}=1,"Rest covered ",IF({ferment}=1,"Chill it in its "&{own}&" ",'
        'IF({perishable}=1,"Rinse, pat dry; rest uncovered ","Drain and rest ")))'
    )
    return Step("{rest}>0", f'{how}&ROUND({{rest}}+1E-9,1)&" h"&IF({{perishable}}=1," in the cold"&{salt},".")')


def write(chosen: Chosen, column: int, row: int) -> List[str]:
    """Writes the list beside the page; answers, for each line of the card, the templates to find its step by."""
    steps = mixing() + soaking()
    letters = [get_column_letter(column + i) for i in range(3)]
    last = row + len(steps) - 1
    for letter, words, width in zip(letters, ("Step", "What to do", "When"), (6, 60, 16)):
        styles.put(chosen.sheet, f"{letter}{row - 1}", words, "heading")
        chosen.sheet.column_dimensions[letter].width = width
    for at, step in enumerate(steps, row):
        before = f"{letters[0]}{at - 1}" if at > row else "0"
        counted = f"=IF({{usable}}=0,0,{before}+IF({step.when},1,0))"
        styles.put(chosen.sheet, f"{letters[0]}{at}", chosen.fill(counted), "cell", "count")
        styles.put(chosen.sheet, f"{letters[1]}{at}", chosen.when_usable(step.words), "cell", "text")
        styles.put(chosen.sheet, f"{letters[2]}{at}", chosen.when_usable(step.moment), "cell", "moment")
    return [f"${letter}${row}:${letter}${last}" for letter in letters]
