"""A layout at true size, to lay its pieces on or to prick their corners through: every outline at its place.

A line's middle is the edge.  What is seen in the end is drawn in wide lines, what lies beneath in narrow
broken ones (ISO 128-2, from memory); rulers along the page bear the distances that the booklet tells.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, floor
from typing import TYPE_CHECKING

from booklet.cutting.finish import Finish
from booklet.drawing.layouts.finished_supplies import supply_shapes
from booklet.drawing.layouts.look import Look
from booklet.drawing.layouts.rulers import RulerFlag, Rulers, rulers
from booklet.drawing.layouts.stencil_area import stencil_area
from booklet.drawing.papers.piece_outline import TRUE_ARCS, outline_points
from booklet.drawing.shapes.affine import Box, Point, bounds_of_boxes, bounds_of_points, translation
from booklet.drawing.shapes.figure import (
    WHITE,
    Circle,
    Figure,
    Fill,
    Group,
    Line,
    Path,
    Polygon,
    Polyline,
    Rect,
    Shape,
    Stroke,
)
from booklet.drawing.shapes.style import DrawingStyle
from booklet.drawing.templates.area import TemplateArea
from booklet.drawing.templates.label_places import LabelField
from booklet.drawing.templates.lines import drawn_lines, text_boxes
from booklet.drawing.templates.piece_template import AREA_TAG, HOLE_TAG, OUTLINE_TAG, cross
from booklet.drawing.templates.seen import split_by
from booklet.drawing.templates.words import WordBlock
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.length import Size
from booklet.placing.model import ItemKind, Placed
from booklet.placing.stitches import Stitched

if TYPE_CHECKING:
    from booklet.drawing.templates.label_places import Cells

HIDDEN_TAG, PIERCE_TAG, STITCH_TAG = "hidden", "pierce", "stitch"
_DASH = (4.0, 2.4)
# A hole of a needle at each end of a stitch.
_NEEDLE = 0.6
# The dot at the end of a leader.
_DOT = 1.3


@dataclass(frozen=True)
class ThingLabel:
    """What is called by one ring: a printed step, the ids of its things from below, and their names."""

    step: int
    items: tuple[int, ...]
    words: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class LayoutTemplate:
    """What is drawn of a layout; compared by identity, so that what is worked out of it can be kept."""

    name: str
    look: Look
    labels: tuple[ThingLabel, ...]
    flags: tuple[RulerFlag, ...]


def layout_area(template: LayoutTemplate, style: DrawingStyle) -> TemplateArea:
    """What the template of a layout covers: the page with its rulers, and what hangs over."""
    around = _rulers(template, style).box
    box = bounds_of_boxes([around, *map(bounds_of_points, _outlines(template).values())])
    left, top = Fraction(-floor(box.left)), Fraction(-floor(box.top))
    return TemplateArea(Size(left + ceil(box.right), top + ceil(box.bottom)), left, top)


def layout_silhouette(template: LayoutTemplate, style: DrawingStyle) -> tuple[Point, ...]:
    """The outline of the page within the template's area, in points."""
    area = layout_area(template, style)
    here = translation(float(area.left), float(area.top))
    return tuple(map(here.apply, template.look.page.corners))


def draw_layout_template(template: LayoutTemplate, seams: Sequence[Box], style: DrawingStyle) -> Figure:
    """The template of a layout; its labels keep off the seams, along which pages are joined."""
    area = layout_area(template, style)
    here = translation(float(area.left), float(area.top))
    lines = Group(tuple(_lines(template, style)), here)
    shapes = (lines, *_labelled(template, lines, area, seams, style))
    return Figure(template.name, float(area.size.width), float(area.size.height), shapes)


@cached_on
def _rulers(template: LayoutTemplate, style: DrawingStyle) -> Rulers:
    look = template.look
    return rulers(look.page, template.flags, look.resolved.kit.unit, look.scale, style)


@cached_on
def _outlines(template: LayoutTemplate) -> dict[int, tuple[Point, ...]]:
    """The true outline of each thing and of the base where it lies, in points of the page, by its id."""
    look = template.look
    found = {}
    for item in (look.layout.base, *look.layout.items):
        # How large a corner punch bites, no kit says.
        unbitten = replace(item, finish=Finish(roundings=item.finish.roundings))
        box, unit = look.box(item), look.resolved.kit.unit
        flat = outline_points(unbitten, box, look.scale, unit, TRUE_ARCS)
        found[item.id] = tuple(map(look.map(item).apply, flat))
    return found


# Lines.


def _lines(template: LayoutTemplate, style: DrawingStyle) -> Iterator[Shape]:
    """In the order of placing, the page first."""
    look, outlines = template.look, _outlines(template)
    base = Polygon(outlines[look.layout.base.id], None, style.outline)
    yield Group((base,), tag=OUTLINE_TAG)
    for item in look.layout.items:
        yield from _thing(template, item, style)
        yield from _holes(template, item, style)
    yield from _rulers(template, style).shapes


def _thing(template: LayoutTemplate, item: Placed, style: DrawingStyle) -> Iterator[Shape]:
    look = template.look
    if item.kind is ItemKind.ADDED or item.id in look.bows:
        yield from _small(template, item, style)
    elif item.kind is ItemKind.STENCIL:
        yield Group(tuple(stencil_area(item, look, style)), look.map(item), tag=AREA_TAG)
    elif item.kind is ItemKind.WRITING:
        yield Group((Polygon(_outlines(template)[item.id], None, style.fine),), tag=AREA_TAG)
    else:
        yield from _edges(template, item, style)


