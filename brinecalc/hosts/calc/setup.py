"""What ``brinecalc install``, ``uninstall`` and ``doctor`` do and say for LibreOffice Calc.

One idea: each answers in findings, so that Calc and Excel are reported in the same words.
"""

from __future__ import annotations

from pathlib import Path
from typing import Optional

from brinecalc.hosts.calc import build, install, office
from brinecalc.hosts.findings import ABSENT, OK, TROUBLE, UNUSED, Finding, SetupTrouble
from brinecalc.version import VERSION

SUBJECT = "LibreOffice"
BUILD_ONLY = "run brinecalc install calc --build-only --to ."
_NOWHERE = (
    f"LibreOffice was not found. Install it and try again; if you have it in a form of its own (Flatpak, Snap, a "
    f"portable copy), {BUILD_ONLY} and open the file that makes with LibreOffice"
)


def set_up(build_only: bool, to: Optional[Path], for_all: bool = False) -> str:
    """Builds the extension and, unless told not to, installs it; answers with what was done and what comes next."""
    if build_only:
        path = build.build(to or Path())
        return f"Built {path}. Open it with LibreOffice to install it (Tools, Extensions lists it afterwards)."
    if to is not None:
        raise SetupTrouble("--to says where --build-only writes; add --build-only")
    found = _found()
    _check_for_whom(for_all)
    before = install.install(found)
    done = f"brinecalc {VERSION} is installed in {found}{_for_everybody()}"
    if before.is_current:
        done = f"brinecalc {VERSION} was installed in {found} already and was put there afresh"
    elif before.version is not None:
        done = f"{done}; it replaced version {before.version}"
    return f"{done}. Close LibreOffice if it is open, start it again, and type =BRINE_SALT(1000;5%) into a cell: 50."


def take_out() -> str:
    """Takes the extension out; answers with what was done."""
    found = _found()
    before = install.uninstall(found)
    if before.version is None:
        return f"brinecalc is not installed in {found}; nothing was changed."
    return f"brinecalc {before.version} was taken out of {found}. Close LibreOffice if it is open."


def look() -> list[Finding]:
    """How things stand, with the one thing to do about each."""
    offices = office.find_all()
    if not offices:
        return [
            Finding(SUBJECT, ABSENT, "not found", f"if it is there all the same, run {BUILD_ONLY} and open the file")
        ]
    return [_finding(offices[0]), *(Finding(SUBJECT, OK, f"there is also {_place(other)}") for other in offices[1:])]


def _finding(found: office.Office) -> Finding:
    place = _place(found)
    if fault := install.missing(found):
        lacks, _, do = fault.partition("; ")
        return Finding(SUBJECT, TROUBLE, f"{place}: {lacks}", do)
    try:
        now = install.state(found)
    except SetupTrouble as trouble:
        return Finding(SUBJECT, TROUBLE, place, str(trouble))
    if now.version is None:
        return Finding(SUBJECT, UNUSED, f"{place}; brinecalc is not installed in it", _how())
    if now.is_current:
        return Finding(SUBJECT, OK, f"{place}; brinecalc {now.version} is installed in it")
    if now.version == VERSION:
        return Finding(SUBJECT, TROUBLE, f"{place}; brinecalc {VERSION} is in it but switched off or broken", _how())
    return Finding(SUBJECT, TROUBLE, f"{place}; brinecalc {now.version} is installed in it, this is {VERSION}", _how())


def _how() -> str:
    """The command that installs, for whoever runs this: it does not install for everybody unasked."""
    word = (
        " --for-all, which is for every user, or without sudo: brinecalc install calc"
        if install.for_everybody()
        else ""
    )
    return f"run brinecalc install calc{word}"


def _place(found: office.Office) -> str:
    python = f", with Python {found.python}" if found.python else ""
    return f"{found.version or 'unknown version'} in {found.program}{python}"


def _found() -> office.Office:
    found = office.find()
    if found is None:
        raise SetupTrouble(_NOWHERE)
    return found


def _check_for_whom(for_all: bool) -> None:
    """Nothing is installed for every user of a machine unless that was asked for."""
    if install.for_everybody() and not for_all:
        raise SetupTrouble(
            "run by the administrator, LibreOffice installs for every user of this machine; add --for-all if that is "
            "meant, or run it as yourself (without sudo)"
        )
    if for_all and not install.for_everybody():
        raise SetupTrouble("only the administrator can install for every user; leave out --for-all to have it yourself")


def _for_everybody() -> str:
    return " for every user of this machine" if install.for_everybody() else ""
