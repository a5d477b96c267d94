"""Excel through xlwings: one module of functions made from the registry, for classic xlwings and xlwings Lite.

One idea: nothing is declared here. Each function's name, arguments, help and category come from its record, and
the function itself only hands its cells to the registry. Classic xlwings imports this module ("UDF modules":
``brinecalc.hosts.excel``) and the main.py of xlwings Lite needs one line: ``from brinecalc.hosts.excel import *``.
A function is made when it is first asked for, so that setting Excel up does not load xlwings.
"""

from __future__ import annotations

from typing import Any

from brinecalc import registry


def __getattr__(name: str) -> Any:
    if name == "__all__":
        return sorted(registry.names())
    if not name.startswith("BRINE_") or name not in registry.names():
        raise AttributeError(f"module {__name__} has no attribute {name}")
    from brinecalc.hosts.excel import udfs

    made = globals()[name] = udfs.make(name)
    return made


def __dir__() -> list[str]:
    return [*globals(), *registry.names()]
