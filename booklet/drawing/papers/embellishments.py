"""Small things that are put on one by one, by the outline that their maker says: charms, jewels, foam."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, pi, sin

from booklet.drawing.shapes.affine import Box, compose, rotation, scaling, translation
from booklet.drawing.shapes.figure import Colour, Fill, Path, Segment, Shape, Stroke, bounds
from booklet.drawing.shapes.outlines import Outline, circle, outline, polygon, rectangle, star, under
from booklet.kit.supply import SupplyOutline

_SIDE = 100.0
_MIDDLE = (_SIDE / 2, _SIDE / 2)


def _filling(points: Outline) -> Outline:
    """What reaches neither the sides nor the foot of the square about it, stretched until it does."""
    box = bounds([Path(points)])
    factors = scaling(_SIDE / box.width, _SIDE / box.height)
    return under(compose(translation(-box.left, -box.top), factors), points)


def _petals(count: int) -> Iterator[Segment]:
    """Round petals about the middle of the square, the first one up."""
    for at in range(count):
        angle = 2 * pi * at / count
        yield from circle(50 + 29 * sin(angle), 50 - 29 * cos(angle), 21)


# Each fills a square of 100 by 100, which is stretched to the size of the thing.
_OUTLINES: dict[SupplyOutline, Outline] = {
    SupplyOutline.CIRCLE: circle(50, 50, 50),
    SupplyOutline.HALF_CIRCLE: outline("M 0 100 C 0 44.8 22.4 0 50 0 C 77.6 0 100 44.8 100 100 Z"),
    SupplyOutline.RECTANGLE: rectangle(0, 0, _SIDE, _SIDE),
    SupplyOutline.DIAMOND: polygon(((50, 0), (100, 50), (50, 100), (0, 50))),
    SupplyOutline.DROP: outline(
        "M 50 0 C 65 28 100 46 100 66 C 100 85 78 100 50 100 C 22 100 0 85 0 66 C 0 46 35 28 50 0 Z"
    ),
    SupplyOutline.HEART: outline(
        "M 50 100 C 17 71 0 50 0 28 C 0 12 12 0 26 0 C 37 0 45 6 50 17"
        " C 55 6 63 0 74 0 C 88 0 100 12 100 28 C 100 50 83 71 50 100 Z"
    ),
    SupplyOutline.STAR: _filling(star(50, 50, 50, waist=0.45)),
    SupplyOutline.FLOWER: _filling(tuple(_petals(5))),
}


def embellishment_shapes(kind: SupplyOutline, box: Box, colour: Colour, turn: int = 0) -> Iterator[Shape]:
    """One such thing in its box, turned by so many quarters clockwise: its shadow, itself, a light on it."""
    place = compose(rotation(90.0 * turn, _MIDDLE), scaling(box.width / _SIDE, box.height / _SIDE))
    place = place.then(translation(box.left, box.top))
    reach = min(box.width, box.height)
    drawn = _OUTLINES[kind]
    shadow = under(place.then(translation(reach * 0.05, reach * 0.08)), drawn)
    yield Path(shadow, Fill(colour.darker(0.45)))
    yield Path(under(place, drawn), Fill(colour), Stroke(colour.darker(0.3), 0.4))
    light = compose(scaling(0.62), translation(0.19 * _SIDE, 0.19 * _SIDE))
    yield Path(under(light.then(place), drawn), Fill(colour.lighter(0.22)))
