"""What is seen of every item: exactly where all is upright, through polygons where something is not."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import cos, radians, sin

from booklet.kit.position import Direction
from booklet.kit.sheet import OutlineShape
from booklet.measure.cache import cached_on
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, Interval
from booklet.placing import polygons
from booklet.placing.geometry import span_of
from booklet.placing.model import Placed, Visible
from booklet.placing.ties import TIES, tie_rings

# Polygons are in floating point: a smaller share of an item is a rounding error.
_NOTHING = 1e-9
_SHARE_STEPS = 10**6


def is_upright(item: Placed) -> bool:
    """Whether an item covers just its rectangle."""
    is_rectangle = item.outline is not OutlineShape.CIRCLE and item.form not in TIES
    return item.tilt == 0 and is_rectangle


def visible_parts(items: Sequence[Placed]) -> tuple[Visible, ...]:
    """The share of each item, in stacking order, that nothing above it covers."""
    return tuple(
        Visible(item.id, visible_share(item, items[layer:])) for layer, item in enumerate(items, start=1)
    )


def visible_share(item: Placed, above: Sequence[Placed]) -> Fraction:
    """The share of an item, 0 to 1, that none of those above it covers."""
    box = upright_bounds(item)
    near = [other for other in above if other.covers and box.overlaps(upright_bounds(other))]
    if not near:
        return Fraction(1)
    if all(is_upright(one) for one in (item, *near)):
        return _share_clear(item.rect, [other.rect for other in near])
    return _share_seen(item, near)


def _share_clear(rect: ExactRect, covers: Sequence[ExactRect]) -> Fraction:
    """The share of an upright rectangle that upright covers leave, exactly: by the grid of their edges."""
    across, down = (
        _edges(span_of(rect, way), [span_of(cover, way) for cover in covers]) for way in Direction
    )
    clear = sum(
        (right - left) * (bottom - top)
        for left, right in pairwise(across)
        for top, bottom in pairwise(down)
        if not any(
            cover.x <= left and right <= cover.right and cover.y <= top and bottom <= cover.bottom
            for cover in covers
        )
    )
    return clear / rect.area


def _edges(span: Interval, covers: Sequence[Interval]) -> list[Fraction]:
    edges = {edge for cover in covers for edge in (cover.low, cover.high) if span.low < edge < span.high}
    return [span.low, *sorted(edges), span.high]


def _share_seen(item: Placed, near: Sequence[Placed]) -> Fraction:
    whole = polygons.disjoint(_cover_rings(item))
    covers = [ring for other in near for ring in _cover_rings(other)]
    seen = sum(polygons.area_left(part, covers) for part in whole)
    share = seen / sum(map(polygons.area, whole))
    return (
        min(Fraction(share).limit_denominator(_SHARE_STEPS), Fraction(1)) if share > _NOTHING else Fraction(0)
    )


def _cover_rings(item: Placed) -> tuple[polygons.Ring, ...]:
    """The convex outlines of all that an item covers: of a bow or a knot, its loops, tails and middle."""
    if item.form in TIES:
        return tie_rings(item.form, tilted_rect(item), item.tilt)
    return (item_ring(item),)


def item_ring(item: Placed) -> polygons.Ring:
    """An item's outline, tilted as it lies (y down, so that positive degrees are clockwise)."""
    shape = polygons.ellipse_ring if item.outline is OutlineShape.CIRCLE else polygons.rectangle_ring
    return shape(tilted_rect(item), item.tilt)


def tilted_rect(item: Placed) -> ExactRect:
    """The rectangle that, tilted about its own middle, is where the item lies."""
    if item.pivot is None:
        return item.rect
    middle, angle = item.rect.centre, radians(item.tilt)
    x, y = float(middle.x - item.pivot.x), float(middle.y - item.pivot.y)
    right = Fraction(x * cos(angle) - y * sin(angle)) - (middle.x - item.pivot.x)
    down = Fraction(x * sin(angle) + y * cos(angle)) - (middle.y - item.pivot.y)
    return ExactRect(item.rect.x + right, item.rect.y + down, item.rect.width, item.rect.height)


def upright_bounds(item: Placed) -> ExactRect:
    """The upright rectangle round an item as it lies: exact, unless it is tilted."""
    return _tilted_bounds(item) if item.tilt else item.rect


@cached_on
def _tilted_bounds(item: Placed) -> ExactRect:
    left, top, right, bottom = (Fraction(edge) for edge in polygons.box(item_ring(item)))
    return ExactRect(left, top, right - left, bottom - top)
