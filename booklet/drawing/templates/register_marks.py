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
# Where else its letter may stand across, to find its place between lines; and so far off them, if it can be.
_OTHERS = (4.6, 5.6, 6.6, 8.6, 9.6, 10.6)
_LETTER_CLEAR = 7.0
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
            yield _mark(*_place(strip, end, near), letter(2 * number + end).lower(), style)


def _is_near(line: tuple[Point, Point], box: Box) -> bool:
    (x0, y0), (x1, y1) = line
    return (
        min(x0, x1) <= box.right
        and max(x0, x1) >= box.left
        and min(y0, y1) <= box.bottom
        and max(y0, y1) >= box.top
    )


def _place(strip: SharedStrip, end: int, lines: Sequence[tuple[Point, Point]]) -> tuple[Point, Point]:
    """The first place from an end of a strip that is clear of lines, or the clearest of those at that end.

    With it comes the middle of its letter, up and to the right of it or where that is clear.
    """
    places = list(_places(strip, end))
    first = next((middle for middle in places if _away(middle, lines) >= _CLEAR), None)
    if first is not None:
        return first, _beside(first)[0]
    tried = [(middle, beside) for middle in places for beside in _beside(middle)]
    return max(tried, key=lambda one: (min(_away(one[1], lines), _LETTER_CLEAR), _away(one[0], lines)))


def _places(strip: SharedStrip, end: int) -> Iterator[Point]:
    """Places at one end of a strip, from that end on."""
    box = strip.clear
    long = box.height if strip.is_upright else box.width
    x, y = strip.box.centre
    for tried in range(_TRIED):
        along = _CLEAR + (long * _PART - _CLEAR) * tried / _TRIED
        along = long - along if end else along
        yield (x, box.top + along) if strip.is_upright else (box.left + along, y)


def _beside(middle: Point) -> tuple[Point, ...]:
    """Where the middle of a mark's letter may be."""
    x, y = middle
    off = (_LETTER, *_OTHERS)
    return tuple(
        (x + right * far, y + down * _LETTER) for far in off for down in (-1, 1) for right in (1, -1)
    )


def _away(point: Point, lines: Sequence[tuple[Point, Point]]) -> float:
    return min((to_side(point, *line) for line in lines), default=inf)


def _mark(middle: Point, beside: Point, name: str, style: DrawingStyle) -> Group:
    x, y = middle
    size, font = style.note_size, Font.SANS_BOLD
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
