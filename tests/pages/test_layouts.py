"""The pages of the layouts: which faces which, where their steps are, and that any kit of them can be set."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from booklet.drawing.shapes.figure import Figure
from booklet.kit.kit import layout_title
from booklet.kit.spreads import spreads
from booklet.measure.length import Unit
from booklet.pages.book import Book
from booklet.pages.flow import FigureBox
from booklet.pages.layout_figures import finished_across, finished_at, finished_look, look_at, steps_of
from booklet.pages.layouts import layout_blocks, layout_figures
from booklet.pages.page import Block, Page, PageOverflowError, Start, arrange
from tests.drawing.looks import SIXTH, colours
from tests.kits import Data, make_kit, ready, sheet
from tests.pages.front import assert_well_set, demo, pages_of, parts_of, printed, words_of
from tests.pages.kits import book_of_kit
from tests.pages.telling import typed

BASE = sheet(id="extra", paper="plain")


def layout(id: str, *steps: Data, **more: Any) -> Data:
    return {"id": id, "pocket": 1, "base": "base", "steps": list(steps), **more}


def book_with(*layouts: Data, folder: Path = Path(), **more: Any) -> Book:
    """A kit of these layouts, on ready-cut bases, with cards of 4 x 3 to lay on them."""
    unit = more.get("unit", Unit.INCH)
    sizes = {"base": "12 x 12 in", "card": "4 x 3 in"}
    pieces = [ready(name, count=99, size=size) for name, size in sizes.items()]
    sized = "12 x 12" if unit is Unit.INCH else "12 x 12 in"
    return book_of_kit(make_kit(BASE, layouts=layouts, ready=pieces, sheet=sized, **more), folder)


def card(left: Any = 1, top: Any = 1, **more: Any) -> Data:
    return {"place": "card", "left": left, "top": top, **more}


def figures(page: Page) -> list[Figure]:
    parts = (part for laid in page.laid for part in parts_of(laid.flowable))
    return [part.figure for part in parts if isinstance(part, FigureBox)]


def names(page: Page) -> list[str]:
    return [figure.name for figure in figures(page)]


def numbered(book: Book) -> dict[int, Page]:
    """The pages of the layouts where they come to lie in a booklet, after a cover."""
    blocks = [Block((Page((), "cover"),)), *layout_blocks(book)]
    filler = (Page((), f"filler {n}") for n in range(9999))
    pages = arrange(blocks, filler, Page((), "back"))
    return dict(enumerate(pages, start=1))


# Which faces which.


def test_layouts_that_face_each_other_go_together_in_the_kit_s_order() -> None:
    book = book_with(
        layout("alone"), layout("left", facing="right"), layout("other"), layout("right"), layout("last")
    )
    assert spreads(book.kit) == ((0,), (1, 3), (2,), (4,))


@given(
    st.lists(st.sampled_from(["one", "two"]), min_size=1, max_size=6),
    st.randoms(use_true_random=False),
)
@settings(max_examples=25)
def test_every_layout_stands_once_whatever_faces_what(kinds: list[str], random: Any) -> None:
    layouts: list[Data] = []
    for n, kind in enumerate(kinds):
        layouts.append(layout(f"a{n}", **({"facing": f"b{n}"} if kind == "two" else {})))
        if kind == "two":
            layouts.append(layout(f"b{n}"))
    random.shuffle(layouts)
    book = book_with(*layouts)
    found = [index for spread in spreads(book.kit) for index in spread]
    assert sorted(found) == list(range(len(layouts)))
    for spread in spreads(book.kit):
        first = book.kit.layouts[spread[0]]
        assert [book.kit.layouts[index].id for index in spread[1:]] == (
            [first.facing] if first.facing else []
        )


def test_a_spread_opens_on_a_left_page_with_its_steps_on_the_next_opening() -> None:
    book = book_with(
        layout("alone", card()), layout("left", card(), facing="right"), layout("right", card(), card(6, 6))
    )
    pages = numbered(book)
    where = {name: number for number, page in pages.items() for name in names(page)}
    assert where["layout-left-finished"] % 2 == 0
    on = {number: page.running for number, page in pages.items()}
    number = next(n for n, page in pages.items() if page.anchor == "layout-left")
    assert number % 2 == 0
    assert [on[number + at] for at in range(4)] == ["Left", "Right", "Left", "Right"]
    assert [pages[number + at].anchor for at in range(4)] == ["layout-left", "layout-right", None, None]
    assert "layout-left-map" in names(pages[number + 2])
    assert "layout-right-map" in names(pages[number + 3])


def test_a_layout_that_lies_alone_has_its_steps_beside_it() -> None:
    pages = numbered(book_with(layout("alone", card()), layout("another", card())))
    for id in ("alone", "another"):
        number = next(n for n, page in pages.items() if page.anchor == f"layout-{id}")
        assert number % 2 == 0
        assert names(pages[number]) == [f"layout-{id}-finished", f"layout-{id}-placing"]
        assert f"layout-{id}-map" in names(pages[number + 1])


def test_facing_looks_stand_at_the_fold_and_at_one_scale() -> None:
    book = book_with(
        layout("left", card(), facing="right", story="Long " * 60), layout("right", card(), story="Short")
    )
    left, right = pages_of(layout_blocks(book))[:2]
    assert [figure.scale for figure in figures(left)] == [figure.scale for figure in figures(right)]
    for page, last in ((left, True), (right, False)):
        rows = [laid.flowable for laid in page.laid if hasattr(laid.flowable, "columns")]
        for row in rows:
            assert isinstance(row.columns[-1][0], FigureBox) == last


def test_bookmarks_name_each_layout_under_their_section() -> None:
    pages = pages_of(layout_blocks(book_with(layout("ebb", title="Ebb and flow"), layout("low-tide"))))
    assert [page.section for page in pages if page.section] == ["Layouts"]
    assert pages[0].section == "Layouts"
    assert [(page.bookmark, page.bookmark_level) for page in pages if page.bookmark] == [
        ("Ebb and flow", 1),
        ("Low tide", 1),
    ]


# What is on them.


def told(book: Book) -> str:
    return typed(" ".join(words_of(book, pages_of(layout_blocks(book)))))


def test_a_page_says_title_story_pocket_tip_and_scales() -> None:
    book = book_with(
        layout("ebb", card(), title="Ebb & flow", story="The mud <shone>.", tip="Press it flat.", pocket=7)
    )
    said = told(book)
    for words in ("Layout 1", "pocket 7", "Ebb & flow", "The mud <shone>.", "Press it flat.", "Scale 1:"):
        assert words in said


@pytest.mark.parametrize(
    ("unit", "left", "said"),
    [
        (Unit.INCH, "2 1/2", "2 1/2"),
        (Unit.MILLIMETRE, "64", "64 mm"),
        (Unit.CENTIMETRE, "6.4", "6.4 cm"),
    ],
)
@pytest.mark.parametrize("format_", ["half letter", "a5"])
def test_any_unit_and_page_can_be_set(unit: Unit, left: str, said: str, format_: str) -> None:
    step = card(left, left, tilt=0)
    book = book_with(
        layout("a", step, {"photo": "4 x 3 in", "right": left, "bottom": left}, facing="b"),
        layout("b", step),
        unit=unit,
        page=format_,
    )
    assert said.split()[0] in told(book)
    assert_well_set(book, pages_of(layout_blocks(book)))


@pytest.mark.parametrize("name", ["hill-line", "roof-garden"])
def test_the_layouts_of_the_demos_are_well_set(name: str) -> None:
    book = demo(name)
    assert_well_set(book, pages_of(layout_blocks(book)))


@pytest.mark.parametrize("facing", [False, True])
@pytest.mark.parametrize("count", [0, 1, 12, 30, 45])
def test_any_number_of_steps_can_be_set(count: int, facing: bool) -> None:
    steps = [card((n * 7) % 60 / 8, (n * 11) % 70 / 8) for n in range(count)]
    layouts = [layout("a", *steps, facing="b"), layout("b", card())] if facing else [layout("a", *steps)]
    book = book_with(*layouts)
    pages = pages_of(layout_blocks(book))
    assert_well_set(book, pages)
    said = words_of(book, pages)
    assert len(steps_of(book, 0)) == count
    for step in steps_of(book, 0):
        assert any(f" {step.number} " in f" {words} " for words in said)


def test_steps_that_go_on_over_the_page_say_of_which_layout_they_are() -> None:
    steps = [card((n * 7) % 60 / 8, (n * 11) % 70 / 8) for n in range(45)]
    book = book_with(layout("ebb", card()), layout("flood", *steps))
    pages = pages_of(layout_blocks(book))
    said = [
        words for page, words in zip(pages, words_of(book, pages), strict=True) if page.running == "Flood"
    ]
    _, steps_begin, *going_on = said
    assert "continued" not in steps_begin
    assert going_on
    assert all(words.startswith("Layout 2, Flood, continued ") for words in going_on)


@pytest.mark.parametrize(("letters", "words"), [(0, 0), (20, 60), (60, 60), (120, 30), (20, 110), (150, 0)])
def test_long_titles_and_stories_leave_nothing_out(letters: int, words: int) -> None:
    title = ("harbour " * 40)[:letters].strip() or "Ebb"
    book = book_with(layout("ebb", card(), title=title, story="long story " * words + "."))
    pages = pages_of(layout_blocks(book))
    assert names(pages[0]) == ["layout-ebb-finished", "layout-ebb-placing"]
    assert_well_set(book, pages)


def test_a_story_that_leaves_no_room_is_refused_by_the_page_s_name() -> None:
    book = book_with(layout("ebb", card(), story="long story " * 180))
    with pytest.raises(PageOverflowError, match=r"^Ebb: .*shorten"):
        layout_blocks(book)


def test_a_page_with_more_measures_than_room_is_numbered_without_them() -> None:
    steps = [card((n * 7) % 60 / 8, (n * 11) % 70 / 8) for n in range(30)]
    book = book_with(layout("few", *steps[:3]), layout("many", *steps))
    pages = {page.anchor: page for page in pages_of(layout_blocks(book)) if page.anchor}
    assert names(pages["layout-few"])[1] == "layout-few-placing"
    assert names(pages["layout-many"])[1] == "layout-many-map"
    few, many = words_of(book, [pages["layout-few"], pages["layout-many"]])
    assert "distance from the page’s edge" in few
    assert "the steps, which tell every distance" in many


# The looks.


def test_figures_of_every_layout_come_in_pairs() -> None:
    book = demo("hill-line")
    found = [figure.name for figure in layout_figures(book)]
    ids = [layout.id for layout in book.kit.layouts]
    assert found == [f"layout-{id}-{what}" for id in ids for what in ("finished", "placing")]


def photographed(tmp_path: Path) -> Book:
    Image.new("RGB", (90, 90), "#c04020").save(tmp_path / "real.png")
    return book_with(layout("ebb", card(), photograph="real.png"), layout("drawn", card()), folder=tmp_path)


def test_a_photograph_of_the_real_page_stands_for_the_drawn_look(tmp_path: Path) -> None:
    book = photographed(tmp_path)
    shown = finished_at(book, book.resolved.layouts[0], SIXTH)
    pixels = colours(shown.shapes, shown.width, shown.height, 1.0)
    assert np.abs(pixels[4:-4, 4:-4].astype(int) - (0xC0, 0x40, 0x20)).max() <= 3
    drawn = finished_at(book, book.resolved.layouts[1], SIXTH)
    assert (drawn.width, drawn.height) == (shown.width, shown.height) == (144, 144)
    assert not (colours(drawn.shapes, 144, 144, 1.0) == (0xC0, 0x40, 0x20)).all(axis=2).any()


def test_a_look_is_drawn_once_and_used_at_every_scale(tmp_path: Path) -> None:
    book = photographed(tmp_path)
    assert finished_look(book, 1) is finished_look(book, 1)
    assert look_at(book, 1, SIXTH).page.width == 144


@pytest.mark.parametrize("indexes", [(0,), (0, 1), (1, 0)])
def test_looks_across_a_spread_join_at_the_fold(tmp_path: Path, indexes: Sequence[int]) -> None:
    book = photographed(tmp_path)
    figure = finished_across(book, indexes, 200.0)
    assert (figure.width, figure.height) == (200.0, 200.0 / len(indexes))
    pixels = colours(figure.shapes, figure.width, figure.height, 1.0)
    row = pixels[pixels.shape[0] * 3 // 4]
    red = [bool(np.abs(pixel.astype(int) - (0xC0, 0x40, 0x20)).max() <= 3) for pixel in row[[40, -40]]]
    ends = [indexes[0], indexes[-1]]
    assert red == [index == 0 for index in ends]


def test_titles_are_those_of_the_spec() -> None:
    book = demo("hill-line")
    pages = [page for page in pages_of(layout_blocks(book)) if page.bookmark]
    assert {page.bookmark for page in pages} == {layout_title(each) for each in book.kit.layouts}
    assert all(block.start is Start.LEFT for block in layout_blocks(book))
    assert len(printed(book, pages)) >= len(pages)
