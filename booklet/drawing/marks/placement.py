"""Places for labels: one board of what is taken, candidate places by preference, rows along one line.

    board = Board(within=page)
    board.take(outline_of_a_picture)
    board.avoid(words_of_a_print, weight=4)
    box = board.best(candidates)        # None: none is free; else it is taken now

A label that is given a box by a board lies over nothing that was taken before, by construction.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import inf

from booklet.drawing.shapes.affine import Box, Point


class Board:
    """What is taken on a figure: boxes and straight lines; and areas that had better stay uncovered.

    Labels keep `clear` points off what is taken, and lie `within` a box where one is given.
    """

    def __init__(self, within: Box | None = None, clear: float = 1.0) -> None:
        self._within = within
        self._clear = clear
        self._boxes: list[Box] = []
        self._lines: list[tuple[Point, Point]] = []
        self._avoided: list[tuple[Box, float]] = []

    def take(self, *boxes: Box) -> None:
        """Let no later label lie here."""
        self._boxes += boxes

    def take_line(self, points: Sequence[Point]) -> None:
        """Let no later label lie over this line from point to point."""
        self._lines += pairwise(points)

    def avoid(self, box: Box, weight: float = 1.0) -> None:
        """Let later labels cover as little of this as can be: each point of area costs `weight`."""
        self._avoided.append((box, weight))

    def is_free(self, box: Box) -> bool:
        """Whether a label may lie here."""
        if self._within is not None and not self._within.holds(box):
            return False
        around = box.grown(self._clear)
        return not any(around.overlaps(taken) for taken in self._boxes) and not any(
            line_meets(start, end, around) for start, end in self._lines
        )

    def is_open(self, points: Sequence[Point]) -> bool:
        """Whether a line from point to point runs over no box that is taken, and crosses no line."""
        return not any(
            any(line_meets(start, end, taken) for taken in self._boxes)
            or any(lines_cross(start, end, *line) for line in self._lines)
            for start, end in pairwise(points)
        )

    def cost(self, box: Box) -> float:
        """How much a label here would cover of what had better stay uncovered."""
        shared = ((box.common(area), weight) for area, weight in self._avoided)
        return sum(common.width * common.height * weight for common, weight in shared if common is not None)

    def best(self, candidates: Iterable[Box]) -> Box | None:
        """The free candidate that covers least of what is avoided, of equals the first; it is taken then."""
        found, least = None, inf
        for box in candidates:
            cost = self.cost(box)
            if cost < least and self.is_free(box):
                found, least = box, cost
                if cost == 0:
                    break
        if found is not None:
            self.take(found)
        return found


def line_meets(start: Point, end: Point, box: Box) -> bool:
    """Whether a straight line runs through the inside of a box."""
    first, last = 0.0, 1.0
    for here, there, low, high in (
        (start[0], end[0], box.left, box.right),
        (start[1], end[1], box.top, box.bottom),
    ):
        if here == there:
            if not low < here < high:
                return False
            continue
        enters, leaves = sorted(((low - here) / (there - here), (high - here) / (there - here)))
        first, last = max(first, enters), min(last, leaves)
    return first < last


def lines_cross(start: Point, end: Point, other_start: Point, other_end: Point) -> bool:
    """Whether two straight lines cross, neither of them only touching the other with an end."""

    def side(a: Point, b: Point, c: Point) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    return (
        side(start, end, other_start) * side(start, end, other_end) < 0
        and side(other_start, other_end, start) * side(other_start, other_end, end) < 0
    )


def around(point: Point, width: float, height: float, distances: Iterable[float]) -> Iterable[Box]:
    """Candidate boxes of a size about a point: on it, then in eight directions, distance by distance."""
    x, y = point
    for distance in (0.0, *distances):
        ways = _WAYS if distance else ((0.0, 0.0),)
        for across, down in ways:
            middle = (x + across * distance, y + down * distance)
            yield box_about(middle, width, height)


_DIAGONAL = 0.5**0.5
# Right, below, left, above, then between them: a label at the side reads on from what it is about.
_WAYS = (
    (1.0, 0.0),
    (0.0, 1.0),
    (-1.0, 0.0),
    (0.0, -1.0),
    (_DIAGONAL, _DIAGONAL),
    (-_DIAGONAL, _DIAGONAL),
    (_DIAGONAL, -_DIAGONAL),
    (-_DIAGONAL, -_DIAGONAL),
)


def box_about(middle: Point, width: float, height: float) -> Box:
    """The box of a size with its middle here."""
    x, y = middle
    return Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)


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


def rows_of(callouts: Sequence[Callout], gap: float) -> list[int]:
    """The row of each callout where none moves sideways: the first row, from 0, that has room for it.

    Callouts are given in order of `at`.
    """
    ends: list[float] = []
    rows: list[int] = []
    for each in callouts:
        start = each.at - each.before
        row = next((row for row, end in enumerate(ends) if end + gap <= start), len(ends))
        ends[row : row + 1] = [each.at + each.after]
        rows.append(row)
    return rows
