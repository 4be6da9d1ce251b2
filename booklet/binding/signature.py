"""The order of the pages on the press sheets of a saddle-stitched booklet.

The sheets are folded once, nested and stitched through the fold: each carries four pages, two to a side.
"""

from __future__ import annotations

from dataclasses import dataclass

from booklet.binding.errors import PageCountError

PAGES_PER_SHEET = 4


@dataclass(frozen=True)
class PressSide:
    """One side of a press sheet: the numbers, from 1, of the pages left and right of the fold."""

    left: int
    right: int


@dataclass(frozen=True)
class PressSheet:
    """One press sheet: its place in the nest (0 outermost) and its two sides.

    The front is the side that looks outwards once the sheet is folded.
    """

    number: int
    front: PressSide
    back: PressSide


def saddle_stitched(page_count: int) -> tuple[PressSheet, ...]:
    """The press sheets of a booklet of `page_count` pages, outermost first.

    Sheet s carries pages (N - 2s, 1 + 2s) on its front and (2 + 2s, N - 1 - 2s) on its back, so that the two
    pages of every side add up to N + 1.  Raises PageCountError unless N is a positive multiple of four.
    """
    if page_count <= 0 or page_count % PAGES_PER_SHEET:
        raise PageCountError(
            f"{page_count} pages do not fill whole press sheets: a saddle-stitched booklet has a multiple of "
            f"{PAGES_PER_SHEET} pages"
        )
    return tuple(_press_sheet(number, page_count) for number in range(page_count // PAGES_PER_SHEET))


def _press_sheet(number: int, page_count: int) -> PressSheet:
    first = 1 + 2 * number
    last = page_count - 2 * number
    return PressSheet(number, front=PressSide(last, first), back=PressSide(first + 1, last - 1))
