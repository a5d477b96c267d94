"""What a row's own words say is heard where it is about the food, and nowhere else."""

from __future__ import annotations

from each import each

from tests.trade.cases import found, said

LOIN = {"product": "pork loin", "method": "gradient"}


@each("told", ["keep at room temperature", "kept on the counter", "Friday; store it unrefrigerated",
               "stored in the larder", "kept without refrigeration"])  # fmt: skip
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
