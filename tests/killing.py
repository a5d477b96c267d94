"""Ends the command line at random moments and looks at what is left of a file."""

from __future__ import annotations

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
    but the old and the new content, or a backup that is not the old content, is an error. The moments are drawn from
    the whole run, the later half more often, where the writing is.
    """
    chance = random.Random(seed)
    began = time.monotonic()
    _reset(target, old)
    subprocess.run([sys.executable, "-m", "brinecalc", *arguments], check=False, capture_output=True)
    whole = time.monotonic() - began
    assert target.read_bytes() == new
    seen: Counter[str] = Counter()
    for _ in range(times):
        _reset(target, old)
        process = subprocess.Popen(
            [sys.executable, "-m", "brinecalc", *arguments], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        try:
            process.wait(whole * max(chance.random(), chance.random()) * 1.05)
        except subprocess.TimeoutExpired:
            process.send_signal(signal.SIGKILL)
            process.wait()
        content = target.read_bytes() if target.exists() else None
        assert content in (old, new), "neither the old nor the finished file is there"
        seen["new" if content == new else "old"] += 1
        for backup in target.parent.glob(f"{target.stem}.backup*"):
            assert backup.read_bytes() == old, f"{backup.name} is not what was there before"
    return seen


def _reset(target: Path, old: bytes | None) -> None:
    """Puts the folder back as it was before the command."""
    for left in (*target.parent.glob(f"{target.stem}.backup*"), *target.parent.glob(f".{target.name[:40]}*.tmp")):
        left.unlink()
    if old is None:
        target.unlink(missing_ok=True)
    else:
        target.write_bytes(old)
