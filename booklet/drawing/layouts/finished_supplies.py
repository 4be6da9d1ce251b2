"""Ribbon, tape, stencil and small metal as they look on a finished page, in the item's own box."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from math import ceil

from booklet.drawing.papers.embellishments import embellishment_shapes
from booklet.drawing.shapes.affine import Affine, Box, compose, rotation, scaling, translation
from booklet.drawing.shapes.figure import (
    Cap,
    Circle,
    Colour,
    Fill,
    Group,
    Line,
    Motifs,
    Path,
    Rect,
    Segment,
    Shape,
    Stroke,
    filled_box,
)
from booklet.drawing.shapes.outlines import Outline, shared_rows, star, under
from booklet.drawing.shapes.scale import Scale
from booklet.kit.kit import Kit
from booklet.kit.supply import Supply, SupplyOutline
from booklet.placing.details import BandForm
from booklet.placing.model import ItemKind, Placed, PlacedLayout
from booklet.placing.stitches import Stitched
from booklet.placing.ties import FIELD, KNOT_TAIL, LOOP, MIDDLE, TAIL, TIES, Curve

# A stencil whose spec says no repeat is drawn with motifs of this size, in points.
_MOTIF = 18.0


def supply_shapes(
    item: Placed, layout: PlacedLayout, box: Box, kit: Kit, ground: Colour, scale: Scale
) -> Iterator[Shape]:
    """What a supply looks like where it is laid, in the item's own box, on a ground of this tone."""
    supply = kit.supply(item.supply)
    colour = Colour(supply.colour) if supply else ground.darker(0.3)
    match item.kind:
        case ItemKind.RIBBON:
            yield from _ribbon_in_form(item, box, colour)
        case ItemKind.TAPE:
            yield from _tape(box, colour)
        case ItemKind.STENCIL:
            width, height = _repeat(supply, kit, scale)
            repeat = (height, width) if item.turn_in_block % 2 else (width, height)
            yield from _stencil(box, repeat, ground)
        case _:
            size = scale.size(supply.size, kit.unit) if supply and supply.size else None
            outline = supply.outline if supply else None
            yield from _stitches(item, layout, box, colour) or _added(item, box, colour, outline, size)


def bows_of(layout: PlacedLayout) -> frozenset[int]:
    """The ids of bows and knots of ribbon, of which only loops, tails and middle cover anything."""
    return frozenset(item.id for item in layout.items if item.form in TIES)


def _ribbon_in_form(item: Placed, box: Box, colour: Colour) -> Iterator[Shape]:
    match item.form:
        case BandForm.BOW:
            return _turned_tie(_bow, box, colour, item.turn)
        case BandForm.KNOT:
            return _turned_tie(_knot, box, colour, item.turn)
        case BandForm.LOOP:
            return _loop(box, colour)
        case _:
            return _ribbon(box, colour)


def _loop(box: Box, colour: Colour) -> Iterator[Shape]:
    """A ribbon folded over: both its ends round, as either may be the one that is seen, and its opening."""
    width, length = sorted((box.width, box.height))
    edge = Stroke(colour.darker(0.35), 0.5)
    yield Rect(0, 0, box.width, box.height, Fill(colour), edge, radius=width * 0.48)
    x, y = box.centre
    reach = max(length / 2 - width * 0.42, 0.0)
    ends = ((x - reach, y), (x + reach, y)) if box.width >= box.height else ((x, y - reach), (x, y + reach))
    yield Line(*ends, Stroke(colour.darker(0.45), width * 0.3, cap=Cap.ROUND))
    yield Line(*ends, Stroke(colour.darker(0.18), width * 0.16, cap=Cap.ROUND))


def _ribbon(box: Box, colour: Colour) -> Iterator[Shape]:
    """A woven band: a darker selvedge along both long edges, a lighter line inside each."""
    yield Rect(0, 0, box.width, box.height, Fill(colour))
    across = box.width >= box.height
    width = min(box.width, box.height)
    for inset, tone in ((0.06, colour.darker(0.28)), (0.2, colour.lighter(0.3))):
        for at in (inset * width, (1 - inset) * width):
            start, end = ((0.0, at), (box.width, at)) if across else ((at, 0.0), (at, box.height))
            yield Line(start, end, Stroke(tone, max(width * 0.07, 0.4)))


def _closed(curves: Iterable[Curve]) -> Outline:
    """Curves as one closed outline, with straight lines from one to the next."""
    segments: list[Segment] = []
    end = None
    for start, first, second, stop in curves:
        if start != end:
            segments.append(("L" if segments else "M", *start))
        segments.append(("C", *first, *second, *stop))
        end = stop
    return (*segments, ("Z",))


def _turned_tie(
    draw: Callable[[Box, Colour], Iterator[Shape]], box: Box, colour: Colour, turn: int
) -> Iterator[Shape]:
    """A bow or a knot that was given quarter turns clockwise, in the box that it then has."""
    if not turn:
        return draw(box, colour)
    width, height = (box.height, box.width) if turn % 2 else (box.width, box.height)
    upright = Box(0.0, 0.0, width, height)
    to_middle = translation(box.centre[0] - upright.centre[0], box.centre[1] - upright.centre[1])
    turned = rotation(90.0 * turn, upright.centre).then(to_middle)
    return iter((Group(tuple(draw(upright, colour)), turned),))


def _bow(box: Box, colour: Colour) -> Iterator[Shape]:
    """Two loops, two tails and a knot."""
    width, height = FIELD
    place = compose(scaling(box.width / width, box.height / height))
    mirror = compose(scaling(-1, 1), translation(width, 0)).then(place)
    edge = Stroke(colour.darker(0.35), 0.5)
    for half in (place, mirror):
        yield Path(under(half, _closed(TAIL)), Fill(colour.darker(0.12)), edge)
    for half in (place, mirror):
        yield Path(under(half, _closed(LOOP)), Fill(colour), edge)
    yield _tied_middle(place, colour)


