"""A stencilled area in the figure of its step: its guideline, how often the repeat fits, what remains."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.drawing.layouts.look import Look
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Cap, Line, Polygon, Shape, Stroke
from booklet.drawing.shapes.hatch import hatch
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Edge
from booklet.placing.details import Repeat, Stencilled
from booklet.placing.model import Placed

_DASH = (2.5, 2.0)
_CHAIN = (7.0, 1.6, 1.4, 1.6)
_TICK = 3.0


def stencil_area(item: Placed, look: Look, style: DrawingStyle) -> Iterator[Shape]:
    """The area in its own box: dashed, a mark at every repeat, what remains hatched, the guideline a chain.

    The repeats are counted from the guideline, and across from the left unless that is at the right.
    """
    box = look.box(item)
    found = next(one for one in look.layout.details(Stencilled) if one.item == item.id)
    yield Polygon(box.corners, None, Stroke(style.palette.ink, style.fine_width, _DASH))
    yield from _across(box, found, style)
    yield from _down(box, found, style)
    if found.guideline is not None:
        yield Line(
            *_ends(box, found.guideline), Stroke(style.palette.ink, style.dimension_width, _CHAIN, Cap.BUTT)
        )


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
        yield Line((x, edge), (x, edge + way * _TICK), style.fine)
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
        yield Line((edge, y), (edge + way * _TICK, y), style.fine)
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
