"""What upright covers leave of an upright rectangle: how much, and the largest rectangle of it.  Exact."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import lcm

from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, Interval, rect_of


@dataclass(frozen=True)
class Axis:
    """Where covers divide a rectangle along one axis: the edges in order, and the same in whole steps.

    Steps are of one size along the axis, so that lengths compare as whole numbers.
    """

    edges: tuple[Fraction, ...]
    steps: tuple[int, ...]

    def cells(self, cover: Interval) -> range:
        """The cells that a cover takes."""
        low, high = max(cover.low, self.edges[0]), min(cover.high, self.edges[-1])
        return range(self.edges.index(low), self.edges.index(high)) if low < high else range(0)

    def length(self, first: int, after: int) -> int:
        """How many steps there are from one cell up to another."""
        return self.steps[after] - self.steps[first]


@dataclass(frozen=True)
class Grid:
    """A rectangle divided along the edges of what covers it; which cells are clear, row by row."""

    across: Axis
    down: Axis
    clear: tuple[tuple[bool, ...], ...]

    @property
    def share(self) -> Fraction:
        """The share of the rectangle that is clear."""
        cells = (
            self.down.length(row, row + 1) * self.across.length(column, column + 1)
            for row, flags in enumerate(self.clear)
            for column, flag in enumerate(flags)
            if flag
        )
        return Fraction(sum(cells), self.down.length(0, -1) * self.across.length(0, -1))

    def largest(self) -> ExactRect | None:
        """The largest rectangle of clear cells; the topmost, then the leftmost of equal ones."""
        best, most = None, 0
        for top in range(len(self.clear)):
            open_columns = [True] * len(self.clear[0])
            for bottom in range(top, len(self.clear)):
                open_columns = [a and b for a, b in zip(open_columns, self.clear[bottom], strict=True)]
                high = self.down.length(top, bottom + 1)
                for first, after in _stretches(open_columns):
                    steps = high * self.across.length(first, after)
                    if steps > most:
                        best, most = (first, after, top, bottom + 1), steps
        return self._rect(*best) if best else None

    def _rect(self, left: int, right: int, top: int, bottom: int) -> ExactRect:
        across, down = self.across.edges, self.down.edges
        return rect_of(Interval(across[left], across[right]), Interval(down[top], down[bottom]))


def what_is_clear(rect: ExactRect, covers: Sequence[ExactRect]) -> Grid:
    """A rectangle as divided by what covers it."""
    across = _axis(rect.across, [cover.across for cover in covers])
    down = _axis(rect.down, [cover.down for cover in covers])
    clear = [[True] * (len(across.edges) - 1) for _ in pairwise(down.edges)]
    for cover in covers:
        columns = across.cells(cover.across)
        for row in down.cells(cover.down):
            for column in columns:
                clear[row][column] = False
    return Grid(across, down, tuple(map(tuple, clear)))


def _axis(span: Interval, covers: Sequence[Interval]) -> Axis:
    edges = {span.low, span.high}
    for cover in covers:
        edges.update(edge for edge in (cover.low, cover.high) if span.low < edge < span.high)
    ordered = tuple(sorted(edges))
    step = lcm(*(edge.denominator for edge in ordered))
    return Axis(ordered, tuple(edge.numerator * (step // edge.denominator) for edge in ordered))


def _stretches(flags: Sequence[bool]) -> list[tuple[int, int]]:
    """The first index of every unbroken stretch of true, and the one after its last."""
    stretches = []
    start: int | None = None
    for index, flag in enumerate([*flags, False]):
        if flag and start is None:
            start = index
        elif not flag and start is not None:
            stretches.append((start, index))
            start = None
    return stretches
