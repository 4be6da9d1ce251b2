"""The photo planner: a line for each photograph of each layout, to note which one it will be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from reportlab.platypus import Flowable

from booklet.drawing.marks.photo_slot import photo_pictogram
from booklet.kit.kit import layout_title
from booklet.pages.book import Book
from booklet.pages.flow import FigureBox, Gap, Stack
from booklet.pages.head import page_head
from booklet.pages.lists import list_table
from booklet.pages.page import Laid, Page, break_story, story_height
from booklet.pages.pen import with_room_to_write
from booklet.pages.photo_size import photo_size
from booklet.pages.type import words
from booklet.placing.model import PlacedLayout
from booklet.placing.photos import PhotoSlot, photo_slots

_TITLE = "Photo planner"
_GUTTER = 18.0
# How high a line may be, the highest first: all room that a page leaves is for the pen.
_LINES = (44.0, 38.0, 32.0, 28.0, 24.0)
_PICTOGRAM = 18.0
_BETWEEN = 10.0
# Picture and size; the rest of the line is for a pen.
_PICTURE_WIDTH, _SIZE_WIDTH = 24.0, 44.0


def planner_pages(book: Book) -> Iterator[Page]:
    """The layouts that take photographs, in two columns a page; nothing if none does."""
    if not _groups(book, _LINES[-1]):
        return
    column = (book.grid.text_width - _GUTTER) / 2
    top = story_height(_head(book), book.grid.text_width)
    columns = _highest(book, column, book.grid.text_height - top)
    for at in range(0, len(columns), 2):
        # Every page bears its own head, for it may stand far from the one before.
        laid = list(break_story(_head(book), book.grid.text_width, book.grid.text_height)[0])
        for place, parts in enumerate(columns[at : at + 2]):
            laid += [
                Laid(part.flowable, place * (column + _GUTTER), top + part.y, column, part.height)
                for part in parts
            ]
        page = Page(tuple(laid), _TITLE, bookmark=_TITLE if not at else None)
        yield with_room_to_write(book, page, "Notes")


def _head(book: Book) -> list[Flowable]:
    return page_head(book, "To write in", _TITLE, "Note beside each frame which photograph it will hold.")


def _highest(book: Book, column: float, room: float) -> list[tuple[Laid, ...]]:
    """The columns with the highest lines that take no more pages than the lowest would."""
    least = _columns(_groups(book, _LINES[-1]), column, room)
    for line in _LINES[:-1]:
        groups = _groups(book, line)
        if max(story_height([group], column) for group in groups) <= room:
            columns = _columns(groups, column, room)
            if _pages(columns) <= _pages(least):
                return columns
    return least


def _pages(columns: Sequence[tuple[Laid, ...]]) -> int:
    return (len(columns) + 1) // 2


def _columns(groups: Sequence[Flowable], width: float, room: float) -> list[tuple[Laid, ...]]:
    """The groups one under another in columns; two columns of about one height where they fit a page."""
    whole = story_height(groups, width)
    tallest = max(story_height([group], width) for group in groups)
    return break_story(groups, width, min(room, max(whole / 2 + tallest / 2, tallest)))


def _groups(book: Book, line: float) -> list[Flowable]:
    """The layouts that take photographs, each line of them so high."""
    groups = (_group(book, layout, line) for layout in book.resolved.layouts)
    return [group for group in groups if group is not None]


def _group(book: Book, layout: PlacedLayout, line: float) -> Flowable | None:
    slots = photo_slots(layout, book.unit)
    if not slots:
        return None
    column = (book.grid.text_width - _GUTTER) / 2
    rows = [_row(book, slot) for slot in slots]
    widths = (_PICTURE_WIDTH, _SIZE_WIDTH, column - _PICTURE_WIDTH - _SIZE_WIDTH)
    table = list_table(book, rows, widths, row_height=line)
    title = layout_title(book.kit.layouts[layout.index])
    return Stack([words(title, book.styles.small_bold), table, Gap(_BETWEEN)])


def _row(book: Book, slot: PhotoSlot) -> list[str | Flowable]:
    picture = FigureBox(photo_pictogram(slot.size, _PICTOGRAM, book.drawing))
    return [picture, photo_size(slot.size, book.unit), ""]
