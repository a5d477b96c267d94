"""How long a batch lies, by its method: what the salt takes, and no less than curing salt is given by custom.

One idea: the sheet must not work out a time that its own rules then call too short.
"""

from __future__ import annotations

from typing import List

from brinecalc.trade import limits
from brinecalc.workbook.frame import Field
from brinecalc.workbook.sheets.steps import DRY, EVEN, GRADIENT, INJECTED, TIME, call, step

_HALF_INCH = 12.7
_HAIR = 1e-6
"""Hours more, so that the rule finds the custom met whatever the last digit."""


def custom() -> Field:
    """The shortest customary time in the cure where it comes in from outside, as the rules ask for it; 0 where none is."""
    halves = f"{{w_size}}/{_HALF_INCH:g}"
    least = f"{limits.value('cure hours per half inch'):g}*(MAX({halves},1)+2)"
    strip = f"MAX({least}*({halves})^2,{limits.value('pumped cure rest'):g})"  # time goes with the square of it
    outside = 'OR({cure_method}="dry",{cure_method}="pick-up",{cure_method}="equilibrium")'
    asked = f'AND({{cure}}<>"",{outside},OR({EVEN},{DRY}),ISNUMBER({{w_size}}))'
    hours = f"IF({{w_size}}<{_HALF_INCH:g},{strip},{least})+{_HAIR:f}"
    return step("w_custom", "Shortest customary time in the cure, h", f"IF({asked},{hours},0)", "hours")


def soak(key: str, heading: str, estimate: str) -> List[Field]:
    """Soak hours of one estimate, by method.

    A dry cure goes in at the surface within about an hour and spreads from there: its time is that of a rest until
    even, not of a soak in a bath that never weakens, which would be several times longer. With curing salt no estimate
    is shorter than the custom that the rules hold it to.
    """
    waited = f"MAX({{w_custom}},IF({EVEN},{{{key}_e}},{{{key}_d}}+1))"
    if estimate == "typical":
        waited = f'IF({{w_hours}}="",{waited},{{w_hours}})'
    return [
        call(f"{key}_g", f"{heading}, gradient", "SOAK_HOURS",
             "{product},{w_size},{target},{w_strength}," + TIME + f',"{estimate}",{{w_native}}', "hours", GRADIENT),
        call(f"{key}_e", f"{heading}, equilibrium", "EQUILIBRIUM_HOURS",
             "{product},{w_size},closeness," + TIME + f',"{estimate}"', "hours", EVEN),
        call(f"{key}_d", f"{heading}, dry", "REST_HOURS",
             "{product},{w_size},1,evenness,{w_degree},{w_shape},{w_treatment},"
             f'"{estimate}"', "hours", DRY),
        step(key, heading, f"IF({GRADIENT},{{{key}_g}},IF({INJECTED},0,{waited}))", "hours"),
    ]  # fmt: skip
