"""Our workbooks, each built once for all tests and all processes that run them.

The file that keeps one is named after every byte of the library, so none outlives a change.
"""

from __future__ import annotations

import functools
import hashlib
import os
import tempfile
from pathlib import Path

import brinecalc
from brinecalc import files
from brinecalc.workbook.book import Options
from brinecalc.workbook.create import create

ROOT = Path(brinecalc.__file__).parent


@functools.lru_cache(None)
def _library() -> str:
    """A name for the library as it is now."""
    mark = hashlib.sha256()
    for path in sorted(path for path in ROOT.rglob("*") if path.suffix in (".py", ".csv")):
        mark.update(str(path.relative_to(ROOT)).encode() + b"\0" + path.read_bytes())
    return mark.hexdigest()[:20]


@functools.lru_cache(None)
def built(options: Options, program: str = "excel") -> bytes:
    """What `create` makes of these options."""
    kept = Path(tempfile.gettempdir()) / f"brinecalc-built-{os.getuid() if hasattr(os, 'getuid') else ''}-{_library()}"
    kept.mkdir(exist_ok=True)
    place = kept / f"{'-'.join(map(str, options))}-{program}.xlsx"
    if not place.exists():
        files.write(place, create(options, program).content, overwrite=True)
    return place.read_bytes()
