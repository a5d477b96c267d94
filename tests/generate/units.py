"""Writes units.csv, the one closed table of units that cells may use, from the definitions of pint.

One idea: every host must know the same units with the same factors, and most hosts cannot carry pint. So the
factors are worked out here once, as exact fractions, and kept as a table. Run it again after a change:
``python -m tests.generate.units``. Only this script needs pint; nothing in the library imports it.
"""

from __future__ import annotations

import csv
import io
from fractions import Fraction
from pathlib import Path
from typing import Any, List, Tuple

PATH = Path(__file__).parents[2] / "brinecalc" / "tables" / "units.csv"

BASES = {
    "mass": "gram",
    "length": "millimeter",
    "time": "hour",
    "temperature": "degree_Celsius",
    "volume": "milliliter",
    "share": "dimensionless",
    "count": "count",
}
"""The unit, as pint calls it, that the library computes in; water is a mass and hours are a time."""

# name, dimension, pint's expression, source, other spellings. Spellings of two letters or more are read without
# regard to case, full stops and doubled spaces; a single letter only as it stands here. The base unit comes first.
UNITS: Tuple[Tuple[str, str, str, str, str], ...] = (
    ("g", "mass", "gram", "si-units", "gram;grams;gramme;grammes"),
    ("kg", "mass", "kilogram", "si-units", "kgs;kilo;kilos;kilogram;kilograms;kilogramme;kilogrammes"),
    ("mg", "mass", "milligram", "si-units", "milligram;milligrams;milligramme;milligrammes"),
    ("tonne", "mass", "metric_ton", "si-units", "tonnes;metric ton;metric tons"),
    ("oz", "mass", "ounce", "si-units", "ozs;ounce;ounces"),
    ("lb", "mass", "pound", "si-units", "lbs;pound;pounds"),
    ("mm", "length", "millimeter", "si-units", "millimetre;millimetres;millimeter;millimeters"),
    ("cm", "length", "centimeter", "si-units", "centimetre;centimetres;centimeter;centimeters"),
    ("m", "length", "meter", "si-units", "metre;metres;meter;meters"),
    ("in", "length", "inch", "si-units", "ins;inch;inches;\";″;”;''"),
    ("ft", "length", "foot", "si-units", "foot;feet;';′;’"),
    ("h", "time", "hour", "si-units", "H;hr;hrs;hour;hours"),
    ("min", "time", "minute", "si-units", "mins;minute;minutes"),
    ("s", "time", "second", "si-units", "sec;secs;second;seconds"),
    ("day", "time", "day", "si-units", "d;days"),
    ("week", "time", "week", "si-units", "weeks;wk;wks"),
    (
        "°C",
        "temperature",
        "degree_Celsius",
        "si-units",
        "C;℃;° c;degc;deg c;degree c;degrees c;celsius;degree celsius;degrees celsius;centigrade",
    ),
    (
        "°F",
        "temperature",
        "degree_Fahrenheit",
        "si-units",
        "F;f;℉;° f;degf;deg f;degree f;degrees f;fahrenheit;degree fahrenheit;degrees fahrenheit",
    ),
    ("K", "temperature", "kelvin", "si-units", "kelvin;kelvins"),
    ("mL", "volume", "milliliter", "si-units", "cc;mls;millilitre;millilitres;milliliter;milliliters"),
    ("cL", "volume", "centiliter", "si-units", "centilitre;centilitres;centiliter;centiliters"),
    ("dL", "volume", "deciliter", "si-units", "decilitre;decilitres;deciliter;deciliters"),
    ("L", "volume", "liter", "si-units", "l;ltr;ltrs;litre;litres;liter;liters"),
    ("tsp", "volume", "teaspoon", "si-units", "tsps;teaspoon;teaspoons;us tsp"),
    ("tbsp", "volume", "tablespoon", "si-units", "tbsps;tbs;tablespoon;tablespoons;us tbsp"),
    ("fl oz", "volume", "fluid_ounce", "si-units", "floz;fluid oz;fluid ounce;fluid ounces;us fl oz"),
    ("cup", "volume", "cup", "si-units", "cups;us cup;us cups"),
    ("pt", "volume", "pint", "si-units", "pts;pint;pints;us pt;us pint;us pints"),
    ("qt", "volume", "quart", "si-units", "qts;quart;quarts;us qt;us quart;us quarts"),
    ("gal", "volume", "gallon", "si-units", "gals;gallon;gallons;us gal;us gallon;us gallons"),
    (
        "imp fl oz",
        "volume",
        "imperial_fluid_ounce",
        "si-units",
        "imperial fl oz;imperial fluid ounce;imperial fluid ounces",
    ),
    ("imp pt", "volume", "imperial_pint", "si-units", "imp pint;imp pints;imperial pint;imperial pints"),
    ("imp qt", "volume", "imperial_quart", "si-units", "imp quart;imp quarts;imperial quart;imperial quarts"),
    (
        "imp gal",
        "volume",
        "imperial_gallon",
        "si-units",
        "imp gallon;imp gallons;imperial gal;imperial gallon;imperial gallons",
    ),
    ("metric cup", "volume", "250 * milliliter", "common-practice", "metric cups"),
    ("1", "share", "dimensionless", "definition", "share;fraction"),
    ("%", "share", "percent", "definition", "percent;per cent;pct"),
    ("‰", "share", "permille", "definition", "per mille;permille;per mil"),
    ("ppm", "share", "ppm", "definition", "parts per million"),
    ("g/kg", "share", "gram / kilogram", "definition", ""),
    ("mg/kg", "share", "milligram / kilogram", "definition", ""),
    ("each", "count", "count", "definition", "ea;ct;count;pc;pcs;piece;pieces"),
    ("dozen", "count", "12 * count", "definition", "dozens;doz;dz"),
    ("gross", "count", "144 * count", "definition", ""),
)

