"""Whether texts and lines of a drawing lie over each other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations, pairwise

from booklet.drawing.shapes.affine import Box, Point
from booklet.drawing.shapes.figure import Line, Path, Polyline, Segment, Shape
from tests.drawing.readings import ink_boxes, text_boxes
from tests.drawing.walking import walk


def segments(shapes: Iterable[Shape]) -> Iterator[tuple[Point, Point]]:
    """Every straight line drawn, arrowheads' edges included."""
    for leaf, _ in walk(shapes):
        match leaf:
            case Line(start, end):
                yield start, end
            case Polyline(points):
                yield from pairwise(points)
            case Path(steps):
                yield from straight_steps(steps)
            case _:
                pass


def straight_steps(steps: Iterable[Segment]) -> Iterator[tuple[Point, Point]]:
    """The straight parts of a path, closing lines included."""
    pen = first = (0.0, 0.0)
    for step in steps:
        end = (float(step[-2]), float(step[-1])) if len(step) > 1 else first
        if step[0] in "LZ":
            yield pen, end
        first = end if step[0] == "M" else first
        pen = end


def crosses(start: Point, end: Point, box: Box) -> bool:
    """Whether a segment runs through a box's inside: the parts of it in either strip share some."""
    first, last = 0.0, 1.0
    for here, there, low, high in (
        (start[0], end[0], box.left, box.right),
        (start[1], end[1], box.top, box.bottom),
    ):
        if here == there:
            if not low < here < high:
                return False
            continue
        enters, leaves = sorted(((low - here) / (there - here), (high - here) / (there - here)))
        first, last = max(first, enters), min(last, leaves)
    return first < last


def assert_nothing_overlaps(shapes: tuple[Shape, ...], others: Iterable[Box] = ()) -> None:
    texts = [box for _, box in text_boxes(shapes)]
    for left, right in combinations([*texts, *others], 2):
        assert not left.grown(-0.01).overlaps(right), (left, right)
    for start, end in segments(shapes):
        for box in texts:
            assert not crosses(start, end, box.grown(-0.01)), (start, end, box)


def placed_lines(shapes: Iterable[Shape]) -> Iterator[tuple[Point, Point]]:
    """Every straight line that is drawn with a stroke, in the outermost coordinates."""
    for leaf, move in walk(shapes):
        match leaf:
            case Line(start, end):
                yield move.apply(start), move.apply(end)
            case Polyline(points):
                yield from pairwise(map(move.apply, points))
            case Path(steps, stroke=stroke) if stroke is not None:
                for start, end in straight_steps(steps):
                    yield move.apply(start), move.apply(end)
            case _:
                pass


def assert_texts_stand_clear(shapes: Iterable[Shape]) -> None:
    """No text's print lies over another's, and no line runs through any."""
    shapes = tuple(shapes)
    inked = ink_boxes(shapes)
    for (one, left), (other, right) in combinations(inked, 2):
        assert not left.grown(0.2).overlaps(right), (one.text, other.text)
    for start, end in placed_lines(shapes):
        for text, box in inked:
            assert not crosses(start, end, box.grown(-0.01)), (text.text, start, end)
