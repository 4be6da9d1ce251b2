"""A bow or a knot as it lies: its loops and tails and its middle on a field of 100 by 50.

What is drawn of it and what it covers are read off the same curves (seen on a table, no source).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.placing.details import BandForm
from booklet.placing.polygons import Ring, Vertex, laid_ring

# A cubic curve: where it begins, its two handles, where it ends.
Curve = tuple[Vertex, Vertex, Vertex, Vertex]

FIELD = (100.0, 50.0)
# The left half, each outline closed by straight lines; the right one is its mirror image.
LOOP: tuple[Curve, ...] = (
    ((50.0, 24.0), (38.0, 2.0), (6.0, -4.0), (4.0, 14.0)),
    ((4.0, 14.0), (2.0, 34.0), (34.0, 36.0), (50.0, 26.0)),
)
TAIL: tuple[Curve, ...] = (
    ((49.0, 25.0), (44.0, 36.0), (36.0, 44.0), (26.0, 50.0)),
    ((33.0, 50.0), (43.0, 43.0), (50.0, 36.0), (52.0, 26.0)),
)
# A tail of a knot without loops, which leaves the middle to the left and drops a little.
KNOT_TAIL: tuple[Curve, ...] = (
    ((52.0, 21.0), (36.0, 15.0), (20.0, 26.0), (0.0, 36.0)),
    ((7.0, 50.0), (24.0, 40.0), (38.0, 31.0), (52.0, 31.0)),
)
# What is tied in the middle: its corners at the top left and the bottom right.
MIDDLE: tuple[Vertex, Vertex] = ((45.5, 19.0), (54.5, 31.0))
TIES = frozenset((BandForm.BOW, BandForm.KNOT))

# Straight pieces to a curve: the outline of a loop is 1 % short.
_PIECES = 8


def tie_rings(form: BandForm, rect: ExactRect, tilt: Fraction) -> tuple[Ring, ...]:
    """The convex parts of a bow or knot in a rectangle, tilted by degrees clockwise about its centre."""
    (left, top), (right, bottom) = MIDDLE
    is_bow = form is BandForm.BOW
    half = [_points(LOOP), *_across(TAIL)] if is_bow else list(_across(KNOT_TAIL))
    other = [[(FIELD[0] - x, y) for x, y in reversed(part)] for part in half]
    middle = [(left, bottom), (right, bottom), (right, top), (left, top)]
    return tuple(laid_ring(_shares(part), rect, tilt) for part in (*half, *other, middle))


def _points(curves: Iterable[Curve]) -> list[Vertex]:
    """Points along curves that go on from each other, each once."""
    return list(dict.fromkeys(point for curve in curves for point in _along(curve)))


def _across(tail: tuple[Curve, ...]) -> Iterator[list[Vertex]]:
    """A tail, which bends, in pieces from the middle to its end."""
    outer, inner = tail
    pairs = zip(_along(outer), reversed(list(_along(inner))), strict=True)
    for (one, other), (next_one, next_other) in pairwise(pairs):
        yield [other, one, next_one, next_other]


def _along(curve: Curve) -> Iterator[Vertex]:
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = curve
    for step in range(_PIECES + 1):
        t = step / _PIECES
        a, b, c, d = (1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3
        yield a * ax + b * bx + c * cx + d * dx, a * ay + b * by + c * cy + d * dy


def _shares(part: Iterable[Vertex]) -> Ring:
    """Points on the field as shares of its width and height."""
    return tuple((x / FIELD[0], y / FIELD[1]) for x, y in part)
