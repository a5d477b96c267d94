"""The worksheet functions of the family "Label, limits, sources", called as a host calls them."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from each import each

from brinecalc import registry
from brinecalc.tables import load

call, why = registry.call, registry.why
WPS = Path(__file__).parent.parent / "reference" / "wps_examples.csv"


def test_sodium_is_its_share_of_the_salt() -> None:
    """Definition: serving·share·393.37 mg/g; rounding by 21 CFR 101.9(c)(4) as reported."""
    assert call("BRINE_SODIUM", "150 g", "1.2%") == pytest.approx(708.066, rel=1e-12)
    assert call("BRINE_SODIUM", 150, 0.012, "US") == 710.0
    assert call("BRINE_SODIUM", 150, None) == 0.0
    both = call("BRINE_SODIUM", 100, 0.01, "", [["sodium tripolyphosphate"], ["baking soda"]], [[0.005], [0.001]])
    assert both == pytest.approx(393.37 + 156.24 + 27.367, abs=0.05)


@each(
    ("cells", "error", "words"),
    [
        ((0, 0.01), "#NUM!", "serving"),
        ((100, 1.2), "#NUM!", "write 1.2%"),
        ((100, -0.1), "#NUM!", "salt_share"),
        ((100, "salty"), "#VALUE!", "salt_share"),
        ((100, 0.01, "UK"), "#N/A", "US"),
        ((100, 0.01, "", ["baking soda"]), "#VALUE!", "shares"),
        ((100, 0.01, "", "", [0.1]), "#VALUE!", "ingredients"),
        ((100, 0.01, "", ["baking soda", "salt"], [0.1]), "#VALUE!", "as many"),
        ((100, 0.01, "", ["moon dust"], [0.1]), "#N/A", "moon dust"),
        ((100, 0.01, "", ["baking soda"], [5]), "#NUM!", "write 5%"),
        ((100, 0.01, "", ["baking soda"], ["#REF!"]), "#REF!", "#REF!"),
    ],
)
def test_sodium_refuses_what_it_cannot_reckon(cells: tuple[object, ...], error: str, words: str) -> None:
    assert call("BRINE_SODIUM", *cells) == error
    assert words in why("BRINE_SODIUM", *cells)


def test_added_solution_is_the_gain_and_never_a_loss() -> None:
    assert call("BRINE_ADDED_SOLUTION", "5 kg", "5.6 kg") == pytest.approx(0.12, rel=1e-12)
    assert call("BRINE_ADDED_SOLUTION", 5, 4) == "#NUM!"
    assert "BRINE_YIELD" in why("BRINE_ADDED_SOLUTION", 5, 4)


@pytest.mark.parametrize("row", list(csv.DictReader(WPS.open(encoding="utf-8"))), ids=lambda row: row["WPS_pct"])
def test_water_phase_salt_examples(row: dict[str, str]) -> None:
    """Source: tests/reference/wps_examples.csv, formula of guideline F.B.14.14."""
    found = call("BRINE_WATER_PHASE_SALT", float(row["salt_pct"]) / 100, float(row["moisture_pct"]) / 100)
    assert 100 * found == pytest.approx(float(row["WPS_pct"]), abs=5.1e-5)


class TestCheck:
    """BRINE_CHECK and BRINE_FINDINGS."""

    HEADINGS = ("product", "weight", "cure", "cure method", "liquid")

    def test_worst_finding_or_ok(self) -> None:
        assert call("BRINE_CHECK", [self.HEADINGS], [["boneless ham muscle", 10000, 20, "dry", None]]) == "ok"
        assert call("BRINE_CHECK", [self.HEADINGS], [["boneless ham muscle", 10000, 20, "dry", "cola"]]).startswith(
            "STOP cure: "
        )
        assert call("BRINE_CHECK", [self.HEADINGS], [["boneless ham muscle", "error", "", "", ""]]).startswith(
            "CAUTION weight: "
        )
        assert call("BRINE_CHECK", [self.HEADINGS], [["boneless ham muscle", "error", 20, "dry", ""]]).startswith(
            "STOP cure: The nitrite was not checked"
        )

    def test_a_column_does_as_well_as_a_row(self) -> None:
        headings = [[cell] for cell in self.HEADINGS]
        assert call("BRINE_CHECK", headings, [["boneless ham muscle"], [10000], ["error"], ["dry"], [None]]).startswith(
            "STOP cure: "
        )

    def test_table_of_all(self) -> None:
        table = call("BRINE_FINDINGS", [self.HEADINGS], [["boneless ham muscle", 10000, 200, "dry", "cola"]])
        assert {len(row) for row in table} == {4}
        assert [row[0] for row in table][:2] == ["STOP", "STOP"]
        assert any("1250 ppm" in row[2] and "9 CFR 424.21" in row[3] for row in table)
        assert call("BRINE_FINDINGS", ["weight"], [1000]) == [["ok", "", "", ""]]

    def test_unequal_rows(self) -> None:
        assert call("BRINE_CHECK", ["product", "weight"], ["boneless ham muscle"]) == "#VALUE!"
        assert "as many cells as headings" in why("BRINE_CHECK", ["product", "weight"], ["boneless ham muscle"])

    def test_an_error_value_goes_out_unchanged(self) -> None:
        """Rule 5; in Calc the function is not called at all, so sheets write IFERROR(cell,"error")."""
        assert call("BRINE_CHECK", ["product", "cure"], ["boneless ham muscle", "#NUM!"]) == "#NUM!"

    def test_missing_arguments(self) -> None:
        assert call("BRINE_CHECK", "", "") == "#VALUE!"
        assert "headings" in why("BRINE_CHECK", "", "")


class TestLimit:
    """BRINE_LIMIT."""

    def test_figures(self) -> None:
        assert call("BRINE_LIMIT", "nitrite comminuted") == 156.25
        assert call("BRINE_LIMIT", "Nitrite Pumped Bacon", "us") == 120.0
        assert call("BRINE_LIMIT", "nitrite ion", "EU") == 80.0
        assert call("BRINE_LIMIT", [["phosphate"], ["rosemary"]]) == [[0.005], [0.005]]

    def test_agrees_with_the_curing_family(self) -> None:
        for method in ("dry", "comminuted", "pumped", "pick-up", "equilibrium"):
            for rules in ("US", "EU"):
                asked = call("BRINE_LIMIT", f"nitrite {method}", rules)
                assert asked == call("BRINE_NITRITE_LIMIT", method, "", rules)

    @pytest.mark.parametrize(
        ("cells", "error", "words"),
        [
            (("nitrit pumped",), "#N/A", "nitrite pumped"),
            (("nitrite pumped", "UK"), "#N/A", "EU"),
            (("lactate", "EU"), "#N/A", "US"),
            ((None,), "#VALUE!", "limit"),
            (("",), "#VALUE!", "limit"),
            (("#N/A",), "#N/A", "#N/A"),
        ],
    )
    def test_what_is_not_there(self, cells: tuple[object, ...], error: str, words: str) -> None:
        assert call("BRINE_LIMIT", *cells) == error
        assert words in why("BRINE_LIMIT", *cells)

    def test_every_limit_answers(self) -> None:
        for row in load.rows("limits"):
            assert call("BRINE_LIMIT", row["limit"], row["rules"]) == row["value"]


class TestSource:
    """BRINE_SOURCE."""

    @pytest.mark.parametrize(
        ("topic", "words"),
        [
            ("nitrite pumped bacon", "9 CFR 424.22(b)"),
            ("nitrite ion residual", "from memory, not verified"),
            ("texture ph low", "common practice, no source"),
            ("nitrite ph", "judgement"),
            ("chicken breast", "National Nutrient Database"),
            ("honey", "National Nutrient Database"),
            ("white sugar", "White sugar, immersion: Customary figures"),
            ("cure #1", "curing salts by grade"),
            ("nitrite-cola", "Finding nitrite-cola, STOP"),
            ("BRINE_CURE", "424.21"),
            ("cure", "424.21"),
            ("usda-sr27", "United States Department of Agriculture"),
            ("sodium in salt", "393.37"),
        ],
    )
    def test_topics(self, topic: str, words: str) -> None:
        assert words in call("BRINE_SOURCE", topic)

    def test_every_name_answers(self) -> None:
        topics = [row["limit"] for row in load.rows("limits")]
        topics += [row["name"] for row in (*load.rows("products"), *load.rows("ingredients"))]
        topics += [row["id"] for row in load.rows("findings")]
        topics += [row["key"] for row in load.rows("sources")]
        topics += [row["cure"] for row in load.rows("cures")]
        topics += registry.names()
        for topic in topics:
            told = call("BRINE_SOURCE", topic)
            assert len(told) > 20, topic
            assert not told.startswith("#"), topic

    def test_limits_ask_to_be_rechecked(self) -> None:
        for row in load.rows("limits"):
            if row["rules"] != "any":
                assert "recheck, rules change" in call("BRINE_SOURCE", row["limit"])

    def test_an_unknown_topic_names_the_nearest(self) -> None:
        assert call("BRINE_SOURCE", "nitrite pumpd bacon") == "#N/A"
        assert '"nitrite pumped bacon"' in why("BRINE_SOURCE", "nitrite pumpd bacon")
        assert call("BRINE_SOURCE", "") == "#VALUE!"
