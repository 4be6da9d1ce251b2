"""Which parts of an outline are seen, and which lie beneath others, split exactly where outlines cross."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from booklet.drawing.shapes.affine import Box, Point, bounds_of_points
from booklet.measure.dataclass import dataclass
from booklet.placing.polygons import to_side

# An edge that runs along the edge of what covers it, within so many points, is seen.
_FLUSH = 0.05
Run = tuple[Point, ...]


@dataclass(frozen=True)
class Split:
    """An outline in open runs; where nothing covers it, `seen` is one closed run and `is_whole` is set."""

    seen: tuple[Run, ...]
    hidden: tuple[Run, ...]
    is_whole: bool


@dataclass(frozen=True)
class _Cover:
    outline: Sequence[Point]
    box: Box

    @property
    def edges(self) -> Iterator[tuple[Point, Point]]:
        return pairwise((*self.outline, self.outline[0]))

    def holds(self, point: Point) -> bool:
        """Whether a point lies within the outline, not along it."""
        (x, y), inside = point, False
        if not (self.box.left < x < self.box.right and self.box.top < y < self.box.bottom):
            return False
        for (x0, y0), (x1, y1) in self.edges:
            if (y0 <= y) != (y1 <= y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
                inside = not inside
        return inside and all(to_side(point, *edge) > _FLUSH for edge in self.edges)


def split_by(outline: Sequence[Point], covers: Sequence[Sequence[Point]]) -> Split:
    """A closed outline split by the closed outlines that lie on it."""
    around = bounds_of_points(outline).grown(_FLUSH)
    near = [_Cover(cover, box) for cover in covers if (box := bounds_of_points(cover)).overlaps(around)]
    parts: list[tuple[bool, list[Point]]] = []
    for start, end in pairwise((*outline, outline[0])):
        for one, other in pairwise(_crossed(start, end, near)):
            middle = (one[0] + other[0]) / 2, (one[1] + other[1]) / 2
            is_hidden = any(cover.holds(middle) for cover in near)
            if parts and parts[-1][0] is is_hidden:
                parts[-1][1].append(other)
            else:
                parts.append((is_hidden, [one, other]))
    if len(parts) == 1:
        is_hidden, run = parts[0]
        return Split((), (tuple(run),), False) if is_hidden else Split((tuple(outline),), (), True)
    if parts[0][0] is parts[-1][0]:
        _, first = parts.pop(0)
        parts[-1][1].extend(first[1:])
    runs = {
        kind: tuple(tuple(run) for is_hidden, run in parts if is_hidden is kind) for kind in (True, False)
    }
    return Split(runs[False], runs[True], False)


def _crossed(start: Point, end: Point, covers: Sequence[_Cover]) -> list[Point]:
    """A straight line from its start to its end, with the points between where it crosses an outline."""
    around = bounds_of_points((start, end)).grown(_FLUSH)
    shares = {0.0, 1.0}
    for cover in covers:
        if cover.box.overlaps(around):
            shares.update(share for edge in cover.edges if (share := _share(start, end, *edge)) is not None)
    across, down = end[0] - start[0], end[1] - start[1]
    inner = [(start[0] + share * across, start[1] + share * down) for share in sorted(shares - {0.0, 1.0})]
    return [start, *inner, end]


def _share(start: Point, end: Point, other: Point, other_end: Point) -> float | None:
    """How far along a line another one crosses it, strictly within it; None where it does not."""
    ax, ay = end[0] - start[0], end[1] - start[1]
    bx, by = other_end[0] - other[0], other_end[1] - other[1]
    turn = ax * by - ay * bx
    if not turn:
        return None
    x, y = other[0] - start[0], other[1] - start[1]
    share, of_other = (x * by - y * bx) / turn, (x * ay - y * ax) / turn
    return share if 0 < share < 1 and 0 <= of_other <= 1 else None
