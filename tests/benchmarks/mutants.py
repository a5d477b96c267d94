"""Do the tests see a fault? Puts one small fault at a time into the core and runs the tests that reach that line.

    python -m tests.benchmarks.mutants map                        which tests reach which line (two minutes)
    python -m tests.benchmarks.mutants draw [--share 0.13] [--seed 7] [--longest 2]
    python -m tests.benchmarks.mutants run [--afresh] [--again] [--part 0/2] [--only trade.curing]
    python -m tests.benchmarks.mutants report [--survivors]

The faults are those of mutmut 3 (``pip install mutmut``): a number one more, + for -, < for <=, an argument
left out or None, a condition turned round, a text changed. mutmut itself would switch them inside one running program;
here each is tried in a process of its own, inside one function where no import has run it yet, and with ``--afresh`` in
a library imported with the fault in it, so that no table made at import and no kept answer hides it. Left out are
annotations, docstrings, type aliases, how many answers a cache keeps, and changes of nothing but case. Which faults
are drawn hangs on the seed and on the faulty line's own words, so that the sample stays the same when other lines
change. A fault has at most ``--longest`` seconds of tests. Nothing is edited while it runs. Results stay in CACHE.
`equivalent.csv` says of which faults no test can know, and why: `report` counts with and without them and lists the
survivors that have no reason.
"""

from __future__ import annotations

import argparse
import collections
import functools
import gc
import importlib
import importlib.machinery
import json
import os
import resource
import signal
import sys
import tempfile
import time
from pathlib import Path
from typing import Callable, Dict, List, Tuple

from tests.benchmarks import equivalents
from tests.benchmarks.faults import ROOT, Fault, body, dotted, faults, live

CACHE = Path(tempfile.gettempdir()) / "brinecalc-mutants"
CORE = [*sorted(ROOT.glob("brinecalc/science/**/*.py")), *sorted(ROOT.glob("brinecalc/trade/**/*.py"))]
CORE += [ROOT / f"brinecalc/{name}.py" for name in ("registry", "catalogue", "gate")]
TESTS = "science trade functions properties tables test_registry.py test_quantity.py test_misread.py test_edge.py"
QUIET = ["-q", "-x", "--no-header", "--no-summary", "--tb=no", "-p", "no:randomly", "-p", "no:cacheprovider"]
QUIET_FAULTS = [*QUIET, "--hypothesis-profile=faults"]
PRELOADED = "pytest hypothesis numpy scipy.optimize scipy.integrate scipy.special scipy.interpolate mpmath pint iapws"


def mapped() -> None:
    """Runs the tests once, unhurt, and keeps which of them reach which line, and how long each takes."""
    import coverage
    import pytest

    files = [str(path) for path in CORE]
    watch = coverage.Coverage(data_file=None, include=files, branch=False)
    took: Dict[str, float] = {}

    class Plugin:
        @pytest.hookimpl(hookwrapper=True)
        def pytest_runtest_protocol(self, item):
            _forget_answers()
            watch.switch_context(item.nodeid)
            began = time.perf_counter()
            yield
            took[item.nodeid] = time.perf_counter() - began
            watch.switch_context("between")

    watch.start()
    for path in CORE:  # so that no import is taken for a part of the test that needs it first
        importlib.import_module(dotted(path))
    failed = pytest.main([*[f"tests/{name}" for name in TESTS.split()], *QUIET], plugins=[Plugin()])
    watch.stop()
    if failed:
        raise SystemExit("the tests must pass before faults are put in")
    data = watch.get_data()
    reach = {dotted(Path(f)): dict(data.contexts_by_lineno(f)) for f in data.measured_files()}
    CACHE.mkdir(exist_ok=True)
    (CACHE / "map.json").write_text(json.dumps({"took": took, "reach": reach}))
    print(f"{len(took)} tests, {sum(took.values()):.0f} s while watched")


def _forget_answers() -> None:
    """Empties what science, trade and registry keep, so that each test is seen to reach all it rests on."""
    for name, module in list(sys.modules.items()):
        if name.startswith(("brinecalc.science", "brinecalc.trade")):
            for thing in vars(module).values():
                if callable(getattr(thing, "cache_clear", None)):
                    thing.cache_clear()
    catalogue = sys.modules.get("brinecalc.catalogue")
    for entry in catalogue._entries.values() if catalogue else ():
        if entry.memo:
            entry.memo.clear()


def reaching(fault: Fault, known: dict, whole: bool, longest: float) -> List[str]:
    """The tests that reach the faulty line (or all of the module): the mirroring file's, the folder's, the quickest."""
    by_line: Dict[str, List[str]] = known["reach"].get(fault.module, {})
    took: Dict[str, float] = known["took"]
    who = {test for tests in by_line.values() for test in tests} if whole else set(by_line.get(str(fault.line), ()))
    if not whole:  # a later line of a long statement may have no entry of its own
        before = [int(line) for line in by_line if int(line) < fault.line]
        who |= set(by_line[str(max(before))]) if before and not who & set(took) else set()
    parts = fault.module.split(".")[::-1]
    mirrors = [f"/test_{part}.py" for part in parts]  # of the module, then of the folder it stands in

    def distance(test: str) -> int:
        return next((place for place, mirror in enumerate(mirrors) if mirror in test), len(mirrors))

    left, chosen = longest, []
    for test in sorted(who & set(took), key=lambda test: (distance(test), took[test], test)):
        left -= took[test]
        if left < 0 and chosen:
            break
        chosen.append(test)
    return chosen


