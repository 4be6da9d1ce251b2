"""Rows and columns, spread evenly: checked against the arithmetic written out."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.placing.details import EvenGap
from booklet.placing.model import PlacedLayout
from booklet.placing.place_layouts import place_layouts
from tests.placing.layouts import detail, finding_of, ids, kit_of, named, page, pieces, rect

HALF = Fraction(1, 2)


def lefts(layout: PlacedLayout, number: int = 1) -> list[Fraction]:
    return [item.rect.x for item in layout.of_step(number)]


def tops(layout: PlacedLayout, number: int = 1) -> list[Fraction]:
    return [item.rect.y for item in layout.of_step(number)]


def gap_of(layout: PlacedLayout, number: int = 1) -> Fraction:
    return detail(layout, number, EvenGap).gap


class TestSpreadBetweenEdges:
    def test_three_tags_between_two_margins(self) -> None:
        # 12 - 1 - 1 = 10 of room, 3 x 2 = 6 of tags, 4 left for 2 gaps: 2 each.
        layout = page("[{row: tag, count: 3, left: 1, right: 1, top: 1}]")
        assert lefts(layout) == [1, 5, 9]
        assert gap_of(layout) == 2

    def test_four_tags_leave_thirds(self) -> None:
        # 12 - 1/2 - 1/2 = 11, 11 - 4 x 2 = 3 for 3 gaps: 1; 12 - 1/4 - 1/4 - 8 = 3 1/2 for 3: 7/6.
        assert gap_of(page("[{row: tag, count: 4, left: 1/2, right: 1/2, top: 1}]")) == 1
        layout = page("[{row: tag, count: 4, left: 1/4, right: 1/4, top: 1}]")
        assert gap_of(layout) == Fraction(7, 6)
        assert lefts(layout)[-1] + 2 == 12 - Fraction(1, 4)

    def test_even_ends_make_the_gaps_at_both_ends_the_same(self) -> None:
        # 12 - 3 x 2 = 6 for 4 gaps: 1 1/2.
        layout = page("[{row: tag, count: 3, even_ends: yes, centred: down}]")
        assert lefts(layout) == [3 * HALF, 5, 17 * HALF]

    def test_things_of_different_widths(self) -> None:
        # 2 + 1 + 2 = 5, 12 - 5 = 7 for 2 gaps: 3 1/2; in line at their bottoms.
        layout = page("[{row: [tag, small tag, badge], flush: [left, right], bottom: 1}]")
        assert lefts(layout) == [0, 11 * HALF, 10]
        assert [item.rect.bottom for item in layout.of_step(1)] == [11, 11, 11]

    def test_a_column_on_a_mat(self) -> None:
        # The mat is 6 1/4 high; two badges of 2 with 1/8 at both ends: 6 1/4 - 1/4 - 4 = 2.
        layout = page("""
          - {place: tall mat, left: 1, top: 1}
          - {column: badge, count: 2, on: tall mat, top: 1/8, bottom: 1/8}
        """)
        assert gap_of(layout, 2) == 2
        assert [item.rect.x for item in layout.of_step(2)] == [1 + Fraction(9, 8)] * 2

    @given(
        count=st.integers(2, 12),
        width=st.fractions(Fraction(1, 16), 1, max_denominator=64),
        left=st.fractions(0, 1, max_denominator=32),
        right=st.fractions(0, 1, max_denominator=32),
    )
    def test_gaps_are_equal_and_close_exactly(
        self, count: int, width: Fraction, left: Fraction, right: Fraction
    ) -> None:
        step = {"row": "slip", "count": str(count), "top": "1", "left": str(left), "right": str(right)}
        room = 14 - left - right
        (layout,) = place_layouts(
            kit_of({"steps": [step]}), pieces({"base": "14 x 14", "slip": f"{width} x 1"})
        )
        items = layout.of_step(1)
        gaps = {b.rect.x - a.rect.right for a, b in pairwise(items)}
        assert gaps == {(room - count * width) / (count - 1)}
        assert (items[0].rect.x, items[-1].rect.right) == (left, 14 - right)


class TestStatedGap:
    @pytest.mark.parametrize(
        ("words", "first"),
        [
            # Three tags of 2 with 1/4 between are 6 1/2 long: 12 - 6 1/2 = 5 1/2, half of it 2 3/4.
            ("centred: yes", "2 3/4"),
            ("left: 1/2, top: 0", "1/2"),
            ("right: 1/2, top: 0", "5"),
        ],
    )
    def test_one_block(self, words: str, first: str) -> None:
        layout = page(f"[{{row: tag, count: 3, apart: 1/4, {words}}}]")
        start = rect(f"{first}, 0, 1 x 1").x
        assert lefts(layout) == [start, start + Fraction(9, 4), start + Fraction(9, 2)]
        assert not detail(layout, 1, EvenGap).computed

    def test_overlapping_on_purpose(self) -> None:
        layout = page("[{row: tag, count: 3, apart: -1/2, left: 1, top: 1}]")
        assert lefts(layout) == [1, 5 * HALF, 4]

    def test_below_something_at_a_gap_of_its_own(self) -> None:
        layout = page("""
          - {place: strip, left: 0, top: 2}
          - {row: [tag, badge], apart: 1, below: strip, gap: 1/2, centred: across}
        """)
        # 2 + 1 + 2 = 5 on a strip of 12: from 3 1/2.
        assert lefts(layout, 2) == [7 * HALF, 13 * HALF]
        assert tops(layout, 2) == [7 * HALF] * 2

    def test_a_stated_gap_and_two_edges_are_one_too_many(self) -> None:
        assert ids(page("[{row: tag, count: 3, apart: 1/4, left: 1, right: 1, top: 0}]")) == [
            "position-twice"
        ]


class TestEntries:
    def test_photographs_and_writing_in_a_row(self) -> None:
        layout = page(
            "[{row: [{photo: 3 x 4}, tag, {write: 2 x 1, called: date}], left: 1, right: 1, top: 0}]"
        )
        assert [item.kind.value for item in layout.of_step(1)] == ["photo", "piece", "writing"]
        assert named(layout, "date").rect == rect("9, 0, 2 x 1")

    def test_a_row_and_its_things_can_be_referred_to(self) -> None:
        layout = page("""
          - {row: badge, count: 3, apart: 1, left: 1, top: 1, called: badges}
          - {place: tag, below: badges 2, flush: left}
          - {place: strip, below: badges, gap: 4, centred: across}
        """)
        assert named(layout, "tag").rect == rect("4, 3, 2 x 3")
        # The badges reach from 1 to 9: their middle is 5, the strip's left -1.
        assert named(layout, "strip").rect.x == -1

    def test_turned_things_take_up_their_turned_width(self) -> None:
        assert lefts(page("[{row: tag, count: 2, apart: 1, left: 0, top: 0, turn: clockwise}]")) == [0, 4]

    def test_uses_of_a_row_keep_their_order(self) -> None:
        layout = page("[{row: [tag, {photo: 2 x 3}, badge], count: 2, apart: 0, left: 0, top: 0}]")
        assert [item.use for item in layout.of_step(1)] == [1, None, 2, 3, None, 4]


class TestTooMuch:
    def test_too_long_for_its_edges(self) -> None:
        layout = page("[{row: tag, count: 6, left: 1/4, right: 1/4, top: 0}]")
        assert finding_of(layout, "series-too-long").found == (
            "together they take 12, where only 11 1/2 is free"
        )

    def test_just_long_enough(self) -> None:
        layout = page("[{row: tag, count: 6, left: 0, right: 0, top: 0}]")
        assert gap_of(layout) == 0
        assert layout.findings == ()

    @pytest.mark.parametrize(
        ("apart", "found"), [("-1 63/64", []), ("-2", ["overlap-too-large"]), ("-5", ["overlap-too-large"])]
    )
    def test_each_may_overlap_the_one_before_by_less_than_its_length(
        self, apart: str, found: list[str]
    ) -> None:
        # A badge is 2 wide, a banner 8: the shorter one counts.
        layout = page(f"[{{row: [badge, banner], apart: {apart}, left: 1, top: 1, tilt: 1}}]")
        assert [id for id in ids(layout) if id != "piece-hidden"] == found

    def test_a_gap_is_said_once(self) -> None:
        layout = page("[{row: badge, count: 3, apart: 1, even_ends: yes, left: 0, right: 0, top: 0}]")
        assert finding_of(layout, "position-twice").where == ("layouts", 0, "steps", 0, "apart")

    def test_open_across(self) -> None:
        layout = page("[{row: tag, count: 3, left: 1, top: 0}]")
        assert (
            finding_of(layout, "position-open").found
            == "only one edge across the page is said; the other is open"
        )


class TestWithAPlainRuler:
    def test_the_middle_one_of_three_is_placed_by_its_centre(self) -> None:
        # Between margins of 1 and 2: 12 - 3 = 9, 9 - 6 = 3, gaps of 1 1/2; centres at 2, 5 1/2, 9.
        layout = page("[{row: tag, count: 3, left: 1, right: 2, top: 0}]")
        assert detail(layout, 1, EvenGap).middle == 11 * HALF

    def test_of_four_none_lies_in_the_middle(self) -> None:
        layout = page("[{row: tag, count: 4, left: 1, right: 1, top: 0}]")
        assert detail(layout, 1, EvenGap).middle is None
