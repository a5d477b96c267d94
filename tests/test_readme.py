"""The README says what is so: its console and Python examples run, its function list is the registry's."""

from __future__ import annotations

import doctest
import re
import shlex

import pytest
import readme
from click.testing import CliRunner

from brinecalc.cli import app

TEXT = readme.README.read_text(encoding="utf-8")
SESSIONS = re.findall(r"^\$ (brinecalc .+)\n((?:(?!\$ |```).*\n)+)", TEXT, re.M)


@pytest.mark.parametrize(("command", "shown"), SESSIONS, ids=[command for command, _ in SESSIONS])
def test_the_console_shows_what_the_readme_says(command, shown):
    run = CliRunner().invoke(app, shlex.split(command)[1:])
    printed = run.output
    assert [line.rstrip() for line in printed.splitlines()] == shown.splitlines()


def test_the_python_examples_hold():
    for block in readme.blocks("python"):
        test = doctest.DocTestParser().get_doctest(block, {}, "README", "README.md", 0)
        runner = doctest.DocTestRunner(optionflags=doctest.ELLIPSIS | doctest.IGNORE_EXCEPTION_DETAIL)
        assert runner.run(test).failed == 0


def test_the_function_list_is_current():
    assert readme.function_list() in TEXT, "run: python tests/readme.py update"
