"""What is said of the batch on its card: the worst finding, a second where there is room, how many more, allergens.

One idea: the cook may have nothing but the card, so what the box cannot hold is counted on it, and what may harm a
guest always stands there by name.
"""

from __future__ import annotations

from brinecalc.workbook.chosen import Chosen
from brinecalc.workbook.frame import unbroken
from brinecalc.workbook.sheets import near

LONGEST = 300
"""Characters of findings that fit into their box; of a longer one whole sentences or clauses stand there."""

_BRINGERS = ("sweetener", "liquid", "aroma_one", "aroma_two", "acid")
"""What goes in that may bring an allergen."""


def found(chosen: Chosen) -> None:
    """The cells about what is found."""
    plain = 'SUBSTITUTE({found}," (BRINE_INJECTION_STRENGTH)","")'
    chosen.always("found", "Finding without its word", f"={_after('message')}", "text")
    chosen.always("bare", "No function in it", f"={plain}", "text")
    chosen.always("sentence", "Nor before it", f'=IF(LEFT({{bare}},6)="BRINE_",{_after("bare")},{{bare}})', "text")
    _second(chosen)
    _cut(chosen)
    _more(chosen)


def _after(key: str) -> str:
    """A formula for what stands after the word of a finding and its column."""
    return f'MID({{{key}}},FIND(": ",{{{key}}}&": ")+2,600)'


def _second(chosen: Chosen) -> None:
    """The finding after the worst; a note only where no caution is left."""
    bad = 'OR(LEFT({@},4)="STOP",LEFT({@},7)="CAUTION")'
    rules = bad.replace("{@}", "[c_2]")
    after_rules = f'IF({rules},[c_2],IF(LEFT([c_own],7)="CAUTION",[c_own],IF([c_2]="",[c_own],[c_2])))'
    after_own = 'IF([c_worst]="ok","",[c_worst])'
    chosen.add("next", "The finding after it", f"IF([c_first]=[c_worst],{after_rules},{after_own})", "text")
    wanted = f"OR({bad.replace('@', 'next')},[c_bad]<2)"
    chosen.add(
        "also",
        "It, as said beside the worst",
        f'IF({{next}}="","",IF({wanted},"Also: "&{unbroken(_after("next"))},""))',
        "text",
    )


def _cut(chosen: Chosen) -> None:
    """The findings as their box can hold them: of a long one as many whole sentences as fit, else whole clauses or words."""
    chosen.always(
        "whole",
        "It, with numbers kept to their words",
        "=" + unbroken('SUBSTITUTE({sentence}," no. "," no.\u00a0")'),
        "text",
    )
    chosen.always("head", "What fits of it", f"=LEFT({{whole}},{LONGEST - 15})", "text")
    for key, words, mark in (
        ("end", "Its last full stop", ". "),
        ("clause", "Its last clause", "; "),
        ("space", "Its last word", " "),
    ):
        times = f'(LEN({{head}})-LEN(SUBSTITUTE({{head}},"{mark}","")))/{len(mark)}'
        last = f'FIND(CHAR(10),SUBSTITUTE({{head}},"{mark}",CHAR(10),{times}))'
        chosen.always(key, words, f'=IF(ISNUMBER(FIND("{mark}",{{head}})),{last},0)', "count")
    both = f'=IF({{also}}="",0,IF(LEN({{whole}})+LEN({{also}})<{LONGEST},1,0))'
    chosen.always("both", "Both fit (1 yes)", both, "count")
    shown = 'IF({end}>0,LEFT({head},{end})&" See Findings.",LEFT({head},IF({clause}>0,{clause}-1,{space}-1))&" … See Findings.")'
    fits = 'IF({both}=1,{whole}&" "&{also},{whole})'
    chosen.always("cut", "As it is shown", f"=IF(LEN({{whole}})<={LONGEST},{fits},{shown})", "text")


def _more(chosen: Chosen) -> None:
    """What is not shown, counted, and the allergens by name."""
    chosen.add("left", "Findings that are not shown", "MAX(0,[c_all]-1-{both})", "count")
    chosen.add(
        "left_bad", "Of them CAUTION", 'MAX(0,[c_bad]-1-IF({both}=1,IF(LEFT({next},7)="CAUTION",1,0),0))', "count"
    )
    for key in _BRINGERS:
        listed = near.ingredient(f"{{{key}}}")
        brings = f'IFERROR(INDEX(list_allergens,MATCH({listed},ingredient_names,0))&"","")'
        chosen.add(f"{key}_brings", f"Allergens: {key.replace('_', ' ')}", f'IF({{{key}}}="","",{brings})', "text")
    both = 'AND({both}=1,LEFT({also},16)="Also: May bring ")'
    alone = f'AND(LEFT({{sentence}},10)="May bring ",LEN({{whole}})<={LONGEST})'
    chosen.always(
        "told", "Allergens stand in the finding (1 yes)", f"=IF(AND({{left}}=0,OR({both},{alone})),1,0)", "count"
    )
    parts = "&".join(f'IF({{{key}_brings}}="","","; "&{{{key}_brings}}&" ("&{{{key}}}&")")' for key in _BRINGERS)
    chosen.add("allergens", "Allergens that may be in it", parts, "text")
    more = (
        '=IF({usable}=0,"",TRIM(IF({left}=0,"","+"&IF({left_bad}>0,{left_bad}&" CAUTION","")'
        '&IF(AND({left_bad}>0,{left}>{left_bad})," and ","")&IF({left}>{left_bad},({left}-{left_bad})&" NOTE","")'
        '&" more: see Findings. ")&IF(OR({told}=1,{allergens}=""),"","Allergens: "&MID({allergens},3,300)&".")))'
    )
    chosen.always("more", "Beside the finding", more, "text")
