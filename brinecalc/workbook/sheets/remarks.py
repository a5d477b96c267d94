"""What the plan itself remarks on a row: what was typed and is not used, what is assumed, and hours that may not do.

One idea: nothing that a person types may be passed over in silence. These remarks stand beside the findings of the
safety rules, worded and counted in the same way, CAUTION before NOTE.
"""

from __future__ import annotations

from typing import List, Tuple

from brinecalc.trade.findings import ids
from brinecalc.workbook.frame import Field, hours_in_words
from brinecalc.workbook.sheets.steps import DRY, EVEN, GRADIENT, INJECTED, NO_BATH
from brinecalc.workbook.sheets.workings import LEVELS

LISTED = 5
"""Findings of one batch that are written out; what is beyond them is counted."""

SEARCHED = 12
"""Findings of one batch that are looked at for the one that it sours by itself; no vegetable has so many."""

APART = 180
"""Days by which a batch may lie apart from the middle of the plan; half a year is what a wrong year comes to at least."""

_NAMES = {"sweetener": "Sweetener", "aroma_one": "Aromatic", "aroma_two": "Second aromatic", "phosphate": "Phosphate",
          "acid": "Acid or base"}  # fmt: skip


_HEADED = (
    ("under cure method", "under Reckoned as"),
    ("under soak hours", "under Hours I have"),
    (" cure method: ", " reckoned as: "),
    (" bath temperature: ", " brine temperature: "),
    (" rest hours: ", " rest: "),
    (" native salt: ", " salt in it already: "),
    (" target: ", " salt wanted: "),
    (" gain: ", " weight gained: "),
    (" sweetener level: ", " level: "),
    (" liquid: ", " instead of water: "),
)
"""How the rules call a column, and how the plan heads it."""


def as_headed(text: str) -> str:
    """A formula for a finding of the rules that speaks of the plan's own headings."""
    for theirs, ours in _HEADED:
        text = f'SUBSTITUTE({text},"{theirs}","{ours}")'
    return text


def _share(value: str) -> str:
    """A formula for a share in words; one that was typed as text stays as it was typed."""
    return f'IF(ISNUMBER({value}),ROUND(100*{value}+1E-9,2)&" %",{value})'


def _less(value: str) -> str:
    """A formula for whether a share is seen to be less than the salt wanted, in the digits that are shown."""
    return f"IF(ISNUMBER({{target}}),ROUND(100*{value}+1E-9,2)<ROUND(100*{{target}}+1E-9,2),TRUE)"


def _named(parts: List[Tuple[str, str]], before: str, after: str) -> str:
    """A formula for a sentence that names those whose condition holds; empty where none does."""
    named = "&".join(f'IF({condition},", {words}","")' for words, condition in parts)
    any_of = ",".join(condition for _, condition in parts)
    return f'IF(OR({any_of}),{before}MID({named},3,99){after},"")'


def _ignored() -> List[Tuple[str, str, str]]:
    """Key, heading and formula of what was typed and counts for nothing."""
    loose = [(_NAMES[name], f'AND({{{name}}}="",{{{level}}}<>"")') for name, level in LEVELS]
    bath = [("water per product", f'AND({NO_BATH},{{ratio}}<>"")'), ("instead of water", f'AND({DRY},{{liquid}}<>"")')]
    return [
        ("x_hours", "Hours that are not used",
         (f'IF({{hours}}="","",IF(AND({GRADIENT},{{strength}}<>""),'
         '"CAUTION hours I have: the hours are not used, because a strength is typed too. Clear one of the two.",'
         f'IF({INJECTED},"CAUTION hours I have: the hours are not used, because nothing soaks when it is injected. Clear it, or fill in Rest.","")))')),
        ("x_strength", "Strength that is not used",
         (f'IF(AND({{strength}}<>"",NOT({GRADIENT})),"CAUTION strength: the strength is not used; here it follows from the salt wanted. '
         'Clear it, or choose gradient.","")')),
        ("x_bath", "What needs a bath and has none",
         _named(bath, '"CAUTION no bath: nothing lies in a brine by this method, so it is not used ("&', '&"). Clear it."')),
        ("x_cure", "Nitrite without a curing salt",
         ('IF(AND({cure}="",OR({cure_ppm}<>"",{cure_method}<>"")),"CAUTION curing salt: no curing salt is chosen, so none is weighed out. '
         'Choose it, but never with cola, wine or another acid in the brine; or clear Nitrite and Reckoned as.","")')),
        ("x_level", "Levels without a name",
         _named(loose, '"CAUTION level: a level stands without its name ("&',
                '&") and counts for nothing. Choose the name, or clear the level."')),
    ]  # fmt: skip


