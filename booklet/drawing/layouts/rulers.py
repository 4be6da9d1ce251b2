"""Rulers along the edges of a drawn page, and flags outside it: the steps that need a value, and the value.

Everything along an edge is worked out as `s`, along it, and `d`, outwards from it, in points.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil

from booklet.drawing.marks.leaders import Seat, Seating, seat
from booklet.drawing.marks.placement import Callout, spread
from booklet.drawing.marks.ring import ring_in_text, small_ring_radius
from booklet.drawing.shapes.affine import Box, Point, bounds_of_boxes
from booklet.drawing.shapes.figure import (
    Circle,
    Dimension,
    Fill,
    Group,
    Line,
    Path,
    Polygon,
    Polyline,
    Segment,
    Shape,
    Stroke,
    Text,
)
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Edge
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit

FLAG_TAG = "flag"
# The marks of a ruler: how far from the page they begin, and how long those of units and of halves are.
_OFF, _UNIT, _HALF = 1.2, 4.6, 2.8
RULER_DEPTH = _OFF + _UNIT
# Where the arrows lie that end at a flag's value, and their head.
_ARROWS, _HEAD, _HALF_HEAD = 8.0, 4.2, 1.5
_ORIGIN = 1.5
# Between the arrows and the flags: deeper where a leader has far to go sideways.
_CORRIDOR, _SLOPE, _DEEPEST, _GAP = 5.0, 0.3, 13.0, 3.0
_RING_GAP, _TEXT_GAP, _LINE_GAP = 1.0, 2.6, 1.0
# On the left and right so many rings stand side by side.
_BESIDE = 2
_LEAST_MARKS = 2.6
_MARKS = (1, 2, 5, 10, 20, 50, 100)


@dataclass(frozen=True)
class RulerFlag:
    """A value on the ruler along an edge of the page, counted from one of its ends, and the steps it serves.

    `value` is in the kit's unit, `text` the same as it is printed.
    """

    along: Edge
    start: Edge
    value: Fraction
    text: str
    steps: tuple[int, ...]


@dataclass(frozen=True)
class _Side:
    """An edge of a page of points: from `low` to `high` along it, and where that lies on the figure."""

    edge: Edge
    page: Box

    @property
    def is_upright(self) -> bool:
        return self.edge in (Edge.LEFT, Edge.RIGHT)

    @property
    def low(self) -> float:
        return self.page.top if self.is_upright else self.page.left

    @property
    def high(self) -> float:
        return self.page.bottom if self.is_upright else self.page.right

    def point(self, s: float, d: float) -> Point:
        page = self.page
        return {
            Edge.TOP: (s, page.top - d),
            Edge.BOTTOM: (s, page.bottom + d),
            Edge.LEFT: (page.left - d, s),
            Edge.RIGHT: (page.right + d, s),
        }[self.edge]

    def counts_up(self, start: Edge) -> bool:
        """Whether values are counted from the left or the top end."""
        return start in (Edge.LEFT, Edge.TOP)


@dataclass(frozen=True)
class _Label:
    """A flag's rings and value, in lines of rings; the value follows the first line."""

    flag: RulerFlag
    lines: tuple[tuple[int, ...], ...]
    width: float
    height: float


@dataclass(frozen=True)
class Rulers:
    """Rulers and flags about a page: their shapes, the box about all, and the places that flags point to."""

    shapes: tuple[Shape, ...]
    box: Box
    places: tuple[Point, ...]


