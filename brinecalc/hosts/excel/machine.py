"""What a machine has for Excel: its program, Python's bridge to it, xlwings' settings. Nothing is run to find it.

One idea: everything that depends on the machine is gathered here once, so that what is decided and said about it can be
tried for any machine on any other.
"""

from __future__ import annotations

import importlib.util
import locale
import os
import re
import sys
from pathlib import Path
from typing import NamedTuple

import xlwings

INTERPRETER = "INTERPRETER_WIN"
_LINE = re.compile(r'\s*"([^"]*)"\s*,\s*"([^"]*)"\s*')


class Machine(NamedTuple):
    """A machine: whether it is Windows, its Excel ("": none found), and where things lie or would lie."""

    windows: bool
    mac: bool
    excel: str
    home: Path
    startup: Path
    python: Path
    bridge: bool
    library: Path | None
    xlwings: Path

    @property
    def settings(self) -> Path:
        """xlwings' settings of this user."""
        return self.home / ".xlwings" / "xlwings.conf"

    @property
    def folder(self) -> Path:
        """Where our files are put for this user."""
        return self.home / "brinecalc-excel"

    @property
    def add_in(self) -> Path:
        """Where xlwings' add-in lies when it is installed; the modules we write do without it."""
        return self.startup / "xlwings.xlam"


def look() -> Machine:
    """The machine that this runs on, as far as Excel is concerned."""
    windows = sys.platform == "win32"
    roaming = os.environ.get("APPDATA", "")
    return Machine(
        windows=windows,
        mac=sys.platform == "darwin",
        excel=_excel() if windows else "",
        home=Path.home(),
        startup=Path(roaming, "Microsoft", "Excel", "XLSTART"),
        python=_quiet_python(Path(sys.executable)),
        bridge=importlib.util.find_spec("pythoncom") is not None,
        library=next(Path(sys.prefix).glob(f"xlwings??-{xlwings.__version__}.dll"), None),
        xlwings=Path(xlwings.__file__).parent,
    )


def interpreter(settings: Path) -> str:
    """The Python that xlwings is told to use, or "" where its settings name none."""
    for line in _lines(settings):
        found = _LINE.fullmatch(line)
        if found and found[1].upper() == INTERPRETER:
            return os.path.expandvars(found[2])
    return ""


def with_interpreter(settings: Path, python: str) -> str:
    """xlwings' settings with that Python in them ("": with none), all other lines as they are; read by VBA."""
    kept = [line for line in _lines(settings) if not re.match(rf'\s*"{INTERPRETER}"', line, re.IGNORECASE)]
    return "".join(f"{line}\r\n" for line in [*kept, *([f'"{INTERPRETER}","{python}"'] if python else [])])


def _lines(settings: Path) -> list[str]:
    if not settings.is_file():
        return []
    return [
        line
        for line in settings.read_text(encoding=locale.getencoding(), errors="replace").splitlines()
        if line.strip()
    ]


def _quiet_python(python: Path) -> Path:
    """The Python that opens no window, beside the one that runs."""
    quiet = python.with_name("pythonw.exe")
    return quiet if quiet.is_file() else python


def _excel() -> str:
    """The version of Excel that Windows knows, such as 16."""
    if sys.platform != "win32":
        return ""
    import winreg

    try:
        with winreg.OpenKey(winreg.HKEY_CLASSES_ROOT, r"Excel.Application\CurVer") as key:
            name = str(winreg.QueryValue(key, None))
    except OSError:  # the entry is not there: no Excel
        return ""
    return name.rpartition(".")[2]
