"""A throwaway LibreOffice: its own profile, our extension, no window unless asked for; gone when done.

One idea: whoever wants to know what Calc makes of a formula or a workbook (tests, the benchmark, the comparison of
workbooks cell by cell) opens a session, gives it orders and reads plain values back. The person's own LibreOffice,
profile and extensions are never touched.

    with Session(find()) as calc:
        calc.evaluate(["=BRINE_SALT(1000;5%)"])      # [50.0]
        calc.workbook(Path("brine.xlsx"))            # {"Recipe": {"A1": "Water", "B1": 1000.0, …}, …}
"""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import uuid
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from brinecalc.hosts.calc import build
from brinecalc.hosts.calc.calls import SCRATCH, Call, Writer, column_name
from brinecalc.hosts.calc.office import Office

DRIVER = Path(__file__).with_name("driver.py")
_PATIENCE = 60
_PARTING = 15
_ROWS_AT_ONCE = 2000


class Session:
    """A LibreOffice of its own with the extension installed (or with none, or with other extensions)."""

    def __init__(self, office: Office, extensions: Sequence[Path] | None = None, display: str | None = None) -> None:
        self.office = office
        self.display = display
        self.folder = Path(tempfile.mkdtemp(prefix="brinecalc-office"))
        self._made = 0
        self._processes: list[subprocess.Popen[str]] = []
        try:
            self._install([build.build(self.folder)] if extensions is None else extensions)
            self._start()
        except BaseException:
            self.end()
            raise

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.end()

    def evaluate(self, formulas: Sequence[str]) -> list[Any]:
        """The value of each formula, typed as a person would (arguments parted by ``;``) into a new book."""
        with self.book() as book:
            values: list[Any] = []
            for start in range(0, len(formulas), _ROWS_AT_ONCE):
                part = [[formula] for formula in formulas[start : start + _ROWS_AT_ONCE]]
                first, last = start + 1, start + len(part)
                self.order("enter", book=book, sheet="", first=f"A{first}", rows=part)
                rows = self.order("read", book=book, sheet="", area=f"A{first}:A{last}")
                values += [row[0] for row in rows]
            return values

    def calls(self, calls: Sequence[Call]) -> list[Any]:
        """The answer to each call of a function, given as a name and cells: a cell, or rows of cells."""
        writer = Writer()
        formulas = [writer.formula(call) for call in calls]
        rows = [[f"={formula}", f"=ROWS({formula})", f"=COLUMNS({formula})"] for formula in formulas]
        with self.book() as book:
            self.order("enter", book=book, sheet=SCRATCH, first="A1", rows=writer.scratch())
            self.order("enter", book=book, sheet="", first="A1", rows=rows)
            read: list[list[Any]] = self.order("read", book=book, sheet="", area=f"A1:C{len(rows)}")
            return [
                self._table(book, formula, int(height), int(width))
                if isinstance(height, float) and height * width > 1
                else value
                for formula, (value, height, width) in zip(formulas, read)
            ]

    def _table(self, book: str, formula: str, height: int, width: int) -> list[list[Any]]:
        self._made += 1
        sheet, area = f"Table{self._made}", f"A1:{column_name(width)}{height}"
        self.order("enter_arrays", book=book, sheet=sheet, arrays={area: f"={formula}"})
        table: list[list[Any]] = self.order("read", book=book, sheet=sheet, area=area)
        return table

    def workbook(self, path: Path, recalculate: bool = True) -> dict[str, dict[str, Any]]:
        """The value of every filled cell of a workbook, by sheet and address; errors by their usual text."""
        with self.book(path) as book:
            if recalculate:
                self.order("recalculate", book=book)
            values: dict[str, dict[str, Any]] = self.order("values", book=book)
            return values

    def convert(self, path: Path, target: Path) -> Path:
        """Writes a workbook in the format that the target's name ends with: .pdf, .xlsx, .ods."""
        with self.book(path) as book:
            self.order("save", book=book, path=str(target))
        return target

    @contextmanager
    def book(self, path: Path | str | None = None, hidden: bool = True) -> Iterator[str]:
        """A new book, or that of a file, open as long as the block runs; its name goes into orders."""
        self._made += 1
        name = f"book{self._made}"
        if path is None:
            self.order("new", book=name, hidden=hidden)
        else:
            self.order("open", book=name, path=str(Path(path).resolve()), hidden=hidden)
        try:
            yield name
        finally:
            self.order("close", book=name)

    def order(self, order: str, **given: Any) -> Any:
        """Gives one order to the driver (see ``driver.Driver``) and answers what it answers."""
        driver = self._processes[-1]
        if driver.stdin is None:
            raise OfficeError("the session is closed")
        driver.stdin.write(json.dumps({"order": order, **given}) + "\n")
        driver.stdin.flush()
        return self._answer(driver)

    def end(self) -> None:
        """Closes LibreOffice and removes all that it left."""
        if len(self._processes) == 2 and all(process.poll() is None for process in self._processes):
            try:
                self.order("quit")
            except OfficeError as error:  # a question stands open in a window: it is ended below all the same
                print(error, file=sys.stderr)
        for process in reversed(self._processes):
            if process.stdin is not None:
                process.stdin.close()
            try:
                process.wait(_PARTING)
            except subprocess.TimeoutExpired:
                _stop(process)
            if process.stdout is not None:
                process.stdout.close()
        self._processes = []
        shutil.rmtree(self.folder, ignore_errors=True)

    def environment(self) -> dict[str, str]:
        """The variables under which LibreOffice's programs keep to the session's folder."""
        made = dict(os.environ, HOME=str(self.folder), UNO_SHARED_PACKAGES_CACHE=(self.folder / "shared").as_uri())
        for variable in ("PYTHONPATH", "PYTHONHOME", "DISPLAY", "WAYLAND_DISPLAY", "XDG_CONFIG_HOME"):
            made.pop(variable, None)
        if self.display:
            made["DISPLAY"] = self.display
        return made

    @property
    def profile(self) -> str:
        """The option that gives LibreOffice's programs the session's own profile."""
        return f"-env:UserInstallation={(self.folder / 'profile').as_uri()}"

    def _install(self, extensions: Sequence[Path]) -> None:
        for extension in extensions:
            subprocess.run(  # noqa: S603 - LibreOffice's own tool
                [str(self.office.tool("unopkg")), "add", "--shared", "--force", self.profile, str(extension)],
                env=self.environment(),
                check=True,
                capture_output=True,
                timeout=_PATIENCE,
            )

    def _start(self) -> None:
        pipe = f"brinecalc{uuid.uuid4().hex}"
        quiet = ["--norestore", "--nologo", "--nodefault", "--nofirststartwizard"]
        window = [] if self.display else ["--headless"]
        command = [str(self.office.tool("soffice")), *window, *quiet, f"--accept=pipe,name={pipe};urp", self.profile]
        log = (self.folder / "log.txt").open("w")
        self._processes.append(
            subprocess.Popen(  # noqa: S603 - LibreOffice itself, in a group of processes of its own
                command, env=self.environment(), stdout=log, stderr=log, text=True, start_new_session=True
            )
        )
        python, paths = _python(self.office)
        self._processes.append(
            subprocess.Popen(  # noqa: S603 - LibreOffice's own Python
                [python, str(DRIVER), pipe, str(_PATIENCE)],
                env={**self.environment(), "PYTHONPATH": os.pathsep.join(paths), "PYTHONIOENCODING": "utf-8"},
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=log,
                text=True,
                encoding="utf-8",
            )
        )
        log.close()
        self._answer(self._processes[-1])

    def _answer(self, driver: subprocess.Popen[str]) -> Any:
        line = driver.stdout.readline() if driver.stdout is not None else ""
        if not line:
            log = (self.folder / "log.txt").read_text(errors="replace")
            raise OfficeError(f"LibreOffice stopped answering: {log.strip()[-2000:]}")
        answer = json.loads(line)
        if "fault" in answer:
            raise OfficeError(answer["fault"])
        return answer["answer"]


class OfficeError(Exception):
    """LibreOffice did not do as it was told."""


def _stop(process: subprocess.Popen[str]) -> None:
    """Ends a program that does not end by itself, with the programs that it started as a group."""
    if hasattr(os, "killpg") and os.getpgid(process.pid) == process.pid:
        os.killpg(process.pid, signal.SIGKILL)
    process.kill()
    process.wait(_PARTING)


def _python(office: Office) -> tuple[str, list[str]]:
    """The Python that can talk to LibreOffice, and where it finds the package for that."""
    own = shutil.which("python", path=str(office.program))
    if own:
        return own, []
    beside = office.program.parent.parent / "python3" / "dist-packages"
    paths = [str(office.program), *([str(beside)] if beside.is_dir() else [])]
    return shutil.which("python3", path="/usr/bin:/usr/local/bin") or "python3", paths
