"""Small pictures and frames for printed elements: plain, in two colours, drawn into any box.

Each picture is designed on a square of 100 by 100 and fills the largest square in the middle of its box.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from math import cos, pi, sin

from booklet.drawing.shapes.affine import Box, compose, rotation, scaling, translation
from booklet.drawing.shapes.figure import (
    Cap,
    Colour,
    Fill,
    Group,
    Join,
    Motif,
    Motifs,
    Path,
    Row,
    Shape,
    Stroke,
    filled_box,
)
from booklet.drawing.shapes.outlines import (
    KAPPA,
    Outline,
    circle,
    outline,
    polygon,
    rectangle,
    star,
    under,
    wave,
)
from booklet.kit.element import ElementFrame, ElementPicture
from booklet.measure.dataclass import dataclass

_SIDE = 100.0


def picture_shapes(picture: ElementPicture, box: Box, main: Colour, second: Colour) -> Group:
    """A picture in the middle of a box, in a main and a second colour."""
    side = min(box.width, box.height)
    x, y = box.centre
    place = compose(scaling(side / _SIDE), translation(x - side / 2, y - side / 2))
    shapes = tuple(part.shape(second if part.is_second else main) for part in _PICTURES[picture])
    return Group(shapes, place, tag=f"picture {picture.value}")


@dataclass(frozen=True)
class _Part:
    """Outlines of one of the two colours: filled, or drawn with a round pen of a width."""

    is_second: bool
    outlines: tuple[Outline, ...]
    pen: float | None

    @cached_property
    def _rows(self) -> tuple[Row, ...]:
        return (Row(Motif(tuple(segment for each in self.outlines for segment in each)), (0.0,), 0.0),)

    def shape(self, colour: Colour) -> Motifs:
        if self.pen is None:
            return Motifs(self._rows, Fill(colour))
        return Motifs(self._rows, stroke=Stroke(colour, self.pen, cap=Cap.ROUND, join=Join.ROUND))


def _main(*outlines: Outline | str, pen: float | None = None) -> _Part:
    return _Part(False, tuple(map(_read, outlines)), pen)


def _second(*outlines: Outline | str, pen: float | None = None) -> _Part:
    return _Part(True, tuple(map(_read, outlines)), pen)


def _read(written: Outline | str) -> Outline:
    return outline(written) if isinstance(written, str) else written


def _rays(count: int, inner: float, outer: float, half_angle: float) -> Iterator[Outline]:
    """Pointed rays about the middle of the square."""
    for at in range(count):
        angle = 2 * pi * at / count
        corners = (inner, angle - half_angle), (outer, angle), (inner, angle + half_angle)
        yield polygon([(50 + reach * sin(turn), 50 - reach * cos(turn)) for reach, turn in corners])


_PETAL = outline("M 0 -8 C -22 -22 -17 -46 0 -46 C 17 -46 22 -22 0 -8 Z")

_PICTURES: dict[ElementPicture, tuple[_Part, ...]] = {
    ElementPicture.SUN: (_second(*_rays(12, 31, 47, 0.15)), _main(circle(50, 50, 25))),
    ElementPicture.WAVE: (
        _second(wave((6, 30), 88, 9, 2), pen=6),
        _main(wave((6, 51), 88, 10, 2), pen=8),
        _second(wave((6, 72), 88, 9, 2), pen=6),
    ),
    ElementPicture.LEAF: (
        _main("M 82 14 C 44 12 12 36 20 80 C 62 88 90 54 82 14 Z"),
        _second(
            "M 10 90 L 68 30 M 34 66 L 33 46 M 46 54 L 46 36 M 58 41 L 59 27 M 34 66 L 55 67 M 46 54 L 66 54"
            " M 58 41 L 73 42",
            pen=3.2,
        ),
    ),
    ElementPicture.STAR: (_main(star(50, 53, 46, waist=0.45)), _second(star(50, 53, 22, waist=0.45))),
    ElementPicture.HEART: (
        _main(
            "M 50 88 C 22 66 8 50 8 33 C 8 20 18 11 30 11 C 39 11 46 16 50 24 C 54 16 61 11 70 11"
            " C 82 11 92 20 92 33 C 92 50 78 66 50 88 Z"
        ),
        _second("M 20 36 C 20 28 25 22 32 22", pen=5),
    ),
    ElementPicture.BOAT: (
        _main(
            "M 10 66 L 90 66 C 86 78 78 86 68 86 L 30 86 C 20 86 14 78 10 66 Z", rectangle(48.4, 6, 3.2, 60)
        ),
        _second("M 54 8 C 74 22 84 40 86 58 L 54 58 Z", "M 46 18 C 42 34 32 48 18 58 L 46 58 Z"),
    ),
    ElementPicture.SHELL: (
        _main(
            "M 50 90 L 40 90 L 41 78 C 18 68 6 50 8 36 C 11 28 20 27 24 31 C 26 20 36 16 41 22"
            " C 44 12 56 12 59 22 C 64 16 74 20 76 31 C 80 27 89 28 92 36 C 94 50 82 68 59 78 L 60 90 Z"
        ),
        _second("M 46 76 L 25 38 M 48.5 75 L 41 32 M 51.5 75 L 59 32 M 54 76 L 75 38", pen=3.4),
    ),
    ElementPicture.ANCHOR: (
        _main("M 50 28 L 50 86 M 33 40 L 67 40 M 16 58 C 18 76 32 87 50 87 C 68 87 82 76 84 58", pen=7),
        _main("M 16 50 L 25 66 L 8 68 Z M 84 50 L 92 68 L 75 66 Z"),
        _second(circle(50, 18, 9), pen=6),
    ),
    ElementPicture.ARROW: (
        _second(
            "M 12 50 L 4 38 L 18 38 L 26 50 L 18 62 L 4 62 Z",
            "M 28 50 L 20 38 L 28 38 L 36 50 L 28 62 L 20 62 Z",
        ),
        _main("M 14 50 L 78 50", pen=5),
        _main("M 94 50 L 70 36 L 76 50 L 70 64 Z"),
    ),
    ElementPicture.FEATHER: (
        _main(
            "M 86 10 C 58 10 30 28 24 62 L 31 60 L 26 70 C 34 76 42 77 50 74 L 50 66 L 57 71"
            " C 78 58 90 34 86 10 Z"
        ),
        _second("M 10 92 C 28 70 48 46 74 24", pen=3.6),
    ),
    ElementPicture.FLOWER: (
        _main(*(under(compose(rotation(60.0 * at), translation(50, 50)), _PETAL) for at in range(6))),
        _second(circle(50, 50, 11)),
    ),
    ElementPicture.CAMERA: (
        # The bump, then the body, their corners rounded to 5 and to 9.
        _main(
            "M 39 18 L 61 18 C 63.76 18 66 20.24 66 23 L 66 35 C 66 37.76 63.76 40 61 40 L 39 40"
            " C 36.24 40 34 37.76 34 35 L 34 23 C 34 20.24 36.24 18 39 18 Z",
            "M 15 28 L 85 28 C 89.97 28 94 32.03 94 37 L 94 75 C 94 79.97 89.97 84 85 84 L 15 84"
            " C 10.03 84 6 79.97 6 75 L 6 37 C 6 32.03 10.03 28 15 28 Z",
        ),
        _second(circle(50, 56, 20), rectangle(76, 35, 10, 6)),
        _main(circle(50, 56, 13)),
        _second("M 43 56 C 43 51 46 49 50 49", pen=3),
    ),
}


# The lines of each frame, in its measure: how far in, how wide, how dashed.
_FRAMES: dict[ElementFrame, tuple[tuple[float, float, tuple[float, ...]], ...]] = {
    ElementFrame.NONE: (),
    ElementFrame.LINE: ((1.2, 0.4, ()),),
    ElementFrame.DOUBLE: ((1.0, 0.4, ()), (2.0, 0.3, ())),
    ElementFrame.DASHED: ((1.2, 0.3, (1.1, 0.8)),),
    ElementFrame.TICKET: ((1.0, 0.4, ()), (2.1, 0.28, ())),
}


def frame_shapes(frame: ElementFrame, box: Box, colour: Colour) -> tuple[Shape, ...]:
    """A printed frame within a box: its lines keep off the edge, so that a cut a little off spares them."""
    step = _measure(box)
    lines = [
        (box.grown(-step * inset), Stroke(colour, step * width, tuple(step * dash for dash in dashes)))
        for inset, width, dashes in _FRAMES[frame]
    ]
    if frame is ElementFrame.TICKET:
        return tuple(Path(_ticket(inner, step * 2), stroke=stroke) for inner, stroke in lines)
    return tuple(filled_box(inner, None, stroke) for inner, stroke in lines)


def frame_depth(box: Box) -> float:
    """How far the deepest frame reaches in from a box's edge, in points."""
    return 2.3 * _measure(box)


def _measure(box: Box) -> float:
    """A twentieth of the shorter side, between 5 and 10 points: what frames are measured in.

    Of the smallest elements a ninth, so that what a frame encloses is still a box.
    """
    side = min(box.width, box.height)
    return min(10.0, max(5.0, side / 20), side / 9)


def _ticket(box: Box, radius: float) -> Outline:
    """A rectangle whose corners are bitten out by quarter circles."""
    left, top, right, bottom = box
    handle = radius * KAPPA
    return (
        ("M", left + radius, top),
        ("L", right - radius, top),
        ("C", right - radius, top + handle, right - handle, top + radius, right, top + radius),
        ("L", right, bottom - radius),
        ("C", right - handle, bottom - radius, right - radius, bottom - handle, right - radius, bottom),
        ("L", left + radius, bottom),
        ("C", left + radius, bottom - handle, left + handle, bottom - radius, left, bottom - radius),
        ("L", left, top + radius),
        ("C", left + handle, top + radius, left + radius, top + handle, left + radius, top),
        ("Z",),
    )
