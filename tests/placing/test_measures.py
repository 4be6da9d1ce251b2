"""The measures that a hand needs a ruler for, and not one more."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.measure.geometry import ExactPoint
from booklet.measure.length import Unit, parse_length
from booklet.placing.model import MeasureKind, PlacedLayout
from tests.placing.layouts import page


def measures(layout: PlacedLayout) -> list[tuple[str, str, bool]]:
    return [(m.kind.value, str(m.length), m.computed) for m in layout.measures]


def at(text: str) -> ExactPoint:
    """A point: across, down."""
    across, down = (parse_length(part.strip(), Unit.INCH) for part in text.split(","))
    return ExactPoint(across, down)


MAT = "{place: mat, flush: [top, left]}"


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("flush: [top, left]", []),
        ("left: 0, top: 0", []),
        ("left: 1 1/2, top: 0", [("edge", "3/2", False)]),
        ("right: 1, bottom: 2", [("edge", "1", False), ("edge", "2", False)]),
        # 12 - 2 = 10, half of it; 12 - 3 = 9, half of it.
        ("centred: yes", [("centre", "5", True), ("centre", "9/2", True)]),
        ("beside: mat, flush: top", []),
        ("beside: mat, gap: 1/4, flush: top", [("gap", "1/4", False)]),
        ("below: mat, gap: 1/2, left: 1", [("edge", "1", False), ("gap", "1/2", False)]),
        # On a mat of 6 1/4 x 4 1/4: 2 1/8 at the sides, 5/8 above and below.
        ("on: mat", [("border", "17/8", True), ("border", "5/8", True)]),
    ],
)
def test_for_one_tag(words: str, expected: list[tuple[str, str, bool]]) -> None:
    assert measures(page(f"[{MAT}, {{place: tag, {words}}}]")) == expected


def test_an_even_border_is_measured_once() -> None:
    assert measures(page(f"[{MAT}, {{photo: 6 x 4, on: mat}}]")) == [("border", "1/8", True)]


def test_a_measure_runs_from_the_named_edge_through_the_middle_of_the_piece() -> None:
    across, down = page("[{place: tag, right: 1, top: 2}]").measures
    assert (across.start, across.end) == (at("12, 3 1/2"), at("11, 3 1/2"))
    assert (down.start, down.end) == (at("10, 0"), at("10, 2"))


def test_a_gap_is_measured_where_both_edges_are() -> None:
    (gap,) = [
        m
        for m in page(
            "[{place: tall mat, left: 1, top: 1}, {place: tag, beside: tall mat, gap: 1, bottom: 2}]"
        ).measures
        if m.kind is MeasureKind.GAP
    ]
    # The tall mat reaches down from 1 to 7 1/4, the tag from 7 to 10: half way from 7 is 7 1/8.
    assert (gap.start.x, gap.end.x, gap.start.y) == (Fraction(21, 4), Fraction(25, 4), Fraction(57, 8))


def test_a_row_is_measured_once_at_its_start_and_once_between() -> None:
    layout = page("[{row: tag, count: 4, left: 1/2, right: 1/2, top: 2}]")
    assert measures(layout) == [("edge", "1/2", False), ("edge", "2", False), ("gap", "1", True)]


def test_three_equal_things_with_a_plain_ruler() -> None:
    # Over 12 with even ends: the middle one's centre lies at 6, from the page's left edge.
    layout = page("[{row: tag, count: 3, even_ends: yes, top: 0}]")
    assert measures(layout) == [("gap", "3/2", True), ("middle", "6", True)]
    middle = layout.measures[-1]
    assert (middle.start, middle.end) == (at("0, 1 1/2"), at("6, 1 1/2"))


def test_two_with_even_ends_begin_at_a_computed_distance() -> None:
    # 12 - 2 x 2 = 8 for 3 gaps.
    layout = page("[{row: tag, count: 2, even_ends: yes, top: 0}]")
    assert measures(layout) == [("edge", "8/3", True), ("gap", "8/3", True)]


@given(
    left=st.fractions(0, 9, max_denominator=16),
    top=st.fractions(0, 8, max_denominator=16),
)
def test_measures_alone_find_the_place_again(left: Fraction, top: Fraction) -> None:
    layout = page(f"[{{place: tag, left: {left}, top: {top}}}]")
    across = sum((m.end.x - m.start.x for m in layout.measures), Fraction(0))
    down = sum((m.end.y - m.start.y for m in layout.measures), Fraction(0))
    assert (across, down) == (left, top)
