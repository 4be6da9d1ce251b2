"""The drawing scale: one for all sheets of a booklet, as large as their pages allow."""

from __future__ import annotations

from booklet.cutting.model import CutSheet
from booklet.drawing.scale import ROUND_SCALES, Scale
from booklet.pages.book import Book, open_book
from booklet.pages.cut_beside import GUTTER
from booklet.pages.cut_pages import fits_opening, settled_plan
from booklet.pages.cut_plan import LEAST_WORDS_WIDTH, figure_column
from booklet.pages.grid import GRIDS
from booklet.placing.worked import WorkedKit

# Below this width even the widest piece is too small to carry its chips, in points.
_SMALLEST_SENSIBLE = 130.0
# What any figure has around its piece, in points: the scale's band and one row of readings.
_LEAST_AROUND = 45.0


def choose_scale(worked: WorkedKit) -> Scale:
    """The largest round scale at which each sheet's figures and words fit an opening.

    A sheet with more stages than an opening holds at any sensible scale does not count: it goes on over the
    page.  Of a kit without cuts nothing is drawn to this scale, and the largest is as good as any.
    """
    wide_enough = [scale for scale in ROUND_SCALES if _leaves_words_room(worked, scale)] or [ROUND_SCALES[-1]]
    sensible = [s for s in wide_enough if figure_column(worked, s) >= _SMALLEST_SENSIBLE] or wide_enough[:1]
    books = [open_book(worked, scale) for scale in sensible]
    chosen = 0
    for sheet in worked.sheets:
        if sheet.stages:
            chosen = _first_fitting(sheet, books, chosen)
    return sensible[chosen]


def _leaves_words_room(worked: WorkedKit, scale: Scale) -> bool:
    width = GRIDS[worked.kit.page].text_width
    return figure_column(worked, scale) + GUTTER + LEAST_WORDS_WIDTH <= width


def _first_fitting(sheet: CutSheet, books: list[Book], start: int) -> int:
    """The place of the first book, from `start` on, in which a sheet fits; `start` where it fits in none."""
    for place in range(start, len(books)):
        book = books[place]
        if _may_fit(book, sheet) and fits_opening(book, settled_plan(book, sheet.index)):
            return place
    return start


def _may_fit(book: Book, sheet: CutSheet) -> bool:
    """Whether the bare figures are low enough for an opening: quick to see, and mostly decisive."""
    heights = [book.scale.points(stage.seen.height, book.unit) + _LEAST_AROUND for stage in sheet.stages]
    return sum(heights) <= 2 * book.grid.text_height and max(heights) <= book.grid.text_height
