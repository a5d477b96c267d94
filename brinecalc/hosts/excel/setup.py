"""What ``brinecalc install``, ``uninstall`` and ``doctor`` do and say for Excel.

One idea: nothing is put into Excel itself, which no program may do without the person's leave. The files that the
person imports are laid ready, and xlwings is told which Python has the functions; the answer ends with the next step.
"""

from __future__ import annotations

import locale
from pathlib import Path
from typing import Optional

from brinecalc import files
from brinecalc.hosts.excel import kit, machine, vba
from brinecalc.hosts.excel.machine import Machine
from brinecalc.hosts.findings import ABSENT, OK, TROUBLE, UNUSED, Finding, SetupTrouble
from brinecalc.version import VERSION

SUBJECT = "Excel"
INSTALL = "run brinecalc install excel"
_ELSEWHERE = (
    "Excel calls an installed Python on Windows only; here xlwings Lite does it inside Excel. "
    "Run brinecalc install excel --to FOLDER for the files it needs"
)


def set_up(build_only: bool, to: Optional[Path], here: Optional[Machine] = None) -> str:
    """Lays the files ready and tells xlwings which Python to use; answers with what was done and what comes next."""
    here = here or machine.look()
    if to is not None or build_only:
        folder = to or Path("brinecalc-excel")
        _write(folder)
        return f"Wrote the files for Excel into {folder}. Follow {folder / kit.STEPS}."
    if not here.windows:
        raise SetupTrouble(_ELSEWHERE)
    if fault := _lacking(here):
        raise SetupTrouble(fault)
    before = _version(here)
    _write(here.folder)
    said = _choose_python(here)
    done = f"brinecalc {VERSION} for Excel is ready in {here.folder}"
    if before and before != VERSION:
        done += f", in place of version {before} (import {kit.MODULE} again into each workbook that has the old one)"
    return (
        f"{done}{said}. Save your workbook as .xlsm, press Alt+F11, and import {kit.MODULE} and {kit.BRIDGE} from "
        f"there (File, Import File); {here.folder / kit.STEPS} has every step."
    )


def take_out(here: Optional[Machine] = None) -> str:
    """Removes the files and what was set; answers with what was done."""
    here = here or machine.look()
    removed = [path for path in _ours(here.folder) if path.is_file()]
    was_ours = _same(machine.interpreter(here.settings), here.python)
    if not removed and not was_ours:
        return "brinecalc is not set up for Excel; nothing was changed."
    for path in removed:
        path.unlink()
    for folder in (here.folder / kit.LITE, here.folder):
        if folder.is_dir() and not any(folder.iterdir()):
            folder.rmdir()
    if was_ours:
        _settle(here, "")
    return (
        f"The files for Excel were removed from {here.folder}. A workbook keeps what was imported into it: to take it "
        f"out there, press Alt+F11 and remove the modules {vba.NAME} and xlwings (right-click)."
    )


def look(here: Optional[Machine] = None) -> list[Finding]:
    """How things stand, with the one thing to do about each."""
    here = here or machine.look()
    if not here.windows:
        name = "macOS" if here.mac else "this system"
        says = f"an installed Python serves it on Windows only; on {name}, xlwings Lite brings the functions into Excel"
        return [Finding(SUBJECT, ABSENT, says, "run brinecalc install excel --to FOLDER for its files")]
    if not here.excel:
        return [Finding(SUBJECT, ABSENT, "not found on this machine")]
    found = f"version {here.excel}"
    if fault := _lacking(here):
        lacks, _, do = fault.partition("; ")
        return [Finding(SUBJECT, TROUBLE, f"{found}: {lacks}", do), *_add_in(here)]
    version = _version(here)
    python = machine.interpreter(here.settings)
    if not version:
        state = Finding(SUBJECT, UNUSED, f"{found}; brinecalc is not set up for it", INSTALL)
    elif version != VERSION:
        state = Finding(SUBJECT, TROUBLE, f"{found}; files of brinecalc {version} in {here.folder}", INSTALL)
    elif not python:
        state = Finding(SUBJECT, TROUBLE, f"{found}; xlwings is not told which Python to use", INSTALL)
    elif not _same(python, here.python):
        state = Finding(SUBJECT, TROUBLE, f"{found}; xlwings is set to the Python {python}", _other(here))
    else:
        state = Finding(SUBJECT, OK, f"{found}; files of brinecalc {version} in {here.folder}, run by {python}")
    return [state, *_add_in(here)]


def _lacking(here: Machine) -> str:
    """What Python lacks to be called by Excel, and the one thing to do; "" when nothing."""
    if not here.bridge:
        return f"Python has no bridge to Excel (pywin32); run {here.python} -m pip install pywin32"
    if here.library is None:
        return (
            "a part of xlwings is not where Excel looks for it; set brinecalc up in a virtual environment (see README)"
        )
    return ""


def _add_in(here: Machine) -> list[Finding]:
    """Whether xlwings' own add-in is there; it is not needed, but an old one stands in the way."""
    if not here.add_in.is_file():
        return [Finding("xlwings add-in", OK, "not installed, and not needed")]
    if here.add_in.read_bytes() == (here.xlwings / "addin" / "xlwings.xlam").read_bytes():
        return [Finding("xlwings add-in", OK, "installed, of the same version as xlwings")]
    return [
        Finding("xlwings add-in", TROUBLE, "installed, of another version than xlwings", "run xlwings addin install")
    ]


def _write(folder: Path) -> None:
    """All files, or none that was not there before."""
    made = kit.files()
    new = [folder / name for name in made if not (folder / name).exists()]
    try:
        for name, content in made.items():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            files.write(folder / name, content, overwrite=True)
    except (files.FileTrouble, OSError) as trouble:
        for path in new:
            path.unlink(missing_ok=True)
        raise SetupTrouble(f"the files for Excel could not be written: {trouble}") from trouble


def _choose_python(here: Machine) -> str:
    """Tells xlwings to use this Python where it has none that exists; says so where another is set."""
    now = machine.interpreter(here.settings)
    if _same(now, here.python):
        return ""
    if now and (now.lower() in ("python", "pythonw") or Path(now).is_file()):
        return f". xlwings is set to another Python, {now}: {_other(here)}"
    _settle(here, str(here.python))
    return ""


def _other(here: Machine) -> str:
    return f"install brinecalc into that Python, or take its line out of {here.settings} and {INSTALL}"


def _settle(here: Machine, python: str) -> None:
    text = machine.with_interpreter(here.settings, python)
    if text:
        here.settings.parent.mkdir(parents=True, exist_ok=True)
        files.write(here.settings, text.encode(locale.getencoding(), "replace"), overwrite=True)
        return
    here.settings.unlink(missing_ok=True)
    if here.settings.parent.is_dir() and not any(here.settings.parent.iterdir()):
        here.settings.parent.rmdir()


def _version(here: Machine) -> str:
    """The version of our files that lie ready, or ""."""
    module = here.folder / kit.MODULE
    return vba.version(module.read_text(encoding="ascii", errors="replace")) if module.is_file() else ""


def _ours(folder: Path) -> list[Path]:
    return [folder / name for name in kit.NAMES]


def _same(one: str, other: Path) -> bool:
    return bool(one) and Path(one) == other
