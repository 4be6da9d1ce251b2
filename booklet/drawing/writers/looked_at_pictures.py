"""Pictures for a page that is looked at and thrown away: of each what shows, as fine as a screen shows it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Image, Shape, Symbol, image_from_bytes
from booklet.drawing.writers.svg_pictures import Pictures
from booklet.measure.dataclass import replace

# Twice as many as most screens have where a page is shown in its true size.
_DOTS_PER_INCH = 200
# A kit has few pictures; a piece of each shows another part.
_MOST_KEPT = 256
_PICTURES = Pictures(_DOTS_PER_INCH)


def with_parts_of_pictures(symbol: Symbol, window: Box, scale: float) -> Symbol:
    """A symbol drawn at a scale, of whose pictures what lies in a window shows, in its own coordinates."""
    if not any(isinstance(shape, Image) for shape in symbol.shapes):
        return symbol
    shapes = tuple(_with_parts(symbol, window, scale))
    key = "-".join((symbol.key, *(shape.source.key for shape in shapes if isinstance(shape, Image))))
    return replace(symbol, key=key, shapes=shapes)


def _with_parts(symbol: Symbol, window: Box, scale: float) -> Iterator[Shape]:
    for shape in symbol.shapes:
        if isinstance(shape, Image):
            yield from _parts(shape, window, scale)
        else:
            yield shape


@lru_cache(_MOST_KEPT)
def _parts(image: Image, window: Box, scale: float) -> tuple[Image, ...]:
    """What of an image shows in a window, as few pixels as that takes."""
    parts = _PICTURES.parts(image, [window], scale)
    return tuple(Image(image_from_bytes(data), box) for box, data in parts)
