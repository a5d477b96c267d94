"""What the headless engine needs to know of our worksheet functions, and nothing more.

One idea: the engine asks this small face, so that it can be tested with a handful of toy functions, and the
registry can be loaded as late as the first formula that calls one of ours.
"""

from __future__ import annotations

from typing import Any, Callable, List, Optional, Protocol


class Library(Protocol):
    """A set of worksheet functions."""

    def names(self) -> List[str]:
        """Their names, each beginning with BRINE_."""

    def function(self, name: str) -> Callable[..., Any]:
        """The call for hosts: cells in, a cell or rows of cells out, never an exception."""

    def why(self, name: str, *cells: Any) -> str:
        """Why a call fails, in one sentence; ``ok`` when it does not."""

    def unknown(self, name: str) -> Optional[str]:
        """None for a function that exists, otherwise a sentence that names the nearest."""

    def by_cell(self, name: str, index: int) -> bool:
        """Whether a range in that place makes the answer a table of the same shape."""

    def gives_table(self, name: str) -> bool:
        """Whether the answer is always a table."""


class RegistryLibrary:
    """The worksheet functions of the registry, which is imported on first use."""

    def names(self) -> List[str]:
        """Their names, in the order of the families."""
        from brinecalc import registry

        return registry.names()

    def function(self, name: str) -> Callable[..., Any]:
        """The guarded call of the registry."""
        from brinecalc import registry

        return registry.function(name)

    def why(self, name: str, *cells: Any) -> str:
        """The registry's sentence; for ranges that of the first cell that fails."""
        from brinecalc import registry

        answer = registry.why(name, *cells)
        while isinstance(answer, list):  # ranges are answered cell by cell: the first that fails speaks for all
            flat = [item for row in answer for item in (row if isinstance(row, list) else [row])]
            worst = next((item for item in flat if not str(item).startswith("ok")), None)
            answer = worst or next((item for item in flat if item != "ok"), "ok")  # or else a remark
        return str(answer)

    def unknown(self, name: str) -> Optional[str]:
        """None for a known function, otherwise the registry's complaint."""
        from brinecalc import registry
        from brinecalc.errors import BrineError

        try:
            registry.entry(name)
        except BrineError as error:
            return f"{name} {error.rule}" + (f"; {error.advice}" if error.advice else "")
        return None

    def by_cell(self, name: str, index: int) -> bool:
        """Whether the registry goes through a range in that place cell by cell."""
        from brinecalc import registry

        return registry.entry(name).broadcasts(index)

    def gives_table(self, name: str) -> bool:
        """Whether the function's record says that it gives a table."""
        from brinecalc import registry

        return registry.spec(name).result == "table"


REGISTRY = RegistryLibrary()
"""The one that is taken where none is given."""
