"""The workbook's settings: named cells on the first sheet that every other sheet counts with.

One idea: units are numbers, not text. Two choices (how figures are typed in, how they are shown) set factors to
grams, millimetres and millilitres; all sheets calculate in those base units and divide once when they show.
"""

from __future__ import annotations

from typing import Any, List, NamedTuple, Optional, Tuple

from openpyxl.worksheet.worksheet import Worksheet

from brinecalc.workbook import frame, styles
from brinecalc.workbook.book import Book

SHEET = "Start"
UNITS = ("metric", "US")
RATIO, REST, ALKALINITY = (0.2, 20), (0, 240), (0, 1000)
"""Least and most of a setting; a figure that is pasted past the cell's own check is held to them all the same."""


class Setting(NamedTuple):
    """One named cell: a value to set, or a formula that follows from others."""

    name: str
    label: str
    value: Any
    form: str = "plain"
    choices: Optional[str] = None
    limits: Optional[Tuple[float, float]] = None
    help: str = ""

    @property
    def is_input(self) -> bool:
        """Whether a person sets it."""
        return not (isinstance(self.value, str) and self.value.startswith("="))


def rules(units: str) -> str:
    """Whose rules a new workbook in `units` is held to."""
    return "US" if units == "US" else "EU"


def to_set(units: str) -> List[Setting]:
    """What a person may change, with the values of a new workbook in `units` (metric or US)."""
    cold, tap, ice = (4, 15, 0) if units == "metric" else (38, 60, 32)
    return [
        Setting("kitchen", "Kitchen", "", help="Printed on every card."),
        Setting("prepared_by", "Prepared by", "", help="Printed on every card."),
        Setting("typed_units", "Figures are typed in", units, choices=f'"{",".join(UNITS)}"',
                help="metric: kg, mm, L, °C. US: lb, in, qt, °F. Choose before filling in: it re-reads what is typed."),
        Setting("shown_units", "Results are shown in", units, choices=f'"{",".join(UNITS)}"',
                help="Changes what is shown; nothing typed changes its meaning."),
        Setting("rules", "Limits by the rules of", rules(units), choices='"US,EU"',
                help="Which curing limits are applied. Local rules come first."),
        Setting("bath_ratio", "Brine water per weight of product", 1.0, "0.00", limits=RATIO,
                help="Weight of water for each weight of edible product, where a batch does not say."),
        Setting("bath_temperature", "Brine temperature while soaking", cold, "temperature",
                help="Where a batch does not say; blank: 4 °C / 39 °F. Keep perishable food at 5 °C / 41 °F or below."),
        Setting("tap_temperature", "Water from the tap or pot", tap, "temperature",
                help="Sets how much ice is held back from the water. Blank: none is held back, as if it were cold enough."),
        Setting("ice_temperature", "Ice", ice, "temperature",
                help="0 °C / 32 °F for wet ice; lower out of a freezer. Blank: wet ice."),
        Setting("rest_hours", "Rest after the soak, hours", 2, "hours", limits=REST,
                help="Out of the brine, chilled and open, where a batch does not say."),
        Setting("evenness", "Even enough", 0.5, "share", limits=(0.01, 0.99),
                help="Salt added at the centre over salt added at the surface that counts as even."),
        Setting("closeness", "Equilibrium counts as reached at", 0.9, "share", limits=(0.1, 0.99),
                help="Share of all the salt the product will ever take up."),
        Setting("overage", "Injection brine mixed beyond the gain", 0.1, "share", limits=(0, 0.99),
                help="What stays in hoses and trays; costs money, is not in the product."),
        Setting("headroom", "Room left in a vessel", 0.1, "share", limits=(0, 0.5),
                help="Part of the vessel that stays empty."),
        Setting("water_alkalinity", "Alkalinity of the water, mg/L", "", "0", limits=ALKALINITY,
                help="As CaCO3, from the water report; for the pH of brine and curing salt. Blank: not given."),
    ]  # fmt: skip


def within(name: str, limits: Tuple[float, float]) -> str:
    """A formula for whether a setting is a number within its limits."""
    return f"IF(ISNUMBER({name}),AND({name}>={limits[0]:g},{name}<={limits[1]:g}),FALSE)"


def refusal(name: str, label: str, limits: Tuple[float, float], plain: str, instead: str) -> str:
    """A formula for the sentence about one that is not: text is told what it is to be, a number how much."""
    between = f'at least {limits[0]:g} and at most {limits[1]:g}, got "&{name}&"; {instead}."'
    return f'"{label}, on Start, must be "&IF(ISTEXT({name}),"{plain}, got """&{name}&""".","{between})'


