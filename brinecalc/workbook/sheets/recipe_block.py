"""The block of cells behind the recipe: which brine, how much of it, how strong, and what it will read.

One idea: a brine typed on the page and a batch of the plan differ only here. `factor` says how many times the batch
is made; `base` is the weight that levels are a share of; everything on the page follows from the two.
"""

from __future__ import annotations

from typing import Dict, List, Tuple

from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import settings, styles
from brinecalc.workbook.agreed import AS_VALUES
from brinecalc.workbook.book import Book
from brinecalc.workbook.chosen import Chosen


def why(function: str, arguments: str) -> str:
    """A formula for the reason why a call is refused, without the function's name, which no cook knows."""
    return f'SUBSTITUTE(BRINE_WHY("{function}",{arguments}),"BRINE_{function}: ","")'


_FILLED = '{vessel},IF({product_g}="",1,{product_g}),headroom'
_NEED = (
    f'IF({AS_VALUES}<>0,"nothing of it for the amount as sent. For another amount open the live workbook where brinecalc is installed.",'
    f'IF(AND({{mode}}=0,{{scale}}="product weight",{{ratio_in}}="",NOT({settings.RATIO_HOLDS})),{settings.WRONG_RATIO},'
    f"IF(ISERROR({{base}}),{why('FILL', _FILLED)},"
    'IF(AND({mode}=1,{scale}<>"as planned",{dry}=1),"a dry cure has no brine: scale it by product weight.",'
    'IF({scale}="vessel","type the size of the vessel.",IF({scale}="product weight","type the product weight.",'
    '"type how much water."))))))'
)

STATE = (
    'IF(COUNTA({finding},{cost})=0,"",IF({mode}=2,{message},IF({mode}=1,"Batch "&{number}&": "&[product]&IF([label]="","",", "&[label]),"A brine of its own")'
    '&IF({ready}=1,", "&IF({scale}="as planned","as planned","scaled by "&{scale})&".",": "&' + _NEED + ")))"
)
"""What the page says it holds, or what is still to be typed; it reads what hangs on all that is typed."""


def write(book: Book, sheet: Worksheet, places: Dict[str, str], column: int, lines: Tuple[int, int]) -> Chosen:
    """Writes the block; `lines` are the first and last row of the lines besides water and ice."""
    block = Chosen(book, sheet, places["batch_in"], column)
    block.cells.update(places)
    _what(block)
    _how_much(block)
    _weights(block, lines)
    _readings(block, lines)
    return block


def _what(block: Chosen) -> None:
    """Which brine."""
    block.always("mode", "0 typed here, 1 a batch, 2 a batch not to be used",
                 '=IF({batch_in}="",0,IF({usable}=1,1,2))', "count")  # fmt: skip
    block.always("use", "Used for", '=IF({mode}=1,IF([w_method]="injected","injection","immersion"),'
                 'IF({use_in}="","immersion",{use_in}))', "text")  # fmt: skip
    block.always("dry", "A dry cure", '=IF({mode}=1,IF([w_method]="dry equilibrium",1,0),0)', "count")
    block.always("scale", "Scaled by", '=IF({mode}=1,IF({scale_in}="","as planned",{scale_in}),'
                 'IF(OR({scale_in}="",{scale_in}="as planned"),"water",{scale_in}))', "text")  # fmt: skip
    block.always(
        "liquid", "Instead of water", '=IF({mode}=1,[liquid]&"",IF({liquid_in}="water","",{liquid_in}&""))', "text"
    )
    block.always("cure", "Curing salt", '=IF({mode}=1,[cure]&"","")', "text")
    share = "BRINE_SALT(1,{strength_in})"  # what stands as text is the share it says, or is left for the salt to refuse
    typed = f'IF(ISERROR({{strength_in}}),"error",IF(ISTEXT({{strength_in}}),IF(ISERROR({share}),{{strength_in}},{share}),{{strength_in}}+0))'
    block.always(
        "strength", "Strength, of the water", f'=IF({{mode}}=1,[w_strength],IF({{mode}}=2,"",{typed}))', "fine_share"
    )


