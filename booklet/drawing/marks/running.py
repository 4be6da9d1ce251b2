"""Running dimensions: one line along an edge of a page, its origin ringed, an arrow at every distance.

ISO 129-1 knows them as superimposed running dimensions: an origin, an arrow at each end, the value at its
arrow.  They suit a hand with a ruler, which is laid once and read several times.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.drawing.marks.dimension import Side
from booklet.drawing.marks.leaders import Seating, seat
from booklet.drawing.marks.placement import Callout
from booklet.drawing.shapes.affine import Box, Point
from booklet.drawing.shapes.figure import (
    Anchor,
    Circle,
    Dimension,
    Fill,
    Group,
    Line,
    Polygon,
    Polyline,
    Shape,
    Text,
)
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.style import DrawingStyle

_OFFSET = 9.0
_ORIGIN = 1.7
# How far extension lines pass the line; arrowheads are this share of those of a dimension that stands alone.
_OVERSHOOT = 3.0
_ARROW = 0.8
_CORRIDOR = 5.0
_GAP = 4.0


@dataclass(frozen=True)
class Stop:
    """A distance from the origin: where it ends along the line, in points, and what is printed."""

    at: float
    label: str


def running_line(
    side: Side, page: Box, from_start: bool, stops: Sequence[Stop], style: DrawingStyle
) -> tuple[Shape, ...]:
    """The line outside `side` of a page, measured from its left or top end, or else from the other.

    Each value stands beyond the line at its tick, on a leader where neighbours come close.
    """
    line = _Line(side, page)
    upright = side in (Side.LEFT, Side.RIGHT)
    low, high = (page.top, page.bottom) if upright else (page.left, page.right)
    origin = low if from_start else high
    ordered = sorted(stops, key=lambda stop: stop.at)
    size = style.dimension_size
    half = cap_height(Font.SANS, size) / 2 + 1
    widths = [text_width(stop.label, Font.SANS, size) for stop in ordered]
    callouts = [
        Callout(stop.at, half, half) if upright else Callout(stop.at, width / 2, width / 2)
        for stop, width in zip(ordered, widths, strict=True)
    ]
    height = max(widths) if upright else 2 * half
    seating = Seating(_OVERSHOOT, height, _CORRIDOR, _GAP if not upright else 2.0, low - 4, high + 4)
    shapes: list[Shape] = [*_axis(line, origin, ordered, style)]
    for stop, place in zip(ordered, seat(callouts, seating), strict=True):
        way = tuple(line.point(s, _OFFSET + d) for s, d in place.leader)
        leader = Polyline(way, style.narrow)
        text = _value(line, stop, place.at, _OFFSET + place.near, height, style)
        measured = Dimension(line.point(origin, _OFFSET), line.point(stop.at, _OFFSET), stop.label)
        shapes.append(Group((leader, text), tag="dimension", dimension=measured))
    return tuple(shapes)


@dataclass(frozen=True)
class _Line:
    """Turns distances along a side of a page and outwards from it into points."""

    side: Side
    page: Box

    def point(self, along: float, out: float) -> Point:
        """The point so far along the side and so far outside it."""
        match self.side:
            case Side.TOP:
                return along, self.page.top - out
            case Side.BOTTOM:
                return along, self.page.bottom + out
            case Side.LEFT:
                return self.page.left - out, along
            case Side.RIGHT:
                return self.page.right + out, along


def _axis(line: _Line, origin: float, stops: Sequence[Stop], style: DrawingStyle) -> list[Shape]:
    """The line from its origin to the farthest stop, an arrowhead at every stop."""
    backs = [_back(origin, stop.at, style) for stop in stops]
    far = max((*backs, *(stop.at for stop in stops)), key=lambda at: abs(at - origin))
    start = line.point(origin, _OFFSET)
    paper = Fill(style.palette.paper)
    shapes: list[Shape] = [
        Line(start, line.point(far, _OFFSET), style.narrow),
        Line(line.point(origin, style.extension_gap), line.point(origin, _OFFSET + _OVERSHOOT), style.narrow),
        Circle(*start, _ORIGIN, paper, style.narrow),
    ]
    for stop, back in zip(stops, backs, strict=True):
        shapes.append(_arrow(line, stop.at, back, style))
        near = line.point(stop.at, style.extension_gap)
        shapes.append(Line(near, line.point(stop.at, _OFFSET + _OVERSHOOT), style.narrow))
    return shapes


def _back(origin: float, at: float, style: DrawingStyle) -> float:
    """Where an arrowhead begins that ends at a stop: beyond it where it has no room before it."""
    length = style.arrow_length * _ARROW
    way = 1 if at > origin else -1
    return at + way * length if abs(at - origin) < length + _ORIGIN else at - way * length


def _arrow(line: _Line, at: float, back: float, style: DrawingStyle) -> Polygon:
    half = style.arrow_width * _ARROW / 2
    corners = (
        line.point(at, _OFFSET),
        line.point(back, _OFFSET - half),
        line.point(back, _OFFSET + half),
    )
    return Polygon(corners, Fill(style.palette.ink))


def _value(line: _Line, stop: Stop, at: float, near: float, height: float, style: DrawingStyle) -> Text:
    size = style.dimension_size
    drop = cap_height(Font.SANS, size) / 2
    if line.side in (Side.LEFT, Side.RIGHT):
        x, y = line.point(at, near)
        anchor = Anchor.START if line.side is Side.RIGHT else Anchor.END
    else:
        x, y = line.point(at, near + height / 2)
        anchor = Anchor.MIDDLE
    ink = style.palette.ink
    return Text(stop.label, x, y + drop, size, Font.SANS, ink, anchor, role="dimension")
