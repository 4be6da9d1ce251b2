"""A figure taken apart: its leaves, its groups and its dimensions, in the coordinates of the figure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import hypot

from booklet.drawing.shapes.affine import IDENTITY, Affine, Point
from booklet.drawing.shapes.figure import Group, LeafShape, Shape, Use


def walk(shapes: Iterable[Shape], transform: Affine = IDENTITY) -> Iterator[tuple[LeafShape, Affine]]:
    """Every leaf in drawing order, with the map from its own coordinates to the outermost ones."""
    for shape in shapes:
        if isinstance(shape, Group):
            yield from walk(shape.children, shape.transform.then(transform))
        elif isinstance(shape, Use):
            yield from walk(shape.symbol.shapes, shape.transform.then(transform))
        else:
            yield shape, transform


def groups(shapes: Iterable[Shape], transform: Affine = IDENTITY) -> Iterator[tuple[Group, Affine]]:
    """Every group, outer before inner, with the map from its children's coordinates to the outermost ones."""
    for shape in shapes:
        if isinstance(shape, Group):
            inner = shape.transform.then(transform)
            yield shape, inner
            yield from groups(shape.children, inner)


@dataclass(frozen=True)
class DrawnDimension:
    """A dimension in the outermost coordinates: its line's ends and what it says."""

    start: Point
    end: Point
    label: str

    @property
    def length(self) -> float:
        """How long the dimension line is, in points."""
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])


def dimensions(shapes: Iterable[Shape]) -> tuple[DrawnDimension, ...]:
    """Every dimension drawn, in the outermost coordinates."""
    drawn = ((group.dimension, transform) for group, transform in groups(shapes))
    return tuple(
        DrawnDimension(transform.apply(one.start), transform.apply(one.end), one.label)
        for one, transform in drawn
        if one is not None
    )
