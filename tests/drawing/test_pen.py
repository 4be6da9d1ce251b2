"""What hands do, drawn with a pen: the way an arrow goes, the room that a sheet gets, lines that print."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from math import atan2, degrees

import pytest
import shapely

from booklet.drawing.marks.pen import sheet_in_trimmer, trimmer_picture, turn_arrow
from booklet.drawing.shapes.affine import Box, Point, compose, scaling, translation
from booklet.drawing.shapes.figure import (
    BLACK,
    Colour,
    Figure,
    Fill,
    Group,
    Path,
    Rect,
    Shape,
    bounds,
)
from booklet.drawing.shapes.outlines import Outline, outline
from booklet.drawing.shapes.pen_line import pen_line
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Edge, Turn
from tests.drawing.rasters import figure_pdf, figure_svg, same_picture
from tests.drawing.walking import walk

STYLE = DrawingStyle()
RUST = Fill(Colour("#a04020"))


def with_sheet(seen: float, blade: float, stop: Edge = Edge.LEFT) -> Figure:
    box = sheet_in_trimmer(seen, stop)
    return trimmer_picture((Rect(box.left, box.top, box.width, box.height, RUST),), seen, blade, stop, STYLE)


DRAWINGS: dict[str, Callable[[], Figure]] = {
    "a square sheet": lambda: with_sheet(1.0, 0.6),
    "a long sheet, cut near its end": lambda: with_sheet(32.0, 0.99),
    "a stop at the right": lambda: with_sheet(1.0, 0.6, Edge.RIGHT),
    "an upright strip, cut near its beginning": lambda: with_sheet(0.1, 0.02),
    **{f"turn {turn.value}": lambda turn=turn: turn_arrow(turn, STYLE) for turn in Turn},  # type: ignore[misc]
}
drawings = pytest.mark.parametrize("drawn", DRAWINGS.values(), ids=DRAWINGS.keys())


@drawings
def test_a_drawing_keeps_to_its_box(drawn: Callable[[], Figure]) -> None:
    figure = drawn()
    assert Box(0, 0, figure.width, figure.height).holds(bounds(figure.shapes))


@drawings
def test_both_writers_draw_the_same(drawn: Callable[[], Figure]) -> None:
    # At their own size they would be nearly all edge, which the two rasterisers soften differently.
    figure = drawn()
    large = Group(figure.shapes, compose(scaling(6), translation(6, 6)))
    page = Figure(figure.name, 6 * figure.width + 12, 6 * figure.height + 12, (large,), "", "")
    assert same_picture(figure_pdf(page), figure_svg(page))


@drawings
def test_no_line_is_finer_than_half_a_point(drawn: Callable[[], Figure]) -> None:
    for stroke in strokes(drawn().shapes):
        core = shapely.Polygon(stroke).buffer(0).buffer(-0.245)
        assert isinstance(core, shapely.Polygon)
        assert not core.is_empty


@drawings
def test_a_drawing_comes_out_the_same_each_time_and_says_nothing_in_words(
    drawn: Callable[[], Figure],
) -> None:
    assert drawn() == drawn()
    assert (drawn().alt, drawn().scale) == ("", "")


def strokes(shapes: Iterable[Shape]) -> Iterator[list[Point]]:
    """The outlines of all that is filled with ink, the trimmer's stop and arrowheads among them."""
    for leaf, _ in walk(shapes):
        if isinstance(leaf, Path) and leaf.fill == Fill(STYLE.palette.ink):
            yield from rings(leaf.segments)


def rings(segments: Outline) -> Iterator[list[Point]]:
    """Each closed part of an outline as points, curves in eight straight parts."""
    ring: list[Point] = []
    for segment in segments:
        numbers = [float(number) for number in segment[1:]]
        match segment[0]:
            case "M" | "L":
                ring.append((numbers[0], numbers[1]))
            case "C":
                ring += curve(ring[-1], *zip(numbers[::2], numbers[1::2], strict=True))
            case "Z":
                yield ring
                ring = []


def curve(start: Point, first: Point, second: Point, end: Point) -> list[Point]:
    found = []
    for t in (step / 8 for step in range(1, 9)):
        weights = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
        x, y = (
            sum(w * v for w, v in zip(weights, values, strict=True))
            for values in zip(start, first, second, end, strict=True)
        )
        found.append((x, y))
    return found


# The line.


def test_a_pen_line_is_uneven_but_ends_where_it_is_led() -> None:
    course = outline("M 10 20 L 70 20")
    box = bounds([pen_line(course, 1.1, BLACK)])
    assert box.left == pytest.approx(9.45, abs=0.2)
    assert box.right == pytest.approx(70.55, abs=0.2)
    (ring,) = rings(pen_line(course, 1.1, BLACK).segments)
    above = [20 - y for x, y in ring if 15 < x < 65 and y < 20]
    assert max(above) - min(above) > 0.15
    assert all(abs(y - 20) < 1.5 for _, y in ring)


