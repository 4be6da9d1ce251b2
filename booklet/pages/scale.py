"""The drawing scale: one for all sheets of a booklet, as large as their pages allow."""

from __future__ import annotations

from booklet.cutting.model import CutSheet
from booklet.drawing.scale import ROUND_SCALES, Scale
from booklet.pages.book import Book, open_book
from booklet.pages.cut_beside import GUTTER
from booklet.pages.cut_pages import fits_opening, settled_plan
from booklet.pages.cut_plan import LEAST_WORDS_WIDTH, figure_column
from booklet.placing.worked import WorkedKit

# Below this width even the widest piece is too small to carry its chips, in points.
_SMALLEST_SENSIBLE = 130.0


def choose_scale(worked: WorkedKit) -> Scale:
    """The largest round scale at which each sheet's figures and words fit an opening.

    A sheet with more stages than an opening holds at any sensible scale does not count: it goes on over the
    page.  Of a kit without cuts nothing is drawn to this scale, and the largest is as good as any.
    """
    sheets = [sheet for sheet in worked.sheets if sheet.stages]
    wide_enough = [scale for scale in ROUND_SCALES if _leaves_words_room(worked, scale)] or [ROUND_SCALES[-1]]
    sensible = [s for s in wide_enough if figure_column(worked, s) >= _SMALLEST_SENSIBLE] or wide_enough[:1]
    chosen = 0
    for sheet in sheets:
        fitting = _first_fitting(worked, sheet, sensible, chosen)
        chosen = chosen if fitting is None else fitting
    return sensible[chosen]


def _leaves_words_room(worked: WorkedKit, scale: Scale) -> bool:
    book = open_book(worked, scale)
    return figure_column(worked, scale) + GUTTER + LEAST_WORDS_WIDTH <= book.grid.text_width


def _first_fitting(worked: WorkedKit, sheet: CutSheet, scales: list[Scale], start: int) -> int | None:
    """The place of the first scale, from `start` on, at which a sheet fits; None where it fits at none."""
    for place in range(start, len(scales)):
        book = open_book(worked, scales[place])
        if _may_fit(book, sheet) and fits_opening(book, settled_plan(book, sheet.index)):
            return place
    return None


def _may_fit(book: Book, sheet: CutSheet) -> bool:
    """Whether the bare pieces are low enough for an opening: quick to see, and mostly decisive."""
    bare = sum(book.scale.points(stage.seen.height, book.unit) for stage in sheet.stages)
    highest = max(book.scale.points(stage.seen.height, book.unit) for stage in sheet.stages)
    return bare <= 2 * book.grid.text_height and highest <= book.grid.text_height
