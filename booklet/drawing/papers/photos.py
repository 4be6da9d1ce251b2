"""Stand-ins for photographs: small scenes of our own in greys, so that a page looks in use.

They are grey on purpose: nobody takes them for part of the kit, and they print alike in black.
"""

from __future__ import annotations

from math import cos, pi, sin

from booklet.drawing.shapes.affine import Box, compose, scaling, translation
from booklet.drawing.shapes.figure import Circle, Colour, Fill, Group, Path, Polygon, Rect, Shape
from booklet.drawing.shapes.outlines import outline, under

# From light to dark, slightly blue.
_SKY, _PALE, _LIGHT, _MIDDLE, _DARK, _DEEP = (
    Colour(hex_digits) for hex_digits in ("#eef1f3", "#d9dfe3", "#bcc5cc", "#94a0aa", "#6b7883", "#4a5661")
)
_Scene = tuple[Shape, ...]
# What a scene looks like from afar.
PHOTO_TONE = _MIDDLE


def photo_shapes(box: Box, variety: int) -> Group:
    """A scene that fills a box; `variety` picks which, so that neighbours differ."""
    landscape = box.width >= box.height
    scenes = _LYING if landscape else _UPRIGHT
    scene = scenes[variety % len(scenes)]
    side = max(box.width, box.height)
    # Scenes are drawn on a square of 100 that covers the box; what lies outside is cut off.
    place = compose(scaling(side / 100), translation(box.centre[0] - side / 2, box.centre[1] - side / 2))
    return Group((Group(scene, place),), clip=box.corners, tag="photo")


def _area(colour: Colour, path: str) -> Path:
    return Path(outline(path), Fill(colour))


def _sky(colour: Colour = _SKY) -> Rect:
    return Rect(0, 0, 100, 100, Fill(colour))


def _person(x: float, ground: float, height: float, colour: Colour) -> tuple[Shape, ...]:
    """A figure seen from afar, its feet on the ground."""
    body = outline(
        "M -3.4 0 L -2.6 -8 C -5.4 -9 -5.6 -14 -4.6 -17 C -3.6 -19.4 3.6 -19.4 4.6 -17"
        " C 5.6 -14 5.4 -9 2.6 -8 L 3.4 0 L 0.6 0 L 0 -6 L -0.6 0 Z"
    )
    factor = height / 25
    place = compose(scaling(factor), translation(x, ground))
    return (
        Path(under(place, body), Fill(colour)),
        Circle(x, ground - 22.2 * factor, 3.1 * factor, Fill(colour)),
    )


def _tree(x: float, ground: float, height: float, colour: Colour) -> Path:
    """A fir on its trunk."""
    fir = outline(
        "M 0 -25 L 4.9 -13.75 L 2.8 -13.75 L 7 -3 L -7 -3 L -2.8 -13.75 L -4.9 -13.75 Z"
        " M -1 -3 L 1 -3 L 1 0 L -1 0 Z"
    )
    return Path(under(compose(scaling(height / 25), translation(x, ground)), fir), Fill(colour))


_HILLS: _Scene = (
    _sky(),
    Circle(70, 36, 8, Fill(_PALE)),
    _area(_LIGHT, "M 0 52 C 14 40 26 40 40 50 C 54 38 74 36 100 50 L 100 100 L 0 100 Z"),
    _area(_MIDDLE, "M 0 62 C 24 50 40 58 58 60 C 74 54 88 56 100 62 L 100 100 L 0 100 Z"),
    _area(_DARK, "M 0 74 C 30 62 52 74 100 68 L 100 100 L 0 100 Z"),
)

_TWO_ON_A_HILL: _Scene = (
    _sky(_PALE),
    Circle(26, 34, 9, Fill(_SKY)),
    _area(_LIGHT, "M 0 58 C 22 46 40 56 60 50 C 78 44 90 50 100 54 L 100 100 L 0 100 Z"),
    _area(_DARK, "M 0 80 C 26 62 70 60 100 76 L 100 100 L 0 100 Z"),
    *_person(46, 69, 25, _DEEP),
    *_person(58, 68.5, 18, _DEEP),
)

