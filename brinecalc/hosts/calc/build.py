"""Builds the extension: generated texts, the type library, two components and the library's pure-Python core.

One idea: what goes in is the rooms of the core, which may need nothing else, and whatever their imports lead to; so a
new module is bundled the day a function needs it. The same sources give the same bytes.
"""

from __future__ import annotations

import ast
import importlib.metadata
import io
import zipfile
from collections.abc import Iterator
from pathlib import Path

import brinecalc
from brinecalc import files, registry
from brinecalc.hosts.calc import description, typelib
from brinecalc.version import VERSION

PACKAGE = Path(brinecalc.__file__).resolve().parent
HERE = Path(__file__).resolve().parent
FILE_NAME = f"brinecalc-{VERSION}.oxt"
_MOMENT = (2020, 1, 1, 0, 0, 0)
_ROOMS = ("functions", "trade", "science")
_INSIDE = ("hosts.calc.rename",)


def build(folder: Path) -> Path:
    """Writes the extension into a folder, in one step, and answers its path."""
    folder.mkdir(parents=True, exist_ok=True)
    target = folder / FILE_NAME
    files.write(target, packed(contents()), overwrite=True)
    return target


def packed(parts: dict[str, bytes]) -> bytes:
    """The files as a zip that depends on nothing but them."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as extension:
        for name in sorted(parts):
            item = zipfile.ZipInfo(name, _MOMENT)
            item.compress_type = zipfile.ZIP_DEFLATED
            item.create_system = 3
            item.external_attr = 0o644 << 16
            extension.writestr(item, parts[name])
    return out.getvalue()


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
        "LICENSE": licence(),
    }
    parts = {name: text.encode("utf-8") for name, text in written.items()}
    parts["functions.rdb"] = typelib.library(methods)
    for name in ("addin.py", "heal.py"):
        parts[name] = (HERE / name).read_bytes()
    for path in core():
        parts[f"pythonpath/brinecalc/{path.relative_to(PACKAGE).as_posix()}"] = path.read_bytes()
    return parts


def core(beside: tuple[str, ...] = _INSIDE) -> list[Path]:
    """The files of the pure-Python core: its rooms, the modules beside them, all that these import, and the tables."""
    rooms = [path for room in _ROOMS for path in sorted((PACKAGE / room).rglob("*.py"))]
    wanted = [*map(_module, rooms), *beside]
    found: dict[str, Path] = {}
    while wanted:
        module = wanted.pop()
        path = _file(module)
        if module in found or path is None:
            continue
        found[module] = path
        wanted += _imported(path, module)
    return sorted(found.values()) + sorted((PACKAGE / "tables").glob("*.csv"))


def licence() -> str:
    """The licence text, from beside the package or from its installed metadata."""
    beside = PACKAGE.parent / "LICENSE"
    if beside.exists():
        return beside.read_text(encoding="utf-8")
    installed = importlib.metadata.distribution("brinecalc").read_text("licenses/LICENSE")
    if installed is None:
        raise FileNotFoundError("the licence text was not installed with brinecalc; install brinecalc again")
    return installed


def _module(path: Path) -> str:
    """The name of a file's module, without the package."""
    parts = path.relative_to(PACKAGE).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def _file(module: str) -> Path | None:
    """The file of a module of this package, named without the package; "" is the package itself."""
    path = PACKAGE.joinpath(*module.split(".")) if module else PACKAGE
    for candidate in (path.with_suffix(".py"), path / "__init__.py"):
        if candidate.is_file():
            return candidate
    return None


def _imported(path: Path, module: str) -> Iterator[str]:
    """The modules of this package that a file imports, with the packages they lie in."""
    is_package = path.name == "__init__.py"
    tree = ast.parse(path.read_bytes())
    names: list[str] = [module]
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            ours = [alias.name for alias in node.names if alias.name.startswith("brinecalc.")]
            names += [name[len("brinecalc.") :] for name in ours]
        elif isinstance(node, ast.ImportFrom):
            base = _base(node, module, is_package)
            if base is not None:
                names += [base, *(f"{base}.{alias.name}".lstrip(".") for alias in node.names)]
    for name in names:
        parts = name.split(".")
        for length in range(len(parts) + 1):
            yield ".".join(parts[:length])


def _base(node: ast.ImportFrom, module: str, is_package: bool) -> str | None:
    """The module that a `from` import names, without the package, or None where it is another package's."""
    if node.level:
        parts = module.split(".")
        parts = parts[: len(parts) - node.level + (1 if is_package else 0)]
        return ".".join([*parts, node.module or ""]).strip(".")
    name = node.module or ""
    if name == "brinecalc":
        return ""
    return name[len("brinecalc.") :] if name.startswith("brinecalc.") else None
