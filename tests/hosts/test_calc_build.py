"""The extension file: complete, the same every time, within Calc's limits, and able to run on Python 3.9."""

from __future__ import annotations

import ast
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import zipfile
from xml.etree import ElementTree

import pytest

from brinecalc import registry
from brinecalc.describe import Argument, worked_examples
from brinecalc.hosts import texts
from brinecalc.hosts.calc import build, description, typelib
from brinecalc.version import VERSION

OOR = "{http://openoffice.org/2001/registry}"
XML_LANG = "{http://www.w3.org/XML/1998/namespace}lang"
COMPILER = "LibreOffice's developer kit (unoidl-write) is not installed on this machine"
OLD_PYTHON = pathlib.Path.home() / ".pyenv" / "versions" / "3.9.18" / "bin" / "python"


@pytest.fixture(scope="module")
def parts():
    return build.contents()


@pytest.fixture(scope="module")
def specs():
    return [registry.spec(name) for name in registry.names()]


def test_the_same_sources_give_the_same_bytes(tmp_path):
    first = build.build(tmp_path / "one").read_bytes()
    second = build.build(tmp_path / "two").read_bytes()
    assert first == second


def test_building_again_replaces_the_file(tmp_path):
    build.build(tmp_path)
    path = build.build(tmp_path)
    assert [file.name for file in tmp_path.iterdir()] == [path.name]
    assert zipfile.ZipFile(path).testzip() is None


def test_every_part_is_listed_and_every_listed_part_is_there(parts):
    names = re.findall(r'full-path="([^"]+)"', parts["META-INF/manifest.xml"].decode())
    assert set(names) == {"functions.rdb", "brinecalc.components", "CalcAddIns.xcu", "Jobs.xcu"}
    assert set(names) <= set(parts)
    scripts = re.findall(r'uri="([^"]+)"', parts["brinecalc.components"].decode())
    assert sorted(scripts) == ["addin.py", "heal.py"]
    assert set(scripts) <= set(parts)
    assert f'<version value="{VERSION}"/>' in parts["description.xml"].decode()
    assert "MIT" in parts["LICENSE"].decode()


@pytest.mark.parametrize("name", ["META-INF/manifest.xml", "description.xml", "brinecalc.components", "Jobs.xcu"])
def test_the_generated_texts_are_well_formed(parts, name):
    assert len(ElementTree.fromstring(parts[name])) > 0


def functions(parts):
    """The function nodes of the wizard's texts, by name."""
    tree = ElementTree.fromstring(parts["CalcAddIns.xcu"])
    service = tree.find(f"node[@{OOR}name='AddInInfo']/node")
    assert service.get(f"{OOR}name") == "BRINE"
    return {node.get(f"{OOR}name"): node for node in service.find("node")}


def english(node, name):
    value = node.find(f"prop[@{OOR}name='{name}']/value")
    assert value.get(XML_LANG) == "en-US"
    return value.text


def test_the_wizard_knows_every_function_by_its_plain_name(parts, specs):
    found = functions(parts)
    assert ["BRINE_" + name for name in found] == registry.names()
    for spec in specs:
        node = found[spec.name[len("BRINE_") :]]
        assert english(node, "DisplayName") == spec.name
        assert english(node, "CompatibilityName") == spec.name
        assert spec.summary in english(node, "Description")


def test_the_wizard_lists_every_argument_in_order(parts, specs):
    found = functions(parts)
    for spec in specs:
        parameters = found[spec.name[len("BRINE_") :]].find(f"node[@{OOR}name='Parameters']")
        keys = [node.get(f"{OOR}name") for node in parameters]
        assert keys == sorted(keys), "Calc lists parameters in the order of their keys"
        shown = [english(node, "DisplayName").strip("[]") for node in parameters]
        assert shown == [argument.name for argument in spec.arguments]


def test_no_text_is_longer_than_hosts_show(specs):
    for spec in specs:
        assert 0 < len(texts.function_help(spec)) <= 255
        for argument in spec.arguments:
            assert argument.meaning in texts.argument_help(argument)
            assert len(texts.argument_help(argument)) <= 255


def argument(**given):
    blank = Argument("x", "number", (), "-", None, None, False, False, None, "Meaning.", "")
    return blank._replace(**given)


@pytest.mark.parametrize(
    ("given", "text"),
    [
        (
            {"kind": "mass", "unit": "g", "low": 0.0, "open_low": True, "default": 5.0},
            "Meaning. Above 0 g. Left out: 5 g.",
        ),
        ({"kind": "choice", "choices": ("a", "b"), "default": "a"}, 'Meaning. One of "a", "b". Left out: "a".'),
        ({"kind": "amount", "default": 0.0, "example": "2 kg"}, "Meaning. Left out: 0. For example 2 kg."),
        ({"meaning": "m" * 250 + ".", "example": "7"}, "m" * 250 + "."),
    ],
)
def test_a_help_text_is_put_together_from_whole_parts(given, text):
    full = texts.argument_help(argument(**given))
    assert full == text


