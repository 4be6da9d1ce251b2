"""What is seen of an outline and what lies beneath others, held against another library's geometry."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import cos, hypot, pi, radians, sin

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from shapely import LineString, Polygon, union_all

from booklet.drawing.shapes.affine import Point, rotation
from booklet.drawing.templates.seen import Run, split_by


def square(left: float, top: float, side: float, tilt: float = 0.0) -> tuple[Point, ...]:
    corners = ((left, top), (left + side, top), (left + side, top + side), (left, top + side))
    turned = rotation(tilt, (left + side / 2, top + side / 2))
    return tuple(map(turned.apply, corners))


def length(runs: Sequence[Run]) -> float:
    return sum(hypot(end[0] - start[0], end[1] - start[1]) for run in runs for start, end in pairwise(run))


def test_what_nothing_covers_stays_one_closed_outline() -> None:
    split = split_by(square(0, 0, 10), [square(20, 0, 5)])
    assert split.is_whole
    assert split.seen == (square(0, 0, 10),)
    assert split.hidden == ()


def test_a_corner_beneath_another_paper_is_hidden() -> None:
    split = split_by(square(0, 0, 10), [square(5, 5, 10)])
    assert split.hidden == (((10.0, 5.0), (10.0, 10.0), (5.0, 10.0)),)
    assert split.seen == (((5.0, 10.0), (0.0, 10.0), (0.0, 0.0), (10.0, 0.0), (10.0, 5.0)),)


def test_what_lies_wholly_beneath_is_hidden_all_round() -> None:
    split = split_by(square(2, 2, 4), [square(0, 0, 10)])
    assert split.seen == ()
    assert length(split.hidden) == pytest.approx(16)


def test_an_edge_along_the_edge_of_what_covers_it_is_seen() -> None:
    # The same square right on it, as a photograph on a mat of its size.
    assert split_by(square(0, 0, 10), [square(0, 0, 10)]).is_whole
    # One that begins at the same edge hides the rest of that corner, not the shared edges.
    split = split_by(square(0, 0, 10), [square(0, 0, 6)])
    assert split.is_whole


# To a hundredth of a millionth of a point: shapely warns of corners that are hardly apart at all.
places = st.floats(-40, 40).map(lambda place: round(place, 8))


# What runs along an edge is seen as far as it is no deeper beneath it, in points.
FLUSH = 0.1


@given(
    tilt=st.floats(-30, 30),
    covers=st.lists(st.tuples(places, places, st.floats(3, 30), st.floats(-45, 45)), min_size=0, max_size=4),
)
@example(tilt=0.0, covers=[(0.0, 0.0, 9.875, 2.0)])
def test_seen_and_hidden_are_what_shapely_says(
    tilt: float, covers: list[tuple[float, float, float, float]]
) -> None:
    outline = square(-10, -10, 20, tilt)
    laid = [square(*cover) for cover in covers]
    split = split_by(outline, laid)
    seen = [(*split.seen[0], split.seen[0][0])] if split.is_whole else list(split.seen)
    assert length(seen) + length(split.hidden) == pytest.approx(80)
    beneath = union_all([Polygon(cover) for cover in laid])
    deep = union_all([Polygon(cover).buffer(-FLUSH - 0.01) for cover in laid])
    for run in split.hidden:
        assert LineString(run).difference(beneath.buffer(1e-6)).length == pytest.approx(0, abs=1e-6)
    for run in seen:
        assert LineString(run).intersection(deep).length == pytest.approx(0, abs=1e-6)


def test_a_disc_beneath_a_card_is_hidden_as_far_as_the_card_reaches() -> None:
    disc = tuple((10 * cos(radians(at)), 10 * sin(radians(at))) for at in range(360))
    split = split_by(disc, [square(0, -20, 40)])
    assert length(split.hidden) == pytest.approx(10 * pi, rel=1e-3)
    assert len(split.hidden) == len(split.seen) == 1
