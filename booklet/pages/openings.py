"""How large sheets are drawn and on which pages their stages stand: settled from heights alone.

A sheet is seen without turning the page: it stands on one page, or on two that face each other.  Only one
with more stages than an opening holds goes on over the page.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from functools import cache

from booklet.measure.dataclass import dataclass

# The stages of each page.
Split = tuple[tuple[int, ...], ...]

OPENING = 2


@dataclass(frozen=True)
class Fit:
    """A way to lay a sheet out: the place of its scale among those tried, and the stages of each page."""

    scale: int
    split: Split

    @property
    def pages(self) -> int:
        """How many pages it takes."""
        return len(self.split)


@dataclass(frozen=True)
class Rooms:
    """The room for stages on a sheet's first page and on later ones, and between two stages, in points."""

    first: float
    later: float
    gap: float


def fits(
    height: Callable[[int, int], float | None], stages: int, scales: int, rooms: Rooms
) -> tuple[Fit, ...]:
    """The ways to lay a sheet out: on one page, and on two, each at the largest scale that allows it.

    `height` gives the height of a stage at a scale, by their places, or None where its figure leaves no room
    for its words.  At a smaller scale, which leaves more room for words, no stage is higher.  Where no
    opening holds the sheet, the one way is the fewest pages, at the largest scale that they allow.
    """

    @cache
    def heights(scale: int) -> list[float] | None:
        found = [height(stage, scale) for stage in range(stages)]
        return None if None in found else [each for each in found if each is not None]

    def split(scale: int, pages: int) -> Split | None:
        each = heights(scale)
        return split_stages(each, rooms, pages) if each else None

    found: list[Fit] = []
    for pages in range(1, stages + 1):
        if found and pages > OPENING:
            break
        # A scale that more pages allow is no smaller than one that fewer do.
        upto = found[-1].scale if found else scales
        scale = bisect_left(range(upto), True, key=lambda at: split(at, pages) is not None)
        if scale < scales and (fitting := split(scale, pages)):
            found.append(Fit(scale, fitting))
    return tuple(found) or (Fit(scales - 1, tuple((stage,) for stage in range(stages))),)


def split_stages(heights: Sequence[float], rooms: Rooms, pages: int) -> Split | None:
    """The stages of each of so many pages, filled as evenly as can be; None where they do not fit."""

    @cache
    def best(start: int, page: int) -> tuple[float, Split] | None:
        room = rooms.later if page else rooms.first
        ends = [len(heights)] if page == pages - 1 else range(start + 1, len(heights))
        choices: list[tuple[float, Split]] = []
        for end in ends:
            filled = sum(heights[start:end]) + rooms.gap * (end - start - 1)
            if filled > room or end <= start:
                continue
            rest = best(end, page + 1) if page < pages - 1 else (0.0, ())
            if rest is not None:
                choices.append((max(filled / room, rest[0]), (tuple(range(start, end)), *rest[1])))
        return min(choices, default=None)

    found = best(0, 0)
    return found[1] if found else None