def _how_much(block: Chosen) -> None:
    """How much of it, from the amount that sets the scale."""
    block.always("product_g", "Product typed, g", '=IF({weight_in}="","",{weight_in}*mass_in_g)', "0")
    block.always("vessel", "Vessel typed, mL", '=IF({vessel_in}="","",{vessel_in}*volume_in_ml)', "0")
    block.always("shed", "Water that 1 g of product displaces, g",
                 "=(BRINE_FILL(1000000,1,headroom)-BRINE_FILL(1000000,1001,headroom))/1000", "0.0000")  # fmt: skip
    block.always(
        "water_g",
        "Water typed, g",
        '=IF({water_in}="","",BRINE_FILL({water_in}*volume_in_ml,1,0)+{shed})',  # a vessel brimful, with no product
        "0",
    )
    block.always("room", "Water the vessel takes without product, g",
                 '=IF({vessel}="","",BRINE_FILL({vessel},1,headroom)+{shed})', "0")  # fmt: skip
    block.always(
        "factor", "Times the batch is made",
        '=IF({mode}<>1,"",IF({scale}="as planned",1,IF({scale}="product weight",IF({product_g}="","",{product_g}/[w_weight]),'
        'IF({dry}=1,"",IF({scale}="water",IF({water_g}="","",{water_g}/[w_water]),'
        'IF({room}="","",{room}/([w_water]+{shed}*[w_weight])))))))', "0.000",
    )  # fmt: skip
    block.always(
        "base", "What levels are a share of, g",
        '=IF({mode}=2,"",IF({mode}=1,IF({factor}="","",{factor}*[w_base]),IF({scale}="water",{water_g},'
        'IF({scale}="product weight",IF({product_g}="","",{product_g}*IF({ratio_in}<>"",{ratio_in},'
        f"IF({settings.RATIO_HOLDS},bath_ratio,SQRT(-1)))),"
        'IF({vessel}="","",IF({product_g}="",{room},BRINE_FILL({vessel},{product_g},headroom)))))))', "0.0",
    )  # fmt: skip
    block.always("ready", "May be worked out", '=IF(ISERROR({base}),0,IF({base}="",0,1))', "count")
    block.always("product", "Product in it, g",
                 '=IF({ready}=0,"",IF({mode}=1,{factor}*[w_weight],{product_g}))', "0")  # fmt: skip


def _weights(block: Chosen, lines: Tuple[int, int]) -> None:
    """The weights that are not a level of the water, and the whole."""
    first, last = lines
    block.always("brought", "Water that vinegars and juices bring, g", f"=SUM($V${first}:$V${last})", "0.0")
    block.always(
        "water",
        "Water, ice included, g",
        '=IF({ready}=0,"",IF({dry}=1,0,IF({mode}=1,{factor}*[w_poured],{base}-{brought})))',
        "0.0",
    )
    block.always("liquid_mass", "Liquid for water, g",
                 '=IF(OR({ready}=0,{liquid}=""),"",{water}/BRINE_WATER_IN(1,{liquid}))', "0.0")  # fmt: skip
    block.always("all_salt", "All salt, g", '=IF({ready}=0,"",IF({mode}=1,{factor}*[w_all_salt],'
                 'IF({strength}=0,0,BRINE_SALT({base},{strength}))))', "0.0")  # fmt: skip
    block.always("salt", "Salt to weigh, g", '=IF({ready}=0,"",IF({mode}=1,{factor}*[w_salt],{all_salt}))', "0.0")
    block.always("cure_mass", "Curing salt, g", '=IF(OR({ready}=0,{cure}=""),"",{factor}*[w_cure])', "0.00")
    block.always("bad", "Lines that fail", f"=SUM($S${first}:$S${last})", "count")
    block.always("others", "All but water, g", f'=IF({{bad}}>0,"",SUM($O${first}:$O${last}))', "0.0")
    block.always("brine", "Whole brine, g", '=IF(OR({ready}=0,{bad}>0),"",{others}+IF({liquid}="",{water},0))', "0.0")
    block.always(
        "ice", "Ice to hold back, g",
        '=IF({ready}=0,"",IF(OR({dry}=1,{liquid}<>"",{bad}>0),0,IF({mode}=1,{factor}*[w_ice],'
        "IF(tap_celsius>bath_celsius,BRINE_ICE({brine},tap_celsius,bath_celsius,{strength},ice_celsius),0))))", "0.0",
    )  # fmt: skip
    block.always(
        "tap", "Water from the tap, g", '=IF({ready}=0,"",IF(OR({dry}=1,{liquid}<>""),0,{water}-{ice}))', "0.0"
    )


