"""Excel through xlwings: one module of functions made from the registry, for classic xlwings and xlwings Lite.

One idea: nothing is declared here. Each function's name, arguments, help and category come from its record, and
the function itself only hands its cells to the registry. Importing this module makes all of them, so classic
xlwings can import it ("UDF modules": ``brinecalc.hosts.excel``) and the main.py of xlwings Lite needs one line:
``from brinecalc.hosts.excel import *``.
"""

from __future__ import annotations

from brinecalc import registry
from brinecalc.hosts.excel.udfs import make

__all__ = sorted(registry.names())

globals().update({name: make(name) for name in registry.names()})
