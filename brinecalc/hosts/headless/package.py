"""The zip file that a workbook is: read within limits, and written again with every untouched part as it was.

One idea: a part that is not changed is never unpacked. Its packed bytes are carried over as they stand, so it
cannot come out different, and whatever a hostile file hides in it stays asleep.
"""

from __future__ import annotations

import io
import struct
import zipfile
import zlib
from pathlib import PurePath
from typing import Dict, List, Mapping, Optional

from brinecalc.files import FileTrouble

MOST_PARTS = 20_000
LARGEST_PART = 200 * 1024 * 1024
LARGEST_TOTAL = 400 * 1024 * 1024
_STEEPEST = 200  # unpacked size over packed size, beyond which a large part is a trap
_LARGE = 16 * 1024 * 1024

WORKBOOKS = (".xlsx", ".xlsm", ".xltx", ".xltm")
"""File names that are workbooks of the kind read here."""

_OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_LOCAL = struct.Struct("<4s5H3L2H")
_CENTRAL = struct.Struct("<4s6H3L5H2L")
_END = struct.Struct("<4s4H2LH")


class Package:
    """The parts of a workbook by name. Parts are unpacked when asked for."""

    def __init__(self, content: bytes, name: str) -> None:
        self.content = content
        self.name = name
        _refuse_other_kinds(content, name)
        try:
            self._zip = zipfile.ZipFile(io.BytesIO(content))
        except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError) as error:
            raise FileTrouble(f"{name} is damaged or cut short: its list of parts cannot be found") from error
        self.parts: Dict[str, zipfile.ZipInfo] = {}
        self._unpacked = 0
        self._take_stock()

    def _take_stock(self) -> None:
        entries = self._zip.infolist()
        if len(entries) > MOST_PARTS:
            raise FileTrouble(f"{self.name} has {len(entries)} parts; no workbook has that many")
        for entry in entries:
            if entry.filename in self.parts:
                raise FileTrouble(f"{self.name} holds the part {entry.filename} twice")
            if entry.flag_bits & 0x1:
                raise FileTrouble(f"{self.name} is locked with a password; remove it in a spreadsheet program first")
            self.parts[entry.filename] = entry
        if sum(entry.compress_size for entry in entries) > len(self.content):
            raise FileTrouble(f"{self.name} is damaged or a trap: its parts overlap")
        if "[Content_Types].xml" in self.parts:
            return
        if "mimetype" in self.parts and b"opendocument" in self.read("mimetype"):
            raise FileTrouble(
                f"{self.name} is an OpenDocument file; open it in LibreOffice, save it as .xlsx, and compute that"
            )
        raise FileTrouble(f"{self.name} is a zip file, but not a workbook")

    def has(self, part: str) -> bool:
        """Whether there is a part of that name."""
        return part in self.parts

    def read(self, part: str) -> bytes:
        """A part, unpacked."""
        entry = self.parts.get(part)
        if entry is None:
            raise FileTrouble(f"{self.name} is damaged: its part {part} is missing")
        if entry.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            raise FileTrouble(f"{self.name} is packed in a way that workbooks never are")
        size = entry.file_size
        self._unpacked += size
        steep = size > _LARGE and size > _STEEPEST * max(1, entry.compress_size)
        if steep or size > LARGEST_PART or self._unpacked > LARGEST_TOTAL:
            raise FileTrouble(f"{self.name} is not used: its part {part} unpacks to {size / 1e6:.0f} MB")
        try:
            return self._zip.read(entry)
        except (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, NotImplementedError) as error:
            raise FileTrouble(f"{self.name} is damaged: its part {part} cannot be unpacked") from error

    def rewritten(self, changed: Mapping[str, Optional[bytes]]) -> bytes:
        """The package with some parts changed; all others keep their very bytes, packed as they were.

        None takes a part out; parts that are not there yet follow at the end.
        """
        out = bytearray()
        directory = bytearray()
        kept = [entry for entry in self.parts.values() if changed.get(entry.filename, b"") is not None]
        entries = kept + [self._fresh(part) for part in changed if part not in self.parts and changed[part] is not None]
        for entry in entries:
            data = changed.get(entry.filename)
            if data is not None:
                packed = memoryview(_pack(data, entry.compress_type))
                sizes = (zlib.crc32(data), len(packed), len(data))
            else:
                packed = self._packed(entry)
                sizes = (entry.CRC, entry.compress_size, entry.file_size)
            at = len(out)
            out += _header(entry, sizes)
            out += packed
            directory += _directory_entry(entry, sizes, at)
        comment = self._zip.comment
        count = len(entries)
        end = _END.pack(b"PK\x05\x06", 0, 0, count, count, len(directory), len(out), len(comment))
        return bytes(out + directory + end + comment)

    def _fresh(self, part: str) -> zipfile.ZipInfo:
        """The entry of a part that is added, with the clock of the first part."""
        first = next(iter(self.parts.values()))
        entry = zipfile.ZipInfo(part, first.date_time)
        entry.compress_type = zipfile.ZIP_DEFLATED
        entry.create_system = first.create_system
        entry.external_attr = first.external_attr
        return entry

    def _packed(self, entry: zipfile.ZipInfo) -> memoryview:
        start = entry.header_offset
        head = self.content[start : start + _LOCAL.size]
        if len(head) < _LOCAL.size or head[:4] != b"PK\x03\x04":
            raise FileTrouble(f"{self.name} is damaged: its part {entry.filename} has no header")
        fields = _LOCAL.unpack(head)
        begin = start + _LOCAL.size + fields[9] + fields[10]
        packed = memoryview(self.content)[begin : begin + entry.compress_size]
        if len(packed) != entry.compress_size:
            raise FileTrouble(f"{self.name} is cut short: its part {entry.filename} is not all there")
        return packed