def _readings(block: Chosen, lines: Tuple[int, int]) -> None:
    """What it comes to, what it will read, what it costs."""
    first, last = lines
    wet = 'IF(OR({ready}=0,{dry}=1,{refused}=1),"",'
    block.always("refused", "The salt is refused (1 yes)", "=IF(ISERROR({all_salt}),1,0)", "count")
    block.always("strength_shown", "Strength, shown", '=IF(OR({ready}=0,{refused}=1),"",{strength})', "fine_share")
    _meter(block, lines)
    for key, words, scale in (("salometer", "Salometer", "salometer"),
                              ("sg", "Hydrometer", "sg")):  # fmt: skip
        block.always(key, words, f'={wet}BRINE_CONVERT({{strength}},"water","{scale}"))')
    block.always("density", "Density, g/mL", f"={wet}BRINE_DENSITY({{strength}}))", "0.000")
    block.always("volume", "Volume, mL", f'={wet}IF({{bad}}>0,"",{{brine}}/{{density}}))', "0.0")
    block.always("brine_shown", "Whole brine, shown", '=IF({brine}="","",{brine}/shown_mass_g)', "0.00")
    block.always("product_shown", "Product, shown", '=IF({product}="","",{product}/shown_mass_g)', "0.00")
    block.always("volume_shown", "Volume, shown", '=IF({volume}="","",{volume}/shown_volume_ml)', "0.00")
    block.always(
        "fit", "In the vessel",
        '=IF(OR({ready}=0,{dry}=1,{room}="",{product}=""),"",IF({water}+{brought}<={room}-{shed}*{product}+0.5,"fits","too full"))', "text",
    )  # fmt: skip
    costs = f"$L${first - 2}:$L${last}"
    block.always("unpriced", "Lines without a cost", f'=COUNTIF({costs},"no price")+COUNTIF({costs},"open")', "count")
    block.always("cost", "Cost of the brine",
                 f'=IF({{ready}}=0,"",IF({{unpriced}}>0,"not complete",SUM({costs})))', "money")  # fmt: skip
    block.always("cost_volume", "Cost per volume shown",
                 '=IF({volume_shown}="","",IF(ISNUMBER({cost}),{cost}/{volume_shown},{cost}))', "money")  # fmt: skip
    block.always(
        "hard",
        "Alkalinity, mg/L",
        '=IF(AND({mode}=0,{alkalinity_in}<>""),{alkalinity_in},IF(water_alkalinity="","",water_alkalinity))',
    )
    brine = f'IF({{liquid}}="",{{water}},1),$D${first}:$D${last},$O${first}:$O${last},0,{{hard}}'
    possible = "OR({ready}=0,{dry}=1,{bad}>0)"
    block.always("ph", "pH", f'=IF({possible},"",BRINE_PH({brine}))', "ph")
    block.always("ph_why", "Why there is no pH", f'=IF({possible},"",IF(ISERROR({{ph}}),"No pH: "&{why("PH", brine)},'
                 '"The pH is that of the fresh brine; it is no evidence that a food is safe. Sugar lifts a hydrometer '
                 'and slows a salt meter, whose figure allows for it."))', "text")  # fmt: skip


