"""Quick tests in every Python here with the lowest and the newest packages: ``python tests/benchmarks/pythons.py``.

Pythons are those on the path and those of pyenv, from 3.11 up; others can be named on the command line. Each gets an
environment of its own twice, for which pip must reach a registry.
"""

from __future__ import annotations

import glob
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import tomllib

ROOT = Path(__file__).parents[2]
QUICK = (
    "tests/test_cli.py tests/test_edge.py tests/test_registry.py tests/test_files.py tests/test_fidelity.py "
    "tests/test_respell.py tests/workbook/test_edit.py tests/functions tests/hosts/test_headless_fidelity.py "
    "tests/hosts/test_headless_values.py"
).split()
LOWEST_FROM = (3, 11)
"""The lowest packages are tried in the lowest Python: older ones have no wheels for newer Pythons."""


def main(named: "list[str]") -> None:
    """Prints the last line of the tests for each Python and set of packages."""
    for python in named or found():
        version = told(python)
        for lowest in (True, False) if version == LOWEST_FROM else (False,):
            name = "lowest" if lowest else "newest"
            print(f"{version[0]}.{version[1]:<3} {name}: {tried(python, lowest)}", flush=True)


def found() -> "list[str]":
    """One Python of each version from 3.11 up."""
    places = [shutil.which(f"python3.{minor}") for minor in range(11, 30)]
    places += sorted(glob.glob(os.path.expanduser("~/.pyenv/versions/3.*/bin/python")))
    versions = {told(place): place for place in places if place}
    return [place for version, place in sorted(versions.items()) if version >= LOWEST_FROM]


def told(python: str) -> "tuple[int, int]":
    """The version of a Python; nothing is a version of one that does not start."""
    command = [python, "-c", "import sys; print(*sys.version_info[:2])"]
    words = subprocess.run(command, capture_output=True, text=True, check=False).stdout.split()
    return (int(words[0]), int(words[1])) if len(words) == 2 else (0, 0)


def packages(lowest: bool) -> "list[str]":
    """What the library and its quick tests need, as ranges or at the lower end of each."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extra = project["optional-dependencies"]["test"]
    lines = [line.partition(";")[0].strip() for line in (*project["dependencies"], *extra)]
    if not lowest:
        return lines
    return [re.sub(r">=([\d.]+).*", r"==\1", line) for line in lines]


def tried(python: str, lowest: bool) -> str:
    """The last line of what pip or the tests say."""
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([python, "-m", "venv", folder], check=True)
        inside = str(Path(folder, "Scripts/python.exe" if os.name == "nt" else "bin/python"))
        quiet = [inside, "-m", "pip", "install", "-q", "--disable-pip-version-check"]
        for command in (quiet + packages(lowest), [inside, "-m", "pytest", "-p", "no:cacheprovider", *QUICK]):
            run = subprocess.run(
                command,
                cwd=ROOT,
                env={**os.environ, "PYTHONPATH": str(ROOT)},
                capture_output=True,
                text=True,
                check=False,
            )
            last = ((run.stdout + run.stderr).strip().splitlines() or ["nothing"])[-1]
            if run.returncode:
                break
        return last


if __name__ == "__main__":
    main(sys.argv[1:])
