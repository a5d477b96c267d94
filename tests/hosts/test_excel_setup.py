"""Setting Excel up, on machines of every kind, none of which has to be this one."""

from __future__ import annotations

import io
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
import xlwings
from click.testing import CliRunner

from brinecalc import files, registry
from brinecalc.commands import doctor, setups
from brinecalc.hosts.excel import kit, machine, setup, vba, wheel
from brinecalc.hosts.excel.machine import Machine
from brinecalc.hosts.findings import ABSENT, OK, TROUBLE, UNUSED, SetupTrouble
from brinecalc.version import VERSION

XLWINGS = Path(xlwings.__file__).parent


@pytest.fixture
def windows(tmp_path):
    """A Windows machine with Excel, and brinecalc in a Python that can be called."""
    python = tmp_path / "venv" / "Scripts" / "pythonw.exe"
    library = tmp_path / "venv" / "xlwings64.dll"
    for path in (python, library):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.touch()
    return Machine(
        windows=True,
        mac=False,
        excel="16",
        home=tmp_path / "home",
        startup=tmp_path / "XLSTART",
        python=python,
        bridge=True,
        library=library,
        xlwings=XLWINGS,
    )


def everything(folder):
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def state(here):
    return [(finding.subject, finding.state) for finding in setup.look(here)]


def test_nothing_installed_a_set_up_machine_and_back_again(windows):
    assert state(windows) == [("Excel", UNUSED), ("xlwings add-in", OK)]
    said = setup.set_up(False, None, windows)
    assert "ready" in said
    assert "Alt+F11" in said
    assert everything(windows.folder) == set(kit.NAMES)
    assert machine.interpreter(windows.settings) == str(windows.python)
    assert state(windows) == [("Excel", OK), ("xlwings add-in", OK)]
    assert "removed" in setup.take_out(windows)
    assert not windows.home.exists() or everything(windows.home) == set()
    assert state(windows) == [("Excel", UNUSED), ("xlwings add-in", OK)]
    assert "nothing was changed" in setup.take_out(windows)


def test_it_may_be_run_again(windows):
    first = setup.set_up(False, None, windows)
    before = {name: (windows.home / name).read_bytes() for name in everything(windows.home)}
    assert setup.set_up(False, None, windows) == first
    assert {name: (windows.home / name).read_bytes() for name in everything(windows.home)} == before


def test_an_older_version_is_seen_and_replaced(windows):
    setup.set_up(False, None, windows)
    module = windows.folder / kit.MODULE
    module.write_text(module.read_text().replace(f"brinecalc {VERSION} ", "brinecalc 0.0.9 "), newline="")
    (finding, _) = setup.look(windows)
    assert finding.state == TROUBLE
    assert "0.0.9" in finding.says
    assert finding.do == "run brinecalc install excel"
    assert "in place of version 0.0.9" in setup.set_up(False, None, windows)
    assert vba.version(module.read_text()) == VERSION


def test_other_settings_of_xlwings_stay(windows):
    windows.settings.parent.mkdir(parents=True)
    windows.settings.write_text('"SHOW CONSOLE","False"\r\n"PYTHONPATH","C:\\work"\r\n', newline="")
    setup.set_up(False, None, windows)
    kept = windows.settings.read_text()
    assert kept.startswith('"SHOW CONSOLE","False"\n"PYTHONPATH","C:\\work"\n')
    assert machine.interpreter(windows.settings) == str(windows.python)
    setup.take_out(windows)
    assert windows.settings.read_text() == '"SHOW CONSOLE","False"\n"PYTHONPATH","C:\\work"\n'


def test_another_python_that_is_there_is_kept_and_named(windows, tmp_path):
    other = tmp_path / "other" / "pythonw.exe"
    other.parent.mkdir()
    other.touch()
    windows.settings.parent.mkdir(parents=True)
    windows.settings.write_text(f'"INTERPRETER_WIN","{other}"\n')
    assert str(other) in setup.set_up(False, None, windows)
    assert machine.interpreter(windows.settings) == str(other)
    assert setup.look(windows)[0].state == TROUBLE
    setup.take_out(windows)
    assert machine.interpreter(windows.settings) == str(other)


def test_a_python_that_is_gone_is_replaced(windows):
    windows.settings.parent.mkdir(parents=True)
    windows.settings.write_text('"interpreter_win","C:\\gone\\pythonw.exe"\n')
    setup.set_up(False, None, windows)
    assert machine.interpreter(windows.settings) == str(windows.python)
    assert "C:\\gone" not in windows.settings.read_text()


@pytest.mark.parametrize(
    ("lacks", "do"), [({"bridge": False}, "-m pip install pywin32"), ({"library": None}, "virtual environment")]
)
def test_a_python_that_excel_cannot_call_is_refused_before_anything_is_written(windows, lacks, do):
    here = windows._replace(**lacks)
    with pytest.raises(SetupTrouble, match=do):
        setup.set_up(False, None, here)
    assert not here.home.exists()
    assert setup.look(here)[0].state == TROUBLE
    assert do in setup.look(here)[0].do


