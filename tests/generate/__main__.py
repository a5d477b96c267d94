"""Writes everything that is generated and kept in the project: ``python -m tests.generate``.

One idea: whoever changes a function or a table runs this one command; the tests compare each file with what it writes.
"""

from __future__ import annotations

from brinecalc.workbook import publish
from tests.generate import documents, units


def main() -> None:
    """The unit table first, since the rest is made with it."""
    units.main()
    documents.update()
    publish.publish(documents.ROOT / "workbooks")


if __name__ == "__main__":
    main()
