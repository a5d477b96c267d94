"""The wheel for the browser's Python inside Excel: the functions, their tables and the xlwings adapter, nothing else.

One idea: an Excel in a browser fetches what its workbook needs each time it starts, so the wheel for it is small and
asks for xlwings alone. It is built from the installed library; the same library gives the same bytes.
"""

from __future__ import annotations

import base64
import functools
import hashlib

from brinecalc.hosts import carried
from brinecalc.version import VERSION

FILE_NAME = f"brinecalc-{VERSION}-py3-none-any.whl"
_INFO = f"brinecalc-{VERSION}.dist-info"
_INSIDE = ("edge", "hosts.excel", "hosts.excel.udfs")
_METADATA = f"""Metadata-Version: 2.1
Name: brinecalc
Version: {VERSION}
Summary: Brine formulation as worksheet functions, for the browser's Python inside Excel
License: MIT
Requires-Python: >=3.9
Requires-Dist: xlwings>=0.33
"""
_WHEEL = f"Wheel-Version: 1.0\nGenerator: brinecalc {VERSION}\nRoot-Is-Purelib: true\nTag: py3-none-any\n"


@functools.lru_cache(1)
def content() -> bytes:
    """The wheel as bytes."""
    files = {f"brinecalc/{carried.place(path)}": path.read_bytes() for path in carried.core(_INSIDE)}
    files["brinecalc/py.typed"] = b""
    files[f"{_INFO}/licenses/LICENSE"] = carried.licence().encode()
    files[f"{_INFO}/METADATA"] = _METADATA.encode()
    files[f"{_INFO}/WHEEL"] = _WHEEL.encode()
    record = f"{_INFO}/RECORD"
    lines = [f"{name},sha256={_digest(data)},{len(data)}" for name, data in sorted(files.items())]
    files[record] = "\n".join([*lines, f"{record},,", ""]).encode()
    return carried.packed(files)


def _digest(data: bytes) -> str:
    return base64.urlsafe_b64encode(hashlib.sha256(data).digest()).rstrip(b"=").decode()
