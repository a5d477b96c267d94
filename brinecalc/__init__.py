"""brinecalc: brine formulation as functions.

``import brinecalc`` gives every worksheet function under its Python name (``brinecalc.soak_hours``), with keyword
arguments, numbers in the base unit, texts such as ``"2.5 kg"`` or pint quantities; a name that Python keeps for itself
ends in an underscore (``brinecalc.yield_``). One idea: the same gate reads the arguments here and in a spreadsheet;
only the way of refusing differs, since Python gets an exception.
"""

from __future__ import annotations

from importlib import import_module
from importlib.machinery import PathFinder
from keyword import iskeyword
from typing import TYPE_CHECKING, Any, Callable, List

from brinecalc.errors import (
    BrineError,
    CellError,
    Impossible,
    OutOfRange,
    Refused,
    UnknownName,
    Unreadable,
)
from brinecalc.version import VERSION

__version__ = VERSION

if TYPE_CHECKING:

    def __getattr__(name: str) -> Callable[..., Any]: ...

else:

    def __getattr__(name: str) -> Callable[..., Any]:
        """The worksheet function of that Python name, looked up on first use."""
        if name.startswith("__") or name.upper() == name or PathFinder.find_spec(f"{__name__}.{name}", __path__):
            raise AttributeError(name)  # a module that is not imported yet: the import system goes on and finds it
        edge = import_module("brinecalc.edge")
        try:
            found = edge.function(name[:-1] if iskeyword(name[:-1]) else name)
        except UnknownName as error:
            raise AttributeError(error.sentence()) from None
        globals()[name] = found
        return found


def __dir__() -> List[str]:
    from brinecalc import registry

    names = [name[len("BRINE_") :].lower() for name in registry.names()]
    return sorted(__all__ + [f"{name}_" if iskeyword(name) else name for name in names])


__all__ = [
    "BrineError",
    "CellError",
    "Impossible",
    "OutOfRange",
    "Refused",
    "UnknownName",
    "Unreadable",
    "__version__",
]
