"""Puts the extension into LibreOffice, takes it out again, and tells what is there.

One idea: LibreOffice's own ``unopkg`` does the work in one step and keeps the books; what it lists afterwards is
believed, not what it was asked to do. An ordinary user installs for himself; the administrator of a Unix machine,
whom ``unopkg`` lets install only for everybody, installs for everybody (the set-up asks before that).
"""

from __future__ import annotations

import os
import re
import subprocess
import tempfile
from pathlib import Path
from typing import NamedTuple

from brinecalc.hosts.calc import build
from brinecalc.hosts.calc.description import IDENTIFIER
from brinecalc.hosts.calc.office import OLDEST_PYTHON, Office
from brinecalc.hosts.findings import SetupTrouble
from brinecalc.version import VERSION

_PATIENCE = 120
_LONGEST = 400
_PYTHON_ADVICE = {
    "none": "install LibreOffice's Python (on Debian and Ubuntu: apt install python3-uno)",
    "old": "install a newer LibreOffice",
}


class State(NamedTuple):
    """What is installed: the version of our extension (None: none), whether it is in working order."""

    version: str | None
    registered: bool = False

    @property
    def is_current(self) -> bool:
        """Whether it is this version, in working order."""
        return self.version == VERSION and self.registered


def state(office: Office) -> State:
    """What LibreOffice lists of us."""
    listed = _run(office, "list")
    if listed.returncode != 0:
        raise SetupTrouble(f"LibreOffice could not list its extensions: {_said(listed)}")
    for entry in re.split(r"^(?=Identifier: )", listed.stdout, flags=re.MULTILINE):
        if re.match(rf"Identifier: {re.escape(IDENTIFIER)}\s", entry):
            version = re.search(r"^\s*Version: (\S+)", entry, re.MULTILINE)
            registered = re.search(r"^\s*is registered: (\S+)", entry, re.MULTILINE)
            return State(version[1] if version else "", bool(registered and registered[1] == "yes"))
    return State(None)


def install(office: Office) -> State:
    """Installs the extension of this version in place of any other; answers what was there before."""
    check(office)
    before = state(office)
    with tempfile.TemporaryDirectory(prefix="brinecalc") as folder:
        added = _run(office, "add", "--force", str(build.build(Path(folder))))
    after = state(office)
    if not after.is_current:
        if after.version is not None and not after.registered:
            _run(office, "remove", IDENTIFIER)
        raise SetupTrouble(f"LibreOffice did not take the extension: {_said(added)}")
    return before


def uninstall(office: Office) -> State:
    """Takes the extension out; answers what was there before."""
    before = state(office)
    if before.version is not None:
        removed = _run(office, "remove", IDENTIFIER)
        if state(office).version is not None:
            raise SetupTrouble(f"LibreOffice did not give the extension back: {_said(removed)}")
    return before


def check(office: Office) -> None:
    """Refuses a LibreOffice that could not run the functions, before anything is changed."""
    if fault := missing(office):
        raise SetupTrouble(fault)


def missing(office: Office) -> str:
    """What this LibreOffice lacks to run the functions and the one thing to do, or "" when nothing."""
    if office.python is None:
        return f"this LibreOffice has no Python inside; {_PYTHON_ADVICE['none']}, then try again"
    if not office.runs_us:
        oldest = ".".join(map(str, OLDEST_PYTHON))
        return f"this LibreOffice runs Python {office.python}, {oldest} or later is needed; {_PYTHON_ADVICE['old']}"
    return ""


def for_everybody() -> bool:
    """Whether an installation serves all users: only where the administrator of a Unix machine asks for it."""
    return hasattr(os, "geteuid") and os.geteuid() == 0


def _run(office: Office, command: str, *arguments: str) -> subprocess.CompletedProcess[str]:
    shared = ["--shared"] if for_everybody() else []
    try:
        return subprocess.run(  # noqa: S603 - LibreOffice's own tool, with arguments of ours
            [str(office.tool("unopkg")), command, *shared, *arguments],
            capture_output=True,
            text=True,
            errors="replace",
            timeout=_PATIENCE,
            stdin=subprocess.DEVNULL,
            check=False,
        )
    except (OSError, subprocess.TimeoutExpired) as error:
        raise SetupTrouble(
            f"LibreOffice's tool unopkg did not run: {error}; close LibreOffice and try again"
        ) from error


def _said(done: subprocess.CompletedProcess[str]) -> str:
    """The tool's own last words, and what usually helps."""
    said = " ".join((done.stderr or done.stdout).split()).replace("ERROR: unopkg failed.", "").strip()
    return f"{said[:_LONGEST].rstrip('.') or 'it gave no reason'}; close LibreOffice and try again"
