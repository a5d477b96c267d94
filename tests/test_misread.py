"""Texts that are refused, and the way out that each refusal shows."""

from __future__ import annotations

import re

import pytest
from each import each

from brinecalc import quantity, registry, units
from brinecalc.errors import Unreadable
from brinecalc.tables import load


def reason(text: str, dimension: str) -> str:
    with pytest.raises(Unreadable) as caught:
        quantity.read(text, dimension)
    assert caught.value.cell == "#VALUE!"
    return caught.value.sentence()


@each(
    ("text", "ways"),
    [
        ("1,000 g", ('"1000 g"', '"1.000 g"')),
        ("12,500", ('"12500"', '"12.500"')),
        ("1 000 g", ('"1000 g"',)),
        ("1\u00a0000 g", ('"1000 g"',)),
        ("1\u202f000 g", ('"1000 g"',)),
        ("1'000 g", ('"1000 g"',)),
        ("1\u2019000 g", ('"1000 g"',)),
        ("1,000,000 g", ('"1000000 g"',)),
        ("1,234.5 g", ('"1234.5 g"',)),
        ("1.234,5 g", ("one decimal mark",)),
        ("1.234.567 g", ("one decimal mark",)),
    ],
)
def test_thousands_marks_are_refused_with_the_ways_to_write_it(text, ways):
    assert all(way in reason(text, "mass") for way in ways)


@each(
    ("text", "way"),
    [
        ("2 T", "tbsp"),
        ("2 t", "tsp"),
        ("2 c", "cup"),
        ("2 G", "gal"),
        ("2 k", "kg"),
        ("2 M", "metres"),
        ("50#", "lb"),
        ("5 gr", "write g"),
        ("2 tons", "tonne"),
        ("38°", "°C or °F"),
        ("38 deg", "°C or °F"),
        ("2 bags", "25 kg"),
        ("25 kg bag", 'leave out "bag"'),
        ("2 sticks", "g, kg, mg, tonne, oz, lb"),
    ],
)
def test_unclear_units_are_refused_with_the_ones_to_write(text, way):
    assert way in reason(text, "mass")


@each(
    ("text", "dimension", "ways"),
    [
        ("1000 g", "length", ("a mass", "25 mm or 1 in")),
        ("1000 g", "share", ("a mass", "5% or 0.05")),
        ("5%", "mass", ("a share", "2.5 kg")),
        ("5 lb", "volume", ("a mass", "BRINE_VOLUME")),
        ("8 oz", "volume", ("a mass", "fl oz")),
        ("1 cup", "mass", ("a volume", "BRINE_WEIGHT")),
        ("5 gal", "mass", ("a volume", "a brine weighs its mL times BRINE_DENSITY")),
        ("2 C", "volume", ("a temperature", "cup")),
        ("5 m", "time", ("a length", "min")),
        ("5 min", "length", ("a time", "for metres write m")),
        ("25 mm", "water", ("a length", "2 L, 1 gal or 5 kg")),
        ("2 dozen", "mass", ("a count", "2.5 kg")),
        ("4 h", "temperature", ("a time", "4 °C or 40 °F")),
    ],
)
def test_another_kind_is_named_beside_the_one_wanted(text, dimension, ways):
    assert all(way in reason(text, dimension) for way in ways)


