"""``brinecalc eval '=FORMULA'``: computes one formula without a workbook."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Optional

import click

from brinecalc import files
from brinecalc.commands import output, own


@click.command("eval", context_settings={"ignore_unknown_options": True})
@click.argument("formula")
@own.option
@click.option("--json", "as_json", is_flag=True, help="Print the answer for a program to read.")
def command(formula: str, ingredients: Optional[Path], as_json: bool) -> None:
    """Compute FORMULA and print its value or table.

    Put the formula in quotation marks, since most shells read brackets and stars themselves:

    brinecalc eval '=BRINE_SALT(1000,5%)'

    An error is printed with its reason, and the exit status is 1.
    """
    try:
        own.take_in(ingredients)
    except files.FileTrouble as trouble:
        click.echo(f"brinecalc: {output.text(str(trouble))}", err=True)
        sys.exit(2)
    from brinecalc.hosts.headless import evaluate

    answer = evaluate(formula)
    if as_json:
        output.as_json({"formula": formula, **answer._asdict()})
    else:
        if answer.value is not None:
            click.echo(output.answer(answer.value))
        if answer.reason:
            click.echo(output.text(answer.reason))
    sys.exit(1 if answer.reason else 0)
