"""xlwings loaded on any machine as if on Windows, with an Excel made of plain objects behind it.

One idea: xlwings' own code (reading decorators, writing the VBA module, converting cells, answering calls) is
what a person on Windows runs, so the tests run exactly that; only the operating system underneath is pretended.
It patches module state: run it in a process of its own.
"""

from __future__ import annotations

import builtins
import ctypes
import datetime
import pathlib
import sys
import types
from typing import Any
from unittest import mock


class ComError(Exception):
    """What pywin32 raises."""


class Iid(str):
    """An interface's identity."""


RANGE = Iid("{00020846-0000-0000-C000-000000000046}")
MISSING = -2147352572
"""How Excel hands over an argument that was left out."""


def module(name: str, **content: Any) -> types.ModuleType:
    made = types.ModuleType(name)
    made.__dict__.update(content)
    sys.modules[name] = made
    if "." in name:
        parent, child = name.rsplit(".", 1)
        setattr(sys.modules[parent], child, made)
    return made


class Variant:
    def __init__(self, kind: int, value: Any) -> None:
        self.varianttype = kind
        self.value = value


class Dispatch:
    """The base of COM objects."""


def pywin32() -> None:
    """The modules of pywin32, as far as xlwings touches them on import and when called."""
    anything = mock.MagicMock
    module("pywintypes", com_error=ComError, error=ComError, IID=Iid, TimeType=datetime.datetime)
    module(
        "pythoncom",
        com_error=ComError,
        ole_error=ComError,
        __file__="x",
        CoInitialize=lambda *a: None,
        IID_IDispatch=Iid("{00020400}"),
        VT_ERROR=10,
        TypeIIDs={Iid("{00020400}"): type("PyIDispatch", (), {})},
        Empty=object(),
        Missing=object(),
        ArgNotFound=object(),
        CoMarshalInterThreadInterfaceInStream=lambda i, o: o,
        CoGetInterfaceAndReleaseStream=lambda s, i: s,
    )
    for name in ("win32api", "win32con", "win32gui", "win32event"):
        module(name).__getattr__ = lambda attribute: anything()
    module("win32process", GetWindowThreadProcessId=lambda hwnd: (1, 1))  # asked for with every call

    class TimeZoneInfo:
        @staticmethod
        def utc() -> datetime.timezone:
            return datetime.timezone.utc

    module("win32timezone", TimeZoneInfo=TimeZoneInfo)
    module("win32com")
    module(
        "win32com.client",
        Dispatch=lambda x, **k: x,
        DispatchEx=anything(),
        CDispatch=Dispatch,
        DispatchBaseClass=type("DispatchBaseClass", (), {}),
        CoClassBaseClass=type("CoClassBaseClass", (), {}),
        VARIANT=Variant,
        gencache=anything(),
        dynamic=anything(),
    )
    module("win32com.client.dynamic")
    module("win32com.server")
    module("win32com.server.dispatcher")
    module("win32com.server.policy", EventHandlerPolicy=object, DefaultPolicy=object)
    module("win32com.server.util", wrap=lambda o, *a: o, unwrap=lambda o: o)
    module("win32com.universal")


def install() -> types.ModuleType:
    """xlwings, imported under Windows' name."""
    assert "xlwings" not in sys.modules
    pywin32()
    platform = sys.platform
    kept = {name: getattr(ctypes, name, None) for name in ("windll", "oledll", "PyDLL")}
    ctypes.windll = ctypes.oledll = mock.MagicMock()  # type: ignore[attr-defined]
    ctypes.PyDLL = lambda path: mock.MagicMock()  # type: ignore[assignment,misc]
    if not hasattr(builtins, "WindowsError"):
        builtins.WindowsError = OSError  # type: ignore[attr-defined]
    sys.platform = "win32"
    try:
        import xlwings
        import xlwings.com_server
        import xlwings.udfs
    finally:
        sys.platform = platform
        for name, value in kept.items():
            if value is None:
                delattr(ctypes, name)
            else:
                setattr(ctypes, name, value)
    return xlwings


class _TypeInfo:
    def GetTypeInfo(self) -> _TypeInfo:  # noqa: N802
        return self

    def GetTypeAttr(self) -> types.SimpleNamespace:  # noqa: N802
        return types.SimpleNamespace(iid=RANGE)


class Range:
    """A cell range as Excel hands it over: ``Range([[1, 2], [3, None]])``."""

    _oleobj_ = _TypeInfo()
    CLSID = "x"

    def __init__(self, data: list[list[Any]], address: str = "$A$1") -> None:
        self.data = [list(row) for row in data]
        self.Address = address
        self.Row = self.Column = 1
        self.Rows = types.SimpleNamespace(Count=len(data))
        self.Columns = types.SimpleNamespace(Count=len(data[0]))
        self.Count = len(data) * len(data[0])
        book = types.SimpleNamespace(Name="b.xlsm", Application=types.SimpleNamespace(Hwnd=1))
        self.Worksheet = types.SimpleNamespace(Name="S", Parent=book)

    @property
    def Value(self) -> Any:  # noqa: N802
        return self.data[0][0] if self.Count == 1 else tuple(tuple(row) for row in self.data)

    Value2 = Value

    def GetAddress(self, *a: Any, **k: Any) -> str:  # noqa: N802
        return self.Address

    def GetResize(self, *a: Any) -> Range:  # noqa: N802
        return self


class Components:
    """A workbook's VBA project; keeps the text of what is imported."""

    def __init__(self) -> None:
        self.imported: str | None = None

    def __call__(self, name: str) -> Any:
        raise ComError("no module")

    def Remove(self, component: Any) -> None:  # noqa: N802
        raise ComError("none")

    def Import(self, path: str) -> None:  # noqa: N802
        self.imported = pathlib.Path(path).read_text(encoding="utf-8")


class Sheets:
    Count = 0

    def __iter__(self) -> Any:
        return iter(())


class Book:
    """A workbook that classic xlwings imports functions into."""

    Name = "brine.xlsm"

    def __init__(self) -> None:
        self.options: list[tuple[str, dict[str, Any]]] = []
        self.components = Components()
        self.VBProject = types.SimpleNamespace(VBComponents=self.components)
        self.Application = types.SimpleNamespace(
            Version="16.0",
            MacroOptions=lambda name, **k: self.options.append((name, k)),
            Run=lambda *a: None,
        )
        self.Worksheets = self.Sheets = Sheets()