@each(
    ("text", "dimension", "way"),
    [
        ("6/1 gal", "volume", "6 x 1 gal"),
        ("1/0 in", "length", "1/2"),
        ("1 3/2 in", "length", "1 1/2"),
        ("0/2 in", "length", "1/2"),
        ("$5", "number", "currency"),
        ("5 €", "number", "currency"),
        ("1:30", "time", "1 h 30 min"),
        ("3OO", "number", "a letter that looks like 0 or 1"),
        ("1o kg", "mass", "a letter that looks like 0 or 1"),
        ("l2 kg", "mass", "a letter that looks like 0 or 1"),
        ("1.O5 L", "volume", "a letter that looks like 0 or 1"),
        ("2-3 kg", "mass", "not a range"),
        ("2–3 kg", "mass", "not a range"),
        ("5 lb 4", "mass", "a unit after each number"),
        ("4 oz 3 lb", "mass", "larger unit first"),
        ("5 kg 3 kg", "mass", "one figure, not two"),
        ("5 °F 3 °C", "temperature", "larger unit first"),
        ("3 lb 4 in", "mass", "a length"),
        ("2 kg or 3 kg", "mass", "one figure, not two"),
        ("2 kg/3 kg", "mass", "one figure, not two"),
        ("2 to 3 kg", "mass", "one figure, not two"),
        ("2kg; 3kg", "mass", "one figure, not two"),
        ("3 kg 2000 g", "mass", "one figure, not two"),
        ("1 lb 16 oz", "mass", "one figure, not two"),
        ("2 in 30 mm", "length", "one figure, not two"),
        ("1 day 30 h", "time", "one figure, not two"),
        ("25/30 mm", "length", "Write one of them, or 0.833"),
        ("5/6 g", "mass", "Write one of them, or 0.833"),
        ("5% or 6%", "share", "one figure, not two"),
        ("20..30 mm", "length", "one figure, not two"),
        ("8/10 h", "time", "two figures, or a fraction"),
        ("5 g\u200f", "mass", "hidden character"),
        ("\u202e5 g", "mass", "hidden character"),
        ("5\tg", "mass", "hidden character"),
        ("5 g\x00", "mass", "hidden character"),
        ("5\ng", "mass", "hidden character"),
        ("\uff15 g", "mass", "0 to 9"),
        ("٥ g", "mass", "0 to 9"),
        ("1e400 g", "mass", "too large or too small"),
        ("1e-400 g", "mass", "too large or too small"),
        ("1e308 kg", "mass", "too large or too small"),
        ("", "mass", "2.5 kg"),
        ("   ", "mass", "2.5 kg"),
        ("kg", "mass", "2.5 kg"),
        ("-", "temperature", "4 °C or 40 °F"),
        ("1 lb 2 oz 3 oz 4 oz", "mass", "2.5 kg"),
        ("9" * 1_000_000, "mass", "too long"),
        (" " * 61, "mass", "too long"),
    ],
)
def test_a_slip_is_answered_with_its_own_way_out(text, dimension, way):
    assert way in reason(text, dimension)


@each(
    "text",
    [
        "9**9**9 kg",
        "__import__('os').getcwd()",
        "1_000 kg",
        "0x10 kg",
        "nan kg",
        "inf g",
        "-inf g",
        "1+1 kg",
        "=2 kg",
        "2*3 kg",
        "(2 kg)",
        "2 kg; 3 kg",
        "2^3 kg",
        "1e 3 kg",
        "kg 2",
        "5 кг",
        "--5 g",
        ",5 kg",
        "1.5.3 kg",
    ],
)
def test_nothing_is_ever_evaluated(text):
    for dimension in ("mass", "water", "volume", "share"):
        assert reason(text, dimension).startswith("must be ")


def test_a_text_that_is_too_long_is_told_by_its_length_alone():
    class Text(str):
        """A text that may only be measured."""

        def __iter__(self):
            raise AssertionError("the text was walked")

        def translate(self, table):
            raise AssertionError("the text was rewritten")

        def __hash__(self):
            raise AssertionError("the text was hashed")

    with pytest.raises(Unreadable, match="too long"):
        quantity.read(Text("9" * 1000), "mass")
    with pytest.raises(Unreadable, match="too long"):
        quantity.split(Text("9" * 1000))


@each("name", ["", " ", "T", "parsec", "kg kg", "1 kg", "\x00", "g" * 1000])
def test_unknown_units_are_answered_with_the_known_ones(name):
    with pytest.raises(Unreadable, match="must be a unit"):
        units.unit(name)


def test_where_no_unit_fits_a_plain_number_is_asked_for():
    sentence = registry.why("BRINE_CURE", 1000, "5 kgg", "dry")
    assert sentence == 'BRINE_CURE: ppm must be a number, got "5 kgg"; write it as a plain number.'


