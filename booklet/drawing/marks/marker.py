"""Marks that tie a drawing to its words: numbered discs, chips for pieces and pockets, tick boxes."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.drawing.shapes.affine import Box, Point
from booklet.drawing.shapes.figure import (
    Anchor,
    Circle,
    Colour,
    Fill,
    Group,
    Path,
    Rect,
    Shape,
    Stroke,
    Text,
)
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.outlines import KAPPA, Outline
from booklet.drawing.shapes.style import DrawingStyle


@dataclass(frozen=True)
class Chip:
    """A drawn chip and the upright box that it covers."""

    shapes: tuple[Shape, ...]
    box: Box


def cut_marker(x: float, y: float, number: str, style: DrawingStyle) -> Group:
    """A filled disc about (x, y) with a white numeral: the number of a cut or of a step beside the text."""
    disc = Circle(x, y, style.disc_radius, Fill(style.palette.accent))
    return Group((disc, _numeral(x, y, number, style, style.palette.paper)), tag="cut marker")


def placing_marker(x: float, y: float, number: str, style: DrawingStyle) -> Group:
    """An open disc about (x, y) with a numeral in the accent, to lie on any picture: where a piece goes.

    A ring of paper white keeps it clear of what lies around.
    """
    palette = style.palette
    ring = Circle(x, y, style.disc_radius + 1.3, Fill(palette.paper))
    line = Stroke(palette.accent, style.outline_width)
    disc = Circle(x, y, style.disc_radius - style.outline_width / 2, Fill(palette.paper), line)
    return Group((ring, disc, _numeral(x, y, number, style, palette.accent)), tag="placing marker")


def marker_radius(style: DrawingStyle) -> float:
    """How far any numbered disc reaches from its middle, in points."""
    return style.disc_radius + 1.3


def _numeral(x: float, y: float, number: str, style: DrawingStyle, colour: Colour) -> Text:
    # A long number shrinks to the chord that the disc offers at the numeral's height.
    size = style.disc_text_size
    room = 1.6 * style.disc_radius
    size = min(size, size * room / text_width(number, Font.SANS_BOLD, size))
    baseline = y + cap_height(Font.SANS_BOLD, size) / 2
    return Text(number, x, baseline, size, Font.SANS_BOLD, colour, Anchor.MIDDLE, role="marker")


_CHIP_SIDE = 6.0
_CHIP_TOP = 4.2
_CHIP_LINE = 4.4
_CHIP_RADIUS = 3.0


def chip_size(label: str, note: str, style: DrawingStyle) -> tuple[float, float]:
    """Width and height of a piece's chip, in points; `note` may be empty, or several lines."""
    width = text_width(label, Font.SANS_BOLD, style.label_size)
    height = cap_height(Font.SANS_BOLD, style.label_size) + 2 * _CHIP_TOP
    for line in note.splitlines():
        width = max(width, text_width(line, Font.SANS, style.note_size))
        height += cap_height(Font.SANS, style.note_size) + _CHIP_LINE
    return max(width + 2 * _CHIP_SIDE, height), height


def piece_chip(centre: Point, label: str, note: str, style: DrawingStyle) -> Chip:
    """A white label box about `centre`: the piece's label in bold and below it a note, such as its pocket.

    A note of several lines stands line under line.
    """
    x, y = centre
    width, height = chip_size(label, note, style)
    palette = style.palette
    baseline = y - height / 2 + _CHIP_TOP + cap_height(Font.SANS_BOLD, style.label_size)
    shapes: tuple[Shape, ...] = (
        Rect(x - width / 2, y - height / 2, width, height, Fill(palette.paper), radius=_CHIP_RADIUS),
        Text(label, x, baseline, style.label_size, Font.SANS_BOLD, palette.ink, Anchor.MIDDLE, role="piece"),
    )
    below = y + height / 2 - _CHIP_TOP
    for line in reversed(note.splitlines()):
        text = Text(line, x, below, style.note_size, Font.SANS, palette.accent, Anchor.MIDDLE, role="pocket")
        shapes = (*shapes, text)
        below -= cap_height(Font.SANS, style.note_size) + _CHIP_LINE
    box = Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
    return Chip((Group(shapes, tag="chip"),), box)


def pocket_chip(x: float, y: float, number: str, style: DrawingStyle) -> Chip:
    """A sorter's pocket with its number, its top left corner at (x, y): open above, rounded below."""
    palette = style.palette
    size = style.disc_text_size
    width = max(18.0, text_width(number, Font.SANS_BOLD, size) + 10)
    height = size * 1.45
    outline = pocket_outline(x, y, width, height)
    baseline = y + (height + cap_height(Font.SANS_BOLD, size)) / 2 - 0.5
    shapes: tuple[Shape, ...] = (
        Path(outline, Fill(palette.accent_tint), Stroke(palette.accent, style.dimension_width * 1.4)),
        Text(
            number,
            x + width / 2,
            baseline,
            size,
            Font.SANS_BOLD,
            palette.accent,
            Anchor.MIDDLE,
            role="pocket",
        ),
    )
    return Chip((Group(shapes, tag="pocket"),), Box(x, y, x + width, y + height))


def pocket_outline(x: float, y: float, width: float, height: float, radius: float = 5.0) -> Outline:
    """A pocket's outline, its top left corner at (x, y): its mouth dips, its foot is rounded."""
    right, bottom = x + width, y + height
    handle = radius * (1 - KAPPA)
    dip = 2.2
    return (
        ("M", x, y),
        ("L", x, bottom - radius),
        ("C", x, bottom - handle, x + handle, bottom, x + radius, bottom),
        ("L", right - radius, bottom),
        ("C", right - handle, bottom, right, bottom - handle, right, bottom - radius),
        ("L", right, y),
        # The mouth closes the outline.
        ("C", right - width / 3, y + dip, x + width / 3, y + dip, x, y),
    )


def tick_box(x: float, y: float, size: float, style: DrawingStyle) -> Rect:
    """An empty square to tick, its top left corner at (x, y)."""
    line = Stroke(style.palette.soft_ink, style.dimension_width)
    return Rect(x, y, size, size, Fill(style.palette.paper), line, radius=1.2)
