"""Shadows without transparency: an item's outline once more, in darker tones of whatever it falls on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from booklet.drawing.layouts.look import Look, beneath, paper_tone
from booklet.drawing.shapes.affine import bounds_of_points, translation
from booklet.drawing.shapes.figure import Colour, Fill, Group, Path, Shape
from booklet.drawing.shapes.outlines import polygon
from booklet.placing import polygons
from booklet.placing.model import ItemKind, Placed

# Shadows fall to the lower right: how far, in points, and how much darker than what they fall on.
_SHADOWS = ((1.5, 0.14), (0.8, 0.3))
_RAISED_SHADOWS = ((3.2, 0.12), (2.2, 0.22), (1.2, 0.36))


def shadow_shapes(item: Placed, look: Look) -> Iterator[Shape]:
    """The item's outline moved a little to the lower right, on each thing beneath in a darker tone of it."""
    place, outline = look.map(item), look.outline(item)
    for distance, darker in _RAISED_SHADOWS if item.finish.raised else _SHADOWS:
        moved = place.then(translation(distance * 0.8, distance))
        cast = tuple(map(moved.apply, outline))
        shapes = tuple(
            Path(tuple(segment for part in parts for segment in polygon(part)), Fill(tone.darker(darker)))
            for tone, parts in _fallen_on(cast, beneath(item, look), look)
        )
        yield Group(shapes, tag="shadow")


def _fallen_on(
    cast: polygons.Ring, grounds: Iterable[Placed], look: Look
) -> Iterator[tuple[Colour, list[polygons.Ring]]]:
    """The tones of what a shadow falls on, from above downwards, each with the parts of it that lie there."""
    left, reach = [cast], bounds_of_points(cast)
    for ground in grounds:
        cover = look.lying[ground.id]
        if ground.kind is not ItemKind.BASE and not reach.overlaps(look.reach[ground.id]):
            continue
        if ground.kind is ItemKind.BASE or polygons.surely_holds(cover, cast):
            yield paper_tone(ground, look), left
            return
        here = [shared for part in left for shared in polygons.common(part, cover)]
        if here:
            yield paper_tone(ground, look), here
            left = polygons.without(left, cover)
            if not left:
                return
