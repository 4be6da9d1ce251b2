"""What hands do, drawn with a pen: the trimmer with a sheet in it, and a turn.

What is measured is ruled; what a hand does is drawn with `pen_line`.  No line is finer than 0.5 pt.  A figure
here says nothing in words and states no scale: it shows how, never how much.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import copysign, cos, degrees, radians, sin, tan

from booklet.drawing.shapes.affine import Affine, Box, Point
from booklet.drawing.shapes.figure import Figure, Fill, Group, Path, Segment, Shape
from booklet.drawing.shapes.outlines import KAPPA, Outline, outline, polygon, rectangle
from booklet.drawing.shapes.pen_line import pen_line
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Edge, Turn

# Widths of the pen's lines in points: an outline, a detail within it, what must be seen first.
_LINE, _DETAIL, _HEAVY = 1.1, 0.75, 1.7


# The trimmer.

_TRIMMER_SIDES = (86.0, 62.0)
_BASE = Box(2.0, 5.5, 84.0, 52.0)
_SCALE_LINE, _SCALE_END = 17.0, 80.0
_MARK, _MARKS, _MARK_HEIGHTS = 5.4, 13, (5.4, 3.2)
_STOP = Box(9.4, 16.0, 12.6, 49.0)
# The sheet lies at the stop under the scale; it may hang over the trimmer's near edge as a large one does.
_SHEET_ROOM = Box(12.6, 19.2, 78.0, 58.4)
_RAIL_HALF, _RAIL_TOP, _RAIL_FOOT = 3.0, 1.2, 60.8
_CARRIAGE = (9.4, 13.5)
_CARRIAGE_AT = 33.0
_MIRROR = Affine(-1.0, 0.0, 0.0, 1.0, _TRIMMER_SIDES[0], 0.0)
# The rail is drawn this far from the stop at least, since it would hide it.
_RAIL_FREE = 4.4


def sheet_in_trimmer(seen: float, stop: Edge) -> Box:
    """Where the sheet lies in `trimmer_picture`; `seen` is its width over its height as it lies.

    What it shows is the caller's: scaled into this box.
    """
    sheet = _sheet_at_left(seen)
    return sheet if stop is Edge.LEFT else sheet.under(_MIRROR)


def _sheet_at_left(seen: float) -> Box:
    room = _SHEET_ROOM
    height = min(room.height, room.width / seen)
    return Box(room.left, room.top, room.left + height * seen, room.top + height)


def trimmer_picture(
    paper: Sequence[Shape], seen: float, blade: float, stop: Edge, style: DrawingStyle
) -> Figure:
    """A small trimmer seen from above, 86 x 62 pt: scale, stop, a sheet at the stop, rail and blade carriage.

    The stop is at the left or the right; one at the right is drawn as the mirror image.  `paper` is what the
    sheet shows, in the box that `sheet_in_trimmer` gives; `blade` is how far from the stop the blade stands,
    as a share of the sheet's width.  The rail is kept clear of the stop, whatever the share.
    """
    sheet = _sheet_at_left(seen)
    rail = _rail(max(sheet.left + _RAIL_FREE, sheet.left + blade * sheet.width), style)
    under, over = tuple(_base(style)), (pen_line(_box(sheet), _LINE, style.palette.ink), *rail)
    if stop is Edge.RIGHT:
        under, over = (Group(under, _MIRROR),), (Group(over, _MIRROR),)
    shown = Group(tuple(paper), clip=sheet_in_trimmer(seen, stop).corners)
    return Figure("trimmer", *_TRIMMER_SIDES, (*under, shown, *over))


def _base(style: DrawingStyle) -> Iterator[Shape]:
    ink, paper = style.palette.ink, Fill(style.palette.paper)
    body = _rounded(_BASE, 2.6)
    yield Path(body, paper)
    yield pen_line(body, _LINE, ink)
    yield pen_line(outline(f"M {_STOP.left} {_SCALE_LINE} L {_SCALE_END} {_SCALE_LINE}"), _DETAIL, ink)
    marks = [
        outline(f"M {x:.3f} {_SCALE_LINE} L {x:.3f} {_SCALE_LINE - _MARK_HEIGHTS[number % 2]}")
        for number in range(_MARKS)
        for x in [_STOP.right + number * _MARK]
    ]
    yield pen_line(tuple(part for mark in marks for part in mark), _DETAIL, ink)
    yield Path(_rounded(_STOP, 0.5), Fill(ink))


def _rail(x: float, style: DrawingStyle) -> Iterator[Shape]:
    ink, paper = style.palette.ink, Fill(style.palette.paper)
    rail = Box(x - _RAIL_HALF, _RAIL_TOP, x + _RAIL_HALF, _RAIL_FOOT)
    yield Path(_rounded(rail, 1.6), paper)
    yield pen_line(_rounded(rail, 1.6), _LINE, ink)
    width, height = _CARRIAGE
    carriage = Box(x - width / 2, _CARRIAGE_AT, x + width / 2, _CARRIAGE_AT + height)
    yield Path(_rounded(carriage, 2.4), Fill(style.palette.accent))
    yield pen_line(_rounded(carriage, 2.4), _LINE, ink)
    grips = (f"M {x - 2.2} {carriage.top + at} L {x + 2.2} {carriage.top + at}" for at in (4.6, 6.8, 9.0))
    yield pen_line(outline(" ".join(grips)), _DETAIL, style.palette.paper)


def _box(box: Box) -> Outline:
    return rectangle(box.left, box.top, box.width, box.height)


def _rounded(box: Box, radius: float) -> Outline:
    """A rectangle with round corners, clockwise from its top left."""
    (left, top, right, bottom), near = box, radius * (1 - KAPPA)
    return (
        ("M", left + radius, top),
        ("L", right - radius, top),
        ("C", right - near, top, right, top + near, right, top + radius),
        ("L", right, bottom - radius),
        ("C", right, bottom - near, right - near, bottom, right - radius, bottom),
        ("L", left + radius, bottom),
        ("C", left + near, bottom, left, bottom - near, left, bottom - radius),
        ("L", left, top + radius),
        ("C", left, top + near, left + near, top, left + radius, top),
        ("Z",),
    )


# A turn.

_SIGN = 22.0
_ARC_RADIUS = 8.9
_HEAD = 5.4
_TURNED, _BAND = 9.6, 2.6
# By how many degrees each turn leads round, clockwise as seen.
_SWEEPS = {Turn.CLOCKWISE: 90.0, Turn.ANTICLOCKWISE: -90.0, Turn.HALF: 180.0}


def turn_arrow(turn: Turn, style: DrawingStyle) -> Figure:
    """A turn of a piece in the hand, 22 x 22 pt: an arrow from its top edge to where that edge comes to lie.

    The piece in the middle is drawn before the turn, with a band along its top edge; the arrow goes the way
    that the hand goes, a quarter or half round.
    """
    sweep = _SWEEPS[turn]
    middle, half = _SIGN / 2, _TURNED / 2
    ink, paper = style.palette.ink, style.palette.paper
    piece = Box(middle - half, middle - half, middle + half, middle + half)
    band = Box(piece.left, piece.top, piece.right, piece.top + _BAND)
    head = copysign(degrees(_HEAD / _ARC_RADIUS), sweep)
    shapes = (
        Path(_box(piece), Fill(paper)),
        Path(_box(band), Fill(style.palette.accent)),
        pen_line(_box(piece), _DETAIL, ink),
        pen_line(_arc(middle, 0.0, sweep - 0.7 * head), _HEAVY, ink),
        Path(_arrow_head(middle, sweep - head, sweep), Fill(ink)),
    )
    return Figure(f"turn {turn.value}", _SIGN, _SIGN, shapes)


def _arc(middle: float, start: float, end: float) -> Outline:
    """Part of a circle, from and to degrees clockwise from the top."""
    parts = max(1, round(abs(end - start) / 45))
    step = (end - start) / parts
    handle = 4 / 3 * _ARC_RADIUS * tan(radians(step) / 4)
    made: list[Segment] = [("M", *_on_circle(middle, start))]
    for part in range(parts):
        here, there = start + part * step, start + (part + 1) * step
        (x, y), (end_x, end_y) = _on_circle(middle, here), _on_circle(middle, there)
        ax, ay, bx, by = cos(radians(here)), sin(radians(here)), cos(radians(there)), sin(radians(there))
        made.append(
            ("C", x + handle * ax, y + handle * ay, end_x - handle * bx, end_y - handle * by, end_x, end_y)
        )
    return tuple(made)


def _on_circle(middle: float, angle: float, radius: float = _ARC_RADIUS) -> Point:
    return middle + radius * sin(radians(angle)), middle - radius * cos(radians(angle))


def _arrow_head(middle: float, base: float, tip: float) -> Outline:
    wide = 0.36 * _HEAD
    return polygon(
        (
            _on_circle(middle, tip),
            _on_circle(middle, base, _ARC_RADIUS + wide),
            _on_circle(middle, base, _ARC_RADIUS - wide),
        )
    )