def _meter(block: Chosen, lines: Tuple[int, int]) -> None:
    """What a salt meter shows, which sugar slows: as on the card, found in two steps."""
    first, last = lines
    typed = f"SUM($W${first}:$W${last})/{{brine}}"
    block.always("sugar", "Sugar, of the brine", f'=IF({{mode}}=1,[w_sugar],IF({{brine}}="",0,{typed}))', "fine_share")
    strength = 'IF({strength_shown}="",0,{strength_shown})'
    for key, words, before in (
        ("plain", "Salt, of water and salt", ""),
        ("guess", "Salt meter, first step", "{plain}"),
        ("shows", "Salt meter", "{guess}"),
    ):
        better = f'{before}*{strength}/BRINE_METER({before},"salt meter","","water",{{sugar}})'
        made = f"IF(OR({{sugar}}=0,{{plain}}=0),{{plain}},{better})" if before else f"{strength}/(1+{strength})"
        block.always(key, words, f'=IF(OR({{ready}}=0,{{dry}}=1,{{bad}}>0),"",{made})', "fine_share")


_CHECKED: Tuple[Tuple[str, str], ...] = (
    ("product", '{product_in}&""'),
    ("weight", "{product}"),
    ("method", 'IF({use}="injection","injected","")'),
    ("rules", "rules"),
    ("figures in", "typed_units"),
    ("water", "{water}"),
    ("liquid", "{liquid}"),
    ("strength", "{strength}"),
    ("bath temperature", "bath_celsius"),
    ("alkalinity", "{hard}"),
    ("ph", 'IF(ISNUMBER({ph}),{ph},"")'),
)
"""Headings that BRINE_CHECK knows, and what stands under each for a brine typed on the page."""


def checks(sheet: Worksheet, block: Chosen, column: int, top: int, count: int) -> None:
    """The brine as the safety rules read it: a heading row, a row of all values, and one without the lines refused.

    Why a line is refused stands below the lines; it shall hide no finding that is as grave as its own.
    """
    salted = {"strength": 'IF({refused}=1,"",{strength})'}
    pairs: List[Tuple[str, str, str]] = [(heading, value, salted.get(heading, value)) for heading, value in _CHECKED]
    for row in range(top, top + count):
        for heading, value in (("ingredient", f"$D{row}"), ("level", f"$F{row}")):
            pairs.append((heading, value, f'IF($S{row}<>0,"",{value})'))
    styles.put(sheet, f"{get_column_letter(column)}1", "As the safety rules read it (not printed)", "strong")
    for number, (heading, *values) in enumerate(pairs, column):
        letter = get_column_letter(number)
        styles.put(sheet, f"{letter}3", heading, "heading")
        for row, value in enumerate(values, 4):
            styles.put(sheet, f"{letter}{row}", block.fill(f"={value}"), "cell")
    first, last = get_column_letter(column), get_column_letter(column + len(pairs) - 1)
    for key, words, row in (("all_found", "Finding, all lines", 4), ("kept_found", "Finding, lines not refused", 5)):
        call = f"BRINE_CHECK(${first}$3:${last}$3,${first}${row}:${last}${row})"
        block.always(key, words, f'=IF(OR({{mode}}>=1,{{ready}}=0),"",{call})', "text")
    grave = 'OR(LEFT({kept_found},4)="STOP",LEFT({kept_found},7)="CAUTION")'
    kept = f'IF(AND({{bad}}>0,LEFT({{all_found}},4)<>"STOP",{grave}),{{kept_found}},{{all_found}})'
    block.always("finding", "Finding", f"=IF({{mode}}>=1,{{message}},{kept})", "text")