def _short() -> str:
    """Hours typed that are fewer than the soak usually takes, as far as they are told."""
    usual = f"IF({EVEN},{{w_soak_e}},{{w_soak_d}}+1)"
    less = _less("{w_average}")
    holds = (
        f'IF({DRY}," Taken out then, it is saltier outside than inside.","")&IF(AND({EVEN},{less})," Taken out then, it holds about "&{_share("{w_average}")}&" salt on average, not "'
        f'&{_share("{target}")}&".","")'
    )
    enough = f"OR({{w_hours}}>={usual},{hours_in_words('{w_hours}')}={hours_in_words(usual)})"
    return (
        f'IF(OR({{w_hours}}="",NOT(OR({EVEN},{DRY}))),"",IF({enough},"","CAUTION hours I have: "&{hours_in_words("{w_hours}")}'
        f'&" is short; it takes about "&{hours_in_words(usual)}&"."&{holds}))'
    )


def _late() -> str:
    """The slow estimate ends after it must be ready; later than anything is left in a brine, the method is wrong for it."""
    late = "({w_soak_slow}-{w_soak}-{w_rest})"
    thick = '" Too thick for this method: cut it thinner"&IF(INDEX(list_perishable,{w_listed})=1,", or inject it.",".")'
    much = f"{late}>MAX(list_cap)"
    told = f'IF({much},"more than "&{hours_in_words("MAX(list_cap)")},"up to "&{hours_in_words(late)})'
    holds = (
        f'IF({DRY},IF({much},"."&{thick},". Start it sooner, or cut it thinner."),"; out in time it holds about "&{_share("{w_low}")}&" salt on average, '
        f'not "&{_share("{target}")}&"."&IF({much},{thick}," Put it in sooner and let the meter decide."))'
    )
    enough = f"AND(NOT({DRY}),NOT({_less('{w_low}')}))"
    return (
        f'IF(OR({{ready}}="",{INJECTED},{{x_short}}<>""),"",IF(OR({late}<=0.1,{enough}),"","NOTE ready at: may be "'
        f'&{told}&" late if salt goes in slowly"&{holds}))'
    )


def columns() -> List[Field]:
    """The remarks of a row, each in a cell of its own, the worst first."""
    texts = [
        *_ignored(),
        ("x_clock", "Hours that may be a time of day",
         ('IF({w_hours}="","",IF(OR({w_hours}>=1,ISTEXT({hours})),"","CAUTION hours I have: "&ROUND(60*{w_hours}+1E-9,0)&" min is very short. '
         'Look again: 12:00 typed there is a time of day and counts as half a day; type 12 for twelve hours."))')),
        ("x_short", "Hours that are too short", _short()),
        ("x_ice", "Too little water for the ice",
         ('IF({w_ice}=0,"",IF({w_ice}<{w_liquid},"","CAUTION brine temperature: even with all its water as ice the brine may not be cold '
         'enough, since the acid brings the rest. Chill that too, and measure."))')),
        ("x_method", "Method that is assumed",
         ('IF({method}="","NOTE method: left blank, so gradient is taken: a soak that ends at its time. '
         'Choose the one you mean.","")')),
        ("x_gain", "Gain that is assumed",
         f'IF(AND({INJECTED},{{gain}}=0),"NOTE weight gained: left blank, so 10 % is reckoned. Type what is pumped in.","")'),
        ("x_vessel", "Vessel that is not used",
         f'IF(AND({NO_BATH},{{vessel}}<>""),"NOTE vessel: the vessel is not used, since nothing lies in a brine by this method.","")'),
        ("x_nap", "Rest that may be a time of day",
         ('IF(ISNUMBER({rest}),IF(AND({rest}>0,{rest}<1,{rest}<>0.5),"NOTE rest: "&ROUND(60*{rest}+1E-9,0)&" min is short. '
         'Look again: 8:00 typed there is a time of day and counts as a third of a day; type 8 for eight hours.",""),"")')),
        ("x_midnight", "No time of day",
         ('IF({ready}="","",IF({w_ready}-INT({w_ready})>0.0001,"","NOTE ready at: no time of day is given, so the midnight '
         'that begins that day is meant."))')),
        ("x_year", "Far from the other batches",
         (f'IF({{ready}}="","",IF(ABS({{w_ready}}-MEDIAN({{ready:all}}))<={APART},"","NOTE ready at: months away from the other batches. '
         'Is its year right? A date typed without one gets the year it is typed in."))')),
        ("x_late", "Late if slow", _late()),
    ]  # fmt: skip
    return [
        Field(key, heading, "text", f'=IF({{w_on}}=0,"",IF({{w_fails}}<>0,"",{formula}))', width=14)
        for key, heading, formula in texts
    ]


CAUTIONS = ("x_hours", "x_strength", "x_bath", "x_cure", "x_level", "x_clock", "x_short", "x_ice")
NOTES = ("x_method", "x_gain", "x_vessel", "x_nap", "x_midnight", "x_year", "x_late")


def _first(keys: Tuple[str, ...]) -> str:
    made = '""'
    for key in reversed(keys):
        made = f'IF({{{key}}}<>"",{{{key}}},{made})'
    return made


