"""Rulers along the edges of a drawn page, and flags outside it: the steps that need a value, and the value.

Everything along an edge is worked out as `s`, along it, and `d`, outwards from it, in points.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from itertools import pairwise

from booklet.drawing.marks.leaders import Seat, Seating, seat
from booklet.drawing.marks.placement import Callout
from booklet.drawing.marks.ring import ring_in_text, small_ring_radius
from booklet.drawing.shapes.affine import Box, Point, bounds_of_boxes, bounds_of_points
from booklet.drawing.shapes.figure import (
    Anchor,
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
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit

FLAG_TAG = "flag"
# The marks of a ruler: how far from the page they begin, and how long those of units and of halves are.
_OFF, _UNIT, _HALF = 1.2, 4.6, 2.8
RULER_DEPTH = _OFF + _UNIT
# Where the lines lie that count from an end of the ruler, the heads of their arrows, and how far an oblique
# stroke reaches to both sides of a line whose arrows would lie on each other.
_ARROWS, _HEAD, _HALF_HEAD, _STROKE = 8.0, 4.2, 1.5, 1.9
# The ring about the end of a line that counts from there, and how far its "0" stands off the page's corner.
_ORIGIN, _ZERO = 1.8, 7.4
# Between flags that count from different ends there is so much more room than between others.
_BETWEEN_ENDS = 8.0
# How far apart the lines lie that count from either end of one ruler, where they would meet.
_LANE = 3.6
# Between the arrows and the flags, and between two flags.
_CORRIDOR, _GAP = 5.0, 6.0
_RING_GAP, _TEXT_GAP, _LINE_GAP = 1.0, 2.6, 1.0
# Above and below the page flags may stand so far past its corners.
_PAST = 10.0
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
class _Ruler:
    """The ruler along an edge of a page of points, and the flags that it bears."""

    edge: Edge
    page: Box
    flags: tuple[RulerFlag, ...]
    unit: Unit
    scale: Scale
    style: DrawingStyle

    @property
    def low(self) -> float:
        return self.page.top if self.edge.is_upright else self.page.left

    @property
    def high(self) -> float:
        return self.page.bottom if self.edge.is_upright else self.page.right

    def point(self, s: float, d: float) -> Point:
        """A point of the figure so far along the edge and so far outwards from it."""
        at, way = self._line
        return (at + way * d, s) if self.edge.is_upright else (s, at + way * d)

    @cached_property
    def _line(self) -> tuple[float, float]:
        """Where the edge lies, and which way leads outwards from it."""
        page = self.page
        return {
            Edge.TOP: (page.top, -1.0),
            Edge.BOTTOM: (page.bottom, 1.0),
            Edge.LEFT: (page.left, -1.0),
            Edge.RIGHT: (page.right, 1.0),
        }[self.edge]

    def origin(self, start: Edge) -> tuple[float, float]:
        """The end from which values are counted, and which way they run from there."""
        return (self.low, 1.0) if start in (Edge.LEFT, Edge.TOP) else (self.high, -1.0)

    def corner(self, start: Edge) -> Point:
        """The corner of the page from which values are counted."""
        return self.point(self.origin(start)[0], 0.0)

    def place(self, flag: RulerFlag) -> float:
        """Where along the edge a flag's value lies."""
        origin, way = self.origin(flag.start)
        return origin + way * self.scale.points(flag.value, self.unit)

    @cached_property
    def crowded(self) -> frozenset[Edge]:
        """The ends from which values are counted so near each other that their arrows would meet."""
        return frozenset(start for start in self.lanes if self._least_step(start) < _HEAD + 0.8)

    def _least_step(self, start: Edge) -> float:
        values = sorted({flag.value for flag in self.flags if flag.start is start})
        places = (_ORIGIN, *(self.scale.points(value, self.unit) for value in values))
        return min(after - before for before, after in pairwise(places))

    @cached_property
    def lanes(self) -> dict[Edge, float]:
        """How far out the line runs that counts from each end: side by side where the two meet."""
        reach: dict[Edge, float] = {}
        for flag in self.flags:
            reach[flag.start] = max(reach.get(flag.start, 0.0), self.scale.points(flag.value, self.unit))
        apart = _LANE if sum(reach.values()) + 2 * _ORIGIN > self.high - self.low else 0.0
        return {start: _ARROWS + apart * number for number, start in enumerate(reach)}


@dataclass(frozen=True)
class _Label:
    """A flag's rings and value, in lines of rings; the value follows the first line."""

    flag: RulerFlag
    lines: tuple[tuple[int, ...], ...]
    width: float
    height: float


@dataclass(frozen=True)
class _Seated:
    """A ruler whose flags have their places: each label, its seat and its box; and the box about them all."""

    ruler: _Ruler
    labels: tuple[tuple[_Label, Seat, Box], ...]
    box: Box


@dataclass(frozen=True)
class Rulers:
    """Rulers and flags about a page: their shapes, and the box about all."""

    shapes: tuple[Shape, ...]
    box: Box


