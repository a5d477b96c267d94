"""Runs our wheel in Pyodide, the browser's Python, under Node and without a network.

The npm package ``pyodide`` is looked for in the folder that BRINECALC_TEST_CACHE names (by default
``~/.cache/brinecalc-tests``); ``npm install --prefix FOLDER pyodide`` puts it there. The first run keeps the memory of
the started Python in it, some 30 MB.
"""

from __future__ import annotations

import functools
import importlib.util
import json
import os
import shutil
import subprocess
import zipfile
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
CACHE = Path(os.environ.get("BRINECALC_TEST_CACHE") or Path.home() / ".cache" / "brinecalc-tests")
PYODIDE = CACHE / "node_modules" / "pyodide"


def missing() -> str:
    """Why the browser's Python cannot be tried here, or "" when it can."""
    if shutil.which("node") is None:
        return "Node is not installed"
    if not (PYODIDE / "pyodide.mjs").is_file():
        return f"there is no Pyodide: npm install --prefix {CACHE} pyodide"
    return ""


def pure_xlwings(folder: Path) -> Path:
    """The installed xlwings as the wheel that a browser gets: its Python files without compiled parts."""
    made = folder / "xlwings-pure.whl"
    found = importlib.util.find_spec("xlwings")
    home = Path(found.origin).parent
    with zipfile.ZipFile(made, "w") as wheel:
        for path in sorted(home.rglob("*.py")):
            wheel.write(path, Path("xlwings", path.relative_to(home)))
    return made


@functools.lru_cache(1)
def version() -> str:
    """The version of the Pyodide package."""
    text = json.loads((PYODIDE / "package.json").read_text(encoding="utf-8"))["version"]
    return str(text)


def run(wheels: list[Path], calls: list[Any], folder: Path) -> dict[str, Any]:
    """What the script answers to the calls inside Pyodide; `folder` takes the file with the calls."""
    given = folder / "given.json"
    given.write_text(json.dumps(calls), encoding="utf-8")
    command = ["node", HERE / "browser_probe.mjs", PYODIDE, HERE / "browser_script.py", given, *wheels]
    done = subprocess.run(list(map(str, command)), capture_output=True, text=True, check=False)
    if done.returncode:
        raise AssertionError(done.stderr[-3000:])
    answer: dict[str, Any] = json.loads(done.stdout[done.stdout.index('{"answers"') :])
    return answer
