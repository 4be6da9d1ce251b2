"""Rectangles of a layout together: the hull of several, what two share, what one takes up in a direction."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.kit.position import Direction
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, Interval, rect_of


def span_of(rect: ExactRect, direction: Direction) -> Interval:
    """What a rectangle takes up across or down."""
    return rect.across if direction is Direction.ACROSS else rect.down


def hull(rects: Sequence[ExactRect]) -> ExactRect:
    """The smallest rectangle round all of these, at least one."""
    across = Interval(min(r.x for r in rects), max(r.right for r in rects))
    down = Interval(min(r.y for r in rects), max(r.bottom for r in rects))
    return rect_of(across, down)


def shared(one: Interval, other: Interval) -> Fraction:
    """How far two intervals overlap; below 0, how far they are apart."""
    return min(one.high, other.high) - max(one.low, other.low)


def overlap(one: ExactRect, other: ExactRect) -> Fraction:
    """The area that two rectangles share."""
    wide = shared(one.across, other.across)
    high = shared(one.down, other.down)
    return max(wide, Fraction(0)) * max(high, Fraction(0))
