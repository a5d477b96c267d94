"""Our workbooks, each built once for all tests and all processes that run them.

The file that keeps one is named after every byte of the library, so none outlives a change. Whoever asks for one that
somebody else is building waits for it.
"""

from __future__ import annotations

import functools
import hashlib
import os
import pickle
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Callable

import openpyxl

import brinecalc
from brinecalc import files
from brinecalc.workbook import build
from brinecalc.workbook.book import Options
from brinecalc.workbook.create import Created, completed

ROOT = Path(brinecalc.__file__).parent
FEW = 16
"""Batches of the workbooks that most tests look at: the example fits. All sizes are made by the same writers; the
published workbooks, which have the most batches, are computed cell by cell in their own tests."""


@functools.lru_cache(None)
def _kept() -> Path:
    """The folder for what the library makes as it is now."""
    mark = hashlib.sha256(f"{sys.version} {openpyxl.__version__}".encode())
    for path in sorted(path for path in ROOT.rglob("*") if path.suffix in (".py", ".csv")):
        mark.update(str(path.relative_to(ROOT)).encode() + b"\0" + path.read_bytes())
    user = os.getuid() if hasattr(os, "getuid") else ""
    folder = Path(tempfile.gettempdir()) / f"brinecalc-built-{user}-{mark.hexdigest()[:20]}"
    folder.mkdir(exist_ok=True)
    return folder


@contextmanager
def _alone(place: Path) -> Iterator[None]:
    """Nobody else makes this file meanwhile; where there are no locks, two may make the same one."""
    if files.fcntl is None:
        yield
        return
    with place.with_suffix(".lock").open("w") as handle:
        files.fcntl.flock(handle, files.fcntl.LOCK_EX)
        yield


def once(label: str, make: Callable[[], bytes]) -> bytes:
    """What `make` makes, made once as long as the library and the file that `make` stands in stay as they are."""
    source = hashlib.sha256(Path(make.__code__.co_filename).read_bytes()).hexdigest()[:8]
    place = _kept() / f"{source}-{label}"
    if not place.exists():
        with _alone(place):
            if not place.exists():
                files.write(place, make(), overwrite=True)
    return place.read_bytes()


_names: dict[bytes, str] = {}


def name(content: bytes, given: str) -> bytes:
    """The workbook, which is from now on known by that name."""
    _names[content] = given
    return content


def beside(content: bytes, what: str, make: Callable[[], bytes]) -> bytes:
    """What `make` makes of a workbook; of one that is kept it is kept too."""
    return once(f"{_names[content]}.{what}", make) if content in _names else make()


@functools.lru_cache(None)
def created(options: Options, program: str = "excel") -> Created:
    """A workbook built and computed: values are in it, and the account of them beside it."""
    label = f"{'-'.join(map(str, options))}-{program}"
    made = pickle.loads(once(f"{label}.created", lambda: pickle.dumps(completed(bare(options), program))))
    name(made.content, label)
    return made


def built(options: Options, program: str = "excel") -> bytes:
    """The same without the account."""
    return created(options, program).content


@functools.lru_cache(None)
def bare(options: Options) -> bytes:
    """What `build` makes of these options: no values are in it yet."""
    label = f"{'-'.join(map(str, options))}-bare"
    return name(once(f"{label}.xlsx", lambda: build.build(options)), label)
