"""Outlines of what lies tilted, in floating point: areas, what a cover leaves, how far two are apart.

Outlines run clockwise as seen: y is down.  pyclipper clips them, on a grid far finer than any paper.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import pairwise
from math import cos, hypot, inf, pi, radians, sin

from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect

Vertex = tuple[float, float]
Ring = tuple[Vertex, ...]
# Left, top, right and bottom.
Box = tuple[float, float, float, float]
# A path of a clipped outline, in whole steps of the grid.
_Path = Sequence[Sequence[int]]

# An ellipse has 4 x 32 sides: its area is 0.04 % short.
_ELLIPSE_SIDES = 128
# Steps of the grid to a unit: a power of two, so that each is exact as a float.
_GRID = 2**32
# Corners are rounded to the grid: what is narrower along its sides than so much is a rounding error.
_ROUNDING = 4 / _GRID
# Of so many pairs of outlines is kept what they have in common: most of a layout lies as in the save before.
_PAIRS = 1024


def rectangle_ring(rect: ExactRect, tilt: Fraction) -> Ring:
    """A rectangle tilted by degrees clockwise about its centre, from its top left corner."""
    half_width, half_height = float(rect.width) / 2, float(rect.height) / 2
    corners = (
        (-half_width, -half_height),
        (half_width, -half_height),
        (half_width, half_height),
        (-half_width, half_height),
    )
    return _laid(corners, rect, tilt)


def ellipse_ring(rect: ExactRect, tilt: Fraction) -> Ring:
    """The ellipse within a rectangle, tilted with it."""
    half_width, half_height = float(rect.width) / 2, float(rect.height) / 2
    angles = (2 * pi * side / _ELLIPSE_SIDES for side in range(_ELLIPSE_SIDES))
    return _laid(tuple((half_width * cos(a), half_height * sin(a)) for a in angles), rect, tilt)


def laid_ring(shares: Ring, rect: ExactRect, tilt: Fraction) -> Ring:
    """An outline in shares of a rectangle from its top left corner, tilted with it; clockwise either way."""
    width, height = float(rect.width), float(rect.height)
    ring = _laid(tuple(((x - 0.5) * width, (y - 0.5) * height) for x, y in shares), rect, tilt)
    return ring if area(ring) > 0 else ring[::-1]


def _laid(corners: Ring, rect: ExactRect, tilt: Fraction) -> Ring:
    """Corners about the origin, tilted and moved to the rectangle's centre."""
    x, y = float(rect.x + rect.width / 2), float(rect.y + rect.height / 2)
    if not tilt:
        return tuple((x + dx, y + dy) for dx, dy in corners)
    c, s = cos(radians(tilt)), sin(radians(tilt))
    return tuple((x + dx * c - dy * s, y + dx * s + dy * c) for dx, dy in corners)


