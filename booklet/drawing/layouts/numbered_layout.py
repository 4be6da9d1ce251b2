"""The finished page with a ring for each printed step, and rulers along its edges whose flags name values."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.drawing.layouts.look import Look, areas_of
from booklet.drawing.layouts.ring_places import RingPlace
from booklet.drawing.layouts.ring_question import RingQuestion, ring_question
from booklet.drawing.layouts.rings import StepRing
from booklet.drawing.layouts.rulers import RulerFlag, flagged_places, rulers, rulers_box
from booklet.drawing.marks.ring import ring_on_picture, ring_reach
from booklet.drawing.shapes.affine import Box, scaling, translation
from booklet.drawing.shapes.figure import Figure, Group, Line, Polygon, Shape, Stroke, Symbol, Use, bounds
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.length import Size, Unit

LEADER_TAG = "ring leader"
_LEADER_CASING, _TICK = 1.1, 2.0


def numbered_layout_size(
    size: Size, unit: Unit, flags: Sequence[RulerFlag], scale: Scale, style: DrawingStyle
) -> tuple[float, float]:
    """How wide and high the numbered layout of a page of `size` is drawn, in points."""
    box = rulers_box(Box(0.0, 0.0, *scale.size(size, unit)), flags, unit, scale, style)
    return box.width, box.height


def numbers_question(
    look: Look, rings: Sequence[StepRing], flags: Sequence[RulerFlag], style: DrawingStyle
) -> RingQuestion:
    """Where the rings of a numbered layout are to stand: clear of what its rulers point at."""
    clear = flagged_places(look.page, flags, look.resolved.kit.unit, look.scale, style)
    return ring_question(look, rings, style, clear)


def draw_numbered_layout(
    look: Look,
    finished: Symbol,
    places: Sequence[RingPlace],
    flags: Sequence[RulerFlag],
    style: DrawingStyle,
    name: str,
) -> Figure:
    """The finished look of a layout at the scale of `look`, numbered and measured.

    `finished` is its look at any scale, drawn or photographed; `places` are those of its numbers.
    """
    page = look.page
    framed = rulers(page, flags, look.resolved.kit.unit, look.scale, style)
    over = tuple(_numbers(places, style))
    shapes: tuple[Shape, ...] = (
        Use(finished, scaling(page.width / finished.width, page.height / finished.height)),
        Polygon(page.corners, None, Stroke(style.palette.ink, style.dimension_width)),
        *framed.shapes,
        *over,
    )
    box = framed.box
    if any(place.at[1] > page.bottom for place in places):
        box = bounds((*over, Polygon(box.corners, None, None)))
    moved = Group(shapes, translation(-box.left, -box.top))
    areas = areas_of(look, look.layout.items, -box.left, -box.top)
    return Figure(name, box.width, box.height, (moved,), areas=areas)


def _numbers(places: Sequence[RingPlace], style: DrawingStyle) -> Iterator[Shape]:
    """All leaders first, so that no ring is crossed by one."""
    for place in places:
        if place.leader is not None:
            yield Group(tuple(_leader(place, style)), tag=LEADER_TAG)
    for place in places:
        yield ring_on_picture(*place.at, place.step, style)


def _leader(place: RingPlace, style: DrawingStyle) -> Iterator[Shape]:
    """A straight line in a casing of white from the ring to its thing, and a short stroke across its end."""
    assert place.leader is not None
    (x, y), (end_x, end_y) = place.at, place.leader
    length = max(((end_x - x) ** 2 + (end_y - y) ** 2) ** 0.5, 1e-6)
    across, down = -(end_y - y) / length * _TICK, (end_x - x) / length * _TICK
    tick = ((end_x - across, end_y - down), (end_x + across, end_y + down))
    start = (
        x + (end_x - x) / length * (ring_reach(style) - 1.5),
        y + (end_y - y) / length * (ring_reach(style) - 1.5),
    )
    casing = Stroke(style.palette.paper, style.narrow.width + 2 * _LEADER_CASING)
    for stroke in (casing, style.narrow):
        yield Line(start, place.leader, stroke)
        yield Line(*tick, stroke)
