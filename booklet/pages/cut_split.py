"""How a sheet's rows are shared out over pages: as few as hold them, filled as evenly as can be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

Split = tuple[tuple[int, ...], ...]


@dataclass(frozen=True)
class Rooms:
    """The room for rows on the first page and on each later one, in points, and the least gap between rows.

    `tail` is what must follow the last row on its page, `turning` what must follow on a right page that is
    turned in the middle of the sheet, their gaps included.
    """

    first: float
    later: float
    gap: float
    tail: float
    turning: float = 0.0


@dataclass(frozen=True)
class RowSize:
    """How high a row stands, and how much it wants to stay with the row before it, of the same stage.

    A row that begins a stage may as well begin a page: 0.  `title` is how much higher it stands where it
    begins a page and must say what it is.
    """

    height: float
    bond: int = 0
    title: float = 0.0


def split_rows(rows: Sequence[RowSize], rooms: Rooms) -> Split:
    """The rows of each page, as few pages as hold them.

    Of all ways with so many pages, the one that breaks the fewest bonds, then the one whose fullest page is
    least full.  A row that is higher than a page has one to itself.
    """
    splitter = _Splitter(tuple(rows), rooms)
    alone, split = splitter.best(0, 0, max(len(rows), 1))
    for pages in range(1, len(rows)):
        cost, fewer = splitter.best(0, 0, pages)
        if cost.overflow <= alone.overflow:
            return fewer
    return split


def fits(split: Split, rows: Sequence[RowSize], rooms: Rooms) -> bool:
    """Whether every page of a split holds its rows."""
    splitter = _Splitter(tuple(rows), rooms)
    last = len(split) - 1
    return all(
        not at or splitter.fill(at[0], at[-1] + 1, page, is_last=page == last) <= 1.0
        for page, at in enumerate(split)
    )


@dataclass(frozen=True, order=True)
class _Cost:
    """What makes one split worse than another, the worst first; a page's fullness is 1 where it is full."""

    overflow: float
    broken: int
    fullest: float


class _Splitter:
    """Finds the best split of some rows, from the last page forwards."""

    def __init__(self, rows: tuple[RowSize, ...], rooms: Rooms) -> None:
        self.rows = rows
        self.rooms = rooms
        self.best = lru_cache(maxsize=None)(self._best)

    def fill(self, start: int, end: int, page: int, *, is_last: bool) -> float:
        """How full a page is with these rows."""
        rows = self.rows[start:end]
        heights = sum(row.height for row in rows) + sum(row.title for row in rows[:1])
        gaps = self.rooms.gap * max(end - start - 1, 0)
        room = self.rooms.later if page else self.rooms.first
        foot = self.rooms.tail if is_last else self.rooms.turning if page % 2 else 0.0
        return (heights + gaps + foot) / room

    def _best(self, start: int, page: int, pages: int) -> tuple[_Cost, Split]:
        """The best way to share the rows from `start` on over the pages from `page` on."""
        if page == pages - 1:
            fill = self.fill(start, len(self.rows), page, is_last=True)
            return _Cost(max(fill, 1.0), 0, fill), (tuple(range(start, len(self.rows))),)
        choices = []
        for end in range(start + 1, len(self.rows) - (pages - page - 1) + 1):
            fill = self.fill(start, end, page, is_last=False)
            rest, split = self.best(end, page + 1, pages)
            cost = _Cost(max(fill, rest.overflow), rest.broken + self.rows[end].bond, max(fill, rest.fullest))
            choices.append((cost, (tuple(range(start, end)), *split)))
        # A tie goes to the fuller earlier page: rows are read from the front.
        return min(reversed(choices), key=lambda choice: choice[0])
