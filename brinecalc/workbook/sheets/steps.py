"""The columns of the workings as they are written: one step of a batch each, and the sentence if it fails.

One idea: a step is empty where nothing is planned, and whatever ends in an error has its sentence beside it, so that
no row can fail without saying why.
"""

from __future__ import annotations

from brinecalc.workbook.frame import Field

TIME = "{w_degree},{w_bath},{w_shape},{w_treatment}"
"""The arguments that most time functions end with."""

METHODS = ("gradient", "equilibrium", "dry equilibrium", "injected")

COLD = 4.0
"""°C at which perishable food goes into a brine: where kitchens keep it, a degree under the rule."""

GRADIENT = '{w_method}="gradient"'
INJECTED = '{w_method}="injected"'
DRY = '{w_method}="dry equilibrium"'
EVEN = '{w_method}="equilibrium"'
WET = f"OR({GRADIENT},{EVEN})"
NO_BATH = f"OR({INJECTED},{DRY})"

_TYPED = {
    "{w_weight}": '{weight}&" "&typed_mass',
    "{w_size}": "{w_said_size}",
    "{w_degree}": "{w_said_degree}",
    "{w_portion}": '{portion}&" "&typed_portion',
    "{w_vessel}": '{vessel}&" "&typed_volume',
}
"""What was typed with its unit, for what is calculated with: a reason repeats it as the cook wrote it."""


def when_on(formula: str) -> str:
    """A formula that stays empty in rows in which nothing is planned."""
    return f'=IF({{w_on}}=0,"",{formula})'


def call(key: str, heading: str, function: str, arguments: str, form: str = "plain", only: str = "", other: str = '""',
         outer: str = "{call}") -> Field:  # fmt: skip
    """A column that calls one of our functions, `only` where a condition holds, and can be asked why it fails."""
    made = outer.format(call=f"BRINE_{function}({arguments})")
    formula = f"IF({only},{made},{other})" if only else made
    asked = arguments
    for base, typed_as in _TYPED.items():
        asked = asked.replace(base, typed_as)
    return Field(key, heading, form, when_on(formula), why=f'BRINE_WHY("{function}",{asked})')


def step(key: str, heading: str, formula: str, form: str = "plain", why: str = "") -> Field:
    """A column of plain arithmetic; `why` is the sentence for the plan where it ends in an error."""
    return Field(key, heading, form, when_on(formula), why=f'"{why}"' if why else "")


def got(says: str, source: str) -> str:
    """A formula for a refusal that repeats what was typed; more advice may follow the comma-free `says` after a bar."""
    must, _, advice = says.partition("|")
    return f'"{must}, got """&{{{source}}}&"""{advice}."'


def typed(key: str, heading: str, source: str, value: str, blank: str, form: str = "plain", says: str = "",
          missing: str = "") -> Field:  # fmt: skip
    """A figure as it was typed, in base units. Text in its place fails with what it must be, and what stands there."""
    number = f"IF(ISNUMBER({{{source}}}),{value},SQRT(-1))"
    made = step(key, heading, f'IF({{{source}}}="",{blank},{number})', form)
    why = got(says, source)
    return made._replace(why=f'IF({{{source}}}="","{missing}",{why})' if missing else why)
