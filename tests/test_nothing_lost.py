"""Whatever goes wrong while a command writes, what was there is still there, whole, and the trouble is put in words."""

from __future__ import annotations

import contextlib
import errno
import io
import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner
from killing import killed
from kitchens import PRICES, kitchen

from brinecalc import files
from brinecalc.cli import app

IN_PLACE = {
    "calc": ["calc", "Plan.xlsx", "--in-place"],
    "reprice": ["reprice", "prices.csv", "Plan.xlsx", "--apply"],
    "respell": ["respell", "Plan.xlsx", "--for", "calc", "--in-place"],
}
BESIDE = {
    "calc beside": (["calc", "Plan.xlsx"], "Plan computed.xlsx"),
    "respell beside": (["respell", "Plan.xlsx", "--for", "calc"], "Plan for calc.xlsx"),
    "share": (["share", "Plan.xlsx"], "Plan copy 1.xlsx"),
    "share values": (["share", "Plan.xlsx", "--values"], "Plan copy 1 values.xlsx"),
}
ALL = {**IN_PLACE, **{name: arguments for name, (arguments, _) in BESIDE.items()}}
BOOK = kitchen()


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """A folder with the workbook and the price list, in which commands run."""
    (tmp_path / "Plan.xlsx").write_bytes(BOOK)
    (tmp_path / "prices.csv").write_text(PRICES)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1803772800")  # a file that is finished twice has the same bytes
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture(params=ALL)
def arguments(request):
    return ALL[request.param]


def contents(folder):
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def fails(arguments, before, folder, words):
    run = CliRunner().invoke(app, arguments)
    assert run.exit_code in (1, 2), run.output
    assert words in run.output
    assert contents(folder) == before


def made(arguments, book=BOOK):
    """What the first file named is, or what the copy is, after a command that nothing disturbs."""
    with tempfile.TemporaryDirectory() as name:
        place = Path(name)
        (place / "Plan.xlsx").write_bytes(book)
        (place / "prices.csv").write_text(PRICES)
        with contextlib.chdir(place):
            assert CliRunner().invoke(app, arguments).exit_code == 0
        beside = [path for path in place.iterdir() if path.suffix == ".xlsx" and path.name != "Plan.xlsx"]
        return (place / "Plan.xlsx" if arguments in IN_PLACE.values() else beside[0]).read_bytes()


def started(arguments, folder):
    return subprocess.Popen(
        [sys.executable, "-m", "brinecalc", *arguments],
        cwd=folder,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        env={**os.environ, "PYTHONPATH": str(Path(files.__file__).parents[1])},
    )


# ---- disks that are full or may not be written


@pytest.mark.parametrize(
    ("step", "code", "words"),
    [
        ("fsync", errno.ENOSPC, "the disk is full; make room"),
        ("fsync", errno.EIO, "cannot write"),
        ("open", errno.EROFS, "the drive is read-only"),
        ("open", errno.EACCES, "you may not write in the folder"),
    ],
)
def test_a_disk_that_fails(folder, monkeypatch, arguments, step, code, words):
    """A double stands for the disk: it refuses new files, or fails when what was written is pressed onto it."""
    before = contents(folder)

    def fail(*_, **__):
        raise OSError(code, os.strerror(code)) if code != errno.EACCES else PermissionError(code, os.strerror(code))

    monkeypatch.setattr(*((os, "fsync") if step == "fsync" else (files.tempfile, "mkstemp")), fail)
    fails(arguments, before, folder, words)


@pytest.mark.skipif(os.name != "posix", reason="only POSIX systems end a write at a size that is set")
@pytest.mark.parametrize("name", ["calc", "share values"])
def test_a_disk_that_ends_in_the_middle_of_a_file(folder, name):
    """The system itself stops the write after 3,000 bytes. All commands write in two ways: in place, and beside."""
    import resource

    before = contents(folder)
    run = subprocess.run(
        [sys.executable, "-B", "-m", "brinecalc", *ALL[name]],
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (3000, 3000)),
        env={**os.environ, "PYTHONPATH": str(Path(files.__file__).parents[1])},
    )
    assert run.returncode in (1, 2)
    assert "cannot write" in run.stdout + run.stderr
    assert contents(folder) == before


def may_mount():
    if sys.platform != "linux" or os.geteuid() != 0 or shutil.which("unshare") is None:
        return False
    tried = ["unshare", "-m", "mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", tempfile.gettempdir()]
    return subprocess.run(tried, capture_output=True, check=False).returncode == 0


