"""Dimension lines after ISO 129-1:2018 and ISO 128-2 (from published extracts): lines, ends, texts, leaders.

A text stands above its line and reads from below, along an upright line from the right.  Where a span is too
narrow for two arrowheads they point in from outside; between two narrow spans a dot stands for both.  Where
it is too narrow for its text, the text moves past the chain's end or out on a leader.  No text lies over
another or over a line, by construction.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from enum import Enum
from itertools import pairwise
from math import inf

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
    Path,
    Polyline,
    Segment,
    Shape,
    Text,
    bounds,
)
from booklet.drawing.shapes.fonts import Font, font_metrics, text_width
from booklet.drawing.shapes.style import DrawingStyle

_FONT = Font.SANS
TAG = "dimension"
ENDS_TAG = "dimension ends"


class Side(Enum):
    """The side of the outline on which dimensions stand."""

    TOP = "top"
    BOTTOM = "bottom"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True)
class Chain:
    """Neighbouring spans: their ends in points along the outline, rising, and a label for each span.

    A label of None leaves its span without a dimension.
    """

    positions: tuple[float, ...]
    labels: tuple[str | None, ...]

    def __post_init__(self) -> None:
        if len(self.labels) != len(self.positions) - 1 or len(self.positions) < 2:
            raise ValueError("a chain has one label for each span between its positions")
        if any(end <= start for start, end in pairwise(self.positions)):
            raise ValueError("the positions of a chain rise")


@dataclass(frozen=True)
class Dimensioning:
    """A drawn chain: its shapes, the box about them, and how far out its line runs, in points."""

    shapes: tuple[Shape, ...]
    box: Box
    line_offset: float


def dimension(
    side: Side,
    edge: float,
    start: float,
    end: float,
    label: str,
    style: DrawingStyle,
    *,
    offset: float | None = None,
    room: tuple[float, float] = (-inf, inf),
    obstacles: Sequence[Box] = (),
) -> Dimensioning:
    """One dimension from `start` to `end` along the outline's side at `edge`; see `dimension_chain`."""
    chain = Chain((start, end), (label,))
    return dimension_chain(side, edge, chain, style, offset=offset, room=room, obstacles=obstacles)


def dimension_chain(
    side: Side,
    edge: float,
    chain: Chain,
    style: DrawingStyle,
    *,
    offset: float | None = None,
    room: tuple[float, float] = (-inf, inf),
    obstacles: Sequence[Box] = (),
) -> Dimensioning:
    """The dimensions of neighbouring spans on one line, all coordinates in points.

    `edge` is the outline's y for the top and bottom sides and its x for the left and right ones.  The line
    runs `offset` from it (by the style), further where obstacles stand in its way; `room` is the stretch
    along the side that texts should keep to.  Extension lines are interrupted at obstacles.
    """
    frame = _Frame(side, edge, style)
    flat = frame.flattened(chain)
    blocked = tuple(map(frame.flat_box, obstacles))
    plan = _plan(flat, frame, blocked, frame.flat_room(room), offset or style.first_offset)
    shapes = tuple(_drawn(plan, frame, blocked))
    return Dimensioning(shapes, bounds(shapes), plan.offset)


