"""Hatching: narrow lines at 45 degrees, evenly spaced, interrupted for text (ISO 128-3, from memory)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, sqrt

from booklet.drawing.shapes.affine import Box, Point
from booklet.drawing.shapes.figure import Path, Segment, Stroke


def hatch(outline: Sequence[Point], distance: float, stroke: Stroke, gaps: Sequence[Box] = ()) -> Path:
    """Lines rising to the right, `distance` points apart, cut exactly at an outline and at boxes kept free.

    The outline may be concave and may be given in either direction.  The lines lie on one grid for the whole
    figure, so that areas that meet are hatched through.
    """
    pitch = distance * sqrt(2)  # between neighbours along x or y
    sums = [x + y for x, y in outline]
    first, last = ceil(min(sums) / pitch), ceil(max(sums) / pitch)
    segments: list[Segment] = []
    for number in range(first, last):
        # The line holds the points with x + y = total, so x alone tells where on it a point lies.
        total = number * pitch
        for start, end in _without(_inside(outline, total), gaps, total):
            segments += (("M", start, total - start), ("L", end, total - end))
    return Path(tuple(segments), stroke=stroke)


def _inside(outline: Sequence[Point], total: float) -> list[tuple[float, float]]:
    """The stretches of x on which the line runs within the outline."""
    crossings = []
    for (x1, y1), (x2, y2) in zip(outline, (*outline[1:], outline[0]), strict=True):
        before, after = x1 + y1 - total, x2 + y2 - total
        # A corner on the line counts with the edges on one side only, so crossings always come in pairs.
        if (before < 0) != (after < 0):
            crossings.append(x1 + (x2 - x1) * before / (before - after))
    crossings.sort()
    return list(zip(crossings[::2], crossings[1::2], strict=True))


def _without(
    stretches: Sequence[tuple[float, float]], gaps: Sequence[Box], total: float
) -> Iterator[tuple[float, float]]:
    """The stretches with what lies in the boxes taken out."""
    holes = sorted(
        (max(box.left, total - box.bottom), min(box.right, total - box.top))
        for box in gaps
        if box.left + box.top < total < box.right + box.bottom
    )
    for start, end in stretches:
        for hole_start, hole_end in holes:
            if hole_end <= start or hole_start >= end or hole_end <= hole_start:
                continue
            if hole_start > start:
                yield start, hole_start
            start = max(start, hole_end)
        if end > start:
            yield start, end
