"""Register marks where pages are joined: a cross in a ring, with a letter, which both pages show.

Laid on each other over a window or a lamp, the two pages lie as they were drawn.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import inf

from booklet.cutting.labels import letter
from booklet.drawing.shapes.affine import Box, Point
from booklet.drawing.shapes.figure import Anchor, Circle, Group, Line, Shape, Stroke, Text
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.style import DrawingStyle
from booklet.drawing.templates.lines import drawn_lines, text_boxes
from booklet.measure.dataclass import dataclass
from booklet.placing.polygons import to_side

MARK_TAG, SEAM_TAG = "register mark", "seam"
# The ring and the arms of a mark; its name, how high it is, how far past an arm, and where across the strip.
_RING, _ARM = 4.2, 11.0
_FONT, _HIGH, _PAST = Font.SANS_BOLD, 7.0, 2.5
_ACROSS = (0.0, 2.5, -2.5, 5.0, -5.0, 7.5, -7.5)
# Its name is set so far off all lines, if it can be.
_NAME_CLEAR = 4.0
# A mark is set so far off all lines, if it can be.
_CLEAR = 14.0
# Places that are tried at each end of a seam, along so much of it.
_TRIED, _PART = 36, 0.4
# Words are this far from a line that is broken for them.
_GAP = 2.0


@dataclass(frozen=True)
class SharedStrip:
    """What two neighbouring pages both show, in points of the drawing, and whether they lie side by side.

    `clear` is the part of it that no third page shows.
    """

    box: Box
    clear: Box
    is_upright: bool


def register_marks(
    strips: Sequence[SharedStrip], drawn: Sequence[Shape], style: DrawingStyle
) -> Iterator[Shape]:
    """Two marks in each strip, near its ends, where they lie clear of what is drawn if they can."""
    lines = [*drawn_lines(drawn)]
    lines += [(box.corners[at], box.corners[at - 1]) for box in text_boxes(drawn) for at in range(4)]
    for number, strip in enumerate(strips):
        near = [line for line in lines if _is_near(line, strip.box.grown(_CLEAR))]
        for end in (0, 1):
            name = letter(2 * number + end).lower()
            yield _mark(*_place(strip, end, near, name, style), name, style)


def _is_near(line: tuple[Point, Point], box: Box) -> bool:
    (x0, y0), (x1, y1) = line
    return (
        min(x0, x1) <= box.right
        and max(x0, x1) >= box.left
        and min(y0, y1) <= box.bottom
        and max(y0, y1) >= box.top
    )


def _place(
    strip: SharedStrip, end: int, lines: Sequence[tuple[Point, Point]], name: str, style: DrawingStyle
) -> tuple[Point, Point]:
    """The first place from an end of a strip that is clear of lines, or the clearest of those at that end.

    With it comes the middle of its name, past an arm of it along the strip.
    """
    wide = text_width(name, _FONT, style.note_size)
    best, most = None, (-inf, -inf)
    for middle in _places(strip, end):
        for beside in _beside(middle, strip.is_upright, -1 if end else 1, wide):
            room = min(_away(beside, lines), wide / 2 + _NAME_CLEAR), min(_away(middle, lines), _CLEAR)
            if room == (wide / 2 + _NAME_CLEAR, _CLEAR):
                return middle, beside
            if room > most:
                best, most = (middle, beside), room
    assert best is not None
    return best


def _places(strip: SharedStrip, end: int) -> Iterator[Point]:
    """Places at one end of a strip, from that end on."""
    box = strip.clear
    long = box.height if strip.is_upright else box.width
    x, y = strip.box.centre
    for tried in range(_TRIED):
        along = _CLEAR + (long * _PART - _CLEAR) * tried / _TRIED
        along = long - along if end else along
        yield (x, box.top + along) if strip.is_upright else (box.left + along, y)


def _beside(middle: Point, is_upright: bool, way: int, wide: float) -> Iterator[Point]:
    """Where the middle of a mark's name may be: past its inner arm, in the middle of the strip or off it."""
    x, y = middle
    along = way * (_ARM + _PAST + (_HIGH if is_upright else wide) / 2)
    for across in _ACROSS:
        yield (x + across, y + along) if is_upright else (x + along, y + across)


def _away(point: Point, lines: Sequence[tuple[Point, Point]]) -> float:
    return min((to_side(point, *line) for line in lines), default=inf)


def _mark(middle: Point, beside: Point, name: str, style: DrawingStyle) -> Group:
    x, y = middle
    size, font = style.note_size, _FONT
    baseline = beside[1] + cap_height(font, size) / 2
    return Group(
        (
            Line((x - _ARM, y), (x + _ARM, y), style.fine),
            Line((x, y - _ARM), (x, y + _ARM), style.fine),
            Circle(x, y, _RING, None, style.fine),
            Text(name, beside[0], baseline, size, font, style.palette.ink, Anchor.MIDDLE, role="register"),
        ),
        tag=MARK_TAG,
    )


def seam_lines(
    edges: Sequence[tuple[Point, Point]], drawn: Sequence[Shape], style: DrawingStyle
) -> Iterator[Shape]:
    """The edges of pages over the whole drawing, upright or level, broken where words stand."""
    boxes = [box.grown(_GAP) for box in text_boxes(drawn)]
    stroke = Stroke(style.palette.rule, style.fine_width)
    for start, end in edges:
        is_upright = start[0] == end[0]
        across, low, high = (start[0], start[1], end[1]) if is_upright else (start[1], start[0], end[0])
        spans = [(box.left, box.right, box.top, box.bottom) for box in boxes]
        spans = [span if is_upright else (*span[2:], *span[:2]) for span in spans]
        gaps = sorted((near, far) for first, last, near, far in spans if first < across < last)
        parts = []
        for near, far in [*gaps, (high, high)]:
            if near > low:
                parts.append((low, min(near, high)))
            low = max(low, far)
        ends = [((across, s), (across, t)) if is_upright else ((s, across), (t, across)) for s, t in parts]
        yield Group(tuple(Line(*each, stroke) for each in ends), tag=SEAM_TAG)
