"""Outlines as path segments, so that a whole pattern can be drawn as one path."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from math import cos, pi, sin

from booklet.drawing.shapes.affine import Affine, Point
from booklet.drawing.shapes.figure import Colour, Fill, Motif, Motifs, Path, Row, Segment
from booklet.measure.cache import cached_on

Outline = tuple[Segment, ...]

# The handle of a cubic that follows a quarter of a circle of radius 1 to within 0.03 %.
KAPPA = 0.5522847498


@lru_cache(maxsize=256)
def outline(text: str) -> Outline:
    """An outline as written: `M 0 0 L 10 0 C 1 2 3 4 5 6 Z`, absolute coordinates only."""
    segments: list[Segment] = []
    words = text.split()
    counts = {"M": 2, "L": 2, "C": 6, "Z": 0}
    at = 0
    while at < len(words):
        after = at + 1 + counts[words[at]]
        segments.append((words[at], *map(float, words[at + 1 : after])))  # type: ignore[arg-type]
        at = after
    return tuple(segments)


def polygon(points: Sequence[Point]) -> Outline:
    """A closed outline with straight edges."""
    (x, y), *others = points
    return (("M", x, y), *(("L", px, py) for px, py in others), ("Z",))


def rectangle(x: float, y: float, width: float, height: float) -> Outline:
    """An upright rectangle from its top left corner."""
    return polygon(((x, y), (x + width, y), (x + width, y + height), (x, y + height)))


def circle(x: float, y: float, radius: float) -> Outline:
    """A circle about (x, y), drawn as SVG does: from its right downwards, where its dashes begin."""
    return (*arch(x, y, radius, 1), *arch(x, y, radius, -1)[1:], ("Z",))


def arch(x: float, y: float, radius: float, way: int) -> Outline:
    """Half a circle about (x, y): over the top from left to right for -1, then back below for 1."""
    handle = KAPPA * radius
    side, peak = way * radius, way * radius
    return (
        ("M", x + side, y),
        ("C", x + side, y + way * handle, x + way * handle, y + peak, x, y + peak),
        ("C", x - way * handle, y + peak, x - side, y + way * handle, x - side, y),
    )


def star(x: float, y: float, radius: float, points: int = 5, waist: float = 0.42) -> Outline:
    """A star with its first point up; `waist` is the inner radius as a share of the outer one."""
    corners = []
    for at in range(2 * points):
        reach = radius if at % 2 == 0 else radius * waist
        angle = pi * at / points
        corners.append((x + reach * sin(angle), y - reach * cos(angle)))
    return polygon(corners)


def wave(start: Point, length: float, height: float, count: int) -> Outline:
    """An open line of `count` even waves to the right, each rising and falling by `height`."""
    x, y = start
    step = length / count / 2
    segments: list[Segment] = [("M", x, y)]
    for at in range(2 * count):
        rise = -height if at % 2 == 0 else height
        left = x + at * step
        # Handles at 0.3642 of a half wave, 4/3 of its height, bring a cubic close to a sine.
        segments.append(
            (
                "C",
                left + 0.3642 * step,
                y + rise * 4 / 3,
                left + 0.6358 * step,
                y + rise * 4 / 3,
                left + step,
                y,
            )
        )
    return tuple(segments)


def under(transform: Affine, segments: Iterable[Segment]) -> Outline:
    """The outline's image."""
    # Written out, not by `Affine.apply`: the glyphs of a kit's print alone have thousands of points.
    a, b, c, d, e, f = transform
    made: list[Segment] = []
    for segment in segments:
        if len(segment) == 3:
            kind, x, y = segment
            made.append((kind, a * x + c * y + e, b * x + d * y + f))
        elif len(segment) == 7:
            curve, x1, y1, x2, y2, x, y = segment
            first = a * x1 + c * y1 + e, b * x1 + d * y1 + f
            second = a * x2 + c * y2 + e, b * x2 + d * y2 + f
            made.append((curve, *first, *second, a * x + c * y + e, b * x + d * y + f))
        else:
            made.append(segment)
    return tuple(made)


def filled(colour: Colour, *parts: Iterable[Segment]) -> Path:
    """Outlines of one colour as a single path."""
    return Path(tuple(segment for part in parts for segment in part), Fill(colour))


def shared_rows(
    motif: Iterable[Segment], places: Iterable[tuple[tuple[float, ...], float]]
) -> tuple[Row, ...]:
    """One motif in rows: where it stands along each, from left to right, and how far down the row lies."""
    shared = Motif(tuple(motif))
    return tuple(Row(shared, xs, y) for xs, y in places if xs)


@cached_on
def as_path(motifs: Motifs) -> Path:
    """All the motifs as one path."""
    segments = tuple(
        segment
        for row in motifs.rows
        for x in row.xs
        for segment in under(Affine(row.across, 0.0, 0.0, row.down, x, row.y), row.motif.segments)
    )
    return Path(segments, motifs.fill, motifs.stroke)