def test_windows_without_excel_is_told_so(windows):
    assert state(windows._replace(excel="")) == [("Excel", ABSENT)]


def test_an_add_in_of_another_version_is_seen(windows):
    windows.startup.mkdir()
    windows.add_in.write_bytes((XLWINGS / "addin" / "xlwings.xlam").read_bytes())
    assert setup.look(windows)[1].state == OK
    windows.add_in.write_bytes(b"an older one")
    assert setup.look(windows)[1].state == TROUBLE
    assert setup.look(windows)[1].do == "run xlwings addin install"


@pytest.mark.parametrize("mac", [True, False])
def test_elsewhere_the_files_are_written_where_they_are_wanted(windows, mac, tmp_path):
    here = windows._replace(windows=False, mac=mac, excel="")
    assert state(here) == [("Excel", ABSENT)]
    with pytest.raises(SetupTrouble, match="--to FOLDER"):
        setup.set_up(False, None, here)
    assert "steps.txt" in setup.set_up(False, tmp_path / "out", here)
    assert everything(tmp_path / "out") == set(kit.NAMES)
    assert not here.home.exists()


def test_a_disk_that_fills_up_leaves_nothing_half_done(windows, monkeypatch):
    written = []

    def write(path, content, *, overwrite=False):
        if len(written) == 3:
            raise files.FileTrouble("the disk is full")
        written.append(path)
        Path(path).write_bytes(content)

    monkeypatch.setattr(files, "write", write)
    with pytest.raises(SetupTrouble, match="the disk is full"):
        setup.set_up(False, None, windows)
    assert everything(windows.home) == set()


def test_the_steps_name_the_files_that_are_there():
    made = kit.files()
    steps = made[kit.STEPS].decode("ascii")
    for name in (kit.MODULE, kit.BRIDGE, wheel.FILE_NAME, f"{kit.LITE}/main.py", f"{kit.LITE}/requirements.txt"):
        assert name in steps
    assert f"Sub {vba.HELP_MACRO}()" in made[kit.MODULE].decode("ascii")
    assert wheel.FILE_NAME in made[f"{kit.LITE}/requirements.txt"].decode("ascii")


def test_xlwings_own_module_is_passed_on_whole():
    passed = kit.files()[kit.BRIDGE].replace(b"\r\n", b"\n")
    assert passed == (XLWINGS / "xlwings.bas").read_bytes().replace(b"\r\n", b"\n")
    assert b"Function XLPy()" in passed


def test_the_browsers_wheel_computes_by_itself(tmp_path):
    with zipfile.ZipFile(io.BytesIO(wheel.content())) as file:
        assert file.testzip() is None
        file.extractall(tmp_path)
    code = "import brinecalc, sys; print(brinecalc.__file__, brinecalc.salt(1000, 0.05), 'click' in sys.modules)"
    run = subprocess.run([sys.executable, "-S", "-c", code], cwd=tmp_path, capture_output=True, text=True, check=True)
    place, value, click = run.stdout.split()
    assert Path(place).is_relative_to(tmp_path)
    assert (value, click) == ("50.0", "False")


def test_the_browsers_wheel_lists_what_it_holds():
    with zipfile.ZipFile(io.BytesIO(wheel.content())) as file:
        names = file.namelist()
        record = file.read(f"brinecalc-{VERSION}.dist-info/RECORD").decode().splitlines()
        assert "Requires-Dist: xlwings" in file.read(f"brinecalc-{VERSION}.dist-info/METADATA").decode()
    assert sorted(line.split(",")[0] for line in record) == sorted(names)
    first = wheel.content()
    wheel.content.cache_clear()
    assert wheel.content() == first


def test_the_line_for_xlwings_lite_brings_every_function():
    given = {}
    exec(kit.files()[f"{kit.LITE}/main.py"], given)
    assert {name for name in given if name.startswith("BRINE_")} == set(registry.names())
    assert given["BRINE_SALT"](1000.0, 0.05) == 50.0


def test_the_commands_know_excel(monkeypatch, windows, tmp_path):
    from brinecalc.commands import install, uninstall

    monkeypatch.setattr(machine, "look", lambda: windows)
    run = CliRunner()
    assert "excel" in setups.PROGRAMS
    assert run.invoke(install.command, ["excel", "--to", str(tmp_path / "out")]).exit_code == 0
    assert run.invoke(install.command, ["excel"]).exit_code == 0
    assert any(finding.subject == "Excel" and finding.state == OK for finding in doctor.look())
    assert run.invoke(uninstall.command, ["excel"]).exit_code == 0
    assert everything(windows.home) == set()


def test_looking_at_this_machine_tells_its_kind():
    here = machine.look()
    assert here.windows == (sys.platform == "win32")
    assert here.python.exists()