def rulers(page: Box, flags: Sequence[RulerFlag], unit: Unit, scale: Scale, style: DrawingStyle) -> Rulers:
    """A ruler along each edge of a page, those that bear flags darker, and the flags outside it."""
    sides = list(_seated(page, flags, unit, scale, style))
    shapes: list[Shape] = []
    for side in sides:
        shapes.append(_marks(side.ruler))
        if side.labels:
            shapes += [*_running_lines(side.ruler), *_flags(side)]
    zeros = _zeros(sides)
    return Rulers((*shapes, *zeros), _box_about(sides, zeros))


def rulers_box(page: Box, flags: Sequence[RulerFlag], unit: Unit, scale: Scale, style: DrawingStyle) -> Box:
    """The box about the rulers and flags of a page; nothing is drawn for it."""
    sides = list(_seated(page, flags, unit, scale, style))
    return _box_about(sides, _zeros(sides))


def flagged_places(
    page: Box, flags: Sequence[RulerFlag], unit: Unit, scale: Scale, style: DrawingStyle
) -> list[Point]:
    """The places on the edges of a page that its flags point to."""
    sides = _rulers(page, flags, unit, scale, style)
    return [ruler.point(ruler.place(flag), 0.0) for ruler in sides for flag in ruler.flags]


def _rulers(
    page: Box, flags: Sequence[RulerFlag], unit: Unit, scale: Scale, style: DrawingStyle
) -> Iterator[_Ruler]:
    """The rulers of a page, upright ones first."""
    for edge in (Edge.LEFT, Edge.RIGHT, Edge.TOP, Edge.BOTTOM):
        along = tuple(flag for flag in flags if flag.along is edge)
        yield _Ruler(edge, page, along, unit, scale, style)


def _seated(
    page: Box, flags: Sequence[RulerFlag], unit: Unit, scale: Scale, style: DrawingStyle
) -> Iterator[_Seated]:
    """The rulers of a page in their order: flags above and below may reach as far out as those beside it."""
    room = Box(page.left - _PAST, page.top, page.right + _PAST, page.bottom)
    for ruler in _rulers(page, flags, unit, scale, style):
        side = _with_seats(ruler, room)
        room = bounds_of_boxes((room, side.box)) if ruler.edge.is_upright else room
        yield side


def _box_about(sides: Sequence[_Seated], zeros: Sequence[Text]) -> Box:
    ruler = sides[0].ruler
    marks = ruler.page.grown(RULER_DEPTH + ruler.style.fine_width / 2)
    return bounds_of_boxes([marks, *(side.box for side in sides), *(zero.box for zero in zeros)])


# The ruler.


def _marks(ruler: _Ruler) -> Path:
    """A mark at every unit and half from where its flags are counted; wider apart where they would merge."""
    whole = Fraction(10) if ruler.unit is Unit.MILLIMETRE else Fraction(1)
    half = ruler.scale.points(whole / 2, ruler.unit)
    apart = next((times * half for times in _MARKS if times * half >= _LEAST_MARKS), _MARKS[-1] * half)
    origin, way = ruler.origin(ruler.flags[0].start if ruler.flags else Edge.TOP)
    segments: list[Segment] = []
    for number in range(int((ruler.high - ruler.low) / apart + 1e-6) + 1):
        s, long = origin + way * number * apart, number % 2 == 0
        start, end = ruler.point(s, _OFF), ruler.point(s, _OFF + (_UNIT if long else _HALF))
        segments += [("M", *start), ("L", *end)]
    palette = ruler.style.palette
    colour = palette.ink if ruler.flags else palette.rule
    return Path(tuple(segments), stroke=Stroke(colour, ruler.style.fine_width))


def _running_lines(ruler: _Ruler) -> Iterator[Shape]:
    """From each end from which values are counted a line to the farthest, its origin ringed (ISO 129-1)."""
    style = ruler.style
    for start, d in ruler.lanes.items():
        origin, way = ruler.origin(start)
        ends = [ruler.place(flag) for flag in ruler.flags if flag.start is start]
        far = max(ends, key=lambda s: abs(s - origin))
        if abs(far - origin) > _ORIGIN:
            yield Line(ruler.point(origin + way * _ORIGIN, d), ruler.point(far, d), style.fine)
        yield Circle(*ruler.point(origin, d), _ORIGIN, Fill(style.palette.paper), style.fine)


def _zeros(sides: Sequence[_Seated]) -> tuple[Text, ...]:
    """A nought at each corner from which values are counted."""
    corners = {side.ruler.corner(start) for side in sides for start in side.ruler.lanes}
    ruler = sides[0].ruler
    return tuple(_zero(corner, ruler.page, ruler.style) for corner in sorted(corners))


def _zero(corner: Point, page: Box, style: DrawingStyle) -> Text:
    """A nought outside a corner, for both rulers that count from there."""
    x, y = corner
    right, down = (1 if x > page.left else -1), (1 if y > page.top else -1)
    baseline = y + down * _ZERO + cap_height(Font.SANS, style.note_size) / 2
    place = x + right * _ZERO, baseline
    return Text("0", *place, style.note_size, Font.SANS, style.palette.ink, Anchor.MIDDLE, role="zero")


# The flags.


