"""Small pictures and frames for printed elements: plain, in two colours, drawn into any box.

Each picture is designed on a square of 100 by 100 and fills the largest square in the middle of its box.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import cos, pi, sin

from booklet.drawing.shapes.affine import Box, compose, rotation, scaling, translation
from booklet.drawing.shapes.figure import Cap, Colour, Fill, Group, Join, Path, Rect, Segment, Shape, Stroke
from booklet.drawing.shapes.outlines import (
    KAPPA,
    Outline,
    circle,
    filled,
    outline,
    polygon,
    rectangle,
    star,
    under,
    wave,
)
from booklet.kit.sheet import ElementFrame, ElementPicture

_SIDE = 100.0


def picture_shapes(picture: ElementPicture, box: Box, main: Colour, second: Colour) -> Group:
    """A picture in the middle of a box, in a main and a second colour."""
    side = min(box.width, box.height)
    x, y = box.centre
    place = compose(scaling(side / _SIDE), translation(x - side / 2, y - side / 2))
    return Group(_PICTURES[picture](main, second), place, tag=f"picture {picture.value}")


def _pen(colour: Colour, width: float, *parts: Iterable[Segment]) -> Path:
    stroke = Stroke(colour, width, cap=Cap.ROUND, join=Join.ROUND)
    return Path(tuple(segment for part in parts for segment in part), stroke=stroke)


def _rays(count: int, inner: float, outer: float, half_angle: float) -> list[Outline]:
    """Pointed rays about the middle of the square."""
    made = []
    for at in range(count):
        angle = 2 * pi * at / count
        corners = (
            (inner, angle - half_angle),
            (outer, angle),
            (inner, angle + half_angle),
        )
        made.append(polygon([(50 + reach * sin(turn), 50 - reach * cos(turn)) for reach, turn in corners]))
    return made


def _sun(main: Colour, second: Colour) -> tuple[Shape, ...]:
    return (
        filled(second, *_rays(12, 31, 47, 0.15)),
        filled(main, circle(50, 50, 25)),
    )


def _wave(main: Colour, second: Colour) -> tuple[Shape, ...]:
    return (
        _pen(second, 6, wave((6, 30), 88, 9, 2)),
        _pen(main, 8, wave((6, 51), 88, 10, 2)),
        _pen(second, 6, wave((6, 72), 88, 9, 2)),
    )


_LEAF = outline("M 82 14 C 44 12 12 36 20 80 C 62 88 90 54 82 14 Z")
_LEAF_VEINS = outline(
    "M 10 90 L 68 30 M 34 66 L 33 46 M 46 54 L 46 36 M 58 41 L 59 27 M 34 66 L 55 67 M 46 54 L 66 54"
    " M 58 41 L 73 42"
)


def _leaf(main: Colour, second: Colour) -> tuple[Shape, ...]:
    return filled(main, _LEAF), _pen(second, 3.2, _LEAF_VEINS)


def _star(main: Colour, second: Colour) -> tuple[Shape, ...]:
    return filled(main, star(50, 53, 46, waist=0.45)), filled(second, star(50, 53, 22, waist=0.45))


_HEART = outline(
    "M 50 88 C 22 66 8 50 8 33 C 8 20 18 11 30 11 C 39 11 46 16 50 24 C 54 16 61 11 70 11 C 82 11 92 20 92 33"
    " C 92 50 78 66 50 88 Z"
)
_HEART_SHINE = outline("M 20 36 C 20 28 25 22 32 22")


def _heart(main: Colour, second: Colour) -> tuple[Shape, ...]:
    return filled(main, _HEART), _pen(second, 5, _HEART_SHINE)


_HULL = outline("M 10 66 L 90 66 C 86 78 78 86 68 86 L 30 86 C 20 86 14 78 10 66 Z")
_SAIL = outline("M 54 8 C 74 22 84 40 86 58 L 54 58 Z")
_JIB = outline("M 46 18 C 42 34 32 48 18 58 L 46 58 Z")


def _boat(main: Colour, second: Colour) -> tuple[Shape, ...]:
    return (
        filled(main, _HULL, rectangle(48.4, 6, 3.2, 60)),
        filled(second, _SAIL, _JIB),
    )


_SHELL = outline(
    "M 50 90 L 40 90 L 41 78 C 18 68 6 50 8 36 C 11 28 20 27 24 31 C 26 20 36 16 41 22 C 44 12 56 12 59 22"
    " C 64 16 74 20 76 31 C 80 27 89 28 92 36 C 94 50 82 68 59 78 L 60 90 Z"
)
_SHELL_RIBS = outline("M 46 76 L 25 38 M 48.5 75 L 41 32 M 51.5 75 L 59 32 M 54 76 L 75 38")


def _shell(main: Colour, second: Colour) -> tuple[Shape, ...]:
    return filled(main, _SHELL), _pen(second, 3.4, _SHELL_RIBS)


_ANCHOR_BODY = outline("M 50 28 L 50 86 M 33 40 L 67 40 M 16 58 C 18 76 32 87 50 87 C 68 87 82 76 84 58")
_ANCHOR_FLUKES = outline("M 16 50 L 25 66 L 8 68 Z M 84 50 L 92 68 L 75 66 Z")


def _anchor(main: Colour, second: Colour) -> tuple[Shape, ...]:
    return (
        _pen(main, 7, _ANCHOR_BODY),
        filled(main, _ANCHOR_FLUKES),
        _pen(second, 6, circle(50, 18, 9)),
    )


_ARROW_SHAFT = outline("M 14 50 L 78 50")
_ARROW_HEAD = outline("M 94 50 L 70 36 L 76 50 L 70 64 Z")
_ARROW_FLETCHING = outline(
    "M 12 50 L 4 38 L 18 38 L 26 50 L 18 62 L 4 62 Z M 28 50 L 20 38 L 28 38 L 36 50 L 28 62 L 20 62 Z"
)


def _arrow(main: Colour, second: Colour) -> tuple[Shape, ...]:
    return filled(second, _ARROW_FLETCHING), _pen(main, 5, _ARROW_SHAFT), filled(main, _ARROW_HEAD)


_VANE = outline(
    "M 86 10 C 58 10 30 28 24 62 L 31 60 L 26 70 C 34 76 42 77 50 74 L 50 66 L 57 71 C 78 58 90 34 86 10 Z"
)
_QUILL = outline("M 10 92 C 28 70 48 46 74 24")


def _feather(main: Colour, second: Colour) -> tuple[Shape, ...]:
    return filled(main, _VANE), _pen(second, 3.6, _QUILL)


_PETAL = outline("M 0 -8 C -22 -22 -17 -46 0 -46 C 17 -46 22 -22 0 -8 Z")


def _flower(main: Colour, second: Colour) -> tuple[Shape, ...]:
    petals = [under(compose(rotation(60.0 * at), translation(50, 50)), _PETAL) for at in range(6)]
    return filled(main, *petals), filled(second, circle(50, 50, 11))


def _camera(main: Colour, second: Colour) -> tuple[Shape, ...]:
    return (
        Rect(34, 18, 32, 22, Fill(main), radius=5),
        Rect(6, 28, 88, 56, Fill(main), radius=9),
        filled(second, circle(50, 56, 20), rectangle(76, 35, 10, 6)),
        filled(main, circle(50, 56, 13)),
        _pen(second, 3, outline("M 43 56 C 43 51 46 49 50 49")),
    )


_PICTURES: dict[ElementPicture, Callable[[Colour, Colour], tuple[Shape, ...]]] = {
    ElementPicture.SUN: _sun,
    ElementPicture.WAVE: _wave,
    ElementPicture.LEAF: _leaf,
    ElementPicture.STAR: _star,
    ElementPicture.HEART: _heart,
    ElementPicture.BOAT: _boat,
    ElementPicture.SHELL: _shell,
    ElementPicture.ANCHOR: _anchor,
    ElementPicture.ARROW: _arrow,
    ElementPicture.FEATHER: _feather,
    ElementPicture.FLOWER: _flower,
    ElementPicture.CAMERA: _camera,
}


def frame_shapes(frame: ElementFrame, box: Box, colour: Colour) -> tuple[Shape, ...]:
    """A printed frame within a box: its lines keep off the edge, so that a cut a little off spares them."""
    return _FRAMES[frame](box, colour)


def frame_depth(box: Box) -> float:
    """How far the deepest frame reaches in from a box's edge, in points."""
    return 2.3 * _measure(box)


