"""The workbooks that come with the project, written into a folder: ``python -m brinecalc.workbook.publish workbooks``.

One idea: the files that people download are what the builder makes, to the byte, so nobody edits them by hand; a
test builds them again and compares.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Dict

from brinecalc import files
from brinecalc.workbook import host_check
from brinecalc.workbook.book import Options
from brinecalc.workbook.create import PAPERS, create

BOOKS: Dict[str, Options] = {
    f"{kind}-{units.lower()}.xlsx": Options(units, PAPERS[units], kind == "example")
    for kind in ("template", "example")
    for units in ("metric", "US")
}
"""File name → what to build."""


def publish(folder: Path) -> None:
    """Writes every workbook into the folder."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, options in BOOKS.items():
        files.write(folder / name, create(options).content, overwrite=True)
        print(folder / name)
    files.write(folder / host_check.FILE_NAME, host_check.content(), overwrite=True)
    print(folder / host_check.FILE_NAME)


if __name__ == "__main__":
    publish(Path(sys.argv[1] if len(sys.argv) > 1 else "workbooks"))
