"""How each host writes the names of our functions in a file, and how to change one spelling into another.

One idea: everyone types and reads ``BRINE_SALT``, and only what stands before an opening bracket is a function. A
formula is cut into tokens, the tokens that call one of our functions are spelled anew, and all others stay as they are.

========== ======================= ===================================================================
spelling   in the file             who writes it
========== ======================= ===================================================================
plain      ``BRINE_SALT(``         Excel with the classic add-in, newer LibreOffice, our own workbooks
dotted     ``BRINE.SALT(``         LibreOffice 7, and every .ods file
office     ``_xldudf_BRINE_SALT(`` Excel for functions of a web add-in
========== ======================= ===================================================================

Excel also puts ``_xlfn.`` or ``_xludf.`` before names that it does not know, and the add-in's own number or file
name (``[1]!``, ``'Kitchen.xlam'!``) before those of an add-in that was missing when the file was saved.
"""

from __future__ import annotations

import re
from typing import Optional

from brinecalc.hosts.formulas.lexer import tokens

PLAIN, DOTTED, OFFICE = "plain", "dotted", "office"
SPELLINGS = (PLAIN, DOTTED, OFFICE)
PROGRAMS = {"excel": PLAIN, "excel-lite": OFFICE, "calc": DOTTED}
"""Programs that a workbook can be made for, and the spelling of our functions that each reads without help."""

_OURS = re.compile(r"(?i)(?:_xlfn\.|_xludf\.)?(?:BRINE[_.]|_xldudf_BRINE_)([A-Z][A-Z0-9_]*)")
_IS_PLAIN = re.compile(r"(?<![\w.!])BRINE_[A-Z][A-Z0-9_]*(?![\w.])")
_ADD_IN = re.compile(r"(?i)\[\d+\]!|'?[^'!]*\.(?:xlam|xla|xlsm|xlsb)'?!")


def canonical(name: str) -> Optional[str]:
    """``BRINE_SALT`` for any spelling of it, in any case; None for a name that is not one of ours."""
    match = _OURS.fullmatch(name)
    return f"BRINE_{match[1].upper()}" if match else None


def written(name: str, spelling: str) -> str:
    """How the function of that name (in any spelling) is written; ValueError for a name or spelling unknown."""
    plain = canonical(name)
    if plain is None:
        raise ValueError(f"{name} is not one of the BRINE_ functions")
    if spelling == PLAIN:
        return plain
    if spelling == DOTTED:
        return "BRINE." + plain[len("BRINE_") :]
    if spelling == OFFICE:
        return "_xldudf_" + plain
    raise ValueError(f"no spelling is called {spelling}; there are {', '.join(SPELLINGS)}")


def is_add_in(prefix: str) -> bool:
    """Whether what stands before a name, exclamation mark included, names an add-in rather than a sheet."""
    return _ADD_IN.fullmatch(prefix) is not None


def respell(formula: str, spelling: str = PLAIN) -> str:
    """The formula with each call of our functions in that spelling, and not a character changed besides."""
    named = formula.casefold().count("brine")
    if not named or (spelling == PLAIN and named == len(_IS_PLAIN.findall(formula))):  # most formulas by far
        return formula
    out = []
    held = ""  # the prefix of an add-in, kept back until it is known what follows
    for token in tokens(formula):
        if token.kind == "call" and canonical(token.text):
            out.append(written(token.text, spelling))
            held = ""
            continue
        out.append(held)
        held = token.text if token.kind == "prefix" and is_add_in(token.text) else ""
        if not held:
            out.append(token.text)
    return "".join(out) + held
