"""Sheets put on openings: no page is turned in the middle of a sheet, and no page is left empty for it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.cutting.model import CutSheet
from booklet.pages.book import Book
from booklet.pages.cut_pages import settled_plan, sheet_pages, sheet_split
from booklet.pages.page import Block, Start


@dataclass(frozen=True)
class Side:
    """Where a sheet's pages begin, and how many they are."""

    start: Start
    pages: int


def settle_sides(counts: Sequence[int]) -> tuple[Side, ...]:
    """Where sheets of so many pages begin.

    One of several pages begins on the left.  Where the sheet before it would leave the right page empty, that
    one has a page more, on which all its pieces are shown.  The first sheet lies on whichever side makes
    fewer such pages; sheets of one page each may begin anywhere.
    """
    if all(count == 1 for count in counts):
        return tuple(Side(Start.ANYWHERE, 1) for _ in counts)
    return min((_sides_from(start, counts) for start in (Start.LEFT, Start.RIGHT)), key=_page_count)


def _page_count(sides: Sequence[Side]) -> int:
    return sum(side.pages for side in sides)


def _sides_from(start: Start, counts: Sequence[int]) -> tuple[Side, ...]:
    """The sides if the first sheet begins there; one of several pages cannot begin on the right."""
    if start is Start.RIGHT and counts[0] > 1:
        start = Start.LEFT
    sides = []
    for place, count in enumerate(counts):
        next_is_long = place + 1 < len(counts) and counts[place + 1] > 1
        ends_left = (count % 2 == 1) == (start is Start.LEFT)
        pages = count + 1 if ends_left and next_is_long else count
        sides.append(Side(start, pages))
        start = Start.RIGHT if (pages % 2 == 1) == (start is Start.LEFT) else Start.LEFT
    return tuple(sides)


def sheet_blocks(book: Book, sheets: Sequence[CutSheet]) -> tuple[Block, ...]:
    """A block of pages for each sheet, in the given order."""
    plans = [settled_plan(book, sheet.index) for sheet in sheets]
    splits = [sheet_split(book, plan) for plan in plans]
    sides = settle_sides([len(split) for split in splits])
    blocks = []
    for plan, split, side in zip(plans, splits, sides, strict=True):
        with_map = (*split, *[()] * (side.pages - len(split)))
        blocks.append(Block(sheet_pages(book, plan.sheet.index, with_map), side.start))
    return tuple(blocks)
