"""The cover: whose kit it is, what it is called, and every finished layout."""

from __future__ import annotations

from reportlab.platypus import Flowable

from booklet.drawing.figure import Figure
from booklet.pages.book import Book
from booklet.pages.flow import Beside, FigureBox, Gap, Rule
from booklet.pages.layout_figures import finished_across
from booklet.pages.page import Laid, Page, break_story, lay_on_one
from booklet.pages.spreads import spreads
from booklet.pages.type import words
from booklet.sorting.ledger import Entry

_GUTTER = 12.0
_MOST_COLUMNS = 4


def cover_page(book: Book) -> Page:
    """The front cover, without a page number; of very many layouts, as many as there is room for."""
    foot = _foot(book)
    width, (_, height) = book.grid.text_width, foot.wrap(book.grid.text_width, 100)
    room = book.grid.text_height - height
    lay_on_one(_title(book), width, room, "the front cover")
    laid = break_story([*_title(book), *_looks(book)], width, room)[0]
    bottom = Laid(foot, 0.0, book.grid.text_height - height, book.grid.text_width, height)
    return Page((*laid, bottom), book.kit.title, bookmark="Cover", anchor="cover", bare=True)


def _title(book: Book) -> list[Flowable]:
    kit = book.kit
    above = f"{kit.publisher}  ·  {kit.month}" if kit.month else kit.publisher
    return [
        words(above, book.styles.kicker),
        Gap(4.0),
        words(kit.title, book.styles.display),
        Rule(book.palette.accent, weight=1.6, before=8.0, after=14.0),
    ]


def _foot(book: Book) -> Flowable:
    layouts = len(book.kit.layouts)
    pieces = sum(1 for entry in book.worked.ledger.entries if _is_used(entry))
    counted = f"{layouts} layout{'s' if layouts != 1 else ''}, {pieces} pieces: cutting and assembly"
    return words(counted, book.styles.body)


def _is_used(entry: Entry) -> bool:
    return entry.use is not None


def _looks(book: Book) -> list[Flowable]:
    """The first spread across the page, the others below in as few columns as fit."""
    width = book.grid.text_width
    first, *others = spreads(book.kit)
    hero = _across(book, first, width if len(first) > 1 else width * 0.62)
    room = book.grid.text_height - 150.0 - hero.height
    parts: list[Flowable] = [FigureBox(hero), Gap(_GUTTER)]
    if not others:
        return parts
    columns = next(
        (c for c in range(1, _MOST_COLUMNS) if _rows_height(book, others, c) <= room), _MOST_COLUMNS
    )
    column = (width - (columns - 1) * _GUTTER) / columns
    for start in range(0, len(others), columns):
        row = [_across(book, spread, column) for spread in others[start : start + columns]]
        parts += [Beside([(FigureBox(figure), column) for figure in row], _GUTTER), Gap(_GUTTER)]
    return parts


def _across(book: Book, spread: tuple[int, ...], width: float) -> Figure:
    return finished_across(book, spread, width)


def _rows_height(book: Book, others: list[tuple[int, ...]], columns: int) -> float:
    column = (book.grid.text_width - (columns - 1) * _GUTTER) / columns
    rows = -(-len(others) // columns)
    highest = max(finished_across(book, spread, column).height for spread in others)
    return rows * (highest + _GUTTER)