def _refuse_other_kinds(content: bytes, name: str) -> None:
    """Says what a file is instead of a workbook, and what to do about it."""
    ending = PurePath(name).suffix.lower()
    if content.startswith(_OLE):
        if "EncryptedPackage".encode("utf-16-le") in content:
            raise FileTrouble(f"{name} is locked with a password; remove it in a spreadsheet program first")
        raise FileTrouble(f"{name} is in the old .xls format; open it in a spreadsheet program and save it as .xlsx")
    if not content:
        raise FileTrouble(f"{name} is empty")
    if not content.startswith(b"PK\x03\x04"):
        kind = "a text file" if b"\0" not in content[:4096] else "no workbook"
        if content.startswith(b"%PDF"):
            kind = "a PDF file"
        raise FileTrouble(f"{name} is {kind}, whatever its name says; give an .xlsx or .xlsm workbook")
    if ending == ".xlsb":
        raise FileTrouble(f"{name} is a binary workbook; open it in Excel and save it as .xlsx or .xlsm")
    if ending in (".ods", ".fods", ".ots"):
        raise FileTrouble(f"{name} is an OpenDocument file; open it in LibreOffice, save it as .xlsx, and compute that")
    if ending not in WORKBOOKS:
        raise FileTrouble(f"{name} has an ending other than {', '.join(WORKBOOKS)}; rename it if it is a workbook")


def _pack(data: bytes, kind: int) -> bytes:
    if kind == zipfile.ZIP_STORED:
        return data
    packer = zlib.compressobj(6, zlib.DEFLATED, -15)
    return packer.compress(data) + packer.flush()


def _stamp(entry: zipfile.ZipInfo) -> List[int]:
    year, month, day, hour, minute, second = entry.date_time
    return [hour << 11 | minute << 5 | second // 2, max(0, year - 1980) << 9 | month << 5 | day]


def _name(entry: zipfile.ZipInfo) -> bytes:
    """The name as the file has it."""
    return entry.orig_filename.encode("utf-8" if entry.flag_bits & 0x800 else "cp437")


def _header(entry: zipfile.ZipInfo, sizes: "tuple[int, int, int]") -> bytes:
    flags = entry.flag_bits & ~0x8  # the sizes stand here, not after the data
    name = _name(entry)
    stamp = _stamp(entry)
    return (
        _LOCAL.pack(b"PK\x03\x04", entry.extract_version, flags, entry.compress_type, *stamp, *sizes, len(name), 0)
        + name
    )


def _directory_entry(entry: zipfile.ZipInfo, sizes: "tuple[int, int, int]", at: int) -> bytes:
    name = _name(entry)
    fields = _CENTRAL.pack(
        b"PK\x01\x02",
        entry.create_version | entry.create_system << 8,
        entry.extract_version,
        entry.flag_bits & ~0x8,
        entry.compress_type,
        *_stamp(entry),
        *sizes,
        len(name),
        0,
        len(entry.comment),
        0,
        entry.internal_attr,
        entry.external_attr,
        at,
    )
    return fields + name + entry.comment
