"""What a drawing has drawn already, read off its shapes: the lines, and the boxes of its words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from booklet.drawing.shapes import outlines
from booklet.drawing.shapes.affine import IDENTITY, Affine, Box, Point
from booklet.drawing.shapes.figure import (
    Circle,
    Group,
    Image,
    Line,
    Motifs,
    Path,
    Polygon,
    Polyline,
    Rect,
    Segment,
    Shape,
    Text,
    Use,
)

# Straight pieces for a curve: enough to keep words off it.
_PIECES = 12


def drawn_lines(shapes: Iterable[Shape], place: Affine = IDENTITY) -> Iterator[tuple[Point, Point]]:
    """Every straight line of shapes, those of their curves too, and the edges of what is filled."""
    for shape in shapes:
        if isinstance(shape, Group):
            yield from drawn_lines(shape.children, shape.transform.then(place))
        elif not isinstance(shape, Text | Image | Use):
            for run in _runs(shape):
                yield from pairwise([place.apply(point) for point in run])


def text_boxes(shapes: Iterable[Shape], place: Affine = IDENTITY) -> Iterator[Box]:
    """The upright box of every text of shapes."""
    for shape in shapes:
        if isinstance(shape, Group):
            yield from text_boxes(shape.children, shape.transform.then(place))
        elif isinstance(shape, Text):
            yield shape.box.under(place)


def _runs(shape: Line | Polyline | Polygon | Rect | Circle | Path | Motifs) -> Iterator[Sequence[Point]]:
    match shape:
        case Line(start, end):
            yield start, end
        case Polyline(points):
            yield points
        case Polygon(points):
            yield *points, points[0]
        case Rect():
            yield *shape.box.corners, shape.box.corners[0]
        case Circle(x, y, radius):
            yield from _along(outlines.circle(x, y, radius))
        case Path(segments):
            yield from _along(segments)
        case Motifs():
            yield from _along(outlines.as_path(shape).segments)


def _along(segments: Sequence[Segment]) -> Iterator[Sequence[Point]]:
    """Each outline of a path as points."""
    run: list[Point] = []
    for segment in segments:
        match segment:
            case ("M", x, y):
                if run:
                    yield run
                run = [(x, y)]
            case ("L", x, y):
                run.append((x, y))
            case ("C", x1, y1, x2, y2, x, y):
                run += _curve(run[-1], (x1, y1), (x2, y2), (x, y))
            case _:
                run.append(run[0])
    if run:
        yield run


def _curve(start: Point, first: Point, second: Point, end: Point) -> Iterator[Point]:
    for step in range(1, _PIECES + 1):
        t = step / _PIECES
        shares = (1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3
        points = (start, first, second, end)
        yield (
            sum(share * x for share, (x, _) in zip(shares, points, strict=True)),
            sum(share * y for share, (_, y) in zip(shares, points, strict=True)),
        )
