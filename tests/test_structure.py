"""The plan of the house, read from the code: which way imports run, that none run in a circle, how long things are.

All imports count, those inside functions, for types only, and by a name put together at run time as well.
"""

from __future__ import annotations

import ast
import functools
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]

FLOORS = (
    "errors version files clock",
    "names",
    "tables",
    "units",
    "misread",
    "quantity",
    "told",
    "science",
    "trade",
    "describe",
    "readers",
    "gate",
    "catalogue",
    "functions",
    "registry",
    "edge",
    "brinecalc",
    "hosts",
    "workbook",
    "commands",
    "cli",
    "__main__",
)
"""From the ground up; a room may use those below it."""

HOSTS = (
    "formulas findings texts carried days __init__",
    "spelling",
    "headless calc excel",
)
"""The same inside hosts: no program's adapter uses another's."""

CORE = FLOORS[: FLOORS.index("registry") + 1]
LONGEST_FUNCTION = 40
LONGEST_MODULE = 400


def named(path: Path) -> str:
    """The dotted name of a file's module."""
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


MODULES = {named(path): path.read_text(encoding="utf-8") for path in sorted(ROOT.glob("brinecalc/**/*.py"))}
PACKAGES = {named(path) for path in ROOT.glob("brinecalc/**/__init__.py")}


@functools.cache
def tree(name: str) -> ast.Module:
    """A module as Python reads it."""
    return ast.parse(MODULES[name])


@functools.cache
def nodes(name: str) -> list[ast.AST]:
    """All that stands in a module, however deep; listed once for all questions, since that takes most of their time."""
    return list(ast.walk(tree(name)))


def called(node: ast.Call) -> str:
    """The last word of what a call calls, or "" where no word stands before the bracket."""
    return getattr(node.func, "attr", getattr(node.func, "id", ""))


def words(node: ast.AST, own: str) -> list[str]:
    """What one import statement, or call of `import_module`, names; a name put together stands for all it may be."""
    if isinstance(node, ast.Import):
        return [alias.name for alias in node.names]
    if isinstance(node, ast.ImportFrom):
        assert not node.level, "modules are named in full"
        return [f"{node.module}.{alias.name}" for alias in node.names]
    if isinstance(node, ast.Call) and called(node).endswith("import_module"):
        asked = ast.unparse(node.args[0]).replace("{__name__}", own)
        start = asked.strip("f'\"").partition("{")[0]
        return [name for name in MODULES if name == start or (start.endswith(".") and name.startswith(start))]
    return []


def texts(name: str) -> list[str]:
    """Modules named in texts, where a module is imported by a name looked up there."""
    if "import_module" not in MODULES[name]:
        return []
    return [node.value for node in nodes(name) if isinstance(node, ast.Constant) and node.value in MODULES]


def module(word: str) -> str:
    """The module of ours that an imported name stands in, or "" for somebody else's."""
    while word and word not in MODULES:
        word = word.rpartition(".")[0]
    return word


def imported(name: str) -> set[str]:
    """The modules of ours that a module imports."""
    found = [word for node in nodes(name) for word in words(node, name)]
    return {module(word) for word in found + texts(name)} - {"", name}


@pytest.fixture(scope="module")
def imports() -> dict[str, set[str]]:
    return {name: imported(name) for name in MODULES}


def room(name: str) -> str:
    """The room on the plan that a module belongs to."""
    return name.split(".")[1] if "." in name else name


def floor(name: str, plan: tuple[str, ...]) -> int:
    """How far up a room stands; one that is not on the plan stops the test."""
    return next(height for height, rooms in enumerate(plan) if name in rooms.split())


def test_every_arrow_runs_down(imports):
    wrong = [
        f"{name} imports {other}"
        for name, others in imports.items()
        for other in others
        if room(other) != room(name) and floor(room(other), FLOORS) >= floor(room(name), FLOORS)
    ]
    assert wrong == []


