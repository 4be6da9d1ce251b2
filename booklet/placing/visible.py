"""What is seen of every item: exactly where all is upright, through polygons where something is not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import cos, floor, radians, sin, sqrt
from typing import Any

from booklet.kit.position import Direction
from booklet.kit.sheet import Outline
from booklet.measure.geometry import Rect, Span, rect_of
from booklet.placing.geometry import overlap, span_of
from booklet.placing.model import Placed, Visible

# Polygons are in floating point: what is smaller than this share of an item is nothing.
_NOTHING = 1e-9
_SHARE_STEPS = 10**6
_INNER_STEPS = 1000
# A circle as a polygon of 4 x 64 sides: its area is 0.04 % short.
_QUARTER_SIDES = 64


def is_upright(item: Placed) -> bool:
    """Whether an item covers just its rectangle."""
    return item.tilt == 0 and item.outline is not Outline.CIRCLE


def visible_parts(items: Sequence[Placed]) -> tuple[Visible, ...]:
    """The share of each item, in stacking order, that nothing above it covers."""
    return tuple(_visible(item, items[layer + 1 :]) for layer, item in enumerate(items))


def _visible(item: Placed, above: Sequence[Placed]) -> Visible:
    own = bounds(item)
    near = [other for other in above if other.covers and overlap(bounds(other), own) > 0]
    if not near:
        return Visible(item.id, Fraction(1), _inner(item))
    if all(is_upright(one) for one in (item, *near)):
        grid = _grid(item.rect, [other.rect for other in near])
        return Visible(item.id, grid.area / item.rect.area, grid.largest())
    seen = polygon(item)
    whole = seen.area
    for other in near:
        seen = seen.difference(polygon(other))
    share = Fraction(0) if seen.area < whole * _NOTHING else Fraction(seen.area / whole)
    clear = _grid(_inner(item), [bounds(other) for other in near]).largest()
    return Visible(item.id, min(share, Fraction(1)).limit_denominator(_SHARE_STEPS), clear)


def _inner(item: Placed) -> Rect:
    """An upright rectangle inside an item as it lies, in the middle of it and of its proportions.

    Of half a width a and half a height b tilted by t, the part s with s (a cos t + b sin t) <= a and
    s (a sin t + b cos t) <= b lies inside; in a circle or ellipse, 1 / sqrt 2 of both.
    """
    if is_upright(item):
        return item.rect
    rect, angle = item.rect, radians(abs(item.tilt))
    a, b = float(rect.width), float(rect.height)
    share = min(a / (a * cos(angle) + b * sin(angle)), b / (a * sin(angle) + b * cos(angle)))
    if item.outline is Outline.CIRCLE:
        share *= sqrt(0.5)
    part = Fraction(floor(share * _INNER_STEPS), _INNER_STEPS)
    left = rect.x + rect.width * (1 - part) / 2
    top = rect.y + rect.height * (1 - part) / 2
    return Rect(left, top, rect.width * part, rect.height * part)


@dataclass(frozen=True)
class _Grid:
    """A rectangle divided along the edges of what covers it; which cells are clear, row by row."""

    columns: tuple[Span, ...]
    rows: tuple[Span, ...]
    clear: tuple[tuple[bool, ...], ...]

    @property
    def area(self) -> Fraction:
        """The area of the clear cells."""
        cells = (
            row.length * column.length
            for row, flags in zip(self.rows, self.clear, strict=True)
            for column, flag in zip(self.columns, flags, strict=True)
            if flag
        )
        return sum(cells, Fraction(0))

    def largest(self) -> Rect | None:
        """The largest rectangle of clear cells; the topmost, then the leftmost of equal ones."""
        best: Rect | None = None
        for top in range(len(self.rows)):
            open_columns = [True] * len(self.columns)
            for bottom in range(top, len(self.rows)):
                open_columns = [a and b for a, b in zip(open_columns, self.clear[bottom], strict=True)]
                for first, last in _stretches(open_columns):
                    across = Span(self.columns[first].low, self.columns[last].high)
                    found = rect_of(across, Span(self.rows[top].low, self.rows[bottom].high))
                    if best is None or found.area > best.area:
                        best = found
        return best


def _stretches(flags: Sequence[bool]) -> list[tuple[int, int]]:
    """The first and last index of every unbroken stretch of true."""
    stretches = []
    start: int | None = None
    for index, flag in enumerate([*flags, False]):
        if flag and start is None:
            start = index
        elif not flag and start is not None:
            stretches.append((start, index - 1))
            start = None
    return stretches


def _grid(rect: Rect, covers: Sequence[Rect]) -> _Grid:
    columns = _cells(rect, covers, Direction.ACROSS)
    rows = _cells(rect, covers, Direction.DOWN)
    clear = tuple(
        tuple(not any(overlap(rect_of(column, row), cover) for cover in covers) for column in columns)
        for row in rows
    )
    return _Grid(columns, rows, clear)


def _cells(rect: Rect, covers: Sequence[Rect], direction: Direction) -> tuple[Span, ...]:
    span = span_of(rect, direction)
    edges = {span.low, span.high}
    for cover in covers:
        other = span_of(cover, direction)
        edges |= {edge for edge in (other.low, other.high) if span.low < edge < span.high}
    return tuple(Span(low, high) for low, high in pairwise(sorted(edges)))


def polygon(item: Placed) -> Any:
    """An item's outline as a polygon, tilted as it lies (y down, so that positive degrees are clockwise)."""
    from shapely import affinity
    from shapely.geometry import Point, box

    rect = item.rect
    if item.outline is Outline.CIRCLE:
        round_one = Point(0, 0).buffer(0.5, quad_segs=_QUARTER_SIDES)
        shape = affinity.scale(round_one, float(rect.width), float(rect.height))
        shape = affinity.translate(shape, float(rect.centre.x), float(rect.centre.y))
    else:
        shape = box(float(rect.x), float(rect.y), float(rect.right), float(rect.bottom))
    return affinity.rotate(shape, float(item.tilt), origin="center")


def bounds(item: Placed) -> Rect:
    """The upright rectangle round an item as it lies: exact, unless it is tilted."""
    if not item.tilt:
        return item.rect
    left, top, right, bottom = (Fraction(edge) for edge in polygon(item).bounds)
    return Rect(left, top, right - left, bottom - top)
