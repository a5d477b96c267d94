"""Own ingredients: checked like the library's tables, never laxer than its ceilings, all or nothing."""

from __future__ import annotations

import pytest
from each import each

from brinecalc import registry
from brinecalc.errors import BrineError, OutOfRange, Refused, Unreadable
from brinecalc.trade import doses, ingredients, named, own, sweeteners
from brinecalc.trade.own import columns

GOOD = """name,role,water,sugars,sodium,aliases,density,low,high,ceiling,sweetness
House rub,spice,8%,0.05,0.1,rub;secret rub,0.6,0.5%,2%,3%,
Birch syrup,sweetener,32%,66%,0.0001,,1.3,,,,0.7
"""


@pytest.fixture(autouse=True)
def _clean():
    own.forget()
    yield
    own.forget()


def test_own_ingredients_are_taken_in_and_answered_by_the_functions():
    assert own.extend(GOOD) == ["House rub", "Birch syrup"]
    assert registry.call("BRINE_DOSE", 1000, 0.01, "secret rub") == pytest.approx(10.0)
    assert registry.call("BRINE_USUAL_RANGE", "house rubs") == [[0.005, 0.02]]
    assert registry.call("BRINE_WEIGHT", 10, "rub") == pytest.approx(6.0)
    assert registry.call("BRINE_WATER_IN", 100, "birch syrup") == pytest.approx(32.0)
    assert registry.call("BRINE_SWEETENER", 1000, 0.014, "birch syrup", "sweetness") == pytest.approx(20.0)
    own.forget()
    assert registry.call("BRINE_DOSE", 1000, 0.01, "secret rub") == "#N/A"


def test_rows_of_a_sheet_and_dictionaries_serve_as_well():
    rows = [["Name", "ROLE", "Water", "sugars", "sodium"], ["Smoke salt", "salt", 0.0, 0, 0.39], [None, "", "", "", ""]]
    assert own.extend(rows) == ["Smoke salt"]
    one = {"name": "Rose water", "role": "seasoning", "water": 0.99, "sugars": 0, "sodium": 0}
    assert own.extend([one]) == ["Rose water"]
    assert ingredients.find("smoke salts").sodium == 0.39
    assert ingredients.find("rose water").source == "own"


@pytest.mark.parametrize("text", [GOOD.replace(";", "/").replace(",", ";"), GOOD.replace(",", "\t"), "\ufeff" + GOOD])
def test_the_files_of_other_spreadsheets_are_read(text):
    assert len(own.extend(text)) == 2


def test_a_decimal_comma_is_read():
    own.extend("name;role;water;sugars;sodium\nHouse mix;spice;0,08;0,05;1,5%\n")
    assert ingredients.find("house mix").sodium == pytest.approx(0.015)


HEAD = "name,role,water,sugars,sodium"


