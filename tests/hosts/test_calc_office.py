"""Finding LibreOffice and telling what it lacks, on folders laid out as each system lays them out."""

from __future__ import annotations

import os

import pytest

from brinecalc.hosts.calc import install
from brinecalc.hosts.calc.office import VARIABLE, find, find_all, look
from brinecalc.hosts.findings import SetupTrouble


def lay(folder, files):
    """Writes files; programs are made executable."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
        path.chmod(0o755)
    return folder


PROGRAMS = {"program/soffice": "#!/bin/sh\n", "program/unopkg": "#!/bin/sh\n"}
SEVEN = {"program/bootstraprc": "[Bootstrap]\nProductKey=LibreOffice 7.4\n"}
LOADER = {"program/pythonloader.py": ""}


def python(version):
    return {**LOADER, "program/pythonloader.unorc": f"[Bootstrap]\nPYTHONHOME=file:///usr/lib/python{version}\n"}


def test_a_system_package_shows_its_version_and_python(tmp_path):
    office = look(lay(tmp_path, {**PROGRAMS, **SEVEN, **python("3.11")}) / "program")
    assert (office.version, office.python, office.runs_us) == ("7.4", "3.11", True)
    assert install.missing(office) == ""
    assert office.tool("unopkg") == tmp_path / "program" / "unopkg"


def test_an_installation_with_its_own_python(tmp_path):
    own = {**LOADER, "program/python-core-3.10.18/bin/python": ""}
    office = look(lay(tmp_path, {**PROGRAMS, **SEVEN, **own}) / "program")
    assert (office.python, office.runs_us) == ("3.10.18", True)


def test_a_mac_application(tmp_path):
    laid = {
        "MacOS/soffice": "#!/bin/sh\n",
        "MacOS/unopkg": "#!/bin/sh\n",
        "Resources/bootstraprc": "ProductKey=LibreOffice 25.2\n",
        "Resources/pythonloader.py": "",
        "Frameworks/LibreOfficePython.framework/Versions/3.10/lib": "",
    }
    office = look(lay(tmp_path / "Contents", laid) / "MacOS")
    assert (office.version, office.python, office.runs_us) == ("25.2", "3.10", True)


def test_a_windows_folder_names_its_settings_differently(tmp_path):
    laid = {
        **PROGRAMS,
        **LOADER,
        "program/bootstrap.ini": "ProductKey=LibreOffice 24.8\n",
        "program/python-core-3.9.21/x": "",
    }
    office = look(lay(tmp_path, laid) / "program")
    assert (office.version, office.python) == ("24.8", "3.9.21")


def test_libreoffice_without_python_is_told_what_to_install(tmp_path):
    office = look(lay(tmp_path, {**PROGRAMS, **SEVEN}) / "program")
    assert (office.python, office.runs_us) == (None, False)
    assert "apt install python3-uno" in install.missing(office)


@pytest.mark.parametrize("version", ["3.8", "3.8.20"])
def test_a_python_that_is_too_old_is_told_so(tmp_path, version):
    office = look(lay(tmp_path, {**PROGRAMS, **python(version)}) / "program")
    assert not office.runs_us
    fault = install.missing(office)
    assert version[:3] in fault
    assert "3.9 or later" in fault
    assert "newer LibreOffice" in fault


def test_nothing_is_changed_in_an_office_that_cannot_run_us(tmp_path, monkeypatch):
    office = look(lay(tmp_path, {**PROGRAMS, **SEVEN}) / "program")
    monkeypatch.setattr(install, "_run", lambda *given: pytest.fail("unopkg was called"))
    with pytest.raises(SetupTrouble, match="no Python"):
        install.install(office)


def test_a_folder_without_libreoffice_is_none(tmp_path):
    assert look(tmp_path) is None


def test_the_variable_names_the_only_office_to_look_at(tmp_path, monkeypatch):
    lay(tmp_path, {**PROGRAMS, **SEVEN, **python("3.11")})
    monkeypatch.setenv(VARIABLE, str(tmp_path / "program"))
    assert [office.program for office in find_all()] == [tmp_path / "program"]
    monkeypatch.setenv(VARIABLE, str(tmp_path / "elsewhere"))
    assert find() is None


def test_an_office_on_the_path_comes_first_and_once(tmp_path, monkeypatch):
    lay(tmp_path, {**PROGRAMS, **SEVEN, **python("3.11")})
    links = tmp_path / "bin"
    links.mkdir()
    (links / "soffice").symlink_to(tmp_path / "program" / "soffice")
    (links / "libreoffice").symlink_to(tmp_path / "program" / "soffice")
    monkeypatch.delenv(VARIABLE, raising=False)
    monkeypatch.setenv("PATH", str(links) + os.pathsep + os.environ["PATH"])
    programs = [office.program for office in find_all()]
    assert programs[0] == tmp_path / "program"
    assert len(programs) == len(set(programs))


def test_a_tool_that_does_not_start_is_told_in_words(tmp_path):
    office = look(lay(tmp_path, {**PROGRAMS, **SEVEN, **python("3.11")}) / "program")
    (tmp_path / "program" / "unopkg").write_text("#!/bin/sh\necho 'ERROR: the profile is locked.' >&2\nexit 1\n")
    with pytest.raises(SetupTrouble, match="the profile is locked; close LibreOffice and try again"):
        install.state(office)
    (tmp_path / "program" / "unopkg").unlink()
    with pytest.raises(SetupTrouble, match="did not run"):
        install.state(office)