REAL = """
mount -t tmpfs -o size=200k tmpfs "$1" && cd "$1" && cp "$2"/* . || exit 90
if [ "$3" = full ]; then head -c 300000 /dev/zero > filler 2> /dev/null; else mount -o remount,ro "$1"; fi
shift 3; "$@"; status=$?
rm -f filler 2> /dev/null
for name in *; do cmp -s "$name" "$BEFORE/$name" || exit 91; done
[ "$(ls -A | sort)" = "$(ls -A "$BEFORE" | sort)" ] || exit 92
exit $status
"""
"""Mounts a small disk that no other process sees, fills it or makes it read-only, runs a command, compares."""


@pytest.mark.parametrize(("kind", "words"), [("full", "the disk is full"), ("read-only", "read-only")])
@pytest.mark.parametrize("name", ["calc", "share values"])
def test_a_real_disk_that_is_full_or_read_only(folder, tmp_path_factory, name, kind, words):
    """All commands write in the same two ways: in place of a file, and beside it."""
    arguments = ALL[name]
    if not may_mount():
        pytest.skip("only root on Linux may mount a disk of its own; the same is tested with a double above")
    place = tmp_path_factory.mktemp("disk")
    command = [sys.executable, "-B", "-m", "brinecalc", *arguments]
    run = subprocess.run(
        ["unshare", "-m", "bash", "-c", REAL, "bash", place, folder, kind, *command],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "BEFORE": str(folder), "PYTHONPATH": str(Path(files.__file__).parents[1])},
    )
    assert run.returncode in (1, 2), run.stderr
    assert words in run.stdout + run.stderr


def test_a_report_that_cannot_be_written_hides_nothing_of_what_was_done(folder, monkeypatch):
    write = files.write

    def full(path, content, **named):
        if Path(path).suffix == ".csv":
            raise files.FileTrouble("the disk is full")
        write(path, content, **named)

    monkeypatch.setattr(files, "write", full)
    run = CliRunner().invoke(app, [*IN_PLACE["reprice"], "--report", "report.csv"])
    assert run.exit_code == 1
    assert "no report: the disk is full" in run.output
    assert "1 written, each with a backup beside it" in run.output
    assert (folder / "Plan.backup.xlsx").read_bytes() == BOOK


def test_a_pdf_that_cannot_be_written_leaves_the_copy(folder, monkeypatch):
    from brinecalc.workbook import share

    monkeypatch.setattr(share, "_printed", lambda *_: (b"%PDF", None))
    (folder / "Plan copy 1.pdf").write_bytes(b"someone else's")
    run = CliRunner().invoke(app, ["share", "Plan.xlsx", "--pdf"])
    assert run.exit_code == 1
    assert "no PDF" in run.output
    assert (folder / "Plan copy 1.pdf").read_bytes() == b"someone else's"
    assert openpyxl.load_workbook(folder / "Plan copy 1.xlsx")


# ---- others at the same file


@pytest.mark.parametrize("name", IN_PLACE)
@pytest.mark.parametrize("lock", [".~lock.Plan.xlsx#", "~$Plan.xlsx"])
def test_a_workbook_that_is_open_elsewhere(folder, name, lock):
    (folder / lock).write_bytes(b"cook")
    fails(IN_PLACE[name], contents(folder), folder, "open in a spreadsheet program")


@pytest.mark.parametrize("name", [name for name in BESIDE if "share" not in name])
def test_a_copy_that_is_there_already(folder, name):
    arguments, copy = BESIDE[name]
    (folder / copy).write_bytes(b"someone else's")
    fails(arguments, contents(folder), folder, "exists already")


def test_a_copy_that_another_command_makes_meanwhile(folder, monkeypatch):
    from brinecalc.workbook import share

    stamp = share.copies.stamp

    def late(*given):
        (folder / "Plan copy 1.xlsx").write_bytes(b"someone else's")
        stamp(*given)

    monkeypatch.setattr(share.copies, "stamp", late)
    run = CliRunner().invoke(app, ["share", "Plan.xlsx"])
    assert run.exit_code == 2
    assert "run share again" in run.output
    assert (folder / "Plan copy 1.xlsx").read_bytes() == b"someone else's"


