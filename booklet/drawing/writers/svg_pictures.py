"""The pictures of an SVG: of each only what shows, as fine as it prints."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from io import BytesIO
from math import ceil, floor
from typing import TYPE_CHECKING

from booklet.drawing.shapes.affine import Box, bounds_of_boxes
from booklet.drawing.shapes.figure import Image
from booklet.measure.dataclass import dataclass, replace

if TYPE_CHECKING:
    from PIL.Image import Image as PixelImage

# What print shops ask of a photograph at the size at which it is printed (common practice, no source).
DOTS_PER_INCH = 300
_POINTS_PER_INCH = 72
# Pixels left about what shows, so that a viewer that blends neighbours finds them.
_MARGIN = 2
JPEG_QUALITY = 90
# From this quality on colours are kept as fine as their lightness: print shows the difference.
_FINE_COLOURS = 90
# Pixels take much room.
_MOST_KEPT = 4
# Left, top, right and bottom of a part of a picture, in its pixels.
_Crop = tuple[int, int, int, int]


@dataclass(frozen=True)
class _Decoded:
    """A picture that was decoded for so many pixels; a JPEG may have been in a half of its size."""

    key: str
    width: int
    height: int
    pixels: PixelImage
    is_jpeg: bool


class Pictures:
    """The pictures of several documents: the last that was decoded, and those that were reduced last.

    `dots` are how many to the inch they show, `quality` is that of a JPEG, of a hundred.
    """

    def __init__(self, dots: int = DOTS_PER_INCH, quality: int = JPEG_QUALITY) -> None:
        self._dots, self._quality = dots, quality
        self._decoded: _Decoded | None = None
        self._reduced: dict[tuple[str, int, int], _Decoded] = {}

    def parts(self, image: Image, windows: Sequence[Box] | None, scale: float) -> Iterator[tuple[Box, bytes]]:
        """What of a picture shows in windows, all of it for None: where each part lies, and its file.

        The windows lie in the coordinates of the image; `scale` says how large a point of them is printed.
        A part that would take no less room than the whole picture is the whole picture as it came.
        """
        data = image.source.read()
        reduced = self._in_print(image, data, scale * self._dots / _POINTS_PER_INCH)
        for part in _seen(image.box, windows):
            crop = _pixels_of(part, image.box, reduced.pixels)
            made = _encoded(reduced.pixels.crop(crop), self._quality if reduced.is_jpeg else None)
            is_less = len(made) < len(data)
            yield (_lying(crop, image.box, reduced.pixels), made) if is_less else (image.box, data)

    def _in_print(self, image: Image, data: bytes, dots: float) -> _Decoded:
        """A picture with no more pixels than are printed: so many to a point."""
        from PIL.Image import Resampling

        width, height = (max(1, ceil(round(side * dots, 3))) for side in (image.box.width, image.box.height))
        key = image.source.key, width, height
        if key not in self._reduced:
            if len(self._reduced) == _MOST_KEPT:
                del self._reduced[next(iter(self._reduced))]
            decoded = self._decode(image.source.key, data, width, height)
            whole = decoded.pixels
            size = min(width, whole.width), min(height, whole.height)
            self._reduced[key] = replace(decoded, pixels=whole.resize(size, Resampling.HAMMING))
        return self._reduced[key]

    def _decode(self, key: str, data: bytes, width: int, height: int) -> _Decoded:
        from PIL import Image as Pixels

        last = self._decoded
        if last is None or last.key != key or last.width < width or last.height < height:
            opened = Pixels.open(BytesIO(data))
            opened.draft(None, (width, height))
            opened.load()
            last = self._decoded = _Decoded(key, width, height, opened, opened.format == "JPEG")
        return last


def _seen(box: Box, windows: Sequence[Box] | None) -> list[Box]:
    """The parts of a box that are seen in windows: one where several would take more room."""
    if windows is None:
        return [box]
    parts = [part for window in windows if (part := box.common(window)) is not None]
    if not parts:
        return []
    whole = bounds_of_boxes(parts)
    area = sum(part.width * part.height for part in parts)
    return parts if area < whole.width * whole.height else [whole]


def _pixels_of(part: Box, box: Box, pixels: PixelImage) -> _Crop:
    """The pixels of a picture over a box that hold a part of it, and some about them."""
    across, down = pixels.width / box.width, pixels.height / box.height
    return (
        max(0, floor((part.left - box.left) * across) - _MARGIN),
        max(0, floor((part.top - box.top) * down) - _MARGIN),
        min(pixels.width, ceil((part.right - box.left) * across) + _MARGIN),
        min(pixels.height, ceil((part.bottom - box.top) * down) + _MARGIN),
    )


def _lying(crop: _Crop, box: Box, pixels: PixelImage) -> Box:
    """Where a part of a picture lies that is stretched over a box."""
    across, down = box.width / pixels.width, box.height / pixels.height
    left, top, right, bottom = crop
    return Box(
        box.left + left * across,
        box.top + top * down,
        box.left + right * across,
        box.top + bottom * down,
    )


def _encoded(pixels: PixelImage, quality: int | None) -> bytes:
    """The pixels as a JPEG of a quality, or as a PNG where there is none."""
    stream = BytesIO()
    if quality is None:
        pixels.save(stream, "PNG")
    else:
        pixels.save(stream, "JPEG", quality=quality, subsampling=0 if quality >= _FINE_COLOURS else 2)
    return stream.getvalue()