@dataclass(frozen=True)
class _Frame:
    """One side of an outline turned so that its line runs along s, and its texts read along s.

    An upright line reads from the right, so there s runs up the figure and t to the right.
    """

    side: Side
    edge: float
    style: DrawingStyle

    @property
    def upright(self) -> bool:
        """Whether the line runs up the figure."""
        return self.side in (Side.LEFT, Side.RIGHT)

    @property
    def out(self) -> float:
        """+1 where outwards is the way t grows, else -1."""
        return 1.0 if self.side in (Side.BOTTOM, Side.RIGHT) else -1.0

    def point(self, s: float, t: float) -> Point:
        """The point of the figure at (s, t)."""
        return (t, -s) if self.upright else (s, t)

    def level(self, depth: float) -> float:
        """The t that lies so far out from the outline."""
        return self.edge + self.out * depth

    def flattened(self, chain: Chain) -> Chain:
        """The chain with its positions along s, rising."""
        if not self.upright:
            return chain
        return Chain(tuple(-position for position in reversed(chain.positions)), chain.labels[::-1])

    def flat_box(self, box: Box) -> Box:
        """A box of the figure with s across and depth from the outline down."""
        left, right = (-box.bottom, -box.top) if self.upright else (box.left, box.right)
        near, far = (box.left, box.right) if self.upright else (box.top, box.bottom)
        depths = sorted((self.out * (near - self.edge), self.out * (far - self.edge)))
        return Box(left, depths[0], right, depths[1])

    def flat_room(self, room: tuple[float, float]) -> tuple[float, float]:
        """A stretch along the side of the figure as a stretch along s."""
        return (-room[1], -room[0]) if self.upright else room

    @property
    def ascent(self) -> float:
        """How far a text reaches above its baseline, in points."""
        return font_metrics(_FONT).ascent * self.style.dimension_size

    @property
    def descent(self) -> float:
        """How far a text reaches below its baseline, in points."""
        return font_metrics(_FONT).descent * self.style.dimension_size

    @property
    def text_inside(self) -> float:
        """How far a text above the line reaches back towards the outline."""
        return self.style.text_gap + self.ascent if self.out > 0 else 0.0

    @property
    def text_outside(self) -> float:
        """How far a text above the line, or the extension lines, reach outwards past the line."""
        overshoot = self.style.extension_overshoot
        return overshoot if self.out > 0 else max(overshoot, self.style.text_gap + self.ascent)


@dataclass
class _Plan:
    """A chain worked out: where the line runs, where each text stands, how each end is drawn."""

    chain: Chain
    offset: float
    # Of each label: the middle of its text along s and its baseline's depth from the outline.
    texts: dict[int, Point] = field(default_factory=dict)
    leaders: dict[int, tuple[Point, ...]] = field(default_factory=dict)
    arrows: list[tuple[float, float]] = field(default_factory=list)
    dots: list[float] = field(default_factory=list)
    stubs: list[tuple[float, float]] = field(default_factory=list)

    def span(self, at: int) -> tuple[float, float]:
        """Where a label's span starts and ends along s."""
        return self.chain.positions[at], self.chain.positions[at + 1]


def _plan(
    chain: Chain, frame: _Frame, blocked: Sequence[Box], room: tuple[float, float], offset: float
) -> _Plan:
    reach = (chain.positions[0], chain.positions[-1])
    plan = _Plan(chain, _clear_offset(reach, frame, blocked, offset, 0.0))
    waiting = [at for at, label in enumerate(chain.labels) if label and not _set_inside(plan, at, frame)]
    waiting = [at for at in waiting if not _set_beyond(plan, at, frame, blocked, room)]
    if waiting:
        # Leaders may run far to the side, so what lies beside the line must leave a corridor free as well.
        roomy = _clear_offset((-inf, inf), frame, blocked, plan.offset, _corridor(frame))
        if roomy > plan.offset:
            return _plan(chain, frame, blocked, room, roomy)
    _set_on_leaders(plan, waiting, frame, blocked, room)
    _set_ends(plan, frame, blocked, room)
    return plan


def _corridor(frame: _Frame) -> float:
    """The least depth in which leaders bend."""
    return frame.style.dimension_size * 0.6


def _clear_offset(
    reach: tuple[float, float], frame: _Frame, blocked: Sequence[Box], offset: float, corridor: float
) -> float:
    """The least offset from `offset` on at which line, texts and corridor meet no obstacle within `reach`."""
    clear = frame.style.arrow_width / 2 + 0.5
    outwards = frame.text_outside + clear + corridor
    for box in sorted(blocked, key=lambda box: box.top):
        band = Box(reach[0], offset - frame.text_inside - clear, reach[1], offset + outwards)
        if band.overlaps(box):
            offset = box.bottom + frame.text_inside + clear + 0.5
    return offset


