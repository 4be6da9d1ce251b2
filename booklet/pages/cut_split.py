"""How a sheet's rows are shared out over pages: as few as hold them, filled as evenly as can be."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from math import inf

Split = tuple[tuple[int, ...], ...]


def split_rows(heights: Sequence[float], gap: float, first: float, later: float, tail: float) -> Split:
    """The rows of each page, as few pages as hold them; `first` and `later` are the rooms of pages.

    `tail` is what must follow the last row on its page, gap included.  A row that is higher than a page has
    one to itself.
    """
    pages = 1
    while pages < len(heights):
        shared, fullest = _shared(tuple(heights), gap, first, later, tail, pages)
        if fullest <= 1.0:
            return shared
        pages += 1
    return _shared(tuple(heights), gap, first, later, tail, max(len(heights), 1))[0]


def even_split(
    heights: Sequence[float], gap: float, first: float, later: float, tail: float, pages: int
) -> Split:
    """The rows shared over exactly so many pages, filled as evenly as can be; the last may stay empty."""
    if pages > len(heights):
        return (*((at,) for at in range(len(heights))), *[()] * (pages - len(heights)))
    return _shared(tuple(heights), gap, first, later, tail, pages)[0]


def fits(split: Split, heights: Sequence[float], gap: float, first: float, later: float, tail: float) -> bool:
    """Whether every page of a split holds its rows."""
    fills = [
        _fill(
            [heights[at] for at in rows],
            gap,
            first if not page else later,
            tail if page == len(split) - 1 else 0,
        )
        for page, rows in enumerate(split)
    ]
    return max(fills) <= 1.0


def _shared(
    heights: tuple[float, ...], gap: float, first: float, later: float, tail: float, pages: int
) -> tuple[Split, float]:
    """The split whose fullest page is least full, and how full that is."""

    @cache
    def best(start: int, page: int) -> tuple[float, Split]:
        room = later if page else first
        if page == pages - 1:
            return _fill(heights[start:], gap, room, tail), (tuple(range(start, len(heights))),)
        choice: tuple[float, Split] = (inf, ())
        for end in range(start + 1, len(heights) - (pages - page - 1) + 1):
            rest_fill, rest = best(end, page + 1)
            fill = max(_fill(heights[start:end], gap, room, 0.0), rest_fill)
            # A tie goes to the fuller earlier page: rows are read from the front.
            if fill <= choice[0]:
                choice = (fill, (tuple(range(start, end)), *rest))
        return choice

    fullest, split = best(0, 0)
    return split, fullest


def _fill(heights: Sequence[float], gap: float, room: float, tail: float) -> float:
    return (sum(heights) + gap * max(len(heights) - 1, 0) + tail) / room
