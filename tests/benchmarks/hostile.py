"""What each file made to harm costs each command: ``python tests/benchmarks/hostile.py``. Goal: 5 s and 1 GB.

Every command runs in a process of its own, which may not take more than 2 GB; bombs are six times those of the tests.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT / "tests"), str(ROOT)]

import hostile
from kitchens import PRICES

SECONDS, MEGABYTES = 5.0, 1000.0
CEILING = 2_000_000_000
COMMANDS = {
    "calc": ["calc", "BOOK"],
    "reprice": ["reprice", "prices.csv", "BOOK", "--apply"],
    "respell": ["respell", "BOOK", "--for", "calc"],
    "share": ["share", "BOOK"],
    "values": ["share", "BOOK", "--values"],
}


def main() -> None:
    """Prints seconds and megabytes for each file and command, and the worst of all."""
    huge = 6 * hostile.large()
    bombs = {
        "zip bomb in a sheet": hostile.Trap(hostile.having(plan=huge)),
        "zip bomb in the texts": hostile.Trap(hostile.sharing(huge)),
        "zip bomb in a picture": hostile.Trap(hostile.having(other=huge)),
    }
    worst = [0.0, 0.0]
    print("file".ljust(38) + "".join(command.rjust(17) for command in COMMANDS))
    for name, trap in {**hostile.REFUSED, **hostile.DONE, **bombs}.items():
        content = trap.make()
        costs = [cost(arguments, content, f"Plan{trap.ending}") for arguments in COMMANDS.values()]
        worst = [max(worst[i], *(each[i] for each in costs)) for i in (0, 1)]
        print(name.ljust(38) + "".join(f"{each[0]:9.2f} s{each[1]:4.0f} MB" for each in costs), flush=True)
    print(f"worst: {worst[0]:.2f} s and {worst[1]:.0f} MB (goal: {SECONDS:g} s and {MEGABYTES:g} MB)")


WRAPPED = """
import atexit, resource, sys
resource.setrlimit(resource.RLIMIT_AS, (CEILING, CEILING))
def tell():
    used = resource.getrusage(resource.RUSAGE_SELF)
    peak = next(line for line in open("/proc/self/status") if line.startswith("VmHWM"))
    print("cost", used.ru_utime + used.ru_stime, peak.split()[1], file=sys.stderr)
atexit.register(tell)
from brinecalc.cli import main
main()
""".replace("CEILING", str(CEILING))


def cost(arguments: "list[str]", content: bytes, name: str) -> "tuple[float, float]":
    """Processor seconds and the most megabytes of a command on a file."""
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        (place / name).write_bytes(content)
        (place / "prices.csv").write_text(PRICES, encoding="utf-8")
        words = [name if word == "BOOK" else word for word in arguments]
        run = subprocess.run(
            [sys.executable, "-c", WRAPPED, *words],
            cwd=folder,
            env={**os.environ, "PYTHONPATH": f"{ROOT}{os.pathsep}{ROOT / 'tests'}"},
            capture_output=True,
            text=True,
            check=False,
        )
        told = run.stderr.splitlines()[-1].split()
        if run.returncode not in (0, 1, 2) or told[0] != "cost":
            raise SystemExit(f"{words} ended with {run.returncode}: {run.stderr}")
        return float(told[1]), float(told[2]) / 1000


if __name__ == "__main__":
    main()
