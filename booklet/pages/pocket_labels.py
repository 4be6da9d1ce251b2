"""Labels for the sorter's pockets, to cut out and stick on: the number and the layouts that it serves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import cast

from reportlab.platypus import Flowable

from booklet.drawing.shapes.figure import Figure, Fill, Rect, Shape, Stroke
from booklet.drawing.writers.pdf_writer import draw_figure
from booklet.kit.kit import layout_title
from booklet.pages.book import Book
from booklet.pages.filed import pocket_figure
from booklet.pages.flow import Beside, BookCanvas, FigureBox, Gap, Stack
from booklet.pages.head import page_head
from booklet.pages.page import Page, PageName, flow, story_height
from booklet.pages.pen import with_room_to_write
from booklet.pages.type import words

_TITLE = "Pocket labels"
_LEAST_HEIGHT, _GREATEST_HEIGHT = 74.0, 96.0
_GAP = 12.0
_PADDING = 10.0
_NUMBER_SIZE = 34.0
_MOST_TITLES = 3


def label_pages(book: Book) -> Iterator[Page]:
    """Labels in two columns, as many as a page holds; more pages where there are more pockets."""
    pockets = sorted({layout.pocket for layout in book.kit.layouts})
    lead = "Print or copy this page, cut along the dashed lines, and stick a label on each pocket."
    width, height = book.grid.text_width, book.grid.text_height
    head = page_head(book, "To cut out", _TITLE, lead)
    room = height - story_height(head, width)
    rows = min(-(-len(pockets) // 2), int((room + _GAP) / (_LEAST_HEIGHT + _GAP)))
    high = min((room + _GAP) / rows - _GAP, _GREATEST_HEIGHT)
    for start in range(0, len(pockets), 2 * rows):
        story = page_head(book, "To cut out", _TITLE, lead)
        shown = pockets[start : start + 2 * rows]
        for at in range(0, len(shown), 2):
            story += [_row(book, shown[at : at + 2], high), Gap(_GAP)]
        page = flow(story[:-1], book.grid, PageName(_TITLE, _TITLE if not start else None))[0]
        yield with_room_to_write(book, page, "Notes")


def _row(book: Book, pockets: Sequence[int], height: float) -> Flowable:
    width = (book.grid.text_width - _GAP) / 2
    return Beside([(PocketLabel(book, pocket, height), width) for pocket in pockets], _GAP)


class PocketLabel(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """One label within dashed lines."""

    def __init__(self, book: Book, pocket: int, height: float) -> None:
        super().__init__()
        self.style = book.drawing
        self.height = height
        figure = pocket_figure(pocket, book.drawing.with_changes(disc_text_size=_NUMBER_SIZE))
        titles = [layout_title(layout) for layout in book.kit.layouts if layout.pocket == pocket]
        self.picture = FigureBox(figure)
        # More would not fit a label, and the number alone finds the pocket.
        self.titles = Stack([words(title, book.styles.body) for title in titles[:_MOST_TITLES]])

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """As wide as the column."""
        self.width = width
        self.picture_width, self.picture_height = self.picture.wrap(width, height)
        room = width - self.picture_width - 3 * _PADDING
        self.text_height = self.titles.wrap(room, height)[1]
        return self.width, self.height

    def draw(self) -> None:
        """Draw the dashed frame, the number, the titles."""
        canvas = cast(BookCanvas, self.canv)
        figure = Figure("label", self.width, self.height, self._frame(), "A label", "")
        draw_figure(figure, canvas.resources, 0.0, self.height)
        self.picture.drawOn(canvas, _PADDING, (self.height - self.picture_height) / 2)
        self.titles.drawOn(canvas, self.picture_width + 2 * _PADDING, (self.height - self.text_height) / 2)

    def _frame(self) -> tuple[Shape, ...]:
        palette = self.style.palette
        line = Stroke(palette.soft_ink, self.style.dimension_width, (4.0, 3.0))
        return (Rect(0.4, 0.4, self.width - 0.8, self.height - 0.8, Fill(palette.paper), line),)
