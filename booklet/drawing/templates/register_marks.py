"""Register marks where pages are joined: a cross in a ring, with a letter, which both pages show.

Laid on each other over a window or a lamp, the two pages lie as they were drawn.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf

from booklet.cutting.labels import letter
from booklet.drawing.shapes.affine import Box, Point
from booklet.drawing.shapes.figure import Anchor, Circle, Group, Line, Shape, Stroke, Text
from booklet.drawing.shapes.fonts import Font, cap_height
from booklet.drawing.shapes.style import DrawingStyle
from booklet.drawing.templates.lines import drawn_lines, text_boxes
from booklet.placing.polygons import to_side

MARK_TAG, SEAM_TAG = "register mark", "seam"
# The ring and the arms of a mark, and how far off its middle its letter stands, across and up.
_RING, _ARM, _LETTER = 4.2, 11.0, 7.6
# A mark is set so far off all lines, if it can be.
_CLEAR = 14.0
# Places that are tried along a third of a seam at each of its ends.
_TRIED = 24
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
            middle = _place(strip, end, near)
            yield _mark(middle, letter(2 * number + end).lower(), style)


def _is_near(line: tuple[Point, Point], box: Box) -> bool:
    (x0, y0), (x1, y1) = line
    return (
        min(x0, x1) <= box.right
        and max(x0, x1) >= box.left
        and min(y0, y1) <= box.bottom
        and max(y0, y1) >= box.top
    )


def _place(strip: SharedStrip, end: int, lines: Sequence[tuple[Point, Point]]) -> Point:
    """The first place from an end of a strip that is clear of lines, or of a third of it the clearest."""
    box = strip.clear
    long = box.height if strip.is_upright else box.width
    best, most = (0.0, 0.0), -inf
    for tried in range(_TRIED):
        along = _CLEAR + (long / 3 - _CLEAR) * tried / _TRIED
        along = long - along if end else along
        x, y = strip.box.centre
        point = (x, box.top + along) if strip.is_upright else (box.left + along, y)
        away = min((to_side(point, *line) for line in lines), default=inf)
        if away >= _CLEAR:
            return point
        if away > most:
            best, most = point, away
    return best


def _mark(middle: Point, name: str, style: DrawingStyle) -> Group:
    x, y = middle
    size, font = style.note_size, Font.SANS_BOLD
    baseline = y - _LETTER + cap_height(font, size) / 2
    return Group(
        (
            Line((x - _ARM, y), (x + _ARM, y), style.fine),
            Line((x, y - _ARM), (x, y + _ARM), style.fine),
            Circle(x, y, _RING, None, style.fine),
            Text(name, x + _LETTER, baseline, size, font, style.palette.ink, Anchor.MIDDLE, role="register"),
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