_PEAKS: _Scene = (
    _sky(),
    _area(_LIGHT, "M -6 74 L 28 30 L 44 52 L 62 24 L 108 74 L 108 100 L -6 100 Z"),
    _area(_SKY, "M 62 24 L 70.4 33.4 L 65 37 L 60 33 L 55.6 35 Z"),
    _area(_SKY, "M 28 30 L 33.4 37.4 L 29 40 L 25 37.6 L 22.4 37.4 Z"),
    _area(_MIDDLE, "M 0 70 C 24 58 44 66 64 68 C 78 62 90 64 100 70 L 100 100 L 0 100 Z"),
    *(_tree(x, 74 + 3 * (x % 4) / 2, 13 + x % 5, _DEEP) for x in (10, 18, 27, 72, 80, 90)),
)

_HAIR = "M 35.6 48 C 33 30 44 27 52 28 C 62 29 68 38 64.4 49 C 62 42 56 40 50 41 C 44 42 38 42 35.6 48 Z"

_PORTRAIT: _Scene = (
    _sky(_PALE),
    Circle(78, 24, 12, Fill(_SKY)),
    _area(_LIGHT, "M 0 66 C 30 54 70 54 100 66 L 100 100 L 0 100 Z"),
    _area(_DARK, "M 24 100 C 24 76 36 68 50 68 C 64 68 76 76 76 100 Z"),
    _area(_MIDDLE, "M 45 58 L 55 58 L 55 70 C 52 73 48 73 45 70 Z"),
    Circle(50, 47, 14, Fill(_MIDDLE)),
    _area(_DEEP, _HAIR),
)

_CUP: _Scene = (
    _sky(_PALE),
    Rect(0, 62, 100, 38, Fill(_LIGHT)),
    _area(_MIDDLE, "M 26 72 C 26 68 74 68 74 72 C 74 77 26 77 26 72 Z"),
    _area(_DARK, "M 34 46 L 66 46 C 66 64 62 71 50 71 C 38 71 34 64 34 46 Z"),
    _area(_DEEP, "M 34 46 C 34 43.4 66 43.4 66 46 C 66 48.6 34 48.6 34 46 Z"),
    _area(_DARK, "M 65 49 C 76 48 76 62 62 62 L 63 59 C 71 59 71 52 65 52 Z"),
    _area(_SKY, "M 44 40 C 40 34 48 32 44 25 C 50 31 43 34 47 40 Z"),
    _area(_SKY, "M 55 40 C 51 34 59 32 55 25 C 61 31 54 34 58 40 Z"),
)

_CROWN = tuple(
    Circle(50 + 15 * cos(2 * pi * at / 7), 38 + 13 * sin(2 * pi * at / 7), 12, Fill(_MIDDLE))
    for at in range(7)
)
_TALL_TREE: _Scene = (
    _sky(),
    _area(_LIGHT, "M 0 72 C 30 64 70 64 100 72 L 100 100 L 0 100 Z"),
    _area(_DEEP, "M 47 82 L 48.6 48 L 51.4 48 L 53 82 Z"),
    *_CROWN,
    Circle(50, 38, 15, Fill(_MIDDLE)),
    Circle(44, 33, 8, Fill(_LIGHT)),
    *_person(62, 82, 17, _DEEP),
)

_WINDOW: _Scene = (
    _sky(_DARK),
    Rect(24, 14, 52, 62, Fill(_SKY)),
    _area(_LIGHT, "M 24 58 C 38 46 54 56 76 48 L 76 76 L 24 76 Z"),
    Rect(48.6, 14, 2.8, 62, Fill(_DEEP)),
    Rect(24, 42, 52, 2.8, Fill(_DEEP)),
    Polygon(((20, 76), (80, 76), (84, 82), (16, 82)), Fill(_MIDDLE)),
    *_person(36, 79, 26, _DEEP),
)

_LYING = (_TWO_ON_A_HILL, _PEAKS, _HILLS, _CUP, _TALL_TREE)
_UPRIGHT = (_PORTRAIT, _TALL_TREE, _WINDOW, _TWO_ON_A_HILL, _CUP)
