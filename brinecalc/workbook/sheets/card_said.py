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

NAMED = 3
"""Cautions besides the worst that are named on the card; what is beyond them is counted."""

BRIEF = 60
"""Characters in which a caution is told in brief; of a longer one stands what it is about."""

FORMS = {
    "named": "What the other cautions are about",
    "brief": "Their clauses where they are short",
    "about": "Both of it",
}
"""How the other cautions are told, the shortest way first."""

FAR_IN = 26
"""From which character on a comma ends what is told in brief; an earlier one stands in a list."""

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
    """The finding after the worst: a note only where no caution is left. Of the cautions after it what they are about."""
    caution = 'CHAR(10)&"CAUTION "'
    before = "all"
    chosen.add("all", "All that is said, the worst first", "[c_text]", "text")
    for number in range(1, NAMED + 1):
        rest = f"MID({{{before}}},FIND({caution},{{{before}}}&{caution})+1,5000)"
        chosen.add(f"after_{number}", f"From its caution no. {number + 1} on", rest, "text")
        before = f"after_{number}"
        line = f"LEFT({{{before}}},FIND(CHAR(10),{{{before}}}&CHAR(10))-1)"
        chosen.add(f"bad_{number}", f"Caution no. {number + 1}", line, "text")
        named = f'IF({{bad_{number}}}="","",MID({{bad_{number}}},9,FIND(": ",{{bad_{number}}}&": ")-9))'
        chosen.add(f"named_{number}", "What it is about", named, "text")
        chosen.add(f"said_{number}", "Its sentence", _after(f"bad_{number}"), "text")
        clause, about = _clause(f"said_{number}"), f"{{named_{number}}}"
        for form, told in (("brief", clause), ("about", f'{about}&": "&{clause}')):
            short = f'IF({about}="","",IF(LEN({told})<={BRIEF},{told},{{{"named" if form == "brief" else "brief"}_{number}}}))'
            chosen.add(f"{form}_{number}", f"{FORMS[form]}: no. {number + 1}", short, "text")
    second = "MID({all},FIND(CHAR(10),{all}&CHAR(10))+1,5000)"
    note = f"LEFT({second},FIND(CHAR(10),{second}&CHAR(10))-1)"
    chosen.add("next", "The finding after it", f'IF({{bad_1}}<>"",{{bad_1}},{note})', "text")
    also = f'IF({{next}}="","","Also: "&{unbroken(_after("next"))})'
    chosen.add("also", "It, as said beside the worst", also, "text")


def _clause(key: str) -> str:
    """A formula for the beginning of a sentence that says what is wrong: to its first stop, or a comma that is far in."""
    stops = ",".join(f'FIND("{mark}",{{{key}}}&"{mark}")' for mark in (". ", "; ", ": "))
    comma = f'FIND(", ",{{{key}}}&REPT(" ",{FAR_IN})&", ",{FAR_IN})'
    comma = f'IF(ISNUMBER(FIND("(",LEFT({{{key}}},{comma}))),999,{comma})'
    start = f"LEFT({{{key}}},MIN({stops},{comma})-1)"
    return f'IF(RIGHT({start},1)=".",LEFT({start},LEN({start})-1),{start})'


def _listed(form: str, first: int) -> str:
    """A formula for the cautions from that one on, one after the other; empty where there is none."""
    parts = "&".join(f'IF({{bad_{n}}}="","","; "&{{{form}_{n}}})' for n in range(first, NAMED + 1))
    return f"MID({parts},3,300)"


def _cut(chosen: Chosen) -> None:
    """The findings as their box can hold them: of a long one as many whole sentences as fit, else whole clauses or words."""
    chosen.always(
        "whole",
        "It, with numbers kept to their words",
        "=" + unbroken('SUBSTITUTE({sentence}," no. "," no.\u00a0")'),
        "text",
    )
    chosen.always("head", "What fits of it", f"=LEFT({{whole}},{LONGEST - 15})", "text")
    for key, words, mark, text in (
        ("end", "Its last full stop", ". ", "{head}"),
        ("clause", "Its last clause", "; ", "{head}"),
        ("gap", "Its last gap", " ", "{head}"),
        ("earlier", "The gap before", " ", "LEFT({head},MAX({gap},1)-1)"),
    ):
        times = f'(LEN({text})-LEN(SUBSTITUTE({text},"{mark}","")))/{len(mark)}'
        last = f'FIND(CHAR(10),SUBSTITUTE({text},"{mark}",CHAR(10),{times}))'
        chosen.always(key, words, f'=IF(ISNUMBER(FIND("{mark}",{text})),{last},0)', "count")
    figure = 'ISNUMBER(FIND(MID({head},MAX({gap},2)-1,1),"0123456789"))'  # its unit stands after the gap
    chosen.always("space", "Its last word", f"=IF(AND({{earlier}}>1,{figure}),{{earlier}},{{gap}})", "count")
    left = f'LEN({_listed("named", 2)})+IF({{bad_2}}="",0,LEN(" Also: ."))'
    both = f'=IF({{also}}="",0,IF(LEN({{whole}})+LEN({{also}})+{left}<{LONGEST},1,0))'
    chosen.always("both", "Both fit (1 yes)", both, "count")
    chosen.always("fits", "What fits whole", '=IF({both}=1,{whole}&" "&{also},{whole})', "text")
    for form, words in FORMS.items():
        listed = f"IF({{both}}=1,{_listed(form, 2)},{_listed(form, 1)})"
        chosen.always(f"{form}_all", words, f"={unbroken(listed)}", "text")
    shown = 'IF({end}>0,LEFT({head},{end})&" See Findings.",LEFT({head},IF({clause}>0,{clause}-1,{space}-1))&" … See Findings.")'
    fits = "{fits}"
    for form in FORMS:
        enough = f'AND({{{form}_all}}<>"",LEN({{fits}})+LEN({{{form}_all}})+LEN(" Also: .")<={LONGEST})'
        fits = f'IF({enough},{{fits}}&" Also: "&{{{form}_all}}&".",{fits})'
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
