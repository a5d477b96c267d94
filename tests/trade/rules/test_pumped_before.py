"""Meat that is pumped and then covered is two rows: the nitrite of both is in it."""

from __future__ import annotations

from each import each

from tests.trade.cases import BACON, CURED, found, of

COVER = {
    **CURED, "product": "beef brisket", "method": "equilibrium", "cure method": "equilibrium", "water": 5000.0,
    "target": 0.025, "cure": 36.0,
}  # fmt: skip
""" 36 g × 6.25 % in 15.04 kg of meat and pickle: 149.6 ppm."""


@each(
    ("row", "begins", "limit"),
    [
        ({"native salt": 0.018}, "Beef brisket with 1.8 % salt in it", "200 ppm at most by US"),
        ({"treatment": "needled"}, "Needled beef brisket", "200 ppm at most by US"),
        ({"product": "pumped brisket"}, "Pumped brisket may", "200 ppm at most by US"),
        ({"native salt": 0.018, "product": "pork belly"}, "Pork belly with 1.8 % salt in it", "120 ppm at most by US"),
        ({"native salt": 0.018, "rules": "EU"}, "Beef brisket with 1.8 % salt in it", "120 ppm at most by EU"),
        ({"native salt": 0.018, "method": "dry equilibrium", "cure method": "dry"}, "Beef brisket", "200 ppm"),
        ({"native salt": 0.018, "method": "gradient", "cure method": "pick-up", "gain": 0.1}, "Beef", "200 ppm"),
        ({"native salt": 0.018, "method": "injected", "cure method": "pumped", "gain": 0.1}, "Beef brisket", "200 ppm"),
    ],
)  # fmt: skip
def test_nitrite_pumped_before_counts_too(row: dict[str, object], begins: str, limit: str) -> None:
    """By US rules 200 ppm in pumped meat and 120 in pumped bacon, 9 CFR 424; by those of the EU 80 mg/kg of the ion."""
    (hit,) = of("cure-pumped-before", {**COVER, **row})
    assert hit.severity == "CAUTION"
    assert hit.sentence.startswith(begins)
    assert limit in hit.sentence
    assert len(hit.text) < 255


def test_the_nitrite_of_the_row_itself_is_told_as_far_as_it_is_known() -> None:
    assert "only its own, 149.6 ppm." in of("cure-pumped-before", {**COVER, "treatment": "needled"})[0].sentence
    unknown = {**COVER, "treatment": "needled", "water": None}
    assert "only its own." in of("cure-pumped-before", unknown)[0].sentence


@each(
    "row",
    [
        {**COVER, "treatment": "thawed"},
        {**COVER, "treatment": "not needled"},
        {**COVER, "native salt": 0.005},
        {**COVER, "product": "enhanced chicken thigh"},
        {**COVER, "cure": None, "treatment": "needled"},
        {**BACON, "treatment": "needled"},
        {**COVER, "method": "injected", "treatment": "needled"},
        {**COVER, "product": "cucumber", "native salt": 0.018},
        {**COVER, "product": "salmon fillet", "native salt": 0.018},
    ],
)
def test_a_row_that_pumps_or_meat_that_nothing_was_done_to(row: dict[str, object]) -> None:
    assert "cure-pumped-before" not in found(row)


def test_salt_that_is_typed_is_reckoned_in_and_told_once() -> None:
    treated = {"product": "beef brisket", "native salt": 0.018, "target": 0.02}
    assert "leave the target as it is" in of("already-treated", treated)[0].sentence
    assert "already-treated" not in found({**COVER, "native salt": 0.018})


@each(
    ("rule", "row", "before", "after"),
    [
        ("cure-too-short", {"thickness": 50.0, "soak hours": 24.0}, "or pump it.", "unless curing salt was pumped all"),
        ("cure-too-thick", {"thickness": 120.0}, "Pump it, or", "Make sure that the pump reached all of it, or"),
    ],
)  # fmt: skip
def test_what_was_just_pumped_is_not_told_to_be_pumped(
    rule: str, row: dict[str, object], before: str, after: str
) -> None:
    (plain,), (pumped,) = of(rule, {**COVER, **row}), of(rule, {**COVER, **row, "native salt": 0.018})
    assert before in plain.sentence
    assert after in pumped.sentence
    assert before not in pumped.sentence
