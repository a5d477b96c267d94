"""``brinecalc eval '=FORMULA'``: computes one formula without a workbook."""

from __future__ import annotations

import sys

import click

from brinecalc.commands import output


@click.command("eval", context_settings={"ignore_unknown_options": True})
@click.argument("formula")
@click.option("--json", "as_json", is_flag=True, help="Print the answer for a program to read.")
def command(formula: str, as_json: bool) -> None:
    """Compute FORMULA and print its value or table.

    Put the formula in quotation marks, since most shells read brackets and stars themselves:

    brinecalc eval '=BRINE_SALT(1000,5%)'

    An error is printed with its reason, and the exit status is 1.
    """
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