def test_no_host_uses_another(imports):
    def part(name):
        return (*name.split("."), "__init__")[2]

    wrong = [
        f"{name} imports {other}"
        for name, others in imports.items()
        for other in others
        if room(name) == room(other) == "hosts"
        and part(name) != part(other)
        and floor(part(other), HOSTS) >= floor(part(name), HOSTS)
    ]
    assert wrong == []


def test_no_rule_uses_another(imports):
    """What two rules ask of a row is a fact with a module of its own in trade, not a part of one of the rules.

    Only the findings, which put the rules to a row, know what a rule is made of, and its package which there are.
    """
    package = "brinecalc.trade.rules"
    rules = {name for name in MODULES if name.startswith(f"{package}.")}
    made_of = f"{package}.condition"
    wrong = [
        f"{name} imports {other}"
        for name, others in imports.items()
        for other in others & rules
        if name != package and (other != made_of or (name not in rules and name != "brinecalc.trade.findings"))
    ]
    assert len(rules) > 20
    assert wrong == []


def circle(name: str, path: tuple[str, ...], done: set[str], imports: dict[str, set[str]]) -> tuple[str, ...]:
    """The first way from a module back to itself, or nothing."""
    if name in path:
        return (*path[path.index(name) :], name)
    if name not in done:
        for other in sorted(imports[name]):
            found = circle(other, (*path, name), done, imports)
            if found:
                return found
        done.add(name)
    return ()


def test_no_imports_run_in_a_circle(imports):
    done: set[str] = set()
    assert [found for found in (circle(name, (), done, imports) for name in MODULES) if found] == []


def test_the_core_needs_nothing_but_python():
    allowed = sys.stdlib_module_names | {"brinecalc"}
    wrong = [
        f"{name} imports {word}"
        for name in MODULES
        if any(room(name) in rooms.split() for rooms in CORE)
        for node in nodes(name)
        for word in words(node, name)
        if word.split(".")[0] not in allowed
    ]
    assert wrong == []


def test_functions_are_short():
    long = []
    for name in MODULES:
        for node in nodes(name):
            if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
                text = node.body[0] if ast.get_docstring(node) is not None else None
                lines = node.end_lineno - node.lineno + 1 - (text.end_lineno - text.lineno + 1 if text else 0)
                if lines > LONGEST_FUNCTION:
                    long.append(f"{name}.{node.name}: {lines} lines without its docstring")
    assert long == []


def test_modules_are_short():
    lines = {name: len(text.splitlines()) for name, text in MODULES.items()}
    assert [f"{name}: {long} lines" for name, long in lines.items() if long > LONGEST_MODULE] == []
    assert sorted(lines.values())[len(lines) // 2] < 200


def test_no_name_of_a_module_is_given_twice():
    """The second would silently take the place of the first."""
    assert {name: sorted(twice) for name in MODULES if (twice := given_twice(tree(name)))} == {}


def given_twice(module: ast.Module) -> set[str]:
    given: list[str] = []
    for node in module.body:
        targets = getattr(node, "targets", None) or [getattr(node, "target", None)]
        given += [one.id for target in targets if target for one in ast.walk(target) if isinstance(one, ast.Name)]
        if isinstance(node, (ast.FunctionDef, ast.ClassDef)):
            given.append(node.name)
    return {name for name in given if given.count(name) > 1}


SPEAKING = sorted(
    name
    for name in set(MODULES) - PACKAGES - {"brinecalc.version", "brinecalc.__main__", "brinecalc.errors"}
    if room(name) != "commands"
)
"""Modules with an idea of their own: no package's door, no command, no list of constants, no drawn tree."""


def test_a_module_names_the_one_idea_it_rests_on():
    assert [name for name in SPEAKING if "One idea" not in (ast.get_docstring(tree(name)) or "")] == []


def test_a_module_says_what_it_is_in_its_first_line():
    first = {name: (ast.get_docstring(tree(name)) or "").partition("\n")[0] for name in MODULES}
    assert {name: line for name, line in first.items() if not 20 < len(line) <= 120} == {}
