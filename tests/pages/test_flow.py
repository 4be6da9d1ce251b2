"""Flowables under one another, and where they are broken over pages."""

from __future__ import annotations

import pytest
from reportlab.platypus import Flowable, PageBreak, Spacer

from booklet.kit.errors import KitError
from booklet.pages.boxes import PEN_FOOT, PEN_LINE, PenLines, SideBySide, spaced
from booklet.pages.flow import (
    Column,
    PageOverflowError,
    break_story,
    column_height,
    fill,
    join,
    only_if_room,
    stacked,
    story_height,
)
from tests.pages.documents import ACCENT


class Slab(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """So many points high; splits into tens where it may."""

    def __init__(self, high: float, name: str = "", *, splits: bool = False, with_next: bool = False) -> None:
        super().__init__()
        self.high, self.name, self.splits = high, name, splits
        self.keepWithNext = with_next

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002
        return width, self.high

    def split(self, width: float, height: float) -> list[Flowable]:  # noqa: ARG002
        fitting = int(height / 10) * 10
        if not self.splits or fitting < 10:
            return []
        return [Slab(fitting, self.name), Slab(self.high - fitting, self.name, splits=True)]


def slabs(column: Column) -> list[tuple[str, float]]:
    return [(placed.flowable.name, placed.height) for placed in column]


def test_of_two_spaces_the_larger_counts_and_none_at_the_top() -> None:
    column = stacked([spaced(Slab(10), 8, 3), spaced(Slab(10), 5, 0), spaced(Slab(10), 0, 9)], 100)
    assert [placed.y for placed in column] == [0, 15, 25]
    assert column_height(column) == story_height([spaced(Slab(10), 8, 3), spaced(Slab(20), 5, 0)], 100)


def test_what_does_not_fit_goes_on_on_the_next_page() -> None:
    pages = break_story([Slab(60, "a"), Slab(60, "b"), Slab(30, "c")], 100, 100)
    assert [slabs(page) for page in pages] == [[("a", 60)], [("b", 60), ("c", 30)]]


def test_what_can_be_split_fills_the_page() -> None:
    pages = break_story([Slab(60, "a"), Slab(95, "b", splits=True)], 100, 100)
    assert [slabs(page) for page in pages] == [[("a", 60), ("b", 40)], [("b", 55)]]


def test_a_heading_never_ends_a_page() -> None:
    story = [Slab(60, "a"), Slab(10, "head", with_next=True), Slab(40, "b")]
    assert [slabs(page)[0][0] for page in break_story(story, 100, 100)] == ["a", "head"]


def test_a_heading_stays_with_the_part_of_what_is_split_below_it() -> None:
    story = [Slab(60, "a"), Slab(15, "head", with_next=True), Slab(95, "b", splits=True)]
    assert slabs(break_story(story, 100, 100)[0]) == [("a", 60), ("head", 15), ("b", 20)]
    short = [Slab(80, "a"), Slab(15, "head", with_next=True), Slab(95, "b", splits=True)]
    assert slabs(break_story(short, 100, 100)[0]) == [("a", 80)]


def test_later_pages_have_a_head_of_their_own() -> None:
    pages = break_story([Slab(60, "a"), Slab(60, "b")], 100, 100, lambda: [Slab(10, "again")])
    assert [slabs(page) for page in pages] == [[("a", 60)], [("again", 10), ("b", 60)]]


def test_a_page_may_be_ended_early() -> None:
    pages = break_story([Slab(10, "a"), PageBreak(), Slab(10, "b"), PageBreak()], 100, 100)
    assert [slabs(page) for page in pages] == [[("a", 10)], [("b", 10)]]


def test_what_is_higher_than_a_page_is_refused_in_words() -> None:
    with pytest.raises(PageOverflowError, match="140 pt high") as refused:
        break_story([Slab(20), Slab(140)], 100, 100)
    assert isinstance(refused.value, KitError)


def test_a_heading_with_what_only_fits_alone_ends_a_page_after_all() -> None:
    pages = break_story([Slab(20, "head", with_next=True), Slab(95, "b")], 100, 100)
    assert [slabs(page) for page in pages] == [[("head", 20)], [("b", 95)]]


def optional(high: float) -> list[Flowable]:
    return only_if_room([Slab(high / 2, "if"), Slab(high / 2, "room")])


def test_what_is_optional_stands_where_it_takes_no_further_page() -> None:
    def named(high: float) -> list[list[str]]:
        pages = break_story([Slab(60, "a"), *optional(high), Slab(20, "b")], 100, 100)
        return [[name for name, _ in slabs(page)] for page in pages]

    assert named(20) == [["a", "if", "room", "b"]]
    assert named(21) == [["a", "b"]]


def test_a_story_joins_a_page_where_it_fits_and_the_optional_gives_way() -> None:
    (page,) = break_story([Slab(40, "a"), *optional(30)], 100, 100)
    joined = join(page, [Slab(35, "b")], 100, 100)
    assert joined is not None
    assert [name for name, _ in slabs(joined)] == ["a", "b"]
    both = join(page, [Slab(30, "b")], 100, 100)
    assert both is not None
    assert [name for name, _ in slabs(both)] == ["a", "if", "room", "b"]
    assert join(page, [Slab(61, "b")], 100, 100) is None


def test_lines_for_a_pen_take_what_a_page_has_to_spare() -> None:
    column = stacked([Slab(100), PenLines(2, ACCENT), Slab(40)], 100)
    lines = fill(column, 100, 400)[1].flowable
    assert lines.count == 2 + (400 - PEN_FOOT - 140 - 2 * PEN_LINE) // PEN_LINE
    assert column_height(fill(column, 100, 400)) <= 400 - PEN_FOOT


def test_what_stands_side_by_side_is_cut_apart_only_where_no_page_holds_it() -> None:
    def block(high: float) -> SideBySide:
        return SideBySide([([Spacer(10, high / 4)] * 4, 40.0), ([Spacer(10, 5)], 40.0)], 0.0)

    held, higher = block(80.0), block(160.0)
    first, *others = break_story([Spacer(10, 30), held], 80.0, 100.0)
    assert [placed.flowable for placed in first] != [held]
    assert [placed.flowable for placed in others[0]] == [held]
    pages = break_story([Spacer(10, 30), higher], 80.0, 100.0)
    assert [column_height(page) for page in pages] == [70.0, 80.0, 40.0]