@each(
    ("text", "kind", "says"),
    [
        (f"{HEAD}\nrub,spice,1.2,0,0", OutOfRange, "line 2, column water"),
        (f"{HEAD}\nrub,spice,0.1,0,0\nmix,spice,wet,0,0", Unreadable, "line 3, column water"),
        (f"{HEAD}\nrub,spicy,0.1,0,0", Unreadable, "line 2, column role"),
        (f"{HEAD}\n,spice,0.1,0,0", Unreadable, "line 2, column name"),
        (f"{HEAD}\nrub,spice,,0,0", Unreadable, "line 2, column water"),
        (f"{HEAD}\nrub,spice,nan,0,0", Unreadable, "line 2, column water"),
        (f"{HEAD}\nrub,spice,0.6,0.6,0", OutOfRange, "line 2, column sugars"),
        (f"{HEAD}\n=1+1,spice,0.1,0,0", Refused, "line 2, column name"),
        (f"{HEAD}\n+rub,spice,0.1,0,0", Refused, "line 2, column name"),
        (f"{HEAD}\n-rub,spice,0.1,0,0", Refused, "line 2, column name"),
        (f"{HEAD}\n@rub,spice,0.1,0,0", Refused, "line 2, column name"),
        (f"{HEAD}\n＝1+1,spice,0.1,0,0", Refused, "line 2, column name"),
        (f"{HEAD},note\nrub,spice,0.1,0,0,{'x' * 200_000}", Unreadable, "cannot be read as CSV"),
        (f"{HEAD}\nrub,spice,0.1,0,-0.1", Refused, "line 2, column sodium"),
        (f"{HEAD},note\nrub,spice,0.1,0,0,=HYPERLINK(1)", Refused, "line 2, column note"),
        (f"{HEAD}\nrub,spice,0.1,0,0\nrubs,spice,0.1,0,0", Unreadable, "line 3, column name"),
        (f"{HEAD},aliases\nrub,spice,0.1,0,0,vinegar", Refused, "column aliases"),
        (f"{HEAD},aliases\nrub,spice,0.1,0,0,cure #1", Refused, "column aliases"),
        (f"{HEAD},colour\nrub,spice,0.1,0,0,red", Unreadable, "line 1, column 6"),
        ("name,role,water,sugars\nrub,spice,0.1,0", Unreadable, "sodium"),
        (f"{HEAD},name\nrub,spice,0.1,0,0,x", Unreadable, "line 1, column 6"),
        ("", Unreadable, "heading row"),
        (f"{HEAD}\nrub,spice,0.1,0,0,extra", Unreadable, "line 2"),
        (f"{HEAD},uses\nrub,spice,0.1,0,0,frying", Unreadable, "column uses"),
        (f"{HEAD},low,high\nrub,spice,0.1,0,0,2%,1%", OutOfRange, "column high"),
        (f"{HEAD}\n{'r' * 400},spice,0.1,0,0", Unreadable, "line 2, column name"),
        (f"{HEAD}\nr\u202eub,spice,0.1,0,0", Unreadable, "line 2, column name"),
        (f"{HEAD}\n!!!,spice,0.1,0,0", Unreadable, "column name"),
    ],
)
def test_a_bad_row_is_refused_with_line_and_column(text, kind, says):
    with pytest.raises(kind) as caught:
        own.extend(text)
    assert says in caught.value.sentence()


def test_nothing_is_taken_in_when_one_row_is_bad():
    with pytest.raises(BrineError):
        own.extend(GOOD + "bad,spice,7,0,0,,,,,,\n")
    assert ingredients.known("house rub") is None


def test_a_truth_value_is_no_figure():
    with pytest.raises(Unreadable):
        own.extend([HEAD.split(","), ["rub", "spice", True, 0, 0]])


# never laxer

CEILING = f"{HEAD},uses,high,ceiling"


def test_a_legal_ceiling_cannot_be_raised():
    """US: phosphate at most 0.5 % of the finished product (9 CFR 424.21)."""
    with pytest.raises(Refused) as caught:
        own.extend(f"{CEILING}\nSTPP,phosphate,0,0,0.31,immersion,1%,2%")
    assert "0.5 %" in caught.value.sentence()


def test_a_legal_ceiling_stays_when_the_user_gives_none_and_may_be_lowered():
    own.extend(f"{CEILING}\nsodium tripolyphosphate,phosphate,0,0,0.31,immersion,0.4%,")
    assert registry.call("BRINE_DOSE", 1000, 0.006, "STPP") == "#NUM!"
    assert registry.call("BRINE_USUAL_RANGE", "STPP") == "#NUM!", "a range needs both ends"
    own.extend(f"{CEILING}\nsodium tripolyphosphate,phosphate,0,0,0.31,immersion,0.1%,0.2%")
    assert registry.call("BRINE_DOSE", 1000, 0.003, "STPP") == "#NUM!"
    assert registry.call("BRINE_DOSE", 1000, 0.002, "STPP") == pytest.approx(2.0)


def test_a_new_phosphate_comes_under_the_ceiling_of_its_kind():
    with pytest.raises(Refused):
        own.extend(f"{CEILING}\nMy blend,phosphate,0,0,0.3,immersion,1%,2%")
    own.extend(f"{HEAD}\nMy blend,phosphate,0,0,0.3")
    assert registry.call("BRINE_DOSE", 1000, 0.006, "my blend") == "#NUM!"
    assert registry.call("BRINE_DOSE", 1000, 0.005, "my blend") == pytest.approx(5.0)


