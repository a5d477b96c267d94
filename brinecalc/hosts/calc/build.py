"""Builds the extension: generated texts, the type library, two components and the library's pure-Python core.

One idea: nothing in it is written twice; the texts come from the functions' records, the rest is files of the library
as they are. The same sources give the same bytes.
"""

from __future__ import annotations

from pathlib import Path

from brinecalc import files, registry
from brinecalc.hosts import carried
from brinecalc.hosts.calc import description, typelib
from brinecalc.version import VERSION

HERE = Path(__file__).resolve().parent
FILE_NAME = f"brinecalc-{VERSION}.oxt"
_INSIDE = ("hosts.calc.rename",)


def build(folder: Path) -> Path:
    """Writes the extension into a folder, in one step, and answers its path."""
    folder.mkdir(parents=True, exist_ok=True)
    target = folder / FILE_NAME
    files.write(target, carried.packed(contents()), overwrite=True)
    return target


def contents() -> dict[str, bytes]:
    """Every file of the extension by its path inside it."""
    specs = [registry.spec(name) for name in registry.names()]
    methods = description.methods(specs)
    written = {
        "META-INF/manifest.xml": description.manifest(),
        "description.xml": description.description(VERSION),
        "about.txt": description.about(specs),
        "brinecalc.components": description.components(),
        "CalcAddIns.xcu": description.add_ins(specs),
        "Jobs.xcu": description.jobs(),
        "functions.idl": typelib.idl(methods),
        "functions.txt": description.function_list(specs),
        "LICENSE": carried.licence(),
    }
    parts = {name: text.encode("utf-8") for name, text in written.items()}
    parts["functions.rdb"] = typelib.library(methods)
    for name in ("addin.py", "heal.py"):
        parts[name] = (HERE / name).read_bytes()
    for path in carried.core(_INSIDE):
        parts[f"pythonpath/brinecalc/{carried.place(path)}"] = path.read_bytes()
    return parts
