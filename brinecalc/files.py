"""Writing files so that none is ever half written, and saying plainly why one cannot be used.

One idea: new content goes to a temporary file in the same folder, is pressed to the disk, and takes its name in
one step of the operating system. Whoever looks finds the old file or the new one, whole, whatever happens in between.
Who replaces a file holds it meanwhile, so that of two at once the second sees what the first has done.
"""

from __future__ import annotations

import errno
import os
import shutil
import stat
import sys
import tempfile
import time
from contextlib import contextmanager
from pathlib import Path
from typing import Iterator, Optional, Union

try:
    import fcntl
except ImportError:  # not on Windows
    fcntl = None  # type: ignore[assignment]

PathLike = Union[str, "os.PathLike[str]"]

PATIENCE = 20.0
"""Seconds that one command waits for another that is writing the same file."""

LARGEST = 256 * 1024 * 1024
"""Bytes of a file that is read whole."""


class FileTrouble(Exception):
    """A file that cannot be read or written; the message says why and what to do."""


def read(path: PathLike, largest: int = LARGEST) -> bytes:
    """The content of a file."""
    place = Path(path)
    try:
        if place.is_dir():
            raise FileTrouble(f"{place} is a folder, not a file")
        size = place.stat().st_size
        if not stat.S_ISREG(place.stat().st_mode):
            raise FileTrouble(f"{place} is not an ordinary file")
        if size > largest:
            raise FileTrouble(f"{place} has {size / 1e6:.0f} MB; files up to {largest / 1e6:.0f} MB are read")
        return place.read_bytes()
    except OSError as error:
        raise _trouble("read", place, error) from error


def write(path: PathLike, content: bytes, *, overwrite: bool = False) -> None:
    """Writes a whole file in one step; refuses a name that is taken unless told to overwrite it."""
    place = Path(path)
    target = Path(os.path.realpath(place))  # a link stays a link, the file behind it is replaced
    try:
        if place.is_dir():
            raise FileTrouble(f"{place} is a folder; give the name of a file")
        if not overwrite and place.exists():
            raise _exists(place)
        _check_open_elsewhere(target)
    except OSError as error:
        raise _trouble("write", place, error) from error
    scratch = _scratch(target, content)
    try:
        _settle(scratch, target, overwrite)
    except OSError as error:
        raise _trouble("write", place, error) from error
    finally:
        if os.path.exists(scratch):
            os.unlink(scratch)
    _press_folder(target.parent)


def text(content: bytes, name: str) -> str:
    """The text of a CSV file, in whichever way a spreadsheet program saved it."""
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return content.decode("utf-16", errors="replace")
    if b"\0" in content:
        raise FileTrouble(f"{name} is not a text file; save the list as CSV UTF-8")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("cp1252", errors="replace")


def may_be_folder(path: PathLike) -> None:
    """Refuses, before the work, a folder that could not be made after it: something else has the name, or one above."""
    place = Path(path)
    there = next((part for part in (place, *place.parents) if part.exists()), None)
    if there is not None and not there.is_dir():
        raise FileTrouble(f"cannot make the folder {place}: there is a file of that name")


def folder(path: PathLike) -> None:
    """Makes a folder, and those above it, where it is missing."""
    place = Path(path)
    try:
        place.mkdir(parents=True, exist_ok=True)
    except (FileExistsError, NotADirectoryError) as error:
        raise FileTrouble(f"cannot make the folder {place}: there is a file of that name") from error
    except OSError as error:
        raise _trouble("write", place, error) from error


def replace(path: PathLike, content: bytes, *, was: Optional[bytes] = None) -> Path:
    """Replaces a file and keeps what was there as a backup, whose path is returned.

    `was` is what the new content was made from; if the file holds something else by now, it is left alone.
    """
    place = Path(os.path.realpath(path))
    if not os.access(place, os.W_OK):
        raise FileTrouble(f"cannot write {path}: the file is read-only; give another name with -o")
    _check_open_elsewhere(place)
    with _held(place):
        backup = keep(place)
        if was is not None and backup.read_bytes() != was:
            backup.unlink()
            raise FileTrouble(f"{path} was changed by another program meanwhile; nothing was written, try again")
        try:
            write(place, content, overwrite=True)
        except BaseException:
            backup.unlink(missing_ok=True)  # the original is untouched, so there is nothing to go back to
            raise
    return backup


def keep(path: PathLike) -> Path:
    """Copies a file to the first free name of the form ``name.backup.ext``, ``name.backup 2.ext`` …"""
    place = Path(path)
    content = read(place)
    for name in _backup_names(place):
        try:
            write(name, content)
        except FileTrouble:
            if name.exists():
                continue
            raise
        shutil.copystat(place, name)
        return name
    raise FileTrouble(f"there are too many backups of {place}; remove some")


def beside(path: PathLike, word: str) -> Path:
    """A name next to a file: ``Plan.xlsx`` with "computed" is ``Plan computed.xlsx``."""
    place = Path(path)
    return place.with_name(f"{place.stem} {word}{place.suffix}")