def test_cherry_powder_of_ones_own_says_whether_it_brings_nitrite_or_acid():
    with pytest.raises(Refused, match="must be cure or acid for a name like that"):
        own.extend(f"{HEAD}\nHouse cherry powder,aromatic,0,0,0")
    own.extend(f"{HEAD}\nHouse cherry powder,acid,0,0,0")
    assert not named.find("house cherry powder").is_cure


@pytest.mark.parametrize("name", ["curing salt no. 1", "lye", "sulphuric acid"])
def test_a_dangerous_ingredient_cannot_be_given_another_role(name):
    with pytest.raises(Refused):
        own.extend(f"{HEAD}\n{name},spice,0,0,0.3")


def test_a_curing_salt_of_ones_own_is_still_never_dosed():
    own.extend(f"{HEAD}\nHouse cure,cure,0,0,0.39")
    assert registry.call("BRINE_DOSE", 1000, 0.001, "house cure") == "#NUM!"
    assert "BRINE_CURE" in registry.why("DOSE", 1000, 0.001, "house cure")


def test_replacing_an_ingredient_keeps_its_names():
    own.extend(f"{HEAD},density\nHoney,sweetener,0.18,0.80,0,1.40")
    assert ingredients.find("clover honey").density == 1.40
    assert ingredients.find("honey").name == "honey"


def test_every_column_a_sheet_may_have_says_what_it_means():
    assert {"name", "role", "water", "low", "high", "ceiling", "sweetness"} <= set(columns())
    assert all(column.meaning for column in columns().values())


@pytest.mark.parametrize(
    "name",
    [
        "lye rub",
        "curing blend",
        "natriumnitrit",
        "NaOH flakes",
        "house cure mix",
        "Chile saltpetre blend",
        "caustic wash",
    ],
)
def test_a_name_that_speaks_of_danger_keeps_its_role(name):
    with pytest.raises(Refused, match="for a name like that"):
        own.extend(f"{HEAD}\n{name},spice,0,0,0")


def test_a_sour_name_is_sour_to_the_curing_salt_whatever_its_role():
    own.extend(f"{HEAD}\nSour mix,spice,0.1,0,0\nPlain mix,spice,0.1,0,0")
    row = {"weight": 5000, "cure": 10, "cure method": "dry", "ingredient": "sour mix", "level": 0.01}
    assert registry.call("CHECK", [list(row)], [list(row.values())]).startswith("STOP cure: ")
    row["ingredient"] = "plain mix"
    assert registry.call("CHECK", [list(row)], [list(row.values())]) == "ok"


def test_a_file_that_is_no_csv_is_refused():
    with pytest.raises(Unreadable, match="CSV"):
        own.extend(f'{HEAD}\n"{"x" * 200_000}",spice,0,0,0')


@each(
    ("text", "kind", "got", "words"),
    [
        (f"{HEAD}\nrub,spice,wet,0,0", Unreadable, "'wet'", ("line 2, column water: must be a number",)),
        (f"{HEAD}\n=1+1,spice,0.1,0,0", Refused, "'=1+1'", ("run as a formula", "write the text or number itself")),
        (f"{HEAD}\n={'1' * 50},spice,0,0,0", Refused, f"'={'1' * 39}'", ("line 2, column name",)),
        (f"{HEAD}\n{'r' * 301},spice,0,0,0", Unreadable, f"'{'r' * 40}'", ("at most 300 plain characters",)),
        (f"{HEAD},colour\nrub,spice,0,0,0,red", Unreadable, "'colour'", ("headings are name, aliases, role",)),
        ("name,role,water,sugars\nrub,spice,0,0", Unreadable, None, ("a column sodium", "needed are name")),
        ("", Unreadable, None, ("begin with a heading row", "name, role, water, sugars, sodium")),
        (f"{HEAD}\nrub,spice,0,0,0,extra", Unreadable, "6", ("line 2: must have 5 cells",)),
        (f"{HEAD},uses\nrub,spice,0,0,0,frying", Unreadable, "'frying'", ("immersion, injection, vegetable",)),
        (f"{HEAD},low,high\nrub,spice,0,0,0,2%,1%", OutOfRange, None, ("line 2, column high: must not be below",)),
        (f"{HEAD}\nlye,spice,0,0,0", Refused, "'spice'", ('"lye" must stay alkali', "another name")),
        (f"{HEAD},aliases\nrub,spice,0,0,0,vinegar", Refused, None, ('"vinegar" already means', "another spelling")),
        (f"{HEAD}\nrub,spice,0,0,0\nrubs,spice,0,0,0", Unreadable, None, ('line 3', '"rubs" stands in line 2')),
        (f"{HEAD}\n!!!,spice,0,0,0", Unreadable, "'!!!'", ("a letter or figure",)),
        (
            f"{HEAD},uses,high,ceiling\nSTPP,phosphate,0,0,0.31,immersion,1%,2%", Refused, "2 %",
            ("line 2, column ceiling: must be at most 0.5 %, the legal ceiling for immersion", "leave it empty"),
        ),
    ],
)  # fmt: skip
def test_a_refused_row_says_what_was_given_and_what_would_do(text, kind, got, words):
    with pytest.raises(kind) as caught:
        own.extend(text)
    assert caught.value.got == got
    said = caught.value.sentence()
    assert said.startswith("own ingredients")
    for part in words:
        assert part in said


