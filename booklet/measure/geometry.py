"""Points, intervals and rectangles of a flat page: exact, origin top left, x to the right, y down."""

from __future__ import annotations

from functools import cached_property

from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Size


@dataclass(frozen=True)
class ExactPoint:
    """A point, in the kit's unit from the top left."""

    x: Fraction
    y: Fraction


@dataclass(frozen=True)
class Interval:
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
class ExactRect:
    """An upright rectangle: its top left corner, its width and its height.

    Derived values are cached, since placing asks for them again and again.
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
    def centre(self) -> ExactPoint:
        """Its centre."""
        return ExactPoint(self.x + self.width / 2, self.y + self.height / 2)

    @cached_property
    def across(self) -> Interval:
        """What it takes up from left to right."""
        return Interval(self.x, self.right)

    @cached_property
    def down(self) -> Interval:
        """What it takes up from top to bottom."""
        return Interval(self.y, self.bottom)

    def contains(self, other: ExactRect) -> bool:
        """Whether `other` lies within this rectangle, edges included."""
        return (
            self.x <= other.x
            and self.y <= other.y
            and other.right <= self.right
            and other.bottom <= self.bottom
        )

    def overlaps(self, other: ExactRect) -> bool:
        """Whether the two share more than an edge."""
        return (
            self.x < other.right and other.x < self.right and self.y < other.bottom and other.y < self.bottom
        )


def rect_of(across: Interval, down: Interval) -> ExactRect:
    """The rectangle that takes up these intervals."""
    return ExactRect(across.low, down.low, across.length, down.length)


def rect_at_origin(size: Size) -> ExactRect:
    """A rectangle of this size with its top left corner at the origin."""
    return ExactRect(Fraction(0), Fraction(0), size.width, size.height)
