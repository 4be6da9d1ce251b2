"""Immutable affine maps and boxes of the plane of a figure: x to the right, y down, in points."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, hypot, radians, sin
from typing import NamedTuple

Point = tuple[float, float]

_QUARTER_TURNS = {0: (1.0, 0.0), 90: (0.0, 1.0), 180: (-1.0, 0.0), 270: (0.0, -1.0)}


class Affine(NamedTuple):
    """The map x' = a x + c y + e, y' = b x + d y + f; the order of PDF's `cm` and SVG's `matrix()`."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def apply(self, point: Point) -> Point:
        """The image of a point."""
        x, y = point
        return self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f

    def then(self, after: Affine) -> Affine:
        """This map first, `after` next."""
        return Affine(
            after.a * self.a + after.c * self.b,
            after.b * self.a + after.d * self.b,
            after.a * self.c + after.c * self.d,
            after.b * self.c + after.d * self.d,
            after.a * self.e + after.c * self.f + after.e,
            after.b * self.e + after.d * self.f + after.f,
        )

    @property
    def inverse(self) -> Affine:
        """The map that undoes this one; raises ZeroDivisionError for one that flattens the plane."""
        determinant = self.a * self.d - self.b * self.c
        a, b = self.d / determinant, -self.b / determinant
        c, d = -self.c / determinant, self.a / determinant
        return Affine(a, b, c, d, -(a * self.e + c * self.f), -(b * self.e + d * self.f))

    @property
    def least_scale(self) -> float:
        """How long a length of 1 becomes in the direction in which it becomes shortest."""
        # The lesser singular value: the plane's map is a turn that grows and one that mirrors.
        turning = hypot(self.a + self.d, self.b - self.c)
        mirroring = hypot(self.a - self.d, self.b + self.c)
        return abs(turning - mirroring) / 2

    @property
    def greatest_scale(self) -> float:
        """How long a length of 1 becomes in the direction in which it becomes longest."""
        # The greater singular value.
        return (hypot(self.a + self.d, self.b - self.c) + hypot(self.a - self.d, self.b + self.c)) / 2


IDENTITY = Affine()


def translation(dx: float, dy: float) -> Affine:
    """Move by (dx, dy) points."""
    return Affine(e=dx, f=dy)


def scaling(x_factor: float, y_factor: float | None = None) -> Affine:
    """Scale from the origin; alike in both directions unless `y_factor` is given."""
    return Affine(a=x_factor, d=x_factor if y_factor is None else y_factor)


def rotation(degrees: float, about: Point = (0.0, 0.0)) -> Affine:
    """Turn clockwise as seen (y runs down) about a point; quarter turns are exact."""
    quarter = _QUARTER_TURNS.get(int(degrees % 360)) if degrees == int(degrees) else None
    cosine, sine = quarter or (cos(radians(degrees)), sin(radians(degrees)))
    x, y = about
    return Affine(cosine, sine, -sine, cosine, x - cosine * x + sine * y, y - sine * x - cosine * y)


def compose(*maps: Affine) -> Affine:
    """One map that does all of them, the first given first."""
    whole = IDENTITY
    for each in maps:
        whole = whole.then(each)
    return whole


class Box(NamedTuple):
    """An upright rectangle: left and top edge, right and bottom edge, in points."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """From the left to the right edge."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From the top to the bottom edge."""
        return self.bottom - self.top

    @property
    def centre(self) -> Point:
        """The middle."""
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Top left, top right, bottom right, bottom left."""
        return (
            (self.left, self.top),
            (self.right, self.top),
            (self.right, self.bottom),
            (self.left, self.bottom),
        )

    def grown(self, by: float) -> Box:
        """The box with each edge moved outwards; inwards when `by` is negative."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def overlaps(self, other: Box) -> bool:
        """Whether the two share more than an edge."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def holds(self, other: Box) -> bool:
        """Whether the other lies wholly within this one."""
        return (
            self.left <= other.left
            and self.top <= other.top
            and other.right <= self.right
            and other.bottom <= self.bottom
        )

    def common(self, other: Box) -> Box | None:
        """What the two share, or None."""
        if not self.overlaps(other):
            return None
        return Box(
            max(self.left, other.left),
            max(self.top, other.top),
            min(self.right, other.right),
            min(self.bottom, other.bottom),
        )

    def under(self, transform: Affine) -> Box:
        """The upright box about this one's image: about its middle's image, as far as each side reaches."""
        a, b, c, d, e, f = transform
        across, down = (self.left + self.right) / 2, (self.top + self.bottom) / 2
        wide, high = (self.right - self.left) / 2, (self.bottom - self.top) / 2
        x, y = a * across + c * down + e, b * across + d * down + f
        reach_x, reach_y = abs(a) * wide + abs(c) * high, abs(b) * wide + abs(d) * high
        return Box(x - reach_x, y - reach_y, x + reach_x, y + reach_y)


def box_about(middle: Point, width: float, height: float) -> Box:
    """The box of a size with its middle here."""
    x, y = middle
    return Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)


def bounds_of_points(points: Iterable[Point]) -> Box:
    """The smallest box about points; raises ValueError for none."""
    across, down = zip(*points, strict=True)
    return Box(min(across), min(down), max(across), max(down))


def bounds_of_boxes(boxes: Iterable[Box]) -> Box:
    """The smallest box about boxes; raises ValueError for none."""
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return Box(min(lefts), min(tops), max(rights), max(bottoms))
