"""Whatever a document says, its pages hold all of it once and in order, or a word about why they cannot."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from booklet.content.blocks import (
    Align,
    Arrangement,
    Beside,
    Block,
    Card,
    Cards,
    CardStyle,
    Caution,
    Column,
    Heading,
    IfRoom,
    ItemList,
    Legend,
    Marker,
    Paragraph,
    Row,
    RowKind,
    Section,
    Table,
    Tick,
    Tone,
    WritingLines,
)
from booklet.content.figures import PieceMap, PileFigure, PocketFigure
from booklet.content.spans import Line, Own, StepRef, Words, line, quiet, strong
from booklet.kit.errors import KitError
from booklet.pages.booklet import write_booklet
from booklet.proof.reader import Page, read_pages
from tests.pages.documents import document, laid, picture, section

# What a hand may type: markup, words without a place to break, words of another language, nothing but spaces.
HOSTILE = st.sampled_from(
    [
        "ebb",
        "<b>&amp;",
        "</para>",
        "x" * 500,
        "Herbstblätterdurcheinander",
        "1/2 x 6",
        "  ",
        "“",
        "%s",
        "a-b-" * 40,
    ]
)
PROSE = st.integers(0, 60).map(lambda count: "shingle " * count)


@dataclass
class Counter:
    """Gives each line of a document a word of its own, in the order of the document."""

    count: int = 0

    def mark(self) -> str:
        self.count += 1
        return f"n{self.count}n"


def said(draw: st.DrawFn, counter: Counter) -> Line:
    """A line with a mark to find it by, between what a hand may type."""
    weight = draw(st.sampled_from([Words, strong, quiet]))
    first, step, last = (
        Own(draw(HOSTILE), ()),
        StepRef("ebb", draw(st.integers(1, 99))),
        Own(draw(HOSTILE), ()),
    )
    return line(first, " ", weight(counter.mark()), " ", draw(PROSE), step, ". ", last)


@st.composite
def blocks(draw: st.DrawFn, counter: Counter, nested: bool = False) -> Block:
    kinds = _WORDS if nested else _KINDS
    return draw(st.sampled_from(kinds))(draw, counter)


def _paragraph(draw: st.DrawFn, counter: Counter) -> Block:
    return Paragraph(said(draw, counter), draw(st.sampled_from(Tone)))


def _heading(draw: st.DrawFn, counter: Counter) -> Block:
    return Heading(said(draw, counter))


def _list(draw: st.DrawFn, counter: Counter) -> Block:
    items = tuple(said(draw, counter) for _ in range(draw(st.integers(0, 4))))
    return ItemList(items, draw(st.sampled_from(Marker)))


def _caution(draw: st.DrawFn, counter: Counter) -> Block:
    return Caution(line("WARNING"), draw(st.booleans()), said(draw, counter))


def _writing(draw: st.DrawFn, counter: Counter) -> Block:
    return WritingLines(said(draw, counter), least=draw(st.integers(1, 6)))


def _picture(draw: st.DrawFn, counter: Counter) -> Block:  # noqa: ARG001
    return picture(PieceMap(0))


def _beside(draw: st.DrawFn, counter: Counter) -> Block:
    inside = tuple(draw(blocks(counter, nested=True)) for _ in range(draw(st.integers(0, 2))))
    return Beside(picture(PieceMap(0)), inside)


def _legend(draw: st.DrawFn, counter: Counter) -> Block:
    entries = tuple(said(draw, counter) for _ in range(draw(st.integers(1, 5))))
    return Legend(picture(PileFigure(tuple(range(len(entries))))), entries)


def _cards(draw: st.DrawFn, counter: Counter) -> Block:
    cards = tuple(
        Card(picture(PocketFigure("1")), (said(draw, counter), said(draw, counter)))
        for _ in range(draw(st.integers(0, 5)))
    )
    return Cards(cards, draw(st.sampled_from(CardStyle)), draw(st.integers(1, 3)))


def _table(draw: st.DrawFn, counter: Counter) -> Block:
    columns = (
        Column(()),
        Column(line("Piece"), share=draw(st.sampled_from([None, 0.4]))),
        Column(line("Size"), draw(st.sampled_from(Align)), share=draw(st.sampled_from([None, 0.2]))),
    )
    rows: list[Row] = []
    for _ in range(draw(st.integers(0, 12))):
        kind = draw(st.sampled_from([RowKind.BODY] * 6 + list(RowKind)))
        if kind is RowKind.GROUP:
            rows.append(Row((line("A group"),), kind))
        else:
            rows.append(Row((Tick(), said(draw, counter), line(counter.mark())), kind))
    return Table(columns, tuple(rows))


def _if_room(draw: st.DrawFn, counter: Counter) -> Block:  # noqa: ARG001
    return IfRoom((Heading(line("Only if there is room")), Paragraph(line(draw(PROSE)))))


_WORDS = (_paragraph, _heading, _list, _caution, _writing)
_KINDS = (*_WORDS, _picture, _beside, _legend, _cards, _table, _if_room)
_TITLES = st.sampled_from(["Low water", "x" * 90, "<i>", "Where the tide leaves a line of shells " * 3])
_ARRANGEMENTS = st.sampled_from(
    [Arrangement.FLOW, Arrangement.COMPACT, Arrangement.OPENING, Arrangement.FACING]
)


@st.composite
def sections(draw: st.DrawFn, counter: Counter, at: int) -> Section:
    made = tuple(draw(blocks(counter)) for _ in range(draw(st.integers(0, 5))))
    title, number = Own(draw(_TITLES), ()), draw(st.sampled_from(["", "7", "14"]))
    return section(f"s{at}", *made, title=title, number=number, arrangement=draw(_ARRANGEMENTS))


@st.composite
def documents(draw: st.DrawFn) -> tuple[list[Section], int]:
    """Sections, and how many marks they bear."""
    counter = Counter()
    made = [draw(sections(counter, at)) for at in range(draw(st.integers(0, 5)))]
    return made, counter.count


def marks_on(pages: tuple[Page, ...]) -> Iterator[int]:
    for page in pages:
        yield from (int(found) for found in re.findall(r"n(\d+)n", page.text))


HEALTH = [HealthCheck.too_slow, HealthCheck.data_too_large]


@settings(max_examples=25, suppress_health_check=HEALTH)
@given(documents())
def test_all_is_printed_once_and_in_order_or_refused_in_words(made: tuple[list[Section], int]) -> None:
    assert_printed_or_refused(made)


@pytest.mark.thorough
@settings(max_examples=60, suppress_health_check=HEALTH)
@given(documents())
def test_all_of_many_documents_is_printed_or_refused(made: tuple[list[Section], int]) -> None:
    assert_printed_or_refused(made)


def assert_printed_or_refused(made: tuple[list[Section], int]) -> None:
    parts, count = made
    try:
        booklet = laid(document(*parts))
    except KitError:
        return
    pages = read_pages(write_booklet(booklet))
    grid = booklet.setup.grid
    assert len(pages) % 4 == 0
    assert list(marks_on(pages)) == list(range(1, count + 1))
    for page in pages:
        left, bottom = grid.left(page.number), grid.height - grid.bottom
        for letter in page.letters:
            if not letter.text.strip():
                continue
            assert letter.size >= 8.99
            assert left - 1 <= letter.box.left
            assert letter.box.right <= left + grid.text_width + 1
            assert letter.box.bottom <= bottom + 2 or letter.box.top > bottom