def _knot(box: Box, colour: Colour) -> Iterator[Shape]:
    """A knot and two tails that lie to its sides."""
    width, height = FIELD
    place = compose(scaling(box.width / width, box.height / height))
    mirror = compose(scaling(-1, 1), translation(width, 0)).then(place)
    for half, tone in ((place, colour.darker(0.12)), (mirror, colour)):
        yield Path(under(half, _closed(KNOT_TAIL)), Fill(tone), Stroke(colour.darker(0.35), 0.5))
    yield _tied_middle(place, colour)


def _tied_middle(place: Affine, colour: Colour) -> Shape:
    middle = Box(*place.apply(MIDDLE[0]), *place.apply(MIDDLE[1]))
    return filled_box(middle, Fill(colour.lighter(0.15)), Stroke(colour.darker(0.35), 0.5), radius=1.0)


def _tape(box: Box, colour: Colour) -> Iterator[Shape]:
    """A printed band: slanting bars of a lighter tone, clipped to it."""
    yield Rect(0, 0, box.width, box.height, Fill(colour))
    across = box.width >= box.height
    width, length = sorted((box.width, box.height))
    step = max(width * 0.9, 3.0)
    bars: list[Segment] = []
    for number in range(-1, ceil(length / step) + 1):
        at = number * step
        thick, slant = step * 0.4, width * 0.6
        corners = ((at, width), (at + thick, width), (at + thick + slant, 0.0), (at + slant, 0.0))
        points = corners if across else tuple((y, x) for x, y in corners)
        bars += [("M", *points[0]), *(("L", *point) for point in points[1:]), ("Z",)]
    tone = colour.lighter(0.45) if colour.luminance < 0.6 else colour.darker(0.14)
    yield Group((Path(tuple(bars), Fill(tone)),), clip=Box(0, 0, box.width, box.height).corners)


def _repeat(supply: Supply | None, kit: Kit, scale: Scale) -> tuple[float, float]:
    if supply is None or supply.repeat is None:
        return _MOTIF, _MOTIF
    return scale.size(supply.repeat, kit.unit)


def _stencil(box: Box, repeat: tuple[float, float], ground: Colour) -> Iterator[Shape]:
    """The stencil's motif at its repeat, in a tone of what lies beneath."""
    width, height = repeat
    tone = ground.darker(0.2) if ground.luminance > 0.18 else ground.lighter(0.3)
    motif = star(0, 0, min(width, height) * 0.45, points=4, waist=0.36)
    xs = tuple((column + 0.5) * width for column in range(ceil(box.width / width)))
    rows = shared_rows(motif, ((xs, (row + 0.5) * height) for row in range(ceil(box.height / height))))
    yield Group((Motifs(rows, Fill(tone)),), clip=Box(0, 0, box.width, box.height).corners)


def _stitches(item: Placed, layout: PlacedLayout, box: Box, colour: Colour) -> list[Shape]:
    """Even dashes, one for each stitch; none of what is no line of stitches."""
    line = next((one for one in layout.details(Stitched) if one.item == item.id), None)
    if line is None:
        return []
    across = line.edge.is_upright == bool(item.turn_in_block % 2)
    width, long = (box.height, box.width) if across else (box.width, box.height)
    dash = long * float(line.length / (line.count * line.length + (line.count - 1) * line.spacing))
    step = (long - dash) / (line.count - 1) if line.count > 1 else 0.0
    stroke = Stroke(colour, max(width * 0.5, 0.7), cap=Cap.ROUND)
    shadow = Stroke(colour.darker(0.45), stroke.width * 1.5, cap=Cap.ROUND)
    # A round cap reaches beyond the end of its line.
    inset = min(shadow.width / 2, dash / 4)
    ends = [(at * step + inset, at * step + dash - inset) for at in range(line.count)]
    points = [((start, width / 2), (end, width / 2)) for start, end in ends]
    lines = points if across else [((y, x), (v, u)) for (x, y), (u, v) in points]
    return [Line(start, end, pen) for pen in (shadow, stroke) for start, end in lines]


def _added(
    item: Placed, box: Box, colour: Colour, outline: SupplyOutline | None, size: tuple[float, float] | None
) -> Iterator[Shape]:
    """Small things: one in its box, or several scattered over it on an even slant."""
    if item.count == 1:
        yield from _one_added(box, colour, outline, item.turn)
        return
    radius = min(3.0, box.height / 4, box.width / 4)
    wide, high = size if size and outline else (2 * radius, 2 * radius)
    wide, high = min(wide, box.width), min(high, box.height)
    for number in range(item.count):
        share = (number + 0.5) / item.count
        # The golden ratio spreads any number of points without two lying close (a known property).
        across = (0.5 + number * 0.6180339887) % 1
        left, top = across * (box.width - wide), share * (box.height - high)
        yield from _one_added(Box(left, top, left + wide, top + high), colour, outline, 0)


def _one_added(box: Box, colour: Colour, outline: SupplyOutline | None, turn: int) -> Iterator[Shape]:
    if outline is None:
        return _brad(*box.centre, min(box.width, box.height) / 2, colour)
    return embellishment_shapes(outline, box, colour, turn)


def _brad(x: float, y: float, radius: float, colour: Colour) -> Iterator[Shape]:
    yield Circle(x + radius * 0.12, y + radius * 0.18, radius, Fill(colour.darker(0.45)))
    yield Circle(x, y, radius, Fill(colour), Stroke(colour.darker(0.3), 0.4))
    yield Circle(x - radius * 0.3, y - radius * 0.3, radius * 0.34, Fill(colour.lighter(0.55)))
