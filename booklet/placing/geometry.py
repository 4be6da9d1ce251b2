"""Points, rectangles and their two axes: exact, origin top left, x to the right, y down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from booklet.kit.position import Direction
from booklet.measure.length import Size


@dataclass(frozen=True)
class Point:
    """A point of a layout, in the kit's unit from the top left of its base."""

    x: Fraction
    y: Fraction


@dataclass(frozen=True)
class Span:
    """What a rectangle takes up along one axis."""

    low: Fraction
    high: Fraction

    @property
    def length(self) -> Fraction:
        """How long it is."""
        return self.high - self.low

    @property
    def middle(self) -> Fraction:
        """Half way along."""
        return (self.low + self.high) / 2


@dataclass(frozen=True)
class Rect:
    """An upright rectangle: its top left corner, its width and its height."""

    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction

    @property
    def right(self) -> Fraction:
        """Where its right edge lies."""
        return self.x + self.width

    @property
    def bottom(self) -> Fraction:
        """Where its bottom edge lies."""
        return self.y + self.height

    @property
    def size(self) -> Size:
        """Its width and height."""
        return Size(self.width, self.height)

    @property
    def area(self) -> Fraction:
        """Width times height."""
        return self.width * self.height

    @property
    def centre(self) -> Point:
        """Where its diagonals cross."""
        return Point(self.x + self.width / 2, self.y + self.height / 2)

    def span(self, direction: Direction) -> Span:
        """What it takes up across or down."""
        if direction is Direction.ACROSS:
            return Span(self.x, self.right)
        return Span(self.y, self.bottom)

    def moved(self, right: Fraction, down: Fraction) -> Rect:
        """The same rectangle further to the right and down."""
        return Rect(self.x + right, self.y + down, self.width, self.height)


def rect_of(across: Span, down: Span) -> Rect:
    """The rectangle that takes up these spans."""
    return Rect(across.low, down.low, across.length, down.length)


def rect_at_origin(size: Size) -> Rect:
    """A rectangle of this size with its top left corner at the origin."""
    return Rect(Fraction(0), Fraction(0), size.width, size.height)


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
    wide = shared(one.span(Direction.ACROSS), other.span(Direction.ACROSS))
    high = shared(one.span(Direction.DOWN), other.span(Direction.DOWN))
    return max(wide, Fraction(0)) * max(high, Fraction(0))
