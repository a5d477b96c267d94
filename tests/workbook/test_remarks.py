"""Nothing typed into the plan is passed over in silence, and a row that fails speaks the plan's language."""

from __future__ import annotations

import datetime
from typing import Any

import filling
import pytest
from built import FEW, bare
from each import each
from lxml import etree
from priced import Book, place
from xlsx import seen

from brinecalc import registry
from brinecalc.tables import load
from brinecalc.workbook import example
from brinecalc.workbook.book import MOST_BATCHES, Options
from brinecalc.workbook.create import PAPERS
from brinecalc.workbook.edit.book import Edit
from brinecalc.workbook.sheets import prices

READY = datetime.datetime(2027, 3, 6, 18, 0)
FINDING = "Worst finding, or why the row fails"
PLAIN: dict[str, Any] = {
    "Product": "chicken breast", "Weight as bought": 5, "Thickness": 30, "Method": "gradient",
    "Salt wanted in the product": 0.01, "Strength, of the water": 0.06, "Rest": 24, "Ready at": READY,
}  # fmt: skip
EVEN = {**PLAIN, "Method": "equilibrium", "Strength, of the water": None}
SOURING = {**EVEN, "Product": "cabbage", "Method": "dry equilibrium", "Salt wanted in the product": 0.0225,
           "Brine temperature": 20}  # fmt: skip
INJECTED = {**EVEN, "Method": "injected", "Weight gained": 0.1}
NEARLY = {**EVEN, "Hours I have": 70, "Salt wanted in the product": 0.0014}
"""The hours are too few, but what the product takes up till then differs by less than a hundredth of a per cent."""

REMARKS: list[tuple[dict[str, Any], str]] = [
    ({**PLAIN, "Hours I have": 6}, "CAUTION hours I have: the hours are not used, because a strength is typed too"),
    ({**INJECTED, "Hours I have": 6}, "CAUTION hours I have: the hours are not used, because nothing soaks"),
    ({**EVEN, "Strength, of the water": 0.06}, "CAUTION strength: the strength is not used"),
    (
        {**INJECTED, "Water per product": 2},
        "CAUTION no bath: nothing lies in a brine by this method, so it is not used (water per product). Clear it.",
    ),
    ({**INJECTED, "Vessel": 1}, "NOTE vessel: the vessel is not used, since nothing lies in a brine by this method."),
    ({**PLAIN, "Rest": 0, "Salt wanted in the product": "1,0%"}, "% salt on average, not 1,0%"),
    ({**PLAIN, "Nitrite": 120}, "CAUTION curing salt: no curing salt is chosen"),
    ({**PLAIN, "Level": 0.02, "Level 4": 0.003}, "stands without its name (Sweetener, Phosphate)"),
    ({**EVEN, "Hours I have": 5}, "CAUTION hours I have: 5 h is short; it takes about"),
    ({**INJECTED, "Weight gained": None}, "NOTE weight gained: left blank, so 10 % is reckoned"),
    ({**PLAIN, "Method": None}, "NOTE method: left blank, so gradient is taken: a soak that ends at its time."),
    ({**PLAIN, "Ready at": datetime.datetime(2027, 3, 6)}, "NOTE ready at: no time of day is given"),
    (NEARLY, "CAUTION hours I have: 70 h is short"),
    ({**PLAIN, "Sweetener": "honey"}, "CAUTION sweetener: No amount is given for honey, so it was neither weighed out"),
    (
        {
            **EVEN,
            "Acid or base": "citric acid",
            "Curing salt": "curing salt no. 1",
            "Nitrite": 100,
            "Reckoned as": "equilibrium",
        },
        "STOP cure: Curing salt must not meet citric acid",
    ),
    (
        {
            **EVEN,
            "Product": "cucumber",
            "Salt wanted in the product": 0.025,
            "Acid or base": "vinegar",
            "Level 5": 0.95,
        },
        "CAUTION brine temperature: even with all its water as ice",
    ),
    (
        {**INJECTED, "Curing salt": "curing salt no. 1", "Nitrite": 100, "Reckoned as": "pumped", "Rest": 2},
        "CAUTION rest: 2 h of rest after pumping is less than the customary 12 h",
    ),
    ({**EVEN, "Method": "dry equilibrium", "Hours I have": 24}, "Taken out then, it is saltier outside than inside."),
    (
        SOURING,
        "CAUTION soak hours: Cabbage: salt gets in within hours, souring takes days, and how many is not reckoned. "
        "Write how long it is to lie under Hours I have",
    ),
    ({**SOURING, "Thickness": 4}, "NOTE ph: Cabbage: sours by itself here"),
    ({**PLAIN, "Pieces": 24, "Thickness": 3}, "CAUTION thickness: A thickness of 3 mm"),
    ({**PLAIN, "Pieces": 24, "Thickness": 5}, "CAUTION thickness: A piece of 208 g / 7.35 oz that is 5 mm"),
    ({**PLAIN, "Weight as bought": 4500}, "CAUTION weight: One batch of 4500 kg"),
    ({**PLAIN, "Rest": 0}, "late if salt goes in slowly; out in time it holds about"),
    ({**PLAIN, "Rest": 0}, "Put it in sooner and let the meter decide."),
    (
        {**EVEN, "Product": "pork belly", "Thickness": 45, "Salt wanted in the product": 0.022},
        "NOTE ready at: may be more than 10 days late if salt goes in slowly",
    ),
    (
        {**EVEN, "Product": "pork belly", "Thickness": 45, "Salt wanted in the product": 0.022},
        "Too thick for this method: cut it thinner, or inject it.",
    ),
    (
        {**EVEN, "Method": "dry equilibrium", "Product": "cabbage", "Thickness": 200},
        "late if salt goes in slowly. Too thick for this method: cut it thinner.",
    ),
]
"""A row, and the words that have to stand on Findings."""