RATIO_HOLDS = within("bath_ratio", RATIO)
WRONG_RATIO = refusal(
    "bath_ratio", "Brine water per weight of product", RATIO, "a plain number", "type 1 for as much water as product"
)
"""Formulas for whether the water per product on Start can be used, and what is said where it cannot."""


def _wrong() -> str:
    """What is wrong with a setting that every batch is read by, empty where nothing is."""
    asked = f'OR(water_alkalinity="",{within("water_alkalinity", ALKALINITY)})'
    instead = "type what the water report says, or clear it where that is not known"
    words = refusal("water_alkalinity", "Alkalinity of the water", ALKALINITY, "a plain number of mg/L", instead)
    found = f'IF({asked},"",{words})'
    known = ",".join(f'typed_units="{units}"' for units in UNITS)
    must = f"Figures are typed in, on Start, must be {' or '.join(UNITS)}"
    return f'=IF(OR({known}),{found},"{must}, got """&typed_units&"""; choose it from the list there.")'


def derived() -> List[Setting]:
    """What follows from the choices: factors to the base units, and the words for units."""
    typed = 'typed_units="US"'
    shown = 'shown_units="US"'

    def celsius(name: str, blank: str) -> str:
        read = f'IFERROR(BRINE_UNIT({name},"","°C"),IFERROR(BRINE_UNIT({name},typed_degree,"°C"),{name}))'
        return f'=IF({name}="",{blank},IF(ISNUMBER({name}),IF({typed},({name}-32)/1.8,{name}),{read}))'

    return [
        Setting("mass_in_g", "One typed weight in grams", f"=IF({typed},453.59237,1000)"),
        Setting("length_in_mm", "One typed length in millimetres", f"=IF({typed},25.4,1)"),
        Setting("volume_in_ml", "One typed volume in millilitres", f"=IF({typed},946.352946,1000)"),
        Setting("portion_in_g", "One typed portion in grams", f"=IF({typed},28.349523125,1)"),
        Setting("typed_mass", "Word for weight, typed", f'=IF({typed},"lb","kg")'),
        Setting("typed_length", "Word for length, typed", f'=IF({typed},"in","mm")'),
        Setting("typed_volume", "Word for volume, typed", f'=IF({typed},"qt","L")'),
        Setting("typed_portion", "Word for portion, typed", f'=IF({typed},"oz","g")'),
        Setting("typed_degree", "Word for temperature, typed", f'=IF({typed},"°F","°C")'),
        Setting("bath_celsius", "Brine temperature, °C", celsius("bath_temperature", "4"), "temperature"),
        Setting("tap_celsius", "Tap water, °C", celsius("tap_temperature", "bath_celsius"), "temperature"),
        Setting("ice_celsius", "Ice, °C", celsius("ice_temperature", "0"), "temperature"),
        Setting("shown_mass_g", "One shown weight in grams", f"=IF({shown},453.59237,1000)"),
        Setting("shown_small_g", "One shown small weight in grams", f"=IF({shown},28.349523125,1)"),
        Setting("shown_length_mm", "One shown length in millimetres", f"=IF({shown},25.4,1)"),
        Setting("shown_volume_ml", "One shown volume in millilitres", f"=IF({shown},946.352946,1000)"),
        Setting("mass_word", "Word for weight, shown", f'=IF({shown},"lb","kg")'),
        Setting("small_word", "Word for small weights, shown", f'=IF({shown},"oz","g")'),
        Setting("length_word", "Word for length, shown", f'=IF({shown},"in","mm")'),
        Setting("volume_word", "Word for volume, shown", f'=IF({shown},"qt","L")'),
        Setting("degree_word", "Word for temperature, shown", f'=IF({shown},"°F","°C")'),
        Setting("wrong_setting", "What is wrong with a setting", _wrong()),
    ]


def write(book: Book, sheet: Worksheet, settings: List[Setting], row: int) -> int:
    """Writes settings from `row` down: label in B, value in C, help in D; returns the next free row."""
    for setting in settings:
        styles.put(sheet, f"B{row}", setting.label, "body")
        styles.put(sheet, f"C{row}", setting.value, "input" if setting.is_input else "cell", setting.form)
        if setting.help:
            styles.put(sheet, f"D{row}", setting.help, "aside")
        if setting.is_input:
            field = frame.Field(
                setting.name, setting.label, setting.form, choices=setting.choices, limits=setting.limits,
                help=setting.help,
            )  # fmt: skip
            if setting.form == "temperature":
                frame.validate_degree(sheet, field, f"C{row}")
            else:
                frame.validate(sheet, field, f"C{row}")
        book.name(setting.name, sheet.title, f"$C${row}")
        row += 1
    return row
