"""One ink: black and white alone, greys as screens that an office printer of 600 dpi holds."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from math import ceil, cos, hypot, pi
from typing import TYPE_CHECKING, cast

from booklet.drawing.shapes.affine import IDENTITY, Affine, scaling
from booklet.drawing.shapes.figure import Colour, ImageSource, Segment, path_box
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.shapes.outlined import outlined
from booklet.drawing.shapes.screens import (
    POINTS_PER_DOT,
    Screen,
    Weave,
    every_screen,
    lettered,
    lightness,
    nearest,
)
from booklet.drawing.writers.inks import opaque, open_pixels
from booklet.drawing.writers.pattern_canvas import Bits, PatternCanvas

if TYPE_CHECKING:
    from PIL.Image import Image as PixelImage
    from reportlab.pdfgen.canvas import Canvas

# Lighter than this, from 0 to 1, a line is white, and letters are; a grey nearer to white or black than half
# the lightest screen is plain.
_LIGHT = 0.62
_PLAIN = 0.06
# From letter to letter of a lettered screen at least, a letter's size and the white about it, in dots.
_LETTERED, _LETTER_SIZE, _LETTER_AIR = 150, 62.0, 6
# Darker screens than this have white letters.
_DARK = 0.5
_LETTER_FONT = Font.SANS_BOLD
# Letters show from this scale of a drawing on: smaller ones have no room for them.
_LEAST_LETTERED = 1 / 9
# The cell of a picture's dots: those of the fine screens.
_PICTURE_CELL = 12
# The share of a picture's cell that the least dot takes, and the least gap.
_LEAST_DOT = 9 / 72
# No picture is made of more dots than these across or down; a larger one has larger dots.
_MOST_DOTS = 2400


class BlackInks:
    """Black and white, and screens for what lies between: the same size on the page at every scale."""

    keeps_size = True

    def is_solid(self, colour: Colour) -> bool:
        """Black and white are."""
        return isinstance(screen_of(colour), float)

    def set_fill(self, canvas: Canvas, colour: Colour, place: Affine) -> None:
        """Fill with the screen that the colour stands for, or with the fine one that is nearest to it."""
        screen = screen_of(colour)
        if isinstance(screen, float):
            canvas.setFillGray(screen)
            return
        base = Affine(*place[:4]) if place.least_scale else IDENTITY
        if screen.letter and hypot(base.a, base.b) < _LEAST_LETTERED:
            screen = lettered(screen, "")
        key = f"{screen} {[round(part, 5) for part in base[:4]]}"
        name = "S" + hashlib.sha256(key.encode()).hexdigest()[:12]
        patterned = cast(PatternCanvas, canvas)
        if not patterned.has_pattern(name):
            matrix = scaling(POINTS_PER_DOT).then(base.inverse)
            patterned.add_pattern(name, _side(screen), "\n".join(_cell(screen)), matrix)
        patterned.fill_with(name)

    def set_stroke(self, canvas: Canvas, colour: Colour) -> None:
        """Lines are black, light ones white."""
        canvas.setStrokeGray(_black_or_white(colour))

    def set_text(self, canvas: Canvas, colour: Colour) -> None:
        """Letters are black, light ones white."""
        canvas.setFillGray(_black_or_white(colour))

    def picture(self, source: ImageSource, place: Affine) -> Bits:
        """A picture in dots of black, as many as an office printer has on the page there."""
        size = _dots(hypot(*place[:2]), hypot(*place[2:4]))
        return Bits(dotted(opaque(open_pixels(source.read())), size))


BLACK_INKS = BlackInks()


def screen_of(colour: Colour) -> Screen | float:
    """What a colour is made of: a screen, or 0 for black and 1 for white."""
    known = every_screen().get(colour)
    if known is not None:
        return known
    light = lightness(colour)
    if light > 1.0 - _PLAIN:
        return 1.0
    if light < _PLAIN:
        return 0.0
    return nearest(Weave.FINE, 1.0 - light)


def _black_or_white(colour: Colour) -> float:
    return 1.0 if lightness(colour) > _LIGHT else 0.0


# The cell of a screen, in dots.


def _side(screen: Screen) -> int:
    return screen.pitch * ceil(_LETTERED / screen.pitch) if screen.letter else screen.pitch


def _cell(screen: Screen) -> Iterator[str]:
    """The operators that draw a cell: its ground, its marks, its letter."""
    side, mark = _side(screen), "1 g" if screen.is_reversed else "0 g"
    yield f"{'0 g' if screen.is_reversed else '1 g'} 0 0 {side} {side} re f {mark}"
    steps = range(0, side, screen.pitch)
    for x in steps:
        for y in steps:
            yield from (f"{left + x} {foot + y} {wide} {high} re" for left, foot, wide, high in screen.marks)
    yield "f"
    if screen.letter:
        about, ink = ("0 g", "1 g") if screen.coverage > _DARK else ("1 g", "0 g")
        yield from _letter(screen.letter, side / 2, about, ink)


def _letter(letter: str, middle: float, about: str, ink: str) -> Iterator[str]:
    """A letter in the middle of its cell, kept clear of its marks."""
    glyphs = outlined(letter, _LETTER_FONT, _LETTER_SIZE, 0.0, 0.0)
    box = path_box(glyphs)
    x, y = middle - box.centre[0], middle + box.centre[1]
    # Outlines run with y down, the cell with y up.
    clear = box.grown(_LETTER_AIR)
    corner = f"{round(clear.left + x)} {round(y - clear.bottom)}"
    yield f"{about} {corner} {round(clear.width)} {round(clear.height)} re f {ink}"
    yield from (_operator(segment, x, y) for segment in glyphs)
    yield "f"


_OPERATORS = {"M": "m", "L": "l", "C": "c", "Z": "h"}


def _operator(segment: Segment, x: float, y: float) -> str:
    numbers = [f"{y - number if at % 2 else x + number:.2f}" for at, number in enumerate(segment[1:])]
    return " ".join([*numbers, _OPERATORS[segment[0]]])


# Pictures.


def _dots(width: float, height: float) -> tuple[int, int]:
    """How many dots a picture takes that is so many points wide and high on the page."""
    across, down = (side / POINTS_PER_DOT for side in (width, height))
    larger = max(1.0, across / _MOST_DOTS, down / _MOST_DOTS)
    return max(1, round(across / larger)), max(1, round(down / larger))


def dotted(picture: PixelImage, size: tuple[int, int]) -> PixelImage:
    """A picture as black dots on white, in rows at 45 degrees, `size` dots wide and high.

    No dot and no gap is smaller than three dots of the printer in both directions.
    """
    from PIL import Image as Pixels
    from PIL import ImageChops

    grey = picture.convert("L").resize(size, Pixels.Resampling.LANCZOS)
    difference = ImageChops.subtract(grey, _thresholds(size))
    return difference.point([0] + [255] * 255, "1")


def _thresholds(size: tuple[int, int]) -> PixelImage:
    """For each dot the grey up to which it is black."""
    from PIL import Image as Pixels

    tile = Pixels.new("L", (_PICTURE_CELL, _PICTURE_CELL))
    tile.putdata(list(_ranks(_PICTURE_CELL)))
    wide, high = size
    row = Pixels.new("L", (wide, _PICTURE_CELL))
    for x in range(0, wide, _PICTURE_CELL):
        row.paste(tile, (x, 0))
    whole = Pixels.new("L", size)
    for y in range(0, high, _PICTURE_CELL):
        whole.paste(row, (0, y))
    return whole


def _ranks(cell: int) -> Iterable[int]:
    """The dots of a cell in the order in which they turn black, as greys from white to black.

    They grow about the corners and the middle, as a round spot does, and stay open between.
    """
    places = [(x, y) for y in range(cell) for x in range(cell)]

    def height(place: tuple[int, int]) -> float:
        x, y = (2 * pi * (part + 0.5) / cell for part in place)
        return cos(x + y) + cos(x - y)

    order = sorted(places, key=lambda place: (-round(height(place), 6), place))
    ranks = {place: at / len(order) for at, place in enumerate(order)}

    return [round(255 * (1.0 - _held(ranks[place]))) for place in places]


def _held(rank: float) -> float:
    """The rank of a dot of a cell, from 0 to 1; those of the least dot and of the least gap come together."""
    if rank < _LEAST_DOT:
        return _LEAST_DOT / 2
    return 1.0 - _LEAST_DOT / 2 if rank > 1.0 - _LEAST_DOT else rank
