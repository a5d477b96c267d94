"""Files are written whole or not at all, and every trouble is put in words."""

from __future__ import annotations

import errno
import os
import signal
import stat
import subprocess
import sys
import time

import pytest

from brinecalc import files
from brinecalc.files import FileTrouble


def said(function, *given, **named):
    with pytest.raises(FileTrouble) as trouble:
        function(*given, **named)
    return str(trouble.value)


def only(folder, *names):
    return sorted(os.listdir(folder)) == sorted(names)


def test_writes_a_new_file(tmp_path):
    files.write(tmp_path / "a.xlsx", b"new")
    assert files.read(tmp_path / "a.xlsx") == b"new"
    assert only(tmp_path, "a.xlsx")


def test_refuses_a_name_that_is_taken(tmp_path):
    place = tmp_path / "a.xlsx"
    place.write_bytes(b"old")
    assert "exists already; give another name with -o, or add --overwrite" in said(files.write, place, b"new")
    assert place.read_bytes() == b"old"
    files.write(place, b"new", overwrite=True)
    assert place.read_bytes() == b"new"
    assert only(tmp_path, "a.xlsx")


def test_a_file_that_comes_up_meanwhile_is_not_overwritten(tmp_path, monkeypatch):
    place = tmp_path / "a.xlsx"
    settle = files._settle

    def late(scratch, target, overwrite):
        target.write_bytes(b"someone else's")
        settle(scratch, target, overwrite)

    monkeypatch.setattr(files, "_settle", late)
    assert "exists already" in said(files.write, place, b"new")
    assert place.read_bytes() == b"someone else's"
    assert only(tmp_path, "a.xlsx")


def test_replacing_keeps_a_backup_each_time(tmp_path):
    place = tmp_path / "Plan.xlsx"
    place.write_bytes(b"one")
    assert files.replace(place, b"two").name == "Plan.backup.xlsx"
    assert files.replace(place, b"three").name == "Plan.backup 2.xlsx"
    assert place.read_bytes() == b"three"
    assert (tmp_path / "Plan.backup.xlsx").read_bytes() == b"one"
    assert (tmp_path / "Plan.backup 2.xlsx").read_bytes() == b"two"


def test_a_file_that_changed_meanwhile_is_left_alone(tmp_path):
    place = tmp_path / "Plan.xlsx"
    place.write_bytes(b"changed by someone")
    assert "changed by another program" in said(files.replace, place, b"new", was=b"old")
    assert only(tmp_path, "Plan.xlsx")
    assert place.read_bytes() == b"changed by someone"


@pytest.mark.parametrize("step", ["_scratch", "_settle"])
@pytest.mark.parametrize(
    ("code", "words"),
    [
        (errno.ENOSPC, "the disk is full; make room and try again"),
        (errno.EDQUOT, "the disk is full; make room and try again"),
        (errno.EROFS, "the drive is read-only"),
        (errno.EACCES, "you may not write in the folder"),
        (errno.EIO, "cannot write"),
    ],
)
def test_a_disk_that_fails_leaves_all_as_it_was(tmp_path, monkeypatch, step, code, words):
    place = tmp_path / "Plan.xlsx"
    place.write_bytes(b"old")

    def fail(*_):
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr(os, "fsync" if step == "_scratch" else "replace", fail)
    assert words in said(files.write, place, b"new", overwrite=True)
    assert place.read_bytes() == b"old"
    assert only(tmp_path, "Plan.xlsx")


def test_in_place_on_a_full_disk_the_original_stays_and_no_backup_is_left_over(tmp_path, monkeypatch):
    place = tmp_path / "Plan.xlsx"
    place.write_bytes(b"old")
    backup = files.keep

    def kept_then_full(path):
        made = backup(path)
        monkeypatch.setattr(os, "fsync", lambda handle: (_ for _ in ()).throw(OSError(errno.ENOSPC, "full")))
        return made

    monkeypatch.setattr(files, "keep", kept_then_full)
    assert "disk is full" in said(files.replace, place, b"new")
    assert place.read_bytes() == b"old"
    assert only(tmp_path, "Plan.xlsx")


def test_a_real_full_disk(tmp_path):
    """/dev/full fails every write, as a full disk does."""
    if not os.path.exists("/dev/full"):
        pytest.skip("this system has no /dev/full")
    with pytest.raises(OSError, match="No space"), open("/dev/full", "wb", buffering=0) as full:
        full.write(b"x")
    assert "not an ordinary file" in said(files.read, "/dev/full")
    assert only(tmp_path)


@pytest.mark.parametrize("lock", [".~lock.Plan.xlsx#", "~$Plan.xlsx"])
def test_a_workbook_that_is_open_elsewhere_is_not_replaced(tmp_path, lock):
    place = tmp_path / "Plan.xlsx"
    place.write_bytes(b"old")
    (tmp_path / lock).write_bytes(b"cook")
    assert "open in a spreadsheet program" in said(files.write, place, b"new", overwrite=True)
    assert "open in a spreadsheet program" in said(files.replace, place, b"new")
    assert place.read_bytes() == b"old"
    assert only(tmp_path, "Plan.xlsx", lock)


