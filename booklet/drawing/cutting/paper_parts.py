"""What belongs to a sheet in a cutting figure: papers beneath, hatched scrap, printed register marks."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Anchor, Circle, Fill, Line, Rect, Shape, Text, filled_box
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.hatch import hatch
from booklet.drawing.shapes.style import DrawingStyle

_STACK_STEP = 3.0
_MOST_SHOWN_BENEATH = 3
_MARK_DROP = 3.4
_MARK_RADIUS, _MARK_REACH = 1.8, 3.4


def stack_depth(papers: int) -> float:
    """How far the papers under the first reach out below and at the right, in points."""
    return min(papers - 1, _MOST_SHOWN_BENEATH) * _STACK_STEP


def beneath(sheet: Box, papers: int, style: DrawingStyle) -> Iterator[Rect]:
    """The outlines of the papers under the first, each a little further out, and the first one's ground."""
    paper = Fill(style.palette.paper)
    for place in reversed(range(1, min(papers - 1, _MOST_SHOWN_BENEATH) + 1)):
        off = place * _STACK_STEP
        yield Rect(sheet.left + off, sheet.top + off, sheet.width, sheet.height, paper, style.narrow)
    yield filled_box(sheet, paper)


def scrap_area(box: Box, word: str, style: DrawingStyle) -> Iterator[Shape]:
    """White, hatched, and called scrap where the word has room."""
    size = style.note_size + 1
    half_width, half_height = text_width(word, Font.SANS, size) / 2 + 4, size * 0.62
    upright = box.width < 2 * half_width + 2
    x, y = box.centre
    across, down = (half_height, half_width) if upright else (half_width, half_height)
    gap = Box(x - across, y - down, x + across, y + down)
    named = box.holds(gap.grown(1))
    yield filled_box(box, Fill(style.palette.paper))
    lines = hatch(box.corners, style.hatch_distance, style.fine, [gap] if named else [])
    if lines.segments:
        yield lines
    if named:
        drop = cap_height(Font.SANS, size) / 2 - 0.5
        at, turn = ((x + drop, y), -90.0) if upright else ((x, y + drop), 0.0)
        yield Text(word, *at, size, Font.SANS, style.palette.ink, Anchor.MIDDLE, turn, "scrap")


def register_mark(x: float, sheet: Box, style: DrawingStyle) -> Iterator[Shape]:
    """The marks printed near both ends of a cut: a ring and a line across it."""
    for y in (sheet.top + _MARK_DROP, sheet.bottom - _MARK_DROP):
        yield Circle(x, y, _MARK_RADIUS, Fill(style.palette.paper), style.narrow)
        yield Line((x - _MARK_REACH, y), (x + _MARK_REACH, y), style.narrow)
