"""What a name in a row is taken for. Chemistry as it stands in any textbook; a cure is what the tables call one."""

from __future__ import annotations

import pytest
from each import each

from brinecalc.tables import load
from brinecalc.trade import curing, ingredients, named, own


@pytest.fixture(autouse=True)
def _clean():
    yield
    own.forget()


@each(
    ("text", "hazards"),
    [
        ("curing salt no. 1", {"cure"}),
        ("cure #2", {"cure", "nitrate"}),
        ("saltpetre", {"nitrate"}),
        ("sodium nitrate", {"nitrate"}),
        ("sodium nitrite", {"cure"}),
        ("potassium nitrite", {"cure"}),
        ("lye", {"alkali"}),
        ("slaked lime", {"alkali"}),
        ("hydrochloric acid", {"acid"}),
        ("citric acid", {"acid"}),
        ("lye solution 30 %", {"alkali"}),
        ("hydrochloric acid 10%", {"acid"}),
        ("vinegar 7 %", {"acid"}),
        ("red wine", {"acid"}),
        ("cola", {"acid", "cola"}),
        ("bay leaf", set()),
        ("baking soda", set()),
        ("table salt", set()),
        ("grey pebbles of no table", set()),
        ("prague powder", {"cure"}),
        ("prague salt", {"cure"}),
        ("prague powder #2", {"cure", "nitrate"}),
        ("peracetic acid", {"poison", "acid"}),
        ("cherry powder", {"unclear", "acid"}),
        ("tart cherry powder", {"unclear", "acid"}),
        ("cultured cherry powder", {"cure"}),
        ("acerola cherry powder", {"acid"}),
        ("acerola powder", {"acid"}),
        ("cherry salt", set()),
        ("dried cherries", set()),
        ("cultured swiss chard powder", {"cure"}),
        ("cure accelerator 5 %", {"cure"}),
        ("no nitrite", set()),
        ("nitrite free", set()),
        ("without nitrite", set()),
        ("no added nitrite, no nitrate", set()),
        ("nitrite-free rub", set()),
        ("sea salt (no nitrite)", set()),
        ("lemon pepper, nitrite-free", {"acid"}),
        ("nitrite-free celery salt", {"cure", "unclear"}),
        ("cultured dextrose, no nitrite", {"cure", "unclear"}),
        ("celery powder, no nitrite", {"cure"}),
        ("nitrite-free cure", {"cure"}),
        ("curing salt without nitrite", {"cure"}),
        ("no nitrate, 0.6 % nitrite", {"cure", "nitrate"}),
        ("not nitrite free", {"cure"}),
        ("potassium sorbate", {"preservative"}),
        ("sorbic acid", {"acid", "preservative"}),
        ("lemon juice, preservative-free", {"acid"}),
    ],
)
def test_hazards_of_a_name(text, hazards):
    assert named.find(text).hazards == hazards


@pytest.mark.parametrize("text", ["curing salt no. 1", "cure #2", "saltpetre", "sodium nitrite"])
def test_what_brings_nitrite_or_nitrate_is_a_cure(text):
    made = named.find(text)
    assert made.is_cure
    assert made.is_known
    assert not made.is_acid


def test_only_nitrite_itself_is_pure():
    assert named.find("sodium nitrite").is_pure_nitrite
    assert not named.find("curing salt no. 1").is_pure_nitrite
    assert not named.find("saltpetre").is_pure_nitrite
    assert not named.find("bay leaf").is_pure_nitrite


def test_a_grade_of_cure_comes_with_its_figures():
    """No. 1 is 6.25 % nitrite; No. 2 carries nitrate too (9 CFR 319; the labels of both grades)."""
    one, two = named.find("curing salt no. 1"), named.find("curing salt no. 2")
    assert (one.name, one.role, one.cure.nitrite, one.cure.nitrate) == ("curing salt no. 1", "cure", 0.0625, 0.0)
    assert two.role == "cure"
    assert two.cure.nitrate == pytest.approx(0.04)


def test_a_name_of_no_table_has_no_role():
    made = named.find("grey pebbles of no table")
    assert (made.role, made.is_known, made.ingredient, made.cure) == ("", False, None, None)
    assert made.name == "grey pebbles of no table"


def test_words_give_a_hazard_away():
    assert "acid" in named.find("grandfather's sour acid drops").hazards
    assert "cola" in named.find("cherry cola syrup of the house").hazards
    assert named.words_in("Two Lemons, 3 limes!") == " two lemon 3 lime "


def test_every_grade_of_cure_is_an_ingredient_too():
    """So that looking among the ingredients finds them all."""
    for row in load.rows("cures"):
        for spelling in (row["cure"], *row["aliases"]):
            assert spelling in ingredients.names()
            assert named.find(spelling).cure.cure == row["cure"]


def test_every_name_of_a_curing_salt_brings_its_grade():
    """Else its nitrite would not be counted."""
    for made in ingredients.shipped():
        if made.role == "cure":
            for text in (made.name, *made.aliases):
                found = named.find(text)
                assert found.is_cure, text
                grade = curing.cures().find(made.name) if made.name in curing.cures() else None
                assert found.cure == grade, text


def test_celery_powder_brings_nitrite_and_no_nitrate():
    """Cultured: its nitrate was turned into nitrite before it is sold."""
    assert named.find("cultured celery powder").hazards == {"cure"}


