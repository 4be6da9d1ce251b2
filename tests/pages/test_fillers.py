"""Pages that fill, and the back cover."""

from __future__ import annotations

from itertools import islice

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.platypus import Table

from booklet.kit.kit import layout_title
from booklet.pages.book import Book
from booklet.pages.fillers import back_cover, filler_pages
from booklet.pages.flow import FigureBox
from booklet.pages.lists import PEN_LINE
from booklet.pages.page import Page
from booklet.pages.type import typographic
from booklet.placing.photos import photo_slots
from tests.pages.front import SMALL, assert_well_set, book_of, demo, parts_of, printed, words_of

DEMOS = ("hill-line", "roof-garden")


def filler(book: Book, running: str) -> Page:
    """The first filling page of this name."""
    return next(page for page in filler_pages(book) if page.running == running)


@pytest.mark.parametrize("name", DEMOS)
def test_fillers_and_back_cover_are_well_set(name: str) -> None:
    book = demo(name)
    assert_well_set(book, [*islice(filler_pages(book), 6), back_cover(book)])


def test_each_kind_of_page_comes_once_and_then_notes_without_end() -> None:
    running = [page.running for page in islice(filler_pages(demo("hill-line")), 40)]
    useful = running[: running.index("Notes")]
    assert useful == ["My trimmer", "If a cut goes wrong", "Photo planner", "Pocket labels"]
    assert set(running[len(useful) :]) == {"Notes"}


def test_the_planner_has_a_line_for_each_photograph() -> None:
    book = demo("hill-line")
    (said,) = words_of(book, [filler(book, "Photo planner")])
    slots = [slot for layout in book.resolved.layouts for slot in photo_slots(layout, book.unit)]
    # Frames stand in two columns, so their order in the file is not that of the layouts.
    assert said.count(" × ") == len(slots)


def with_photos(count: int) -> Book:
    """The small kit, with so many photographs on its one layout."""
    steps = [f"      - {{photo: 1 x 1, left: {at / 2}, top: 9}}" for at in range(count)]
    return book_of("\n".join([SMALL.rstrip(), *steps]))


def line_heights(page: Page) -> set[float]:
    """How high the planner's own lines are: those with a frame for each photograph."""
    tables = [part for laid in page.laid for part in parts_of(laid.flowable) if isinstance(part, Table)]
    framed = [table for table in tables if isinstance(table._cellvalues[0][0], FigureBox)]
    return {height for table in framed for height in table._rowHeights}


@pytest.mark.parametrize(("photos", "high"), [(1, 44.0), (8, 44.0), (11, 38.0), (13, 32.0), (18, 24.0)])
def test_the_fewer_photographs_the_more_room_is_there_for_the_pen(photos: int, high: float) -> None:
    book = with_photos(photos)
    page = filler(book, "Photo planner")
    assert line_heights(page) == {high}
    assert_well_set(book, [page])


@pytest.mark.parametrize(("photos", "has_notes"), [(1, True), (18, False)])
def test_a_page_to_write_in_that_ends_early_has_lines_to_its_foot(photos: int, has_notes: bool) -> None:
    book = with_photos(photos)
    page = filler(book, "Photo planner")
    (said,) = words_of(book, [page])
    assert ("Notes" in said) == has_notes
    foot = max(laid.y + laid.height for laid in page.laid)
    assert not has_notes or 0 <= book.grid.text_height - foot < PEN_LINE


def test_a_kit_without_photographs_has_no_planner() -> None:
    running = [page.running for page in islice(filler_pages(book_of(SMALL)), 4)]
    assert running == ["My trimmer", "If a cut goes wrong", "Pocket labels", "Notes"]


def test_what_is_left_over_is_listed_the_largest_first() -> None:
    spare = SMALL.replace("      - {place: strap, right: 0, top: 0}\n", "").replace(
        "    cuts:\n      - {at: [8", "    spare: [strap]\n    cuts:\n      - {at: [8"
    )
    book = book_of(spare)
    (said,) = words_of(book, [filler(book, "If a cut goes wrong")])
    assert "1 Shingle print 4 × 12 spare strap 1 Shingle print 5¹⁄₂ × 5 scrap" in said


