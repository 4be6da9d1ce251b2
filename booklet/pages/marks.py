"""The signs that stand in a line of text about a number: a step's ring, a cut's disc, a pocket."""

from __future__ import annotations

from functools import lru_cache

from booklet.drawing.marks.marker import pocket_outline
from booklet.drawing.shapes.figure import Circle, Colour, Figure, Fill, Path, Shape, Stroke
from booklet.drawing.shapes.fonts import Font, text_width
from booklet.drawing.shapes.style import Palette, mm
from booklet.measure.dataclass import dataclass

# How large a number is set, in parts of the type's size, and its least size; how far a ring about it reaches
# from its middle, in parts of the number's size.
_NUMERAL, _LEAST_NUMERAL, _RADIUS = 0.885, 9.0, 0.684
# A ring's line, 0.35 mm (ISO 128-2, from memory).
_LINE = mm(0.35)
# In parts of the type's size: the white on both sides of a sign, between a ring and a long number in it, and
# about a pocket's number, and a pocket's height.
_SIDE, _ABOUT, _POCKET_SIDE, _POCKET_HEIGHT = 0.06, 0.1, 0.42, 1.3


@dataclass(frozen=True)
class Mark:
    """A number in a sign: the sign's drawing, and the number's size and colour in it.

    The drawing has its middle at half the height of a capital; the number is set as text.
    """

    number: str
    figure: Figure
    size: float
    colour: Colour
    side: float

    @property
    def width(self) -> float:
        """How much of the line it takes, in points."""
        return self.figure.width + 2 * self.side


@lru_cache(maxsize=256)
def step_mark(number: int, palette: Palette, size: float) -> Mark:
    """The ring of a step among words of a size in points."""
    line = Stroke(palette.accent, _LINE)
    return _round_mark(str(number), Fill(palette.paper), line, palette.ink, size)


@lru_cache(maxsize=256)
def cut_mark(number: int, palette: Palette, size: float) -> Mark:
    """The disc of a cut among words of a size in points: black, so that its number stands in no dots."""
    return _round_mark(str(number), Fill(palette.ink), None, palette.paper, size)


def _round_mark(number: str, fill: Fill, line: Stroke | None, colour: Colour, size: float) -> Mark:
    numeral = max(size * _NUMERAL, _LEAST_NUMERAL)
    radius = max(numeral * _RADIUS, text_width(number, Font.SANS_BOLD, numeral) / 2 + size * _ABOUT)
    disc = Circle(radius, radius, radius - (line.width / 2 if line else 0.0), fill, line)
    return Mark(number, _drawing(2 * radius, 2 * radius, disc), numeral, colour, size * _SIDE)


@lru_cache(maxsize=256)
def pocket_mark(name: str, palette: Palette, size: float) -> Mark:
    """A pocket of the sorter among words of a size in points."""
    numeral = max(size * _NUMERAL, _LEAST_NUMERAL)
    width, height = text_width(name, Font.SANS_BOLD, numeral) + 2 * _POCKET_SIDE * size, size * _POCKET_HEIGHT
    edge = mm(0.25)
    outline = pocket_outline(edge / 2, edge / 2, width - edge, height - edge)
    pocket = Path(outline, Fill(palette.accent_tint), Stroke(palette.ink, edge))
    return Mark(name, _drawing(width, height, pocket), numeral, palette.ink, size * _SIDE)


def _drawing(width: float, height: float, *shapes: Shape) -> Figure:
    return Figure("mark", width, height, shapes)
