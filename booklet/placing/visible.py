"""What is seen of every item: exactly where all is upright, through polygons where something is not."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, floor, radians, sin, sqrt

from booklet.kit.sheet import OutlineShape
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.placing import polygons
from booklet.placing.clear import what_is_clear
from booklet.placing.model import Placed, Visible

# Polygons are in floating point: a smaller share of an item is a rounding error.
_NOTHING = 1e-9
_SHARE_STEPS = 10**6
_INNER_STEPS = 1000


def is_upright(item: Placed) -> bool:
    """Whether an item covers just its rectangle."""
    return item.tilt == 0 and item.outline is not OutlineShape.CIRCLE


def visible_parts(items: Sequence[Placed]) -> tuple[Visible, ...]:
    """The share of each item, in stacking order, that nothing above it covers."""
    boxes = [upright_bounds(item) for item in items]
    return tuple(
        _visible(
            item,
            [
                (other, box)
                for other, box in zip(items[layer + 1 :], boxes[layer + 1 :], strict=True)
                if other.covers and box.overlaps(boxes[layer])
            ],
        )
        for layer, item in enumerate(items)
    )


def _visible(item: Placed, near: Sequence[tuple[Placed, ExactRect]]) -> Visible:
    """What is seen of an item under others that may cover some of it, each with its upright box."""
    clear = what_is_clear(_inner(item), [box for _, box in near])
    if not near or all(is_upright(one) for one in (item, *(other for other, _ in near))):
        return Visible(item.id, clear.share if near else Fraction(1), clear.largest())
    return Visible(item.id, _share_seen(item, [other for other, _ in near]), clear.largest())


def _share_seen(item: Placed, near: Sequence[Placed]) -> Fraction:
    whole = item_ring(item)
    seen = [whole]
    for other in near:
        seen = polygons.without(seen, item_ring(other))
    share = sum(map(polygons.area, seen)) / polygons.area(whole)
    return (
        min(Fraction(share).limit_denominator(_SHARE_STEPS), Fraction(1)) if share > _NOTHING else Fraction(0)
    )


def _inner(item: Placed) -> ExactRect:
    """An upright rectangle inside an item as it lies, in the middle of it and of its proportions.

    Of half a width a and half a height b tilted by t, the part s with s (a cos t + b sin t) <= a and
    s (a sin t + b cos t) <= b lies inside; in a circle or ellipse, 1 / sqrt 2 of both.
    """
    if is_upright(item):
        return item.rect
    rect, angle = tilted_rect(item), radians(abs(item.tilt))
    a, b = float(rect.width), float(rect.height)
    share = min(a / (a * cos(angle) + b * sin(angle)), b / (a * sin(angle) + b * cos(angle)))
    if item.outline is OutlineShape.CIRCLE:
        share *= sqrt(0.5)
    part = Fraction(floor(share * _INNER_STEPS), _INNER_STEPS)
    left = rect.x + rect.width * (1 - part) / 2
    top = rect.y + rect.height * (1 - part) / 2
    return ExactRect(left, top, rect.width * part, rect.height * part)


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
    if not item.tilt:
        return item.rect
    left, top, right, bottom = (Fraction(edge) for edge in polygons.box(item_ring(item)))
    return ExactRect(left, top, right - left, bottom - top)
