"""The heads that pages begin with."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from reportlab.platypus import Flowable

from booklet.pages.book import Book
from booklet.pages.flow import Gap, Rule
from booklet.pages.page import Page, PageName, flow
from booklet.pages.type import words


def continued_head(book: Book, what: str) -> tuple[Flowable, ...]:
    """What goes on from the page before, and a rule: the head of a later page."""
    return (
        words(f"{what}, continued", book.styles.kicker),
        Rule(book.palette.accent, weight=0.9, before=5.0, after=9.0),
    )


def story_pages(book: Book, story: Sequence[Flowable], title: str, anchor: str | None) -> tuple[Page, ...]:
    """The pages of a story that is called by its title, also at the head of a later page."""
    return flow(story, book.grid, PageName(title, title, anchor=anchor), partial(continued_head, book, title))


def page_head(book: Book, kicker: str, title: str, lead: str | None = None) -> list[Flowable]:
    """Kicker, title, rule, and a lead paragraph where there is one."""
    parts: list[Flowable] = [
        words(kicker, book.styles.kicker),
        words(title, book.styles.title),
        Rule(book.palette.accent, weight=0.9, before=5.0, after=8.0),
    ]
    if lead:
        parts += [words(lead, book.styles.lead), Gap(8.0)]
    return parts
