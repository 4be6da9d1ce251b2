"""Marks that tie a drawing to its words: the numbered disc of a cut, the pocket of a sorter."""

from __future__ import annotations

from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import (
    Anchor,
    Circle,
    Colour,
    Fill,
    Group,
    Path,
    Shape,
    Stroke,
    Text,
)
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.outlines import KAPPA, Outline
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.dataclass import dataclass

# How high a pocket is, to the size of its name.
POCKET_HEIGHT = 1.45
# How much wider than its name, in points.
POCKET_SIDES = 10.0


@dataclass(frozen=True)
class Chip:
    """A drawn chip and the upright box that it covers."""

    shapes: tuple[Shape, ...]
    box: Box


def cut_marker(x: float, y: float, number: str, style: DrawingStyle) -> Group:
    """A black disc about (x, y) with a white numeral: the number of a cut.

    A printer of black makes dots of a colour, and the edge of a numeral is lost among them.
    """
    disc = Circle(x, y, style.disc_radius, Fill(style.palette.ink))
    return Group((disc, _numeral(x, y, number, style, style.palette.paper)), tag="cut marker")


def _numeral(x: float, y: float, number: str, style: DrawingStyle, colour: Colour) -> Text:
    # A long number shrinks to the chord that the disc offers at the numeral's height.
    size = style.disc_text_size
    room = 1.6 * style.disc_radius
    size = min(size, size * room / text_width(number, Font.SANS_BOLD, size))
    baseline = y + cap_height(Font.SANS_BOLD, size) / 2
    return Text(number, x, baseline, size, Font.SANS_BOLD, colour, Anchor.MIDDLE, role="marker")


def pocket_chip(x: float, y: float, name: str, style: DrawingStyle) -> Chip:
    """A sorter's pocket with its name, its top left corner at (x, y): open above, rounded below."""
    palette = style.palette
    size = style.disc_text_size
    width = max(18.0, text_width(name, Font.SANS_BOLD, size) + POCKET_SIDES)
    height = size * POCKET_HEIGHT
    outline = pocket_outline(x, y, width, height)
    baseline = y + (height + cap_height(Font.SANS_BOLD, size)) / 2 - 0.5
    shapes: tuple[Shape, ...] = (
        Path(outline, Fill(palette.accent_tint), Stroke(palette.accent, style.dimension_width * 1.4)),
        Text(
            name,
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