TAGS = """
title: Tags
publisher: P
sheet: 12 x 12
papers: {plain: {front: {}}, waves: {front: {pattern: waves}}}
sheets:
  - id: ground
    paper: waves
  - id: sand
    paper: plain
    cuts:
      - {at: [9, 4], leaves: [panel, rest, scrap]}
      - {take: rest, turn: clockwise, at: [9, 3], leaves: [tag, slab, tag]}
  - id: tide
    paper: waves
    cuts: [{at: [10, 5], leaves: [tall, wave, scrap]}]
ready: [{name: mat, size: 2 x 3, paper: plain, count: 2, spare: 1}]
layouts:
  - id: one
    pocket: 1
    base: ground
    steps: [{row: [panel, slab, tag, tag, mat], apart: 0, left: 0, top: 0}, {place: tall}, {place: wave}]
"""


def test_what_can_be_replaced_is_told_with_the_smallest_scrap_that_holds_it() -> None:
    (said,) = words_of(book_of(TAGS), [filler(book_of(TAGS), "If a cut goes wrong")])
    table = said[said.index("What can be replaced") : said.index("What is left over")]
    assert "mat 2 × 3 box the spare one" in table
    # Turned, 5 x 3 comes out of the scrap of 3 x 12; nothing wider does.
    assert "tag 5 × 3 1 scrap, 3 × 12" in table
    for other in ("panel", "slab", "tall", "wave"):
        assert other not in table


def test_a_kit_that_leaves_nothing_large_says_so() -> None:
    (said,) = words_of(book_of(SMALL), [filler(book_of(SMALL), "If a cut goes wrong")])
    assert "Nothing that is left over is large enough for a piece of its paper." in said


def test_many_pieces_that_can_be_replaced_still_leave_one_page() -> None:
    names = [f"piece number {number}" for number in range(12)]
    pieces = "".join(
        f"  - {{name: {name}, size: 2 x 3, paper: plain, count: 2, spare: 1}}\n" for name in names
    )
    text = TAGS.replace(
        "ready: [{name: mat, size: 2 x 3, paper: plain, count: 2, spare: 1}]\n", f"ready:\n{pieces}"
    ).replace("tag, mat]", f"tag, {', '.join(names)}]")
    book = book_of(text)
    pages = [page for page in islice(filler_pages(book), 6) if page.running == "If a cut goes wrong"]
    assert len(pages) == 1
    assert_well_set(book, pages)


def test_every_pocket_has_its_label() -> None:
    book = demo("hill-line")
    (said,) = words_of(book, [filler(book, "Pocket labels")])
    for layout in book.kit.layouts:
        assert layout_title(layout) in said


def test_the_trimmer_s_page_speaks_of_the_kit_s_own_marks() -> None:
    for name, half in (("hill-line", "¹⁄₁₆ in"), ("roof-garden", "0.05 cm")):
        book = demo(name)
        assert f"half a mark, {half}?" in words_of(book, [filler(book, "My trimmer")])[0]


def test_half_a_mark_that_no_ruler_shows_is_left_without_a_number() -> None:
    book = book_of(SMALL.replace("unit: in", "unit: in\ntrimmer: {mark: 1/64}"))
    assert "less than half a mark? Then" in words_of(book, [filler(book, "My trimmer")])[0]


@pytest.mark.parametrize(("name", "sheet"), [("hill-line", "Letter"), ("roof-garden", "A4")])
def test_the_back_cover_says_how_to_print_at_home(name: str, sheet: str) -> None:
    book = demo(name)
    page = back_cover(book)
    (said,) = words_of(book, [page])
    assert page.bare
    assert book.kit.title in said
    assert f"on {sheet}, on both sides, flipped on the short edge" in said
    assert "at 100 %" in said


def test_a_bare_page_has_no_number() -> None:
    book = demo("hill-line")
    bottom = printed(book, [back_cover(book)])[0].get_textpage().get_text_bounded(top=32)
    assert bottom.strip() == ""


# Quotes.


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("the page's edge", "the page’s edge"),
        ('say "up" to it', "say “up” to it"),
        ("('so')", "(‘so’)"),
        ('a 12" sheet', 'a 12" sheet'),
        ('"\'t was late"', "“’t was late”"),
    ],
)
def test_straight_quotes_are_made_round(typed: str, said: str) -> None:
    assert typographic(typed) == said


@given(st.text(alphabet="ab 1'\"(-", max_size=30))
def test_only_an_inch_mark_stays_straight_and_nothing_else_changes(text: str) -> None:
    said = typographic(text)
    assert len(said) == len(text)
    assert "'" not in said
    assert all(said[at - 1] == "1" for at, letter in enumerate(said) if letter == '"')
    assert typographic(said) == said
