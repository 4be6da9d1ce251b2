"""The outline of a placed item as points: rectangle, circle or tag, corners rounded or punched."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, pi, sin

from booklet.drawing.shapes.affine import Box, Point
from booklet.drawing.shapes.scale import Scale
from booklet.kit.sheet import OutlineShape
from booklet.kit.steps import Corner
from booklet.measure.dataclass import dataclass
from booklet.measure.length import Unit
from booklet.placing.model import Placed

# A punched corner and a tag's cut corners, as a share of the shorter side.
_PUNCHED = 0.12
_TAG = 0.24
# Clockwise from the top left: the corner, where its arc begins (in quarter turns), which way its middle lies.
_CORNERS = (
    (Corner.TOP_LEFT, 2, (1, 1)),
    (Corner.TOP_RIGHT, 3, (-1, 1)),
    (Corner.BOTTOM_RIGHT, 0, (-1, -1)),
    (Corner.BOTTOM_LEFT, 1, (1, -1)),
)


@dataclass(frozen=True)
class Arcs:
    """How finely round outlines follow their arcs: the straight pieces of a circle, and of a corner."""

    circle: int
    corner: int


# In the booklet things are drawn at a third of their size or less.
SMALL_ARCS = Arcs(48, 6)
# At true size a circle as large as a page leaves its arc by less than 0.01 mm.
TRUE_ARCS = Arcs(360, 60)


def outline_points(
    item: Placed, box: Box, scale: Scale, unit: Unit, arcs: Arcs = SMALL_ARCS
) -> tuple[Point, ...]:
    """The item's outline in its own box, clockwise, in points."""
    if item.whole is None:
        return _whole_outline(item, box, scale, unit, arcs)
    across = scale.points(item.whole.width, unit)
    if item.from_facing:
        start = box.width - across
        whole = _whole_outline(item, Box(start, 0.0, box.width, box.height), scale, unit, arcs)
        return _cut_straight(whole, 0.0, keeps_right=True)
    whole = _whole_outline(item, Box(0.0, 0.0, across, box.height), scale, unit, arcs)
    return _cut_straight(whole, box.width, keeps_right=False)


def _cut_straight(outline: Sequence[Point], at: float, *, keeps_right: bool) -> tuple[Point, ...]:
    """What a gutter down at x leaves of an outline (one edge of Sutherland and Hodgman's clipping)."""
    way = 1 if keeps_right else -1
    kept: list[Point] = []
    for (x0, y0), (x1, y1) in zip((outline[-1], *outline[:-1]), outline, strict=True):
        before, here = way * (x0 - at), way * (x1 - at)
        if before * here < 0:
            kept.append((at, y0 + (y1 - y0) * (at - x0) / (x1 - x0)))
        if here >= 0:
            kept.append((x1, y1))
    return tuple(kept)


def _whole_outline(item: Placed, box: Box, scale: Scale, unit: Unit, arcs: Arcs) -> tuple[Point, ...]:
    match item.outline:
        case OutlineShape.CIRCLE:
            return _ellipse(box, arcs.circle)
        case OutlineShape.TAG:
            return _tag(box, item.turn)
        case OutlineShape.RECTANGLE:
            return tuple(_rectangle(item, box, scale, unit, arcs.corner))


def _ellipse(box: Box, pieces: int) -> tuple[Point, ...]:
    x, y = box.centre
    steps = (2 * pi * at / pieces for at in range(pieces))
    return tuple((x + box.width / 2 * cos(turn), y + box.height / 2 * sin(turn)) for turn in steps)


def _tag(box: Box, turn: int) -> tuple[Point, ...]:
    """Two corners cut off: those at the top of the upright tag."""
    cut = _TAG * min(box.width, box.height)
    corners = box.corners
    points: list[Point] = []
    for at, (x, y) in enumerate(corners):
        if (at - turn) % 4 in (0, 1):
            before, after = corners[at - 1], corners[(at + 1) % 4]
            points += [_towards((x, y), before, cut), _towards((x, y), after, cut)]
        else:
            points.append((x, y))
    return tuple(points)


def _towards(point: Point, other: Point, distance: float) -> Point:
    length = max(abs(other[0] - point[0]) + abs(other[1] - point[1]), 1e-9)
    share = distance / length
    return point[0] + (other[0] - point[0]) * share, point[1] + (other[1] - point[1]) * share


def _rectangle(item: Placed, box: Box, scale: Scale, unit: Unit, pieces: int) -> Iterator[Point]:
    radii = {
        corner: scale.points(rounding.radius, unit)
        for rounding in item.finish.roundings
        for corner in rounding.corners
    }
    for (corner, quarter, (right, down)), (x, y) in zip(_CORNERS, box.corners, strict=True):
        if corner in item.finish.punched:
            yield from _bite((x, y), quarter, _PUNCHED * min(box.width, box.height), pieces)
        elif corner in radii:
            radius = min(radii[corner], box.width / 2, box.height / 2)
            yield from _arc((x + right * radius, y + down * radius), quarter, radius, pieces)
        else:
            yield x, y


def _arc(middle: Point, quarter: int, radius: float, pieces: int) -> Iterator[Point]:
    for at in range(pieces + 1):
        angle = (quarter + at / pieces) * pi / 2
        yield middle[0] + radius * cos(angle), middle[1] + radius * sin(angle)


def _bite(corner: Point, quarter: int, radius: float, pieces: int) -> Iterator[Point]:
    """A quarter circle taken out of the corner, its middle the corner itself."""
    for at in range(pieces + 1):
        angle = (quarter + 3 - at / pieces) * pi / 2
        yield corner[0] + radius * cos(angle), corner[1] + radius * sin(angle)
