"""A stencilled area on the placing figure: its guideline, how often the repeat fits, and what remains."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.drawing.layouts.look import Look
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Cap, Line, Polygon, Shape, Stroke, Text
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.hatch import hatch
from booklet.drawing.shapes.style import DrawingStyle, mm
from booklet.kit.fields import Edge
from booklet.measure.length import TIMES
from booklet.measure.words import print_length
from booklet.placing.details import Repeat, Stencilled
from booklet.placing.model import ItemKind, Placed

_DASH = (2.5, 2.0)
_CHAIN = (8.0, 2.0, 1.6, 2.0)
_WIDTH = mm(0.35)
_TICK = 4.0
_CLEAR = 2.5
_LEADING = 1.2


def stencil_area(item: Placed, look: Look, style: DrawingStyle) -> Iterator[Shape]:
    """The area in its own box: dashed, a mark at every repeat, what remains hatched, the guideline a chain.

    The repeats are counted from the guideline, and across from the left unless that is at the right.
    """
    box, found = look.box(item), _stencilled(item, look)
    yield Polygon(box.corners, None, Stroke(style.palette.ink, _WIDTH, _DASH))
    yield from _across(box, found, style)
    yield from _down(box, found, style)
    if found.guideline is not None:
        yield Line(
            *_ends(box, found.guideline), Stroke(style.palette.ink, style.outline_width, _CHAIN, Cap.BUTT)
        )


def _stencilled(item: Placed, look: Look) -> Stencilled:
    details = (detail for step in look.layout.steps for detail in step.details)
    return next(one for one in details if isinstance(one, Stencilled) and one.item == item.id)


def _ends(box: Box, edge: Edge) -> tuple[tuple[float, float], tuple[float, float]]:
    top_left, top_right, bottom_right, bottom_left = box.corners
    return {
        Edge.TOP: (top_left, top_right),
        Edge.RIGHT: (top_right, bottom_right),
        Edge.BOTTOM: (bottom_left, bottom_right),
        Edge.LEFT: (top_left, bottom_left),
    }[edge]


def _across(box: Box, found: Stencilled, style: DrawingStyle) -> Iterator[Shape]:
    if found.across is None:
        return
    from_right, at_foot = found.guideline is Edge.RIGHT, found.guideline is Edge.BOTTOM
    edge, way = (box.bottom, -1) if at_foot else (box.top, 1)
    for far in _marks(found.across, box.width):
        x = box.right - far if from_right else box.left + far
        yield Line((x, edge), (x, edge + way * _TICK), style.narrow)
    left = box.width * _remaining(found.across)
    if left:
        low, high = (box.left, box.left + left) if from_right else (box.right - left, box.right)
        yield hatch(Box(low, box.top, high, box.bottom).corners, style.hatch_distance, style.fine)


def _down(box: Box, found: Stencilled, style: DrawingStyle) -> Iterator[Shape]:
    if found.down is None:
        return
    from_foot, at_right = found.guideline is Edge.BOTTOM, found.guideline is Edge.RIGHT
    edge, way = (box.right, -1) if at_right else (box.left, 1)
    for far in _marks(found.down, box.height):
        y = box.bottom - far if from_foot else box.top + far
        yield Line((edge, y), (edge + way * _TICK, y), style.narrow)
    left = box.height * _remaining(found.down)
    if left:
        low, high = (box.top, box.top + left) if from_foot else (box.bottom - left, box.bottom)
        yield hatch(Box(box.left, low, box.right, high).corners, style.hatch_distance, style.fine)


def _marks(repeat: Repeat, length: float) -> Iterator[float]:
    """How far from its start each whole repeat ends, within the area."""
    for number in range(1, repeat.times + 1):
        far = length * (1 - _remaining(repeat)) * number / repeat.times
        if far < length - 0.1:
            yield far


def _remaining(repeat: Repeat) -> float:
    """The share of the area that no whole repeat fills."""
    return float(repeat.remainder / (repeat.times * repeat.length + repeat.remainder))


# In words, where there is room.


def repeat_notes(look: Look, blocked: Sequence[Box], style: DrawingStyle) -> tuple[Shape, ...]:
    """`→ 9 × 1 1/4 + 3/4` on each area, clear of whatever is blocked; its step says so as well."""
    notes: list[Shape] = []
    for item in (one for one in look.layout.items if one.kind is ItemKind.STENCIL):
        lines = _lines(_stencilled(item, look), look)
        area = look.box(item).under(look.map(item))
        spot = _spot(lines, area, blocked, style)
        if spot is not None:
            notes += _set(lines, spot, style)
    return tuple(notes)


def _lines(found: Stencilled, look: Look) -> list[str]:
    unit, lines = look.resolved.kit.unit, []
    for repeat, way in ((found.across, "→"), (found.down, "↓")):
        if repeat is not None and repeat.times:
            left = f" + {print_length(repeat.remainder, unit)}" if repeat.remainder else ""
            lines.append(f"{way} {repeat.times} {TIMES} {print_length(repeat.length, unit)}{left}")
    return lines


def _spot(lines: Sequence[str], area: Box, blocked: Sequence[Box], style: DrawingStyle) -> Box | None:
    """The first free place for the lines, row by row from the top left of the area."""
    if not lines:
        return None
    size = style.note_size
    width = max(text_width(line, Font.SANS, size) for line in lines)
    height = len(lines) * size * _LEADING
    inner = area.grown(-_TICK - 1)
    y = inner.top
    while y + height <= inner.bottom:
        x = inner.left
        while x + width <= inner.right:
            box = Box(x, y, x + width, y + height)
            if not any(box.grown(_CLEAR).overlaps(other) for other in blocked):
                return box
            x += 3.0
        y += 3.0
    return None


def _set(lines: Sequence[str], box: Box, style: DrawingStyle) -> Iterator[Text]:
    size = style.note_size
    for number, line in enumerate(lines):
        baseline = box.top + (number + 0.5) * size * _LEADING + cap_height(Font.SANS, size) / 2
        yield Text(line, box.left, baseline, size, Font.SANS, style.palette.ink)
