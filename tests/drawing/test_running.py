"""Running dimensions: what they say, their arrangement after ISO 129-1, and texts that lie over nothing."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.drawing.marks.dimension import Side
from booklet.drawing.marks.running import Stop, running_line
from booklet.drawing.shapes.affine import Box, Point, bounds_of_points
from booklet.drawing.shapes.figure import Circle, Line, Polygon, Shape, dimensions, walk
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.length import Unit
from booklet.measure.words import print_length
from tests.drawing.overlaps import crosses, segments
from tests.drawing.readings import text_boxes
from tests.drawing.styles import STYLE, STYLES

PAGE = Box(0, 0, 144, 144)  # 12 x 12 in at 1:6
INCH = 12.0
EIGHTHS = st.integers(1, 95)


def stop(eighths: int, from_start: bool = True) -> Stop:
    """A stop so many eighths of an inch from the origin."""
    length = Fraction(eighths, 8)
    at = float(length) * INCH
    return Stop(at if from_start else 144 - at, print_length(length, Unit.INCH))


def drawn(
    side: Side, from_start: bool, eighths: Sequence[int], style: DrawingStyle = STYLE
) -> tuple[Shape, ...]:
    return running_line(side, PAGE, from_start, [stop(each, from_start) for each in eighths], style)


def outwards(side: Side, point: Point) -> float:
    """How far outside the page a point lies."""
    x, y = point
    return {
        Side.TOP: PAGE.top - y,
        Side.BOTTOM: y - PAGE.bottom,
        Side.LEFT: PAGE.left - x,
        Side.RIGHT: x - PAGE.right,
    }[side]


def along(side: Side, point: Point) -> float:
    return point[0] if side in (Side.TOP, Side.BOTTOM) else point[1]


def arrows(shapes: Sequence[Shape]) -> list[Polygon]:
    return [leaf for leaf, _ in walk(shapes) if isinstance(leaf, Polygon)]


@pytest.mark.parametrize("side", list(Side))
@pytest.mark.parametrize("from_start", [True, False])
@given(eighths=st.lists(EIGHTHS, min_size=1, max_size=14, unique=True), style=STYLES)
def test_texts_lie_over_nothing_however_dense(
    side: Side, from_start: bool, eighths: list[int], style: DrawingStyle
) -> None:
    line = drawn(side, from_start, eighths, style)
    heads = [bounds_of_points(arrow.points) for arrow in arrows(line)]
    texts = [box for _, box in text_boxes(line)]
    assert len(texts) == len(eighths)
    for text in texts:
        assert not any(text.overlaps(head) for head in heads)
        assert not text.overlaps(PAGE)
    # The letters' own height: a text's box has room for accents and tails, which no number has.
    assert_no_ink_overlaps(line, style)


def assert_no_ink_overlaps(line: tuple[Shape, ...], style: DrawingStyle) -> None:
    size = style.dimension_size
    inks = [
        Box(box.left, text.y - 0.72 * size, box.right, text.y + 0.1 * size) for text, box in text_boxes(line)
    ]
    for one, other in combinations(inks, 2):
        assert not one.grown(-0.01).overlaps(other), (one, other)
    for start, end in segments(line):
        assert not any(crosses(start, end, ink) for ink in inks), (start, end)


@pytest.mark.parametrize("side", list(Side))
@pytest.mark.parametrize("from_start", [True, False])
@given(eighths=st.lists(EIGHTHS, min_size=1, max_size=10, unique=True))
def test_each_label_is_the_length_that_is_drawn(side: Side, from_start: bool, eighths: list[int]) -> None:
    line = drawn(side, from_start, eighths)
    origin = 0.0 if from_start else 144.0
    found = {each.label: each for each in dimensions(line)}
    assert set(found) == {print_length(Fraction(each, 8), Unit.INCH) for each in eighths}
    for each in eighths:
        measured = found[print_length(Fraction(each, 8), Unit.INCH)]
        assert measured.length / INCH == pytest.approx(each / 8)
        assert along(side, measured.start) == pytest.approx(origin)
        assert abs(along(side, measured.end) - origin) == pytest.approx(measured.length)
        assert outwards(side, measured.start) == outwards(side, measured.end) > 0


@pytest.mark.parametrize("side", list(Side))
def test_extension_lines_start_clear_of_the_outline_and_pass_the_dimension_line(side: Side) -> None:
    """A gap at the outline and an overshoot beyond the line (ISO 129-1:2018, published extract)."""
    line = drawn(side, True, [16, 48])
    straight = [leaf for leaf, _ in walk(line) if isinstance(leaf, Line)]
    out = {along(side, each.start): each for each in straight if is_outward(side, each)}
    assert sorted(out) == [0.0, 24.0, 72.0]  # from the origin and from both stops
    (main,) = [each for each in straight if not is_outward(side, each)]
    depth = outwards(side, main.start)
    assert {along(side, main.start), along(side, main.end)} == {0.0, 72.0}
    for each in out.values():
        assert outwards(side, each.start) == STYLE.extension_gap
        assert 2 <= outwards(side, each.end) - depth <= STYLE.extension_overshoot
    for _, box in text_boxes(line):
        nearest = min(outwards(side, corner) for corner in box.corners)
        assert nearest > depth, "the text stands beyond the line"
    assert all(each.stroke == STYLE.narrow for each in straight)


def is_outward(side: Side, line: Line) -> bool:
    return outwards(side, line.start) != outwards(side, line.end)


@pytest.mark.parametrize("from_start", [True, False])
@given(eighths=EIGHTHS)
def test_an_arrowhead_ends_at_its_stop_and_never_lies_on_the_origin(from_start: bool, eighths: int) -> None:
    line = drawn(Side.BOTTOM, from_start, [eighths])
    (arrow,) = arrows(line)
    (ring,) = [leaf for leaf, _ in walk(line) if isinstance(leaf, Circle)]
    tip, *back = arrow.points
    assert tip[0] == pytest.approx(stop(eighths, from_start).at)
    origin = 0.0 if from_start else 144.0
    assert ring.x == origin
    near = min(abs(x - origin) for x, _ in arrow.points)
    assert near >= min(ring.radius, eighths / 8 * INCH)
    # It points along the line: from the origin where there is room for it, else from beyond.
    has_room = eighths / 8 * INCH > 8
    assert (abs(back[0][0] - origin) < abs(tip[0] - origin)) or not has_room


@given(eighths=st.lists(EIGHTHS, min_size=1, max_size=6, unique=True))
def test_the_line_reaches_every_arrowhead(eighths: list[int]) -> None:
    line = drawn(Side.TOP, True, eighths)
    (main,) = [leaf for leaf, _ in walk(line) if isinstance(leaf, Line) and not is_outward(Side.TOP, leaf)]
    for arrow in arrows(line):
        assert all(x <= max(main.start[0], main.end[0]) + 1e-9 for x, _ in arrow.points)


def test_what_hangs_over_the_edge_is_measured_outwards() -> None:
    line = running_line(Side.TOP, PAGE, True, [Stop(-12.0, "1"), Stop(24.0, "2")], STYLE)
    found = {each.label: each for each in dimensions(line)}
    assert found["1"].length == 12.0
    assert found["1"].end[0] == -12.0
