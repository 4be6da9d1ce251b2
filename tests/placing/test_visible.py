"""What is seen of each item, against a general geometry library on random pages."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from typing import Any

import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import affinity

from booklet.kit.fields import Face
from booklet.kit.sheet import OutlineShape
from booklet.measure.geometry import ExactRect
from booklet.placing.details import BandForm
from booklet.placing.geometry import overlap
from booklet.placing.model import ItemKind, Placed
from booklet.placing.ties import tie_rings
from booklet.placing.visible import item_ring, upright_bounds, visible_parts, visible_share

SIXTEENTHS = st.integers(0, 160).map(lambda n: Fraction(n, 16))
LENGTHS = st.integers(1, 120).map(lambda n: Fraction(n, 16))
# Shares are rounded to fractions of a denominator up to a million.
SHARE_ROUNDING = 1e-6
TILTS = st.integers(-180, 180).map(lambda n: Fraction(n, 2))


def item(
    id: int, rect: ExactRect, tilt: Fraction = Fraction(0), outline: OutlineShape = OutlineShape.RECTANGLE
) -> Placed:
    return Placed(
        id, id, f"piece {id}", None, ItemKind.PIECE, rect, (), tilt=tilt, outline=outline, face=Face.FRONT
    )


RECTS = st.builds(ExactRect, SIXTEENTHS, SIXTEENTHS, LENGTHS, LENGTHS)
UPRIGHT = st.lists(RECTS, min_size=1, max_size=8)
TILTED = st.lists(st.tuples(RECTS, TILTS), min_size=1, max_size=6)


def outside_polygon(rect: ExactRect, tilt: Fraction = Fraction(0)) -> Any:
    """The same rectangle by the outside library alone."""
    corners = [(rect.x, rect.y), (rect.right, rect.y), (rect.right, rect.bottom), (rect.x, rect.bottom)]
    shape = shapely.Polygon([(float(x), float(y)) for x, y in corners])
    return affinity.rotate(shape, float(tilt), origin=(float(rect.centre.x), float(rect.centre.y)))


@given(UPRIGHT)
def test_upright_pages_agree_on_what_is_seen(rects: list[ExactRect]) -> None:
    seen = visible_parts([item(number, rect) for number, rect in enumerate(rects, start=1)])
    for number, (rect, visible) in enumerate(zip(rects, seen, strict=True), start=1):
        above = shapely.union_all([outside_polygon(other) for other in rects[number:]])
        expected = outside_polygon(rect).difference(above).area / float(rect.area)
        assert abs(float(visible.share) - expected) < 1e-9


@settings(deadline=None)
@given(TILTED)
def test_tilted_pages_agree_on_what_is_seen(things: list[tuple[ExactRect, Fraction]]) -> None:
    seen = visible_parts([item(number, rect, tilt) for number, (rect, tilt) in enumerate(things, start=1)])
    for number, ((rect, tilt), visible) in enumerate(zip(things, seen, strict=True), start=1):
        above = shapely.union_all([outside_polygon(*other) for other in things[number:]])
        expected = outside_polygon(rect, tilt).difference(above).area / float(rect.area)
        assert abs(float(visible.share) - expected) <= SHARE_ROUNDING


@given(RECTS, RECTS)
def test_overlaps_agree(one: ExactRect, other: ExactRect) -> None:
    expected = outside_polygon(one).intersection(outside_polygon(other)).area
    assert abs(float(overlap(one, other)) - expected) < 1e-9


@given(UPRIGHT)
def test_containment_agrees(rects: list[ExactRect]) -> None:
    for one, other in combinations(rects, 2):
        inside = overlap(one, other) == other.area
        assert inside == outside_polygon(one).covers(outside_polygon(other))


def test_a_tilt_is_clockwise_as_seen_on_the_page() -> None:
    # A long strip tilted a little clockwise: its right end comes down, which is a larger y.
    strip = item_ring(item(1, ExactRect(Fraction(0), Fraction(0), Fraction(10), Fraction(1)), Fraction(10)))
    rightmost = max(strip, key=lambda point: point[0])
    assert rightmost[1] > 0.5


def test_a_circle_leaves_the_corners_free() -> None:
    square = ExactRect(Fraction(0), Fraction(0), Fraction(2), Fraction(2))
    seen = visible_parts([item(1, square), item(2, square, outline=OutlineShape.CIRCLE)])
    # 1 - pi / 4 = 0.2146 of the square is seen round its circle.
    assert abs(float(seen[0].share) - 0.2146) < 5e-4


def test_the_upright_box_of_a_tilted_square() -> None:
    # A square of 2 tilted by 45 degrees is 2 x sqrt 2 = 2.828 wide.
    box = upright_bounds(item(1, ExactRect(Fraction(0), Fraction(0), Fraction(2), Fraction(2)), Fraction(45)))
    assert abs(float(box.width) - 2.8284271) < 1e-6


def tied(form: BandForm, id: int, rect: ExactRect, tilt: Fraction = Fraction(0)) -> Placed:
    return replace(item(id, rect, tilt), kind=ItemKind.RIBBON, form=form)


@pytest.mark.parametrize("form", [BandForm.BOW, BandForm.KNOT])
def test_a_tie_is_made_of_convex_parts(form: BandForm) -> None:
    for ring in tie_rings(form, ExactRect(Fraction(1), Fraction(2), Fraction(4), Fraction(2)), Fraction(20)):
        part = shapely.Polygon(ring)
        assert abs(part.area - part.convex_hull.area) < 1e-9


# A knot so small that what a cover takes of each of its parts is hardly an area.
SPECK = ExactRect(Fraction(9, 8), Fraction(135, 16), Fraction(1, 16), Fraction(1, 16))


@settings(deadline=None)
@given(st.sampled_from([BandForm.BOW, BandForm.KNOT]), RECTS, RECTS, TILTS)
@example(BandForm.KNOT, SPECK, SPECK, Fraction(45, 2))
def test_a_tie_covers_and_is_covered_by_its_outline(
    form: BandForm, card: ExactRect, box: ExactRect, tilt: Fraction
) -> None:
    outline = shapely.union_all([shapely.Polygon(ring) for ring in tie_rings(form, box, tilt)])
    below = visible_share(item(1, card), [tied(form, 2, box, tilt)])
    above = visible_share(tied(form, 1, box, tilt), [item(2, card)])
    expected = outside_polygon(card).difference(outline).area / float(card.area)
    assert abs(float(below) - expected) <= SHARE_ROUNDING
    expected = outline.difference(outside_polygon(card)).area / outline.area
    assert abs(float(above) - expected) <= SHARE_ROUNDING