def same(one: PathLike, other: PathLike) -> bool:
    """Whether two paths lead to one file."""
    try:
        return os.path.samefile(one, other)
    except OSError:
        return os.path.realpath(one) == os.path.realpath(other)


@contextmanager
def _held(place: Path) -> Iterator[None]:
    """Keeps other commands of ours from replacing the file. The hold ends with the process, however that ends."""
    handle = _hold(place) if fcntl is not None else None  # Windows replaces no file that is held open
    try:
        yield
    finally:
        if handle is not None:
            os.close(handle)


def _hold(place: Path) -> int:
    """An open handle that holds the file; the one waited for may have been replaced meanwhile."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        handle: Optional[int] = None
        try:
            handle = os.open(place, os.O_RDWR)
            if _locked(handle) and os.path.samestat(os.fstat(handle), os.stat(place)):
                return handle
            os.close(handle)
        except OSError as error:
            if handle is not None:
                os.close(handle)
            raise _trouble("write", place, error) from error
        time.sleep(0.01)
    raise FileTrouble(f"another program holds {place.name}; nothing was written, try again")


def _locked(handle: int) -> bool:
    """Whether the file is ours now; where the drive knows no locks, that is taken for granted."""
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    except OSError as error:
        if error.errno not in (errno.EINVAL, errno.ENOLCK, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS, errno.EBADF):
            raise
    return True


def _backup_names(place: Path) -> Iterator[Path]:
    yield place.with_name(f"{place.stem}.backup{place.suffix}")
    for number in range(2, 1000):
        yield place.with_name(f"{place.stem}.backup {number}{place.suffix}")


def _scratch(target: Path, content: bytes) -> str:
    """A temporary file beside the target that holds the content and is safely on the disk."""
    scratch: Optional[str] = None
    try:
        handle, scratch = tempfile.mkstemp(prefix=f".{target.name[:40]}.", suffix=".tmp", dir=target.parent)
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        _give_rights(scratch, target)
        return scratch
    except BaseException as error:
        if scratch is not None and os.path.exists(scratch):
            os.unlink(scratch)
        if isinstance(error, OSError):
            raise _trouble("write", target, error) from error
        raise


def _settle(scratch: str, target: Path, overwrite: bool) -> None:
    """Gives the temporary file its name. Without leave to overwrite, a file that came up meanwhile wins."""
    if not overwrite and hasattr(os, "link"):
        try:
            os.link(scratch, target)
            return
        except FileExistsError:
            raise _exists(target) from None
        except OSError as error:
            if error.errno not in (errno.EPERM, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS, errno.EACCES):
                raise
    os.replace(scratch, target)


def _give_rights(scratch: str, target: Path) -> None:
    """The rights of the file that is replaced, or those of any new file."""
    if os.name != "posix":
        return
    if target.exists():
        mode = stat.S_IMODE(target.stat().st_mode)
    else:
        mask = os.umask(0)
        os.umask(mask)
        mode = 0o666 & ~mask
    os.chmod(scratch, mode)


def _press_folder(folder: Path) -> None:
    """Makes the new name itself safe against a power cut, where the system can."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as error:  # some network drives cannot; the file is whole either way
        if error.errno not in (errno.EINVAL, errno.ENOTSUP, errno.EIO, errno.EBADF):
            raise
    finally:
        os.close(handle)


def _check_open_elsewhere(target: Path) -> None:
    """Spreadsheet programs put a small lock file beside a workbook that is open."""
    for lock in (f".~lock.{target.name}#", f"~${target.name}"):
        if (target.parent / lock).exists():
            raise FileTrouble(
                f"{target.name} seems to be open in a spreadsheet program (it left {lock}); "
                "close it there first, or give another name with -o"
            )


def _exists(place: Path) -> FileTrouble:
    return FileTrouble(f"{place} exists already; give another name with -o, or add --overwrite")


def _trouble(verb: str, place: Path, error: OSError) -> FileTrouble:
    """The system's complaint in words that say what to do."""
    code = error.errno
    if isinstance(error, FileNotFoundError):
        missing = place if verb == "read" else place.parent
        return FileTrouble(f"there is no {'file' if verb == 'read' else 'folder'} {missing}")
    if code == errno.ENOSPC or code == getattr(errno, "EDQUOT", None):
        return FileTrouble(f"cannot write {place}: the disk is full; make room and try again")
    if code == errno.EROFS:
        return FileTrouble(f"cannot write {place}: the drive is read-only; give another place with -o")
    if isinstance(error, PermissionError):
        if sys.platform == "win32":
            return FileTrouble(f"cannot {verb} {place}: it is open in another program, or you may not {verb} there")
        where = f"the file {place}" if verb == "read" else f"in the folder {place.parent}"
        return FileTrouble(f"cannot {verb} {place}: you may not {verb} {where}")
    if code == errno.ENAMETOOLONG:
        return FileTrouble(f"the name {place.name[:40]}… is too long")
    return FileTrouble(f"cannot {verb} {place}: {error.strerror or error}")
