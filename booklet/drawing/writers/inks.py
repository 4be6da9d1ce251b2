"""How colours and pictures are written to a PDF: what is given to paper in the place of a colour.

The PDF writer asks its inks whenever a colour changes, and for each picture once.
"""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING, Protocol

from reportlab.lib.utils import ImageReader

from booklet.drawing.shapes.affine import Affine
from booklet.drawing.shapes.figure import WHITE, Colour, ImageSource

if TYPE_CHECKING:
    from PIL.Image import Image as PixelImage
    from reportlab.pdfgen.canvas import Canvas


class Inks(Protocol):
    """Puts colours on a canvas: those of surfaces, of lines and of letters, and those of pictures."""

    # Whether what it fills with keeps its size on the page, so that no form serves at two scales.
    keeps_size: bool

    def is_solid(self, colour: Colour) -> bool:
        """Whether a colour is filled alike at every scale."""

    def set_fill(self, canvas: Canvas, colour: Colour, place: Affine) -> None:
        """What is filled from now on is of this colour.

        `place` leads to the page from the coordinates of the form that is written, or of the page itself.
        """

    def set_stroke(self, canvas: Canvas, colour: Colour) -> None:
        """Lines are of this colour from now on."""

    def set_text(self, canvas: Canvas, colour: Colour) -> None:
        """Letters are of this colour from now on."""

    def picture(self, source: ImageSource, place: Affine) -> ImageReader:
        """A picture as it goes into the file, without transparency.

        `place` leads from a square of 1 by 1 to the page.
        """


class ScreenInks:
    """Red, green and blue, as a screen and a home printer take them."""

    keeps_size = False

    def is_solid(self, colour: Colour) -> bool:  # noqa: ARG002
        """Every colour is."""
        return True

    def set_fill(self, canvas: Canvas, colour: Colour, place: Affine) -> None:  # noqa: ARG002
        """Fill with the colour as it is."""
        canvas.setFillColorRGB(*colour.rgb)

    def set_stroke(self, canvas: Canvas, colour: Colour) -> None:
        """Draw lines in the colour as it is."""
        canvas.setStrokeColorRGB(*colour.rgb)

    def set_text(self, canvas: Canvas, colour: Colour) -> None:
        """Set letters in the colour as it is."""
        canvas.setFillColorRGB(*colour.rgb)

    def picture(self, source: ImageSource, place: Affine) -> ImageReader:  # noqa: ARG002
        """In red, green and blue; a JPEG in these or in grey keeps its own bytes."""
        data = source.read()
        opened = open_pixels(data)
        if opened.format == "JPEG" and opened.mode in ("RGB", "L"):
            return _AsItIs(BytesIO(data))
        return ImageReader(opaque(opened))


SCREEN = ScreenInks()


class _AsItIs(ImageReader):  # type: ignore[misc]  # reportlab carries no types
    """A JPEG whose own bytes go into the file."""

    def getRGBData(self) -> bytes:  # noqa: N802 (the canvas asks for it by this name)
        """Bytes that tell it from others: a canvas names a picture by them, and has no other use for them."""
        self._dataA = None
        data: bytes = self.fp.getvalue()
        return data


def open_pixels(data: bytes) -> PixelImage:
    """A picture's bytes as pixels."""
    from PIL import Image as Pixels

    return Pixels.open(BytesIO(data))


def opaque(picture: PixelImage) -> PixelImage:
    """A picture in red, green and blue; what shows through is white."""
    if "A" in picture.getbands() or "transparency" in picture.info:
        picture = _on_white(picture)
    return picture.convert("RGB")


def _on_white(picture: PixelImage) -> PixelImage:
    from PIL import Image as Pixels

    ground = Pixels.new("RGBA", picture.size, WHITE.hex)
    return Pixels.alpha_composite(ground, picture.convert("RGBA")).convert("RGB")