def test_a_read_only_file_is_not_replaced(tmp_path, monkeypatch):
    place = tmp_path / "Plan.xlsx"
    place.write_bytes(b"old")
    monkeypatch.setattr(os, "access", lambda path, mode: False)
    assert "the file is read-only" in said(files.replace, place, b"new")


def test_read_only_folder(tmp_path):
    folder = tmp_path / "shelf"
    folder.mkdir()
    folder.chmod(0o500)
    try:
        if os.access(folder, os.W_OK):
            pytest.skip("this user may write anywhere; the words are tested with a disk that fails")
        assert "you may not write in the folder" in said(files.write, folder / "a.xlsx", b"new")
    finally:
        folder.chmod(0o700)


def test_what_is_not_there_is_named(tmp_path):
    assert f"there is no file {tmp_path / 'a.xlsx'}" in said(files.read, tmp_path / "a.xlsx")
    assert f"there is no folder {tmp_path / 'shelf'}" in said(files.write, tmp_path / "shelf" / "a.xlsx", b"new")
    assert "is a folder" in said(files.read, tmp_path)
    assert "is a folder" in said(files.write, tmp_path, b"new")
    assert "too long" in said(files.write, tmp_path / ("a" * 300 + ".xlsx"), b"new")


def test_a_file_beyond_all_bounds_is_not_read(tmp_path):
    place = tmp_path / "a.xlsx"
    place.write_bytes(b"12345")
    assert "files up to" in said(files.read, place, 4)


def test_a_pipe_is_not_waited_for(tmp_path):
    if not hasattr(os, "mkfifo"):
        pytest.skip("this system has no pipes with names")
    os.mkfifo(tmp_path / "pipe.xlsx")
    assert "not an ordinary file" in said(files.read, tmp_path / "pipe.xlsx")


def test_a_link_stays_a_link(tmp_path):
    (tmp_path / "real.xlsx").write_bytes(b"old")
    (tmp_path / "link.xlsx").symlink_to("real.xlsx")
    files.write(tmp_path / "link.xlsx", b"new", overwrite=True)
    assert (tmp_path / "link.xlsx").is_symlink()
    assert (tmp_path / "real.xlsx").read_bytes() == b"new"


@pytest.mark.skipif(os.name != "posix", reason="rights of this kind are known to POSIX systems only")
def test_rights_are_kept(tmp_path):
    place = tmp_path / "a.xlsx"
    place.write_bytes(b"old")
    place.chmod(0o640)
    files.write(place, b"new", overwrite=True)
    assert stat.S_IMODE(place.stat().st_mode) == 0o640
    mask = os.umask(0o027)
    try:
        files.write(tmp_path / "b.xlsx", b"new")
    finally:
        os.umask(mask)
    assert stat.S_IMODE((tmp_path / "b.xlsx").stat().st_mode) == 0o640


def test_a_name_beside_keeps_folder_and_ending():
    assert files.beside("shelf/Plan.v2.xlsx", "computed").as_posix() == "shelf/Plan.v2 computed.xlsx"


WRITER = """
import sys
from brinecalc import files
place, letters = sys.argv[1:]
while True:
    for letter in letters:
        files.replace(place, letter.encode() * 300_000) if "keep" in place else files.write(
            place, letter.encode() * 300_000, overwrite=True)
"""


@pytest.mark.parametrize("name", ["plain.xlsx", "keep.xlsx"])
def test_killed_at_any_moment_the_old_or_the_new_file_is_there_whole(tmp_path, name):
    place = tmp_path / name
    place.write_bytes(b"o" * 300_000)
    for turn in range(4):
        writer = subprocess.Popen([sys.executable, "-c", WRITER, str(place), "abc"])
        time.sleep(0.12 + 0.013 * turn)
        writer.send_signal(signal.SIGKILL) if os.name == "posix" else writer.kill()
        writer.wait()
        assert all(whole(path) for path in tmp_path.iterdir() if not path.name.endswith(".tmp"))
        assert place.exists()


def whole(path):
    """Whether what stands in a file is one content from its first letter to its last."""
    content = path.read_bytes()
    return len(content) == content.count(content[:1]) == 300_000


def test_two_at_one_file(tmp_path):
    place = tmp_path / "plain.xlsx"
    place.write_bytes(b"o" * 300_000)
    writers = [subprocess.Popen([sys.executable, "-c", WRITER, str(place), letters]) for letters in ("ab", "cd")]
    end = time.monotonic() + 20
    seen = set()
    while len(seen) < 4 and time.monotonic() < end:
        content = place.read_bytes()
        assert len(content) == content.count(content[:1]) == 300_000
        seen.add(content[:1])
    for writer in writers:
        writer.kill()
        writer.wait()
    assert len(seen) > 1


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_csv_file_reads_alike_however_it_was_saved(encoding: str) -> None:
    assert files.text("name;price\njalapeño;4\n".encode(encoding), "list.csv") == "name;price\njalapeño;4\n"


def test_a_file_that_is_no_text_is_refused_and_half_a_character_is_no_fault() -> None:
    with pytest.raises(files.FileTrouble, match="is not a text file"):
        files.text(b"PK\x03\x04\x00\x00", "list.csv")
    assert files.text("salt".encode("utf-16")[:-1], "list.csv").startswith("sal")
