"""Names of our functions in files, from one host's spelling to another's."""

import pytest
from each import each

from brinecalc.hosts import spelling
from brinecalc.hosts.spelling import DOTTED, OFFICE, PLAIN, canonical, respell, written

ALL = [
    "BRINE_SOAK_HOURS",
    "BRINE.SOAK_HOURS",
    "_xldudf_BRINE_SOAK_HOURS",
    "brine_soak_hours",
    "_xlfn.BRINE_SOAK_HOURS",
    "_xludf.BRINE_SOAK_HOURS",
]


@each("name", ALL)
def test_every_spelling_has_one_plain_name(name):
    assert canonical(name) == "BRINE_SOAK_HOURS"


@each("name", ["SUM", "BRINE", "BRINE_", "BRINE__X", "BRINES_X", "XBRINE_SALT", "_xldudf_OTHER_SALT", "BRINE_1"])
def test_other_names_are_not_ours(name):
    assert canonical(name) is None


def test_a_name_is_spelled_for_each_program():
    assert [written("brine_salt", way) for way in spelling.SPELLINGS] == [
        "BRINE_SALT",
        "BRINE.SALT",
        "_xldudf_BRINE_SALT",
    ]
    with pytest.raises(ValueError, match="not one of the BRINE_ functions"):
        written("SUM", PLAIN)
    with pytest.raises(ValueError, match="plain, dotted, office"):
        written("BRINE_SALT", "fancy")


@each(
    ("formula", "plain", "dotted"),
    [
        ("=BRINE.SALT(A1,5%)", "=BRINE_SALT(A1,5%)", "=BRINE.SALT(A1,5%)"),
        ("_xldudf_BRINE_SALT(brine_fill(1))", "BRINE_SALT(BRINE_FILL(1))", "BRINE.SALT(BRINE.FILL(1))"),
        ("[1]!BRINE_SALT(1)", "BRINE_SALT(1)", "BRINE.SALT(1)"),
        ("'C:\\kitchen\\Brine.xlam'!BRINE_SALT(1)", "BRINE_SALT(1)", "BRINE.SALT(1)"),
        ("Brine.xla!BRINE_SALT(1)&Plan!A1", "BRINE_SALT(1)&Plan!A1", "BRINE.SALT(1)&Plan!A1"),
    ],
)
def test_calls_are_spelled_anew(formula, plain, dotted):
    assert respell(formula) == plain
    assert respell(formula, DOTTED) == dotted
    assert respell(respell(formula, OFFICE)) == plain


@each(
    "formula",
    [
        '="BRINE.SALT(1)"&"say ""BRINE.FILL("""',
        "='BRINE.SALT(x'!A1+BRINE_total+BRINE.rate*2",
        "=Prices[BRINE.SALT(]",
        "=[1]Sheet!A1+[2]!OTHER(1)+'Brine.xlam'!OTHER(1)",
        "=OTHERBRINE_SALT(1)+BRINE_1(2)",
        "",
        "=1+",
        '="BRINE.SALT(',
    ],
)
@each("way", spelling.SPELLINGS)
def test_nothing_but_calls_is_touched(formula, way):
    assert respell(formula, way) == formula


def test_formulas_of_opendocument_files():
    assert respell('of:=BRINE_SALT([.A1];"BRINE_SALT(")', DOTTED) == 'of:=BRINE.SALT([.A1];"BRINE_SALT(")'


def test_control_texts_and_lone_marks_survive():
    odd = "\x00BRINE_SALT(\u202e'!\"[[]"
    assert respell(odd) == odd