def _edges(template: LayoutTemplate, item: Placed, style: DrawingStyle) -> Iterator[Shape]:
    """The outline of a thing, broken where it lies beneath others."""
    outlines = _outlines(template)
    split = split_by(outlines[item.id], [outlines[other.id] for other in _above(template, item)])
    if split.is_whole:
        yield Group((Polygon(split.seen[0], None, style.outline),), tag=OUTLINE_TAG)
        return
    dashed = Stroke(style.palette.ink, style.dimension_width, _DASH)
    if split.hidden:
        yield Group(tuple(Polyline(run, dashed) for run in split.hidden), tag=HIDDEN_TAG)
    if split.seen:
        yield Group(tuple(Polyline(run, style.outline) for run in split.seen), tag=OUTLINE_TAG)


def _above(template: LayoutTemplate, item: Placed) -> Iterator[Placed]:
    """What lies on a thing and hides it; small things and ties hide too little to count."""
    for other in template.look.layout.items:
        is_small = other.kind is ItemKind.ADDED or other.id in template.look.bows
        if other.layer > item.layer and other.covers and not is_small:
            yield other


def _small(template: LayoutTemplate, item: Placed, style: DrawingStyle) -> Iterator[Shape]:
    """A small thing, a bow or stitches in outline, with a cross where the middle of one single thing lies."""
    look = template.look
    stitched = next((one for one in look.layout.details(Stitched) if one.item == item.id), None)
    if stitched is not None:
        yield Group(tuple(_stitches(template, item, stitched, style)), look.map(item), tag=STITCH_TAG)
        return
    box = look.box(item)
    drawn = supply_shapes(item, look.layout, box, look.resolved.kit, WHITE, look.scale)
    yield Group(tuple(_outlined(drawn, style.narrow)), look.map(item), tag=OUTLINE_TAG)
    if item.count == 1:
        yield Group(cross(*box.centre, style), look.map(item), tag=PIERCE_TAG)


def _outlined(shapes: Iterator[Shape], stroke: Stroke) -> Iterator[Shape]:
    """Shapes that have an edge, as that edge alone: shadows and lights have none."""
    for shape in shapes:
        if isinstance(shape, Group):
            yield replace(shape, children=tuple(_outlined(iter(shape.children), stroke)))
        elif isinstance(shape, Path | Polygon | Rect | Circle) and shape.stroke is not None:
            yield replace(shape, fill=None, stroke=stroke)


def _stitches(template: LayoutTemplate, item: Placed, line: Stitched, style: DrawingStyle) -> Iterator[Shape]:
    """Each stitch as a line, and a small ring where the needle goes through at its ends."""
    look, unit = template.look, template.look.resolved.kit.unit
    box = look.box(item)
    across = line.edge.is_upright == bool(item.turn_in_block % 2)
    middle = (box.height if across else box.width) / 2
    for at in range(line.count):
        start = look.scale.points(at * (line.length + line.spacing), unit)
        end = start + look.scale.points(line.length, unit)
        ends = [(s, middle) if across else (middle, s) for s in (start, end)]
        yield Line(ends[0], ends[1], style.narrow)
        yield from (Circle(*end_point, _NEEDLE, None, style.fine) for end_point in ends)


def _holes(template: LayoutTemplate, item: Placed, style: DrawingStyle) -> Iterator[Shape]:
    look, unit = template.look, template.look.resolved.kit.unit
    for hole in item.finish.holes:
        if not (0 <= hole.middle.x <= item.rect.width and 0 <= hole.middle.y <= item.rect.height):
            continue
        x, y = look.scale.points(hole.middle.x, unit), look.scale.points(hole.middle.y, unit)
        circle = Circle(x, y, look.scale.points(hole.width, unit) / 2, None, style.narrow)
        yield Group((circle, *cross(x, y, style)), look.map(item), tag=HOLE_TAG)


# Words.


def _labelled(
    template: LayoutTemplate, lines: Group, area: TemplateArea, seams: Sequence[Box], style: DrawingStyle
) -> Iterator[Shape]:
    """Each label on its thing where it has room, those with little room first; else on a leader to it."""
    field = LabelField(float(area.size.width), float(area.size.height))
    field.keep_off(drawn_lines([lines]))
    for box in (*text_boxes([lines]), *seams):
        field.keep_off_box(box)
    rooms = {label: _rooms(template, label, field, area) for label in template.labels}
    for label in sorted(template.labels, key=lambda label: int(rooms[label][1].sum())):
        block = WordBlock(label.words, ring=label.step)
        yield from _label(block, rooms[label], field, style)


def _rooms(
    template: LayoutTemplate, label: ThingLabel, field: LabelField, area: TemplateArea
) -> tuple[Cells, Cells]:
    """What is seen of the topmost of a label's things, and of all of them."""
    here = translation(float(area.left), float(area.top))
    outlines = _outlines(template)
    laid = {id: [here.apply(point) for point in outlines[id]] for id in outlines}
    seen = []
    for id in label.items:
        item = template.look.layout.item(id)
        above = field.cells(laid[other.id] for other in _above(template, item))
        seen.append(field.cells([laid[id]]) & ~above)
    every = seen[0]
    for one in seen[1:]:
        every = every | one
    return seen[-1], every


def _label(
    block: WordBlock, rooms: tuple[Cells, Cells], field: LabelField, style: DrawingStyle
) -> Iterator[Shape]:
    wide, high = block.width(style), block.height
    for room in rooms:
        box = field.within(wide, high, room)
        if box is not None:
            yield from block.shapes(box, style)
            return
    led = next((one for room in rooms if (one := field.beside(wide, high, room)) is not None), None)
    if led is not None:
        box, leader = led
        yield Line(*leader, style.fine)
        yield Circle(*leader[1], _DOT, Fill(style.palette.ink))
        yield from block.shapes(box, style)
