"""Hatching, numbered discs and chips."""

from __future__ import annotations

from itertools import pairwise
from math import hypot, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiPolygon, Polygon, box

from booklet.drawing.marks.marker import cut_marker, pocket_chip
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Circle, Text
from booklet.drawing.shapes.hatch import hatch
from booklet.drawing.shapes.style import DrawingStyle
from tests.drawing.overlaps import straight_steps
from tests.drawing.walking import walk

STYLE = DrawingStyle()


def hatched(outline: list[tuple[float, float]], gaps: list[Box], distance: float = 5.0) -> list[LineString]:
    path = hatch(outline, distance, STYLE.fine, gaps)
    return [LineString(ends) for ends in straight_steps(path.segments)]


@given(
    st.lists(st.tuples(st.integers(-50, 150), st.integers(-50, 150)), min_size=3, max_size=7, unique=True),
    st.lists(st.tuples(st.integers(-20, 100), st.integers(-20, 100)), max_size=2),
)
def test_hatching_fills_the_outline_exactly_and_leaves_the_gaps_free(
    corners: list[tuple[float, float]], places: list[tuple[int, int]]
) -> None:
    area = Polygon(corners)
    if not area.is_valid or area.area < 1:
        return
    gaps = [Box(x, y, x + 30, y + 12) for x, y in places]
    wanted = area.difference(MultiPolygon() if not gaps else box(*gaps[0]).union(box(*gaps[-1])))
    lines = hatched(corners, gaps)
    assert all(line.within(wanted.buffer(1e-6)) for line in lines)
    # Lines 5 points apart: an independent library cuts the same lines out of the same area.
    low, high = -400, 800
    pitch = 5 * sqrt(2)
    every = [
        LineString([(low, number * pitch - low), (high, number * pitch - high)]) for number in range(-80, 81)
    ]
    # A line that runs along an edge belongs to the area or not, as one likes: it is left out of the sum.
    inner = wanted.buffer(-1e-7)
    expected = sum(inner.intersection(line).length for line in every)
    drawn = sum(line.intersection(inner).length for line in lines)
    assert drawn == pytest.approx(expected, abs=1e-3)


def test_hatching_runs_at_forty_five_degrees_and_keeps_its_distance() -> None:
    lines = hatched([(0, 0), (100, 0), (100, 60), (0, 60)], [], distance=4)
    for line in lines:
        (x1, y1), (x2, y2) = line.coords
        assert x2 - x1 == pytest.approx(y1 - y2), "rising to the right"
    offsets = [(line.coords[0][0] + line.coords[0][1]) / sqrt(2) for line in lines]
    assert [after - before for before, after in pairwise(offsets)] == pytest.approx([4] * (len(offsets) - 1))


@pytest.mark.parametrize("number", ["1", "9", "12", "28", "104"])
def test_a_numeral_fits_its_disc(number: str) -> None:
    group = cut_marker(30, 40, number, STYLE)
    (text,) = [leaf for leaf, _ in walk([group]) if isinstance(leaf, Text)]
    disc = min((leaf for leaf, _ in walk([group]) if isinstance(leaf, Circle)), key=lambda disc: disc.radius)
    half_height = text.size * 0.656 / 2
    assert hypot(text.width / 2, half_height) <= disc.radius
    assert text.box.centre[0] == pytest.approx(30)
    assert text.y - half_height == pytest.approx(40), "in the middle of the disc"


def test_a_cut_marker_is_filled_with_black_of_which_printers_make_no_dots() -> None:
    filled = [leaf for leaf, _ in walk([cut_marker(0, 0, "1", STYLE)]) if isinstance(leaf, Circle)]
    assert [disc.fill.colour for disc in filled if disc.fill] == [STYLE.palette.ink]


def test_a_pocket_stands_where_asked() -> None:
    pocket = pocket_chip(10, 20, "12", STYLE)
    assert (pocket.box.left, pocket.box.top) == (10, 20)
    (number,) = [leaf for leaf, _ in walk(pocket.shapes) if isinstance(leaf, Text)]
    assert pocket.box.left < number.box.left < number.box.right < pocket.box.right
