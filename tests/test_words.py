"""One spelling throughout: British, in all that people read; what they type, and other programs' names, may differ."""

from __future__ import annotations

import ast
import io
import re
import tokenize
from pathlib import Path

import pytest
from each import each

from brinecalc.tables import load

ROOT = Path(__file__).parents[1]
AMERICAN = re.compile(
    r"\b(?:colors?|colored|flavor\w*|favorite|neighbor\w*|behavior|labor|odor|vapor|mold|centers?|centered|(?:milli|centi|deci)?liters?|"
    r"(?:milli|centi|kilo)meters?|fiber|caliber|gray|sulfur\w*|sulfat\w*|sulfit\w*|aluminum|defense|catalog|analog|"
    r"judgment|aging|skillful|fulfill|traveled|canceled|labeled|labeling|modeled|totaled|yogurt|chili|jewelry|artifact|"
    r"(?:organ|real|recogn|normal|optim|minim|maxim|general|summar|emphas|character|initial|capital|steril|neutral|"
    r"standard|crystal|random|serial|util|local|final|equal|pressur|homogen|pasteur|ion|iod|galvan|oxid|categor)iz\w+|"
    r"analyz\w+|catalyz\w+)\b",
    re.IGNORECASE,
)
TYPED = ("aliases", "pint", "ingredient", "word")
"""Columns of what people may type and of another library's words."""

CITED = ("author", "title", "place", "source_place")
"""Columns of titles, which stand as they were printed."""


def prose(path: Path) -> list[str]:
    """Comments, and texts of more than two words, of a Python file."""
    text = path.read_text(encoding="utf-8")
    found = [t.string for t in tokenize.generate_tokens(io.StringIO(text).readline) if t.type == tokenize.COMMENT]
    tree = ast.parse(text)
    pieces = [node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str)]
    return found + [piece for piece in pieces if piece.strip().count(" ") >= 2]


def american(text: str) -> list[str]:
    """The American spellings in a text, what stands in marks of code or menus aside."""
    return AMERICAN.findall(re.sub(r"``?[^`]*``?|(?<!\*)\*[^*\n]+\*(?!\*)|\bTrust Center\b", " ", text))


def has_american(text: str) -> bool:
    """Whether any word of a text is American, marks or none; each word is looked at once, however often it comes."""
    return any(map(AMERICAN.fullmatch, set(re.findall(r"\w+", text))))


@pytest.mark.parametrize("text", ["the color of gray salt", "two liters", "sulfuric acid", "it was recognized"])
def test_american_spellings_are_known(text):
    assert american(text)
    assert has_american(text)


@pytest.mark.parametrize("text", ["the colour of grey salt", "two litres", "a size", "the list is sized", "a program"])
def test_british_ones_pass(text):
    assert american(text) == []
    assert not has_american(text)


def test_comments_messages_and_descriptions_are_british():
    wrong = [
        f"{path.relative_to(ROOT)}: {', '.join(found)} in {piece[:60]!r}"
        for path in sorted((ROOT / "brinecalc").rglob("*.py"))
        if has_american(path.read_text(encoding="utf-8"))  # few have one even in their code, and parsing takes time
        for piece in prose(path)
        if path.name != "words.py"  # another language's reserved words
        if (found := american(piece))
    ]
    assert wrong == []


@each("name", sorted(path.stem for path in Path(load.FOLDER).glob("*.csv")))
def test_tables_are_british(name):
    table = load.table(name)
    shown = [column.name for column in table.columns if column.name not in TYPED + CITED]
    wrong = [f"{row[shown[0]]}: {found}" for row in table.rows for c in shown if (found := american(str(row[c] or "")))]
    assert wrong == []
    assert american(table.about) == []
    assert [column.name for column in table.columns if american(column.meaning)] == []


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md", "tests/hosts/excel-by-hand.md"])
def test_documents_are_british(name):
    assert american((ROOT / name).read_text(encoding="utf-8")) == []
