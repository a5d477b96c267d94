"""The tests as a house: names that are sentences, builders that stand in one place, the order in which tests run."""

from __future__ import annotations

import ast
import builtins
import functools
import inspect
from collections import defaultdict
from pathlib import Path
from types import SimpleNamespace

import conftest
import pytest
from each import each

TESTS = Path(__file__).parent
FILES = {path.relative_to(TESTS).as_posix(): path.read_text(encoding="utf-8") for path in sorted(TESTS.rglob("*.py"))}
COPIED = 3
"""Lines of a function that is worth a place of its own."""


@functools.cache
def functions(name: str) -> list[ast.FunctionDef]:
    """The functions at the top of a file."""
    return [node for node in ast.parse(FILES[name]).body if isinstance(node, ast.FunctionDef)]


def does(function: ast.FunctionDef) -> str:
    """What a function takes and does, without its name, its annotations and what is said of it."""
    lines = function.body[ast.get_docstring(function) is not None :]
    return "\n".join([", ".join(word.arg for word in function.args.args), *map(ast.unparse, lines)])


def test_no_helper_is_copied_from_one_file_to_another() -> None:
    places: dict[str, list[str]] = defaultdict(list)
    for name in FILES:
        for function in functions(name):
            if not function.name.startswith("test_") and does(function).count("\n") >= COPIED:
                places[does(function)].append(f"{name}: {function.name}")
    assert [found for found in places.values() if len(found) > 1] == []


def test_names_of_tests_are_sentences() -> None:
    tests = [function.name for name in FILES for function in functions(name) if function.name.startswith("test_")]
    assert len(tests) > 1000
    assert [name for name in tests if name.count("_") < 3] == []


def test_what_asks_libreoffice_comes_first_then_workbooks_and_all_else_stays_in_its_order() -> None:
    items = [
        SimpleNamespace(name=name, fixturenames=name.split("+"), path=Path(folder, "test_it.py"))
        for name, folder in (("a", "hosts"), ("b+calc", "hosts"), ("c", "workbook"), ("d+calc", "workbook"), ("e", "."))
    ]
    conftest.pytest_collection_modifyitems(items)
    assert [item.name for item in items] == ["d+calc", "b+calc", "c", "a", "e"]


def test_each_tries_every_case_and_shows_those_that_fail() -> None:
    tried = []

    @each("one, other", [(1, 1), (1, 2), (3, 3), (4, 5)])
    def equal(one: int, other: int, found: list[int]) -> None:
        found.append(one)
        assert one == other

    with pytest.raises(builtins.BaseExceptionGroup, match="2 of 4 cases") as raised:
        equal(found=tried)
    assert tried == [1, 1, 3, 4]
    assert [error.__notes__ for error in raised.value.exceptions] == [["in the case (1, 2)"], ["in the case (4, 5)"]]
    assert list(inspect.signature(equal).parameters) == ["found"]


def test_each_without_a_case_fails() -> None:
    with pytest.raises(AssertionError, match="there is no case"):
        each("one", [])(lambda one: None)()


def test_each_lets_no_other_error_and_no_skip_pass() -> None:
    def tried(one: int) -> None:
        assert one != 3
        if one == 2:
            pytest.skip("not today")
        assert 1 / one == 1

    with pytest.raises(builtins.BaseExceptionGroup) as raised:
        each("one", [0, 1, 2, 3])(tried)()
    found = raised.value.exceptions
    assert [type(error) for error in found] == [ZeroDivisionError, pytest.skip.Exception, AssertionError]
    assert found[0].__notes__ == ["in the case (0,)"]
    with pytest.raises(KeyboardInterrupt):
        each("one", [1])(lambda one: _interrupt())()


def _interrupt() -> None:
    raise KeyboardInterrupt