def _width(label: str, frame: _Frame) -> float:
    return text_width(label, _FONT, frame.style.dimension_size)


def _label(plan: _Plan, at: int) -> str:
    return plan.chain.labels[at] or ""


def _baseline(plan: _Plan, frame: _Frame) -> float:
    """The depth of the baseline of a text above the line."""
    return plan.offset - frame.out * frame.style.text_gap


def _set_inside(plan: _Plan, at: int, frame: _Frame) -> bool:
    start, end = plan.span(at)
    if _width(_label(plan, at), frame) + 2 * frame.style.text_clearance > end - start:
        return False
    plan.texts[at] = ((start + end) / 2, _baseline(plan, frame))
    return True


def _set_beyond(
    plan: _Plan, at: int, frame: _Frame, blocked: Sequence[Box], room: tuple[float, float]
) -> bool:
    """Set the text of an end span past the chain's end, above the line drawn on; False where it cannot be."""
    style = frame.style
    last = len(plan.chain.labels) - 1
    for end, way in ((plan.chain.positions[-1], 1), (plan.chain.positions[0], -1)):
        if at != (last if way > 0 else 0):
            continue
        width = _width(_label(plan, at), frame)
        near = end + way * (style.arrow_length + style.text_clearance)
        far = near + way * width
        taken = Box(
            min(end, far), plan.offset - frame.text_inside, max(end, far), plan.offset + frame.text_outside
        )
        if room[0] <= far <= room[1] and not any(taken.grown(1).overlaps(box) for box in blocked):
            plan.texts[at] = ((near + far) / 2, _baseline(plan, frame))
            plan.stubs.append((end, far))
            return True
    return False


def _set_on_leaders(
    plan: _Plan, waiting: Sequence[int], frame: _Frame, blocked: Sequence[Box], room: tuple[float, float]
) -> None:
    """Set texts in rows past the line, each on a leader from the middle of its span."""
    style = frame.style
    halves = [_width(_label(plan, at), frame) / 2 for at in waiting]
    middles = [sum(plan.span(at)) / 2 for at in waiting]
    callouts = [Callout(middle, half, half) for middle, half in zip(middles, halves, strict=True)]
    seating = Seating(
        start=frame.text_outside + 1,
        height=frame.ascent + frame.descent,
        corridor=_corridor(frame),
        gap=style.text_clearance * 1.6,
        low=room[0],
        high=room[1],
    )
    beyond = [Box(box.left, box.top - plan.offset, box.right, box.bottom - plan.offset) for box in blocked]
    for at, found in zip(waiting, seat(callouts, seating, beyond), strict=True):
        from_near = frame.ascent if frame.out > 0 else frame.descent
        plan.texts[at] = (found.at, plan.offset + found.near + from_near)
        plan.leaders[at] = tuple((s, plan.offset + depth) for s, depth in found.leader)


def _set_ends(plan: _Plan, frame: _Frame, blocked: Sequence[Box], room: tuple[float, float]) -> None:
    """Arrowheads, given as (tip, way from tip to tail), and dots where no arrowhead has room."""
    style = frame.style
    least = 2 * style.arrow_length + 0.5 * style.arrow_length
    # None where nothing is dimensioned, else whether the span holds two arrowheads.
    holds = [None, *(_holds(plan, at, least) for at in range(len(plan.chain.labels))), None]
    for position, (left, right) in zip(plan.chain.positions, pairwise(holds), strict=True):
        if left:
            plan.arrows.append((position, -1.0))
        if right:
            plan.arrows.append((position, 1.0))
        if left or right or (left is None and right is None):
            continue
        way = 1.0 if right is None else -1.0
        far = position + way * 1.7 * style.arrow_length
        stub = Box(min(position, far), plan.offset - 2, max(position, far), plan.offset + 2)
        crowded = any(stub.overlaps(box) for box in blocked) or not room[0] <= far <= room[1]
        if (left is None or right is None) and not crowded:
            plan.arrows.append((position, way))
            plan.stubs.append((position, far))
        else:
            plan.dots.append(position)


