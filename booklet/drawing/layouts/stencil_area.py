"""A stencilled area in the figure of its step: its guideline, how often the repeat fits, what remains."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.drawing.layouts.look import Look
from booklet.drawing.shapes.affine import Box, Point
from booklet.drawing.shapes.figure import Cap, Line, Polygon, Shape, Stroke
from booklet.drawing.shapes.hatch import hatch
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Edge
from booklet.kit.position import Direction
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
    laid = next(one for one in look.layout.details(Stencilled) if one.item == item.id)
    found = laid.turned(item.turn_in_block)
    yield Polygon(box.corners, None, Stroke(style.palette.ink, style.fine_width, _DASH))
    for way in Direction:
        yield from _repeated(box, found, way, style)
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


def _repeated(box: Box, found: Stencilled, way: Direction, style: DrawingStyle) -> Iterator[Shape]:
    """A mark at every repeat in one direction, and what remains hatched; `s` runs so, `d` across it."""
    is_across = way is Direction.ACROSS
    repeat = found.across if is_across else found.down
    if repeat is None:
        return
    (long, wide), (end, side) = (box.width, box.height), (Edge.RIGHT, Edge.BOTTOM)
    if not is_across:
        long, wide, end, side = wide, long, side, end

    def point(s: float, d: float) -> Point:
        return (s, d) if is_across else (d, s)

    from_end = found.guideline is end
    edge, tick = (wide, -_TICK) if found.guideline is side else (0.0, _TICK)
    for far in _marks(repeat, long):
        s = long - far if from_end else far
        yield Line(point(s, edge), point(s, edge + tick), style.fine)
    left = long * _remaining(repeat)
    if left:
        low, high = (0.0, left) if from_end else (long - left, long)
        rest = Box(*point(low, 0.0), *point(high, wide))
        yield hatch(rest.corners, style.hatch_distance, style.fine)


def _marks(repeat: Repeat, length: float) -> Iterator[float]:
    """How far from its start each whole repeat ends, within the area."""
    for number in range(1, repeat.times + 1):
        far = length * (1 - _remaining(repeat)) * number / repeat.times
        if far < length - 0.1:
            yield far


def _remaining(repeat: Repeat) -> float:
    """The share of the area that no whole repeat fills."""
    return float(repeat.remainder / (repeat.times * repeat.length + repeat.remainder))
