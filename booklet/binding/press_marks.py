"""What stands outside the trim of a press file, as operators of a PDF: marks, colour bar, slug line.

All of it lies in one strip about the bleed: a gap, the marks, and white to the edge of the sheet.  The states
of overprinting that it names, `PRESS_STATES`, belong into the resources of its page.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from booklet.binding.numbers import number
from booklet.binding.sides import Box, ImposedSide, Line
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit

_MM = Unit.MILLIMETRE.points
# From the bleed to the marks, how long they are, and the white beyond them (common practice, no source).
_GAP, _LENGTH, _WHITE = _MM, 5 * _MM, 2 * _MM
# How far the file reaches beyond the bleed so that all of it is on the sheet.
MARGIN = _GAP + _LENGTH + _WHITE
_HAIRLINE = Fraction(1, 4)
_DASHES = "[3 2] 0 d"
# The slug line begins so far from the corner mark and leaves so much before the next mark.
_SLUG_FROM, _SLUG_CLEAR = 3 * _MM, 5 * _MM
_PATCH = 5 * _MM
# Where marks of register stand along head and foot, in shares of the width; the fold is in the middle.
_REGISTER_AT = Fraction(3, 4)
SLUG_NAME = "/Slug"
# What black and what all else is set in: ISO 32000-1, table 58 (from memory).
PRESS_STATES = {"/MarksOver": True, "/MarksOut": False}
_OVER, _OUT = PRESS_STATES

Inks4 = tuple[Fraction, Fraction, Fraction, Fraction]


def _inks(*percents: int) -> Inks4:
    cyan, magenta, yellow, black = (Fraction(percent, 100) for percent in percents)
    return cyan, magenta, yellow, black


_BLACK = _inks(0, 0, 0, 100)
_COLOURS = (_inks(100, 0, 0, 0), _inks(0, 100, 0, 0), _inks(0, 0, 100, 0))
# Solids, half tones, solids on one another, and the grey of three inks (ISO 12647-2, from memory).
_PATCHES = (
    _BLACK,
    *_COLOURS,
    _inks(0, 0, 0, 50),
    _inks(50, 0, 0, 0),
    _inks(0, 50, 0, 0),
    _inks(0, 0, 50, 0),
    _inks(0, 100, 100, 0),
    _inks(100, 0, 100, 0),
    _inks(100, 100, 0, 0),
    _inks(50, 40, 40, 0),
)


@dataclass(frozen=True)
class SlugPlace:
    """Where the slug line of a side begins, and how long it may be, in points."""

    left: Fraction
    bottom: Fraction
    room: Fraction


def press_marks(side: ImposedSide, slug_height: Fraction) -> Iterator[str]:
    """Trim, fold and register marks, and the slug line."""
    yield f"q {_OVER} gs 0 0 0 1 K {number(_HAIRLINE)} w"
    yield from map(_drawn, _trim_marks(side))
    yield "Q"
    yield from _fold_marks(side)
    for x, y in _register_places(side):
        yield from _register_mark(x, y)
    place = slug_place(side, slug_height)
    yield f"q 1 0 0 1 {number(place.left)} {number(place.bottom)} cm {SLUG_NAME} Do Q"


def slug_place(side: ImposedSide, height: Fraction) -> SlugPlace:
    """The foot of a side from its left corner to the first mark: the fold's, or one of register."""
    left = side.trim.left + _SLUG_FROM
    ends = [fold.x0 for fold in side.folds if fold.is_upright] or [_along(side, _REGISTER_AT)]
    return SlugPlace(left, side.bleed.bottom - _GAP - height, min(ends) - _SLUG_CLEAR - left)


def _along(side: ImposedSide, share: Fraction) -> Fraction:
    return side.trim.left + side.trim.size.width * share


def _drawn(line: Line) -> str:
    return f"{number(line.x0)} {number(line.y0)} m {number(line.x1)} {number(line.y1)} l S"


