"""``brinecalc calc IN.xlsx``: computes every formula of a workbook and writes the values into a copy."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, List, Optional, Set

import click

from brinecalc import clock, files
from brinecalc.commands import output, own
from brinecalc.commands import target as targets

if TYPE_CHECKING:
    from brinecalc.hosts.headless import Problem, Report

_SHOWN = 20


@click.command("calc")
@click.argument("workbook", type=click.Path(path_type=Path))
@targets.options
@own.option
@click.option("--all", "every", is_flag=True, help=f"List every problem, not only the first {_SHOWN}.")
@click.option("--json", "as_json", is_flag=True, help="Print the summary for a program to read.")
def command(
    workbook: Path,
    target: Optional[Path],
    in_place: bool,
    overwrite: bool,
    ingredients: Optional[Path],
    every: bool,
    as_json: bool,
) -> None:
    """Compute every formula of WORKBOOK and write the values into a copy.

    All else in the file stays as it is, but for the date of saving. Of a production workbook it tells first what fails,
    what must not be started and what it costs. The exit status is 1 if any formula ends in an error or cannot be
    computed with certainty, and 2 if the file cannot be used.
    """
    try:
        place = targets.place(workbook, target, in_place, overwrite, "computed")
        content = files.read(workbook)
        own.take_in(ingredients)
        from brinecalc.hosts.headless import properties
        from brinecalc.hosts.headless.trial import Trial
        from brinecalc.workbook import summary, unsettled

        trial = Trial(content, workbook.name, progress=output.progress)
        outcome = unsettled.settled(trial, workbook.name)
        plan = summary.lines(trial, workbook.name, clock.now())
        output.progress("")
        same = outcome.content == content
        made = content if same else properties.dated(outcome.content, workbook.name, clock.now())
        backup = targets.write(workbook, place, content, made, overwrite)
    except files.FileTrouble as trouble:
        output.progress("")
        if as_json:
            output.as_json({"workbook": str(workbook), "trouble": str(trouble)})
        click.echo(f"brinecalc: {output.text(str(trouble))}", err=True)
        sys.exit(2)
    report = outcome.report
    if as_json:
        written = {"workbook": str(workbook), "output": str(place), "backup": str(backup) if backup else None}
        output.as_json({**written, **({"plan": plan} if plan else {}), **report.as_dict()})
    else:
        head = f"{workbook} → {place}" if place != workbook else f"{workbook}"
        click.echo(output.text(head + (f" (backup: {backup.name})" if backup else "")))
        _tell(plan)
        _show(report, summary.behind(trial, workbook.name) if plan else set(), every)
    sys.exit(0 if report.clean else 1)


def _tell(plan: List[str]) -> None:
    for line in plan:
        click.echo(output.text(line))
    if plan:
        click.echo()


def _show(report: "Report", behind: Set[str], every: bool) -> None:
    found = [
        [s.name, s.formulas, *((0, s.errors) if s.name in behind else (s.errors, 0)), s.kept] for s in report.sheets
    ]
    rows: List[List[object]] = [["sheet", "formulas", "errors", "open", "not computed"], *found]
    if len(report.sheets) > 1:
        left = sum(s.errors for s in report.sheets if s.name in behind)
        rows.append(["all", report.formulas, report.errors - left, left, report.kept])
    click.echo(output.table(rows if behind else [row[:3] + row[4:] for row in rows]))
    errors = [problem for problem in report.problems if problem.error]
    kept = [problem for problem in report.problems if not problem.error]
    _list("Errors", [problem for problem in errors if problem.sheet not in behind], every)
    waiting = [problem for problem in errors if problem.sheet in behind]
    if waiting and every:
        _list("Open", waiting, every)
    elif waiting:
        where = " and ".join(sorted({problem.sheet for problem in waiting}))
        click.echo(
            f"\nOpen, for want of a price or figure: {len(waiting)} on {where}, behind the batches; --all lists each."
        )
    _list("Not computed", kept, every)
    for note in report.notes:
        click.echo(f"\nNote: {output.text(note)}.")


def _list(title: str, problems: List["Problem"], every: bool) -> None:
    if not problems:
        return
    click.echo(f"\n{title}")
    shown = problems if every else problems[:_SHOWN]
    for problem in shown:
        formula = problem.formula if len(problem.formula) <= 100 else problem.formula[:97] + "…"
        error = f"  {problem.error}" if problem.error else ""
        click.echo(output.text(f"  {problem.sheet}!{problem.cell}{error}  {formula}"))
        click.echo(output.text(f"      {problem.reason}"))
    if len(problems) > len(shown):
        click.echo(f"  … and {len(problems) - len(shown)} more; --all lists them")
