"""What is carried into a program that has no brinecalc of its own: files of the core, the licence, one packed file.

One idea: what goes in is the rooms of the core, which may need nothing else, and whatever their imports lead to; so a
new module is carried along the day a function needs it.
"""

from __future__ import annotations

import ast
import functools
import importlib.metadata
import io
import zipfile
from pathlib import Path

PACKAGE = Path(__file__).resolve().parents[1]
_MOMENT = (2020, 1, 1, 0, 0, 0)
_ROOMS = ("functions", "trade", "science")
_DOOR = "registry"


def core(beside: tuple[str, ...]) -> list[Path]:
    """The files of the pure-Python core: its rooms, the modules beside them, all that these import, and the tables."""
    rooms = [path for room in _ROOMS for path in sorted((PACKAGE / room).rglob("*.py"))]
    wanted = [*map(_module, rooms), _DOOR, *beside]
    found: dict[str, Path] = {}
    while wanted:
        module = wanted.pop()
        path = _file(module)
        if module in found or path is None:
            continue
        found[module] = path
        wanted += _imported(path, module)
    return sorted(found.values()) + sorted((PACKAGE / "tables").glob("*.csv"))


def place(path: Path) -> str:
    """Where a file of the library lies inside its package."""
    return path.relative_to(PACKAGE).as_posix()


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


@functools.cache
def _imported(path: Path, module: str) -> tuple[str, ...]:
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
    ways = [name.split(".") for name in names]
    return tuple(dict.fromkeys(".".join(parts[:length]) for parts in ways for length in range(len(parts) + 1)))


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
