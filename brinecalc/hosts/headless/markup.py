"""Reading the XML inside a workbook without ever expanding anything.

One idea: workbooks need no document type, and every known attack by XML (entities that multiply, entities that fetch
files) starts with one. So a document type is refused on sight, and what remains is read by the parser of the standard
library, which also tells where in the bytes each element stands.
"""

from __future__ import annotations

import re
from typing import Any, Dict, List, Tuple
from xml.parsers import expat

from brinecalc.files import FileTrouble

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
SPREADSHEET = (
    MAIN,
    "http://purl.oclc.org/ooxml/spreadsheetml/main",
)
"""The namespace of workbooks, as usually written and in the strict variant."""

ATTRIBUTE = re.compile(rb"\s+([\w:.-]+)\s*=\s*(\"[^\"]*\"|'[^']*')")
"""An attribute in an opening tag: its name, and its value in quotation marks."""

_CODED = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]|_(?=x[0-9A-Fa-f]{4}_)")
_FORBIDDEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_SPECIAL = re.compile("[&<>\x00-\x08\x0b-\x1f\ud800-\udfff\ufffe\uffff]")

Element = Tuple[str, Dict[str, str], str]


def parser(part: str) -> Any:
    """A parser that refuses what no workbook needs; `part` names the part in messages."""
    made = expat.ParserCreate()
    made.buffer_text = True

    def no_doctype(*_: Any) -> None:
        raise FileTrouble(f"{part} declares a document type, which no workbook does; the file is not used")

    def encoding(version: str, name: Any, standalone: int) -> None:
        if name and name.lower().replace("_", "-") not in ("utf-8", "us-ascii", "ascii"):
            raise FileTrouble(f"{part} is written in {name}; save the workbook anew in a spreadsheet program")

    made.StartDoctypeDeclHandler = no_doctype
    made.XmlDeclHandler = encoding
    return made


def run(reader: Any, data: bytes, part: str) -> None:
    """Lets a parser read a whole part."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise FileTrouble(f"{part} is written in UTF-16; save the workbook anew in a spreadsheet program")
    try:
        reader.Parse(data, True)
    except expat.ExpatError as error:
        raise FileTrouble(f"{part} is damaged ({expat.ErrorString(error.code)}, line {error.lineno})") from error


def check(data: bytes, part: str) -> None:
    """Refuses a part that is not well formed."""
    run(parser(part), data, part)


def local(name: str) -> str:
    """An element's name without its prefix."""
    return name.rpartition(":")[2]


def elements(data: bytes, part: str, wanted: Tuple[str, ...]) -> List[Element]:
    """All elements of those local names in order: name, attributes, text directly inside."""
    found: List[Element] = []
    texts: List[List[str]] = []
    reader = parser(part)

    def start(name: str, attributes: Dict[str, str]) -> None:
        texts.append([])
        if local(name) in wanted:
            found.append((local(name), attributes, ""))
            places.append(len(found) - 1)
        else:
            places.append(-1)

    def end(name: str) -> None:
        place, text = places.pop(), "".join(texts.pop())
        if place >= 0:
            found[place] = (*found[place][:2], text)

    def characters(text: str) -> None:
        if texts:
            texts[-1].append(text)

    places: List[int] = []
    reader.StartElementHandler = start
    reader.EndElementHandler = end
    reader.CharacterDataHandler = characters
    run(reader, data, part)
    return found


def coded(text: str) -> str:
    """A cell's text with what XML cannot hold, and what looks like a code, in the code of workbooks: _x0007_."""
    return _CODED.sub(lambda match: f"_x{ord(match.group()):04X}_", text)


def escape(text: str) -> str:
    """Text as it may stand in an element; what XML cannot hold at all is left out."""
    if not _SPECIAL.search(text):
        return text
    clean = _FORBIDDEN.sub("", text)
    return clean.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace("\r", "&#13;")
