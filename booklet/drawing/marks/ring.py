"""The numbered ring of a step: a white disc in a line of the accent, clear of whatever it lies on."""

from __future__ import annotations

from booklet.drawing.shapes.figure import Anchor, Circle, Fill, Group, Stroke, Text
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.style import DrawingStyle

RING_TAG = "ring"
# About 7.3 pt and, in a line of text, 6.6 pt where a numbered disc has 7.6 pt.
_ON_PICTURES, _IN_TEXT = 0.96, 0.87
_NUMERAL = 1.36
_CASING = 1.0
# The share of its breadth that a numeral may take.
_CHORD = 1.56


def ring_radius(style: DrawingStyle) -> float:
    """The radius of a ring on a picture, without its white casing, in points."""
    return style.disc_radius * _ON_PICTURES


def small_ring_radius(style: DrawingStyle) -> float:
    """The radius of a ring beside a value or within a text, in points."""
    return style.disc_radius * _IN_TEXT


def ring_reach(style: DrawingStyle) -> float:
    """How far a ring on a picture reaches from its middle with its casing, in points."""
    return ring_radius(style) + _CASING


def ring_on_picture(x: float, y: float, number: int, style: DrawingStyle) -> Group:
    """A ring about (x, y) in a casing of paper white, which keeps it clear of any print."""
    casing = Circle(x, y, ring_reach(style), Fill(style.palette.paper))
    return Group((casing, *_ring(x, y, number, ring_radius(style), style)), tag=RING_TAG)


def ring_in_text(x: float, y: float, number: int, style: DrawingStyle) -> Group:
    """A small ring about (x, y), to stand on paper beside a value."""
    return Group(_ring(x, y, number, small_ring_radius(style), style), tag=RING_TAG)


def _ring(x: float, y: float, number: int, radius: float, style: DrawingStyle) -> tuple[Circle, Text]:
    width = style.dimension_width * 1.6
    palette = style.palette
    disc = Circle(x, y, radius - width / 2, Fill(palette.paper), Stroke(palette.accent, width))
    size = max(style.note_size, radius * _NUMERAL)
    written = str(number)
    size = min(size, size * _CHORD * radius / text_width(written, Font.SANS_BOLD, size))
    baseline = y + cap_height(Font.SANS_BOLD, size) / 2
    return disc, Text(written, x, baseline, size, Font.SANS_BOLD, palette.ink, Anchor.MIDDLE, role="marker")
