"""The objects of a page as pypdfium2 hands them out, and the maps that place them on it."""

from __future__ import annotations

import ctypes
from collections.abc import Iterator, Sequence
from math import hypot
from typing import Any

import pypdfium2 as pdfium
import pypdfium2.raw as raw

from booklet.proof.printed import Box, Point, box_about

# Of a form's paths those of so many segments are outlines: polygons and circles; others are its print.
SIMPLE = 13
# From where something lies to the page: a, b, c, d, e, f as PDF has them.
Matrix = tuple[float, float, float, float, float, float]


def items_of(page: pdfium.PdfPage) -> Iterator[Any]:
    """The objects of a page in the order of painting."""
    for at in range(raw.FPDFPage_CountObjects(page)):
        yield raw.FPDFPage_GetObject(page, at)


def address_of(item: Any) -> int:
    """What tells an object from every other of its document."""
    return ctypes.addressof(item.contents) if item else 0


def parts_of(form: Any) -> Iterator[Any]:
    """The objects of a form in the order of painting; of anything else none."""
    if raw.FPDFPageObj_GetType(form) == raw.FPDF_PAGEOBJ_FORM:
        for at in range(max(raw.FPDFFormObj_CountObjects(form), 0)):
            yield raw.FPDFFormObj_GetObject(form, at)


def bounds(outlines: Sequence[Sequence[Point]]) -> Box:
    """The box about outlines."""
    xs = [x for outline in outlines for x, _ in outline] or [0.0]
    ys = [y for outline in outlines for _, y in outline] or [0.0]
    return Box(min(xs), min(ys), max(xs), max(ys))


def clipped(item: Any, box: Box, outer: Matrix) -> Box:
    """A box cut to the boxes about the clips of an item."""
    for clip in clips_of(item, outer):
        box = box.common(box_about(clip))
    return box


def clips_of(item: Any, outer: Matrix) -> list[tuple[Point, ...]]:
    """The outlines to which an item is cut; `outer` leads from where it lies to the page."""
    clip = raw.FPDFPageObj_GetClipPath(item)
    x, y = ctypes.c_float(), ctypes.c_float()
    found = []
    for at in range(max(raw.FPDFClipPath_CountPaths(clip), 0) if clip else 0):
        points = []
        for number in range(raw.FPDFClipPath_CountPathSegments(clip, at)):
            segment = raw.FPDFClipPath_GetPathSegment(clip, at, number)
            raw.FPDFPathSegment_GetPoint(segment, x, y)
            points.append(mapped(outer, (x.value, y.value)))
        if points:
            found.append(tuple(points))
    return found


def box_of(item: Any, outer: Matrix) -> Box:
    """The box about an item; `outer` leads from where it lies to the page."""
    left, bottom, right, top = (ctypes.c_float() for _ in range(4))
    raw.FPDFPageObj_GetBounds(item, left, bottom, right, top)
    x, y = mapped(outer, ((left.value + right.value) / 2, (bottom.value + top.value) / 2))
    width, height = (right.value - left.value) / 2, (top.value - bottom.value) / 2
    across = abs(outer[0]) * width + abs(outer[2]) * height
    down = abs(outer[1]) * width + abs(outer[3]) * height
    return Box(x - across, y - down, x + across, y + down)


def matrix_of(item: Any) -> Matrix:
    """How an item lies in what it is part of."""
    held = raw.FS_MATRIX()
    raw.FPDFPageObj_GetMatrix(item, held)
    return held.a, held.b, held.c, held.d, held.e, held.f


def then(one: Matrix, other: Matrix) -> Matrix:
    """One map, and then the other."""
    (a, b, c, d, e, f), (p, q, r, s, t, u) = one, other
    return a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u


def mapped(matrix: Matrix, point: Point) -> Point:
    """Where a map brings a point."""
    a, b, c, d, e, f = matrix
    x, y = point
    return a * x + c * y + e, b * x + d * y + f


def least_scale(matrix: Matrix) -> float:
    """How long a length of 1 becomes where it becomes shortest: the lesser singular value."""
    a, b, c, d, *_ = matrix
    return abs(hypot(a + d, b - c) - hypot(a - d, b + c)) / 2


def height_scale(matrix: Matrix) -> float:
    """How high an em becomes, across the line on which letters stand."""
    a, b, c, d, *_ = matrix
    along = hypot(a, b)
    return abs(a * d - b * c) / along if along else 0.0
