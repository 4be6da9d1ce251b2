"""The page of the pile: in which order to stack the sheets before the first cut, and how each lies."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable

from booklet.cutting.model import CutSheet
from booklet.drawing.cutting.pile_figure import PileLook, pile_figure
from booklet.kit.kit import Assembly, Kit, sheet_title
from booklet.pages.book import Book
from booklet.pages.cut_words import lying_words, number_word
from booklet.pages.flow import Beside, FigureBox, Gap, Stack
from booklet.pages.head import page_head, story_pages
from booklet.pages.lists import bare_table
from booklet.pages.page import Block, story_height
from booklet.pages.type import TextBlock, bold, line_break, run
from booklet.sorting.pile import pile

_LONGEST = 112.0
_DEPTH = PileLook(_LONGEST, 0.0, 0.0).depth
_FIGURE_WIDTH = 178.0
_GUTTER = 8.0
_BETWEEN = 3.0
_WIDEST_PITCH = 30.0


def pile_blocks(book: Book) -> tuple[Block, ...]:
    """The pile from the top down; nothing for a single sheet."""
    if not has_pile(book.kit):
        return ()
    sheets = pile(book.kit, book.resolved.sheets, book.resolved.ledger)
    story = page_head(book, "Before you cut", "The pile", pile_words(book))
    room = book.grid.text_height - story_height(story, book.grid.text_width) - _DEPTH
    most = max(1, int(room / _least_pitch(book, sheets)))
    for start in range(0, len(sheets), most):
        story.append(_part(book, sheets[start : start + most], room))
    return (Block(story_pages(book, story, "The pile", "pile")),)


def _least_pitch(book: Book, sheets: Sequence[CutSheet]) -> float:
    """How far the sheets must lie apart for the words of each to stand beside it."""
    return max(story_height([_words(book, sheet)], _words_width(book)) for sheet in sheets) + _BETWEEN


def has_pile(kit: Kit) -> bool:
    """Whether there is more than one sheet to stack."""
    return sum(sheet.count for sheet in kit.sheets) > 1


def pile_words(book: Book) -> str:
    """How to stack the sheets, and why so."""
    said = "Stack the sheets like this before the first cut."
    whole = [sheet for sheet in book.resolved.sheets if not sheet.stages]
    if book.kit.pile:
        return f"{said} Then take them from the top, one after another."
    cut = "Then take them from the top as you cut"
    if not whole:
        return f"{said} {cut}."
    first = "the last" if book.kit.assembly is Assembly.LAST else "the first"
    return f"{said} {cut}; what is left whole lies below, the paper of {first} layout on top."


def _part(book: Book, sheets: Sequence[CutSheet], room: float) -> Flowable:
    """One stretch of the pile: the drawing, and beside each leader the words of its sheet."""
    pitch = min(_WIDEST_PITCH, room / len(sheets))
    pitch = max(pitch, _least_pitch(book, sheets))
    look = PileLook(_LONGEST, pitch, _FIGURE_WIDTH)
    figure = pile_figure(book.resolved, book.papers, sheets, look, book.drawing)
    width = _words_width(book)
    rows = [[_words(book, sheet)] for sheet in sheets]
    lines = bare_table(
        book,
        rows,
        [width],
        commands=[("TOPPADDING", (0, 0), (-1, -1), 0), ("BOTTOMPADDING", (0, 0), (-1, -1), 0)],
        row_height=pitch,
    )
    beside = Stack([Gap(_DEPTH - pitch / 2), lines])
    return Beside([(FigureBox(figure), _FIGURE_WIDTH), (beside, width)], _GUTTER)


def _words_width(book: Book) -> float:
    return book.grid.text_width - _FIGURE_WIDTH - _GUTTER


def _words(book: Book, sheet: CutSheet) -> Flowable:
    style = book.styles.small
    count = f", {number_word(sheet.sheet.count)} sheets" if sheet.sheet.count > 1 else ""
    lying = (lying_words(book.resolved, sheet) or "either way up") if sheet.stages else "left whole"
    title = bold(f"{sheet.number}\u00a0\u00a0{sheet_title(book.kit, sheet.sheet)}", style)
    counted = (run(count, style),) if count else ()
    return TextBlock.of(style, title, *counted, line_break(style), run(lying, style))
