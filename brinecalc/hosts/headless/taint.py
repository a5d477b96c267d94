"""Which formulas depend on a value that is not to be trusted.

One idea: doubt spreads along references. Starting from the doubtful cells, every formula that reads one of them is
doubtful too, and so on until nothing is added. Small ranges are looked up cell by cell, large ones are asked once per
round whether doubt has reached them.
"""

from __future__ import annotations

from bisect import bisect_left
from typing import Dict, Iterable, List, NamedTuple, Set, Tuple

from brinecalc.hosts.formulas.places import Area

_SMALL = 64

Cell = Tuple[str, int, int]
"""Sheet, row, column."""


class Reader(NamedTuple):
    """A formula as doubt sees it: the cells that it fills, and what it reads."""

    sheet: str
    fills: Area
    reads: Tuple[Tuple[str, Area], ...]


class Links:
    """Which readers read which cells, ready for any number of questions."""

    def __init__(self, readers: List[Reader]) -> None:
        self.readers = readers
        self.small: Dict[Cell, List[int]] = {}
        self.large: Dict[str, Dict[Area, List[int]]] = {}
        for index, reader in enumerate(readers):
            for sheet, area in reader.reads:
                if area.cells <= _SMALL:
                    for row in range(area.top, area.bottom + 1):
                        for col in range(area.left, area.right + 1):
                            self.small.setdefault((sheet, row, col), []).append(index)
                else:
                    self.large.setdefault(sheet, {}).setdefault(area, []).append(index)

    def spread(self, doubtful: Set[int]) -> Dict[int, int]:
        """Every further doubtful reader and the reader that it caught the doubt from."""
        return _Spread(self, doubtful).run()


class _Spread:
    def __init__(self, links: Links, doubtful: Set[int]) -> None:
        self.readers = links.readers
        self.caught: Dict[int, int] = {}
        self.doubtful = set(doubtful)
        self.small = links.small
        self.large = {sheet: dict(areas) for sheet, areas in links.large.items()}  # what is reached is taken out

    def run(self) -> Dict[int, int]:
        fresh = list(self.doubtful)
        while fresh:
            reached = self.through_small(fresh)
            fresh = self.through_large(reached)
        return self.caught

    def through_small(self, fresh: List[int]) -> List[int]:
        """All that follow by single cells and small ranges, to the end; gives everyone reached."""
        reached = list(fresh)
        for index in reached:  # the list grows while it is gone through
            for cell in _filled(self.readers[index]):
                reached += self.infect(self.small.get(cell, ()), index)
        return reached

    def through_large(self, reached: List[int]) -> List[int]:
        columns: Dict[Tuple[str, int], List[Tuple[int, int]]] = {}
        for index in reached:
            for sheet, row, col in _filled(self.readers[index]):
                columns.setdefault((sheet, col), []).append((row, index))
        for rows in columns.values():
            rows.sort()
        fresh: List[int] = []
        for sheet, areas in self.large.items():
            touched = [(col, rows) for (name, col), rows in columns.items() if name == sheet]
            for area in list(areas):
                source = _inside(area, touched)
                if source >= 0:
                    fresh += self.infect(areas.pop(area), source)
        return fresh

    def infect(self, indexes: Iterable[int], source: int) -> List[int]:
        new = [index for index in dict.fromkeys(indexes) if index not in self.doubtful]
        self.doubtful.update(new)
        for index in new:
            self.caught[index] = source
        return new


def _filled(reader: Reader) -> Iterable[Cell]:
    area = reader.fills
    for row in range(area.top, area.bottom + 1):
        for col in range(area.left, area.right + 1):
            yield reader.sheet, row, col


def _inside(area: Area, touched: List[Tuple[int, List[Tuple[int, int]]]]) -> int:
    """The formula that fills a cell of the area, or -1."""
    for col, rows in touched:
        if area.left <= col <= area.right:
            at = bisect_left(rows, (area.top, -1))
            if at < len(rows) and rows[at][0] <= area.bottom:
                return rows[at][1]
    return -1
