"""What a row's own words say is heard where it is about the food, and nowhere else."""

from __future__ import annotations

from each import each

from tests.trade.cases import found, said

LOIN = {"product": "pork loin", "method": "gradient"}


@each("told", ["keep at room temperature", "kept on the counter", "Friday; store it unrefrigerated",
               "stored in the larder", "hold at ambient", "kept without refrigeration"])  # fmt: skip
@each("heading", ["note", "for", "Comments", "note 2", "treatment"])
def test_what_is_kept_without_cold_is_heard_under_a_note(heading: str, told: str) -> None:
    assert "sealed-low-acid" in found({**LOIN, heading: told})


@each("told", ["do not keep at room temperature", "stand at room temperature for 30 min", "serve at room temperature",
               "bring to room temperature before cooking", "keep cold", "keep the counter clean"])  # fmt: skip
def test_what_only_comes_to_the_warmth_of_the_room_is_not_kept_there(told: str) -> None:
    assert said({**LOIN, "note": told}) == "ok"


@each("cell", [5, 0, True, "#N/A", "Friday", "-", "x" * 400, "table 4, shift B"])
@each("heading", ["note", "for"])
def test_a_note_about_anything_else_is_left_alone(heading: str, cell: object) -> None:
    assert said({**LOIN, heading: cell}) == "ok"


def test_two_notes_are_both_heard() -> None:
    row = {"product": "salmon fillet", "method": "gradient", "note": "for Friday", "remarks": "lox"}
    assert "parasites" in found(row)


@each(
    ("product", "told"),
    [
        ("chicken breast", "tartare, raw"), ("chicken breast", "to be served raw"), ("pork loin", "salami, not cooked"),
        ("pork loin", "for carpaccio"), ("duck breast", "sashimi; for Friday"), ("pork loin", "Coppa. Never cooked."),
    ],
)  # fmt: skip
@each("heading", ["note", "for", "treatment"])
def test_poultry_and_pork_that_are_eaten_raw_are_told(heading: str, product: str, told: str) -> None:
    """Cooking of poultry and of pork that is minced or pierced: Food Code 3-401.11, read."""
    assert "eaten-raw" in found({"product": product, heading: told})


def test_raw_is_believed_of_how_it_is_eaten_and_of_a_dish_in_the_name() -> None:
    assert "eaten-raw" in found({"product": "chicken thigh", "for": "raw"})
    assert "eaten-raw" in found({"product": "chicken tartare"})
    assert "eaten-raw" in found({"product": "pork jowl carpaccio"})


@each(
    ("product", "told"),
    [
        ("chicken breast", "with tartare sauce"), ("chicken breast", "bought raw"), ("chicken breast", "raw"),
        ("pork loin", "salami, cooked"), ("pork loin", "never served raw"), ("pork loin", "not cooked yet"),
        ("beef rump", "tartare"), ("pork loin", "poke holes with a fork"), ("pork loin", "sliced as salami is"),
    ],
)  # fmt: skip
def test_nothing_is_said_of_what_is_cooked_or_of_what_goes_with_it(product: str, told: str) -> None:
    assert "eaten-raw" not in found({"product": product, "note": told})
