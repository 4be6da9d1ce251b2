"""The cover: whose kit it is, what it is called, and every finished layout."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable

from booklet.kit.spreads import spreads
from booklet.pages.book import Book
from booklet.pages.flow import Beside, FigureBox, Gap, Rule
from booklet.pages.layout_figures import finished_across
from booklet.pages.page import Laid, Page, PageOverflowError, lay_on_one, story_height
from booklet.pages.type import words
from booklet.sorting.ledger import LedgerEntry

_WHAT = "the front cover"
_GUTTER = 12.0
# How large the first looks are drawn, as a share of their best size, and in how many columns the others may
# then stand: the first with which all are on the page.
_SHARES = ((1.0, 4), (0.8, 5), (0.6, 6), (0.45, 8), (0.3, 16))
# A first layout that lies alone takes this share of the width, so that others have room below.
_ALONE = 0.62
# The title is set in the largest type that leaves this share of the page to the looks.
_LEAST_LOOKS = 0.55
# Less room than this, in points, shows nothing of a layout.
_LEAST_ROOM = 96.0


def cover_page(book: Book) -> Page:
    """The front cover, without a page number.

    Raises PageOverflowError where its title leaves no room for the looks.
    """
    width, height = book.grid.text_width, book.grid.text_height
    foot = _foot(book)
    _, foot_height = foot.wrap(width, 100)
    above = height - foot_height - _GUTTER
    title = _title(book, above)
    looks = _looks(book, above - story_height(title, width))
    laid = lay_on_one([*title, *looks], width, above, _WHAT)
    bottom = Laid(foot, 0.0, height - foot_height, width, foot_height)
    return Page((*laid, bottom), book.kit.title, bookmark="Cover", anchor="cover", bare=True)


def _title(book: Book, room: float) -> list[Flowable]:
    kit, styles = book.kit, book.styles
    above = f"{kit.publisher}  ·  {kit.month}" if kit.month else kit.publisher
    story: list[Flowable] = []
    for style in (styles.display, styles.title, styles.subtitle, styles.heading):
        story = [
            words(above, styles.kicker),
            Gap(4.0),
            words(kit.title, style),
            Rule(book.palette.accent, weight=1.6, before=8.0, after=14.0),
        ]
        if story_height(story, book.grid.text_width) <= (1 - _LEAST_LOOKS) * room:
            break
    return story


def _foot(book: Book) -> Flowable:
    layouts = _counted(len(book.kit.layouts), "layout")
    pieces = _counted(sum(1 for entry in book.resolved.ledger.entries if _is_used(entry)), "piece")
    return words(f"{layouts}, {pieces}: cutting and assembly", book.styles.body)


def _counted(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"


def _is_used(entry: LedgerEntry) -> bool:
    return entry.use is not None


def _looks(book: Book, room: float) -> list[Flowable]:
    """The first spread across the page, the others below in as few columns as fit."""
    first, *others = spreads(book.kit)
    best = _widest(
        book, first, book.grid.text_width * (1.0 if len(first) > 1 or not others else _ALONE), room
    )
    for share, most in _SHARES if room >= _LEAST_ROOM else ():
        hero = finished_across(book, first, best * share)
        if not others and hero.height <= room:
            return [FigureBox(hero)]
        for columns in range(1, most + 1):
            rows = _rows(book, others, columns)
            if hero.height + _GUTTER + story_height(rows, book.grid.text_width) <= room and others:
                return [FigureBox(hero), Gap(_GUTTER), *rows]
    raise PageOverflowError(f"{_WHAT}: its title leaves no room for the finished layouts; shorten it")


def _widest(book: Book, spread: Sequence[int], width: float, room: float) -> float:
    """How wide a look may be, up to `width`, that is to be no higher than the room."""
    high = finished_across(book, spread, width).height
    # A hair less than the room, which rounding could pass.
    return width if high <= room else width * (room - 0.1) / high


def _rows(book: Book, others: Sequence[tuple[int, ...]], columns: int) -> list[Flowable]:
    """The looks in rows; a layout that lies alone is as large as half of a spread."""
    column = (book.grid.text_width - (columns - 1) * _GUTTER) / columns
    widest = max((len(spread) for spread in others), default=1)
    rows: list[Flowable] = []
    for start in range(0, len(others), columns):
        looks = [
            finished_across(book, spread, column * len(spread) / widest)
            for spread in others[start : start + columns]
        ]
        rows += [Beside([(FigureBox(look), column) for look in looks], _GUTTER), Gap(_GUTTER)]
    return rows[:-1]