FAILING: list[tuple[dict[str, Any], str]] = [
    ({**PLAIN, "Product": None}, "FAILS: Product is missing"),
    ({**PLAIN, "Thickness": None}, "FAILS: Thickness is missing"),
    ({**PLAIN, "Thickness": "thick"}, 'FAILS: Thickness must be a length, got "thick"'),
    ({**PLAIN, "Salt wanted in the product": None}, "FAILS: Salt wanted in the product is missing"),
    ({**PLAIN, "Strength, of the water": None}, "FAILS: A gradient brine needs a strength or the hours you have"),
    ({**PLAIN, "Salt wanted in the product": 0.1}, "FAILS: Salt wanted in the product must be from"),
    (
        {**PLAIN, "Method": "soaked"},
        "FAILS: Method must be one of the list: gradient, equilibrium, dry equilibrium or injected.",
    ),
    (
        {**INJECTED, "Method": "pumped and soaked"},
        "Pumped and soaked is two rows: injected, then gradient with Treated needled and Salt in it already filled in.",
    ),
    ({**PLAIN, "Product": "chickn breast"}, 'FAILS: Product is not a known product, got "chickn breast"; did you mean'),
    ({**PLAIN, "Product": "chickn breast", "Shape": "slab"}, 'got "chickn breast"; did you mean'),
    (
        {**PLAIN, "Product": "chicken; breast", "Shape": "slab"},
        'Product must be a name of its list, spelled as there, got "',
    ),
    (
        {**EVEN, "Product": "cucumber", "Acid or base": "vinegar", "Level 5": 1.2},
        "FAILS: The acid or base brings more water than the whole brine has",
    ),
    ({**PLAIN, "Vessel": 4}, "FAILS: Weight as bought must be below"),
    (
        {**PLAIN, "Water per product": "1,5"},
        "FAILS: Water per product must be a plain number from 0.2 to 20 such as 1, got ",
    ),
    ({**INJECTED, "Weight gained": "10,0%"}, "FAILS: Weight gained must be a plain number, got "),
    (
        {**INJECTED, "Curing salt": "curing salt no. 1", "Reckoned as": "injected", "Nitrite": "120 ppm"},
        'FAILS: Nitrite must be a plain number of ppm, got "120 ppm", such as 120.',
    ),
    (
        {
            **EVEN,
            "Method": "dry equilibrium",
            "Product": "pork loin",
            "Curing salt": "curing salt no. 1",
            "Reckoned as": "dry",
            "Nitrite": "120 ppm",
        },
        'FAILS: Nitrite must be a plain number of ppm, got "120 ppm", such as 120.',
    ),
]
"""A row that cannot be worked out, and how its reason begins."""

TWO = {
    **PLAIN,
    "Brine temperature": 7,
    "Thickness": 8,
    "Rest": 1,
    "Level": 0.02,
    "Aromatic": "mustard seed",
    "Level 2": 0.01,
}
"""Two cautions and a note: a warm brine, a level without a name, an allergen."""


