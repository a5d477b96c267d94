"""Finds the LibreOffice on this machine and what it can do, by looking at its folder only.

One idea: everything is told from the files of its program folder (version, whether it has its own Python and which),
so that looking costs nothing and no window opens. The variable BRINECALC_OFFICE names a program folder that the
usual places do not show.
"""

from __future__ import annotations

import os
import re
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

OLDEST_PYTHON = (3, 9)
VARIABLE = "BRINECALC_OFFICE"


class Office(NamedTuple):
    """A LibreOffice: its program folder, its version, and the version of the Python inside it (none: no Python)."""

    program: Path
    version: str
    python: str | None

    def tool(self, name: str) -> Path:
        """One of its programs: soffice or unopkg."""
        found = shutil.which(name, path=str(self.program))
        return Path(found) if found else self.program / name

    @property
    def runs_us(self) -> bool:
        """Whether its Python is there and new enough."""
        return self.python is not None and (not self.python or _numbers(self.python) >= OLDEST_PYTHON)

    def __str__(self) -> str:
        return f"LibreOffice {self.version or 'of unknown version'} in {self.program}"


def find() -> Office | None:
    """The LibreOffice to use: the one named by the variable, on the path, or in the usual places."""
    return next(iter(find_all()), None)


def find_all() -> list[Office]:
    """Every LibreOffice found, the preferred one first."""
    named = os.environ.get(VARIABLE)
    folders = [Path(named)] if named else [*_on_path(), *_usual()]
    found: dict[Path, Office] = {}
    for folder in folders:
        if (office := look(folder)) is not None:
            found.setdefault(office.program, office)
    return list(found.values())


def look(folder: Path) -> Office | None:
    """The LibreOffice whose programs lie in that folder, or None."""
    if not (shutil.which("soffice", path=str(folder)) and shutil.which("unopkg", path=str(folder))):
        return None
    program = folder.resolve()
    return Office(program, _version(program), _python(program))


def _on_path() -> Iterator[Path]:
    for name in ("soffice", "libreoffice"):
        if found := shutil.which(name):
            yield Path(found).resolve().parent


def _usual() -> Iterator[Path]:
    if sys.platform == "win32":
        for variable in ("ProgramFiles", "ProgramW6432", "ProgramFiles(x86)"):
            if root := os.environ.get(variable):
                yield Path(root, "LibreOffice", "program")
    elif sys.platform == "darwin":
        for root in (Path("/Applications"), Path.home() / "Applications"):
            yield root / "LibreOffice.app" / "Contents" / "MacOS"
    else:
        yield Path("/usr/lib/libreoffice/program")
        yield Path("/usr/lib64/libreoffice/program")
        own = Path("/opt").glob("libreoffice*/program")
        yield from sorted(own, key=lambda program: _numbers(program.parent.name), reverse=True)


def _settings(program: Path, name: str) -> str:
    """The text of one of its settings files; on macOS they lie in a folder of their own."""
    for folder in (program, program.parent / "Resources"):
        for file in (folder / name, folder / name.replace("rc", ".ini")):
            if file.is_file():
                return file.read_text(encoding="utf-8", errors="replace")
    return ""


def _version(program: Path) -> str:
    found = re.search(r"^ProductKey=\D*([\d.]+)", _settings(program, "bootstraprc"), re.MULTILINE)
    return found[1] if found else ""


def _python(program: Path) -> str | None:
    """The version of its Python, "" where it cannot be told, None where LibreOffice has none."""
    loader = [folder / "pythonloader.py" for folder in (program, program.parent / "Resources")]
    if not any(file.is_file() for file in loader):
        return None
    own = [*program.glob("python-core-*"), *program.glob("../Frameworks/LibreOfficePython.framework/Versions/3*")]
    home = re.search(r"^PYTHONHOME=.*?(\d+\.\d+)", _settings(program, "pythonloader.unorc"), re.MULTILINE)
    if own:
        return re.sub(r"^\D*", "", own[0].name)
    return home[1] if home else ""


def _numbers(text: str) -> tuple[int, ...]:
    return tuple(int(number) for number in re.findall(r"\d+", text))
