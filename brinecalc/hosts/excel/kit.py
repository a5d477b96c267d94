"""The files that bring the functions into Excel, by name: for classic xlwings, and for xlwings Lite.

One idea: a person with no rights on a machine can still import two text files into a workbook, so that is all classic
xlwings needs here: our module, and xlwings' own, which makes its add-in unnecessary. All are made in memory first.
"""

from __future__ import annotations

from pathlib import Path

import xlwings

from brinecalc import registry
from brinecalc.hosts.excel import vba, wheel

MODULE, BRIDGE, STEPS = "brinecalc.bas", "xlwings.bas", "steps.txt"
LITE = "xlwings-lite"
NAMES = (MODULE, BRIDGE, STEPS, *(f"{LITE}/{name}" for name in ("main.py", "requirements.txt", wheel.FILE_NAME)))
ADDRESS = f"https://example.org/{wheel.FILE_NAME}"
"""Stands where the person puts the address of the wheel; this one belongs to nobody."""

_MAIN = "from brinecalc.hosts.excel import *  # noqa: F403 - every BRINE_ function\n"
_REQUIREMENTS = f"""# The address under which you put {wheel.FILE_NAME}, in place of this one:
{ADDRESS}
xlwings
"""
_STEPS = """How to get the BRINE_ functions into a workbook

Excel on Windows, with Python and brinecalc installed
 1. Open the workbook and save it as a macro-enabled workbook (.xlsm): File, Save As.
 2. Press Alt+F11. In the window that opens: File, Import File, choose {module}. Once more for {bridge}.
    If the list on the left already shows modules named xlwings_udfs or xlwings, remove them first (right-click).
 3. Close that window, save, and press Ctrl+Alt+F9. A cell with =BRINE_SALT(1000,5%) shows 50.
    For help in Excel's function wizard, once for each workbook: Alt+F8, {macro}, Run.

Excel on Windows, macOS or in a browser, with the add-in xlwings Lite (no Python needed)
 1. Put {wheel} where a web address leads to it that lets other pages fetch it.
 2. Home, Add-ins: search for xlwings Lite and add it. Open it.
 3. Put that address and the other lines of {lite}/requirements.txt into its requirements.txt, and the line of
    {lite}/main.py into its main.py. Restart it from its menu. A cell with =BRINE_SALT(1000,5%) shows 50.
"""


def files() -> dict[str, bytes]:
    """Every file by its path inside the folder."""
    specs = [registry.spec(name) for name in registry.names()]
    steps = _STEPS.format(module=MODULE, bridge=BRIDGE, lite=LITE, wheel=wheel.FILE_NAME, macro=vba.HELP_MACRO)
    made = (
        vba.module(specs).encode("ascii"),
        _bridge(),
        steps.replace("\n", "\r\n").encode("ascii"),
        _MAIN.encode("ascii"),
        _REQUIREMENTS.encode("ascii"),
        wheel.content(),
    )
    return dict(zip(NAMES, made, strict=True))


def _bridge() -> bytes:
    """The module of xlwings for workbooks that do without its add-in, of the version installed."""
    text = (Path(xlwings.__file__).parent / BRIDGE).read_bytes()
    return text.replace(b"\r\n", b"\n").replace(b"\n", b"\r\n")
