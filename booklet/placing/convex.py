"""Convex outlines in floating point, for what lies tilted: areas, what a cover leaves, how far two are apart.

Every outline on a layout is a rectangle or an ellipse, so that clipping by half planes does it all (after
Sutherland and Hodgman, "Reentrant polygon clipping", 1974, from memory), and a check starts without a large
library of geometry.  Outlines run clockwise as seen: y is down.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from math import cos, hypot, pi, radians, sin

from booklet.measure.geometry import Rect

Corner = tuple[float, float]
Outline = tuple[Corner, ...]

# An ellipse has 4 x 32 sides: its area is 0.04 % short.
_ELLIPSE_SIDES = 128


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


def area(outline: Outline) -> float:
    """The area within an outline."""
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in _sides(outline)) / 2


def without(parts: Sequence[Outline], cover: Outline) -> list[Outline]:
    """What a cover leaves of parts that do not overlap; again convex parts that do not overlap."""
    return [left for part in parts for left in _left_of(part, cover)]


def common(part: Outline, cover: Outline) -> Outline:
    """What a part and a cover have in common; empty where that has no area."""
    for start, end in _sides(cover):
        part = _clipped(part, start, end)
        if not part:
            return ()
    return part


def hull(outline: Outline) -> Outline:
    """The outline without the corners at which it turns inwards."""
    kept: list[Corner] = []
    for corner in (*outline, outline[0]):
        while len(kept) > 1 and _beyond(corner, kept[-2], kept[-1]) < 0:
            kept.pop()
        kept.append(corner)
    return tuple(kept[:-1])


def _left_of(part: Outline, cover: Outline) -> list[Outline]:
    """Along each side of the cover, what lies beyond it is left, and the rest goes on to the next side."""
    left, rest = [], part
    for start, end in _sides(cover):
        beyond = _clipped(rest, end, start)
        if beyond:
            left.append(beyond)
        rest = _clipped(rest, start, end)
        if not rest:
            return [part]
    return left


def distance(one: Outline, other: Outline) -> float:
    """How far two outlines are apart; 0 where they touch or overlap."""
    if not (_apart(one, other) or _apart(other, one)):
        return 0.0
    return min(
        _to_side(corner, side)
        for corners, sides in ((one, other), (other, one))
        for side in _sides(sides)
        for corner in corners
    )


def _sides(outline: Outline) -> Iterator[tuple[Corner, Corner]]:
    return pairwise((*outline, outline[0]))


def _beyond(corner: Corner, start: Corner, end: Corner) -> float:
    """Above 0 for a corner to the right of the way from `start` to `end`, inside a clockwise outline."""
    return (end[0] - start[0]) * (corner[1] - start[1]) - (end[1] - start[1]) * (corner[0] - start[0])


def _clipped(outline: Outline, start: Corner, end: Corner) -> Outline:
    """What lies to the right of the line through `start` and `end`; nothing where that has no area."""
    kept: list[Corner] = []
    sides = [_beyond(corner, start, end) for corner in outline]
    if min(sides) >= 0:
        return outline if max(sides) > 0 else ()
    for index, corner in enumerate(outline):
        before, here = sides[index - 1], sides[index]
        if before * here < 0:
            share = before / (before - here)
            (ax, ay), (bx, by) = outline[index - 1], corner
            kept.append((ax + (bx - ax) * share, ay + (by - ay) * share))
        if here >= 0:
            kept.append(corner)
    return tuple(kept) if len(kept) > 2 else ()


def _apart(one: Outline, other: Outline) -> bool:
    """Whether some side of `one` has all of `other` beyond it: convex outlines that do not meet have such."""
    return any(all(_beyond(corner, *side) < 0 for corner in other) for side in _sides(one))


def _to_side(corner: Corner, side: tuple[Corner, Corner]) -> float:
    """The distance of a corner to the nearest point of a side."""
    (ax, ay), (bx, by) = side
    x, y = corner
    square = (bx - ax) ** 2 + (by - ay) ** 2
    along = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square if square else 0.0
    share = min(max(along, 0.0), 1.0)
    return hypot(x - ax - share * (bx - ax), y - ay - share * (by - ay))
