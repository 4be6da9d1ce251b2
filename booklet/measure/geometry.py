"""Points, spans and rectangles of a flat page: exact, origin top left, x to the right, y down."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from booklet.measure.exact import Fraction
from booklet.measure.length import Size


@dataclass(frozen=True)
class Point:
    """A point, in the kit's unit from the top left."""

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
    """An upright rectangle: its top left corner, its width and its height.

    What is asked for again and again is worked out once.
    """

    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction

    @cached_property
    def right(self) -> Fraction:
        """Where its right edge lies."""
        return self.x + self.width

    @cached_property
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

    @cached_property
    def across(self) -> Span:
        """What it takes up from left to right."""
        return Span(self.x, self.right)

    @cached_property
    def down(self) -> Span:
        """What it takes up from top to bottom."""
        return Span(self.y, self.bottom)

    def contains(self, other: Rect) -> bool:
        """Whether `other` lies within this rectangle, edges included."""
        return (
            self.x <= other.x
            and self.y <= other.y
            and other.right <= self.right
            and other.bottom <= self.bottom
        )

    def overlaps(self, other: Rect) -> bool:
        """Whether the two share more than an edge."""
        return (
            self.x < other.right and other.x < self.right and self.y < other.bottom and other.y < self.bottom
        )


def rect_of(across: Span, down: Span) -> Rect:
    """The rectangle that takes up these spans."""
    return Rect(across.low, down.low, across.length, down.length)


def rect_at_origin(size: Size) -> Rect:
    """A rectangle of this size with its top left corner at the origin."""
    return Rect(Fraction(0), Fraction(0), size.width, size.height)
