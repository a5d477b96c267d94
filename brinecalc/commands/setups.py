"""The spreadsheet programs that the library can be set up in, each with a module of its own.

One idea: such a module offers ``set_up(build_only, to)``, ``take_out()`` and ``look()``; to add a program, write the
module and name it here. It is imported only when it is needed.
"""

from __future__ import annotations

import importlib
from typing import Any

PROGRAMS = {
    "calc": ("brinecalc.hosts.calc.setup", "LibreOffice Calc"),
    "excel": ("brinecalc.hosts.excel.setup", "Excel"),
}
"""Name on the command line → module, and the program's own name."""


def program(name: str) -> Any:
    """The module of a program."""
    return importlib.import_module(PROGRAMS[name][0])
