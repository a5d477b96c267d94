"""When a workbook says that it was saved.

One idea: whoever writes a workbook dates it, and touches nothing else of what it says of itself.
"""

from __future__ import annotations

import datetime
import re

from brinecalc.hosts.headless.package import Package

PART = "docProps/core.xml"
_NAMESPACES = 'xmlns:dcterms="http://purl.org/dc/terms/" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"'


def dated(content: bytes, name: str, moment: datetime.datetime, created: bool = False) -> bytes:
    """The workbook as saved at that moment, and made then too if it is new; one that tells no dates stays as it is."""
    package = Package(content, name)
    if not package.has(PART):
        return content
    text = moment.astimezone(datetime.timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ").encode()
    core = _with(package.read(PART), b"modified", text)
    if created:
        core = _with(core, b"created", text)
    return package.rewritten({PART: core})


def _with(core: bytes, what: bytes, text: bytes) -> bytes:
    """The properties with one date set, or added where there is none."""
    pattern = re.compile(rb"(<(?:\w+:)?%s\b[^>]*?)(?:/>|>[^<]*</((?:\w+:)?)%s>)" % (what, what))
    if pattern.search(core):
        return pattern.sub(lambda found: _filled(found[1], text), core, count=1)
    element = b'<dcterms:%s %s xsi:type="dcterms:W3CDTF">%s</dcterms:%s>' % (what, _NAMESPACES.encode(), text, what)
    end = core.rfind(b"</")
    return core[:end] + element + core[end:] if end >= 0 else core


def _filled(tag: bytes, text: bytes) -> bytes:
    """An element from its opening tag (without the end) and its text."""
    name = tag[1:].split()[0]
    return tag + b">" + text + b"</" + name + b">"
