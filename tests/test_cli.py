"""The command line: what it prints, what it writes, and with which status it ends."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import openpyxl
import pytest
import readme
from click.testing import CliRunner
from each import each

from brinecalc.cli import COMMANDS, app
from brinecalc.tables import load
from brinecalc.trade import own
from brinecalc.version import VERSION


def run(*words):
    return CliRunner().invoke(app, [str(word) for word in words])


def plan(folder, name="Plan.xlsx", **cells):
    book = openpyxl.Workbook()
    book.active.title = "Plan"
    for place, value in (cells or {"A1": 1000, "B1": "=BRINE_SALT(A1,5%)", "C1": "=B1*2"}).items():
        book.active[place] = value
    book.save(folder / name)
    return folder / name


def values(path):
    return openpyxl.load_workbook(path, data_only=True).active


# ---- eval


@each(
    ("formula", "printed"),
    [  # source: definition of the functions, by hand; see also tests/functions
        ("=BRINE_SALT(1000,5%)", "50"),
        ("BRINE_SALT(1000,5%)", "50"),
        ('=BRINE_SALT(1000,5%,"solution")', "52.6315789474"),
        ("=BRINE_EQUILIBRIUM_SALT(2000,1000,1.5%)", "45"),
        ("=BRINE_RESCALE_HOURS(4,20,40)", "16"),
        ("=brine.salt(1000,,)", "#VALUE!"),
        ("=-2^2", "4"),
        ('="salt"&1/3', "salt0.333333333333333"),
        ("=1=1", "TRUE"),
        ("={1,2.5;30,4}", " 1  2.5\n30    4"),
        ("=BRINE_SALT({1000;2000},5%)", " 50\n100"),
    ],
)
def test_eval_prints_the_value(formula, printed):
    assert run("eval", formula).output.splitlines()[: printed.count("\n") + 1] == printed.splitlines()


@pytest.mark.parametrize(
    ("formula", "first", "words"),
    [
        ('=BRINE_SALT("2 gal",5)', "#NUM!", ["strength must be", "write 5%"]),
        ('=BRINE_SALT("1,000 g",5%)', "#VALUE!", ['got "1,000 g"', "thousands or decimals"]),
        ('=BRINE_SALT(1000,"1000 g")', "#VALUE!", ["strength", "1000 g"]),
        ("=1+BRINE_SALT(BRINE_SALT(1000,500%),5%)", "#NUM!", ["BRINE_SALT: strength must be"]),
        ('=BRINE_EDIBLE(1000,"unicorn")', "#N/A", ["unicorn"]),
        ("=1/0", "#DIV/0!", ["divides by zero"]),
    ],
)
def test_eval_prints_an_error_and_its_reason(formula, first, words):
    done = run("eval", formula)
    assert done.exit_code == 1
    assert done.output.splitlines()[0] == first
    assert all(word in done.output for word in words)


@pytest.mark.parametrize(
    ("formula", "words"),
    [
        ('=SUMPRODUCT(LEN({"a","bb"}))', "LEN takes single cells"),
        ("=FOO(1)", "FOO is not a function that is known here."),
        ("=BRINE_SATL(1)", "BRINE_SALT"),
        ("=BRINE_SALT(1000;5%)", "semicolon where a comma belongs"),
        ("=1+", "ends too early"),
        ("", "is empty"),
    ],
)
def test_eval_says_why_it_does_not_compute(formula, words):
    done = run("eval", formula)
    assert done.exit_code == 1
    assert words in done.output


def test_eval_for_programs():
    assert json.loads(run("eval", "=BRINE_SALT(1000,5%)", "--json").output) == {
        "formula": "=BRINE_SALT(1000,5%)",
        "value": 50.0,
        "error": None,
        "reason": None,
    }
    failed = run("eval", "--json", "=BRINE_SALT(1000,5)")
    answer = json.loads(failed.output)
    assert failed.exit_code == 1
    assert (answer["value"], answer["error"]) == ("#NUM!", "#NUM!")
    assert answer["reason"].startswith("BRINE_SALT: strength")


def test_what_could_steer_a_terminal_is_shown_not_sent():
    done = run("eval", '=UNICHAR(27)&"[2J"&UNICHAR(8238)&"abc"&CHAR(10)')
    assert done.output == "<U+001B>[2J<U+202E>abc⏎\n"


# ---- calc


def test_calc_writes_a_copy_beside_the_workbook(tmp_path):
    path = plan(tmp_path)
    before = path.read_bytes()
    done = run("calc", path)
    assert done.exit_code == 0, done.output
    assert path.read_bytes() == before
    sheet = values(tmp_path / "Plan computed.xlsx")
    assert (sheet["B1"].value, sheet["C1"].value) == (50, 100)
    assert "Plan computed.xlsx" in done.output
    assert done.output.splitlines()[1].split() == ["sheet", "formulas", "errors", "not", "computed"]
    assert done.output.splitlines()[2].split() == ["Plan", "2", "0", "0"]


def test_calc_lists_errors_with_cell_formula_and_reason(tmp_path):
    path = plan(tmp_path, A1=1000, B1="=BRINE_SALT(A1,5)", C1="=B1*2", D1="=OFFSET(A1,1,0)", E1="=A1*2")
    done = run("calc", path)
    assert done.exit_code == 1
    assert "Plan!B1  #NUM!  =BRINE_SALT(A1,5)" in done.output
    assert "write 5% or 0.05" in done.output
    assert "it comes from B1" in done.output
    assert "Plan!D1  =OFFSET(A1,1,0)" in done.output
    assert "use INDEX" in done.output
    assert values(tmp_path / "Plan computed.xlsx")["E1"].value == 2000


def test_calc_for_programs(tmp_path):
    path = plan(tmp_path, A1="=1/0", B1="=2+2")
    answer = json.loads(run("calc", path, "--json").output)
    assert answer["formulas"] == 2
    assert answer["errors"] == 1
    assert answer["problems"] == [
        {
            "sheet": "Plan",
            "cell": "A1",
            "formula": "=1/0",
            "error": "#DIV/0!",
            "reason": "it divides by zero or by a blank cell",
        }
    ]
    assert answer["output"] == str(tmp_path / "Plan computed.xlsx")


def test_calc_shows_the_first_problems_and_all_on_demand(tmp_path):
    path = plan(tmp_path, **{f"A{row}": "=1/0" for row in range(1, 31)})
    assert "… and 10 more" in run("calc", path).output
    every = run("calc", path, "--overwrite", "--all").output
    assert "more;" not in every
    assert "Plan!A30" in every


def test_calc_in_place_keeps_a_backup(tmp_path):
    path = plan(tmp_path)
    before = path.read_bytes()
    done = run("calc", path, "--in-place")
    assert done.exit_code == 0
    assert "backup: Plan.backup.xlsx" in done.output
    assert (tmp_path / "Plan.backup.xlsx").read_bytes() == before
    assert values(path)["B1"].value == 50
    again = run("calc", path, "--in-place")
    assert again.exit_code == 0
    assert sorted(os.listdir(tmp_path)) == ["Plan.backup.xlsx", "Plan.xlsx"]


def test_calc_never_overwrites_unasked(tmp_path):
    path = plan(tmp_path)
    (tmp_path / "Out.xlsx").write_bytes(b"mine")
    done = run("calc", path, "-o", tmp_path / "Out.xlsx")
    assert done.exit_code == 2
    assert "exists already" in done.output
    assert (tmp_path / "Out.xlsx").read_bytes() == b"mine"
    assert run("calc", path, "-o", tmp_path / "Out.xlsx", "--overwrite").exit_code == 0
    assert values(tmp_path / "Out.xlsx")["B1"].value == 50


def test_calc_writes_into_a_folder(tmp_path):
    (tmp_path / "out").mkdir()
    assert run("calc", plan(tmp_path), "-o", tmp_path / "out").exit_code == 0
    assert values(tmp_path / "out" / "Plan.xlsx")["B1"].value == 50


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["-o", "Plan.xlsx"], "is the workbook itself; add --in-place"),
        (["-o", "./../{here}/Plan.xlsx", "--overwrite"], "is the workbook itself"),
        (["-o", "Plan.xlsm"], "must end in .xlsx"),
        (["-o", "Plan.csv"], "must end in .xlsx"),
        (["-o", "Out.xlsx", "--in-place"], "exclude each other"),
        (["-o", "nowhere/Out.xlsx"], "there is no folder"),
    ],
)
def test_calc_refuses_what_cannot_be_meant(tmp_path, monkeypatch, words, said):
    plan(tmp_path)
    monkeypatch.chdir(tmp_path)
    done = run("calc", "Plan.xlsx", *(word.format(here=tmp_path.name) for word in words))
    assert done.exit_code == 2
    assert said in done.output
    assert os.listdir(tmp_path) == ["Plan.xlsx"]


@pytest.mark.parametrize(
    ("name", "content", "said"),
    [
        ("Plan.ods", b"PK\x03\x04", "OpenDocument"),
        ("Plan.xls", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "save it as .xlsx"),
        ("Plan.xlsx", b"a,b\n", "is a text file"),
        ("Plan.xlsx", b"", "is empty"),
    ],
)
def test_calc_ends_with_2_for_a_file_that_cannot_be_used(tmp_path, name, content, said):
    (tmp_path / name).write_bytes(content)
    done = run("calc", tmp_path / name)
    assert done.exit_code == 2
    assert said in done.output
    assert os.listdir(tmp_path) == [name]


def test_calc_names_a_file_that_is_not_there(tmp_path):
    done = run("calc", tmp_path / "Plan.xlsx")
    assert done.exit_code == 2
    assert "there is no file" in done.output
    assert json.loads(run("calc", tmp_path / "Plan.xlsx", "--json").stdout)["trouble"].startswith("there is no file")


def test_calc_keeps_macro_workbooks_macro_workbooks(tmp_path):
    plan(tmp_path).rename(tmp_path / "Plan.xlsm")
    assert run("calc", tmp_path / "Plan.xlsm").exit_code == 0
    assert (tmp_path / "Plan computed.xlsm").exists()


def test_texts_of_a_workbook_cannot_steer_the_terminal(tmp_path):
    path = plan(tmp_path, A1='="\u202e[2J"/0', B1="=1/0")
    done = run("calc", path)
    assert "\u202e" not in done.output
    assert "<U+202E>" in done.output


# ---- functions, version, help


def test_functions_lists_all_by_family():
    from brinecalc import registry

    done = run("functions")
    assert done.exit_code == 0
    assert all(name in done.output for name in registry.names())
    assert len(json.loads(run("functions", "--json").output)) == len(registry.names())


@pytest.mark.parametrize("name", ["salt", "BRINE_SALT", "brine.salt"])
def test_functions_describes_one(name):
    done = run("functions", name)
    assert "BRINE_SALT(water, strength, [basis], [purity])" in done.output
    assert "Example: =BRINE_SALT(1000,0.05)\n50\n" in done.output
    assert json.loads(run("functions", name, "--json").output)["arguments"][0]["name"] == "water"


@pytest.mark.parametrize("name", ["CHECK", "BRINE_FINDINGS"])
def test_functions_lists_the_headings_that_a_row_is_read_by(name):
    read = {row["heading"] for row in load.rows("headings") if row["kind"] != "aside"}
    done = run("functions", name)
    assert done.exit_code == 0
    assert "alkalinity: alkalinity of the water" in done.output
    assert "(also: item, cut," in done.output
    assert {found["heading"] for found in json.loads(run("functions", name, "--json").output)["headings"]} == read
    assert "headings" not in json.loads(run("functions", "SALT", "--json").output)


def test_install_says_where_to_writes_for_each_program():
    words = " ".join(run("install", "--help").output.split())
    assert "excel --to FOLDER, calc --build-only --to FOLDER" in words


def test_functions_names_the_nearest():
    done = run("functions", "slat")
    assert done.exit_code == 2
    assert done.output.startswith("brinecalc: NAME is not a known function")
    assert "BRINE_SALT" in done.output


# ---- soak-chart


def test_the_soak_chart_is_that_of_the_product():
    done = run("soak-chart", "pork chop", "--bath", "Large", "--temperature", "39F", "--target", "1%", "--json")
    (thick,) = {row["target"] for row in json.loads(done.output)}
    assert (done.exit_code, thick) == (0, 0.01)
    assert "pork chop: 1 % salt wanted" in run("soak-chart", "pork chop").output


@each(
    ("option", "given", "way_out"),
    [
        ("--target", "15", "write 15% or 0.15 for 15 per cent"), ("--target", "150%", "for example 1%"),
        ("--target", "0", "for example 1%"), ("--target", "-1%", "for example 1%"), ("--target", "much", "like 1%"),
        ("--target", "1 kg", "such as 5% or 0.05"), ("--bath", "150%", "such as 1 or 1.5, or large"),
        ("--bath", "0", "such as 1 or 1.5, or large"), ("--bath", "-1", "such as 1 or 1.5, or large"),
        ("--bath", "2:1", "such as 1 or 1.5, or large"), ("--bath", "huge", "such as 1 or 1.5, or large"),
        ("--temperature", "200", "4 °C or 40 °F"), ("--temperature", "cold", "4 °C or 40 °F"),
        ("--temperature", "5 kg", "4 °C or 40 °F"),
    ],
)  # fmt: skip
def test_an_option_of_the_soak_chart_is_refused_by_its_name_with_what_to_type(option, given, way_out):
    done = run("soak-chart", "pork chop", f"{option}={given}")
    assert done.exit_code == 2
    assert done.output.startswith(f"brinecalc: {option} must be ")
    assert f'got "{given}"; ' in done.output
    assert way_out in done.output


def test_a_product_that_the_soak_chart_does_not_know_is_answered_with_the_nearest():
    done = run("soak-chart", "pork chp")
    assert done.exit_code == 2
    assert done.output.startswith('brinecalc: PRODUCT is not a known product, got "pork chp"; did you mean "pork chop"')


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (("new", "--batches", "0"), "--batches"), (("new", "--units", "foot"), "--units"),
        (("new", "--paper", "a5"), "--paper"), (("new", "--for", "word"), "--for"),
        (("share", "BOOK", "--date", "30.11.2026"), "--date"), (("reprice", "BOOK", "BOOK", "--jobs", "0"), "--jobs"),
        (("reprice", "LIST", "BOOK", "--date", "tomorrow"), "--date"),
    ],
)  # fmt: skip
def test_every_option_with_a_value_is_refused_by_its_name(tmp_path, words, named):
    prices = tmp_path / "prices.csv"
    prices.write_text("name,price\nsalt,1\n", encoding="utf-8")
    files = {"BOOK": plan(tmp_path), "LIST": prices}
    done = run(*(files.get(word, word) for word in words))
    assert done.exit_code == 2
    assert named in done.output


def test_the_version_is_printed_alone():
    assert run("version").output == f"brinecalc {VERSION}\n"
    assert run("--version").output == f"brinecalc {VERSION}\n"


def test_help_lists_every_command_and_each_has_help():
    help_text = run("--help").output
    for name, (_, line) in COMMANDS.items():
        assert line in help_text
        assert run(name, "--help").exit_code == 0


def test_a_command_that_does_not_exist_is_answered_with_the_nearest():
    done = run("evl", "=1")
    assert done.exit_code == 2
    assert "did you mean eval?" in done.output


def test_starting_loads_nothing_heavy():
    script = "import sys; from brinecalc.cli import app; app(['eval', '=BRINE_SALT(1000,5%)'], standalone_mode=False)"
    heavy = ("pint", "openpyxl", "xlwings", "numpy", "lxml", "rich", "asyncio", "doctest")
    check = f"print([m for m in {heavy} if m in sys.modules])"
    code = f"import sys\ntry:\n    {script}\nexcept SystemExit:\n    {check}"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines() == ["50", "[]"]


def test_commands_that_only_open_workbooks_do_not_load_what_builds_them():
    opening = [f"brinecalc.workbook.{name}" for name in ("share", "reprice", "price_moves", "overdue", "summary")]
    code = f"import sys\nimport {', '.join(opening)}\nprint('openpyxl' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "False\n"


def test_it_runs_as_a_module_with_any_terminal_encoding():
    env = {**os.environ, "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}
    done = subprocess.run(
        [sys.executable, "-m", "brinecalc", "eval", '="é"'], capture_output=True, text=True, env=env, check=True
    )
    assert done.stdout.strip() in ("é", "?")


# ---- the user's own ingredients

OWN = "name,role,water,sugars,sodium,aliases,density,low,high\nhouse rub,spice,8%,5%,10%,rub;secret rub,0.6,0.5%,2%\n"


@pytest.fixture
def own_file(tmp_path):
    path = tmp_path / "own.csv"
    path.write_text(OWN, encoding="utf-8-sig")
    yield path
    own.forget()


def test_eval_knows_the_ingredients_of_a_file_it_is_given(own_file):
    asked = run("eval", '=BRINE_WEIGHT(10,"secret rub")', "--ingredients", own_file)  # 10 mL at 0.6 g/mL
    assert (asked.exit_code, asked.output) == (0, "6\n")


def test_calc_and_share_know_them_too(tmp_path, own_file):
    book = plan(tmp_path, A1='=BRINE_DOSE(1000,1%,"house rub")')
    assert run("calc", book, "--ingredients", own_file).exit_code == 0
    assert values(tmp_path / "Plan computed.xlsx")["A1"].value == 10
    assert run("share", book, "--values", "--ingredients", own_file).exit_code == 0
    own.forget()
    assert run("calc", book, "--overwrite").exit_code == 1


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"name,role,water,sugars,sodium\n=1+1,spice,0,0,0\n", "line 2, column name"),
        (b"name,role,water,sugars,sodium\nlye rub,spice,0,0,0\n", "write alkali"),
        (b"PK\x03\x04\0\0", "CSV UTF-8"),
        (b"", "heading row"),
        (b"name\xff,role\n", "is not a heading"),
        (b"x" * 2_000_001, "MB"),
    ],
)
def test_a_bad_file_of_ingredients_is_refused_and_nothing_computed(tmp_path, content, says):
    path, book = tmp_path / "own.csv", plan(tmp_path)
    path.write_bytes(content)
    for words in (("eval", "=1"), ("calc", book), ("share", book)):
        asked = run(*words, "--ingredients", path)
        assert asked.exit_code == 2
        assert says in asked.output
    assert sorted(found.name for found in tmp_path.iterdir()) == ["Plan.xlsx", "own.csv"]


def test_the_readmes_file_of_ingredients_is_one():
    (block,) = readme.blocks("csv")
    assert block.strip() == OWN.strip()