HEADER = """\
# units: every unit that a cell may name, and no other. Generated by python -m tests.generate.units
# from the definitions of pint; do not edit. base value = (value - offset) * factor
#: name | text | any | the unit as results show it
#: dimension | choice mass/length/time/temperature/volume/share/count | any | what it measures
#: factor | base units | above 0 | size in the base unit (g, mm, h, °C, mL, share of one, each)
#: exact | text | any | the same factor as an exact fraction
#: offset | units of the row | any | reading that corresponds to 0 of the base unit; other than 0 for °F and K only
#: aliases | list | optional any | other spellings; a single letter counts only as it stands here
#: pint | text | any | the unit in pint's words
#: source | source | any | who defines it
"""


def rows() -> List[Tuple[str, str, str, str, str, str, str, str]]:
    """The rows of the table, worked out with exact fractions."""
    import pint

    registry: Any = pint.UnitRegistry(non_int_type=Fraction)
    made = []
    for name, dimension, expression, source, aliases in UNITS:
        factor, offset = _scale(registry, expression, BASES[dimension])
        made.append(
            (name, dimension, repr(float(factor)), str(factor), repr(float(offset)), aliases, expression, source)
        )
    return made


def _scale(registry: Any, expression: str, base: str) -> Tuple[Fraction, Fraction]:
    """Factor and offset of a unit, from where it puts the base's 0 and 1."""
    number, _, unit = expression.rpartition(" * ")
    times = Fraction(number or 1)
    zero = Fraction(registry.Quantity(Fraction(0), base).to(unit).magnitude)
    one = Fraction(registry.Quantity(Fraction(1), base).to(unit).magnitude)
    return times / (one - zero), zero / times


def text() -> str:
    """The whole file as text."""
    out = io.StringIO()
    out.write(HEADER)
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(("name", "dimension", "factor", "exact", "offset", "aliases", "pint", "source"))
    writer.writerows(rows())
    return out.getvalue()


def main() -> None:
    """Writes the table."""
    PATH.write_text(text(), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
