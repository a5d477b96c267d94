"""Spells our function names the way a program expects them, in formula text and in workbook files.

One idea: a formula, in Calc's own language or in a file's, is cut into code and quoted parts (strings, sheet names,
bracketed references); only a known name that stands in the code and is followed by an opening bracket is ever
respelled, so a name that already stands right counts as nothing to do. Runs inside LibreOffice's own Python, so it
needs nothing but the standard library.
"""

from __future__ import annotations

import os
import re
import tempfile
import zipfile
from html import escape, unescape
from typing import Callable, Iterable, Iterator, Tuple
from zlib import error as ZlibError  # noqa: N812 - an exception, whatever its spelling

from brinecalc.hosts import spelling

_FORMULA = re.compile(
    r"(<(?:\w+:)?(?:f|formula|formula1|formula2|definedName|calculatedColumnFormula|totalsRowFormula)"
    r"(?:\s[^>]*[^>/]|\s*)>)([^<]+)(?=</)"
)
_CALL = re.compile(r"(?<![\w.$!'\]])[A-Za-z_][\w.]*(?=\s*\()")
_ESCAPED = frozenset("[]#'@")


class Renamer:
    """Respells calls of the known functions: ``names`` are their worksheet names, such as BRINE_SALT."""

    def __init__(self, names: Iterable[str]) -> None:
        self.known = frozenset(names)

    def for_calc(self, formula: str) -> str:
        """The formula with each name that a loaded file left unresolved spelled for Calc's compiler."""
        return self._respelled(formula, from_dotted=False)

    def plain(self, formula: str) -> str:
        """The formula with each dotted name, as older versions of Calc write it, in the plain spelling."""
        return self._respelled(formula, from_dotted=True)

    def _respelled(self, formula: str, from_dotted: bool) -> str:
        if "brine" not in formula.lower():
            return formula

        def call(found: re.Match[str]) -> str:
            plain = spelling.canonical(found[0])
            if plain not in self.known or plain is None:
                return found[0]
            is_dotted = found[0].upper() == spelling.written(plain, spelling.DOTTED)
            return plain if is_dotted == from_dotted else found[0]

        return replace_in_code(formula, lambda code: _CALL.sub(call, code))

    def plain_file(self, path: str) -> int:
        """Puts the plain names into the formulas of a saved .xlsx; answers how many formulas changed.

        The file is replaced in one step or not at all, keeps its time and mode, and is left alone when it is not a
        plain zip (a file with an opening password), when it is signed, or when nothing is to be done.
        """
        changed = 0

        def formula(found: re.Match[str]) -> str:
            nonlocal changed
            old = unescape(found[2])
            new = self.plain(old)
            if new == old:
                return found[0]
            changed += 1
            return found[1] + escape(new, quote=False)

        try:
            with zipfile.ZipFile(path) as book:
                parts = [(item, book.read(item)) for item in book.infolist()]
        except (zipfile.BadZipFile, RuntimeError, ZlibError):
            return 0
        if any(item.filename.startswith("_xmlsignatures/") for item, _ in parts):
            return 0
        healed = [
            (item, _FORMULA.sub(formula, data.decode("utf-8")).encode("utf-8") if _holds_formulas(item, data) else data)
            for item, data in parts
        ]
        if changed:
            _replace(path, healed)
        return changed


def replace_in_code(formula: str, replace: Callable[[str], str]) -> str:
    """The formula with ``replace`` applied to its code; quoted parts stay as they are."""
    return "".join(replace(text) if is_code else text for is_code, text in pieces(formula))


def pieces(formula: str) -> Iterator[Tuple[bool, str]]:
    """The formula cut into (is code, text): strings, quoted sheet names and square brackets are not code.

    A doubled quote inside quotes simply closes and opens again. Inside square brackets (column names of tables,
    other workbooks) an apostrophe takes the meaning from the bracket that follows.
    """
    start = at = 0
    end = len(formula)
    while at < end:
        sign = formula[at]
        if sign not in "\"'[":
            at += 1
            continue
        if at > start:
            yield True, formula[start:at]
        start = at
        if sign == "[":
            at = _after_bracket(formula, at)
        else:
            closing = formula.find(sign, at + 1)
            at = end if closing < 0 else closing + 1
        yield False, formula[start:at]
        start = at
    if start < end:
        yield True, formula[start:]


def _after_bracket(formula: str, at: int) -> int:
    """The place after the bracket that closes the one at ``at``."""
    depth = 0
    while at < len(formula):
        sign = formula[at]
        if sign == "'" and formula[at + 1 : at + 2] in _ESCAPED:
            at += 1
        elif sign == "[":
            depth += 1
        elif sign == "]":
            depth -= 1
            if not depth:
                return at + 1
        at += 1
    return at


def _holds_formulas(item: zipfile.ZipInfo, data: bytes) -> bool:
    return item.filename.endswith(".xml") and b"BRINE." in data.upper()


def _replace(path: str, parts: Iterable[Tuple[zipfile.ZipInfo, bytes]]) -> None:
    """Writes the parts beside the file and moves them over it, with the old file's time and mode."""
    before = os.stat(path)
    handle, beside = tempfile.mkstemp(prefix=".~brine", suffix=".tmp", dir=os.path.dirname(os.path.abspath(path)))
    try:
        with os.fdopen(handle, "wb") as file:
            with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as book:
                for item, data in parts:
                    book.writestr(item, data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(beside, before.st_mode & 0o7777)
        os.utime(beside, ns=(before.st_atime_ns, before.st_mtime_ns))
        os.replace(beside, path)
    except BaseException:
        os.unlink(beside)
        raise
