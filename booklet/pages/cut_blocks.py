"""Sheets put on openings: no page is turned in the middle of a sheet, and no page is left empty for it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.cutting.model import CutSheet
from booklet.pages.book import Book
from booklet.pages.cut_pages import look_of, over_pages, sheet_pages, sheet_split
from booklet.pages.cut_plan import plan_sheet
from booklet.pages.page import Block, Start


@dataclass(frozen=True)
class Side:
    """Where a sheet's pages begin, and how many they are."""

    start: Start
    pages: int


def settle_sides(counts: Sequence[int]) -> tuple[Side, ...]:
    """Where sheets of so many pages begin.

    One of several pages begins on the left.  Where the sheet before it would leave the right page empty, that
    one is spread over two pages instead.  Sheets of one page each may begin anywhere until one of several
    comes.
    """
    if all(count == 1 for count in counts):
        return tuple(Side(Start.ANYWHERE, 1) for _ in counts)
    sides: list[Side] = []
    left = True
    for place, count in enumerate(counts):
        following = counts[place + 1] if place + 1 < len(counts) else 1
        pages = count
        if left and count % 2 and following > 1:
            pages = count + 1
        sides.append(Side(Start.LEFT if left else Start.RIGHT, pages))
        left = left == (pages % 2 == 0)
    return tuple(sides)


def sheet_blocks(book: Book, sheets: Sequence[CutSheet]) -> tuple[Block, ...]:
    """A block of pages for each sheet, in the given order."""
    plans = [plan_sheet(book.worked, sheet.index, look_of(book)) for sheet in sheets]
    splits = [sheet_split(book, plan) for plan in plans]
    sides = settle_sides([len(split) for split in splits])
    blocks = []
    for plan, split, side in zip(plans, splits, sides, strict=True):
        spread = split if len(split) == side.pages else over_pages(book, plan, side.pages)
        blocks.append(Block(sheet_pages(book, plan.sheet.index, spread), side.start))
    return tuple(blocks)
