"""The size of a photograph in print: as a ruler shows it, or as its print is sold."""

from __future__ import annotations

from booklet.measure.length import Size, Unit
from booklet.measure.words import APPROXIMATELY, print_size
from booklet.placing.prints import exact_print


def photo_size(size: Size, unit: Unit) -> str:
    """`4 × 6`, lengths in the kit's unit; `10 × 15 cm` of a usual print that no ruler of that unit shows."""
    said = print_size(size, unit)
    sold = exact_print(size, unit) if APPROXIMATELY in said else None
    if sold is None:
        return said
    own = Size(sold.width, sold.height)
    return f"{print_size(own if size.width <= size.height else own.turned, sold.unit)}\u00a0{sold.unit.value}"
