"""``brinecalc functions``: what worksheet functions there are, and what each one reads and gives."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any, Dict, List, Optional

import click

from brinecalc.commands import output
from brinecalc.hosts import texts

if TYPE_CHECKING:
    from brinecalc.describe import FunctionSpec


@click.command("functions")
@click.argument("name", required=False)
@click.option("--json", "as_json", is_flag=True, help="Print the list for a program to read.")
def command(name: Optional[str], as_json: bool) -> None:
    """List the worksheet functions, or describe the one called NAME (with or without its BRINE_)."""
    from brinecalc import registry
    from brinecalc.errors import BrineError

    if name is None:
        specs = [registry.spec(each) for each in registry.names()]
        if as_json:
            output.as_json([_plain(spec) for spec in specs])
        else:
            _list(specs)
        return
    try:
        spec = registry.spec(name)
    except BrineError as error:
        error.argument = "NAME"
        click.echo(f"brinecalc: {output.text(error.sentence())}", err=True)
        sys.exit(2)
    if as_json:
        output.as_json(_plain(spec))
    else:
        _describe(spec)


def _list(specs: Any) -> None:
    family = ""
    width = max(len(spec.name) for spec in specs)
    for spec in specs:
        if spec.family != family:
            click.echo(f"{'' if not family else chr(10)}{spec.family}")
            family = spec.family
        click.echo(f"  {spec.name.ljust(width)}  {spec.summary}")


def _describe(spec: "FunctionSpec") -> None:
    from brinecalc.describe import worked_examples

    click.echo(f"{spec.usage}\n{spec.summary}\n")
    width = max((len(argument.name) for argument in spec.arguments), default=0)
    for argument in spec.arguments:
        click.echo(f"  {argument.name.ljust(width)}  {texts.argument_help(argument)}")
    found = _headings(spec)
    if found:
        click.echo("\nHeadings, in any order; capitals, plural and a unit in brackets do not matter:")
    for heading in found:
        also = f" (also: {', '.join(heading['aliases'])})" if heading["aliases"] else ""
        click.echo(f"  {heading['heading']}: {heading['meaning']}{also}")
    click.echo(f"\nGives: {spec.result_text}")
    for example in worked_examples(spec)[:1]:
        click.echo(f"\nExample: {example.formula(spec.name)}\n{output.answer(example.answer)}")
    if spec.notes:
        click.echo(f"\n{spec.notes}")
    if spec.sources:
        click.echo(f"\nSources: {', '.join(spec.sources)}")


def _headings(spec: "FunctionSpec") -> List[Dict[str, Any]]:
    """The headings that a function reads in a production row; none for one that reads no row."""
    from brinecalc.trade import headings

    if not any(argument.name == "headings" for argument in spec.arguments):
        return []
    read = ("heading", "aliases", "meaning")
    return [{key: getattr(found, key) for key in read} for found in headings.accepted()]


def _plain(spec: "FunctionSpec") -> Dict[str, Any]:
    headings = _headings(spec)
    return {
        "name": spec.name,
        "family": spec.family,
        "usage": spec.usage,
        "summary": spec.summary,
        "arguments": [
            {
                "name": a.name,
                "kind": a.kind,
                "unit": a.unit,
                "required": a.required,
                "rule": a.rule,
                "meaning": a.meaning,
            }
            for a in spec.arguments
        ],
        **({"headings": headings} if headings else {}),
        "result": spec.result_text,
        "unit": spec.unit,
        "notes": spec.notes,
        "sources": list(spec.sources),
    }
