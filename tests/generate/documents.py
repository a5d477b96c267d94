"""Writes the parts of README.md and DEVELOPERS.md that say what the code and the tables say.

One idea: such a part stands between two marks, and everything between them is written anew; all else in the documents
is left as it is. ``python -m tests.generate`` runs it.
"""

from __future__ import annotations

import ast
from pathlib import Path
from typing import Callable, Dict, Iterator, List, Tuple

from brinecalc import registry
from brinecalc.tables import load

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"
DEVELOPERS = ROOT / "DEVELOPERS.md"
DOUBTFUL = ("memory", "judgement", "assumption")
_ALL, _SOME = 30, 12
"""So many rows are named in full; of more, so many."""


def function_list() -> str:
    """Every function with its call and what it gives, by family."""
    lines: List[str] = []
    family = ""
    for spec in map(registry.spec, registry.names()):
        if spec.family != family:
            family = spec.family
            lines += ["", f"**{family}**", "", "| function | gives |", "|---|---|"]
        lines.append(f"| `{spec.usage.replace('|', '/')}` | {spec.summary} |")
    return "\n".join(lines).strip()


def doubts() -> str:
    """What the tables and the code hold by judgement or from memory, and what would settle each."""
    lines = ["| where | how known | rows | which | what would settle it |", "|---|---|---|---|---|"]
    lines += [f"| {' | '.join(row)} |" for row in _table_doubts()]
    lines += ["", "In the code:", ""]
    lines += [f"- `{place}`, `{name}`: {words}" for place, name, words in judged_constants()]
    return "\n".join(lines)


def _table_doubts() -> Iterator[Tuple[str, ...]]:
    for path in sorted(Path(load.FOLDER).glob("*.csv")):
        table = load.table(path.stem)
        for column in table.columns:
            if column.name not in ("basis", "status", "d_basis"):
                continue
            for word in DOUBTFUL:
                named = [row[table.columns[0].name] for row in table.rows if row[column.name] == word]
                if named:
                    yield f"`{path.name}`", word, str(len(named)), _listed(named), table.doubts[word]


def _listed(names: List[object]) -> str:
    shown = list(dict.fromkeys(f"{name:g}" if isinstance(name, float) else str(name) for name in names))
    return ", ".join(shown) if len(shown) <= _ALL else ", ".join(shown[:_SOME]) + ", …"


def judged_constants() -> Iterator[Tuple[str, str, str]]:
    """File, name and words of every constant of the core that its own text calls a judgement."""
    for path in sorted((ROOT / "brinecalc").rglob("*.py")):
        body = ast.parse(path.read_text(encoding="utf-8")).body
        for made, said in zip(body, body[1:]):
            if isinstance(made, ast.Assign) and isinstance(said, ast.Expr) and isinstance(said.value, ast.Constant):
                words = " ".join(str(said.value.value).split())
                if "judgement" in words:
                    place, name = path.relative_to(ROOT / "brinecalc"), ast.unparse(made.targets[0])
                    yield place.as_posix(), name.strip("()"), words


PARTS: Dict[Path, Dict[str, Callable[[], str]]] = {README: {"functions": function_list}, DEVELOPERS: {"doubts": doubts}}
"""Document → mark → what writes the part between."""


def marks(name: str) -> Tuple[str, str]:
    """The two lines that a written part stands between."""
    return f"<!-- {name}: written by python -m tests.generate -->", f"<!-- end of {name} -->"


def renewed(document: Path) -> str:
    """A document's text with its written parts as they ought to be."""
    text = document.read_text(encoding="utf-8")
    for name, write in PARTS[document].items():
        start, end = marks(name)
        before, _, rest = text.partition(start)
        _, found, after = rest.partition(end)
        if not found:
            raise ValueError(f"{document.name} has lost its marks {start} and {end}")
        text = f"{before}{start}\n\n{write()}\n\n{end}{after}"
    return text


def update() -> None:
    """Brings the written parts of all documents up to date."""
    for document in PARTS:
        document.write_text(renewed(document), encoding="utf-8", newline="\n")
