"""Where a command writes: into a copy beside the workbook, into a file that is named, or in place with a backup.

One idea: what cannot be written is refused before the work is done, and no file is ever overwritten unasked.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any, Callable, Optional

import click

from brinecalc import files


def options(command: Callable[..., Any]) -> Callable[..., Any]:
    """The options of a command that writes a workbook: -o, --in-place and --overwrite."""
    where = "Where to write; by default beside the workbook."
    for option in (
        click.option("--overwrite", is_flag=True, help="Write even where a file of that name exists."),
        click.option("--in-place", is_flag=True, help="Write into the workbook itself, keeping a backup."),
        click.option("-o", "--output", "target", type=click.Path(path_type=Path), help=where),
    ):
        command = option(command)
    return command


def place(workbook: Path, target: Optional[Path], in_place: bool, overwrite: bool, word: str) -> Path:
    """Where the result goes; refuses early what would be refused after the work."""
    if in_place:
        if target is not None:
            raise files.FileTrouble("--in-place and -o exclude each other")
        return workbook
    chosen = target or files.beside(workbook, word)
    if chosen.is_dir():
        chosen = chosen / workbook.name
    if files.same(chosen, workbook):
        raise files.FileTrouble(f"{chosen} is the workbook itself; add --in-place instead of -o to change it")
    if chosen.suffix.lower() != workbook.suffix.lower():
        raise files.FileTrouble(f"{chosen} must end in {workbook.suffix} like the workbook itself")
    if chosen.exists() and not overwrite:
        raise files.FileTrouble(f"{chosen} exists already; give another name with -o, or add --overwrite")
    return chosen


def write(workbook: Path, chosen: Path, old: bytes, new: bytes, overwrite: bool) -> Optional[Path]:
    """Writes the new file; answers the backup where the workbook itself was changed."""
    if chosen != workbook:
        files.write(chosen, new, overwrite=overwrite)
        return None
    return files.replace(workbook, new, was=old) if new != old else None