def _joined(keys: Tuple[str, ...]) -> str:
    """A formula for these texts, each after a new line."""
    return "&".join(f'IF({{{key}}}="","",CHAR(10)&{{{key}}})' for key in keys)


def _by_gravity(keys: Tuple[str, ...], grave: bool) -> str:
    """A formula for those findings of the rules that are a STOP or a CAUTION, or for the notes, each after a new line."""
    cells = [f"{{{key}}}" for key in keys]
    bad = 'OR(LEFT(@,4)="STOP",LEFT(@,7)="CAUTION")'
    asked = bad if grave else f'NOT(OR({bad},@="ok",@=""))'
    return "&".join(f'IF({asked},CHAR(10)&@,"")'.replace("@", cell) for cell in cells)


def findings(arguments: str) -> List[Field]:
    """The findings of the rules after the worst, and all that is said of the row in one text.

    `arguments` are the heading row and the row of values that BRINE_FINDINGS reads.
    """
    table = f"BRINE_FINDINGS({arguments})"
    more = tuple(f"c_{number}" for number in range(2, LISTED + 1))
    listed = ("c_worst", *more)
    bad = "+".join(f'IF(OR(LEFT({{{key}}},4)="STOP",LEFT({{{key}}},7)="CAUTION"),1,0)' for key in (*listed, *CAUTIONS))
    notes = "+".join(f'IF({{{key}}}<>"",1,0)' for key in NOTES)
    cautions = "+".join(f'IF({{{key}}}<>"",1,0)' for key in CAUTIONS)
    beyond = f'IF({{c_count}}>{LISTED},CHAR(10)&"and "&({{c_count}}-{LISTED})&" more, which BRINE_FINDINGS lists","")'
    ours, quiet = _joined(CAUTIONS), _joined(NOTES)
    texts: List[Tuple[str, str, str]] = [
        ("c_count", "How many", f'IF({{c_worst}}="ok",0,ROWS({table}))'),
        *((f"c_{n}", f"No. {n}",
           f'IF({{c_count}}<{n},"",'
           + as_headed(f'INDEX({table},{n},1)&" "&INDEX({table},{n},2)&": "&INDEX({table},{n},3)') + ")")
          for n in range(2, LISTED + 1)),
        ("c_own", "The plan's first remark", _first((*CAUTIONS, *NOTES))),
        ("c_first", "The worst of all",
         ('IF(OR(LEFT({c_worst},4)="STOP",LEFT({c_worst},7)="CAUTION"),{c_worst},IF(LEFT({c_own},7)="CAUTION",{c_own},'
         'IF({c_worst}<>"ok",{c_worst},IF({c_own}<>"",{c_own},"ok"))))')),
        ("c_bad", "Of them STOP or CAUTION", bad),
        ("c_all", "All of them", f"{{c_count}}+{cautions}+{notes}"),
        ("c_more", "More than the worst",
         ('IF({c_all}<2,"","  (+"&IF({c_bad}>1,({c_bad}-1)&IF(LEFT({c_worst},4)="STOP"," STOP or CAUTION"," CAUTION"),"")&IF(AND({c_bad}>1,{c_all}>{c_bad})," and ","")'
         '&IF({c_all}-MAX({c_bad},1)>0,({c_all}-MAX({c_bad},1))&" NOTE","")&" more: see Findings)")')),
        ("c_text", "All in words",
         (f'IF({{w_fails}}<>0,"FAILS: "&{{w_reason}},IF({{c_all}}=0,"",'
          f'MID({_by_gravity(listed, True)}&{ours}&{_by_gravity(listed, False)}&{beyond}&{quiet},2,5000)))')),
        ("c_ferment", "Sours by itself (1 yes)", _ferments("&".join(f"{{{key}}}" for key in listed), table)),
        # an error keeps to its own line: the lines of the other batches are found by counting these
        ("c_lines", "Lines", 'IF(ISERROR({c_text}),1,IF({c_text}="",0,LEN({c_text})-LEN(SUBSTITUTE({c_text},CHAR(10),""))+1))'),
    ]  # fmt: skip
    counts = ("c_ferment", "c_count", "c_bad", "c_all", "c_lines")
    made = [
        Field(key, heading, "count" if key in counts else "text", f'=IF({{w_on}}=0,"",{formula})', width=14)
        for key, heading, formula in texts
    ]
    return [*made, Field("c_before", "Lines of the batches before", "count", "=0", width=14)]


def _ferments(listed: str, table: str) -> str:
    """Whether the rules find that the batch sours by itself: by what that finding says, and no other does."""
    says = ids().find("ferment-ph").sentence.split("{limit}")[0].split("{product}")[1]
    more = '""'
    for number in range(SEARCHED, LISTED, -1):
        more = f'IF({{c_count}}<{number},"",INDEX({table},{number},3)&{more})'
    return f'IF({{c_worst}}="ok",0,IF(ISNUMBER(FIND("{says}",{listed}&{more})),1,0))'
