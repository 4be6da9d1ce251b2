"""Where the numbered rings of a finished layout stand: each on what its step lays, or on a leader to it.

What a place costs is worked out for every cell of the page at once: how much of a ring there would lie off
its own thing, on a face, on printed words, on something small that it would hide.  Rings are then set one
by one, those with the fewest good places first, and each is moved again while that makes anything better.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import cos, hypot, inf, pi, sin
from typing import TYPE_CHECKING

from booklet.drawing.layouts.look import Look
from booklet.drawing.layouts.surface import (
    CELL,
    Surface,
    cells_along,
    middle_of,
    surface_of,
    window_sums,
)
from booklet.drawing.marks.placement import lines_cross
from booklet.drawing.marks.ring import ring_radius, ring_reach
from booklet.drawing.shapes.affine import Point
from booklet.drawing.shapes.style import DrawingStyle
from booklet.placing.details import Detail, Snipped, TrimmedRound
from booklet.placing.model import ItemKind, Placed, PlacedLayout
from booklet.placing.resolved import ResolvedKit

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from booklet.drawing.layouts.surface import Cells, Weights

    Indexes = NDArray[np.intp]

# What a ring costs that lies wholly off its thing, wholly on words or pictures, on a face, on another thing
# that it hides; at the far end of its thing; and for each point over the page's edge.
_OFF, _ON_ARTWORK, _ON_FACE, _HIDING, _FAR, _OVER_EDGE = 1.6, 4.0, 2.2, 2.0, 0.3, 0.08
# What it costs to touch words or pictures at all.
_TOUCHING, _TOUCHED = 0.5, 0.02
# A thing too narrow to be this share of what is seen about a ring is numbered by a leader.
_NARROWEST = 0.08
# How much of the most that a ring can have of its thing under and about it it must have.
_LEAST_OWN = 0.4
_CLOSE = 3
# A ring may reach over the page's edge so far, onto the ruler's marks.
_OVERHANG = 4.0
_LEADER, _LEADER_POINT, _OVER_OTHERS, _ON_OTHERS = 1.0, 0.02, 0.05, 0.4
_LEADER_LENGTHS = tuple(range(4, 44, 4))
_DIRECTIONS = 24
_TARGETS = 9
_APART = 0.6
_ROUNDS = 4
# A ring that repeats the number of its step stands only where it costs little.
_DEAR = 0.9


@dataclass(frozen=True)
class StepRing:
    """A printed step and the ids of the items that it is about."""

    step: int
    items: tuple[int, ...]


@dataclass(frozen=True)
class RingPlace:
    """Where a ring stands: its middle, and the end of its leader on its thing where it has one."""

    step: int
    at: Point
    leader: Point | None = None


# What belongs to a ring.


def rings_of(layout: PlacedLayout, resolved: ResolvedKit, numbers: Sequence[int]) -> tuple[StepRing, ...]:
    """A ring for each printed step that has something to show, in order.

    `numbers` gives the printed number of each step of the spec.
    """
    rings: list[StepRing] = []
    for printed in sorted(set(numbers)):
        steps = [step for step in layout.steps if numbers[step.number - 1] == printed]
        laid = tuple(item.id for step in steps for item in layout.of_step(step.number))
        about = laid or tuple(id for step in steps for id in _worked_on(step.number, layout, resolved))[:1]
        if about:
            rings.append(StepRing(printed, about))
    return tuple(rings)


def _worked_on(number: int, layout: PlacedLayout, resolved: ResolvedKit) -> Iterator[int]:
    """What a step that lays nothing is about: what it names, where that lies in the end."""
    step = layout.steps[number - 1]
    there = {item.id for item in layout.items}
    ids = [id for detail in step.details for id in detail.ids if id in there]
    names = [name for detail in step.details for name in _names(detail)]
    names.append(getattr(resolved.kit.layouts[layout.index].steps[number - 1], "on", None))
    yield from ids or (
        item.id for item in layout.items if {item.called, item.piece, item.name} & {*names} - {None}
    )


def _names(detail: Detail) -> Iterator[str | None]:
    match detail:
        case Snipped():
            yield from (part.name for part in detail.parts)
        case TrimmedRound():
            yield detail.piece
        case _:
            yield getattr(getattr(detail, "target", None), "name", None)


def _clusters(ring: StepRing, layout: PlacedLayout) -> Iterator[tuple[Placed, ...]]:
    """The things that bear the number of one step: each of a row with what lies on it, or all together."""
    items = [layout.item(id) for id in sorted(ring.items)]
    row = [item for item in items if item.step_number == items[0].step_number]
    if len(row) < 2 or row[0].kind is ItemKind.ADDED:
        yield tuple(items)
        return
    for one in row:
        yield (one, *(item for item in items if item not in row and one.rect.contains(item.rect)))


# What a place costs.


@dataclass(frozen=True)
class _Claim:
    """A ring to be placed: its step, the cells of its thing, and for each cell what it costs to stand there.

    `beside` is what it costs to stand there on a leader, the leader apart; `first` whether the number of
    the step stands nowhere else.
    """

    step: int
    own: Cells
    others: Cells
    on: Weights
    beside: Weights
    first: bool


def _claims(look: Look, rings: Sequence[StepRing], surface: Surface, style: DrawingStyle) -> Iterator[_Claim]:
    common = _common_cost(look, surface, style)
    for ring in rings:
        for place, cluster in enumerate(_clusters(ring, look.layout)):
            yield _claim(ring.step, cluster, place == 0, common, surface, style)


def _common_cost(look: Look, surface: Surface, style: DrawingStyle) -> Weights:
    """What a ring costs for what lies under it, whatever it numbers."""
    import numpy as np

    half = _cells(ring_radius(style))
    area = (2 * half + 1) ** 2
    touched = window_sums(surface.artwork, half)
    cost = touched * (_ON_ARTWORK / area) + _TOUCHING * (touched > _TOUCHED * area)
    cost += window_sums(surface.faces, half) * (_ON_FACE / area)
    hiding = np.zeros((surface.rows, surface.columns))
    for item in look.layout.items:
        cells = surface.seen[item.id]
        if item.covers and (count := int(cells.sum())):
            hiding += cells / count
    # A disc is smaller than the square about it.
    cost += window_sums(hiding, half) * (_HIDING * pi / 4)
    rows, columns = np.arange(surface.rows)[:, None] + 0.5, np.arange(surface.columns)[None, :] + 0.5
    edge = np.minimum(np.minimum(rows, surface.rows - rows), np.minimum(columns, surface.columns - columns))
    over = ring_reach(style) - edge * CELL
    cost += np.where(over > _OVERHANG, inf, np.maximum(over, 0) * _OVER_EDGE)
    return cost


def _cells(length: float) -> int:
    return max(1, round(length / CELL))


def _claim(
    step: int, cluster: Sequence[Placed], first: bool, common: Weights, surface: Surface, style: DrawingStyle
) -> _Claim:
    import numpy as np

    own = _own_cells(cluster, surface)
    others = ~own & ~surface.seen[0]
    half = _cells(ring_radius(style) + 1.5)
    area = (2 * half + 1) ** 2
    share = window_sums(own, half) / area
    most = float(share.max())
    # Seen close to as well, so that a ring stands on the middle of a narrow band.
    close = window_sums(own, _CLOSE)
    centred = (share / max(most, 1e-9) + close / max(float(close.max()), 1e-9)) / 2
    far = _distances(_preferred(cluster, own, style), surface) / max(20.0, hypot(*own.shape) * CELL / 2)
    on = common + _OFF * (1 - centred) + _FAR * far
    on = np.where((share < _LEAST_OWN * most) | (most < _NARROWEST), inf, on)
    beside = common + window_sums(others, half) * (_ON_OTHERS / area)
    return _Claim(step, own, others, on, beside, first)


def _own_cells(cluster: Sequence[Placed], surface: Surface) -> Cells:
    """What is seen of a cluster; of what is wholly hidden its edges, of what lies off the page the nearest cell."""
    import numpy as np

    ids = [item.id for item in cluster]
    own: Cells = np.logical_or.reduce([surface.seen[id] for id in ids])
    if own.any():
        return own
    whole: Cells = np.logical_or.reduce([surface.whole[id] for id in ids])
    if whole.any():
        inner = window_sums(whole, 1) == 9
        return whole & ~inner
    own = np.zeros((surface.rows, surface.columns), bool)
    own[surface.rows // 2, surface.columns // 2] = True
    return own


def _preferred(cluster: Sequence[Placed], own: Cells, style: DrawingStyle) -> Point:
    """Where a ring stands best on its thing: at the top left of a photograph, else in the middle."""
    import numpy as np

    rows, columns = np.nonzero(own)
    left, right = columns.min() * CELL, (columns.max() + 1) * CELL
    top, bottom = rows.min() * CELL, (rows.max() + 1) * CELL
    if any(item.kind is ItemKind.PHOTO for item in cluster):
        return float(left) + ring_radius(style), float(top) + ring_radius(style)
    return float(left + right) / 2, float(top + bottom) / 2


def _distances(point: Point, surface: Surface) -> Weights:
    import numpy as np

    x, y = ((np.arange(count) + 0.5) * CELL for count in (surface.columns, surface.rows))
    away: Weights = np.hypot(x[None, :] - point[0], y[:, None] - point[1])
    return away


# Where they stand.


@dataclass(frozen=True)
class _Seat:
    place: RingPlace
    cost: float


def place_rings(
    look: Look, rings: Sequence[StepRing], style: DrawingStyle, clear: Iterable[Point] = ()
) -> tuple[RingPlace, ...]:
    """The places of rings on a finished layout, in points of its page; every ring has one at least.

    No two rings overlap and no leader runs under a ring; `clear` are points that none covers.  A page with
    no room for a ring has it outside, below its bottom edge.
    """
    import numpy as np

    surface = surface_of(look)
    claims = list(_claims(look, rings, surface, style))
    for point in clear:
        near = _distances(point, surface) < ring_reach(style) + 1.5
        claims = [
            replace(one, on=np.where(near, inf, one.on), beside=np.where(near, inf, one.beside))
            for one in claims
        ]
    seats = _settled(claims, surface, style)
    shown = {place for place, claim in enumerate(claims) if claim.first}
    return tuple(seat.place for place, seat in enumerate(seats) if place in shown or seat.cost < _DEAR)


def _settled(claims: Sequence[_Claim], surface: Surface, style: DrawingStyle) -> list[_Seat]:
    seats: dict[int, _Seat] = {}
    order = sorted(range(len(claims)), key=lambda at: (not claims[at].first, _good_places(claims[at]), at))
    for _ in range(_ROUNDS):
        before = dict(seats)
        for at in order:
            others = [seat.place for place, seat in sorted(seats.items()) if place != at]
            seats[at] = _best(claims[at], others, surface, style)
        if seats == before:
            break
    return [seats[at] for at in range(len(claims))]


def _good_places(claim: _Claim) -> int:
    least = float(claim.on.min())
    return int((claim.on < min(least + 0.3, inf)).sum())


def _best(claim: _Claim, others: Sequence[RingPlace], surface: Surface, style: DrawingStyle) -> _Seat:
    free = _free(others, surface, style)
    on = _least(np_where(free, claim.on))
    if on is not None and on[1] < _LEADER:
        return _Seat(RingPlace(claim.step, middle_of(*on[0])), on[1])
    led = _led(claim, free, others, surface, style)
    if on is not None and (led is None or on[1] <= led.cost):
        return _Seat(RingPlace(claim.step, middle_of(*on[0])), on[1])
    return led or _anywhere(claim, free, others, surface, style)


def np_where(free: Cells, cost: Weights) -> Weights:
    import numpy as np

    return np.where(free, cost, inf)


def _least(cost: Weights) -> tuple[tuple[int, int], float] | None:
    """The cheapest cell, of equals the first, and what it costs."""
    import numpy as np

    # Rounded, so that the last bits of a sum decide nothing.
    row, column = np.unravel_index(int(np.argmin(np.round(cost, 6))), cost.shape)
    least = float(cost[row, column])
    return None if least == inf else ((int(row), int(column)), least)


def _free(others: Sequence[RingPlace], surface: Surface, style: DrawingStyle) -> Cells:
    """The cells where a ring covers no other ring and no leader."""
    import numpy as np

    free = np.ones((surface.rows, surface.columns), bool)
    reach = ring_reach(style)
    for other in others:
        free &= _distances(other.at, surface) >= 2 * reach + _APART
        if other.leader is not None:
            for share in range(5):
                x, y = _between(other.leader, other.at, share / 5)
                free &= _distances((x, y), surface) >= reach + _APART
    return free


def _between(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def _led(
    claim: _Claim, free: Cells, others: Sequence[RingPlace], surface: Surface, style: DrawingStyle
) -> _Seat | None:
    """The cheapest place beside the thing with a leader that meets no ring and no other leader."""
    best: _Seat | None = None
    for target, (row, column), length in _beside(claim, surface, style):
        if not free[row, column]:
            continue
        at = middle_of(row, column)
        cost = _LEADER + float(claim.beside[row, column]) + _LEADER_POINT * length
        if best is not None and cost >= best.cost:
            continue
        cost += _OVER_OTHERS * sum(1 for cell in cells_along(target, at, surface) if claim.others[cell])
        if (best is None or cost < best.cost) and _is_open(target, at, others, style):
            best = _Seat(RingPlace(claim.step, at, target), cost)
    return best


def _beside(
    claim: _Claim, surface: Surface, style: DrawingStyle
) -> Iterator[tuple[Point, tuple[int, int], float]]:
    """Ends of leaders on the thing, cells about each from near to far, and how long the leader is."""
    reach = ring_reach(style)
    for target in _targets(claim.own):
        for away, way in product(_LEADER_LENGTHS, range(_DIRECTIONS)):
            angle = 2 * pi * way / _DIRECTIONS
            x = target[0] + (reach + away) * cos(angle)
            y = target[1] + (reach + away) * sin(angle)
            row, column = int(y / CELL), int(x / CELL)
            if 0 <= row < surface.rows and 0 <= column < surface.columns and claim.beside[row, column] < inf:
                yield target, (row, column), float(away)


def _targets(own: Cells) -> Iterator[Point]:
    """A few points within a thing, spread along it, each as far from its edges as those about it."""
    import numpy as np

    depth = window_sums(own, 2)
    rows, columns = np.nonzero(own & (depth >= depth[own].max() - 2))
    along = columns if np.ptp(columns) >= np.ptp(rows) else rows
    order = np.lexsort((rows, columns, along))
    count = min(_TARGETS, len(order))
    for at in range(count):
        place = order[(2 * at + 1) * len(order) // (2 * count)]
        yield middle_of(int(rows[place]), int(columns[place]))


def _is_open(target: Point, at: Point, others: Sequence[RingPlace], style: DrawingStyle) -> bool:
    """Whether a leader keeps clear of all rings and leaders, and its end and they of its own ring."""
    reach = ring_reach(style)
    for other in others:
        if _distance(other.at, target, at) < reach + _APART:
            return False
        if other.leader is not None and lines_cross(target, at, other.leader, other.at):
            return False
    return True


def _distance(point: Point, start: Point, end: Point) -> float:
    """How far a point is from a straight line between two others."""
    (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
    square = dx * dx + dy * dy
    share = ((point[0] - x) * dx + (point[1] - y) * dy) / square if square else 0.0
    share = min(max(share, 0.0), 1.0)
    return hypot(point[0] - x - share * dx, point[1] - y - share * dy)


def _anywhere(
    claim: _Claim, free: Cells, others: Sequence[RingPlace], surface: Surface, style: DrawingStyle
) -> _Seat:
    """Any free place on the page, the nearest to the thing; or the next in rows below the page."""
    target = next(_targets(claim.own))
    found = _least(np_where(free & (claim.beside < inf), _distances(target, surface)))
    if found is not None:
        return _Seat(RingPlace(claim.step, middle_of(*found[0]), target), 10.0 + found[1])
    apart = 2 * ring_reach(style) + _APART
    below = surface.rows * CELL + ring_reach(style) + 2.0
    in_row = max(1, int(surface.columns * CELL / apart))
    number = sum(1 for other in others if other.at[1] > surface.rows * CELL)
    row, column = divmod(number, in_row)
    return _Seat(RingPlace(claim.step, (apart * (column + 0.5), below + row * apart), None), 1000.0)
