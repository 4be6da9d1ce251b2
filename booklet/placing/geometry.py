"""Rectangles of a layout together: the hull of several, what two share, what one takes up in a direction."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.kit.fields import Edge
from booklet.kit.position import Direction
from booklet.measure.exact import Fraction
from booklet.measure.geometry import Rect, Span, rect_of


def span_of(rect: Rect, direction: Direction) -> Span:
    """What a rectangle takes up across or down."""
    return rect.across if direction is Direction.ACROSS else rect.down


def hull(rects: Sequence[Rect]) -> Rect:
    """The smallest rectangle round all of these, at least one."""
    across = Span(min(r.x for r in rects), max(r.right for r in rects))
    down = Span(min(r.y for r in rects), max(r.bottom for r in rects))
    return rect_of(across, down)


def shared(one: Span, other: Span) -> Fraction:
    """How far two spans overlap; below 0, how far they are apart."""
    return min(one.high, other.high) - max(one.low, other.low)


def overlap(one: Rect, other: Rect) -> Fraction:
    """The area that two rectangles share."""
    wide = shared(one.across, other.across)
    high = shared(one.down, other.down)
    return max(wide, Fraction(0)) * max(high, Fraction(0))


def beyond(rect: Rect, page: Rect) -> dict[Edge, Fraction]:
    """How far a rectangle goes beyond each edge of the page; below 0, how far within it ends."""
    return {
        Edge.TOP: page.y - rect.y,
        Edge.RIGHT: rect.right - page.right,
        Edge.BOTTOM: rect.bottom - page.bottom,
        Edge.LEFT: page.x - rect.x,
    }
