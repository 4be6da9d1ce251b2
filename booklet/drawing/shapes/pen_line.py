"""A line as a pen leaves it: it swells and wavers a little, so that nobody takes it for a measure.

The unevenness follows from where the line runs: the same drawing always comes out the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import accumulate, pairwise
from math import hypot, pi, sin

from booklet.drawing.shapes.affine import Point
from booklet.drawing.shapes.figure import Colour, Fill, Path, Segment
from booklet.drawing.shapes.outlines import KAPPA, Outline

# By how much of its width a line swells and thins, and how thin it is where the pen comes down and leaves.
_SWELL, _END = 0.16, 0.78
# How far a line wavers and bows from its course, in points (the bow as a share of the line's length, too).
_WAVER, _BOW, _BOW_SHARE = 0.13, 0.4, 0.008
# Within this way from its ends a line keeps to its course, so that corners meet.
_SETTLED = 5.0
# How far apart a line is looked at, in points, and into how many parts a curve is cut.
_STEP, _CURVE_PARTS = 3.0, 8
# So many lines are kept: most of a picture is the same wherever it is drawn.
_LINES = 256


@lru_cache(_LINES)
def pen_line(course: Outline, width: float, colour: Colour) -> Path:
    """Lines along an outline, as one filled path: a straight part is one stroke, joined curves are one."""
    return Path(
        tuple(segment for points in _courses(course) for segment in _stroke(points, width)), Fill(colour)
    )


def _courses(course: Outline) -> Iterator[list[Point]]:
    """The points of each stroke in turn."""
    first = at = (0.0, 0.0)
    curve: list[Point] = []
    for segment in course:
        if curve and segment[0] != "C":
            yield curve
            curve = []
        match segment:
            case ("M", x, y):
                first = at = (x, y)
            case ("L", x, y):
                yield _straight(at, (x, y))
                at = (x, y)
            case ("Z",):
                if at != first:
                    yield _straight(at, first)
                at = first
            case ("C", *_):
                curve = [*(curve or [at]), *_along(at, segment)]
                at = curve[-1]
    if curve:
        yield curve


def _straight(start: Point, end: Point) -> list[Point]:
    parts = max(3, round(hypot(end[0] - start[0], end[1] - start[1]) / _STEP))
    return [_between(start, end, step / parts) for step in range(parts + 1)]


def _between(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def _along(start: Point, curve: Segment) -> list[Point]:
    x1, y1, x2, y2, x, y = (float(number) for number in curve[1:])
    found = []
    for step in range(1, _CURVE_PARTS + 1):
        t = step / _CURVE_PARTS
        a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
        found.append((a * start[0] + b * x1 + c * x2 + d * x, a * start[1] + b * y1 + c * y2 + d * y))
    return found


def _stroke(points: Sequence[Point], width: float) -> Outline:
    """The outline of what the pen leaves along a smooth course."""
    ways = [0.0, *accumulate(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points))]
    whole = ways[-1]
    # Where the line begins and how far it goes decide how it is uneven.
    phase = 0.37 * points[0][0] + 0.73 * points[0][1] + 0.19 * whole
    left: list[Point] = []
    right: list[Point] = []
    for at, way, (across, down) in zip(points, ways, _normals(points), strict=True):
        inner = min(1.0, way / _SETTLED, (whole - way) / _SETTLED)
        waver = _WAVER * inner * (sin(way / 7.9 + 5 * phase) + 0.35 * sin(way / 3.7 + 9 * phase))
        bow = min(_BOW, _BOW_SHARE * whole) * sin(pi * way / whole) * sin(7 * phase)
        pressed = (_END + (1 - _END) * inner) * (1 + _SWELL * inner * sin(way / 8.3 + 3 * phase))
        half = width / 2 * pressed
        off = waver + bow
        left.append((at[0] + across * (off + half), at[1] + down * (off + half)))
        right.append((at[0] + across * (off - half), at[1] + down * (off - half)))
    right.reverse()
    start: Segment = ("M", *left[0])
    return (
        start,
        *_smooth(left),
        *_cap(left[-1], right[0]),
        *_smooth(right),
        *_cap(right[-1], left[0]),
        ("Z",),
    )


def _normals(points: Sequence[Point]) -> Iterator[Point]:
    """The direction across the course at each point."""
    for before, after in zip([points[0], *points[:-1]], [*points[1:], points[-1]], strict=True):
        along = after[0] - before[0], after[1] - before[1]
        length = hypot(*along)
        yield along[1] / length, -along[0] / length


def _smooth(points: Sequence[Point]) -> Iterator[Segment]:
    """Curves from point to point whose directions are those of the neighbours (Catmull-Rom)."""
    padded = [points[0], *points, points[-1]]
    for before, start, end, after in zip(padded, padded[1:], padded[2:], padded[3:], strict=False):
        yield (
            "C",
            start[0] + (end[0] - before[0]) / 6,
            start[1] + (end[1] - before[1]) / 6,
            end[0] - (after[0] - start[0]) / 6,
            end[1] - (after[1] - start[1]) / 6,
            *end,
        )


def _cap(start: Point, end: Point) -> Iterator[Segment]:
    """A round end from one side of a line to the other."""
    middle = _between(start, end, 0.5)
    out = (end[1] - start[1]) / 2, (start[0] - end[0]) / 2
    tip = middle[0] + out[0], middle[1] + out[1]
    half = (end[0] - start[0]) / 2, (end[1] - start[1]) / 2
    yield (
        "C",
        start[0] + KAPPA * out[0],
        start[1] + KAPPA * out[1],
        tip[0] - KAPPA * half[0],
        tip[1] - KAPPA * half[1],
        *tip,
    )
    yield (
        "C",
        tip[0] + KAPPA * half[0],
        tip[1] + KAPPA * half[1],
        end[0] + KAPPA * out[0],
        end[1] + KAPPA * out[1],
        *end,
    )
