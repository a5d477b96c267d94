"""The documents as the tests read them: their code blocks and commands.

``python tests/readme.py test-command`` prints the command that sets up and passes the tests, so that nothing else has
to repeat it; ``update`` brings the generated parts up to date.
"""

from __future__ import annotations

import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).parent.parent
README = ROOT / "README.md"
DEVELOPERS = ROOT / "DEVELOPERS.md"
BY_HAND = ROOT / "tests" / "hosts" / "excel-by-hand.md"


def blocks(language: str, document: pathlib.Path = README) -> list[str]:
    """A document's code blocks in one language."""
    return re.findall(rf"```{language}\n(.*?)```", document.read_text(encoding="utf-8"), re.DOTALL)


def command(word: str) -> str:
    """The first shell block that holds a word."""
    return next(block.strip() for block in blocks("sh") if word in block)


if __name__ == "__main__":
    if sys.argv[1:] == ["update"]:
        sys.path.insert(0, str(ROOT))
        from tests.generate import documents

        documents.update()
    else:
        print(command("pytest"))
