"""Places for labels: one board of what is taken, candidate places by preference, places along one line.

    board = Board(within=page)
    board.take(words_of_a_print)
    box = board.best(candidates)        # None: none is free; else it is taken now

A label that is given a box by a board lies over nothing that was taken before, by construction.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import inf

from booklet.drawing.shapes.affine import Box, Point
from booklet.measure.dataclass import dataclass


class Board:
    """What is taken on a figure.

    Labels keep `clear` points off what is taken, and lie `within` a box where one is given.
    """

    def __init__(self, within: Box | None = None, clear: float = 1.0) -> None:
        self._within = within
        self._clear = clear
        self._boxes: list[Box] = []

    def take(self, *boxes: Box) -> None:
        """Let no later label lie here."""
        self._boxes += boxes

    def is_free(self, box: Box) -> bool:
        """Whether a label may lie here."""
        if self._within is not None and not self._within.holds(box):
            return False
        around = box.grown(self._clear)
        return not any(around.overlaps(taken) for taken in self._boxes)

    def best(self, candidates: Iterable[Box]) -> Box | None:
        """The first candidate that is free; it is taken then.  None where none is."""
        found = next(filter(self.is_free, candidates), None)
        if found is not None:
            self.take(found)
        return found


def lines_cross(start: Point, end: Point, other_start: Point, other_end: Point) -> bool:
    """Whether two straight lines cross, neither of them only touching the other with an end."""

    def side(a: Point, b: Point, c: Point) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    return (
        side(start, end, other_start) * side(start, end, other_end) < 0
        and side(other_start, other_end, start) * side(other_start, other_end, end) < 0
    )


# Along one line.


@dataclass(frozen=True)
class Callout:
    """Something that belongs at `at` on the line and reaches `before` and `after` from there."""

    at: float
    before: float
    after: float


def spread(callouts: Sequence[Callout], gap: float, low: float = -inf, high: float = inf) -> list[float]:
    """Places for callouts in one row: in order, `gap` apart, as near as can be to where they belong.

    The sum of the squared shifts is the least possible (pool adjacent violators).  Callouts are given in
    order of `at`, at least one.  Where they do not fit between `low` and `high` they start at `low`.
    """
    offsets = [callouts[0].before]
    for left, right in pairwise(callouts):
        offsets.append(offsets[-1] + left.after + gap + right.before)
    wanted = [each.at - offset for each, offset in zip(callouts, offsets, strict=True)]
    highest = max(low, high - offsets[-1] - callouts[-1].after)
    return [
        min(max(place, low), highest) + offset for place, offset in zip(_pooled(wanted), offsets, strict=True)
    ]


def _pooled(wanted: Sequence[float]) -> list[float]:
    pools: list[tuple[float, int]] = []
    for value in wanted:
        total, count = value, 1
        while pools and pools[-1][0] * count > total * pools[-1][1]:
            earlier_total, earlier_count = pools.pop()
            total, count = total + earlier_total, count + earlier_count
        pools.append((total, count))
    return [total / count for total, count in pools for _ in range(count)]