@each(
    ("call", "way"),
    [
        (("SALT", "2 galons", 0.05), 'did you mean "2 gal"?'),
        (("SALT", "3 tbps", 0.05), 'did you mean "3 tbsp"?'),
        (("CURE", "5 killograms", 150, "dry"), 'did you mean "5 kg"?'),
        (("CURE", "3 lb 4 onces", 150, "dry"), 'did you mean "3 lb 4 oz"?'),
        (("DENSITY", 0.05, "70 farenheit"), 'did you mean "70 °F"?'),
        (("DENSITY", "5 percents"), 'did you mean "5 %"?'),
        (("RESCALE_HOURS", "300 minuts", "2 inchs", 40), 'did you mean "300 min"?'),
        (("RESCALE_HOURS", 3, "2 cmm", 40), 'did you mean "2 mm" or "2 cm"?'),
        (("CURE", "2 galons", 150, "dry"), 'did you mean "gal"? That makes it a volume; give its weight'),
        (("UNIT", 5, "galons", "L"), 'did you mean "gal"?'),
        (("UNIT", 5, "galons", "5 L"), "from_unit"),
        (("UNIT", 5, "gal", "5 L"), 'to_unit must be a unit, got "5 L"; write the unit alone, "L".'),
        (("PACKS", "3 dozn", "2 dozen"), 'did you mean "3 dozen"?'),
        (("CURE", 1000, "0.0156%", "dry"), "write it as 156 ppm"),
        (("CURE", 1000, "15%", "dry"), "write parts per million, without a unit"),  # 150000 ppm is no dose
        (("CONVERT", 40, "salinometr", "sg"), 'got "salinometr"; did you mean "salometer"?'),
        (("CONVERT", 5, "percent", "sg"), 'what is it a share of, "water" or "solution"?'),
        (("SODIUM", 150, 0, "", "salt", "5 gram"), 'must be a share, got "5 gram" in row 1; g makes it a mass'),
        (("UNIT_COST", 30, "2 x 5 kilograms"), "ok"),
        (("UNIT_COST", 30, "2 x 5 kilgrams"), 'did you mean "5 kg"?'),
        (("CURE", "5 gm", 150, "dry"), "write g for grams"),  # one turn away from mg
        (("CURE", "50 grains", 150, "dry"), "write it in g or oz"),  # one letter away from grams
        (("RESCALE_HOURS", "2 jours", 40, 40), "write day, or h for hours"),  # one letter away from hours
        (("SALT", "2 hl", 0.05), "the units known are g, kg"),
        (("UNIT_COST", 30, "5 onzes"), "write it in g or oz"),  # as like tonnes as onces
        (("PH", 1000, ["salt", "vinegar"], [5, "-5 lb"]), 'got "-5 lb" in row 2'),
        (("FORECAST", [1, 200000], [0.07, 0.06], "pork loin", 40, 0.015, 0.08, 1), "got 200000 h in row 2"),
    ],
)
def test_a_misspelt_unit_is_answered_with_the_one_it_looks_like(call, way):
    assert way in registry.why(*call)


def _slips(spelling: str) -> set[str]:
    """A spelling with a letter doubled, one left out, or two the wrong way round."""
    parts = [(spelling[:i], spelling[i:]) for i in range(len(spelling))]
    made = {made for a, b in parts for made in (a + b[0] + b, a + b[1:], a + b[1:2] + b[0] + b[2:])}
    return {slip for slip in made if units.find(slip.strip()) is None and not units.unclear(slip)}


def test_a_slip_in_a_long_unit_is_answered_with_that_unit():
    """Law: what is told is read as the unit that was meant."""
    spellings = [one for row in load.rows("units") if row["name"] != "1" for one in (row["name"], *row["aliases"])]
    slips = [(slip, units.unit(spelling)) for spelling in spellings if len(spelling) > 5 for slip in _slips(spelling)]
    assert len(slips) > 1000
    for slip, meant in slips[::7]:
        told = re.findall('"(2 [^"]+)"', units.advice(slip, meant.dimension, f"2 {slip}"))
        assert meant in [quantity.parse(text).unit for text in told], slip


@each(
    ("typed", "value", "scale"),
    [
        ("6°Bé", "6", "baume"), ("6 Be", "6", "baume"), ("6,5 ° Baumé", "6.5", "baume"),
        ("20 salometer", "20", "salometer"),
        ("20°SAL", "20", "salometer"), ("20 degrees salometer", "20", "salometer"), ("1.04 SG", "1.04", "sg"),
        ("50 g/L", "50", "g/L"), ("0.5 lb/gal", "0.5", "lb/gal water"),
    ],
)  # fmt: skip
def test_a_strength_on_an_instrument_is_led_to_the_function_that_reads_it(typed: str, value: str, scale: str) -> None:
    """What is told is a call that answers with a strength, and that strength makes a brine."""
    told = re.search(r'BRINE_CONVERT\((.+),"(.+)","water"\)\.$', registry.why("SALT", "2 gal", typed))
    assert told is not None
    assert told.groups() == (value, scale)
    share = registry.call("BRINE_CONVERT", float(value), scale, "water")
    assert isinstance(registry.call("BRINE_SALT", "2 gal", share), float)


@each("typed", ["6 bananas", "5 beer", "20 sales"])
def test_what_is_no_instrument_is_not_led_to_it(typed: str) -> None:
    assert "BRINE_CONVERT" not in registry.why("SALT", "2 gal", typed)
