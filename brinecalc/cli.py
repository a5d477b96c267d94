"""The command line: ``brinecalc COMMAND``.

One idea: a command is a module under ``brinecalc/commands/`` that defines ``command``, and is imported only when it is
called. To add one, write the module and name it in ``COMMANDS``.
"""

from __future__ import annotations

import importlib
import sys
from typing import Any, List, Optional

import click

from brinecalc.version import VERSION

COMMANDS = {
    "eval": ("evaluate", "Compute one formula and print its value."),
    "calc": ("calc", "Compute every formula of a workbook, into a copy."),
    "new": ("new", "Make a production workbook, blank or with an example."),
    "share": ("share", "Make copies of a workbook for other people."),
    "reprice": ("reprice", "Put new prices into workbooks and show what changes."),
    "respell": ("respell", "Spell our functions as another spreadsheet program needs them."),
    "soak-chart": ("soak_chart", "Print hours to soak and to rest, by product and thickness."),
    "functions": ("functions", "List the worksheet functions, or describe one."),
    "install": ("install", "Put the functions into a spreadsheet program."),
    "uninstall": ("uninstall", "Take them out again."),
    "doctor": ("doctor", "Say what is installed, what is missing and what to do."),
    "version": ("version", "Print the version."),
}
"""Name → module, and the line that stands in the list of commands."""


class Commands(click.Group):
    """The commands, each loaded when it is needed."""

    def list_commands(self, ctx: click.Context) -> List[str]:
        """Their names, in the order of the list."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> Optional[click.Command]:
        """Imports the command's module."""
        if cmd_name not in COMMANDS:
            return None
        module = importlib.import_module(f"brinecalc.commands.{COMMANDS[cmd_name][0]}")
        command: click.Command = module.command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of commands, without importing any."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, line) for name, (_, line) in COMMANDS.items()])

    def resolve_command(self, ctx: click.Context, args: List[str]) -> Any:
        """The command meant; one that does not exist is answered with the nearest."""
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            import difflib

            near = difflib.get_close_matches(args[0], COMMANDS, n=1)
            meant = f"did you mean {near[0]}?" if near else "see brinecalc --help."
            ctx.fail(f"there is no command {args[0]}; {meant}")
        return super().resolve_command(ctx, args)


@click.command(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(VERSION, "--version", message="brinecalc %(version)s")
def app() -> None:
    """Brine formulation: worksheet functions, and workbooks that compute themselves."""


def main() -> None:
    """The entry point. Texts that a terminal cannot show are shown with a substitute, not with a crash."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")
    app(prog_name="brinecalc")