def rulers(page: Box, flags: Sequence[RulerFlag], unit: Unit, scale: Scale, style: DrawingStyle) -> Rulers:
    """A ruler along each edge of a page, those that bear flags darker, and the flags outside it."""
    sides = {edge: _Side(edge, page) for edge in Edge}
    shapes: list[Shape] = []
    boxes = [page.grown(RULER_DEPTH)]
    places: list[Point] = []
    room = page
    # Upright sides first: flags above and below the page may reach as far out as theirs do.
    for edge in (Edge.LEFT, Edge.RIGHT, Edge.TOP, Edge.BOTTOM):
        own = [flag for flag in flags if flag.along is edge]
        side = sides[edge]
        shapes.append(_marks(side, unit, scale, bool(own), style))
        if not own:
            continue
        for start in dict.fromkeys(flag.start for flag in own):
            ends = [_place(side, flag, unit, scale) for flag in own if flag.start is start]
            shapes += _running(side, start, ends, style)
        made, box = _flags(side, own, room, unit, scale, style)
        shapes += made
        boxes.append(box)
        room = bounds_of_boxes((room, box)) if side.is_upright else room
        places += [side.point(_place(side, flag, unit, scale), 0.0) for flag in own]
    return Rulers(tuple(shapes), bounds_of_boxes(boxes), tuple(places))


def _place(side: _Side, flag: RulerFlag, unit: Unit, scale: Scale) -> float:
    """Where along its edge a flag's value lies."""
    length = scale.points(flag.value, unit)
    return side.low + length if side.counts_up(flag.start) else side.high - length


# The ruler.


def _marks(side: _Side, unit: Unit, scale: Scale, flagged: bool, style: DrawingStyle) -> Path:
    """A mark at every unit and half, counted from the top left; wider apart where they would merge."""
    whole = Fraction(10) if unit is Unit.MILLIMETRE else Fraction(1)
    half = scale.points(whole / 2, unit)
    every = next((times for times in _MARKS if times * half >= _LEAST_MARKS), _MARKS[-1])
    segments: list[Segment] = []
    count = ceil((side.high - side.low) / (half * every) - 1e-6)
    for number in range(count + 1):
        s = min(side.low + number * every * half, side.high)
        long = number % 2 == 0 or number == count
        start, end = side.point(s, _OFF), side.point(s, _OFF + (_UNIT if long else _HALF))
        segments += [("M", *start), ("L", *end)]
    colour = style.palette.ink if flagged else style.palette.rule
    return Path(tuple(segments), stroke=Stroke(colour, style.fine_width))


def _running(side: _Side, start: Edge, ends: Sequence[float], style: DrawingStyle) -> Iterator[Shape]:
    """A line from the end from which values are counted to the farthest, its origin ringed (ISO 129-1)."""
    origin, far = (side.low, max(ends)) if side.counts_up(start) else (side.high, min(ends))
    way = 1.0 if far > origin else -1.0
    if abs(far - origin) > _ORIGIN:
        yield Line(side.point(origin + way * _ORIGIN, _ARROWS), side.point(far, _ARROWS), style.fine)
    yield Circle(*side.point(origin, _ARROWS), _ORIGIN, Fill(style.palette.paper), style.fine)


def _head(side: _Side, tip: float, way: float, length: float, style: DrawingStyle) -> Polygon:
    back = tip - way * length
    corners = ((tip, _ARROWS), (back, _ARROWS - _HALF_HEAD), (back, _ARROWS + _HALF_HEAD))
    return Polygon(tuple(side.point(s, d) for s, d in corners), Fill(style.palette.ink))


# The flags.


def _flags(
    side: _Side, flags: Sequence[RulerFlag], room: Box, unit: Unit, scale: Scale, style: DrawingStyle
) -> tuple[list[Shape], Box]:
    """The flags of one side in order along it, each on a leader from its place; and the box about them."""
    placed = sorted(
        ((_place(side, flag, unit, scale), _label(side, flag, style)) for flag in flags),
        key=lambda one: one[0],
    )
    callouts = [_callout(side, s, label) for s, label in placed]
    seats = _seats(callouts, _seating(side, [label for _, label in placed], room))
    shapes: list[Shape] = []
    boxes: list[Box] = []
    for (s, label), one in zip(placed, seats, strict=True):
        box = _label_box(side, label, one)
        boxes.append(box)
        parts = (*_leader(side, s, label.flag, one, unit, scale, style), *_written(label, box, style))
        origin = side.low if side.counts_up(label.flag.start) else side.high
        record = Dimension(side.point(origin, 0.0), side.point(s, 0.0), label.flag.text)
        shapes.append(Group(parts, tag=FLAG_TAG, dimension=record))
    return shapes, bounds_of_boxes((*boxes, Box(*side.point(side.low, 0), *side.point(side.low, 0))))


