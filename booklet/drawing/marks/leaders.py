"""Seats for texts that find no room where they belong: rows further out, each text on its own leader.

Everything here lies along one line: `s` runs along it, `d` is the distance outwards from it.  Between two
rows is a corridor free of text.  Leaders run askew only in corridors and straight through rows, where they
are spaced like texts, and they keep their order everywhere.  So no two texts overlap, no leader crosses
another, and none crosses a text, whatever is asked for.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import inf

from booklet.drawing.marks.placement import Callout, spread
from booklet.drawing.shapes.affine import Point
from booklet.measure.dataclass import dataclass


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


def seat(callouts: Sequence[Callout], seating: Seating) -> tuple[Seat, ...]:
    """Seat callouts, given in order of `at`, in the fewest rows that have room for them.

    They move along their row as far as it takes; where no number of rows has room, as few as overrun least.
    """
    least = inf
    best: tuple[Seat, ...] = ()
    for rows in range(1, min(_MOST_ROWS, len(callouts)) + 1):
        seats = _seated(callouts, seating, rows)
        overrun = round(_overrun(callouts, seats, seating), 6)
        if overrun < least:
            least, best = overrun, seats
        if overrun == 0.0:
            break
    return best


def _overrun(callouts: Sequence[Callout], seats: Sequence[Seat], seating: Seating) -> float:
    """How far the row that is fullest reaches past its ends."""
    return max(
        max(0.0, seat.at + each.after - seating.high, seating.low - seat.at + each.before)
        for each, seat in zip(callouts, seats, strict=True)
    )


def _seated(callouts: Sequence[Callout], seating: Seating, rows: int) -> tuple[Seat, ...]:
    leaders: list[list[Point]] = [[(each.at, 0.0), (each.at, seating.start)] for each in callouts]
    depth = seating.start
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


def _straightened(points: Sequence[Point]) -> tuple[Point, ...]:
    """The same way without points that lie on the straight between their neighbours."""
    kept = [points[0]]
    for point, following in pairwise(points[1:]):
        (s0, d0), (s1, d1), (s2, d2) = kept[-1], point, following
        if abs((s1 - s0) * (d2 - d0) - (s2 - s0) * (d1 - d0)) > 1e-9:
            kept.append(point)
    return (*kept, points[-1])
