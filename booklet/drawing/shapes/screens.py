"""Screens: greys and marks made of black alone, for an office printer of 600 dots to the inch.

A screen is a small cell of whole dots, repeated.  No line and no gap is finer than three dots, so that none
closes up or breaks off where the printer lets black grow or shrink by one (common practice, no source).  In a
figure a screen is stood for by a colour of its own, a grey about as light, so that tones mixed from it come
out as they should.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import Enum
from functools import cache, cached_property

from booklet.drawing.shapes.figure import Colour
from booklet.measure.dataclass import dataclass, replace

# Of an office printer, to the inch: 1200 dpi is a multiple.
DOTS_PER_INCH = 600
POINTS_PER_DOT = 72 / DOTS_PER_INCH
# The finest line and gap, in dots.
LEAST = 3


class Weave(Enum):
    """Which way the marks of a screen run, as seen on the page whatever way the paper lies.

    Fine dots are for greys, the other marks for papers: dots, lines across, falling to the right or down, and
    crossed lines.  Lines that rise to the right are left to the hatching of scrap.
    """

    FINE = "fine"
    DOTS = "dots"
    ACROSS = "across"
    FALLING = "falling"
    DOWN = "down"
    CROSS = "crossed"


@dataclass(frozen=True)
class Screen:
    """A cell of `pitch` by `pitch` dots with marks of a width; `is_reversed` has white marks on black.

    With a letter it stands among the marks every few cells.
    """

    weave: Weave
    pitch: int
    width: int
    is_reversed: bool = False
    letter: str = ""

    @cached_property
    def marks(self) -> tuple[tuple[int, int, int, int], ...]:
        """The marks of a cell as rectangles: left, foot, width, height, in dots, y up."""
        return tuple(_MARKS[self.weave](self.pitch, self.width))

    @cached_property
    def coverage(self) -> float:
        """The share of black, from 0 to 1."""
        marked = {
            ((left + across) % self.pitch, (foot + up) % self.pitch)
            for left, foot, wide, high in self.marks
            for across in range(wide)
            for up in range(high)
        }
        share = len(marked) / self.pitch**2
        return 1.0 - share if self.is_reversed else share

    @cached_property
    def colour(self) -> Colour:
        """The grey that stands for it.

        By its weave the blue is off, and by its letter the red, towards the middle of all greys.
        """
        grey = round(255 * (1.0 - self.coverage))
        way = -1 if grey > 127 else 1
        weave = list(Weave).index(self.weave) + 1
        letter = ord(self.letter) - ord("a") + 1 if self.letter else 0
        return Colour(f"#{grey + way * letter:02x}{grey:02x}{grey + way * weave:02x}")


def _dots(pitch: int, side: int) -> Iterator[tuple[int, int, int, int]]:
    """Square dots at the corners and in the middle of the cell."""
    quarter = (pitch // 2 - side) // 2
    yield quarter, quarter, side, side
    yield quarter + pitch // 2, quarter + pitch // 2, side, side


def _across(pitch: int, width: int) -> Iterator[tuple[int, int, int, int]]:
    yield 0, (pitch - width) // 2, pitch, width


def _down(pitch: int, width: int) -> Iterator[tuple[int, int, int, int]]:
    yield (pitch - width) // 2, 0, width, pitch


def _cross(pitch: int, width: int) -> Iterator[tuple[int, int, int, int]]:
    yield from _across(pitch, width)
    yield from _down(pitch, width)


def _falling(pitch: int, width: int) -> Iterator[tuple[int, int, int, int]]:
    """Steps of one dot down to the right; what leaves the cell at its right comes in at its left."""
    for row in range(pitch):
        left = (pitch - row) % pitch
        yield left, row, min(width, pitch - left), 1
        if left + width > pitch:
            yield 0, row, left + width - pitch, 1


_MARKS = {
    Weave.FINE: _dots,
    Weave.DOTS: _dots,
    Weave.ACROSS: _across,
    Weave.FALLING: _falling,
    Weave.DOWN: _down,
    Weave.CROSS: _cross,
}

# Pitch and width of the screens of each weave.  Falling lines are as broad again as they are wide across, by
# the root of two.
_BLACK_MARKS: dict[Weave, tuple[tuple[int, int], ...]] = {
    Weave.FINE: ((12, 3), (12, 4), (12, 5)),
    Weave.DOTS: ((20, 4), (20, 5), (20, 6), (20, 7)),
    Weave.ACROSS: ((24, 3), (16, 3), (12, 3), (12, 4), (12, 5), (12, 6), (12, 7), (12, 8), (12, 9)),
    Weave.DOWN: ((24, 3), (16, 3), (12, 3), (12, 4), (12, 5), (12, 6), (12, 7), (12, 8), (12, 9)),
    Weave.FALLING: ((24, 5), (20, 5), (16, 5), (16, 6), (16, 8), (16, 10), (16, 11)),
    Weave.CROSS: ((32, 3), (24, 3), (20, 3), (16, 3), (16, 4)),
}
_WHITE_MARKS: dict[Weave, tuple[tuple[int, int], ...]] = {
    Weave.FINE: ((12, 5), (12, 4), (12, 3)),
    Weave.CROSS: ((16, 4), (16, 3), (20, 3), (24, 3)),
}


def screens(weave: Weave) -> tuple[Screen, ...]:
    """The screens of a weave, the lightest first."""
    dark = [Screen(weave, pitch, width) for pitch, width in _BLACK_MARKS[weave]]
    light = [Screen(weave, pitch, width, is_reversed=True) for pitch, width in _WHITE_MARKS.get(weave, ())]
    return tuple(sorted((*dark, *light), key=lambda screen: screen.coverage))


def nearest(weave: Weave, coverage: float) -> Screen:
    """The screen of a weave whose share of black is nearest to one wanted."""
    return min(screens(weave), key=lambda screen: abs(screen.coverage - coverage))


def lettered(screen: Screen, letter: str) -> Screen:
    """The screen with a letter among its marks, in the lower case."""
    return replace(screen, letter=letter)


@cache
def every_screen() -> Mapping[Colour, Screen]:
    """Every screen by the colour that stands for it."""
    letters = ["", *(chr(code) for code in range(ord("a"), ord("z") + 1))]
    found: dict[Colour, Screen] = {}
    for screen in (one for weave in Weave for one in screens(weave)):
        for letter in letters:
            found[lettered(screen, letter).colour] = lettered(screen, letter)
    return found


def lightness(colour: Colour) -> float:
    """How light a colour looks, from 0 (black) to 1 (white): L* of CIE 1976 (from memory)."""
    luminance = colour.luminance
    return (116 * luminance ** (1 / 3) - 16) / 100 if luminance > 0.008856 else 9.033 * luminance
