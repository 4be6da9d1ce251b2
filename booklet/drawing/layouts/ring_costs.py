"""What it costs a ring to stand at each cell of a finished page: what it hides, how far off its thing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, hypot, inf, pi
from typing import TYPE_CHECKING

from booklet.drawing.layouts.ring_question import RingItem, RingQuestion
from booklet.drawing.layouts.surface import (
    CELL,
    Footprint,
    Surface,
    add,
    cells_near,
    distances,
    everywhere,
    grown,
    meet,
    sums_about,
    touching,
    trimmed,
    union,
    window_sums,
    within,
)
from booklet.drawing.shapes.affine import Point, bounds_of_points
from booklet.measure.dataclass import dataclass

if TYPE_CHECKING:
    from booklet.drawing.layouts.surface import Cells, Weights, Window

# What a ring costs that lies wholly off its thing, on words or pictures, on a face, on a thing that it hides,
# on another step's thing, and on that where a leader tells which is meant.
_OFF, _ON_ARTWORK, _ON_FACE, _HIDING, _ON_OTHERS, _LED_ON_OTHERS = 1.2, 4.0, 2.2, 2.0, 2.2, 0.9
# For touching words or pictures at all, more than for any leader; at the far end of its thing, for each point
# over the page's edge.
_TOUCHING, _FAR, _OVER_EDGE = 4.0, 0.3, 0.08
# A ring may reach over the page's edge so far, onto the ruler's marks.
_OVERHANG = 4.0
# A thing too narrow to be this share of what is seen about a ring is numbered by a leader; and of the most
# that a ring can have of its thing about it, it must have so much.
_NARROWEST, _LEAST_OWN = 0.08, 0.25
# Half a window that sees a narrow band alone, in cells.
_CLOSE = 3
# How far from its thing a ring is at most that is led to it, in points.
LONGEST_LEADER = 38.0


@dataclass(frozen=True)
class Claim:
    """A ring to be placed: its step, the cells of its thing and of foreign ones, and what each cell costs.

    `foreign` has those as far off as a leader may start.  `on` is for a ring on its thing, whose middle lies
    in the `window` about it: without a bound where that is no place for it.  `beside` is for one that is led
    to its thing, the leader apart.  `is_seen` tells whether anything of the thing shows.
    """

    step: int
    own: Footprint
    foreign: Footprint
    window: Window
    on: Weights
    beside: Weights
    is_seen: bool


def claims_of(question: RingQuestion, surface: Surface) -> Iterator[Claim]:
    """A claim for each step, for what bears its number best."""
    common = _common_cost(question, surface)
    half, area = _window(question.reach)
    beside = common + window_sums(~surface.seen[question.base].cells, half) * (_LED_ON_OTHERS / area)
    for ring in question.rings:
        claims = [
            _claim(ring.step, cluster, (common, beside), question, surface) for cluster in ring.clusters
        ]
        # Rounded, so that the last bits of a sum decide nothing; of equals the first.
        yield min(claims, key=lambda claim: (not claim.is_seen, round(float(claim.on.min()), 6)))


def _foreign(
    cluster: Sequence[RingItem], question: RingQuestion, surface: Surface, around: Window
) -> Footprint:
    """The cells of other things than a cluster, the base, and what the cluster lies on."""
    lowest = min(item.layer for item in cluster)
    whole = union([surface.whole[item.id] for item in cluster])
    grounds = [
        other for other in question.items if other.layer < lowest and meet(surface.whole[other.id], whole)
    ]
    cells = surface.seen[question.base].cells[around].copy()
    for item in (*cluster, *grounds):
        add(cells, around, surface.seen[item.id])
    return Footprint(around, ~cells)


def _common_cost(question: RingQuestion, surface: Surface) -> Weights:
    """What a ring costs for what it lies on, whatever it numbers."""
    import numpy as np

    reach = question.reach
    half, area = _window(reach)
    cost = sums_about(surface.artwork, half) * (_ON_ARTWORK / area)
    cost += _TOUCHING * touching(surface.artwork, reach)
    cost += sums_about(surface.faces, half) * (_ON_FACE / area)
    hiding = np.zeros(surface.shape)
    for item in question.items:
        seen = surface.seen[item.id]
        if item.covers and (count := int(seen.cells.sum())):
            hiding[seen.window] += seen.cells / count
    # A disc is smaller than the square about it.
    cost += window_sums(hiding, half) * (_HIDING * pi / 4)
    rows, columns = ((np.arange(count) + 0.5) * CELL for count in surface.shape)
    rows, columns = (
        np.minimum(at, count * CELL - at) for at, count in zip((rows, columns), surface.shape, strict=True)
    )
    over = reach - np.minimum(rows[:, None], columns[None, :])
    cost += np.where(over > _OVERHANG, inf, np.maximum(over, 0) * _OVER_EDGE)
    for point in question.clear:
        near = cells_near(point, point, reach + 1.0, surface.shape)
        cost[near.window][near.cells] = inf
    return cost


def _window(reach: float) -> tuple[int, int]:
    """Half a square of cells that reaches so far from its middle cell, and how many cells it has."""
    half = max(1, round(reach / CELL))
    return half, (2 * half + 1) ** 2


def _claim(
    step: int,
    cluster: Sequence[RingItem],
    costs: tuple[Weights, Weights],
    question: RingQuestion,
    surface: Surface,
) -> Claim:
    import numpy as np

    own = trimmed(_own_cells(cluster, question, surface))
    half, area = _window(question.reach)
    farthest = max(2 * half, ceil((question.reach + LONGEST_LEADER) / CELL) + 1)
    window, around, wide = (grown(own.window, reach, surface.shape) for reach in (half, 2 * half, farthest))
    foreign = _foreign(cluster, question, surface, wide)
    about = own.over(around)
    share = window_sums(about, half) / area
    most = float(share.max())
    # Seen close to as well, so that a ring stands on the middle of a narrow band.
    close = window_sums(about, _CLOSE)
    centred = (share / most + close / float(close.max())) / 2
    half_page = max(20.0, hypot(*surface.shape) * CELL / 2)
    far = distances(_preferred(cluster, own.window, question.reach), around) / half_page
    common, beside = costs
    others = window_sums(foreign.over(around), half) * (_ON_OTHERS / area)
    on = common[around] + _OFF * (1 - centred) + _FAR * far + others
    on = np.where((share < _LEAST_OWN * most) | (most < _NARROWEST), inf, on)
    is_seen = any(surface.seen[item.id].cells.any() for item in cluster)
    return Claim(step, own, foreign, window, on[within(window, around)], beside, is_seen)


def _own_cells(cluster: Sequence[RingItem], question: RingQuestion, surface: Surface) -> Footprint:
    """What is seen of a cluster, or the edges of what is hidden, or the part of the page next to it."""
    ids = [item.id for item in cluster]
    own = union([surface.seen[id] for id in ids])
    if own.cells.any():
        return own
    whole = union([surface.whole[id] for id in ids])
    if whole.cells.any():
        edges: Cells = whole.cells & (window_sums(whole.cells, 1) < 9)
        return Footprint(whole.window, edges) if edges.any() else whole
    x, y = bounds_of_points(cluster[0].outline).centre
    near = min(max(x, 0.0), question.page.right), min(max(y, 0.0), question.page.bottom)
    page = everywhere(surface.shape)
    return Footprint(page, distances(near, page) <= question.reach)


def _preferred(cluster: Sequence[RingItem], window: Window, reach: float) -> Point:
    """Where a ring stands best on its thing: at the top left of a photograph, else in the middle."""
    (top, bottom), (left, right) = ((part.start * CELL, part.stop * CELL) for part in window)
    if any(item.is_photo for item in cluster):
        return left + reach, top + reach
    return (left + right) / 2, (top + bottom) / 2