def _with_seats(ruler: _Ruler, room: Box) -> _Seated:
    """A ruler with the labels of its flags in order along it, seated in a room."""
    if not ruler.flags:
        return _Seated(ruler, (), ruler.page)
    labels = sorted((_label(ruler, flag) for flag in ruler.flags), key=lambda label: ruler.place(label.flag))
    seats = seat(list(_callouts(ruler, labels)), _seating(ruler, labels, room))
    seated = tuple(
        (label, one, _label_box(ruler, label, one)) for label, one in zip(labels, seats, strict=True)
    )
    leaders = [bounds_of_points([ruler.point(*point) for point in one.leader]) for one in seats]
    return _Seated(ruler, seated, bounds_of_boxes([ruler.page, *leaders, *(box for _, _, box in seated)]))


def _flags(side: _Seated) -> Iterator[Shape]:
    """The flags of a ruler in order along it, each on a leader from its place."""
    ruler = side.ruler
    for label, one, box in side.labels:
        flag, (origin, _) = label.flag, ruler.origin(label.flag.start)
        record = Dimension(ruler.point(origin, 0.0), ruler.point(ruler.place(flag), 0.0), flag.text)
        parts = (*_leader(ruler, flag, one), *_written(label, box, ruler.style))
        yield Group(parts, tag=FLAG_TAG, dimension=record)


def _label(ruler: _Ruler, flag: RulerFlag) -> _Label:
    in_line = _BESIDE if ruler.edge.is_upright else max(1, len(flag.steps))
    lines = tuple(flag.steps[at : at + in_line] for at in range(0, max(1, len(flag.steps)), in_line))
    ring = 2 * small_ring_radius(ruler.style)
    rings = [len(line) * (ring + _RING_GAP) for line in lines]
    value = text_width(flag.text, Font.SANS, ruler.style.dimension_size)
    return _Label(flag, lines, max(rings[0] + _TEXT_GAP + value, *rings), len(lines) * (ring + _LINE_GAP))


def _callouts(ruler: _Ruler, labels: Sequence[_Label]) -> Iterator[Callout]:
    before = None
    for label in labels:
        half = (label.height if ruler.edge.is_upright else label.width) / 2
        apart = _BETWEEN_ENDS if before not in (None, label.flag.start) else 0.0
        yield Callout(ruler.place(label.flag), half + apart, half)
        before = label.flag.start


def _seating(ruler: _Ruler, labels: Sequence[_Label], room: Box) -> Seating:
    deep = max(label.width if ruler.edge.is_upright else label.height for label in labels)
    low, high = (room.top, room.bottom) if ruler.edge.is_upright else (room.left, room.right)
    gap = _LINE_GAP if ruler.edge.is_upright else _GAP
    return Seating(max(ruler.lanes.values()), deep, _CORRIDOR, gap, low, high)


def _label_box(ruler: _Ruler, label: _Label, one: Seat) -> Box:
    """Where a label stands: as near to the page as its row allows."""
    x, y = ruler.point(one.at, one.near)
    wide, high = label.width, label.height
    match ruler.edge:
        case Edge.TOP:
            return Box(x - wide / 2, y - high, x + wide / 2, y)
        case Edge.BOTTOM:
            return Box(x - wide / 2, y, x + wide / 2, y + high)
        case Edge.LEFT:
            return Box(x - wide, y - high / 2, x, y + high / 2)
        case Edge.RIGHT:
            return Box(x, y - high / 2, x + wide, y + high / 2)


def _leader(ruler: _Ruler, flag: RulerFlag, one: Seat) -> Iterator[Shape]:
    """From the edge of the page out to the label; at its place the end of an arrow, or an oblique stroke."""
    yield Polyline(tuple(ruler.point(*point) for point in one.leader), ruler.style.fine)
    tip, (_, way), d = ruler.place(flag), ruler.origin(flag.start), ruler.lanes[flag.start]
    if flag.start in ruler.crowded:
        start, end = (ruler.point(tip + off, d + off) for off in (-_STROKE, _STROKE))
        yield Line(start, end, ruler.style.narrow)
        return
    back = tip - way * min(_HEAD, max(ruler.scale.points(flag.value, ruler.unit), 1.0))
    corners = ((tip, d), (back, d - _HALF_HEAD), (back, d + _HALF_HEAD))
    yield Polygon(tuple(ruler.point(*corner) for corner in corners), Fill(ruler.style.palette.ink))


def _written(label: _Label, box: Box, style: DrawingStyle) -> Iterator[Shape]:
    """The rings of the steps, line under line, and the value after the first line."""
    radius = small_ring_radius(style)
    for number, line in enumerate(label.lines):
        x, y = box.left, box.top + (2 * radius + _LINE_GAP) * (number + 0.5)
        for step in line:
            yield ring_in_text(x + radius, y, step, style)
            x += 2 * radius + _RING_GAP
        if number == 0:
            baseline = y + cap_height(Font.SANS, style.dimension_size) / 2
            ink, size = style.palette.ink, style.dimension_size
            yield Text(label.flag.text, x + _TEXT_GAP, baseline, size, Font.SANS, ink, role="flag")
