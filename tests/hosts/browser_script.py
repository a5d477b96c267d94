"""Run inside Pyodide: answers calls of our functions the way xlwings Lite makes them.

GIVEN is a JSON list of [name, cells]; the value of the last line is the JSON of the answers and of what was imported.
As read in xlwings' source: an argument that is nothing (a blank cell, an empty place) becomes the argument's default
or None, all others go through the converter, and a table of one row arrives as that row.
"""

from __future__ import annotations

import functools
import inspect
import json
import sys

import brinecalc.hosts.excel as excel
from brinecalc.hosts.excel.cells import AsGiven


@functools.cache
def defaults_of(name):
    return [parameter.default for parameter in inspect.signature(getattr(excel, name)).parameters.values()]


def call(name, cells):
    function, defaults = getattr(excel, name), defaults_of(name)
    given = []
    for place, cell in enumerate(cells):
        default = defaults[min(place, len(defaults) - 1)] if defaults else inspect.Parameter.empty
        nothing = None if default is inspect.Parameter.empty else default
        given.append(nothing if cell is None else AsGiven.read_value(cell, {}))
    return function(*given)


def main() -> str:
    answers = [call(name, cells) for name, cells in json.loads(GIVEN)]  # noqa: F821
    heavy = [name for name in ("pint", "openpyxl", "lxml", "formualizer", "click", "numpy") if name in sys.modules]
    return json.dumps({"answers": answers, "python": sys.version.split()[0], "platform": sys.platform, "heavy": heavy})


main()
