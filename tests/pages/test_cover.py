"""The cover: its title, and every finished layout however many there are."""

from __future__ import annotations

from itertools import combinations
from typing import Any

import pytest

from booklet.drawing.shapes.affine import Box
from booklet.kit.spreads import spreads
from booklet.pages.book import Book
from booklet.pages.cover import cover_page
from booklet.pages.flow import FigureBox
from booklet.pages.page import Page, PageOverflowError
from tests.kits import Data, make_kit, ready, sheet
from tests.pages.front import SMALL, assert_well_set, book_of, demo, parts_of, words_of
from tests.pages.kits import book_of_kit


def book_with(alone: int, facing: int = 0, **more: Any) -> Book:
    """A kit of so many layouts that lie alone, after so many spreads of two."""
    layouts: list[Data] = []
    for n in range(facing):
        layouts += [layout(f"left {n}", facing=f"right {n}"), layout(f"right {n}")]
    layouts += [layout(f"alone {n}") for n in range(alone)]
    base = {**ready("base", count=len(layouts), size="12 x 12")}
    return book_of_kit(make_kit(sheet(id="extra", paper="plain"), layouts=layouts, ready=[base], **more))


def layout(id: str, **more: object) -> Data:
    return {"id": id, "pocket": 1, "base": "base", "steps": [], **more}


def looks(page: Page) -> list[Box]:
    """Where the looks lie, from the top left of the type area, read off the flowables."""
    boxes = []
    for laid in page.laid:
        columns = getattr(laid.flowable, "columns", [(laid.flowable, laid.width)])
        x = laid.x
        for part, width in columns:
            if isinstance(part, FigureBox):
                boxes.append(Box(x, laid.y, x + part.figure.width, laid.y + part.figure.height))
            x += width + getattr(laid.flowable, "gutter", 0.0)
    return boxes


KITS = [
    (1, 0),
    (2, 0),
    (3, 0),
    (4, 0),
    (5, 0),
    (10, 0),
    (24, 0),
    (99, 0),
    (0, 1),
    (1, 1),
    (2, 5),
    (0, 12),
    (1, 49),
]


@pytest.mark.parametrize(("alone", "facing"), KITS)
@pytest.mark.parametrize("format_", ["half letter", "a5"])
def test_every_layout_is_on_the_cover_within_its_margins(alone: int, facing: int, format_: str) -> None:
    book = book_with(alone, facing, page=format_)
    page = cover_page(book)
    boxes = looks(page)
    assert len(boxes) == len(spreads(book.kit)) == alone + facing
    for one, other in combinations(boxes, 2):
        assert not one.overlaps(other)
    foot = page.laid[-1]
    for box in boxes:
        assert box.left >= 0
        assert box.right <= book.grid.text_width + 1e-6
        assert box.bottom <= foot.y
    assert foot.y + foot.height == pytest.approx(book.grid.text_height)


def test_the_first_spread_is_the_largest() -> None:
    for book in (book_with(3, 0), book_with(2, 5), book_with(24, 0), demo("hill-line")):
        first, *others = looks(cover_page(book))
        assert all(first.height >= other.height for other in others)


def test_all_looks_below_the_first_are_at_one_scale() -> None:
    book = book_with(3, 3)
    _, *others = looks(cover_page(book))
    assert len({round(box.height, 6) for box in others}) == 1


@pytest.mark.parametrize(
    ("alone", "said"),
    [(1, "1 layout, 1 piece: cutting and assembly"), (2, "2 layouts, 2 pieces: cutting and assembly")],
)
def test_the_foot_counts_layouts_and_pieces(alone: int, said: str) -> None:
    book = book_with(alone)
    (words,) = words_of(book, [cover_page(book)])
    assert words.endswith(said)


@pytest.mark.parametrize("name", ["hill-line", "roof-garden"])
def test_the_covers_of_the_demos_are_well_set(name: str) -> None:
    book = demo(name)
    assert_well_set(book, [cover_page(book)])


@pytest.mark.parametrize("repeats", [1, 4, 12, 30])
def test_a_long_title_leaves_room_for_the_layouts(repeats: int) -> None:
    title = "The day that the harbour froze " * repeats
    book = book_with(3, 1, title=title)
    page = cover_page(book)
    (words,) = words_of(book, [page])
    assert title.strip() in words
    assert len(looks(page)) == 4
    assert_well_set(book, [page])


@pytest.mark.parametrize("size", ["4 x 18", "1 x 100", "100 x 1", "24 x 24", "1 x 1"])
def test_a_layout_of_any_shape_finds_its_room(size: str) -> None:
    text = SMALL[: SMALL.index("    cuts:")] + "  - {id: sand, paper: sand}\nlayouts:\n"
    text = text.replace("12 x 12", size).replace("    lay: {left: wave border}\n", "")
    book = book_of(f"{text}  - {{id: ebb, pocket: 1, base: sand}}\n")
    page = cover_page(book)
    assert len(looks(page)) == 1
    assert_well_set(book, [page])


def test_a_title_that_fills_the_page_is_refused() -> None:
    with pytest.raises(PageOverflowError, match="front cover"):
        cover_page(book_with(1, title="W " * 999))


def test_the_cover_is_bare_and_found_by_its_bookmark() -> None:
    page = cover_page(book_with(1))
    assert (page.bare, page.bookmark, page.anchor) == (True, "Cover", "cover")
    assert any(isinstance(part, FigureBox) for laid in page.laid for part in parts_of(laid.flowable))