def _trim_marks(side: ImposedSide) -> Iterator[Line]:
    """Two at each corner of what is kept, in line with its edges and clear of the bleed."""
    trim, near, far = side.trim, side.bleed.grown(_GAP), side.bleed.grown(_GAP + _LENGTH)
    for x in (trim.left, trim.right):
        yield Line(x, far.bottom, x, near.bottom)
        yield Line(x, near.top, x, far.top)
    for y in (trim.bottom, trim.top):
        yield Line(far.left, y, near.left, y)
        yield Line(near.right, y, far.right, y)


def _fold_marks(side: ImposedSide) -> Iterator[str]:
    """Dashed lines at head and foot where the sheet is folded."""
    near, far = side.bleed.grown(_GAP), side.bleed.grown(_GAP + _LENGTH)
    yield f"q {_OVER} gs 0 0 0 1 K {number(_HAIRLINE)} w {_DASHES}"
    for fold in side.folds:
        if fold.is_upright:
            yield _drawn(Line(fold.x0, near.bottom, fold.x0, far.bottom))
            yield _drawn(Line(fold.x0, near.top, fold.x0, far.top))
        else:
            yield _drawn(Line(near.left, fold.y0, far.left, fold.y0))
            yield _drawn(Line(near.right, fold.y0, far.right, fold.y0))
    yield "Q"


def _register_places(side: ImposedSide) -> Iterator[tuple[Fraction, Fraction]]:
    """The middles of four marks: one on each side, in the strip of marks."""
    bleed, out = side.bleed, _GAP + _LENGTH / 2
    x, y = _along(side, _REGISTER_AT), (side.trim.bottom + side.trim.top) / 2
    yield x, bleed.bottom - out
    yield x, bleed.top + out
    yield bleed.left - out, y
    yield bleed.right + out, y


def _register_mark(x: Fraction, y: Fraction) -> Iterator[str]:
    """A cross on which each colour meets black in a third of each arm of its own.

    All four inks in one place, as in a mark of four solid plates, would pass any limit of ink; two do not.
    Where a plate has slipped, its colour shows beside the black.
    """
    arm = _LENGTH / 2
    yield f"q {number(_HAIRLINE)} w"
    for at, inks in enumerate(_COLOURS):
        start, end = arm * at / 3, arm * (at + 1) / 3
        yield f"{_OUT} gs {_said(inks)} K"
        for sign in (-1, 1):
            yield _drawn(Line(x + sign * start, y, x + sign * end, y))
            yield _drawn(Line(x, y + sign * start, x, y + sign * end))
    yield f"{_OVER} gs {_said(_BLACK)} K"
    yield _drawn(Line(x - arm, y, x + arm, y))
    yield _drawn(Line(x, y - arm, x, y + arm))
    yield "Q"


def colour_bar(side: ImposedSide, most: Fraction) -> Iterator[str]:
    """Patches at the head of the left half, by which inks are measured on the press.

    Left out are those that have more of cyan, magenta and yellow than `most`, which is 1 for a solid ink.
    """
    shown = [inks for inks in _PATCHES if sum(inks[:3]) <= most]
    middle = _along(side, Fraction(1, 4))
    left = max(side.trim.left + _SLUG_FROM, middle - _PATCH * len(shown) / 2)
    bottom, end = side.bleed.top + _GAP, _along(side, Fraction(1, 2)) - _SLUG_CLEAR
    for at, inks in enumerate(shown):
        x = left + _PATCH * at
        if x + _PATCH > end:
            return
        state = _OVER if inks == _BLACK else _OUT
        box = Box(x, bottom, x + _PATCH, bottom + _LENGTH)
        yield f"q {state} gs {_said(inks)} k {_rectangle(box)} f Q"


def _rectangle(box: Box) -> str:
    return f"{_said((box.left, box.bottom, box.size.width, box.size.height))} re"


def _said(values: Iterable[Fraction]) -> str:
    return " ".join(map(number, values))
