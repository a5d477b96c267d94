"""``brinecalc soak-chart``: hours to soak and to rest, for every product or some, by thickness and strength."""

from __future__ import annotations

import math
import sys
from typing import TYPE_CHECKING, Any, Iterable, Optional, Tuple

import click

from brinecalc.commands import output

if TYPE_CHECKING:
    from brinecalc.trade.soak_chart import Row


@click.command("soak-chart")
@click.argument("product", nargs=-1)
@click.option("--temperature", default="4 °C", show_default=True, help="Of the brine, such as 4 or 38F.")
@click.option(
    "--bath", default="large", show_default=True, help="Brine water per weight of product, such as 1; or large."
)
@click.option("--target", default=None, help="Average salt wanted, such as 1%; left out, customary for the product.")
@click.option("--json", "as_json", is_flag=True, help="Print the rows for a program to read.")
def command(product: Tuple[str, ...], temperature: str, bath: str, target: Optional[str], as_json: bool) -> None:
    """Print the soak chart of each PRODUCT, or of all."""
    from brinecalc.errors import BrineError
    from brinecalc.trade import soak_chart

    try:
        water = _read("bath", bath.strip())
        rows = soak_chart.rows(
            product or None,
            _read("temperature", temperature),
            math.inf if water == "large" else water,
            None if target is None else _read("target", target),
        )
    except BrineError as error:
        error.argument = "PRODUCT" if error.argument == "product" else error.argument
        click.echo(f"brinecalc: {output.text(error.sentence())}", err=True)
        sys.exit(2)
    if as_json:
        output.as_json([row._asdict() for row in rows])
        return
    _print(rows)


def _read(option: str, given: str) -> Any:
    """The value of an option, read as the argument of that name of BRINE_SOAK_HOURS is, and refused under its name."""
    from brinecalc import readers, registry
    from brinecalc.errors import BrineError

    (argument,) = (each for each in registry.spec("SOAK_HOURS").arguments if each.name == option)
    try:
        return readers.reader(argument._replace(name=f"--{option}"))(given)
    except BrineError as error:
        error.advice = _WRITE.get(option, error.advice)
        raise


_WRITE = {"bath": "write brine water per weight of product as a plain number, such as 1 or 1.5, or large"}


def _print(rows: Iterable[Row]) -> None:
    """One line for each product, thickness and strength; columns in step."""
    click.echo("thickness  strength    soak, h (low to high)     rest, h (low to high)")
    name = ""
    for row in rows:
        if row.product != name:
            name = row.product
            click.echo(f"\n{name}: {100 * row.target:.3g} % salt wanted, {row.shape}")
        head = f"{row.thickness:6.0f} mm   {100 * row.strength:6.3g} %"
        soak = _hours(row.soak, row.soak_fast, row.soak_slow)
        rest = _hours(row.rest, row.rest_fast, row.rest_slow)
        click.echo(f"{head}    {soak:<25} {rest:<25} {row.note}".rstrip())


def _hours(likely: Optional[float], low: Optional[float], high: Optional[float]) -> str:
    from brinecalc.trade.soak_chart import shown

    if likely is None or low is None or high is None:
        return "     —"
    return f"{shown(likely):>6} ({shown(low)} to {shown(high)})"
