"""The documents say what is so: examples run, commands and files exist, lists and counts are those of the code.

A claim that a program can check is checked here; what only a person can see is on the list before a release.
"""

from __future__ import annotations

import ast
import doctest
import importlib.util
import inspect
import re
import shlex
import statistics
from pathlib import Path

import openpyxl
import pytest
import readme
import tomllib
from built import created
from click.testing import CliRunner
from each import each

from brinecalc import registry
from brinecalc.cli import COMMANDS, app
from brinecalc.describe import KINDS, worked_examples
from brinecalc.functions import balance
from brinecalc.hosts.calc import description
from brinecalc.hosts.headless import evaluate
from brinecalc.tables import load
from brinecalc.trade import pieces
from brinecalc.version import VERSION
from tests.generate import documents

README = readme.README.read_text(encoding="utf-8")
DEVELOPERS = readme.DEVELOPERS.read_text(encoding="utf-8")
DOCUMENTS = pytest.mark.parametrize("text", [README, DEVELOPERS], ids=["README", "DEVELOPERS"])
PROJECT = tomllib.loads((readme.ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
SESSIONS = re.findall(r"^\$ (brinecalc .+)\n((?:(?!\$ |```).*\n)+)", README, re.MULTILINE)
QUOTED = re.findall(r"`([^`\n]+)`", README + DEVELOPERS + readme.BY_HAND.read_text(encoding="utf-8"))
PLACES = [readme.ROOT, readme.ROOT / "brinecalc", readme.ROOT / "brinecalc" / "tables", readme.ROOT / "workbooks"]
MADE_LATER = {
    "brinecalc.bas",
    "xlwings.bas",
    "main.py",
    "computed.xlsx",
    "e.xlsx",
    "lite/xlwings-lite",
    ".venv/bin/brinecalc",
}
"""Files that a command writes, not files of the project."""


def run(*words, cwd=None):
    return CliRunner().invoke(app, list(words))


def test_no_code_block_is_of_a_kind_that_nothing_checks():
    assert re.findall(r"^```(.+)$", README, re.MULTILINE).count("console") == 2
    assert set(re.findall(r"^```(.+)$", README, re.MULTILINE)) == {
        "sh",
        "bat",
        "console",
        "python",
        "csv",
    }  # csv: test_cli
    assert re.findall(r"^```(.+)$", DEVELOPERS, re.MULTILINE) == ["sh", "text"]


@pytest.mark.parametrize(("command", "shown"), SESSIONS, ids=[command for command, _ in SESSIONS])
def test_the_console_shows_what_the_readme_says(command, shown):
    printed = run(*shlex.split(command)[1:]).output
    assert [line.rstrip() for line in printed.splitlines()] == shown.splitlines()


def test_the_python_examples_hold():
    for block in readme.blocks("python"):
        test = doctest.DocTestParser().get_doctest(block, {}, "README", "README.md", 0)
        runner = doctest.DocTestRunner(optionflags=doctest.ELLIPSIS | doctest.IGNORE_EXCEPTION_DETAIL)
        assert runner.run(test).failed == 0


@pytest.mark.parametrize("document", documents.PARTS, ids=lambda path: path.name)
def test_the_generated_parts_are_current(document):
    assert documents.renewed(document) == document.read_text(encoding="utf-8"), "run: python -m tests.generate"


NOT_JUDGED = {
    "trade/rules/cure_times.py": {"_HALF_INCH"},  # mm, by definition
    "trade/rules/salt.py": {"_COLDEST"},  # °C, the eutectic of the table of limits and a little more
    "trade/rules/sulphites.py": {"_IN_METABISULPHITE"},  # by atomic masses
}
"""Figures of the findings' rules that follow from something."""


def test_every_figure_that_a_finding_goes_by_is_a_limit_of_the_table_or_told_to_be_a_judgement():
    told = {(place, name) for place, names, _ in documents.judged_constants() for name in re.findall(r"\w+", names)}
    found = set()
    core = readme.ROOT / "brinecalc"
    for path in sorted((core / "trade" / "rules").glob("*.py")):
        place = path.relative_to(core).as_posix()
        for made in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(made, ast.Assign) and any(
                isinstance(part, ast.Constant) and isinstance(part.value, (int, float)) for part in ast.walk(made.value)
            ):
                found |= {(place, name) for name in re.findall(r"\w+", ast.unparse(made.targets[0]))}
    followed = {(place, name) for place, names in NOT_JUDGED.items() for name in names}
    assert followed < found
    assert found - followed - told == set()


def test_the_function_shown_to_developers_is_the_one_in_the_code():
    assert inspect.getsource(balance.gain) in readme.blocks("text", readme.DEVELOPERS)


def test_windows_gets_the_same_commands():
    def on_windows(block):
        text = block.strip().replace("python3 -m venv", "py -m venv").replace(" && ", "\n")
        return text.replace(".venv/bin/", ".venv\\Scripts\\").replace("workbooks/", "workbooks\\")

    assert [on_windows(block) for block in readme.blocks("sh")] == [block.strip() for block in readme.blocks("bat")]


def test_the_set_up_names_extras_and_a_python_that_the_project_has():
    blocks = "".join(readme.blocks("sh") + readme.blocks("sh", readme.DEVELOPERS))
    extras = re.findall(r"\[(\w+)\]", blocks)
    assert set(extras) == {"test", "dev"} <= set(PROJECT["optional-dependencies"])
    assert f"Python {PROJECT['requires-python'].removeprefix('>=')} or later" in README


def test_the_first_command_computes_the_example(tmp_path):
    words = shlex.split(readme.command("brinecalc calc").rpartition("&& ")[2])[1:]
    assert words[-2:] == ["computed.xlsx", "--overwrite"]
    words[1] = str(readme.ROOT / words[1])
    words[-2] = str(tmp_path / words[-2])
    done = run(*words)
    assert done.exit_code == 0, done.output
    assert "could not" not in done.output
    assert Path(words[-2]).stat().st_size > 100_000


def test_a_workbook_of_ones_own_is_made(tmp_path, monkeypatch):
    """The command is handed a workbook that was made before by the same options."""
    monkeypatch.setattr("brinecalc.workbook.create.create", lambda options, program, _: created(options, program))
    monkeypatch.chdir(tmp_path)
    line = next(block for block in readme.blocks("console") if block.startswith("brinecalc new"))
    done = run(*shlex.split(line)[1:])
    assert done.exit_code == 0, done.output
    sheets = openpyxl.load_workbook("my-kitchen.xlsx", read_only=True).sheetnames
    table = README[README.index("| who | does what | where |") : README.index("`brinecalc calc BOOK.xlsx` computes")]
    for row in table.splitlines()[2:5]:
        for sheet in row.split("|")[3].split(","):
            assert sheet.strip() in sheets or sheet.strip() == "`brinecalc share`"


@each("line", sorted({line for line in QUOTED if re.match(r"(\S+[\\/])?brinecalc [a-z]", line)}))
def test_commands_and_options_named_exist(line):
    _, name, *words = shlex.split(line.replace("\\", "/"))
    assert name in COMMANDS
    help_text = run(name, "--help").output
    for word in words:
        if word.startswith("-"):
            assert re.search(rf"(^|[ ,]){word}\b", help_text), f"{name} has no option {word}"


def test_every_command_is_spoken_of():
    named = {line.split()[1] for line in QUOTED if line.startswith("brinecalc ")}
    shown = {command.split()[1] for command, _ in SESSIONS}
    assert set(COMMANDS) - named - shown == {"version"}


@each("formula", sorted({each for each in QUOTED if each.startswith("=BRINE_") and "…" not in each}))
def test_formulas_named_in_passing_compute(formula):
    found = evaluate(re.sub(r"\b(A1:A3|B9)\b", "A1", formula.replace(";", ",")))
    refused = formula == "=BRINE_SALT(1000,5)" or "A1:A3" in formula or "B9" in formula  # blank cells here
    assert (found.error is not None) is refused, found


@DOCUMENTS
def test_what_a_formula_is_said_to_show_it_shows(text):
    said = re.findall(r"`(=BRINE_[^`]+)`(?: into a cell)?(?::| shows) (\d+)", text)
    assert len(said) == (3 if text is README else 0)
    for formula, value in said:
        assert evaluate(formula.replace(";", ",")).value == float(value)


def test_files_named_are_there():
    files = re.compile(r"[\w.-]+(/[\w.*-]*)+|[\w.-]+\.(py|csv|xlsx|bas|md)")
    named = {each for each in QUOTED if files.fullmatch(each)} - MADE_LATER
    assert len(named) > 80
    inside = [readme.ROOT / "brinecalc" / room for room in ("hosts", "workbook", "hosts/headless")]
    assert [name for name in named if not any(any(place.glob(name.rstrip("/"))) for place in PLACES + inside)] == []


@DOCUMENTS
def test_modules_to_be_run_are_there(text, monkeypatch):
    monkeypatch.syspath_prepend(str(readme.ROOT / "tests" / "hosts"))
    for name in re.findall(r"python -m ([a-z_.]+)", text):
        assert importlib.util.find_spec(name), name


def test_every_type_of_argument_is_named_to_developers():
    told = DEVELOPERS[DEVELOPERS.index("Types: `mass`") : DEVELOPERS.index("for any number of them")]
    assert set(re.findall(r"`(\w+)`", told)) == KINDS - {"choice"}
    assert "`{one, of, these}`" in told


def test_the_newest_release_is_this_one():
    changes = README[README.index("## Changes") :]
    assert re.findall(r"^- \*\*([\d.]+)\*\*", changes, re.MULTILINE)[0] == VERSION


def test_counts_and_limits_in_the_prose_are_those_of_the_code(monkeypatch):
    warm, most = pieces.on_the_clock()
    assert f"at or below {warm:g} °C / {warm * 1.8 + 32:.0f} °F" in README
    assert most == 4
    assert "times over four hours are refused" in README
    oldest = re.search(r'minimal-version value="([\d.]+)"', description.description(VERSION))[1]
    assert f"**LibreOffice Calc** ({oldest} or later" in README
    assert f"| LibreOffice Calc | {oldest} or later; tests run in {oldest}" in README
    spread = statistics.median(row["d_fast"] / row["d_slow"] for row in load.rows("products"))
    assert "diffusivities differ threefold" in README
    assert 2.5 < spread < 4.5


def test_the_parity_suite_is_as_large_as_developers_are_told(monkeypatch):
    monkeypatch.syspath_prepend(str(readme.ROOT / "tests" / "hosts"))
    monkeypatch.syspath_prepend(str(readme.ROOT / "tests" / "properties"))
    from parity import calls

    worked = sum(len(worked_examples(registry.spec(name))) for name in registry.names())
    assert "every worked example\nand some 1,300 calls more" in DEVELOPERS
    assert len(calls.all_calls()) - worked == pytest.approx(1300, abs=60)


def test_the_plan_of_the_house_shows_every_room():
    told = DEVELOPERS[DEVELOPERS.index("| room |") : DEVELOPERS.index("Everything up to")]
    rooms = {path.name for path in (readme.ROOT / "brinecalc").iterdir() if path.suffix == ".py" or path.is_dir()}
    missing = {room for room in rooms if f"`{room}`" not in told and f"`{room}/`" not in told}
    assert missing - {"__pycache__"} == {"__init__.py", "__main__.py", "version.py"}
