"""All worksheet functions by name: the door through which every host, workbook and command comes in.

One idea: whoever imports this module has all functions, since it fills the catalogue before it opens. It stands above
the functions, so none of them imports it; they register themselves in the catalogue.
"""

from __future__ import annotations

from brinecalc import functions
from brinecalc.catalogue import call, entry, function, names, spec, why, worksheet_function
from brinecalc.errors import NOT_AVAILABLE
from brinecalc.gate import Entry

functions.load()

__all__ = ["NOT_AVAILABLE", "Entry", "call", "entry", "function", "names", "spec", "why", "worksheet_function"]
