"""Faults: every small change of a module's text that mutmut's operators know, and what of the running code it touches.

One idea: a fault is the module's whole text with one thing changed. Most change the inside of one function and can be
put in place of the sound one; the rest need the library imported afresh.
"""

from __future__ import annotations

import ast
import collections
import contextlib
import hashlib
import importlib
import inspect
import itertools
import types
from pathlib import Path
from typing import Any, Dict, Iterator, List, NamedTuple, Optional, Tuple

ROOT = Path(__file__).parents[2]


class Fault(NamedTuple):
    """One fault: where, what it says, and the module's text with it."""

    module: str
    line: int
    kind: str
    words: str
    source: str
    lot: float
    path: str

    @property
    def key(self) -> str:
        """The same fault has the same key as long as its line says the same."""
        return hashlib.sha256(f"{self.module}|{self.words}".encode()).hexdigest()[:16]


def dotted(path: Path) -> str:
    """The name under which a file is imported."""
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).replace(".__init__", "")


def faults(path: Path, share: float, seed: int) -> Iterator[Fault]:
    """The sampled faults of a module, each as whole source text."""
    import libcst as cst
    from libcst.metadata import MetadataWrapper, PositionProvider
    from mutmut.mutation.file_mutation import ChildReplacementTransformer
    from mutmut.mutation.mutators import mutation_operators

    text = path.read_text(encoding="utf-8")
    wrapper = MetadataWrapper(cst.parse_module(text))
    places = wrapper.resolve(PositionProvider)
    code = wrapper.module.code_for_node
    seen: collections.Counter[str] = collections.Counter()
    lines = text.splitlines()
    starts = list(itertools.accumulate((len(line) for line in text.splitlines(keepends=True)), initial=0))
    plain = ast.dump(ast.parse(text))

    def walk(node: cst.CSTNode) -> Iterator[Tuple[cst.CSTNode, cst.CSTNode, str]]:
        if _left_out(node, cst, code):
            return
        for kind, operator in mutation_operators:
            if isinstance(node, kind):
                changed = list(operator(node))
                for new in changed[:1] if operator.__name__ == "operator_string" else changed:
                    yield node, new, operator.__name__.replace("operator_", "")
        for child in node.children:
            yield from walk(child)

    for old, new, kind in walk(wrapper.module):
        at = places[old].start.line
        words = f"{lines[at - 1].strip()} : {code(old)} -> {code(new)}"
        seen[words] += 1
        words += f" ({seen[words]})" if seen[words] > 1 else ""
        lot = int(hashlib.sha256(f"{seed}|{words}".encode()).hexdigest()[:8], 16) / 2.0**32
        if lot >= share:
            continue
        prose = kind == "string" and " " in code(old)
        begin = starts[at - 1] + places[old].start.column
        if text.startswith(code(old), begin):
            source = text[:begin] + code(new) + text[begin + len(code(old)) :]
        else:  # an operator, or what stands in brackets of its own
            source = wrapper.module.visit(ChildReplacementTransformer(old, new)).code
        with contextlib.suppress(SyntaxError):
            if ast.dump(ast.parse(source)) != plain:
                yield Fault(dotted(path), at, "wording" if prose else kind, words, source, lot, str(path))


def _left_out(node, cst, code) -> bool:
    """Places where a fault says nothing about the tests."""
    if isinstance(node, (cst.Annotation, cst.Import, cst.ImportFrom)):
        return True
    if isinstance(node, cst.Decorator):
        return "cache" in code(node)
    if isinstance(node, cst.Call):
        return code(node.func) in ("len", "isinstance", "cast", "TypeVar", "NewType")
    if isinstance(node, cst.Expr):
        return isinstance(node.value, (cst.SimpleString, cst.ConcatenatedString))
    if isinstance(node, (cst.Assign, cst.AnnAssign)) and node.value is not None:
        first = node.target if isinstance(node, cst.AnnAssign) else node.targets[0].target
        alias = isinstance(node.value, cst.Subscript) and code(node.value.value) in dir(__import__("typing"))
        return alias or code(node.value) == "Any" or code(first) in ("__all__",)
    return False


class Body(NamedTuple):
    """The one function or method whose inside a fault changes, by name, before and after."""

    name: str
    before: types.CodeType
    after: types.CodeType


def body(fault: Fault, known: dict) -> Optional[Body]:
    """The function that a fault changes, where nothing but its inside changes and no import has run it yet."""
    by_line: Dict[str, List[str]] = known["reach"].get(fault.module, {})
    path = Path(fault.path)
    text = path.read_text(encoding="utf-8")
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef) and node.body[0].lineno <= fault.line <= (node.end_lineno or 0):
            lines = range(node.body[0].lineno, (node.end_lineno or 0) + 1)
            if any("" in by_line.get(str(line), ()) for line in lines) or node.body[0].lineno == node.lineno:
                return None
    old, new = dict(_codes(text, str(path))), dict(_codes(fault.source, str(path)))
    changed = [name for name in old if name not in new or _unplaced(old[name]) != _unplaced(new[name])]
    if len(changed) != 1 or list(old) != list(new) or old[changed[0]].co_freevars != new[changed[0]].co_freevars:
        return None
    if not old[changed[0]].co_flags & inspect.CO_OPTIMIZED:  # the module's own code, or that of a class
        return None
    return Body(changed[0], old[changed[0]], new[changed[0]])


def _codes(source: str, path: str) -> Iterator[Tuple[str, types.CodeType]]:
    """The code of the module, of its classes and of their functions; each without what stands in it by name."""
    todo = [compile(source, path, "exec")]
    for code in todo:
        inner = [c for c in code.co_consts if isinstance(c, types.CodeType) and not c.co_name.startswith("<")]
        if code.co_flags & inspect.CO_OPTIMIZED:  # a function, with all that stands in it
            yield code.co_qualname, code
        else:
            yield code.co_qualname, code.replace(co_consts=tuple(c for c in code.co_consts if c not in inner))
            todo += inner


def _unplaced(code: types.CodeType) -> types.CodeType:
    """The code without its line numbers, which move when a fault takes a line away."""
    inner = tuple(_unplaced(c) if isinstance(c, types.CodeType) else c for c in code.co_consts)
    return code.replace(co_consts=inner, co_firstlineno=1, co_linetable=b"")


def live(module: str, made: Body) -> Any:
    """The function itself, out of whatever it is wrapped in."""
    thing: Any = importlib.import_module(module)
    for name in made.name.split("."):
        thing = vars(thing).get(name)
        thing = getattr(thing, "fget", None) or getattr(thing, "__func__", None) or thing
    thing = getattr(thing, "__wrapped__", thing)
    return thing if getattr(thing, "__code__", None) == made.before else None
