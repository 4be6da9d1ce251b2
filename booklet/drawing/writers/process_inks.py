"""The four inks of a printing press in the place of colours: cyan, magenta, yellow and black.

Letters, and all that is black, are black alone and print over what lies below; all else knocks it out.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any

from reportlab.lib.utils import ImageReader

from booklet.drawing.shapes.affine import Affine
from booklet.drawing.shapes.figure import BLACK, Colour, ImageSource
from booklet.drawing.writers.inks import opaque, open_pixels
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction

if TYPE_CHECKING:
    from PIL.Image import Image as PixelImage
    from reportlab.pdfgen.canvas import Canvas

# Cyan, magenta, yellow and black, each from 0 (none) to 1 (solid).
Inks4 = tuple[float, float, float, float]

BLACK_INK: Inks4 = (0.0, 0.0, 0.0, 1.0)
NO_INK: Inks4 = (0.0, 0.0, 0.0, 0.0)
# Decimals of an ink in the file: a hundredth of a percent, finer than any plate.
_DECIMALS = 4
# Letters lighter than this are the white of the paper, left out of a dark ground; all others are black.
_LIGHT = 0.5
# Greys lighter than this, a little below the middle, take black alone.
_MIDDLE = 0.4
_FULL = 255


@dataclass(frozen=True)
class InkLimit:
    """The most ink that may lie in one place, in percent: four solid inks are 400."""

    percent: Fraction

    @property
    def of_colours(self) -> float:
        """The most of cyan, magenta and yellow together: black letters may come to lie on them."""
        return float(self.percent / 100 - 1)


def process_colour(colour: Colour, limit: InkLimit) -> Inks4:
    """The four inks of a surface.

    ISO 32000-1, 10.3.4 (from memory) turns red, green and blue into c = 1 - r, m = 1 - g, y = 1 - b, has
    black generated of the grey that they share, k = min(c, m, y), and takes some of it out of each.  How much
    is left to the device; here it is

        K = BG(k) = k * k        C = (c - K) / (1 - K), M and Y alike

    The plain difference c - K supposes that inks add up.  They do not: each takes a share of the light that
    the others leave, so that (1 - C) (1 - K) = 1 - c has to hold, which it does for any K.  By the difference
    dark colours come out pale: on the coated paper of SWOP, by lightness 15 of 100 on average, against 3
    (measured by an ICC profile on the colours of the demo kits).  With the square, light colours have hardly
    any black, which would look grainy, and the darkest greys are half of each colour under solid black.

    Where cyan, magenta and yellow pass what the limit leaves them, T, black takes over more of the grey, up
    to all of it: K = (c + m + y - T) / (3 - T) just meets T.  What is still over, two solid inks or nearly,
    is made lighter in equal parts.  A grey up to the middle takes black alone: of four screens it would show
    every slip and every drift of an ink; a darker one would come out pale of black alone, as would black
    itself, which stays black alone for the sake of small things.
    """
    red, green, blue = colour.rgb
    if red == green == blue and (red >= _MIDDLE or red == 0.0):
        return _grey(colour)
    return _mixed(1.0 - red, 1.0 - green, 1.0 - blue, limit.of_colours)


def process_line(colour: Colour, limit: InkLimit) -> Inks4:
    """The four inks of a line: as those of a surface, but any grey takes black alone, as a line is thin."""
    red, green, blue = colour.rgb
    return _grey(colour) if red == green == blue else process_colour(colour, limit)


def _grey(colour: Colour) -> Inks4:
    return (0.0, 0.0, 0.0, round(1.0 - colour.rgb[0], _DECIMALS))


@lru_cache(maxsize=4096)
def _mixed(cyan: float, magenta: float, yellow: float, most: float) -> Inks4:
    grey, together = min(cyan, magenta, yellow), cyan + magenta + yellow
    needed = (together - most) / (3.0 - most) if most < 3.0 else 0.0
    black = min(max(grey * grey, needed), grey)
    inks = [(ink - black) / (1.0 - black) for ink in (cyan, magenta, yellow)]
    share = min(1.0, most / max(sum(inks), most))
    step = 10.0**-_DECIMALS
    # Down, so that no rounding passes the limit.
    c, m, y = ((ink * share + step / 1000) // step * step for ink in inks)
    return (round(c, _DECIMALS), round(m, _DECIMALS), round(y, _DECIMALS), round(black, _DECIMALS))


def process_picture(picture: PixelImage, limit: InkLimit) -> PixelImage:
    """A picture in the four inks by the formula of `process_colour`, or in grey where all of it is grey."""
    import numpy as np
    from PIL import Image as Pixels

    if picture.mode in ("1", "L"):
        return picture.convert("L")
    seen = np.asarray(opaque(picture), dtype=np.uint8)
    if (seen == seen[..., :1]).all():
        return Pixels.fromarray(np.ascontiguousarray(seen[..., 0]))
    most = limit.of_colours - _RESERVE
    rows = [_inked(row, most) for row in np.array_split(seen, max(1, seen.shape[0] // _ROWS))]
    return Pixels.fromarray(np.concatenate(rows), mode="CMYK")


# Rows that are worked out together: a large picture in halves of millions of numbers would fill the memory.
_ROWS = 256
# What a picture keeps below the limit: half a step of each colour is rounded up where it is made coarser.
_RESERVE = 2 / _FULL


def _inked(seen: Any, most: float) -> Any:
    """Rows of red, green and blue from 0 to 255 as rows of four inks."""
    import numpy as np

    inks = 1.0 - seen.astype(np.float32) / _FULL
    grey, together = inks.min(axis=2), inks.sum(axis=2)
    needed = (together - most) / (3.0 - most) if most < 3.0 else np.zeros_like(grey)
    black = np.minimum(np.maximum(grey * grey, needed), grey)
    left = np.maximum(1.0 - black, 1e-6)[..., None]
    colours = np.where(black[..., None] < 1.0, (inks - black[..., None]) / left, 0.5)
    over = np.maximum(colours.sum(axis=2), most)
    share = np.minimum(1.0, most / over)[..., None] if most > 0 else 0.0
    # Down, so that no rounding passes the limit.
    down = np.floor(colours * share * _FULL + 1e-3)
    return np.concatenate([down, np.rint(black * _FULL)[..., None]], axis=2).astype(np.uint8)


class ProcessInks:
    """The four inks of a press, within a limit, with overprinting stated at each change of colour.

    A canvas or a text object is given its inks and, by the states of `setFillOverprint` and
    `setStrokeOverprint`, whether they are printed over what lies below.
    """

    keeps_size = False

    def __init__(self, limit: InkLimit) -> None:
        self.limit = limit

    def is_solid(self, colour: Colour) -> bool:  # noqa: ARG002
        """Every colour is filled alike at every scale."""
        return True

    def set_fill(self, canvas: Canvas, colour: Colour, place: Affine) -> None:  # noqa: ARG002
        """Fill in the four inks; black prints over, and everything else knocks out what is below."""
        canvas.setFillColorCMYK(*process_colour(colour, self.limit))
        canvas.setFillOverprint(colour == BLACK)

    def set_stroke(self, canvas: Canvas, colour: Colour) -> None:
        """Draw lines in the four inks; black ones print over."""
        canvas.setStrokeColorCMYK(*process_line(colour, self.limit))
        canvas.setStrokeOverprint(colour == BLACK)

    def set_text(self, canvas: Canvas, colour: Colour) -> None:
        """Letters are black alone, printed over their ground, or left white in it: one plate, no slip."""
        is_light = colour.luminance > _LIGHT
        canvas.setFillColorCMYK(*(NO_INK if is_light else BLACK_INK))
        canvas.setFillOverprint(not is_light)

    def picture(self, source: ImageSource, place: Affine) -> ImageReader:  # noqa: ARG002
        """In the four inks, or in grey."""
        return ImageReader(process_picture(open_pixels(source.read()), self.limit))