TIMED = (
    {**SOURING, "Hours I have": 336}, {**SOURING, "Hours I have": 2}, {**SOURING, "Brine temperature": 4},
    {**SOURING, "Product": "pork chop"},
)  # fmt: skip
"""Rows of which nobody asks how long they are to lie."""


def computed(rows: list[dict[str, Any]], units: str = "metric") -> filling.Answers:
    person = filling.Person(bare(Options(units, PAPERS[units], batches=FEW if len(rows) <= FEW else MOST_BATCHES)))
    for number, row in enumerate(rows, filling.FIRST):
        person.fill("Plan", number, row)
    return person.computed()


@pytest.fixture(scope="module")
def answers() -> filling.Answers:
    return computed([row for row, _ in REMARKS] + [row for row, _ in FAILING] + [TWO, PLAIN] + list(TIMED))


def said(answers: filling.Answers, number: int) -> list[str]:
    """All lines on Findings about a batch."""
    lines = [
        at for (sheet, at), value in answers.values.items() if (sheet, at[0], value) == ("Findings", "A", number + 1)
    ]
    rows = sorted(int(at[1:]) for at in lines)
    found = [answers.at("Findings", f"D{row}") for row in rows]
    assert not [line for line in found if " °" in line]  # no line ends between a figure and its degrees
    return [line.replace("\u00a0°", " °") for line in found]


def test_what_is_found_of_a_batch_stands_by_gravity(answers: filling.Answers) -> None:
    """The plan's own cautions stand before the notes of the rules."""
    listed = [said(answers, number) for number in range(len(REMARKS) + len(FAILING) + 1 + 1 + len(TIMED))]
    words = ("FAILS", "STOP", "CAUTION", "NOTE")
    ranks = [[words.index(line.split()[0].rstrip(":")) for line in lines] for lines in listed]
    assert [lines for lines, rank in zip(listed, ranks) if rank != sorted(rank)] == []


@pytest.mark.parametrize("number", range(len(REMARKS)), ids=[words[:40] for _, words in REMARKS])
def test_what_is_not_used_or_assumed_or_may_not_do_is_said(answers: filling.Answers, number: int) -> None:
    words = REMARKS[number][1]
    row = answers.row("Plan", filling.FIRST + number)
    assert any(words in line for line in said(answers, number))
    assert words in row[FINDING] or "more: see Findings)" in row[FINDING]
    assert row["Says"] == words.split()[0] or not words.startswith(("CAUTION", "STOP"))


def test_how_long_a_vegetable_lies_is_asked_only_where_it_may_sour_and_nobody_says(answers: filling.Answers) -> None:
    first = len(REMARKS) + len(FAILING) + 2
    told = [" ".join(said(answers, first + number)) for number in range(len(TIMED))]
    assert not any("how many is not reckoned" in text for text in told)
    assert "sours by itself here" in told[0]


CURED = {
    **EVEN, "Product": "pork belly", "Shape": "slab", "Method": "dry equilibrium", "Salt wanted in the product": 0.022,
    "Curing salt": "curing salt no. 1", "Nitrite": 115, "Reckoned as": "dry",
}  # fmt: skip
CUSTOM = {8: 28.57, 25: 95.24, 40: 123.59}
"""Hours by thickness in mm: a day for each half inch and two more; a strip by the square of its thickness."""


def test_hours_that_are_worked_out_for_a_cure_are_no_fewer_than_its_custom() -> None:
    """A day for each half inch (12.7 mm) and two more, half-inch-rule; below half an inch by the square of it."""
    rows = [{**CURED, "Thickness": size} for size in CUSTOM]
    bare_of_cure = dict.fromkeys(("Curing salt", "Nitrite", "Reckoned as"))
    answers = computed([*rows, {**rows[2], **bare_of_cure}, {**rows[2], "Hours I have": 110}])
    for number, hours in enumerate(CUSTOM.values()):
        row = answers.row("Results", filling.FIRST + number)
        assert row["Soak"] == pytest.approx(hours, abs=0.01)
        assert row["Take out at the soonest"] <= row["Take out"] <= row["Take out at the latest"]
        assert not [line for line in said(answers, number) if line.startswith("CAUTION")]
    assert answers.row("Results", filling.FIRST + 3)["Soak"] < 110
    assert any("less than the shortest custom" in line for line in said(answers, 4))


