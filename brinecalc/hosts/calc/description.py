"""The texts inside the extension that tell LibreOffice what it holds, all derived from the registry's records.

One idea: a worksheet function is one method of the service BRINE. Its programmatic name is ``BRINE.SALT``, which is
what OpenDocument files hold; what people type and read, and what Excel files hold, is the display and compatibility
name ``BRINE_SALT``.
"""

from __future__ import annotations

from typing import Sequence
from xml.sax.saxutils import escape, quoteattr

from brinecalc.describe import FunctionSpec
from brinecalc.hosts import texts
from brinecalc.hosts.calc import typelib

IDENTIFIER = "brinecalc.calc"
SERVICE = "BRINE"
JOB = "brinecalc.calc.Heal"
SPREADSHEET = "com.sun.star.sheet.SpreadsheetDocument"
EVENTS = ("OnLoadFinished", "OnViewCreated", "OnSaveDone", "OnSaveAsDone")

_HEADER = '<?xml version="1.0" encoding="UTF-8"?>\n'
_CONFIGURATION = (
    _HEADER + '<oor:component-data xmlns:oor="http://openoffice.org/2001/registry"'
    ' xmlns:xs="http://www.w3.org/2001/XMLSchema" oor:package="org.openoffice.Office" oor:name={name}>\n'
    "{body}\n</oor:component-data>\n"
)


def method_name(spec: FunctionSpec) -> str:
    """The function's name after BRINE_."""
    return spec.name[len("BRINE_") :]


def methods(specs: Sequence[FunctionSpec]) -> Sequence[typelib.Method]:
    """The methods of the service. Parameters are numbered, since Calc lists them in the order of their names."""
    made = []
    for spec in specs:
        kinds = [typelib.CELL] * len(spec.arguments)
        if spec.variadic:
            kinds[-1] = typelib.CELLS
        answer = typelib.ROWS if spec.result == "table" else typelib.CELL
        parameters = tuple((_parameter(i), kind) for i, kind in enumerate(kinds))
        made.append(typelib.Method(method_name(spec), answer, parameters))
    return made


def function_list(specs: Sequence[FunctionSpec]) -> str:
    """One method a line; "rest" marks one that takes any number of cells, "table" one that always gives rows."""
    return "".join(
        f"{method_name(spec)}{' rest' if spec.variadic else ''}{' table' if spec.result == 'table' else ''}\n"
        for spec in specs
    )


def add_ins(specs: Sequence[FunctionSpec]) -> str:
    """CalcAddIns.xcu: names, and the texts of the function wizard."""
    functions = "\n".join(_function(spec) for spec in specs)
    body = (
        f'<node oor:name="AddInInfo"><node oor:name="{SERVICE}" oor:op="replace"><node oor:name="AddInFunctions">\n'
        f"{functions}\n</node></node></node>"
    )
    return _CONFIGURATION.format(name='"CalcAddIns"', body=body)


def jobs() -> str:
    """Jobs.xcu: the events at which names are repaired, in workbooks only."""
    listed = f'<node oor:name="JobList"><node oor:name="{JOB}" oor:op="replace"/></node>'
    events = "\n".join(f'<node oor:name="{event}" oor:op="fuse">{listed}</node>' for event in EVENTS)
    body = (
        f'<node oor:name="Jobs"><node oor:name="{JOB}" oor:op="replace">'
        f'<prop oor:name="Service"><value>{JOB}</value></prop>'
        f'<prop oor:name="Context"><value>{SPREADSHEET}</value></prop></node></node>\n'
        f'<node oor:name="Events">\n{events}\n</node>'
    )
    return _CONFIGURATION.format(name='"Jobs"', body=body)


def components() -> str:
    """The list of the two Python components."""
    rows = "\n".join(
        f'<component loader="com.sun.star.loader.Python" uri="{file}">'
        f'<implementation name="{name}"><service name="{service}"/></implementation></component>'
        for file, name, service in (("addin.py", SERVICE, SERVICE), ("heal.py", JOB, "com.sun.star.task.Job"))
    )
    return f'{_HEADER}<components xmlns="http://openoffice.org/2010/uno-components">\n{rows}\n</components>\n'


def manifest() -> str:
    """The list of the parts that LibreOffice registers."""
    entries = "\n".join(
        f'<manifest:file-entry manifest:full-path="{path}" manifest:media-type="application/vnd.sun.star.{kind}"/>'
        for path, kind in (
            ("functions.rdb", "uno-typelibrary;type=RDB"),
            ("brinecalc.components", "uno-components"),
            ("CalcAddIns.xcu", "configuration-data"),
            ("Jobs.xcu", "configuration-data"),
        )
    )
    return (
        f'{_HEADER}<manifest:manifest xmlns:manifest="http://openoffice.org/2001/manifest">\n{entries}\n'
        "</manifest:manifest>\n"
    )


def description(version: str) -> str:
    """description.xml: what the extension manager shows."""
    return (
        f'{_HEADER}<description xmlns="http://openoffice.org/extensions/description/2006"'
        ' xmlns:lo="http://libreoffice.org/extensions/description/2011">\n'
        f'<identifier value="{IDENTIFIER}"/>\n<version value={quoteattr(version)}/>\n'
        '<display-name><name lang="en">brinecalc: brine formulation functions</name></display-name>\n'
        '<extension-description><src lang="en" xmlns:xlink="http://www.w3.org/1999/xlink" xlink:href="about.txt"/>'
        "</extension-description>\n"
        '<dependencies><lo:LibreOffice-minimal-version value="7.4" lo:name="LibreOffice 7.4"/></dependencies>\n'
        "</description>\n"
    )


def about(specs: Sequence[FunctionSpec]) -> str:
    """A few words for the extension manager."""
    return (
        f"{len(specs)} worksheet functions for formulating brines: {specs[0].name} to {specs[-1].name}.\n"
        "They compute on this machine only and read no file. MIT licence, see the file LICENSE.\n"
    )


def _parameter(index: int) -> str:
    return f"a{index + 1:02d}"


def _function(spec: FunctionSpec) -> str:
    name = _english("DisplayName", spec.name) + _english("CompatibilityName", spec.name)
    parameters = "".join(
        f'<node oor:name="{_parameter(index)}" oor:op="replace">'
        + _english("DisplayName", texts.argument_name(argument))
        + _english("Description", texts.argument_help(argument))
        + "</node>"
        for index, argument in enumerate(spec.arguments)
    )
    return (
        f'<node oor:name="{method_name(spec)}" oor:op="replace">{name}'
        + _english("Description", texts.function_help(spec))
        + '<prop oor:name="Category"><value>Add-In</value></prop>'
        + f'<node oor:name="Parameters">{parameters}</node></node>'
    )


def _english(name: str, text: str) -> str:
    """A property with one English text. The compatibility name works only with a full language tag."""
    return f'<prop oor:name="{name}"><value xml:lang="en-US">{escape(text)}</value></prop>'
