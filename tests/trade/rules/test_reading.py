"""A cell is a number, a name, a blank, an error or unreadable, and nothing of it raises."""

from __future__ import annotations

from each import each

from brinecalc.trade.findings import all_of
from tests.trade.cases import found, of, said


@each("blank", [None, "", " ", "none", "-", "n/a"])
def test_a_blank_is_not_given(blank: object) -> None:
    assert said({"product": "pork chop", "liquid": blank, "ph": blank, "cure": blank, "strength": blank}) == "ok"


def test_zero_under_a_name_is_a_blank() -> None:
    assert said({"product": 0, "liquid": 0.0, "sweetener": 0, "cure method": 0}) == "ok"


@each("text", ["error", "Error", "#NUM!", "#VALUE!", "#N/A", "#DIV/0!", "#WERT!"])
def test_an_error_is_caution_and_in_the_cure_stop(text: str) -> None:
    assert said({"strength": text}).startswith("CAUTION strength")
    assert said({"cure": text}).startswith("STOP cure")


@each(
    ("heading", "cell"),
    [
        ("weight", "1,000 g"), ("weight", -5.0), ("weight", "9**9**9 kg"), ("weight", True), ("weight", "5 °C"),
        ("weight", float("nan")), ("weight", 10**400), ("strength", 5), ("strength", "500%"), ("ph", 15.0),
        ("ph", "sour"), ("bath temperature", "cosy"), ("soak hours", "until tender"), ("reused", "perhaps"),
        ("thickness", "1 x 2 x"), ("water", object()), ("level", "lots"), ("ph", -0.1), ("gain", -0.1), ("kind", 5),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_a_caution(heading: str, cell: object) -> None:
    row = {"ingredient": "bay leaf", heading: cell}
    hits = [f for f in all_of(list(row), list(row.values())) if f.rule.id == "cell-unreadable"]
    assert [f.subject for f in hits] == [heading]


def test_per_cent_forgotten_is_explained() -> None:
    assert "write 5%" in said({"strength": 5})


def test_figures_typed_with_their_units_are_read() -> None:
    row = {"product": "pork chop", "weight": "5 lb 8 oz", "bath temperature": "50F", "soak hours": "5 h"}
    assert "brine-warm-long" in found(row)
    assert "thickness-odd" not in found({"thickness": "150 x 60 x 40 mm"})


def test_a_misspelt_ingredient_is_told_with_the_nearest():
    hits = of("ingredient-unknown", {"ingredient": "rosmary", "level": 0.01})
    assert '"rosmary" is in no table (nearest: fresh rosemary' in hits[0].sentence


def test_an_unknown_heading_is_told_where_the_headings_are_listed() -> None:
    (hit,) = of("heading-passed-over", {"foo": 5.0})
    assert 'or "note" if it is your own' in hit.sentence
    assert "brinecalc functions CHECK lists the headings" in hit.sentence
    (other,) = of("heading-passed-over", {"qqqqzzzz": 5.0})
    assert 'Head it "note" if it is your own; brinecalc functions CHECK lists' in other.sentence


def test_long_words_are_quoted_to_forty_letters_and_two_products_are_named():
    (hit,) = of("heading-unknown", {"cure" + "x" * 60: 3.0})
    assert f'"cure{"x" * 36}"' in hit.sentence
    (hit,) = of("product-unknown", {"product": "pork chp"})
    assert "(nearest: pork chop, bone-in pork chop)" in hit.sentence


def test_a_curing_salt_of_another_name_is_never_said_to_be_like_mere_salt() -> None:
    """Pink salt of the mountains has a like name, and whoever took it for that would have the nitrite unchecked."""
    (hit,) = of("ingredient-unknown", {"ingredient": "sel rosé", "level": "10 g"})
    assert "nearest" not in hit.sentence
    (hit,) = of("ingredient-unknown", {"ingredient": "himalaya salt", "level": "10 g"})
    assert "Himalayan pink salt" in hit.sentence


@each("name", ["no nitrite", "nitrite free", "Without nitrite", "nitrite-free rub"])
def test_a_name_that_denies_nitrite_is_no_curing_salt_and_is_told_what_the_pack_may_say(name: str) -> None:
    row = {"product": "pork loin", "ingredient": name, "level": 0.001}
    assert found(row) == ["ingredient-unknown"]
    assert "where its pack names celery, chard, a culture or nitrite, write cultured celery powder" in said(row)


@each("name", ["nitrite-free celery salt", "cultured dextrose, no nitrite", "natural ham spice (no added nitrite)"])
def test_a_name_of_plants_that_denies_nitrite_stops_the_batch(name: str) -> None:
    for row in ({"ingredient": name, "level": 0.001}, {"salt name": name, "salt": 200.0}):
        stop = said({"product": "pork loin", **row})
        assert stop.startswith("STOP ")
        assert "may be a cultured powder that brings nitrite, though it is said to have none. Read its label" in stop


@each("name", ["potassium sorbate", "sodium benzoate", "E 202", "sorbic acid"])
def test_a_preservative_in_a_row_is_called_one(name: str) -> None:
    """Judgement: no level is offered, for no source for one is in the table of limits."""
    row = {"product": "carrot", "ingredient": name, "level": 0.001}
    assert "It is a preservative: the law of your place and its label rule where it may go in, and how much." in said(
        row
    )
    (hit,) = of("ingredient-unknown", row)
    assert "nearest" not in hit.sentence
    assert "Correct the name" not in hit.sentence


@each(
    ("row", "words"),
    [
        (
            {"weight": "5 killos"},
            'Weight cannot be read: "5 killos" must be a mass; did you mean "5 kg"? Write it anew.',
        ),
        ({"thickness": "2 x 3 x 4 inchs"}, 'must be a length; did you mean "2 x 3 x 4 in"? Write'),
        (
            {"pieces": "two"},
            '"two" must be a whole number; write it in figures, such as 40. Nothing in it was checked.',
        ),
        ({"nitrite": "12O", "cure": "5 g"}, "Write the ppm"),
        ({"ph": "sour"}, 'pH cannot be read: "sour" must be a pH such as 5.8. Write it anew.'),
        ({"cure": "5 killos"}, "is not known. Write what is weighed out, such as 12.5 g. Mend it before"),
        ({"cure strength": 50}, "is not known. Write the share on its label, such as 6.25%. Mend it before"),
        ({"nitrite": "lots"}, "is not known. Write the ppm, such as 120. Mend it before"),
        ({"cure": "#NUM!"}, "is not known. Ask BRINE_WHY about that cell. Mend it before"),
    ],
)
def test_what_cannot_be_read_is_told_how_to_write_it(row: dict[str, object], words: str) -> None:
    assert words in said(row)
