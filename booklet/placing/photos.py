"""Photographs: of which size each layout takes them, which way up, and what stays visible."""

from __future__ import annotations

from enum import Enum

from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit
from booklet.placing.model import ItemKind, PlacedLayout
from booklet.placing.prints import exact_print, smallest_print_for
from booklet.placing.visible import visible_share


class WayUp(Enum):
    """Which way up a photograph lies."""

    UPRIGHT = "upright"
    LYING = "lying"
    SQUARE = "square"


@dataclass(frozen=True)
class PhotoSlot:
    """One photograph of a layout: its size as it lies, what is seen, whether a usual print is trimmed."""

    item: int
    size: Size
    way_up: WayUp
    visible: Fraction
    trimmed: bool


def photo_slots(layout: PlacedLayout, unit: Unit) -> tuple[PhotoSlot, ...]:
    """The photographs of a layout, in the order of its steps; one cut at the gutter counts on the left."""
    slots = []
    for item in sorted(layout.items, key=lambda item: item.id):
        if item.kind is not ItemKind.PHOTO or item.from_facing:
            continue
        size = item.whole or item.rect.size
        trimmed = exact_print(size, unit) is None and smallest_print_for(size, unit) is not None
        seen = visible_share(item, layout.items[item.layer :])
        slots.append(PhotoSlot(item.id, size, way_up(size), seen, trimmed))
    return tuple(slots)


def way_up(size: Size) -> WayUp:
    """Upright, lying, or square."""
    if size.width == size.height:
        return WayUp.SQUARE
    return WayUp.UPRIGHT if size.height > size.width else WayUp.LYING
