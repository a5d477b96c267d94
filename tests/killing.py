"""Ends the command line at random moments and looks at what is left of a file."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from collections import Counter
from pathlib import Path


def killed(arguments: list[str], target: Path, old: bytes | None, new: bytes, times: int, seed: int) -> Counter[str]:
    """Runs a command and ends it at a random moment, again and again; how often the old and the new file was there.

    `target` is the file that the command writes and `old` what stands in it before (None: it does not exist). Anything
    but the old and the new content, or a backup that is not the old content, is an error. The first, the third and
    so on come within hundredths of a second after the first new file shows up beside the target, where the writing is;
    the others are drawn from the whole run.
    """
    chance = random.Random(seed)
    began = time.monotonic()
    _reset(target, old)
    subprocess.run([sys.executable, "-m", "brinecalc", *arguments], check=False, capture_output=True)
    whole = time.monotonic() - began
    assert target.read_bytes() == new
    seen: Counter[str] = Counter()
    for number in range(times):
        _reset(target, old)
        process = subprocess.Popen(
            [sys.executable, "-m", "brinecalc", *arguments], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        if number % 2 == 0:
            _await(target.parent, process)
            time.sleep(chance.random() ** 2 * 0.04)
        else:
            time.sleep(chance.random() * whole)
        process.send_signal(signal.SIGKILL)
        process.wait()
        content = target.read_bytes() if target.exists() else None
        assert content in (old, new), "neither the old nor the finished file is there"
        seen["new" if content == new else "old"] += 1
        for backup in target.parent.glob(f"{target.stem}.backup*"):
            assert backup.read_bytes() == old, f"{backup.name} is not what was there before"
    return seen


def _await(folder: Path, process: subprocess.Popen[bytes]) -> None:
    """Waits until the command begins to write: until a file shows up that was not there."""
    there = set(os.listdir(folder))
    while process.poll() is None and set(os.listdir(folder)) <= there:
        time.sleep(0.0005)


def _reset(target: Path, old: bytes | None) -> None:
    """Puts the folder back as it was before the command."""
    for left in (*target.parent.glob(f"{target.stem}.backup*"), *target.parent.glob(f".{target.name[:40]}*.tmp")):
        left.unlink()
    if old is None:
        target.unlink(missing_ok=True)
    else:
        target.write_bytes(old)
