"""The drawing scale: one for all sheets of a booklet, as large as their pages allow."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.cutting.model import CutSheet
from booklet.drawing.shapes.scale import ROUND_SCALES, Scale
from booklet.pages.book import Book, open_book
from booklet.pages.cut_beside import GUTTER
from booklet.pages.cut_pages import fits_opening, fits_pages, settled_plan
from booklet.pages.cut_plan import LEAST_WORDS_WIDTH, figure_column
from booklet.pages.cut_rows import SheetPlan
from booklet.pages.grid import GRIDS
from booklet.placing.resolved import ResolvedKit

# A sheet that is drawn smaller than this at its longest is too small to carry its chips, in points.
_SMALLEST_SENSIBLE = 130.0
# What any figure has around its piece, in points: the scale's band and one row of readings.
_LEAST_AROUND = 45.0


def choose_scale(resolved: ResolvedKit) -> Scale:
    """The largest round scale at which each sheet's figures and words fit an opening.

    A sheet with more stages than an opening holds at any sensible scale goes on over the page: of it only
    each page must hold what stands on it.  Of a kit without cuts nothing is drawn to this scale, and the
    largest is as good as any.
    """
    wide_enough = [scale for scale in ROUND_SCALES if _leaves_words_room(resolved, scale)] or [
        ROUND_SCALES[-1]
    ]
    books = [open_book(resolved, scale) for scale in wide_enough]
    chosen = 0
    # The sheet with most to draw mostly settles the scale: asked first, it spares the others their trials.
    for sheet in sorted(resolved.sheets, key=_much, reverse=True):
        if sheet.stages:
            chosen = _first_fitting(sheet, books, chosen)
    return wide_enough[chosen]


def _much(sheet: CutSheet) -> tuple[int, int]:
    return len(sheet.stages), sum(len(stage.cuts) for stage in sheet.stages)


def _leaves_words_room(resolved: ResolvedKit, scale: Scale) -> bool:
    width = GRIDS[resolved.kit.page].text_width
    return figure_column(resolved, scale) + GUTTER + LEAST_WORDS_WIDTH <= width


def _first_fitting(sheet: CutSheet, books: Sequence[Book], start: int) -> int:
    """The place of the first book, from `start` on, in which a sheet fits an opening, or else its pages.

    The last one if it fits in none.
    """
    for place in range(start, len(books)):
        if place > start and not _is_sensible(books[place], sheet):
            break
        if _may_fit(books[place], sheet) and fits_opening(books[place], _plan(books[place], sheet)):
            return place
    on_pages = (at for at in range(start, len(books)) if fits_pages(books[at], _plan(books[at], sheet)))
    return next(on_pages, len(books) - 1)


def _plan(book: Book, sheet: CutSheet) -> SheetPlan:
    return settled_plan(book, sheet.index)


def _is_sensible(book: Book, sheet: CutSheet) -> bool:
    longest = max(max(stage.seen.width, stage.seen.height) for stage in sheet.stages)
    return book.scale.points(longest, book.unit) >= _SMALLEST_SENSIBLE


def _may_fit(book: Book, sheet: CutSheet) -> bool:
    """Whether the bare figures are low enough for an opening: quick to see, and mostly decisive."""
    heights = [book.scale.points(stage.seen.height, book.unit) + _LEAST_AROUND for stage in sheet.stages]
    return sum(heights) <= 2 * book.grid.text_height and max(heights) <= book.grid.text_height
