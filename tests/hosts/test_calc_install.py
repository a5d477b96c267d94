"""Installing into a real LibreOffice (in a home of its own) and taking out again, without a trace."""

from __future__ import annotations

import zipfile

import pytest

from brinecalc.hosts import carried
from brinecalc.hosts.calc import build, install
from brinecalc.hosts.findings import SetupTrouble
from brinecalc.version import VERSION


@pytest.fixture
def home(office, tmp_path, monkeypatch):
    """A home folder and a shared layer that nobody else uses."""
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    monkeypatch.setenv("UNO_SHARED_PACKAGES_CACHE", (tmp_path / "shared").as_uri())
    monkeypatch.delenv("XDG_CONFIG_HOME", raising=False)
    (tmp_path / "home").mkdir()
    return tmp_path


def traces(folder):
    """Files and folders that bear our name or speak of us."""
    return [
        path
        for path in folder.rglob("*")
        if "brinecalc" in path.name or (path.is_file() and b"brinecalc" in path.read_bytes())
    ]


def older(extension, folder):
    """The extension as an earlier version of ours would have been."""
    path = folder / "older.oxt"
    with zipfile.ZipFile(extension) as new, zipfile.ZipFile(path, "w") as old:
        for name in new.namelist():
            data = new.read(name)
            if name == "description.xml":
                data = data.replace(f'value="{VERSION}"'.encode(), b'value="0.0.1"')
            old.writestr(name, data)
    return path


def test_install_twice_then_uninstall_leaves_nothing(office, home):
    assert install.state(office) == install.State(None)
    assert install.install(office).version is None
    assert install.state(office).is_current
    assert install.install(office).is_current, "a second time changes nothing"
    assert install.state(office).is_current
    assert traces(home)
    assert install.uninstall(office).is_current
    assert install.state(office) == install.State(None)
    assert traces(home) == []
    assert install.uninstall(office).version is None


def test_an_older_version_is_replaced(office, home):
    extension = older(build.build(home / "made"), home)
    install._run(office, "add", "--force", str(extension))
    found = install.state(office)
    assert (found.version, found.registered, found.is_current) == ("0.0.1", True, False)
    assert install.install(office).version == "0.0.1"
    assert install.state(office).is_current


def test_a_refused_extension_leaves_nothing_half_installed(office, home, monkeypatch):
    def broken(folder):
        path = folder / build.FILE_NAME
        path.write_bytes(carried.packed({"META-INF/manifest.xml": b"no manifest", "description.xml": b"<description"}))
        return path

    monkeypatch.setattr(install.build, "build", broken)
    with pytest.raises(SetupTrouble, match="did not take the extension"):
        install.install(office)
    assert install.state(office) == install.State(None)
    assert traces(home / "shared") == []