def _measure(box: Box) -> float:
    """A twentieth of the shorter side, between 5 and 10 points: what frames are measured in.

    Of the smallest elements a ninth, so that what a frame encloses is still a box.
    """
    side = min(box.width, box.height)
    return min(10.0, max(5.0, side / 20), side / 9)


def _lined(box: Box, inset: float, stroke: Stroke) -> Rect:
    inner = box.grown(-inset)
    return Rect(inner.left, inner.top, inner.width, inner.height, None, stroke)


def _no_frame(box: Box, colour: Colour) -> tuple[Shape, ...]:
    del box, colour
    return ()


def _line_frame(box: Box, colour: Colour) -> tuple[Shape, ...]:
    step = _measure(box)
    return (_lined(box, step * 1.2, Stroke(colour, step * 0.4)),)


def _double_frame(box: Box, colour: Colour) -> tuple[Shape, ...]:
    step = _measure(box)
    return (
        _lined(box, step, Stroke(colour, step * 0.4)),
        _lined(box, step * 2.0, Stroke(colour, step * 0.3)),
    )


def _dashed_frame(box: Box, colour: Colour) -> tuple[Shape, ...]:
    step = _measure(box)
    return (_lined(box, step * 1.2, Stroke(colour, step * 0.3, (step * 1.1, step * 0.8))),)


def _ticket_frame(box: Box, colour: Colour) -> tuple[Shape, ...]:
    step = _measure(box)
    outer, inner = box.grown(-step), box.grown(-step * 2.1)
    return (
        Path(_ticket(outer, step * 2), stroke=Stroke(colour, step * 0.4)),
        Path(_ticket(inner, step * 2), stroke=Stroke(colour, step * 0.28)),
    )


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


_FRAMES: dict[ElementFrame, Callable[[Box, Colour], tuple[Shape, ...]]] = {
    ElementFrame.NONE: _no_frame,
    ElementFrame.LINE: _line_frame,
    ElementFrame.DOUBLE: _double_frame,
    ElementFrame.DASHED: _dashed_frame,
    ElementFrame.TICKET: _ticket_frame,
}
