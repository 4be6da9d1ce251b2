"""Where the numbered rings of a finished layout stand: each on what its step lays, or on a leader to it.

Rings are set one by one, those with the fewest good places first, and each is set again while that makes
anything better.  No two overlap, and no leader crosses a ring or another leader.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import count, product
from math import cos, hypot, inf, pi, sin
from typing import TYPE_CHECKING

from booklet.drawing.layouts.ring_costs import LONGEST_LEADER, Claim, claims_of
from booklet.drawing.layouts.ring_question import RingQuestion
from booklet.drawing.layouts.surface import (
    CELL,
    Footprint,
    Surface,
    cells_along,
    cells_near,
    distances,
    everywhere,
    middle_of,
    surface_of,
    window_sums,
)
from booklet.drawing.marks.placement import lines_cross
from booklet.drawing.shapes.affine import Point
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass
from booklet.placing.polygons import to_side

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from booklet.drawing.layouts.surface import Cells, Weights, Window

# What a leader costs, each point of it, and each point of it over the thing of another step.
_LEADER, _LEADER_POINT, _OVER_OTHERS = 1.0, 0.02, 0.05
# How far a ring is tried from its thing, and the least of its leader that is to be seen.
_LEADER_LENGTHS, _SHORTEST = (5, 9, 14, 20, 28, LONGEST_LEADER), 4.0
_DIRECTIONS = 20
_AROUND = tuple(
    (away, (cos(2 * pi * way / _DIRECTIONS), sin(2 * pi * way / _DIRECTIONS)))
    for away, way in product(_LEADER_LENGTHS, range(_DIRECTIONS))
)
_INNER_POINTS = 5
_APART = 0.6
_ROUNDS, _TRIALS = 4, 3
# What a ring costs that finds no place near its thing, and none on the page.
_NO_PLACE, _NO_ROOM = 10.0, 1000.0
# Every so many of the cells are tried for a leader that is longer than others.
_STRIDE = 7
# So many of them are tried at once.
_TRIED = 512


@dataclass(frozen=True)
class RingPlace:
    """Where a ring stands: its middle, and the end of its leader on its thing where it has one."""

    step: int
    at: Point
    leader: Point | None = None


@dataclass(frozen=True)
class _Choice:
    place: RingPlace
    cost: float


def place_rings(question: RingQuestion) -> tuple[RingPlace, ...]:
    """The places of rings on a finished layout, in points of its page; each step has one ring.

    Where the page has no room left, rings stand in rows below it.
    """
    surface = surface_of(question)
    claims = list(claims_of(question, surface))
    return tuple(choice.place for choice in _settled(claims, surface, question.reach))


def _settled(claims: Sequence[Claim], surface: Surface, reach: float) -> list[_Choice]:
    """A place for each; what is crowded out is set first in another trial, and the best trial counts."""
    order = sorted(range(len(claims)), key=lambda at: (not claims[at].is_seen, _good_places(claims[at]), at))
    trials: list[dict[int, _Choice]] = []
    for _ in range(_TRIALS):
        chosen = _set_in_order(order, claims, surface, reach)
        trials.append(chosen)
        crowded = [at for at in order if claims[at].is_seen and chosen[at].cost >= _NO_PLACE]
        # Where there is no room for most of them, no order finds it.
        if not crowded or len(crowded) > len(order) / 2:
            break
        before, order = order, [*crowded, *(at for at in order if at not in crowded)]
        if order == before:
            break
    best = min(trials, key=lambda chosen: sum(chosen[at].cost for at in order if claims[at].is_seen))
    return [best[at] for at in range(len(claims))]


def _set_in_order(
    order: Sequence[int], claims: Sequence[Claim], surface: Surface, reach: float
) -> dict[int, _Choice]:
    """Each at its best place beside those before it, then again while anything changes."""
    chosen: dict[int, _Choice] = {}
    for _ in range(_ROUNDS):
        before = dict(chosen)
        for at in order:
            others = [choice.place for other, choice in sorted(chosen.items()) if other != at]
            chosen[at] = _best(claims[at], others, surface, reach)
        if chosen == before:
            break
    return chosen


def _good_places(claim: Claim) -> int:
    return int((claim.on < float(claim.on.min()) + 0.3).sum())


def _best(claim: Claim, others: Sequence[RingPlace], surface: Surface, reach: float) -> _Choice:
    """The cheapest place that the others leave: on the thing, on a leader to it, or anywhere."""
    free = _free(others, surface, reach)
    on = _cheapest(claim, claim.on, free, claim.window)
    if on is not None and on.cost < _LEADER:
        return on
    choices = [choice for choice in (on, _led(claim, free, others, reach)) if choice is not None]
    if choices:
        return min(choices, key=lambda choice: choice.cost)
    return _anywhere(claim, free, others, surface, reach)


def _cheapest(claim: Claim, cost: Weights, free: Cells, window: Window) -> _Choice | None:
    """A ring without a leader at the cheapest free cell of a window, of equals the first."""
    import numpy as np

    # Rounded, so that the last bits of a sum decide nothing.
    allowed = np.where(free[window], np.round(cost, 6), inf)
    row, column = np.unravel_index(int(np.argmin(allowed)), allowed.shape)
    least = float(allowed[row, column])
    at = middle_of(window[0].start + int(row), window[1].start + int(column))
    return None if least == inf else _Choice(RingPlace(claim.step, at), least)


def _free(others: Sequence[RingPlace], surface: Surface, reach: float) -> Cells:
    """The cells where a ring covers no other ring and no leader."""
    import numpy as np

    free = np.ones(surface.shape, bool)
    for other in others:
        for taken in _taken(surface, other, reach):
            free[taken.window] &= ~taken.cells
    return free


@cached_on
def _taken(surface: Surface, other: RingPlace, reach: float) -> tuple[Footprint, ...]:
    """The cells where a ring that reaches so far covers another ring or its leader."""
    ring = cells_near(other.at, other.at, 2 * reach + _APART, surface.shape)
    if other.leader is None:
        return (ring,)
    return ring, cells_near(other.leader, other.at, reach + 2 * _APART, surface.shape)


# On a leader.


def _led(claim: Claim, free: Cells, others: Sequence[RingPlace], reach: float) -> _Choice | None:
    """The cheapest place beside the thing with a leader that meets no ring and no other leader."""
    best: _Choice | None = None
    leads = _leads(claim, reach)
    for number in free[leads.rows, leads.columns].nonzero()[0].tolist():
        cost = leads.costs[number]
        if best is not None and cost >= best.cost:
            break
        at = middle_of(int(leads.rows[number]), int(leads.columns[number]))
        end = _leader_end(claim, at, leads.inner[number])
        is_short = hypot(end[0] - at[0], end[1] - at[1]) < reach + _SHORTEST
        if is_short or not _is_open(end, at, others, reach):
            continue
        cost += _OVER_OTHERS * _over_others(claim, at, end)
        if best is None or cost < best.cost:
            best = _Choice(RingPlace(claim.step, at, end), cost)
    return best


@dataclass(frozen=True)
class _Leads:
    """Cells for rings about points deep in a thing, cheapest first: cost, point, and where each is."""

    costs: Sequence[float]
    inner: Sequence[Point]
    rows: NDArray[np.intp]
    columns: NDArray[np.intp]


@cached_on
def _leads(claim: Claim, reach: float) -> _Leads:
    import numpy as np

    away, x, y = np.array([(away, (reach + away) * x, (reach + away) * y) for away, (x, y) in _AROUND]).T
    inner = np.array(list(_inner_points(claim.own)))
    rows = np.floor((inner[:, 1:] + y) / CELL).astype(int)
    columns = np.floor((inner[:, :1] + x) / CELL).astype(int)
    high, wide = claim.beside.shape
    there = (rows >= 0) & (rows < high) & (columns >= 0) & (columns < wide)
    of, ways = there.nonzero()
    rows, columns = rows[there], columns[there]
    costs = np.round(_LEADER + claim.beside[rows, columns] + _LEADER_POINT * away[ways], 6)
    order = np.argsort(costs, kind="stable")
    order = order[: int((costs < inf).sum())]
    ends = [(float(x), float(y)) for x, y in inner[of[order]].tolist()]
    return _Leads(costs[order].tolist(), ends, rows[order], columns[order])


@cached_on
def _leader_end(claim: Claim, at: Point, inner: Point) -> Point:
    """Where a leader from a ring to a thing ends: just within its edge."""
    run = cells_along(at, inner, claim.beside.shape)
    cell = next(run)
    while not claim.own.holds(*cell) and (further := next(run, None)):
        cell = further
    return middle_of(*next(run, cell))


@cached_on
def _over_others(claim: Claim, at: Point, end: Point) -> int:
    """Over how many cells of other things a leader runs."""
    return sum(1 for cell in cells_along(end, at, claim.beside.shape) if claim.foreign.holds(*cell))


def _inner_points(own: Footprint) -> Iterator[Point]:
    """A few points of a thing, spread along it, each as far from its edges as any."""
    import numpy as np

    window, seen = own.window, own.cells
    depth = window_sums(seen, 2)
    rows, columns = np.nonzero(seen & (depth >= depth[seen].max() - 2))
    along = columns if np.ptp(columns) >= np.ptp(rows) else rows
    order = np.lexsort((rows, columns, along))
    few = min(_INNER_POINTS, len(order))
    for at in range(few):
        place = order[(2 * at + 1) * len(order) // (2 * few)]
        yield middle_of(window[0].start + int(rows[place]), window[1].start + int(columns[place]))


def _is_open(end: Point, at: Point, others: Sequence[RingPlace], reach: float) -> bool:
    """Whether a leader keeps clear of all rings and leaders."""
    clear = reach + 2 * _APART
    return all(
        to_side(other.at, end, at) >= clear
        and (other.leader is None or not lines_cross(end, at, other.leader, other.at))
        for other in others
    )


# Where there is no room.


def _anywhere(
    claim: Claim, free: Cells, others: Sequence[RingPlace], surface: Surface, reach: float
) -> _Choice:
    """A free place on the page near the thing, on a leader if one can be had; or in rows below the page."""
    import numpy as np

    inner = next(_inner_points(claim.own))
    page = everywhere(surface.shape)
    away = np.where(claim.beside < inf, distances(inner, page), inf)
    found = _cheapest(claim, away, free, page)
    if found is None:
        taken = {other.at for other in others}
        below = next(at for at in _rows_below(surface, reach) if at not in taken)
        return _Choice(RingPlace(claim.step, below), _NO_ROOM)
    near = np.argwhere(free & (away < found.cost + _LEADER_LENGTHS[-1]))[::_STRIDE]
    first = _first_open(inner, near, others, reach)
    if first is None:
        return _Choice(found.place, 2 * _NO_PLACE + found.cost)
    row, column = first
    return _Choice(RingPlace(claim.step, middle_of(row, column), inner), _NO_PLACE + float(away[row, column]))


def _first_open(
    end: Point, cells: NDArray[np.intp], others: Sequence[RingPlace], reach: float
) -> tuple[int, int] | None:
    """The first of some cells from whose middle a leader to `end` keeps clear of all rings and leaders."""
    import numpy as np

    clear = reach + 2 * _APART
    rings = np.array([place.at for place in others]).reshape(-1, 2)
    led = np.array([(*place.leader, *place.at) for place in others if place.leader]).reshape(-1, 4)
    for start in range(0, len(cells), _TRIED):
        some = cells[start : start + _TRIED]
        ats: Weights = (some[:, ::-1].astype(np.float64) + 0.5) * CELL
        is_open = _clears_rings(end, ats, rings, clear) & ~_crosses_any(end, ats, led)
        if is_open.any():
            row, column = some[int(is_open.argmax())].tolist()
            return row, column
    return None


def _clears_rings(end: Point, ats: Weights, rings: Weights, clear: float) -> Cells:
    """For each of some straight lines to `end` whether it keeps so far from the middles of all rings."""
    import numpy as np

    along = np.array(end) - ats
    length = np.maximum((along * along).sum(axis=1), 1e-9)[:, None]
    to_ring = rings - ats[:, None]
    share = np.clip((to_ring * along[:, None]).sum(axis=2) / length, 0.0, 1.0)
    off = to_ring - share[:, :, None] * along[:, None]
    clears: Cells = ((off * off).sum(axis=2) >= clear * clear).all(axis=1)
    return clears


def _crosses_any(end: Point, ats: Weights, led: Weights) -> Cells:
    """For each of some straight lines to `end` whether it crosses another leader, given by both its ends."""
    (x, y), (own_x, own_y) = end, ats[:, :, None].transpose(1, 0, 2)
    x0, y0, x1, y1 = led.T
    # On which side of one line each end of the other lies.
    starts = (own_x - x) * (y0 - y) - (own_y - y) * (x0 - x)
    ends = (own_x - x) * (y1 - y) - (own_y - y) * (x1 - x)
    far = (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)
    near = (x1 - x0) * (own_y - y0) - (y1 - y0) * (own_x - x0)
    crosses: Cells = ((starts * ends < 0) & (far * near < 0)).any(axis=1)
    return crosses


def _rows_below(surface: Surface, reach: float) -> Iterator[Point]:
    """Places below the page, row by row."""
    apart = 2 * reach + _APART
    in_row = max(1, int(surface.shape[1] * CELL / apart))
    for number in count():
        row, column = divmod(number, in_row)
        yield apart * (column + 0.5), surface.shape[0] * CELL + apart * (row + 1.0)
