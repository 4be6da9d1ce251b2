"""Photographs: how many of which size each layout takes, which way up, and what stays visible."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit
from booklet.placing.model import ItemKind, PlacedLayout
from booklet.placing.prints import exact_print, smallest_print_for, upright


class WayUp(Enum):
    """Which way up a photograph lies."""

    UPRIGHT = "upright"
    LYING = "lying"
    SQUARE = "square"


@dataclass(frozen=True)
class PhotoSlot:
    """One photograph of a layout: its size as it lies, what is seen of it, and the print that it takes.

    `print_name` is the usual print that it is, or that it is trimmed out of (`trimmed`); None where it is
    larger than any.
    """

    layout: str
    item: int
    step_number: int
    size: Size
    way_up: WayUp
    visible: Fraction
    print_name: str | None
    trimmed: bool
    optional: bool


@dataclass(frozen=True)
class PhotoTotal:
    """How many photographs of one size and way up there are, in all and by layout."""

    size: Size
    way_up: WayUp
    print_name: str | None
    trimmed: bool
    count: int
    per_layout: tuple[tuple[str, int], ...]


def photo_slots(layout: PlacedLayout, unit: Unit) -> tuple[PhotoSlot, ...]:
    """The photographs of a layout, in the order of its steps; one cut at the gutter counts on the left."""
    shares = {seen.id: seen.share for seen in layout.visible}
    slots = []
    for item in sorted(layout.items, key=lambda item: item.id):
        if item.kind is not ItemKind.PHOTO or item.from_facing:
            continue
        size = item.whole or item.rect.size
        exact = exact_print(size, unit)
        source = exact or smallest_print_for(size, unit)
        slots.append(PhotoSlot(
            layout.id, item.id, item.step_number, size, way_up(size), shares[item.id],
            source.name if source else None, exact is None and source is not None, item.optional,
        ))  # fmt: skip
    return tuple(slots)


def way_up(size: Size) -> WayUp:
    """Upright, lying, or square."""
    if size.width == size.height:
        return WayUp.SQUARE
    return WayUp.UPRIGHT if size.height > size.width else WayUp.LYING


def photo_totals(layouts: Sequence[PlacedLayout], unit: Unit) -> tuple[PhotoTotal, ...]:
    """What to order from the printer's: the smallest first, upright before lying."""
    slots = [slot for layout in layouts for slot in photo_slots(layout, unit)]
    kinds = {(slot.size, slot.way_up): slot for slot in slots}
    ordered = sorted(kinds.values(), key=lambda slot: (_sort_key(slot.size), slot.way_up.value != "upright"))
    return tuple(_total(kind, slots) for kind in ordered)


def _sort_key(size: Size) -> tuple[Fraction, Fraction]:
    return size.area, upright(size).width


def _total(kind: PhotoSlot, slots: Sequence[PhotoSlot]) -> PhotoTotal:
    alike = [slot for slot in slots if (slot.size, slot.way_up) == (kind.size, kind.way_up)]
    counts = Counter(slot.layout for slot in alike)
    return PhotoTotal(
        kind.size, kind.way_up, kind.print_name, kind.trimmed, len(alike), tuple(counts.items())
    )
