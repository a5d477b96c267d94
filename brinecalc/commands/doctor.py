"""``brinecalc doctor``: what is installed where, what is missing, and the one thing to do about it."""

from __future__ import annotations

import platform
import sys
from typing import List

import click

from brinecalc.commands import output, setups
from brinecalc.hosts.findings import OK, TROUBLE, Finding
from brinecalc.version import TABLE_DATE, VERSION


@click.command("doctor")
@click.option("--json", "as_json", is_flag=True, help="Print the findings for a program to read.")
def command(as_json: bool) -> None:
    """Say what is found on this machine, what is missing, and what to do.

    The exit status is 1 if something that is there does not work.
    """
    findings = look()
    if as_json:
        output.as_json([finding._asdict() for finding in findings])
    else:
        for finding in findings:
            click.echo(output.text(f"[{finding.state}] {finding}"))
    sys.exit(1 if any(finding.state == TROUBLE for finding in findings) else 0)


def look() -> List[Finding]:
    """The library itself, then each program."""
    itself = f"{VERSION}, tables of {TABLE_DATE}, on Python {platform.python_version()}"
    return [
        Finding("brinecalc", OK, itself),
        *(finding for name in setups.PROGRAMS for finding in setups.program(name).look()),
    ]