OTHER_NAMES = {
    "turkey crown": "bone-in turkey breast", "salmon side": "salmon fillet", "pickling cucumber": "cucumber",
    "corned beef": "beef brisket", "tofu": "firm tofu", "Chicken Breasts": "chicken breast", "ham": "ham leg",
    "turkey breast bone in": "bone-in turkey breast", "center-cut pork chop": "pork chop", "tofu, firm": "firm tofu",
    "St. Louis ribs": "pork spareribs", "flat-cut brisket": "beef brisket flat", "hard boiled eggs": "hard-boiled egg",
}  # fmt: skip
"""What a kitchen calls it, and what the list does."""


def test_a_product_under_another_name_is_worked_out_as_the_one_that_is_listed() -> None:
    names = [name for pair in OTHER_NAMES.items() for name in pair]
    told = computed([{**EVEN, "Product": name, "Weight as bought": 4, "Hours I have": 48} for name in names])
    for at in range(0, len(names), 2):
        other, listed = (told.row("Results", filling.FIRST + at + more) for more in (0, 1))
        assert other["Says"] in ("ok", "NOTE", "CAUTION", "STOP"), (names[at], other[FINDING])  # but no failure
        assert other["Product"] == names[at]
        apart = {head for head in listed if other[head] != listed[head]} - {"Batch", "Product", FINDING}
        assert apart == set(), (names[at], apart)


@pytest.mark.parametrize("number", range(len(FAILING)), ids=[words[:40] for _, words in FAILING])
def test_a_row_that_fails_says_why_in_the_words_of_the_plan(answers: filling.Answers, number: int) -> None:
    at = len(REMARKS) + number
    row, results = (answers.row(sheet, filling.FIRST + at) for sheet in ("Plan", "Results"))
    assert row["Says"] == results["Says"] == "FAILS"
    assert row[FINDING].startswith("FAILS: ")
    assert FAILING[number][1] in row[FINDING]
    assert results[FINDING] == row[FINDING]
    assert said(answers, at) == [row[FINDING]]
    assert "BRINE_" not in row[FINDING]
    figures = {value for heading, value in results.items() if heading not in ("Batch", "Product", "Says", FINDING)}
    assert figures == {"FAILS", "row fails"}


def test_the_first_row_that_fails_stands_above_the_plan(answers: filling.Answers) -> None:
    above = answers.at("Plan", "D3")
    assert above.startswith(f"Batch {len(REMARKS) + 1} FAILS: Product is missing")


def test_no_caution_hides_behind_another(answers: filling.Answers) -> None:
    at = len(REMARKS) + len(FAILING)
    lines = said(answers, at)
    assert [line.split()[0] for line in lines] == ["CAUTION", "CAUTION", "NOTE"]
    assert lines[0].startswith("CAUTION brine temperature")
    assert lines[0].endswith("Chill it with ice held back from the water, and plan it at 4 °C / 39 °F.")
    assert lines[1].startswith("CAUTION level")
    beside, money = answers.row("Plan", filling.FIRST + at)[FINDING].split("  Money: ")
    assert beside == f"{lines[0]}  (+1 CAUTION and 1 NOTE more: see Findings)"
    assert money.startswith('no price yet for "chicken breast"; give its price on Prices')


@each(
    ("words", "asked"),
    [
        ("sashimi shime saba", True),
        ("served raw", True),
        ("raw", True),
        ("cold smoked", True),
        ("table 4, no raw fish", False),
        ("Friday starters", False),
        (12.0, False),
        (None, False),
    ],
)
def test_what_a_batch_is_for_is_read_by_the_safety_rules(book: Book, words: Any, asked: bool) -> None:
    with book.supposing({place("product", 5): "mackerel fillet", place("label", 5): words}):
        said = book.of("c_text", 5)
        assert ("Neither salt, vinegar nor cold smoke kills parasites in fish." in said) == asked
        assert "was not read" not in said


def test_hours_that_end_in_a_half_are_computed_all_the_same(book: Book) -> None:
    """Slow in 26.25 h, 12 h and 2 h of rest before it must be ready: 12.25 h late, which one program rounds up."""
    batch = next(number for number, cells in enumerate(example.BATCHES, 1) if cells["product"] == "duck breast")
    cells = {place(key, batch): value for key, value in (("weight", 12), ("strength", None), ("hours", 12))}
    with book.supposing(cells):
        assert not book.trial.distrusted()
        assert str(book.of("x_late", batch)).startswith("NOTE ready at: may be up to 12.3 h late")


