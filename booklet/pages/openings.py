"""How large sheets are drawn and on which pages their stages stand: settled from heights alone.

A sheet is seen without turning the page: it stands on one page, or on two that face each other.  Only one
with more stages than an opening holds goes on over the page.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

# A sheet drawn at one of several scales: the place of its scale, largest first, and the stages of each page.
Split = tuple[tuple[int, ...], ...]

_OPENING = 2


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
    """The room for stages on a sheet's first page and on each later one, in points, and the gap between two.

    `turning` is what a page must keep free that is turned in the middle of the sheet.
    """

    first: float
    later: float
    gap: float
    turning: float = 0.0


def fits(
    height: Callable[[int, int], float | None], stages: int, scales: int, rooms: Rooms
) -> tuple[Fit, ...]:
    """The ways to lay a sheet out: on one page, and on two, each at the largest scale that allows it.

    `height` gives the height of a stage at a scale, by their places, or None where its figure leaves no room
    for its words.  Where no opening holds the sheet, the one way is the fewest pages at the smallest scale.
    """
    found: list[Fit] = []
    for pages in range(1, _OPENING + 1):
        for scale in range(scales):
            heights = _heights(height, stages, scale)
            split = split_stages(heights, rooms, pages) if heights else None
            if split is not None:
                found.append(Fit(scale, split))
                break
    return tuple(found) or (_over_pages(height, stages, scales, rooms),)


def _heights(height: Callable[[int, int], float | None], stages: int, scale: int) -> list[float] | None:
    found = [height(stage, scale) for stage in range(stages)]
    return None if None in found else [each for each in found if each is not None]


def _over_pages(height: Callable[[int, int], float | None], stages: int, scales: int, rooms: Rooms) -> Fit:
    """As many pages as it takes at the smallest scale; a stage higher than a page has one to itself."""
    heights = [height(stage, scales - 1) or 0.0 for stage in range(stages)]
    for pages in range(_OPENING + 1, stages):
        split = split_stages(heights, rooms, pages)
        if split is not None:
            return Fit(scales - 1, split)
    return Fit(scales - 1, tuple((stage,) for stage in range(stages)))


def split_stages(heights: Sequence[float], rooms: Rooms, pages: int) -> Split | None:
    """The stages of each of so many pages, filled as evenly as can be; None where they do not fit."""

    @cache
    def best(start: int, page: int) -> tuple[float, Split] | None:
        room = (rooms.later if page else rooms.first) - (
            rooms.turning if page % _OPENING == 1 and page < pages - 1 else 0.0
        )
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


@dataclass(frozen=True, order=True)
class _Cost:
    """What a choice costs: pages, those left to fill among them, then how small it is drawn."""

    pages: int
    smallness: int


def choose_fits(ways: Sequence[Sequence[Fit]], starts_left: bool) -> tuple[Fit, ...]:
    """One way for each sheet, so that all take as few pages as can be, then are drawn as large as can be.

    A sheet of several pages begins on a left page; where the one before ends on the left, a page is filled.
    `starts_left` is the side on which the first sheet may begin.
    """

    @cache
    def best(at: int, is_left: bool) -> tuple[_Cost, tuple[Fit, ...]]:
        if at == len(ways):
            return _Cost(0, 0), ()
        choices = []
        for way in ways[at]:
            filled = int(way.pages > 1 and not is_left)
            pages = way.pages + filled
            cost, rest = best(at + 1, is_left == (pages % 2 == 0))
            total = _Cost(cost.pages + pages, cost.smallness + way.scale**2)
            choices.append((total, (way, *rest)))
        return min(choices, key=lambda choice: choice[0])

    return best(0, starts_left)[1]
