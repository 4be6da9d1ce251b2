"""Dimensions between pieces on the placing figure: gaps, and distances from another piece's edge.

Each stands right where it is measured, or beside it on two extension lines, and covers no number, no guide
and no other text; edges of pieces that its text must cross are interrupted for it.  One that finds no such
place is left to the words of its step, which always say it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from booklet.drawing.layouts.look import Look
from booklet.drawing.layouts.stencil_area import repeat_notes
from booklet.drawing.shapes.affine import Box, Point, bounds_of_points
from booklet.drawing.shapes.figure import (
    Anchor,
    Dimension,
    Fill,
    Group,
    Line,
    Polygon,
    Rect,
    Shape,
    Text,
    bounds,
)
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.position import Direction
from booklet.measure.geometry import ExactPoint, Interval
from booklet.measure.words import ruler_length
from booklet.placing.geometry import hull, span_of
from booklet.placing.model import ItemKind, Measure, MeasureKind, Placed
from booklet.placing.state import BASE_ID

GAP_TAG = "gap"
_MEASURED = {MeasureKind.GAP, MeasureKind.EDGE, MeasureKind.MIDDLE}
# What is small, or soft, is laid by eye.
_THINGS = {ItemKind.PIECE, ItemKind.PHOTO, ItemKind.WRITING}
# Where along what two things have in common a dimension is tried, as shares: the middle first.
_SHARES = (0.5, 0.35, 0.65, 0.22, 0.78, 0.12, 0.88)
_CLEAR = 1.6
_ARROW_SHARE = 0.8
_TAIL = 4.0
# Lines that stand beside what they measure: how far away, and their extension lines' gap and overshoot.
_BESIDE = (7.0, 10.0, 13.0)
_OFF, _PAST = 1.5, 2.0
# Half the width of an arrowhead, and how near a line comes to the edges that it ends at.
_TOUCH = 1.25


@dataclass(frozen=True)
class _Gap:
    """A dimension to draw, in points: along which direction, from where to where, and the room across it."""

    direction: Direction
    start: float
    end: float
    label: str
    room: tuple[float, float]

    def box(self, along: tuple[float, float], cross: tuple[float, float]) -> Box:
        """A box of the page by its extents along the dimension and across it."""
        if self.direction is Direction.ACROSS:
            return Box(along[0], cross[0], along[1], cross[1])
        return Box(cross[0], along[0], cross[1], along[1])

    def point(self, along: float, cross: float) -> tuple[float, float]:
        """A point of the page by where it lies along the dimension and across it."""
        return (along, cross) if self.direction is Direction.ACROSS else (cross, along)


@dataclass(frozen=True)
class _Seat:
    """Where a dimension may stand: its line's place across, its text, and whether its arrows point in.

    `root` is the side of the room from which extension lines lead to a line that stands beside it.
    """

    cross: float
    text: Box
    points_in: bool
    root: float | None = None


def gap_dimensions(
    look: Look, taken: Sequence[Shape], guides: Sequence[Shape], style: DrawingStyle
) -> tuple[Shape, ...]:
    """The dimensions that find a place beside the shapes that are `taken`, the numbers and their leaders.

    Where there is no other place guides give way, and then the edges of pieces.  A stencil's repeats are
    noted where there is room after them.
    """
    blocked, edges = _blocked(look, taken), _all_edges(look)
    guided = [bounds([shape]).grown(1.0) for shape in guides]
    drawn: list[Shape] = []
    for measure in look.layout.measures:
        gap = _gap(measure, look)
        yielding = ([*blocked, *edges, *guided], [*blocked, *edges], blocked)
        seat = _seat(gap, yielding, look, style) if gap is not None else None
        if gap is None or seat is None:
            continue
        shapes = tuple(_drawn(gap, seat, style))
        start, end = gap.point(gap.start, seat.cross), gap.point(gap.end, seat.cross)
        record = Dimension(start, end, gap.label)
        drawn.append(Group(shapes, tag=GAP_TAG, dimension=record))
        blocked += [bounds([shape]).grown(1.0) for shape in shapes]
    return (*drawn, *repeat_notes(look, [*blocked, *edges, *guided], style))


def _blocked(look: Look, taken: Sequence[Shape]) -> list[Box]:
    """What no text and no line may lie over: lines to write on, and what is taken."""
    written = (item for item in look.layout.items if item.kind is ItemKind.WRITING)
    filled = [look.box(item).under(look.map(item)) for item in written]
    return [*filled, *(bounds([shape]).grown(1.0) for shape in taken)]


# What is measured.


def _gap(measure: Measure, look: Look) -> _Gap | None:
    """A measure between upright things whose edges show; None for any other."""
    layout, unit = look.layout, look.resolved.kit.unit
    if measure.kind not in _MEASURED or BASE_ID in measure.against:
        return None
    owner, others = layout.item(measure.owner), [layout.item(id) for id in measure.against]
    if owner.kind not in _THINGS or any(item.tilt for item in (owner, *others)):
        return None
    if _is_hidden(measure.end, owner, look) or any(_is_hidden(measure.start, item, look) for item in others):
        return None
    across = measure.start.y == measure.end.y
    direction, cross = (Direction.ACROSS, Direction.DOWN) if across else (Direction.DOWN, Direction.ACROSS)
    reference = hull([item.rect for item in others])
    one, other = span_of(owner.rect, cross), span_of(reference, cross)
    common = Interval(max(one.low, other.low), min(one.high, other.high))
    if common.high <= common.low:
        return None
    ends = (measure.start.x, measure.end.x) if across else (measure.start.y, measure.end.y)
    start, end = sorted(look.scale.points(value, unit) for value in ends)
    room = (look.scale.points(common.low, unit), look.scale.points(common.high, unit))
    return _Gap(direction, start, end, ruler_length(measure.length, unit), room)


def _is_hidden(point: ExactPoint, item: Placed, look: Look) -> bool:
    """Whether something that is laid over an item covers this point of its edge."""
    above = (other for other in look.layout.items if other.layer > item.layer and other.covers)
    return any(
        other.rect.x < point.x < other.rect.right and other.rect.y < point.y < other.rect.bottom
        for other in above
    )


# Where there is room.


def _all_edges(look: Look) -> list[Box]:
    """The parts of all outlines that are seen, each as the box about it."""
    covers = [
        (other.layer, look.box(other).under(look.map(other)).grown(-1.0))
        for other in look.layout.items
        if other.covers and not other.tilt
    ]
    found: list[Box] = []
    for item in look.layout.items:
        if item.kind is not ItemKind.STENCIL:
            above = [cover for layer, cover in covers if layer > item.layer]
            found += _edges(look.lying[item.id], above)
    return found


def _edges(points: Sequence[Point], covers: Sequence[Box]) -> Iterator[Box]:
    """The parts of an outline that none of the covers hides, each as the box about it."""
    for start, end in pairwise((*points, points[0])):
        edge = bounds_of_points((start, end)).grown(0.5)
        if not any(cover.holds(edge) for cover in covers):
            yield edge


def _seat(gap: _Gap, blocked: Sequence[Sequence[Box]], look: Look, style: DrawingStyle) -> _Seat | None:
    """The best place that is clear of all that is blocked first; if there is none, second, and so on."""
    seats = [seat for seat in _seats(gap, style) if look.page.holds(seat.text.grown(_CLEAR))]
    for clear_of in blocked:
        for seat in seats:
            boxes = (seat.text.grown(_CLEAR), *_lines(gap, seat, style))
            if not any(box.overlaps(other) for box in boxes for other in clear_of):
                return seat
    return None


def _seats(gap: _Gap, style: DrawingStyle) -> Iterator[_Seat]:
    """The places for a dimension, the best first: where it is measured, else beside that."""
    low, high = gap.room
    for share in _SHARES:
        yield from _seats_at(gap, low + share * (high - low), None, style)
    for away in _BESIDE:
        yield from _seats_at(gap, low - away, low, style)
        yield from _seats_at(gap, high + away, high, style)


def _seats_at(gap: _Gap, cross: float, root: float | None, style: DrawingStyle) -> Iterator[_Seat]:
    """With the text within, where it has room, else beyond one of the ends."""
    width = text_width(gap.label, Font.SANS, style.dimension_size)
    height = cap_height(Font.SANS, style.dimension_size)
    along, beside = (width, height) if gap.direction is Direction.ACROSS else (height, width)
    arrow = style.arrow_length * _ARROW_SHARE
    length, middle = gap.end - gap.start, (gap.start + gap.end) / 2
    if length >= along + 2 * _CLEAR and length >= 2.4 * arrow:
        for near in (cross - _CLEAR - 1 - beside, cross + _CLEAR + 1):
            text = gap.box((middle - along / 2, middle + along / 2), (near, near + beside))
            yield _Seat(cross, text, points_in=False, root=root)
        return
    away = arrow + _TAIL + _CLEAR
    for first in (gap.end + away, gap.start - away - along):
        text = gap.box((first, first + along), (cross - beside / 2, cross + beside / 2))
        yield _Seat(cross, text, points_in=True, root=root)


def _lines(gap: _Gap, seat: _Seat, style: DrawingStyle) -> Iterator[Box]:
    """The boxes about the line, and about the tails of arrows that point in from outside.

    All end at the edges that are measured to, which they may touch.
    """
    cross = (seat.cross - _TOUCH, seat.cross + _TOUCH)
    if gap.end - gap.start > 2 * _TOUCH:
        yield gap.box((gap.start + _TOUCH, gap.end - _TOUCH), cross)
    if seat.points_in:
        tail = style.arrow_length * _ARROW_SHARE + _TAIL
        yield gap.box((gap.end + _TOUCH, gap.end + tail), cross)
        yield gap.box((gap.start - tail, gap.start - _TOUCH), cross)


# The lines.


def _drawn(gap: _Gap, seat: _Seat, style: DrawingStyle) -> Iterator[Shape]:
    arrow, half = style.arrow_length * _ARROW_SHARE, style.arrow_width / 2
    mask = seat.text.grown(1.0)
    yield Rect(mask.left, mask.top, mask.width, mask.height, Fill(style.palette.paper))
    if seat.root is not None:
        way = 1 if seat.cross > seat.root else -1
        for at in (gap.start, gap.end):
            near, far = seat.root + way * _OFF, seat.cross + way * _PAST
            yield Line(gap.point(at, near), gap.point(at, far), style.narrow)
    yield Line(gap.point(gap.start, seat.cross), gap.point(gap.end, seat.cross), style.narrow)
    for tip, inwards in ((gap.start, 1), (gap.end, -1)):
        way = -inwards if seat.points_in else inwards
        back = tip + way * arrow
        corners = (
            gap.point(tip, seat.cross),
            gap.point(back, seat.cross - half),
            gap.point(back, seat.cross + half),
        )
        yield Polygon(corners, Fill(style.palette.ink))
        if seat.points_in:
            end = gap.point(back + way * _TAIL, seat.cross)
            yield Line(gap.point(tip, seat.cross), end, style.narrow)
    x, y = seat.text.centre
    baseline = y + cap_height(Font.SANS, style.dimension_size) / 2
    yield Text(
        gap.label,
        x,
        baseline,
        style.dimension_size,
        Font.SANS,
        style.palette.ink,
        Anchor.MIDDLE,
        role="dimension",
    )
