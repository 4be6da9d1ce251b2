"""The head that every page begins with."""

from __future__ import annotations

from reportlab.platypus import Flowable

from booklet.pages.book import Book
from booklet.pages.flow import Gap, Rule
from booklet.pages.type import words


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
