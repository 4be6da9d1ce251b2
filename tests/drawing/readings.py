"""What is written on a drawing, each text where the figure puts it."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Group, Shape, Text, bounds, walk


def text_boxes(shapes: Iterable[Shape]) -> tuple[tuple[Text, Box], ...]:
    """Every text with its box in the outermost coordinates."""
    return tuple(
        (leaf, bounds([Group((leaf,), transform)]))
        for leaf, transform in walk(shapes)
        if isinstance(leaf, Text)
    )
