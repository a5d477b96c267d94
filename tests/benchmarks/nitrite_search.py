"""The long run of the nitrite search, by hand: python tests/benchmarks/nitrite_search.py [rows] [seed]."""

from __future__ import annotations

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.trade.test_findings_search import SEED, search


def main() -> int:
    """Searches, prints what was found, and fails if any row slipped through."""
    rows = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else SEED
    start = time.perf_counter()
    wanted, missed = search(rows, seed)
    seconds = time.perf_counter() - start
    print(f"{rows} rows, seed {seed}: {wanted} had to be stopped, {len(missed)} were not; {seconds:.0f} s")
    for headings, values in missed[:10]:
        print("  ", dict(zip(map(str, headings), values)))
    return 1 if missed else 0


if __name__ == "__main__":
    raise SystemExit(main())
