"""Ends every command that writes at random moments: ``python tests/benchmarks/kill.py [TIMES] [SEED]``.

Each time the old file or the finished one must be there, whole, and every backup must be what was there before. Half
of the moments are drawn over the whole run, half while the command writes.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parent.parent), str(Path(__file__).parent.parent.parent)]

from killing import killed

from brinecalc.workbook.book import Options
from brinecalc.workbook.create import create
from brinecalc.workbook.edit.book import Edit

PRICES = "name,price\nsalt,13.80\nhoney,73\n"


def main(times: int, seed: int) -> None:
    """Runs each command that many times and prints what was found."""
    print(f"each command {times} times, seed {seed}", flush=True)
    os.environ["SOURCE_DATE_EPOCH"] = "1803772800"  # a file that is finished twice has the same bytes
    content = create(Options("metric", "A4", True)).content
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for command, arguments, target, old in cases(folder, content):
            seen = killed(arguments, target, old, finished(arguments, target, old), times, seed)
            print(
                f"{command:30} old file {seen['old']:4}   finished file {seen['new']:4}   anything else 0", flush=True
            )


def cases(folder: Path, content: bytes) -> "list[tuple[str, list[str], Path, bytes | None]]":
    """Command, its arguments, the file that it writes, and what stands there before."""
    edit = Edit(content, "Plan.xlsx")
    edit.put("Plan", 8, 6, 9.5)
    changed = edit.done()  # its values are those of another weight, so that computing changes the file
    places = ("calc", "share", "values", "reprice", "respell")
    plan = {place: folder / place / "Plan.xlsx" for place in places}
    for path in plan.values():
        path.parent.mkdir()
        path.write_bytes(changed)
    (folder / "prices.csv").write_text(PRICES, encoding="utf-8")
    reprice = ["reprice", str(folder / "prices.csv"), str(plan["reprice"]), "--apply"]
    share = ["share", str(plan["share"])]
    values = ["share", str(plan["values"]), "--values"]
    respell = ["respell", str(plan["respell"]), "--for", "calc", "--in-place"]
    return [
        ("calc --in-place", ["calc", str(plan["calc"]), "--in-place"], plan["calc"], changed),
        ("reprice --apply", reprice, plan["reprice"], changed),
        ("respell --in-place", respell, plan["respell"], changed),
        ("share", share, folder / "share" / "Plan copy 1.xlsx", None),
        ("share --values", values, folder / "values" / "Plan copy 1 values.xlsx", None),
        ("new", ["new", "-o", str(folder / "new.xlsx")], folder / "new.xlsx", None),
    ]


def finished(arguments: "list[str]", target: Path, old: "bytes | None") -> bytes:
    """What the command writes when it is left alone; the file is put back as it was."""
    subprocess.run([sys.executable, "-m", "brinecalc", *arguments], check=False, capture_output=True)
    made = target.read_bytes()
    for backup in target.parent.glob(f"{target.stem}.backup*"):
        backup.unlink()
    if old is None:
        target.unlink()
    else:
        target.write_bytes(old)
    return made


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 75, int(sys.argv[2]) if len(sys.argv) > 2 else 1)
