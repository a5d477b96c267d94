"""What several rooms share: a throwaway LibreOffice with our extension in it, and the order in which tests run.

No test rests on that order. It is chosen so that several processes are done at the same time.
"""

import gc
import os
import sys

import hypothesis
import pytest
from trials import remembering

from brinecalc.hosts.calc.office import find, find_all
from brinecalc.hosts.headless import library

os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # the many processes that tests start compile the library once
sys.dont_write_bytecode = False  # and those that run the tests prepare the tests once: two seconds for each
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # the processes of the tests share the processors already
gc.set_threshold(1_000_000, 50, 1_000)  # opened workbooks are kept, and looking through them takes a tenth
hypothesis.settings.register_profile("unhurried", deadline=None)  # no test rests on a time
hypothesis.settings.load_profile("unhurried")
library.REGISTRY.function = remembering(library.REGISTRY.function)


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items):
    """What asks LibreOffice comes first: one process has it open while the others do the rest.

    Then come the workbooks: the process that has opened one does most tests on it before others run out of work.
    """
    items.sort(key=lambda item: ("calc" not in getattr(item, "fixturenames", ()), item.path.parent.name != "workbook"))


def pytest_sessionfinish():
    """What is kept to the end is not looked through for garbage once more."""
    gc.freeze()


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config, log):
    """A process that is done takes over half of what another has left, unless another way is asked for."""
    if config.getvalue("dist") != "load":
        return None
    from xdist.scheduler import WorkStealingScheduling

    return WorkStealingScheduling(config, log)


@pytest.fixture(scope="session")
def office():
    """The LibreOffice of this machine; BRINECALC_OFFICE may name the program folder of another one."""
    found = next((one for one in find_all() if one.runs_us), find())
    if found is None or not found.runs_us:
        reason = f"{found} has no Python of 3.9 or later" if found else "LibreOffice is not installed on this machine"
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    return found


@pytest.fixture(scope="session")
def calc(office):
    """A LibreOffice of its own for this run, with the extension installed and no window."""
    from brinecalc.hosts.calc.session import Session

    with Session(office) as session:
        yield session


@pytest.fixture(scope="session")
def pyodide():
    """The folder of the npm package Pyodide; see ``tests/hosts/browser.py`` for where it is looked for."""
    import browser

    reason = browser.missing()
    if reason:
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    return browser.PYODIDE
