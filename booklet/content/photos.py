"""The size of a photograph in print: as a ruler shows it, or as its print is sold."""

from __future__ import annotations

from booklet.content.spans import Extent
from booklet.kit.finding import SpecPath
from booklet.measure.length import Size, Unit
from booklet.measure.words import is_printable
from booklet.placing.prints import exact_print


def photo_extent(size: Size, unit: Unit, source: SpecPath, *, with_unit: bool = False) -> Extent:
    """A photograph's size as it lies, in the kit's unit.

    A usual print that no ruler of that unit shows is called as it is sold, with its own unit: 10 × 15 cm.
    """
    sold = exact_print(size, unit)
    is_shown = is_printable(size.width, unit) and is_printable(size.height, unit)
    if is_shown or sold is None:
        return Extent(size, unit, source, with_unit=with_unit)
    upright = Size(sold.width, sold.height)
    lies = upright if size.width <= size.height else upright.turned
    return Extent(lies, sold.unit, source, with_unit=True)