def box(outline: Ring) -> Box:
    """The left, top, right and bottom of an outline."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return min(xs), min(ys), max(xs), max(ys)


def boxes_apart(one: Box, other: Box) -> float:
    """How far the boxes of two outlines are apart, across or down: a cheap lower bound."""
    (left, top, right, bottom), (other_left, other_top, other_right, other_bottom) = one, other
    return max(other_left - right, left - other_right, other_top - bottom, top - other_bottom)


def surely_holds(cover: Ring, part: Ring) -> bool:
    """Whether a cover is an upright rectangle that holds a part: cheap, and exact."""
    left, top, right, bottom = box(cover)
    if len(cover) != 4 or any(x not in (left, right) or y not in (top, bottom) for x, y in cover):
        return False
    part_left, part_top, part_right, part_bottom = box(part)
    return left <= part_left and top <= part_top and part_right <= right and part_bottom <= bottom


def area(outline: Ring) -> float:
    """The area within an outline, by the shoelace formula; below 0 where it runs anticlockwise as seen.

    Taken from the first corner: from afar, that of a speck is lost in the rounding of the products.
    """
    left, top = outline[0]
    near = [(x - left, y - top) for x, y in outline]
    return sum(x * next_y - next_x * y for (x, y), (next_x, next_y) in pairwise(near)) / 2


def distance(one: Ring, other: Ring) -> float:
    """How far two outlines are apart; 0 where they overlap."""
    if _in_both(one, other):
        return 0
    return _from_corners(one, other, _from_corners(other, one, inf))


@lru_cache(_PAIRS)
def common(part: Ring, cover: Ring) -> tuple[Ring, ...]:
    """What a part and a cover have in common: outlines that do not overlap, none where that has no area."""
    return tuple(_outlines(_in_both(part, cover)))


def without(parts: Sequence[Ring], cover: Ring) -> list[Ring]:
    """What a cover leaves of parts that do not overlap; again outlines that do not overlap, without holes.

    Every cover is convex.
    """
    return [left for part in parts for left in _left_of(part, cover)]


def area_left(part: Ring, covers: Sequence[Ring]) -> float:
    """How much covers leave of a part, which may overlap one another."""
    # A path the other way round is a hole: its area is below 0.
    whole, left = area(part), sum(map(area, _outlines(_in_first(part, covers))))
    return whole if _is_nothing(left - whole, part) else left


def disjoint(rings: Sequence[Ring]) -> list[Ring]:
    """What convex outlines cover together, as outlines that do not overlap."""
    parts: list[Ring] = []
    for place, ring in enumerate(rings):
        rest = [ring]
        for earlier in rings[:place]:
            rest = without(rest, earlier)
        parts += rest
    return parts


@lru_cache(_PAIRS)
def _left_of(part: Ring, cover: Ring) -> tuple[Ring, ...]:
    if boxes_apart(box(part), box(cover)) >= 0:
        return (part,)
    left = _outlines(_in_first(part, [cover]))
    areas = [area(outline) for outline in left]
    if _is_nothing(sum(areas) - area(part), part):
        return (part,)
    if all(left > 0 for left in areas):
        return tuple(left)
    # A path the other way round is a hole, and the whole cover: the part is cut in two through its middle.
    return tuple(without(_halves(part, cover), cover))


def _halves(part: Ring, cover: Ring) -> list[Ring]:
    """A part cut in two at the middle of a cover that lies within it."""
    (left, top, right, bottom), (cover_left, _, cover_right, _) = box(part), box(cover)
    middle = (cover_left + cover_right) / 2
    sides = ((left, middle), (middle, right))
    return [
        half
        for low, high in sides
        for half in common(part, ((low, top), (high, top), (high, bottom), (low, bottom)))
    ]


def _from_corners(one: Ring, other: Ring, nearest: float) -> float:
    """How near a corner of one outline comes to a side of another that it does not overlap, or `nearest`."""
    left, top, right, bottom = box(other)
    at_least = ((hypot(max(left - x, 0, x - right), max(top - y, 0, y - bottom)), (x, y)) for x, y in one)
    for least, corner in sorted(at_least):
        if least >= nearest:
            break
        nearest = min(nearest, *(to_side(corner, start, end) for start, end in _sides(other)))
    return nearest


def to_side(corner: Vertex, start: Vertex, end: Vertex) -> float:
    """How far a corner is from the nearest point of a side."""
    (x, y), (start_x, start_y) = corner, start
    along_x, along_y = end[0] - start_x, end[1] - start_y
    length = along_x * along_x + along_y * along_y
    share = ((x - start_x) * along_x + (y - start_y) * along_y) / length if length else 0
    share = min(max(share, 0), 1)
    return hypot(x - start_x - share * along_x, y - start_y - share * along_y)


def _sides(outline: Ring) -> Iterable[tuple[Vertex, Vertex]]:
    return zip(outline, (*outline[1:], outline[0]), strict=True)


def _in_both(one: Ring, other: Ring) -> list[_Path]:
    from pyclipper import CT_INTERSECTION

    return _clipped(one, [other], CT_INTERSECTION)


def _in_first(one: Ring, others: Sequence[Ring]) -> list[_Path]:
    from pyclipper import CT_DIFFERENCE

    return _clipped(one, others, CT_DIFFERENCE)


def _clipped(one: Ring, others: Sequence[Ring], operation: int) -> list[_Path]:
    from pyclipper import PFT_NONZERO, PT_CLIP, PT_SUBJECT, Pyclipper

    clipper = Pyclipper()
    clipper.AddPath(_on_grid(one), PT_SUBJECT, True)
    for other in others:
        clipper.AddPath(_on_grid(other), PT_CLIP, True)
    paths: list[_Path] = clipper.Execute(operation, PFT_NONZERO, PFT_NONZERO)
    return paths


def _on_grid(outline: Ring) -> _Path:
    return [(round(x * _GRID), round(y * _GRID)) for x, y in outline]


def _outlines(paths: Sequence[_Path]) -> list[Ring]:
    """The paths that enclose something, off the grid."""
    outlines = (tuple((x / _GRID, y / _GRID) for x, y in path) for path in paths)
    return [outline for outline in outlines if not _is_nothing(area(outline), outline)]


def _is_nothing(size: float, outline: Ring) -> bool:
    """Whether an area is no more than what rounding makes along the sides of an outline."""
    round_it = sum(hypot(x - next_x, y - next_y) for (x, y), (next_x, next_y) in _sides(outline))
    return abs(size) <= round_it / 2 * _ROUNDING
