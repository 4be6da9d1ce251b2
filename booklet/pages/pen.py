"""Room for a pen on a page that ends early."""

from __future__ import annotations

from dataclasses import replace

from reportlab.platypus import Flowable

from booklet.pages.book import Book
from booklet.pages.lists import heading, pen_lines
from booklet.pages.page import Page, break_story, story_height
from booklet.pages.type import words

_ABOVE = 26.0
# A page that is used further down than this, as a share of its height, is full enough.
_MOST_USED = 0.72


def with_room_to_write(book: Book, page: Page, title: str, said: str | None = None) -> Page:
    """The page with lines for a pen down to its foot, under a title and what is said of them.

    A page that is nearly full is returned as it is.
    """
    width, height = book.grid.text_width, book.grid.text_height
    top = max(laid.y + laid.height for laid in page.laid) + _ABOVE
    if top > _MOST_USED * height:
        return page
    story: list[Flowable] = heading(book, title, before=0.0)
    story += [words(said, book.styles.small)] if said else []
    lines = pen_lines(book, height - top - story_height(story, width))
    if lines is None:
        return page
    (added,) = break_story([*story, lines], width, height - top)
    return replace(page, laid=(*page.laid, *(replace(laid, y=laid.y + top) for laid in added)))
