"""Seats for texts that find no room where they belong: rows further out, each text on its own leader.

Everything here lies along one line: `s` runs along it, `d` is the distance outwards from it.  Between two
rows is a corridor free of text.  Leaders run askew only in corridors and straight through rows, where they
are spaced like texts, and they keep their order everywhere.  So no two texts overlap, no leader crosses
another, and none crosses a text, whatever is asked for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import inf

from booklet.drawing.marks.placement import Callout, spread
from booklet.drawing.shapes.affine import Box, Point


@dataclass(frozen=True)
class Seat:
    """Where a callout came to stand: its leader's way from the line, (s, d) by (s, d), ending at the row.

    The callout fills the depths `near` to `far`; the leader stops short of `near` by the leader gap.
    """

    at: float
    near: float
    far: float
    leader: tuple[Point, ...]


@dataclass(frozen=True)
class Seating:
    """The room for callouts: a row's `height`, the least `corridor` between rows and `gap` within one.

    Leaders start straight and bend from depth `start` on.  Rows stay between `low` and `high` while they
    fit; what does not fit even then runs on past `high`.
    """

    start: float
    height: float
    corridor: float
    gap: float
    low: float = -inf
    high: float = inf
    leader_gap: float = 0.8


_MOST_ROWS = 4


def seat(callouts: Sequence[Callout], seating: Seating, obstacles: Sequence[Box] = ()) -> tuple[Seat, ...]:
    """Seat callouts, given in order of `at`, in as few rows as keep the leaders short.

    Obstacles are boxes with s across and d down; leaders pass between them and rows lie beyond them.
    """
    if not callouts:
        return ()
    beyond = [box for box in obstacles if box.bottom > seating.start]
    best = _seated(callouts, seating, 1, beyond)
    cost = _cost(callouts, best, seating)
    for rows in range(2, min(_MOST_ROWS, len(callouts)) + 1):
        if cost <= _least_cost(rows, seating):
            break
        other = _seated(callouts, seating, rows, beyond)
        best, cost = min((best, cost), (other, _cost(callouts, other, seating)), key=lambda found: found[1])
    return best


def _least_cost(rows: int, seating: Seating) -> tuple[float, float]:
    """What so many rows cost where every callout stands right where it belongs."""
    return 0.0, round(seating.start + rows * (seating.corridor + seating.height), 6)


def _cost(callouts: Sequence[Callout], seats: Sequence[Seat], seating: Seating) -> tuple[float, float]:
    overrun = max(
        max(0.0, seat.at + each.after - seating.high, seating.low - seat.at + each.before)
        for each, seat in zip(callouts, seats, strict=True)
    )
    shift = max(abs(seat.at - each.at) for each, seat in zip(callouts, seats, strict=True))
    return round(overrun, 6), round(shift + max(seat.far for seat in seats), 6)


def _seated(
    callouts: Sequence[Callout], seating: Seating, rows: int, obstacles: Sequence[Box]
) -> tuple[Seat, ...]:
    leaders: list[list[Point]] = [[(each.at, 0.0), (each.at, seating.start)] for each in callouts]
    depth = seating.start
    if obstacles:
        depth = _past_obstacles(callouts, seating, leaders, obstacles)
    seats: dict[int, Seat] = {}
    for row in range(rows):
        outward = [at for at in range(len(callouts)) if at % rows >= row]
        places = _row_places(callouts, outward, row, rows, seating)
        near = depth + _corridor(seating, [leaders[at] for at in outward], places)
        depth = near + seating.height
        for at, place in zip(outward, places, strict=True):
            if at % rows == row:
                end = (place, near - seating.leader_gap)
                seats[at] = Seat(place, near, depth, _straightened([*leaders[at], end]))
            else:
                leaders[at] += [(place, near), (place, depth)]
    return tuple(seats[at] for at in range(len(callouts)))


def _past_obstacles(
    callouts: Sequence[Callout], seating: Seating, leaders: Sequence[list[Point]], obstacles: Sequence[Box]
) -> float:
    """Lead every leader between the obstacles; returns the depth at which they all lie behind."""
    passing = [Callout(each.at, seating.gap / 2, seating.gap / 2) for each in callouts]
    places = _around(passing, spread(passing, seating.gap, seating.low, seating.high), obstacles)
    corridor = _corridor(seating, leaders, places)
    near = max(seating.start, min(seating.start + corridor, *(box.top for box in obstacles)))
    depth = max(near, *(box.bottom for box in obstacles))
    for leader, place in zip(leaders, places, strict=True):
        leader += [(place, near), (place, depth)]
    return depth


# A leader that has far to go sideways gets a deeper corridor, so that it does not run along the row.
_SLOPE = 0.35
_DEEPEST = 3.0


def _corridor(seating: Seating, leaders: Sequence[Sequence[Point]], places: Sequence[float]) -> float:
    shift = max(abs(place - leader[-1][0]) for leader, place in zip(leaders, places, strict=True))
    return min(max(seating.corridor, _SLOPE * shift), _DEEPEST * seating.corridor)


def _row_places(
    callouts: Sequence[Callout], outward: Sequence[int], row: int, rows: int, seating: Seating
) -> list[float]:
    """Where each callout that sits in this row, or passes through it, stands or passes."""
    across = [
        callouts[at] if at % rows == row else Callout(callouts[at].at, seating.gap / 2, seating.gap / 2)
        for at in outward
    ]
    return spread(across, seating.gap, seating.low, seating.high)


def _around(callouts: Sequence[Callout], places: Sequence[float], obstacles: Sequence[Box]) -> list[float]:
    """The places moved off the obstacles, still in order: to the nearer side while there is room for that."""
    moved: list[float] = []
    least = -inf
    for each, place in zip(callouts, places, strict=True):
        place = _free_place(each, max(place, least + each.before), least, obstacles)
        moved.append(place)
        least = place + each.after
    return moved


def _free_place(each: Callout, place: float, least: float, obstacles: Sequence[Box]) -> float:
    hit = [box for box in obstacles if box.left < place + each.after and place - each.before < box.right]
    if not hit:
        return place
    left_of = min(box.left for box in hit) - each.after
    right_of = max(box.right for box in hit) + each.before
    blocked = any(box.left < left_of + each.after and left_of - each.before < box.right for box in obstacles)
    if not blocked and left_of - each.before >= least and place - left_of < right_of - place:
        return left_of
    return _free_place(each, right_of, least, obstacles)


def _straightened(points: Sequence[Point]) -> tuple[Point, ...]:
    """The same way without points that lie on the straight between their neighbours."""
    kept = [points[0]]
    for point, following in pairwise(points[1:]):
        (s0, d0), (s1, d1), (s2, d2) = kept[-1], point, following
        if abs((s1 - s0) * (d2 - d0) - (s2 - s0) * (d1 - d0)) > 1e-9:
            kept.append(point)
    return (*kept, points[-1])
