"""A photograph as a pictogram: a frame in its proportions, hills and a sun within."""

from __future__ import annotations

from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Circle, Figure, Fill, Group, Path, Polygon, Rect, Shape, Stroke
from booklet.drawing.shapes.outlines import polygon
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.length import Size


def photo_pictogram(size: Size, longest: float, style: DrawingStyle) -> Figure:
    """A small picture, its longer side `longest` points."""
    factor = longest / float(max(size.width, size.height))
    width, height = float(size.width) * factor, float(size.height) * factor
    edge = style.dimension_width / 2
    box = Box(edge, edge, width - edge, height - edge)
    ink = style.palette.accent
    shapes: tuple[Shape, ...] = (
        Rect(*box[:2], box.width, box.height, Fill(style.palette.paper)),
        Group(_scene(box, style), clip=box.corners),
        Polygon(box.corners, None, Stroke(ink, style.dimension_width)),
    )
    return Figure("photo", width, height, shapes, "A photograph", "")


def _scene(box: Box, style: DrawingStyle) -> tuple[Shape, ...]:
    tint = style.palette.accent.lighter(0.62)
    x, y, side = box.left, box.bottom, min(box.width, box.height)
    peak = y - 0.46 * side
    near = polygon(((x, y), (x, y - 0.2 * side), (x + 0.36 * box.width, peak), (x + 0.78 * box.width, y)))
    far = polygon(
        (
            (x + 0.4 * box.width, y),
            (x + 0.74 * box.width, y - 0.34 * side),
            (box.right, y - 0.16 * side),
            (box.right, y),
        )
    )
    sun = (x + 0.73 * box.width, box.top + 0.24 * side)
    return (Path((*near, *far), Fill(tint)), Circle(*sun, 0.09 * side, Fill(tint)))
