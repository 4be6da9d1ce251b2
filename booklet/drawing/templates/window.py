"""What a window shows of a drawing: nothing else is written on its page, so that no search finds it there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from booklet.drawing.shapes.affine import IDENTITY, Affine, Box
from booklet.drawing.shapes.figure import Group, Shape, bounds
from booklet.measure.dataclass import replace


def shapes_within(shapes: Iterable[Shape], window: Box, place: Affine = IDENTITY) -> Iterator[Shape]:
    """The shapes that reach into a window, whole, in their order; `place` maps them to its coordinates."""
    for shape in shapes:
        if isinstance(shape, Group):
            inner = tuple(shapes_within(shape.children, window, shape.transform.then(place)))
            if inner:
                yield replace(shape, children=inner)
        elif bounds((Group((shape,), place),)).overlaps(window):
            yield shape
