"""What the content of a booklet says, held against the pages that it was laid on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any, get_args

from booklet.content.blocks import Document, IfRoom, Section
from booklet.content.figures import FigureRequest
from booklet.content.spans import LineBreak, Span, Words, plain_text
from booklet.measure.dataclass import dataclass
from booklet.pages.booklet import LaidBooklet
from booklet.pages.boxes import FigureBox, all_in
from booklet.pages.compose import page_numbers
from booklet.pages.text import TextBlock


@dataclass(frozen=True)
class Unlaid:
    """A part of the content that no page shows: its section, and what it is in words."""

    section: str
    what: str


def unlaid(laid: LaidBooklet) -> Iterator[Unlaid]:
    """What the sections of a booklet say or ask to be drawn, and no page shows.

    Sections that are left out whole, and blocks that stand only where there is room, are none of it.
    """
    document, printed = laid.setup.document, page_numbers(laid.pages)
    shown = [each for page in laid.pages for placed in page.column for each in all_in(placed.flowable)]
    spans = {id(span) for each in shown if isinstance(each, TextBlock) for span in each.said}
    figures = {each.figure.subject for each in shown if isinstance(each, FigureBox)}
    for section in _sections(document):
        if section.anchor not in printed and section is not document.back:
            continue
        for part in _parts((section.title, section.lead, section.blocks)):
            if isinstance(part, get_args(FigureRequest)):
                if part not in figures:
                    yield Unlaid(section.anchor, f"a figure: {type(part).__name__}")
            elif id(part) not in spans:
                yield Unlaid(section.anchor, plain_text((part,)))


def _sections(document: Document) -> Iterator[Section]:
    yield from document.sections
    yield document.back


def _parts(node: Any) -> Iterator[Span | Any]:
    """The spans with a value of their own, the designer's words and the figures in some content."""
    if isinstance(node, get_args(FigureRequest)):
        yield node
    elif isinstance(node, get_args(Span)):
        if not isinstance(node, Words | LineBreak):
            yield node
    elif isinstance(node, tuple):
        for each in node:
            yield from _parts(each)
    elif is_dataclass(node) and not isinstance(node, IfRoom):
        # The alternative text of a picture goes with it unseen.
        yield from _parts(tuple(getattr(node, each.name) for each in fields(node) if each.name != "alt"))
