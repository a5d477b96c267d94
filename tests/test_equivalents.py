"""The list of faults that no test can know stays true to the code: nothing stale, nothing twice, a reason for each."""

from __future__ import annotations

import re

from tests.benchmarks import equivalents
from tests.benchmarks.faults import ROOT


def test_every_fault_listed_is_still_in_the_code() -> None:
    assert equivalents.entries()
    assert equivalents.stale() == []


def test_each_has_its_sort_of_reason_and_stands_there_once() -> None:
    for entry in equivalents.entries():
        assert entry.kind in equivalents.KINDS, entry
        assert entry.reason.partition(":")[2].strip(), entry
    assert len(equivalents.by_words()) == len(equivalents.entries())


def test_what_is_only_words_names_the_file_of_the_test_that_pins_the_rest() -> None:
    told = [entry for entry in equivalents.entries() if entry.kind == "words"]
    for entry in told:
        files = re.findall(r"tests/\w+/test_\w+\.py", entry.reason)
        assert files, entry
        assert [file for file in files if not (ROOT / file).exists()] == [], entry


def test_an_entry_whose_code_is_gone_is_stale() -> None:
    one = equivalents.entries()[0]
    assert equivalents._stands(one)
    assert not equivalents._stands(one._replace(code="no such line = 1"))
    assert not equivalents._stands(one._replace(change="no such words -> others"))
    assert not equivalents._stands(one._replace(function="no_such_function"))
    assert not equivalents._stands(one._replace(module="brinecalc.no_such_module"))
