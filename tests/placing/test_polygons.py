"""Outlines of what lies tilted: what is handed to shapely, and what is made of its answers."""

from __future__ import annotations

from fractions import Fraction

import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from booklet.measure.geometry import ExactRect
from booklet.placing import polygons

LENGTHS = st.integers(1, 120).map(lambda n: Fraction(n, 16))
PLACES = st.integers(0, 200).map(lambda n: Fraction(n, 16))
RECTS = st.builds(ExactRect, PLACES, PLACES, LENGTHS, LENGTHS)
TILTS = st.integers(-180, 180).map(lambda n: Fraction(n, 2))
OUTLINES = st.one_of(
    st.builds(polygons.rectangle_ring, RECTS, TILTS), st.builds(polygons.ellipse_ring, RECTS, TILTS)
)


@given(OUTLINES, OUTLINES)
def test_distances_agree(one: polygons.Ring, other: polygons.Ring) -> None:
    expected = shapely.Polygon(one).distance(shapely.Polygon(other))
    assert abs(polygons.distance(one, other) - expected) < 1e-9


@given(OUTLINES, OUTLINES)
def test_boxes_are_never_further_apart_than_what_is_in_them(one: polygons.Ring, other: polygons.Ring) -> None:
    apart = polygons.boxes_apart(polygons.box(one), polygons.box(other))
    assert apart <= polygons.distance(one, other) + 1e-9


@given(OUTLINES, st.lists(OUTLINES, max_size=4))
def test_what_covers_leave_agrees(one: polygons.Ring, covers: list[polygons.Ring]) -> None:
    parts, expected = [one], shapely.Polygon(one)
    for cover in covers:
        parts = polygons.without(parts, cover)
        expected = expected.difference(shapely.Polygon(cover))
    assert abs(sum(map(polygons.area, parts)) - expected.area) < 1e-6
    for part in parts:
        if polygons.area(part) > 1e-9:  # what rounding leaves along a side is no part
            assert expected.buffer(1e-6).covers(shapely.Polygon(part))


@given(OUTLINES, OUTLINES)
def test_what_a_cover_does_not_reach_stays_in_one_part(one: polygons.Ring, other: polygons.Ring) -> None:
    assume(polygons.distance(one, other) > 1e-6)
    assert polygons.without([one], other) == [one]


@given(RECTS, TILTS)
def test_an_ellipse_is_all_but_as_large_as_a_round_one(rect: ExactRect, tilt: Fraction) -> None:
    round_one = float(rect.area) * 3.14159265 / 4
    assert 0.9995 < polygons.area(polygons.ellipse_ring(rect, tilt)) / round_one < 1


@given(OUTLINES, OUTLINES)
def test_what_two_have_in_common_agrees(one: polygons.Ring, other: polygons.Ring) -> None:
    shared = polygons.common(one, other)
    expected = shapely.Polygon(one).intersection(shapely.Polygon(other)).area
    assert abs(sum(map(polygons.area, shared)) - expected) < 1e-6


def test_a_hole_is_left_in_parts_without_holes() -> None:
    sheet = polygons.rectangle_ring(
        ExactRect(Fraction(0), Fraction(0), Fraction(10), Fraction(10)), Fraction(0)
    )
    hole = polygons.rectangle_ring(ExactRect(Fraction(4), Fraction(4), Fraction(2), Fraction(2)), Fraction(0))
    parts = polygons.without([sheet], hole)
    assert len(parts) == 2
    assert sum(map(polygons.area, parts)) == 96  # 10 x 10 less 2 x 2


@given(OUTLINES, OUTLINES)
def test_what_is_surely_held_is_held(cover: polygons.Ring, part: polygons.Ring) -> None:
    if polygons.surely_holds(cover, part):
        assert shapely.Polygon(cover).buffer(1e-9).covers(shapely.Polygon(part))


def test_an_upright_rectangle_surely_holds_what_lies_in_it() -> None:
    sheet = polygons.rectangle_ring(
        ExactRect(Fraction(0), Fraction(0), Fraction(10), Fraction(10)), Fraction(0)
    )
    inside = polygons.ellipse_ring(
        ExactRect(Fraction(2), Fraction(3), Fraction(4), Fraction(2)), Fraction(20)
    )
    assert polygons.surely_holds(sheet, inside)
    assert not polygons.surely_holds(inside, sheet)