def test_every_name_in_the_table_of_cures_brings_that_grade():
    for made in load.rows("cures"):
        for text in (made["cure"], *made["aliases"]):
            assert named.find(text).cure == curing.cures().find(text), text


def test_a_name_read_before_ones_own_file_is_read_anew_after_it():
    """A name once met as unknown is sour to the curing salt as soon as the user's file says it is."""
    assert not named.find("grandma's drops").is_acid
    own.extend("name,role,water,sugars,sodium\nGrandma's drops,acid,90%,0,0\n")
    assert named.find("grandma's drops").is_acid
    own.forget()
    assert not named.find("grandma's drops").is_acid


def test_what_must_not_meet_a_cure_is_sour_unless_it_is_one_itself():
    """A cook may write that two curing salts must not meet; that makes neither of them an acid."""
    head = "name,role,water,sugars,sodium,avoid"
    own.extend(f"{head}\nHouse pink cure,cure,0,0,38%,cure\nHouse sprinkle,spice,0,0,0,cure\n")
    assert named.find("house pink cure").hazards == {"cure"}
    assert named.find("house sprinkle").hazards == {"acid"}


@pytest.mark.parametrize("written", ["{}", "{} 7 %", "{} solution 30 %"])
def test_what_only_the_table_of_acids_knows_is_a_plain_acid_base_or_salt(written):
    """What brings nitrite, and what is neutral but for a word of danger, stands in the table of ingredients too."""
    for made in load.rows("acid_ingredients"):
        for name in (made["ingredient"], *made["aliases"]):
            found = named.find(written.format(name))
            if named.find(name).role == "cure":
                assert found.is_cure, name
            elif found.ingredient is None and found.is_known:
                assert found.role in ("acid", "mineral acid", "strong base", "base", "salt of an acid"), found
            if made["role"] == "nitrite":
                assert found.is_cure, name


@pytest.mark.parametrize("written", ["{} solution 30 %", "{} 7 %", "grandma's {}", "{} of the house", "{} (for meat)"])
def test_a_curing_salt_is_known_in_longer_words_too(written):
    """Under any name that the table has for it: else nothing would keep it from acid."""
    for made in ingredients.shipped():
        if made.role == "cure":
            for name in (made.name, *made.aliases):
                assert named.find(written.format(name)).is_cure, name


@each(
    "text",
    "peklosol;peklosól;sel rosé;sel rose;sel nitrité;sal de cura;Nitritpökelsalz;nitrietzout;dusitanová sůl;"
    "нитритная соль;powder #1;pink powder no. 1;salt number 1;cure #1;n° 1 powder".split(";"),
)
def test_curing_salt_is_one_by_its_name_in_other_kitchens(text: str) -> None:
    """Common names of nitrite salt, and the number that packets of it carry."""
    assert named.find(text).is_cure
    assert named.find(f"{text} (6.25 %)").cure.nitrite == 0.0625


def test_a_number_at_the_end_of_many_words_is_read() -> None:
    text = "the pink powder that our butcher in the old town mixes for us every other week, no. "
    assert [named.find(f"{text}{number}").hazards for number in (1, 2)] == [{"cure"}, {"cure", "nitrate"}]


@pytest.mark.parametrize("text", ["powder #2", "pink salt powder no. 2", "salt number 2", "cure #2", "n° 2 powder"])
def test_the_second_number_brings_nitrate_too(text: str) -> None:
    assert named.find(text).hazards == {"cure", "nitrate"}


@each(
    "text",
    ["garlic powder no. 2", "chili powder #1", "salt 2 %", "salt 1 kg", "salt no. 10", "flour no. 1", "salt no. 1.5",
     "sel rose de l'Himalaya", "powder 1"],
)  # fmt: skip
def test_a_number_makes_no_curing_salt_of_a_spice_or_an_amount(text: str) -> None:
    assert not named.find(text).is_cure


@pytest.mark.parametrize("text", ["dried hibiscus", "ketchup", "amchur", "mango powder", "roselle", "plum chutney"])
def test_sour_flowers_fruit_powders_and_table_sauces_are_sour(text: str) -> None:
    """Ketchup and chutney are kept by vinegar, amchur and hibiscus are eaten for their acid: common knowledge."""
    assert named.find(text).hazards == {"acid"}


def test_in_a_long_text_nothing_is_taken_back() -> None:
    """Its end may be anywhere, and it would take seconds."""
    nitrite = named.phrases_of("cure")
    assert named.is_denied("no nitrite " * 9, nitrite)
    assert not named.is_denied("no nitrite " * 2900, nitrite)
    assert named.undenied("nitrite free " * 2400, nitrite).count(" nitrite ") == 2400


def test_what_a_comma_parts_is_not_taken_back_by_a_no_that_is_not_there():
    """Parted, "pink, salt" says nothing of pink salt, and so denies none."""
    assert not named.is_denied("pink, salt", ("pink salt",))
    assert named.is_denied("smoked trout, no pink salt", ("pink salt",))


def test_a_word_in_un_is_no_slip_of_the_keyboard():
    assert not named.says("unsmoked, uninjected, unpainted", ("smoked", "injected", "painted"))
    assert named.says("smokd", ("smoked",))