def test_two_commands_on_one_file_never_undo_each_other(folder):
    """Each of the two either refuses or builds on what the other has done; every backup was there once."""
    calc, reprice = IN_PLACE["calc"], IN_PLACE["reprice"]
    after = {"calc": made(calc), "reprice": made(reprice)}
    both = {made(reprice, after["calc"]), made(calc, after["reprice"])}
    running = {name: started(IN_PLACE[name], folder) for name in ("calc", "reprice")}
    status = {name: process.wait() for name, process in running.items()}
    done = [name for name in status if status[name] == 0]
    assert done
    content = (folder / "Plan.xlsx").read_bytes()
    assert content in (both if len(done) == 2 else {after[done[0]]})
    backups = [path.read_bytes() for path in sorted(folder.glob("Plan.backup*"))]
    assert BOOK in backups
    assert set(backups) <= {BOOK, *after.values()}
    assert not list(folder.glob(".*"))


ADDER = """
import sys
from pathlib import Path
from brinecalc import files
place, letter, times = Path(sys.argv[1]), sys.argv[2].encode(), int(sys.argv[3])
while times:
    old = files.read(place)
    try:
        backup = files.replace(place, old + letter, was=old)
    except files.FileTrouble as trouble:
        if "changed by another program" not in str(trouble):
            raise
    else:
        times -= 1
"""


def test_no_change_is_lost_where_several_write_at_once(tmp_path):
    """The law: three programs add 15 letters each, and 45 letters are there. Backups are the steps on the way."""
    place = tmp_path / "Plan.xlsx"
    place.write_bytes(b"")
    adders = [
        subprocess.Popen(
            [sys.executable, "-c", ADDER, str(place), letter, "15"],
            env={**os.environ, "PYTHONPATH": str(Path(files.__file__).parents[1])},
        )
        for letter in "abc"
    ]
    assert [adder.wait() for adder in adders] == [0, 0, 0]
    end = place.read_bytes()
    assert sorted(end) == sorted(b"abc" * 15)
    assert {path.read_bytes() for path in tmp_path.glob("*.backup*")} == {end[:length] for length in range(45)}


@pytest.mark.skipif(files.fcntl is None, reason="Windows itself replaces no file that is held open")
def test_a_file_that_is_held_for_long_is_left_alone(tmp_path, monkeypatch):
    monkeypatch.setattr(files, "PATIENCE", 0.05)
    place = tmp_path / "Plan.xlsx"
    place.write_bytes(b"old")
    with place.open("rb") as held:
        files.fcntl.flock(held, files.fcntl.LOCK_EX)
        with pytest.raises(files.FileTrouble, match="another program holds Plan"):
            files.replace(place, b"new")
    assert contents(tmp_path) == {"Plan.xlsx": b"old"}
    files.replace(place, b"new")
    assert place.read_bytes() == b"new"


# ---- ended in the middle


@pytest.mark.parametrize("name", ["calc", "reprice", "share values"])
def test_killed_at_any_moment(folder, name):
    """The law: the old file or the finished one is there, and every backup is the old one.

    All commands write in the same two ways; the benchmark of this ends each of them, many times.
    """
    target = folder / ("Plan.xlsx" if name in IN_PLACE else BESIDE[name][1])
    old = BOOK if name in IN_PLACE else None
    seen = killed(ALL[name], target, old, made(ALL[name]), times=1 + (name in IN_PLACE), seed=len(name))
    assert set(seen) <= {"old", "new"}
    assert (folder / "Plan.xlsx").read_bytes() == BOOK or name in IN_PLACE


def test_backups_count_on_and_are_what_was_there_before_each_step(folder):
    steps = [BOOK]
    for name in ("calc", "reprice", "respell"):
        assert CliRunner().invoke(app, IN_PLACE[name]).exit_code == 0
        steps.append((folder / "Plan.xlsx").read_bytes())
    kept = [folder / "Plan.backup.xlsx", folder / "Plan.backup 2.xlsx", folder / "Plan.backup 3.xlsx"]
    assert [path.read_bytes() for path in kept] == steps[:3]
    assert len(set(steps)) == 4
    prices = openpyxl.load_workbook(io.BytesIO(steps[3]))["Prices"]
    assert prices["B1"].value == 2.5


def test_a_backup_has_the_time_of_what_it_keeps(folder):
    os.utime(folder / "Plan.xlsx", (1_000_000, 1_000_000))
    files.replace(folder / "Plan.xlsx", b"new")
    assert (folder / "Plan.backup.xlsx").stat().st_mtime == 1_000_000
    assert (folder / "Plan.xlsx").stat().st_mtime > time.time() - 3600