def _holds(plan: _Plan, at: int, least: float) -> bool | None:
    start, end = plan.span(at)
    return end - start >= least if plan.chain.labels[at] else None


def _drawn(plan: _Plan, frame: _Frame, blocked: Sequence[Box]) -> Iterator[Shape]:
    texts = dict(zip(sorted(plan.texts), _texts(plan, frame), strict=True))
    yield Group(tuple(_extension_lines(plan, frame, blocked)), tag=ENDS_TAG)
    line_level = frame.level(plan.offset)
    for at, text in texts.items():
        start, end = (frame.point(s, line_level) for s in plan.span(at))
        record = Dimension(start, end, text.text)
        children: tuple[Shape, ...] = (Line(start, end, frame.style.narrow), text)
        if at in plan.leaders:
            way = tuple(frame.point(s, frame.level(depth)) for s, depth in plan.leaders[at])
            children = (*children, Polyline(way, frame.style.narrow))
        yield Group(children, tag=TAG, dimension=record)
    yield Group(tuple(_line_ends(plan, frame)), tag=ENDS_TAG)


def _texts(plan: _Plan, frame: _Frame) -> Iterator[Text]:
    for at in sorted(plan.texts):
        s, depth = plan.texts[at]
        x, y = frame.point(s, frame.level(depth))
        yield Text(
            _label(plan, at),
            x,
            y,
            frame.style.dimension_size,
            _FONT,
            frame.style.palette.ink,
            Anchor.MIDDLE,
            -90.0 if frame.upright else 0.0,
            TAG,
        )


def _extension_lines(plan: _Plan, frame: _Frame, blocked: Sequence[Box]) -> Iterator[Line]:
    style = frame.style
    labels = (None, *plan.chain.labels, None)
    for position, beside in zip(plan.chain.positions, pairwise(labels), strict=True):
        if any(beside):
            far = plan.offset + style.extension_overshoot
            for start, end in _uncovered(position, style.extension_gap, far, blocked):
                near = frame.point(position, frame.level(start))
                yield Line(near, frame.point(position, frame.level(end)), style.narrow)


def _uncovered(s: float, start: float, end: float, blocked: Sequence[Box]) -> Iterator[tuple[float, float]]:
    """The parts of the straight line at `s` from one depth to another that obstacles leave free."""
    clear = 1.0
    for box in sorted(blocked, key=lambda box: box.top):
        if box.left - clear < s < box.right + clear and box.bottom + clear > start and box.top - clear < end:
            if box.top - clear > start:
                yield start, box.top - clear
            start = max(start, box.bottom + clear)
    if start < end:
        yield start, end


def _line_ends(plan: _Plan, frame: _Frame) -> Iterator[Shape]:
    style = frame.style
    level = frame.level(plan.offset)
    for start, end in plan.stubs:
        yield Line(frame.point(start, level), frame.point(end, level), style.narrow)
    if plan.arrows:
        heads = tuple(part for tip, way in plan.arrows for part in _arrowhead(tip, way, frame, level))
        yield Path(heads, Fill(style.palette.ink))
    for position in plan.dots:
        x, y = frame.point(position, level)
        yield Circle(x, y, style.arrow_width * 0.62, Fill(style.palette.ink))


def _arrowhead(tip: float, way: float, frame: _Frame, level: float) -> tuple[Segment, ...]:
    tail = tip + way * frame.style.arrow_length
    half = frame.style.arrow_width / 2
    return (
        ("M", *frame.point(tip, level)),
        ("L", *frame.point(tail, level - half)),
        ("L", *frame.point(tail, level + half)),
        ("Z",),
    )