def test_lines_elsewhere_are_uneven_in_another_way() -> None:
    here, there = (pen_line(outline(f"M 0 {y} L 60 {y}"), 1.1, BLACK).segments for y in (0, 9))
    moved = [(x, y + 9) for ring in rings(here) for x, y in ring]
    assert max(abs(a[1] - b[1]) for a, b in zip(moved, *rings(there), strict=True)) > 0.1


# Turns.


@pytest.mark.parametrize(
    ("turn", "sweep"), [(Turn.CLOCKWISE, 90), (Turn.ANTICLOCKWISE, -90), (Turn.HALF, 180)]
)
def test_an_arrow_leads_the_top_edge_to_where_it_comes_to_lie(turn: Turn, sweep: float) -> None:
    shaft, head = arrow(turn_arrow(turn, STYLE))
    way = 1 if sweep > 0 else -1
    tip = next(rings(head.segments))[0]
    assert way * angle(tip) % 360 == pytest.approx(abs(sweep))
    # All of the shaft lies on the way, from the top on.
    angles = [way * angle(point) for ring in rings(shaft.segments) for point in ring]
    assert -8 < min(angles) < 2
    assert max(angles) < abs(sweep)


@pytest.mark.parametrize(("turn", "sign"), [(Turn.CLOCKWISE, 1), (Turn.ANTICLOCKWISE, -1), (Turn.HALF, 1)])
def test_an_arrowhead_points_the_way_of_the_turn(turn: Turn, sign: int) -> None:
    _, head = arrow(turn_arrow(turn, STYLE))
    tip, outer, inner = next(rings(head.segments))
    along = tip[0] - (outer[0] + inner[0]) / 2, tip[1] - (outer[1] + inner[1]) / 2
    arm = tip[0] - 11, tip[1] - 11
    # y runs down, so a positive cross product of arm and movement is clockwise as seen.
    assert sign * (arm[0] * along[1] - arm[1] * along[0]) > 0


def arrow(figure: Figure) -> tuple[Path, Path]:
    """The arrow's shaft and head: what is drawn last."""
    shaft, head = (leaf for leaf, _ in list(walk(figure.shapes))[-2:])
    assert isinstance(shaft, Path)
    assert isinstance(head, Path)
    return shaft, head


def angle(point: Point) -> float:
    """Degrees clockwise from the top, about the middle of the sign."""
    return degrees(atan2(point[0] - 11, 11 - point[1]))


# The trimmer.


@pytest.mark.parametrize("seen", [0.1, 0.75, 1.0, 1.5, 4.0, 32.0])
def test_a_sheet_lies_at_the_stop_in_its_own_proportions(seen: float) -> None:
    box = sheet_in_trimmer(seen, Edge.LEFT)
    assert box.width / box.height == pytest.approx(seen)
    assert box.left == sheet_in_trimmer(1.0, Edge.LEFT).left
    assert Box(0, 0, 86, 62).holds(box)


def test_the_sheet_s_print_is_drawn_in_its_box_and_cut_off_there() -> None:
    box = sheet_in_trimmer(1.0, Edge.LEFT)
    (group,) = (shape for shape in with_sheet(1.0, 0.5).shapes if isinstance(shape, Group))
    assert group.clip == box.corners
    assert group.children == (Rect(box.left, box.top, box.width, box.height, RUST),)


@pytest.mark.parametrize("blade", [0.25, 0.5, 1.0])
def test_the_blade_stands_at_its_share_of_the_sheet(blade: float) -> None:
    box, carriage = sheet_in_trimmer(1.0, Edge.LEFT), bounds(in_accent(with_sheet(1.0, blade)))
    assert carriage.centre[0] == pytest.approx(box.left + blade * box.width)


@pytest.mark.parametrize("blade", [0.25, 0.5, 1.0])
def test_with_the_stop_at_the_right_the_blade_stands_as_far_from_there(blade: float) -> None:
    box, figure = sheet_in_trimmer(1.0, Edge.RIGHT), with_sheet(1.0, blade, Edge.RIGHT)
    assert box.right == 86 - sheet_in_trimmer(1.0, Edge.LEFT).left
    assert bounds(in_accent(figure)).centre[0] == pytest.approx(box.right - blade * box.width)


def test_the_rail_never_hides_the_stop() -> None:
    figure = with_sheet(4.0, 0.0)
    assert bounds(in_accent(figure)).left >= sheet_in_trimmer(4.0, Edge.LEFT).left - 0.5


def in_accent(figure: Figure) -> list[Shape]:
    return [
        Group((leaf,), move)
        for leaf, move in walk(figure.shapes)
        if getattr(leaf, "fill", None) == Fill(STYLE.palette.accent)
    ]