def test_methods_take_as_many_parameters_as_functions_have_arguments(specs):
    for method, spec in zip(description.methods(specs), specs):
        kinds = [kind for _, kind in method.parameters]
        assert len(kinds) == len(spec.arguments)
        assert kinds.count("[]any") == (1 if spec.variadic else 0)
        assert method.answer == ("[][]any" if spec.result == "table" else "any")


def compiler():
    """LibreOffice's own compiler of UNO interfaces, from its developer kit."""
    for folder in ("/usr/lib/libreoffice/sdk/bin", *os.environ.get("PATH", "").split(os.pathsep)):
        if found := shutil.which("unoidl-write", path=folder):
            return found
    if os.environ.get("CI") == "true":
        pytest.fail(COMPILER)
    return pytest.skip(COMPILER)


def test_the_type_library_is_what_libreoffice_compiles(parts, specs, tmp_path):
    """Byte for byte, apart from the compiler's banner: the authority is the developer kit's unoidl-write."""
    source, target = tmp_path / "functions.idl", tmp_path / "functions.rdb"
    source.write_bytes(parts["functions.idl"])
    tool = pathlib.Path(compiler())
    types = tool.parents[2] / "program" / "types.rdb"
    subprocess.run([tool, types, source, target], check=True, capture_output=True)
    compiled = target.read_bytes()
    banner = compiled[16 : compiled.index(b"\0", 17) + 1]
    assert b"unoidl-write" in banner
    assert typelib.library(description.methods(specs), banner) == compiled


def imported(source):
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and not node.level:
            yield node.module


def test_the_core_imports_nothing_but_the_standard_library_and_itself(parts):
    bundled = {name: data for name, data in parts.items() if name.startswith("pythonpath/") and name.endswith(".py")}
    assert "pythonpath/brinecalc/registry.py" in bundled
    for name, data in bundled.items():
        for module in imported(data):
            top = module.partition(".")[0]
            assert top == "brinecalc" or top in sys.stdlib_module_names, f"{name} imports {module}"


@pytest.fixture(scope="module")
def unpacked(parts, tmp_path_factory):
    folder = tmp_path_factory.mktemp("extension")
    for name, data in parts.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
    return folder


def test_the_core_needs_no_newer_python_than_3_9(unpacked):
    files = [str(path) for path in unpacked.rglob("*.py")]
    asked = ["--no-tips", "-t=3.9-", "--no-parse-comments"]  # a comment excuses nothing, so none has to be read
    told = subprocess.run(
        [sys.executable, "-c", "import vermin; vermin.main()", "--processes=1", *asked, *files],
        capture_output=True,
        text=True,
        check=False,
    )
    assert told.returncode == 0, told.stdout


EXAMPLES = """
import json, sys
sys.path.insert(0, sys.argv[1])
from brinecalc import registry
from brinecalc.describe import worked_examples
examples = [(name, example) for name in registry.names() for example in worked_examples(registry.spec(name))]
print(json.dumps({example.formula(name): registry.call(name, *example.cells) for name, example in examples}))
"""


def run_examples(python, unpacked):
    """Every docstring's example through the bundled core alone, under some Python."""
    run = subprocess.run(
        [python, "-I", "-c", EXAMPLES, unpacked / "pythonpath"], capture_output=True, text=True, check=True
    )
    return json.loads(run.stdout)


@pytest.fixture(scope="module")
def answers(unpacked):
    return run_examples(sys.executable, unpacked)


def test_the_bundle_computes_by_itself(answers):
    """The law: what is bundled answers as the library does, so nothing that it needs was left out."""
    for name in registry.names():
        for example in worked_examples(registry.spec(name)):
            assert close(answers[example.formula(name)], registry.call(name, *example.cells)), example.formula(name)


@pytest.mark.skipif(not OLD_PYTHON.exists(), reason="Python 3.9 is not installed on this machine")
def test_python_3_9_gives_the_same_values(unpacked, answers):
    """The law: one library, one answer, whatever Python runs it."""
    old = run_examples(OLD_PYTHON, unpacked)
    assert old.keys() == answers.keys()
    for call, answer in answers.items():
        assert close(old[call], answer), call


def close(one, other):
    if isinstance(one, list):
        return isinstance(other, list) and len(one) == len(other) and all(map(close, one, other))
    if isinstance(one, float):
        return one == pytest.approx(other, rel=1e-12)
    return one == other