def test_hours_that_read_like_the_usual_ones_are_not_short(book: Book) -> None:
    batch = next(number for number, cells in enumerate(example.BATCHES, 1) if cells["method"] == "equilibrium")
    usual = book.of("w_soak_e", batch)
    assert isinstance(usual, float)
    for hours, short in ((usual - 0.001, False), (0.9 * usual, True)):
        with book.supposing({place("hours", batch): hours}):
            assert (book.of("x_short", batch) != "") is short


def test_a_row_without_fault_says_ok(answers: filling.Answers) -> None:
    at = len(REMARKS) + len(FAILING) + 1
    assert answers.row("Plan", filling.FIRST + at)["Says"] == "ok"
    assert said(answers, at) == []


def test_pumped_bacon_passes_at_every_usual_pump() -> None:
    """About 0.63 g per kg, in the water that the pump leaves beside its salt: 550 ppm dry, 9 CFR 424.22(b)(1)."""
    bacon = {
        **INJECTED, "Product": "skinless pork belly", "Weight as bought": 20, "Thickness": 2,
        "Salt wanted in the product": 0.016, "Curing salt": "curing salt no. 1", "Reckoned as": "pumped",
        "Nitrite": 120, "Aromatic": "sodium erythorbate",
    }  # fmt: skip
    levels = {0.08: 0.0091, 0.10: 0.0069, 0.12: 0.0056, 0.13: 0.0051, 0.15: 0.00435, 0.20: 0.0032}
    rows = [{**bacon, "Weight gained": gain, "Level 2": level} for gain, level in levels.items()]
    answers = computed(rows, "US")
    assert answers.at("Start", filling.Person(answers.content).named("rules")[1]) == "US"
    for number in range(len(levels)):
        row = answers.row("Plan", filling.FIRST + number)
        assert (row["Says"], row[FINDING].partition(":")[0]) == ("NOTE", "NOTE method"), row[FINDING]


def test_too_few_hours_show_the_salt_that_will_be_there(answers: filling.Answers) -> None:
    """The part of the way that diffusion has done by then, on the way from the salt in the product to the target."""
    number = next(at for at, (_, words) in enumerate(REMARKS) if "5 h is short" in words)
    average = answers.row("Results", filling.FIRST + number)["Average salt"]
    assert 0.002 < average < 0.008
    assert f"it holds about {average * 100:.2f} % salt on average, not 1 %" in said(answers, number)[0]


def test_salt_that_reads_the_same_is_not_set_against_itself(answers: filling.Answers) -> None:
    lines = said(answers, next(at for at, (row, _) in enumerate(REMARKS) if row is NEARLY))
    assert "h is short; it takes about" in lines[0]
    assert not [line for line in lines if "% salt on average, not" in line]


def test_a_reason_repeats_the_unit_that_was_typed() -> None:
    row = {**PLAIN, "Weight as bought": 10, "Thickness": -1, "Vessel": 20}
    assert 'got "-1 in"' in computed([row], "US").row("Plan", filling.FIRST)[FINDING]


def test_a_batch_months_away_from_the_others_is_asked_for_its_year() -> None:
    """A date typed without its year gets the year it is typed in: in December, January comes out eleven months ago."""
    rows = [{**PLAIN, "Ready at": READY + datetime.timedelta(days=day)} for day in (0, 1, 170, -365)]
    lines = [said(computed(rows), number) for number in range(len(rows))]
    assert ["Is its year right?" in " ".join(words) for words in lines] == [False, False, False, True]
    two = computed([rows[0], rows[3]])
    assert all("Is its year right?" in " ".join(said(two, number)) for number in (0, 1))


def test_ready_takes_dates_only() -> None:
    person = filling.Person(bare(Options(batches=FEW)))
    place = f"{person.headings('Plan')['Ready at']}{filling.FIRST}"
    rule = next(
        rule
        for rule in seen(person.content, values=False)["Plan"].data_validations.dataValidation
        if place in rule.sqref
    )
    assert (rule.type, rule.showErrorMessage) == ("date", True)
    assert "date and a time of day" in rule.error


@pytest.mark.parametrize(("name", "pages"), [("Plan", 4), ("Results", 3)])
def test_a_wide_sheet_prints_thirty_batches_side_by_side(name: str, pages: int) -> None:
    """All of them on each page: a page side by side always has the batches on it."""
    edit = Edit(bare(Options(batches=MOST_BATCHES)), "Plan.xlsx")
    setup = etree.fromstring(edit.part(edit.sheets[name])).find("{*}pageSetup")
    assert (setup.get("fitToWidth"), setup.get("fitToHeight")) == (str(pages), "1")
    assert edit.book.name("_xlnm.Print_Titles", name) == f"'{name}'!$5:$7,'{name}'!$A:$C"
    assert edit.book.name("_xlnm.Print_Area", name).endswith(f"${filling.FIRST + 29}")