def _label(side: _Side, flag: RulerFlag, style: DrawingStyle) -> _Label:
    in_line = _BESIDE if side.is_upright else max(1, len(flag.steps))
    lines = tuple(flag.steps[at : at + in_line] for at in range(0, max(1, len(flag.steps)), in_line))
    ring = 2 * small_ring_radius(style)
    rings = [len(line) * (ring + _RING_GAP) for line in lines]
    width = max(rings[0] + _TEXT_GAP + text_width(flag.text, Font.SANS, style.dimension_size), *rings)
    return _Label(flag, lines, width, len(lines) * (ring + _LINE_GAP))


def _callout(side: _Side, s: float, label: _Label) -> Callout:
    half = (label.height if side.is_upright else label.width) / 2
    return Callout(s, half, half)


def _seating(side: _Side, labels: Sequence[_Label], room: Box) -> Seating:
    deep = max(label.width if side.is_upright else label.height for label in labels)
    low, high = (room.top, room.bottom) if side.is_upright else (room.left, room.right)
    gap = 1.0 if side.is_upright else 2 * _GAP
    return Seating(_ARROWS, deep, _CORRIDOR, gap, low, high)


def _seats(callouts: Sequence[Callout], seating: Seating) -> tuple[Seat, ...]:
    """All in one row where that has room for them, however far they move along it; else in several."""
    needed = sum(each.before + each.after for each in callouts) + (len(callouts) - 1) * seating.gap
    if needed > seating.high - seating.low:
        return seat(callouts, seating)
    places = spread(callouts, seating.gap, seating.low, seating.high)
    farthest = max(abs(place - each.at) for place, each in zip(places, callouts, strict=True))
    near = seating.start + min(max(seating.corridor, _SLOPE * farthest), _DEEPEST)
    return tuple(
        Seat(place, near, near + seating.height, _bent(each.at, place, near, seating))
        for place, each in zip(places, callouts, strict=True)
    )


def _bent(at: float, place: float, near: float, seating: Seating) -> tuple[Point, ...]:
    end = (place, near - seating.leader_gap)
    return ((at, 0.0), end) if place == at else ((at, 0.0), (at, seating.start), end)


def _label_box(side: _Side, label: _Label, one: Seat) -> Box:
    """Where a label stands: as near to the page as its row allows."""
    x, y = side.point(one.at, one.near)
    wide, high = label.width, label.height
    return {
        Edge.TOP: Box(x - wide / 2, y - high, x + wide / 2, y),
        Edge.BOTTOM: Box(x - wide / 2, y, x + wide / 2, y + high),
        Edge.LEFT: Box(x - wide, y - high / 2, x, y + high / 2),
        Edge.RIGHT: Box(x, y - high / 2, x + wide, y + high / 2),
    }[side.edge]


def _leader(
    side: _Side, s: float, flag: RulerFlag, one: Seat, unit: Unit, scale: Scale, style: DrawingStyle
) -> Iterator[Shape]:
    """From the edge of the page out to the label, and the arrow that ends at its place."""
    points = tuple(side.point(*point) for point in one.leader)
    yield Polyline(points, style.fine)
    way = 1.0 if side.counts_up(flag.start) else -1.0
    yield _head(side, s, way, min(_HEAD, max(scale.points(flag.value, unit), 1.0)), style)


def _written(label: _Label, box: Box, style: DrawingStyle) -> Iterator[Shape]:
    radius = small_ring_radius(style)
    x = box.left
    for number, line in enumerate(label.lines):
        y = box.top + (2 * radius + _LINE_GAP) * (number + 0.5)
        x = box.left
        for step in line:
            yield ring_in_text(x + radius, y, step, style)
            x += 2 * radius + _RING_GAP
        if number == 0:
            baseline = y + cap_height(Font.SANS, style.dimension_size) / 2
            yield Text(
                label.flag.text,
                x + _TEXT_GAP,
                baseline,
                style.dimension_size,
                Font.SANS,
                style.palette.ink,
                role="flag",
            )