def tried(work: Callable[[], bool]) -> str:
    """What becomes of a fault: killed, timeout or survived. The work is done in a child of its own."""
    child = os.fork()
    if child == 0:
        status = 1
        try:
            resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))
            nowhere = os.open(os.devnull, os.O_RDWR)
            os.dup2(nowhere, 1)
            os.dup2(nowhere, 2)
            signal.setitimer(signal.ITIMER_PROF, 20.0)  # for importing and collecting
            status = 0 if work() else 1
        finally:
            os._exit(status)  # whatever broke in there, the fault was seen
    status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    return {0: "survived", -signal.SIGPROF: "timeout"}.get(status, "killed")


def _limit(test: str, took: Dict[str, float]) -> None:
    """So much processor time for a test; past it the signal ends the process."""
    signal.setitimer(signal.ITIMER_PROF, 2.0 + 8.0 * took[test])


def _afresh(fault: Fault, tests: List[str], took: Dict[str, float]) -> bool:
    """Imports the library with the fault in it and runs the tests; whether all pass."""
    import pytest

    plain = importlib.machinery.SourceFileLoader.get_code

    def get_code(self, name):
        return compile(fault.source, self.path, "exec") if name == fault.module else plain(self, name)

    importlib.machinery.SourceFileLoader.get_code = get_code
    order = {test: place for place, test in enumerate(tests)}

    class Plugin:
        def pytest_collection_modifyitems(self, items):
            items[:] = sorted((item for item in items if item.nodeid in order), key=lambda item: order[item.nodeid])

        def pytest_runtest_logstart(self, nodeid):
            _limit(nodeid, took)

    files = list(dict.fromkeys(test.partition("::")[0] for test in tests))
    rounds = [files[:1], files] if len(files) > 1 else [files]  # the mirroring file alone is read sooner than all
    return all(pytest.main([*some, *QUIET_FAULTS], plugins=[Plugin()]) in (0, 5) for some in rounds)


class Within:
    """A pytest plugin that, once all tests are collected, tries fault after fault in place of running them."""

    def __init__(self, work: List[Tuple[Fault, List[str]]], known: dict, keep: Callable) -> None:
        self.work, self.known, self.keep = work, known, keep

    def pytest_runtestloop(self, session) -> bool:
        items = {item.nodeid: item for item in session.items}
        gc.collect()
        gc.freeze()
        for fault, tests in self.work:
            made = body(fault, self.known)
            sound = made and live(fault.module, made)
            if sound is None:
                raise RuntimeError(f"the library is not the one of the map: {fault.module}, {fault.words}")
            chosen = [items[test] for test in tests if test in items]

            def work(sound=sound, made=made, chosen=chosen) -> bool:
                sound.__code__ = made.after
                session.config.pluginmanager.unregister(name="terminalreporter")
                for item, after in zip(chosen, [*chosen[1:], None]):
                    _limit(item.nodeid, self.known["took"])
                    item.config.hook.pytest_runtest_protocol(item=item, nextitem=after)
                    if session.testsfailed:
                        return False
                return True

            self.keep(fault, tests, tried(work) if chosen else "unreached")
        return True


def draw(share: float, seed: int, longest: float) -> None:
    """Draws the sample and keeps it, in the order of the lots, so that any beginning of it is a sample too."""
    known = json.loads((CACHE / "map.json").read_text())
    rows = []
    for fault in (fault for path in CORE for fault in faults(path, share, seed)):
        inside = body(fault, known) is not None
        rows.append({**fault._asdict(), "inside": inside, "tests": reaching(fault, known, not inside, longest)})
    rows.sort(key=lambda row: row["lot"])
    (CACHE / "sample.json").write_text(json.dumps(rows))
    print(f"{len(rows)} faults, {sum(row['inside'] for row in rows)} of them inside a function")


