"""Small cuts in the XML of a part: an attribute set, an element put in at the end of another.

One idea: a tag is found in the bytes and changed there, so that everything round it stays as it was written.
"""

from __future__ import annotations

import re
from typing import Optional, Tuple

from brinecalc.hosts.headless.markup import ATTRIBUTE


def with_attribute(tag: bytes, name: str, value: str) -> bytes:
    """An opening tag with an attribute set to a value."""
    wanted = f' {name}="{value}"'.encode()
    for match in ATTRIBUTE.finditer(tag):
        if match[1] == name.encode():
            return tag[: match.start()] + wanted + tag[match.end() :]
    close = len(tag) - (2 if tag.endswith(b"/>") else 1)
    return tag[:close].rstrip() + wanted + tag[close:]


def attribute(tag: bytes, name: str) -> Optional[str]:
    """The value of an attribute in an opening tag, as written."""
    found = next((match[2][1:-1] for match in ATTRIBUTE.finditer(tag) if match[1] == name.encode()), None)
    return None if found is None else found.decode()


def element(data: bytes, name: str) -> Optional[Tuple[int, int, int, int, bytes]]:
    """The first element of that local name: its begin, the end of its tag, the begin of its closing tag, its end, its prefix.

    The prefix has its colon. For a tag that closes itself the last three places are one.
    """
    opening = re.compile(rb"<((?:\w+:)?)" + name.encode() + rb"(?=[\s/>])(?:[^>\"']|\"[^\"]*\"|'[^']*')*>")
    match = opening.search(data)
    if match is None:
        return None
    if match.group().endswith(b"/>"):
        return match.start(), match.end(), match.end(), match.end(), match[1]
    closing = b"</" + match[1] + name.encode()
    close = data.find(closing, match.end())
    if close < 0:
        return None
    return match.start(), match.end(), close, data.index(b">", close) + 1, match[1]


def append(data: bytes, name: str, content: bytes) -> Optional[bytes]:
    """The part with more content at the end of the first element of that name; None where there is none."""
    found = element(data, name)
    if found is None:
        return None
    start, open_end, close, _, prefix = found
    if close == open_end and data[open_end - 2 : open_end] == b"/>":
        tag = data[start : open_end - 2].rstrip() + b">"
        return data[:start] + tag + content + b"</" + prefix + name.encode() + b">" + data[open_end:]
    return data[:close] + content + data[close:]
