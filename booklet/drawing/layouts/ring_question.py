"""What is to be known of a finished layout to place its numbers: plain data, small to send.

So the numbers may find their places in another process than the one that knows the kit.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from booklet.drawing.layouts.look import Look
from booklet.drawing.layouts.rings import StepRing, ring_clusters
from booklet.drawing.marks.ring import ring_reach
from booklet.drawing.papers.piece_print import artwork_of
from booklet.drawing.shapes.affine import Box, Point
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.dataclass import dataclass
from booklet.placing.model import ItemKind, Placed

Outline = tuple[Point, ...]
# The part of a photograph where faces mostly are, as shares of its box: left, top, right, bottom.
_FACES = (0.2, 0.12, 0.8, 0.78)


@dataclass(frozen=True)
class RingItem:
    """An item as it lies on the page, in points: what of it a number must not hide, and where faces may be.

    `covers` tells whether it hides what lies beneath; a bow counts as artwork with all that is seen of it.
    """

    id: int
    layer: int
    outline: Outline
    covers: bool
    is_photo: bool
    is_bow: bool
    artwork: tuple[Outline, ...]
    faces: tuple[Outline, ...]


@dataclass(frozen=True)
class AskedRing:
    """A ring for a printed step: it stands on one of these clusters of items, or on a leader to it."""

    step: int
    clusters: tuple[tuple[RingItem, ...], ...]


@dataclass(frozen=True, eq=False)
class RingQuestion:
    """A page with its items in their stacking order from the base (`base` is its id) upwards, and its rings.

    A ring reaches so far from its middle, and covers no point that is `clear`.
    """

    page: Box
    base: int
    items: tuple[RingItem, ...]
    rings: tuple[AskedRing, ...]
    clear: tuple[Point, ...]
    reach: float


def ring_question(
    look: Look, rings: Sequence[StepRing], style: DrawingStyle, clear: Iterable[Point] = ()
) -> RingQuestion:
    """What is asked of the rings of a finished layout."""
    items = {item.id: _ring_item(item, look) for item in look.layout.items}
    asked = tuple(
        AskedRing(
            ring.step,
            tuple(tuple(items[item.id] for item in each) for each in ring_clusters(ring, look.layout)),
        )
        for ring in rings
    )
    base = look.layout.base.id
    return RingQuestion(look.page, base, tuple(items.values()), asked, tuple(clear), ring_reach(style))


def _ring_item(item: Placed, look: Look) -> RingItem:
    is_photo = item.kind is ItemKind.PHOTO
    return RingItem(
        id=item.id,
        layer=item.layer,
        outline=look.lying[item.id],
        covers=item.covers,
        is_photo=is_photo,
        is_bow=item.id in look.bows,
        artwork=tuple(tuple(outline) for outline in _artwork(item, look)),
        faces=(_faces(item, look),) if is_photo else (),
    )


def _artwork(item: Placed, look: Look) -> Iterable[Sequence[Point]]:
    if item.kind is not ItemKind.PIECE:
        return ()
    return artwork_of(item, look.layout, look.resolved, look.papers, look.scale)


def _faces(item: Placed, look: Look) -> Outline:
    box = look.box(item)
    left, top, right, bottom = _FACES
    middle = Box(box.width * left, box.height * top, box.width * right, box.height * bottom)
    return tuple(map(look.map(item).apply, middle.corners))


def few_rings() -> RingQuestion:
    """A small page with three squares, to get a process going that places rings."""
    squares = tuple(_square(number, 30.0 * number) for number in (1, 2, 3))
    rings = tuple(AskedRing(square.id, ((square,),)) for square in squares)
    return RingQuestion(Box(0.0, 0.0, 144.0, 144.0), 0, squares, rings, (), 7.0)


def _square(number: int, at: float) -> RingItem:
    outline = Box(at, at, at + 40.0, at + 40.0).corners
    return RingItem(number, number, outline, True, False, False, (), ())
