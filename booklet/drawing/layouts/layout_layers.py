"""A layout for a screen: a drawing whose layers come as its steps are done, in the order in which things lie.

What lies beneath another in the end is seen at its step, for its cover is not there yet.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.drawing.layouts.finished_figure import item_shapes
from booklet.drawing.layouts.look import Look
from booklet.drawing.layouts.shadows import shadow_shapes
from booklet.drawing.shapes.affine import translation
from booklet.drawing.shapes.figure import Figure, Group, Join, Polygon, Shape, Stroke
from booklet.drawing.shapes.style import DrawingStyle
from booklet.placing.model import ItemKind, Placed

# The layers, by the names that a page knows them by; the number is that of a printed step.
BASE_LAYER, STEP_LAYER, MARK_LAYER = "base", "step", "mark"

_MARGIN = 6.0
_LINE, _CASING = 2.4, 4.8


def layered_layout(look: Look, numbers: Sequence[int], style: DrawingStyle, name: str) -> Figure:
    """The page with a layer for each thing on it, and over all of them one that outlines it.

    `numbers` gives the printed step of each step of the spec.
    """
    page = look.page
    lying: tuple[Shape, ...] = (
        Group(tuple(item_shapes(look.layout.base, look)), tag=BASE_LAYER),
        *(_layer(STEP_LAYER, _thing(item, look), item, numbers) for item in look.layout.items),
        Polygon(page.corners, None, style.outline),
    )
    marks = (_layer(MARK_LAYER, _outline(item, look, style), item, numbers) for item in look.layout.items)
    shapes: tuple[Shape, ...] = (Group(lying, clip=page.corners), *marks)
    moved = Group(shapes, translation(_MARGIN, _MARGIN))
    return Figure(name, page.width + 2 * _MARGIN, page.height + 2 * _MARGIN, (moved,))


def _layer(layer: str, shapes: Iterator[Shape], item: Placed, numbers: Sequence[int]) -> Group:
    return Group(tuple(shapes), tag=f"{layer} at-{numbers[item.step_number - 1]}")


def _thing(item: Placed, look: Look) -> Iterator[Shape]:
    """A thing with the shadow that it throws."""
    if item.covers and item.kind is not ItemKind.ADDED and item.id not in look.bows:
        yield from shadow_shapes(item, look)
    yield from item_shapes(item, look)


def _outline(item: Placed, look: Look, style: DrawingStyle) -> Iterator[Shape]:
    """A line of the accent in a casing of paper about a thing, whatever lies on it."""
    outline = look.lying[item.id]
    for colour, width in ((style.palette.paper, _CASING), (style.palette.accent, _LINE)):
        yield Polygon(outline, None, Stroke(colour, width, join=Join.ROUND))