def test_a_batch_that_does_not_print_is_told_of_on_the_page() -> None:
    person = filling.Person(bare(Options(batches=MOST_BATCHES)))
    person.fill("Plan", filling.FIRST + 29, EVEN)
    assert "Paper holds" not in person.computed().named("plan_state")
    person.fill("Plan", filling.FIRST + 30, EVEN)
    answers = person.computed()
    assert "Paper holds the first 30 rows" in answers.named("plan_state")
    assert answers.at("Plan", "D2") == answers.at("Results", "D2") == answers.named("plan_state")


def test_a_price_that_does_not_print_is_told_of_on_the_page() -> None:
    """Two sheets of paper hold what most kitchens buy; blank rows do not print beyond them."""
    person = filling.Person(bare(Options(batches=MOST_BATCHES)))
    last = filling.FIRST + prices.PRINTED - 1
    assert Edit(person.content, "Plan.xlsx").book.name("_xlnm.Print_Area", "Prices").endswith(f"${last}")
    for row, told in ((last, False), (last + 1, True)):
        person.fill("Prices", row, {"Product or ingredient": "salt"})
        assert (f"Paper holds the first {prices.PRINTED} rows" in person.computed().at("Prices", "A3")) == told


def test_no_more_ice_is_weighed_than_the_brine_has_water(answers: filling.Answers) -> None:
    """The vinegar brings nearly all the water: the masses of the batch add up to the brine, and none is below 0."""
    row = answers.row(
        "Results", filling.FIRST + next(n for n, (row, _) in enumerate(REMARKS) if row.get("Level 5") == 0.95)
    )
    assert 0 < row["of it ice"] <= row["Water or liquid, ice included"] < 0.5


def test_a_vessel_that_nothing_lies_in_is_not_called_too_small(answers: filling.Answers) -> None:
    number = next(n for n, (row, _) in enumerate(REMARKS) if row.get("Vessel") == 1)
    assert not [line for line in said(answers, number) if "larger vessel" in line]


def test_the_water_of_a_vinegar_is_water_of_the_brine() -> None:
    """Mass balance: product, water poured and the vinegar's water end at the target; so does the meter's start."""
    vinegar = {**EVEN, "Product": "cucumber", "Salt wanted in the product": 0.022, "Acid or base": "vinegar"}
    answers = computed([{**vinegar, "Level 5": level} for level in (0.0, 0.2, 0.6)])
    brought = registry.call("WATER_IN", 1.0, "vinegar")
    rows = [answers.row("Results", filling.FIRST + number) for number in range(3)]
    for row, level in zip(rows, (0.0, 0.2, 0.6)):
        edible = row["Edible weight"] * 1000
        poured, acid = row["Water or liquid, ice included"] * 1000, level * edible
        assert poured == pytest.approx(edible - acid * brought, rel=1e-9)
        native = float(next(one for one in load.rows("products") if one["name"] == "cucumber")["native_salt"])
        water = poured + acid * brought
        assert (row["Salt"] + native * edible) / (edible + water) == pytest.approx(0.022, rel=1e-3)
        assert row["Salt"] == pytest.approx(rows[0]["Salt"], rel=1e-9)


def test_a_temperature_typed_as_text_holds_back_the_ice_of_the_number() -> None:
    """38 °F is 3.33 °C; what cools the soak must cool the water too."""
    number = 10 / 3
    rows = [{**PLAIN, "Brine temperature": degree} for degree in (number, "38 F", "38F", number, "4", 4)]
    answers = computed(rows)
    ice = [answers.row("Results", filling.FIRST + at)["of it ice"] for at in range(6)]
    assert ice[0] > 0
    assert ice[1] == ice[2] == pytest.approx(ice[0], rel=1e-9)
    assert ice[4] == pytest.approx(ice[5], rel=1e-9)
    us = computed([{**PLAIN, "Thickness": 1, "Brine temperature": degree} for degree in (38, "38", "38 F")], "US")
    cold = [us.row("Results", filling.FIRST + at)["of it ice"] for at in range(3)]
    assert cold[0] > 0
    assert cold[1] == cold[2] == pytest.approx(cold[0], rel=1e-9)
