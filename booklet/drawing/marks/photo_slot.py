"""A photograph as a small picture in its proportions: the scene that stands for one on finished pages."""

from __future__ import annotations

from booklet.drawing.papers.photos import photo_shapes
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Figure, Polygon
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.length import Size

# The scene with two people, among those that lie and those that stand.
_LYING, _UPRIGHT = 0, 3


def photo_pictogram(size: Size, longest: float, style: DrawingStyle) -> Figure:
    """A small picture, its longer side `longest` points."""
    factor = longest / float(max(size.width, size.height))
    width, height = float(size.width) * factor, float(size.height) * factor
    box = Box(0.0, 0.0, width, height).grown(-style.dimension_width / 2)
    scene = photo_shapes(box, _LYING if width >= height else _UPRIGHT)
    return Figure("photo", width, height, (scene, Polygon(box.corners, None, style.narrow)))
