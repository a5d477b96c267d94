"""What ``brinecalc install``, ``uninstall`` and ``doctor`` say about LibreOffice, in each state it can be in."""

from __future__ import annotations

import json
import zipfile

import pytest
from click.testing import CliRunner

from brinecalc.cli import Commands
from brinecalc.hosts.calc import install, setup
from brinecalc.hosts.calc.office import VARIABLE
from brinecalc.version import VERSION


def run(*arguments):
    return CliRunner().invoke(Commands(), arguments)


@pytest.fixture(autouse=True)
def ordinary_user(monkeypatch):
    """Nobody here is the administrator, whoever runs the tests."""
    monkeypatch.setattr(install, "for_everybody", lambda: False)


def listing(version, registered="yes"):
    """What unopkg lists when our extension of that version is there beside another one."""
    ours = f"Identifier: brinecalc.calc\n  Version: {version}\n  is registered: {registered}\n"
    return f"All deployed user extensions:\n\nIdentifier: another.one\n  Version: 9\n  is registered: yes\n\n{ours}"


@pytest.fixture
def pretended(tmp_path, monkeypatch):
    """Lays a LibreOffice whose unopkg only prints, and makes it the one that is found."""

    def lay(listed="All deployed user extensions:\n", python="3.11"):
        program = tmp_path / "office" / "program"
        program.mkdir(parents=True)
        (tmp_path / "listed").write_text(listed)
        for name, text in (("soffice", "exit 0"), ("unopkg", f"[ $1 = list ] && cat {tmp_path / 'listed'}")):
            (program / name).write_text(f"#!/bin/sh\n{text}\n")
            (program / name).chmod(0o755)
        (program / "bootstraprc").write_text("ProductKey=LibreOffice 7.4\n")
        if python:
            (program / "pythonloader.py").write_text("")
            (program / "pythonloader.unorc").write_text(f"PYTHONHOME=file:///usr/lib/python{python}\n")
        monkeypatch.setenv(VARIABLE, str(program))
        return program

    return lay


@pytest.fixture
def nowhere(tmp_path, monkeypatch):
    monkeypatch.setenv(VARIABLE, str(tmp_path / "no office"))


def test_doctor_with_nothing_installed(nowhere):
    told = run("doctor")
    assert told.exit_code == 0
    assert f"[ok] brinecalc: {VERSION}" in told.output
    assert "[not found] LibreOffice: not found" in told.output
    assert "--build-only" in told.output


def test_doctor_with_libreoffice_alone(pretended):
    pretended()
    told = run("doctor")
    assert told.exit_code == 0
    assert "[not set up] LibreOffice: 7.4" in told.output
    assert "run brinecalc install calc." in told.output


def test_doctor_with_libreoffice_without_its_python(pretended):
    pretended(python=None)
    told = run("doctor")
    assert told.exit_code == 1
    assert "[trouble] LibreOffice: 7.4" in told.output
    assert (
        "no Python inside; install LibreOffice's Python (on Debian and Ubuntu: apt install python3-uno)" in told.output
    )


def test_doctor_with_an_older_version_of_ours(pretended):
    pretended(listing("0.0.1"))
    told = run("doctor")
    assert told.exit_code == 1
    assert f"brinecalc 0.0.1 is installed in it, this is {VERSION}; run brinecalc install calc." in told.output


def test_doctor_with_ours_switched_off(pretended):
    pretended(listing(VERSION, registered="no"))
    assert "switched off or broken; run brinecalc install calc." in run("doctor").output


def test_doctor_when_all_is_well(pretended):
    program = pretended(listing(VERSION))
    told = run("doctor", "--json")
    assert told.exit_code == 0
    finding = json.loads(told.output)[1]
    assert finding == {
        "subject": "LibreOffice",
        "state": "ok",
        "says": f"7.4 in {program}, with Python 3.11; brinecalc {VERSION} is installed in it",
        "do": "",
    }


def test_doctor_when_libreoffices_tool_fails(pretended):
    program = pretended()
    (program / "unopkg").write_text(
        "#!/bin/sh\necho 'ERROR: The lock file indicates it is already running.' >&2; exit 1\n"
    )
    told = run("doctor")
    assert told.exit_code == 1
    assert "already running; close LibreOffice and try again" in told.output


def test_building_only_touches_no_office(nowhere, tmp_path):
    told = run("install", "calc", "--build-only", "--to", str(tmp_path / "made"))
    assert told.exit_code == 0
    (path,) = (tmp_path / "made").iterdir()
    assert str(path) in told.output
    assert "CalcAddIns.xcu" in zipfile.ZipFile(path).namelist()


@pytest.mark.parametrize("command", [("install", "calc"), ("uninstall", "calc")])
def test_without_libreoffice_it_says_what_to_do(nowhere, command):
    told = run(*command)
    assert told.exit_code == 2
    assert "LibreOffice was not found. Install it and try again" in told.output


def test_a_place_without_building_is_refused(nowhere):
    told = run("install", "calc", "--to", "somewhere")
    assert told.exit_code == 2
    assert "add --build-only" in told.output


@pytest.mark.parametrize(
    ("before", "said"),
    [
        (install.State(None), f"brinecalc {VERSION} is installed in LibreOffice 7.4"),
        (install.State("0.0.1", True), "it replaced version 0.0.1"),
        (install.State(VERSION, True), "was installed in LibreOffice 7.4"),
    ],
)
def test_installing_says_what_was_there_and_what_comes_next(pretended, monkeypatch, before, said):
    pretended()
    monkeypatch.setattr(setup.install, "install", lambda office: before)
    told = run("install", "calc")
    assert told.exit_code == 0
    assert said in told.output
    assert "start it again, and type =BRINE_SALT(1000;5%)" in told.output


def test_an_installation_that_does_not_take_is_no_success(pretended):
    pretended()
    told = run("install", "calc")
    assert told.exit_code == 2
    assert "LibreOffice did not take the extension" in told.output


def test_uninstalling_what_is_not_there_changes_nothing(pretended):
    pretended()
    told = run("uninstall", "calc")
    assert told.exit_code == 0
    assert "is not installed" in told.output


def test_the_administrator_installs_for_all_only_when_he_says_so(pretended, monkeypatch):
    pretended()
    monkeypatch.setattr(install, "for_everybody", lambda: True)
    monkeypatch.setattr(setup.install, "install", lambda office: install.State(None))
    told = run("install", "calc")
    assert told.exit_code == 2
    assert "for every user of this machine; add --for-all" in told.output
    told = run("install", "calc", "--for-all")
    assert told.exit_code == 0
    assert "for every user of this machine. Close LibreOffice" in told.output


@pytest.mark.parametrize(("program", "said"), [("calc", "only the administrator"), ("excel", "for calc only")])
def test_for_all_is_for_the_administrator_and_for_calc(pretended, program, said):
    pretended()
    told = run("install", program, "--for-all")
    assert told.exit_code == 2
    assert said in told.output


def test_the_administrator_is_told_the_command_that_works(pretended, monkeypatch):
    pretended()
    monkeypatch.setattr(install, "for_everybody", lambda: True)
    assert "run brinecalc install calc --for-all, which is for every user" in run("doctor").output
