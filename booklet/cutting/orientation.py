"""How a piece lies in the trimmer: which face is up, and which way it has been turned.

Front coordinates: a sheet's front seen upright, x to the right, y down, from its top left corner.  As it
lies, a piece is seen from above with the trimmer's scale along the top and the scale's zero at the left, on
some trimmers at the right.
"""

from __future__ import annotations

from booklet.kit.fields import Edge, Face, Turn
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, rect_at_origin
from booklet.measure.length import Size

_CLOCKWISE = (Edge.TOP, Edge.RIGHT, Edge.BOTTOM, Edge.LEFT)
_QUARTERS = {Turn.CLOCKWISE: 1, Turn.HALF: 2, Turn.ANTICLOCKWISE: 3}


@dataclass(frozen=True)
class Orientation:
    """The face that is up, and the clockwise quarter turns that it has been given from upright.

    With the back up, upright means turned over like the page of a book: the front's top edge stays away from
    the reader, its left edge is seen at the right.
    """

    face: Face = Face.FRONT
    quarters: int = 0

    def turned(self, turn: Turn | None) -> Orientation:
        """This orientation after a turn in the hand, seen from above."""
        return Orientation(self.face, (self.quarters + quarters_of(turn)) % 4)

    def edge_at(self, seen: Edge) -> Edge:
        """Which edge of the front lies where `seen` is, as the piece lies."""
        position = (_CLOCKWISE.index(seen) - self.quarters) % 4
        if self.face is Face.BACK:
            position = -position % 4
        return _CLOCKWISE[position]

    def seen_at(self, edge: Edge) -> Edge:
        """Where an edge of the front lies, as the piece lies: the inverse of `edge_at`."""
        position = _CLOCKWISE.index(edge)
        if self.face is Face.BACK:
            position = -position
        return _CLOCKWISE[(position + self.quarters) % 4]

    def seen_size(self, size: Size) -> Size:
        """The size as it lies: along the scale by away from it."""
        return size.turned if self.quarters % 2 else size


def quarters_of(turn: Turn | None) -> int:
    """Clockwise quarter turns, 0 to 3."""
    return _QUARTERS[turn] if turn else 0


def lay(face: Face, edge: Edge, place: Edge) -> Orientation:
    """The orientation in which `face` is up and the front's `edge` lies at this place, as it is seen."""
    candidates = (Orientation(face, quarters) for quarters in range(4))
    return next(lying for lying in candidates if lying.edge_at(place) is edge)


def beyond(rect: ExactRect, page: ExactRect) -> dict[Edge, Fraction]:
    """How far a rectangle goes beyond each edge of the page; below 0, how far within it ends."""
    return {
        Edge.TOP: page.y - rect.y,
        Edge.RIGHT: rect.right - page.right,
        Edge.BOTTOM: rect.bottom - page.bottom,
        Edge.LEFT: page.x - rect.x,
    }


def has_edge(part: ExactRect, edge: Edge, whole: Size) -> bool:
    """Whether a part of a front of this size lies at that edge of it."""
    return beyond(part, rect_at_origin(whole))[edge] == 0


def part_seen(part: ExactRect, within: ExactRect, lying: Orientation) -> ExactRect:
    """Where a part of the front lies on a larger part of it that lies so, as that is seen.

    With the back up, that is where it lies underneath.
    """
    past, size = beyond(part, within), lying.seen_size(part.size)
    x, y = -past[lying.edge_at(Edge.LEFT)], -past[lying.edge_at(Edge.TOP)]
    return ExactRect(x, y, size.width, size.height)


def strip(part: ExactRect, lying: Orientation, start: Fraction, end: Fraction, zero: Edge) -> ExactRect:
    """The part of the front between two readings, of a piece that is `part` of the front and lies so.

    Readings count from the piece's edge at `zero`, the left or the right one as it is seen.
    """
    width = end - start
    match lying.edge_at(zero):
        case Edge.LEFT:
            return ExactRect(part.x + start, part.y, width, part.height)
        case Edge.RIGHT:
            return ExactRect(part.right - end, part.y, width, part.height)
        case Edge.TOP:
            return ExactRect(part.x, part.y + start, part.width, width)
        case Edge.BOTTOM:
            return ExactRect(part.x, part.bottom - end, part.width, width)