def test_a_row_may_have_as_many_rows_as_a_sheet_needs_and_no_more():
    rows = [HEAD.split(","), *(["x" + str(n) + "y", "spice", 0, 0, 0] for n in range(2001))]
    with pytest.raises(OutOfRange, match="at most 2000 rows"):
        own.extend(rows)
    assert len(own.extend(rows[:2001])) == 2000


def test_empty_columns_at_the_end_and_truth_values():
    assert own.extend([[*HEAD.split(","), None, ""], ["Rub", "spice", 0, 0, 0, "", None]]) == ["Rub"]
    with pytest.raises(Unreadable) as caught:
        own.extend([HEAD.split(","), ["rub", "spice", True, 0, 0]])
    assert (caught.value.got, "must not be TRUE or FALSE" in caught.value.rule) == ("TRUE", True)


def test_a_sweetener_of_ones_own_has_one_sweetness_for_low_typical_and_high():
    own.extend(GOOD)
    made = sweeteners.find("birch syrup")
    assert (made.low, made.typical, made.high, made.basis, made.source) == (0.7, 0.7, 0.7, "judgement", "own")


def test_figures_of_ones_own_are_for_the_uses_named_and_else_for_all_that_bathe():
    own.extend(f"{HEAD},uses,low,high,ceiling\nA rub,spice,0,0,0,injection,1%,2%,3%\nB rub,spice,0,0,0,,1%,2%,")
    made = doses.find("A rub", "injection")
    assert (made.low, made.high, made.ceiling, made.kind, made.of_what) == (0.01, 0.02, 0.03, "taste", "water")
    assert (made.basis, made.source, made.uses) == ("judgement", "own", ("injection",))
    assert doses.find("A rub", "immersion") is None
    assert doses.find("B rub", "injection") is None
    for use in ("immersion", "vegetable"):
        assert (doses.find("B rub", use).high, doses.find("B rub", use).ceiling) == (0.02, None)
        assert doses.find("B rub", use).kind is None


@each("first", ["=", "+", "-", "@", "＝", "＋", "－", "＠", "\t", "\r"])
def test_a_text_that_a_spreadsheet_would_run_is_refused(first):
    with pytest.raises(Refused, match="would run as a formula"):
        own.extend([HEAD.split(","), [f"{first}1+1", "spice", 0, 0, 0]])


def test_a_name_may_be_as_long_as_300_letters_and_no_longer():
    own.extend([HEAD.split(","), ["r" * 300, "spice", 0, 0, 0]])
    with pytest.raises(Unreadable, match="at most 300 plain characters"):
        own.extend([HEAD.split(","), ["r" * 301, "spice", 0, 0, 0]])


def test_water_and_sugars_may_be_all_there_is():
    """Rounded to a hair above 100 % by whoever typed them, it is still all of it."""
    own.extend([HEAD.split(","), ["clear syrup", "sweetener", 0.4, 0.6 + 5e-10, 0]])
    assert ingredients.find("clear syrup").water == 0.4


