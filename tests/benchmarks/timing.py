"""How things are timed here: the best of many short rounds, and whole processes by what they used.

One idea: the best round is the one that was disturbed least, so it says most about the work itself; for a process,
its processor time counts, in a fresh process each time, and the middle of several is taken.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import timeit
from collections.abc import Callable
from pathlib import Path
from statistics import median

ROOT = Path(__file__).parents[2]


def microseconds(task: Callable[[], object], seconds: float = 0.01, rounds: int = 7) -> float:
    """Microseconds of one call, the best of several rounds of about that many seconds."""
    return microseconds_each(task, seconds=seconds, rounds=rounds)[0]


def microseconds_each(*tasks: Callable[[], object], seconds: float = 0.01, rounds: int = 7) -> list[float]:
    """The same of several tasks taken in turn, so that a disturbance of the machine strikes all alike."""
    timers = []
    for task in tasks:
        task()
        timer = timeit.Timer(task)
        timers.append((timer, max(1, int(seconds / max(timer.timeit(3) / 3, 1e-9)))))
    best = [float("inf")] * len(tasks)
    for _ in range(rounds):
        for at, (timer, count) in enumerate(timers):
            best[at] = min(best[at], timer.timeit(count) / count * 1e6)
    return best


def yardstick() -> float:
    """Microseconds of a plain loop that nobody will ever speed up."""

    def loop() -> float:
        total = 0.0
        for i in range(1000):
            total += i * 0.5
        return total

    return microseconds(loop, 0.005, 9)


def environment(*, bytecode: bool = True) -> dict[str, str]:
    """The environment of a child: this source tree first, compiled modules in a place of their own or not kept."""
    kept = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    kept["PYTHONPATH"] = os.pathsep.join((str(ROOT), str(ROOT / "tests")))
    if bytecode:
        kept["PYTHONPYCACHEPREFIX"] = str(Path(os.environ.get("TMPDIR", "/tmp")) / f"brinecalc-bytecode-{os.getuid()}")
    else:
        kept["PYTHONDONTWRITEBYTECODE"] = "1"
    return kept


def process(words: list[str], runs: int = 7, **how: bool) -> dict[str, float]:
    """Processor seconds, seconds by the clock and peak memory (MB) of a command, the middle of several runs."""
    times = [_once(words, environment(**how)) for _ in range(runs + 1)][1:]  # the first fills the caches
    return {key: median(time[key] for time in times) for key in times[0]}


def _once(words: list[str], env: dict[str, str]) -> dict[str, float]:
    """One run, measured by a small process that starts it and nothing else, so that memory is the command's own."""
    done = subprocess.run(
        [sys.executable, "-S", "-c", _WATCHER, *words], env=env, capture_output=True, text=True, check=True
    )
    answer: dict[str, float] = json.loads(done.stdout)
    return answer


_WATCHER = """
import os, sys, time
start = time.perf_counter()
child = os.posix_spawn(sys.argv[1], sys.argv[1:], os.environ, file_actions=[
    (os.POSIX_SPAWN_OPEN, 1, "/dev/null", os.O_WRONLY, 0), (os.POSIX_SPAWN_OPEN, 2, "/dev/null", os.O_WRONLY, 0)])
_, status, used = os.wait4(child, 0)
clock = time.perf_counter() - start
if os.waitstatus_to_exitcode(status) not in (0, 1):
    sys.exit("the command failed")
print('{"s": %r, "clock": %r, "MB": %r}' % (used.ru_utime + used.ru_stime, clock, used.ru_maxrss / 1024))
"""


def inside(code: str, *arguments: str, runs: int = 7, **how: bool) -> dict[str, float]:
    """What a piece of Python measures of itself in a fresh process: it sets `found`; the middle of several runs."""
    script = code + "\nimport json\nprint(json.dumps(found))"
    made = []
    for _ in range(runs + 1):
        words = [sys.executable, "-c", script, *arguments]
        done = subprocess.run(words, env=environment(**how), capture_output=True, text=True, check=True, cwd="/")
        made.append(json.loads(done.stdout.splitlines()[-1]))
    return {key: median(each[key] for each in made[1:]) for key in made[0]}


PEAK = """
def peak():
    with open("/proc/self/status") as status:
        return next(int(line.split()[1]) / 1024 for line in status if line.startswith("VmHWM"))
"""
"""The most memory that a process had, in MB, to be put before a piece of Python."""
