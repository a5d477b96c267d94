"""What a text says of a pH: one reading, several, or a bound."""

from __future__ import annotations

import pytest
from each import each

from brinecalc.errors import Unreadable
from brinecalc.trade import ph_readings
from brinecalc.trade.ph_readings import OPEN
from tests.trade.cases import CURED, found, of


@each(
    ("text", "low", "high"),
    [
        ("5.8", 5.8, 5.8), ("pH: 4.2", 4.2, 4.2), ("PH5,8", 5.8, 5.8), ("pH is 4.2", 4.2, 4.2), ("ca. 4.2", 4.2, 4.2),
        ("4.0-4.4", 4.0, 4.4), ("4.4–4.0", 4.0, 4.4), ("3.9..4.4", 3.9, 4.4), ("4.0 … 4.4", 4.0, 4.4),
        ("3,9/4,4", 3.9, 4.4), ("4.0 to 4.4", 4.0, 4.4), ("4.0 or 4.4", 4.0, 4.4), ("4.0, 4.4", 4.0, 4.4),
        ("4.0 4.4", 4.0, 4.4), ("4.0; 4.6; 4.1", 4.0, 4.6), ("4.2 (4.6 in the core)", 4.2, 4.6),
        ("4.2±0.2", 4.0, 4.4), ("4.2 +/- 0.2", 4.0, 4.4),
        ("<4.2", OPEN, 4.2), ("≤ 4.2", OPEN, 4.2), ("at most 4.2", OPEN, 4.2), ("4.2 or less", OPEN, 4.2),
        ("not above 4.2", OPEN, 4.2), ("4.2 max", OPEN, 4.2),
        (">4.2", 4.2, None), ("≥4.2", 4.2, None), ("above 4.2", 4.2, None), ("4.2+", 4.2, None),
        ("pH > 4.2", 4.2, None),
        ("4.2 or more", 4.2, None), ("min. 4.2", 4.2, None), ("3.9 to >4.4", 3.9, None),
        ("5.8 at 20 °C", 5.8, 5.8), ("5.8 / 20 °C", 5.8, 5.8), ("5.8, 4 °C", 5.8, 5.8), ("4.2 after 3 days", 4.2, 4.2),
        ("4.2 (2 readings)", 4.2, 4.2),
    ],
)  # fmt: skip
def test_both_ends_of_what_a_text_leaves_open(text, low, high):
    assert ph_readings.read(text) == (low, high)


@each("text", ["sour", "", "phosphate 3", "about"])
def test_a_text_without_a_figure_is_no_ph(text):
    with pytest.raises(Unreadable, match="must be a pH"):
        ph_readings.read(text)


SEALED = {"product": "carrot", "packaging": "jar, shelf"}
BRINE = {**CURED, "cure method": "equilibrium", "water": 5000.0}


@each(
    ("row", "ph", "rule", "there"),
    [
        (SEALED, "<4.2", "sealed-low-acid", False), (SEALED, ">4.2", "sealed-low-acid", True),
        (SEALED, "4.2+", "sealed-low-acid", True), (SEALED, "3.9..4.8", "sealed-low-acid", True),
        (SEALED, "4.5±0.2", "sealed-low-acid", True), (SEALED, "<4.8", "sealed-low-acid", True),
        ({"product": "garlic", "packaging": "vacuum bag"}, ">3.9", "packed-without-air", True),
        (BRINE, "<6", "nitrite-ph", True), (BRINE, ">4.2", "nitrite-ph", True), (BRINE, ">5.5", "nitrite-ph", False),
        (BRINE, "4.8..5.5", "nitrite-ph", True), (BRINE, "6", "nitrite-ph", False),
        ({"product": "pork chop"}, "<5.8", "texture-acid", False),
        ({"product": "pork chop"}, "<4.5", "texture-acid", True),
        ({"product": "pork chop"}, ">8", "alkali-ph", False),
    ],
)  # fmt: skip
def test_each_rule_goes_by_the_end_that_is_worse_for_it(row, ph, rule, there):
    assert (rule in found({**row, "ph": ph})) is there


@each(
    ("ph", "words"),
    [("<6", "of pH 6.0 or less:"), (">4.2", "of pH 4.2 or more:"), ("4.2", "of pH 4.2:"), ("4.2-6", "of pH 4.2:")],
)
def test_a_ph_that_is_open_on_one_side_is_told_as_it_was_given(ph, words):
    (finding,) = of("nitrite-ph", {**BRINE, "ph": ph})
    assert words in finding.sentence