def run(afresh: bool, only: str, again: bool, part: Tuple[int, int], least: float) -> None:
    """Tries every drawn fault that has no result yet (or survived, with ``--again``)."""
    import hypothesis
    import pytest

    for name in PRELOADED.split():
        __import__(name)
    if any(name.startswith("brinecalc") for name in sys.modules):
        raise SystemExit("the library must not be imported before a fault is put in")
    phases = [hypothesis.Phase.explicit, hypothesis.Phase.generate]  # a failing example need not be made smaller
    calm = {"database": None, "derandomize": True, "deadline": None, "phases": phases}
    hypothesis.settings.register_profile("faults", suppress_health_check=list(hypothesis.HealthCheck), **calm)
    known, kept = json.loads((CACHE / "map.json").read_text()), results()

    def keep(fault: Fault, tests: List[str], what: str) -> None:
        row = {**fault._asdict(), "key": fault.key, "what": what, "tests": len(tests), "at": time.time()}
        row.pop("source")
        with (CACHE / f"results-{'afresh' if afresh else part[0]}.jsonl").open("a") as out:
            out.write(json.dumps(row, ensure_ascii=False) + "\n")

    work = []
    for row in _sample():
        tests, inside = row.pop("tests"), row.pop("inside")
        fault = Fault(**row)
        alive = kept.get(fault.key, {}).get("what") in ("survived", "unreached")
        wanted = only in fault.module and fault.lot >= least and inside is not afresh
        if wanted and (fault.key not in kept or (again and alive)) and int(fault.key, 16) % part[1] == part[0]:
            work.append((fault, tests))
    if afresh:
        for fault, tests in work:
            keep(fault, tests, tried(functools.partial(_afresh, fault, tests, known["took"])) if tests else "unreached")
    elif work:
        files = sorted({test.partition("::")[0] for _, tests in work for test in tests})
        pytest.main([*files, *QUIET_FAULTS], plugins=[Within(work, known, keep)])


def results() -> Dict[str, dict]:
    """The last result of every fault of the sample that was tried; those of code that is gone do not count."""
    drawn = {Fault(**{name: row[name] for name in Fault._fields}).key for row in _sample()}
    rows = [json.loads(line) for path in CACHE.glob("results-*.jsonl") for line in path.open()]
    rows.sort(key=lambda row: row["at"])
    return {row["key"]: row for row in rows if row["key"] in drawn}


def _sample() -> List[dict]:
    return list(json.loads((CACHE / "sample.json").read_text()))


def report(survivors: bool, only: str) -> None:
    """Prints the score of each module, as counted and without what `equivalent.csv` explains; wording apart."""
    table: Dict[str, collections.Counter] = collections.defaultdict(collections.Counter)
    known, alive, kinds = equivalents.by_words(), [], collections.Counter()
    for row in results().values():
        if only not in row["module"]:
            continue
        group = "wording" if row["kind"] == "wording" else "rest"
        state = "killed" if row["what"] in ("killed", "timeout") else "alive"
        entry = known.get((row["module"], row["words"]))
        if state == "alive":
            alive.append((entry.reason if entry else "", row))
            kinds[entry.kind if entry else "no reason"] += 1
            state = "explained" if entry else state
        elif entry:
            print(f"killed, though called equivalent: {row['module']}: {row['words']}")
        for name in (row["module"], "all"):
            table[name][group, state] += 1
    for reason, row in sorted(alive, key=lambda pair: (pair[0] != "", pair[1]["module"], pair[1]["line"])):
        if survivors or not reason:
            print(f"{row['module']}:{row['line']} [{row['kind']}] {reason or 'no reason'}: {row['words']}")
    for entry in equivalents.stale():
        print(f"stale, its code is gone: {entry.module}, {entry.function}: {entry.code} : {entry.change}")
    _print_scores(table)
    print("survivors: " + ", ".join(f"{count} {kind}" for kind, count in kinds.most_common()))


def _print_scores(table: Dict[str, collections.Counter]) -> None:
    print(f"{'module':36} {'faults':>7} {'killed':>7} {'score':>7} {'explained':>9} {'without':>7}   wording alike")
    for name, count in sorted(table.items(), key=lambda pair: (pair[0] == "all", pair[0])):
        shown = []
        for group in ("rest", "wording"):
            dead, told, alive = (count[group, state] for state in ("killed", "explained", "alive"))
            every = dead + told + alive
            score, without = dead / max(1, every), dead / max(1, dead + alive)
            shown.append(f"{every:7} {dead:7} {score:7.1%} {told:9} {without:7.1%}")
        print(f"{name:36} " + "  ".join(shown))


def main() -> None:
    """Reads the command."""
    asked = argparse.ArgumentParser(prog="python -m tests.benchmarks.mutants")
    asked.add_argument("what", choices=["map", "draw", "run", "report"])
    asked.add_argument("--share", type=float, default=0.13, help="share of all faults that is drawn")
    asked.add_argument("--seed", type=int, default=7)
    asked.add_argument("--longest", type=float, default=2.0, help="seconds of tests that one fault is given")
    asked.add_argument("--afresh", action="store_true", help="those faults that need the library imported afresh")
    asked.add_argument("--only", default="", help="a part of the module's name")
    asked.add_argument("--least", type=float, default=0.0, help="only faults whose lot is this or higher")
    asked.add_argument("--again", action="store_true", help="try those that survived once more")
    asked.add_argument("--part", default="0/1", help="0/2 and 1/2 share the work between two processes")
    asked.add_argument("--survivors", action="store_true", help="list them too")
    given = asked.parse_args()
    os.chdir(ROOT)
    first, _, parts = given.part.partition("/")
    if given.what == "map":
        mapped()
    elif given.what == "draw":
        draw(given.share, given.seed, given.longest)
    elif given.what == "run":
        run(given.afresh, given.only, given.again, (int(first), int(parts)), given.least)
    else:
        report(given.survivors, given.only)


if __name__ == "__main__":
    main()
