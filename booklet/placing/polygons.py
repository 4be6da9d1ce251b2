"""Outlines of what lies tilted, in floating point: areas, what a cover leaves, how far two are apart.

The geometry is shapely's; it is imported when the first tilted thing asks for it.  Outlines run clockwise as
seen: y is down.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, pi, radians, sin
from typing import TYPE_CHECKING

from booklet.measure.exact import Fraction
from booklet.measure.geometry import Rect

if TYPE_CHECKING:
    from shapely import Geometry, Polygon

Corner = tuple[float, float]
Outline = tuple[Corner, ...]

# An ellipse has 4 x 32 sides: its area is 0.04 % short.
_ELLIPSE_SIDES = 128
# What rounding leaves along a side is no part.
_NO_AREA = 1e-12


def rectangle(rect: Rect, tilt: Fraction) -> Outline:
    """A rectangle tilted by degrees clockwise about its centre, from its top left corner."""
    half_width, half_height = float(rect.width) / 2, float(rect.height) / 2
    corners = (
        (-half_width, -half_height),
        (half_width, -half_height),
        (half_width, half_height),
        (-half_width, half_height),
    )
    return _laid(corners, rect, tilt)


def ellipse(rect: Rect, tilt: Fraction) -> Outline:
    """The ellipse within a rectangle, tilted with it."""
    half_width, half_height = float(rect.width) / 2, float(rect.height) / 2
    angles = (2 * pi * side / _ELLIPSE_SIDES for side in range(_ELLIPSE_SIDES))
    return _laid(tuple((half_width * cos(a), half_height * sin(a)) for a in angles), rect, tilt)


def _laid(corners: Outline, rect: Rect, tilt: Fraction) -> Outline:
    """Corners about the origin, tilted and moved to the rectangle's centre."""
    x, y = float(rect.x + rect.width / 2), float(rect.y + rect.height / 2)
    if not tilt:
        return tuple((x + dx, y + dy) for dx, dy in corners)
    c, s = cos(radians(tilt)), sin(radians(tilt))
    return tuple((x + dx * c - dy * s, y + dx * s + dy * c) for dx, dy in corners)


def box(outline: Outline) -> tuple[float, float, float, float]:
    """The left, top, right and bottom of an outline."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return min(xs), min(ys), max(xs), max(ys)


def boxes_apart(one: Outline, other: Outline) -> float:
    """How far the boxes of two outlines are apart, across or down: quick to see, and never too much."""
    (left, top, right, bottom), (other_left, other_top, other_right, other_bottom) = box(one), box(other)
    return max(other_left - right, left - other_right, other_top - bottom, top - other_bottom)


def surely_holds(cover: Outline, part: Outline) -> bool:
    """Whether a cover is an upright rectangle that holds a part: quick to see, and never said wrongly."""
    left, top, right, bottom = box(cover)
    if len(cover) != 4 or any(x not in (left, right) or y not in (top, bottom) for x, y in cover):
        return False
    part_left, part_top, part_right, part_bottom = box(part)
    return left <= part_left and top <= part_top and part_right <= right and part_bottom <= bottom


def area(outline: Outline) -> float:
    """The area within an outline."""
    return float(_polygon(outline).area)


def distance(one: Outline, other: Outline) -> float:
    """How far two outlines are apart; 0 where they touch or overlap."""
    return float(_polygon(one).distance(_polygon(other)))


def common(part: Outline, cover: Outline) -> list[Outline]:
    """What a part and a cover have in common: outlines that do not overlap, none where that has no area."""
    return list(_outlines(_polygon(part).intersection(_polygon(cover))))


def without(parts: Sequence[Outline], cover: Outline) -> list[Outline]:
    """What a cover leaves of parts that do not overlap; again outlines that do not overlap, without holes."""
    return [left for part in parts for left in _left_of(part, cover)]


def _left_of(part: Outline, cover: Outline) -> list[Outline]:
    if boxes_apart(part, cover) >= 0:
        return [part]
    shape, taken = _polygon(part), _polygon(cover)
    return list(_outlines(shape.difference(taken))) if shape.intersects(taken) else [part]


def _polygon(outline: Outline) -> Polygon:
    from shapely import Polygon

    return Polygon(outline)


def _outlines(shape: Geometry) -> Iterator[Outline]:
    """The polygons of a shape, those with a hole cut in two through the middle of the hole."""
    from shapely import box as upright
    from shapely.geometry.polygon import orient

    for part in getattr(shape, "geoms", (shape,)):
        if part.geom_type != "Polygon" or part.area <= _NO_AREA:
            continue
        if not part.interiors:
            # Counter-clockwise with y up is clockwise as seen with y down.
            yield tuple(orient(part).exterior.coords[:-1])
            continue
        left, top, right, bottom = part.bounds
        middle = part.interiors[0].centroid.x
        for half in (upright(left, top, middle, bottom), upright(middle, top, right, bottom)):
            yield from _outlines(part.intersection(half))
