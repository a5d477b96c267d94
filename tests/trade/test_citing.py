"""Where a number comes from, in words: each way of knowing is said, and no source is cited as better than it is."""

from __future__ import annotations

import pytest
from each import each

from brinecalc.tables import load
from brinecalc.trade import citing, topics

SAID = {
    "read": "read in",
    "second-hand": "not read",
    "computed": "computed",
    "memory": "not verified",
    "judgement": "judgement",
    "common practice": "common practice, no source",
}
"""Words without which a reader would take a figure for better than it is."""


@each("row", load.rows("sources"))
def test_a_citation_ends_with_how_the_figure_is_known(row: dict[str, str]) -> None:
    cited = citing.cite(row["key"])
    known = cited.rpartition("; ")[2]
    assert SAID[row["status"]] in known
    assert not [word for status, word in SAID.items() if status != row["status"] and word in known]
    assert row["title"] in cited
    if row["year"]:
        assert citing.title(row["key"]) == f"{row['title']} ({row['year']})"
    else:
        assert citing.title(row["key"]) == row["title"]


def test_a_source_that_is_not_there_is_said_to_be_none() -> None:
    with pytest.raises(Exception, match="source is not a known source"):
        citing.cite("no-such-key")


def test_what_is_said_of_a_product_has_no_gap() -> None:
    said = {row["name"]: " ".join(topics.about(row["name"])) for row in load.rows("products")}
    assert [name for name, text in said.items() if "None" in text or ";." in text] == []


def test_no_more_than_three_topics_are_suggested():
    """Dozens of names begin like this one."""
    advice = topics.unknown("curing salt no. 3").advice
    assert advice.count('"') == 2 * 3