@pytest.mark.parametrize(("value", "passes"), [(2.0, True), (2.1, False), (0.05, True), (0.04, False)])
def test_sweetness_is_from_a_twentieth_to_twice_that_of_sugar(value, passes):
    rows = [[*HEAD.split(","), "sweetness"], ["leaf syrup", "sweetener", 0.3, 0.6, 0, value]]
    if passes:
        own.extend(rows)
        assert sweeteners.find("leaf syrup", "sweetener").typical == value
    else:
        with pytest.raises(OutOfRange):
            own.extend(rows)


@pytest.mark.parametrize("role", ["phosphate", "calcium", "antioxidant", "preservative", "base"])
def test_what_has_a_ceiling_by_its_kind_has_it_under_a_new_name(role):
    """The strictest ceiling of the shipped ones of that role and use; a house's own may not be laxer."""
    stops = [
        found.stop
        for made in ingredients.of_role(role)
        for found in [doses.shipped(made.name, "immersion")]
        if found is not None and found.stop is not None
    ]
    own.extend([[*HEAD.split(","), "low", "high"], [f"house {role} mix", role, 0, 0, 0, 0.0001, 0.0002]])
    made = doses.find(f"house {role} mix", "immersion")
    assert made.stop == (min(stops) if stops else None)
    if stops:
        with pytest.raises(Refused, match="must be at most") as caught:
            own.extend([[*HEAD.split(","), "ceiling"], [f"house {role} mix", role, 0, 0, 0, 2 * min(stops)]])
        assert caught.value.advice == "leave it empty to keep that ceiling"


def test_a_name_that_speaks_of_danger_is_told_its_role():
    with pytest.raises(Refused) as caught:
        own.extend([HEAD.split(","), ["pink curing salt of the house", "spice", 0, 0, 0]])
    assert caught.value.got == "'pink curing salt of the house'"
    assert caught.value.advice == "write cure, or give your ingredient another name"


def test_a_sheet_of_one_column_is_read_cell_by_cell():
    with pytest.raises(Unreadable) as caught:
        own.read(["names of things"])
    assert caught.value.got == "'names of things'"


def test_a_long_heading_is_quoted_to_forty_letters():
    with pytest.raises(Unreadable) as caught:
        own.read([["x" * 60, "role"]])
    assert caught.value.got == repr("x" * 40)


def test_own_figures_are_said_to_be_the_users():
    made = own.read("name,role,water,sugars,sodium,low,high\nMy phosphate,phosphate,0,0,30%,0.1%,0.3%\n")
    assert {(dose.basis, dose.source) for dose in made.doses} == {("judgement", "own")}


def test_the_salt_that_dissolves_stays_the_ceiling_of_salt():
    """Salt comes under no kind of its own: the ceiling is that of the shipped row."""
    for use in ("immersion", "injection", "vegetable"):
        text = f"name,role,water,sugars,sodium,uses,ceiling\nsea salt,salt,0,0,0.393,{use},50%\n"
        with pytest.raises(BrineError, match="column ceiling: must be at most 35"):
            own.read(text)


def test_what_is_missing_in_the_heading_row_is_told_as_a_list_of_the_columns_needed():
    with pytest.raises(Unreadable) as caught:
        own.read("name,role,water,sugars\nrub,spice,0,0")
    assert caught.value.advice == "needed are " + ", ".join(own.NEEDED)


def test_a_base_without_a_ceiling_of_its_own_keeps_to_the_strictest_of_its_kind_and_one_with_its_own_to_that():
    """Washing soda stops at 1 % of the water, its crystals, mostly water, at 2.7 %; baking soda has no stop."""
    head = "name,role,water,sugars,sodium,uses,ceiling"
    with pytest.raises(Refused, match="column ceiling: must be at most 1 %"):
        own.read(f"{head}\nbaking soda,base,0,0,27%,immersion,2%\n")
    made = own.read(f"{head}\nwashing soda crystals,base,60%,0,16%,immersion,2%\n")
    assert [(dose.ceiling, dose.kind) for dose in made.doses] == [(0.02, "safety")]


def test_a_sweetness_that_is_no_number_is_told_by_its_column():
    with pytest.raises(Unreadable, match="line 2, column sweetness: must be a number"):
        own.read("name,role,water,sugars,sodium,sweetness\nrub,sweetener,0,0,0,much\n")
