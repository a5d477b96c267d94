"""Ingredients of the user's own on the command line: a CSV file that holds for one call.

One idea: the library is the same in every host, so nothing is kept; whoever computes names the file each time.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any, Callable, Optional

import click

from brinecalc import files

_LARGEST = 2_000_000  # bytes; far more than the rows that are taken

option: Callable[[Any], Any] = click.option(
    "--ingredients", type=click.Path(path_type=Path), help="A CSV file of your own ingredients (see README.md)."
)
"""The option of the commands that compute."""


def take_in(path: Optional[Path]) -> Optional[str]:
    """Takes in the ingredients of a file, all or none; FileTrouble says which cell is wrong. Answers what it read."""
    if path is None:
        return None
    content = files.read(path, _LARGEST)
    from brinecalc.errors import BrineError
    from brinecalc.trade import own

    text = files.text(content, str(path))
    try:
        own.extend(text)
    except BrineError as error:
        raise files.FileTrouble(f"{path}: {error.sentence()}") from error
    return text
