"""A small page as it stands once a step is done: its own things in their print, all earlier ones pale.

It shows what the finished look hides: edges that lie beneath something are dashed, and an arrow shows where a
thing is slid under what lies there already.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise
from math import ceil, hypot

from booklet.drawing.layouts.finished_figure import item_shapes
from booklet.drawing.layouts.look import Look, areas_of, paper_tone
from booklet.drawing.layouts.stencil_area import stencil_area
from booklet.drawing.shapes.affine import Box, Point, bounds_of_points, translation
from booklet.drawing.shapes.figure import (
    WHITE,
    Cap,
    Circle,
    Colour,
    Figure,
    Fill,
    Group,
    Join,
    Line,
    Polygon,
    Polyline,
    Shape,
    Stroke,
)
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.length import Size, Unit
from booklet.placing.details import BandForm, CutLength
from booklet.placing.model import ItemKind, Placed

ARROW_TAG, HIDDEN_TAG = "slide", "hidden"
# Room about the page for an arrow, or for the end of a ribbon that is folded behind.
_MARGIN = 6.0
_PALE, _LIGHT_ENOUGH = 0.72, 0.66
_DASH = (2.2, 1.5)
_CASING = 0.9
# Points along an outline and within a thing at which it is seen whether something covers it.
_STEP, _SAMPLES = 0.8, 14
_ARROW, _ARROW_WIDTH, _HEAD, _HALF_HEAD, _BENEATH = 17.0, 1.4, 5.2, 2.7, 6.0
_WIDE, _ROUND = 4.0, 0.5


def step_figure_size(size: Size, unit: Unit, scale: Scale) -> tuple[float, float]:
    """How wide and high a step's figure of a page of `size` is drawn, in points."""
    width, height = scale.size(size, unit)
    return width + 2 * _MARGIN, height + 2 * _MARGIN


def draw_step_figure(look: Look, numbers: Sequence[int], step: int, style: DrawingStyle, name: str) -> Figure:
    """The page of `look` once the printed step is done; `numbers` gives that of each step of the spec."""
    there = [item for item in look.layout.items if numbers[item.step_number - 1] <= step]
    own = [item for item in there if numbers[item.step_number - 1] == step]
    page = look.page
    stacked = (
        Polygon(page.corners, Fill(_pale(paper_tone(look.layout.base, look)))),
        *_stacked(there, own, look, style),
    )
    shapes: tuple[Shape, ...] = (
        *(shape for item in own for shape in _folded_ends(item, look, style)),
        Group(stacked, clip=page.corners),
        Polygon(page.corners, None, Stroke(style.palette.ink, style.fine_width)),
        *(shape for item in own for shape in _hidden_edges(item, _above(item, there, look), look, style)),
        *(shape for item in own for shape in _slide(item, _above(item, there, look), look, style)),
    )
    width, height = step_figure_size(look.layout.size, look.resolved.kit.unit, look.scale)
    moved = Group(shapes, translation(_MARGIN, _MARGIN))
    return Figure(name, width, height, (moved,), areas=areas_of(look, there, _MARGIN, _MARGIN))


def _pale(tone: Colour) -> Colour:
    """A tint light enough for any line on it, whatever the paper's own tone."""
    pale = tone.lighter(_PALE)
    while pale.luminance < _LIGHT_ENOUGH:
        pale = pale.lighter(0.2)
    return pale


def _stacked(
    there: Sequence[Placed], own: Sequence[Placed], look: Look, style: DrawingStyle
) -> Iterator[Shape]:
    """What lies on the page by now, from below upwards."""
    edge = Stroke(style.palette.rule, style.fine_width)
    for item in there:
        outline, box = look.lying[item.id], look.reach[item.id]
        if item in own:
            yield from item_shapes(item, look)
            if item.kind is ItemKind.STENCIL:
                yield Group(tuple(stencil_area(item, look, style)), look.map(item))
            if _is_outlined(item, own, look):
                yield Polygon(outline, None, Stroke(style.palette.ink, style.fine_width))
        elif item.kind is ItemKind.ADDED and item.count == 1 and abs(box.width - box.height) < _ROUND:
            yield Circle(*box.centre, box.height / 2, Fill(WHITE), edge)
        elif item.covers:
            tone = WHITE if item.kind is ItemKind.PHOTO else _pale(paper_tone(item, look))
            yield Polygon(outline, Fill(tone), edge)


def _is_outlined(item: Placed, own: Sequence[Placed], look: Look) -> bool:
    """Whether a line is drawn about a thing: not where it is narrow, or lies on its own mat."""
    box = look.reach[item.id]
    is_on_its_mat = any(one.layer < item.layer and look.reach[one.id].holds(box) for one in own)
    is_paper = item.kind in (ItemKind.PIECE, ItemKind.PHOTO, ItemKind.TAPE, ItemKind.RIBBON)
    is_wide = min(box.width, box.height) >= _WIDE
    return is_paper and is_wide and not is_on_its_mat and item.id not in look.bows


# What lies beneath.


def _above(item: Placed, there: Sequence[Placed], look: Look) -> tuple[Placed, ...]:
    """What covers a part of a thing by now."""
    reach = look.reach[item.id]
    return tuple(
        other
        for other in there
        if other.layer > item.layer
        and other.covers
        and other.kind is not ItemKind.ADDED
        and other.id not in look.bows
        and look.reach[other.id].overlaps(reach)
    )


def _hidden_edges(item: Placed, above: Sequence[Placed], look: Look, style: DrawingStyle) -> Iterator[Shape]:
    """The parts of a thing's outline that lie beneath others, dashed on white."""
    covers = [look.lying[other.id] for other in above]
    dashes = Stroke(style.palette.ink, style.dimension_width, _DASH)
    casing = Stroke(style.palette.paper, style.dimension_width + 2 * _CASING)
    for run in _covered_runs(look.lying[item.id], covers):
        yield Group((Polyline(run, casing), Polyline(run, dashes)), tag=HIDDEN_TAG)


def _covered_runs(outline: Sequence[Point], covers: Sequence[Sequence[Point]]) -> Iterator[tuple[Point, ...]]:
    points = list(_points_along(outline))
    for hidden, run in groupby(points, key=lambda point: any(_holds(cover, point) for cover in covers)):
        found = tuple(run)
        if hidden and len(found) > 1:
            yield found


def _points_along(outline: Sequence[Point]) -> Iterator[Point]:
    for (x0, y0), (x1, y1) in pairwise((*outline, outline[0])):
        count = max(1, ceil(hypot(x1 - x0, y1 - y0) / _STEP))
        for at in range(count):
            yield x0 + (x1 - x0) * at / count, y0 + (y1 - y0) * at / count
    yield outline[0]


def _holds(outline: Sequence[Point], point: Point) -> bool:
    """Whether a point lies within an outline, by the even-odd rule."""
    x, y = point
    inside = False
    for (x0, y0), (x1, y1) in pairwise((*outline, outline[0])):
        if (y0 <= y) != (y1 <= y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            inside = not inside
    return inside


def _slide(item: Placed, above: Sequence[Placed], look: Look, style: DrawingStyle) -> Iterator[Shape]:
    """An arrow from what is seen of a thing to beneath what lay there before it."""
    covers = [look.lying[other.id] for other in above if other.id < item.id]
    outline = look.lying[item.id]
    box = bounds_of_points(outline)
    grid = (
        (box.left + box.width * (column + 0.5) / _SAMPLES, box.top + box.height * (row + 0.5) / _SAMPLES)
        for row in range(_SAMPLES)
        for column in range(_SAMPLES)
    )
    parts: dict[bool, list[Point]] = {True: [], False: []}
    for point in grid:
        if _holds(outline, point):
            parts[any(_holds(cover, point) for cover in covers)].append(point)
    if parts[True] and parts[False]:
        seen, hidden = _middle(parts[False]), _middle(parts[True])
        yield _arrow(seen, hidden, covers, style)


def _middle(points: Sequence[Point]) -> Point:
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def _arrow(seen: Point, hidden: Point, covers: Sequence[Sequence[Point]], style: DrawingStyle) -> Group:
    """An arrow that ends a little way beneath the edge under which a thing is slid."""
    length = max(hypot(hidden[0] - seen[0], hidden[1] - seen[1]), 1e-6)
    way = (hidden[0] - seen[0]) / length, (hidden[1] - seen[1]) / length

    def along(distance: float, aside: float = 0.0) -> Point:
        """The point so far from the middle of what is seen, and so far to the side."""
        return seen[0] + way[0] * distance - way[1] * aside, seen[1] + way[1] * distance + way[0] * aside

    steps = ceil(length / _STEP)
    edge = next((at for at in range(steps) if any(_holds(one, along(at * _STEP)) for one in covers)), steps)
    tip = edge * _STEP + _BENEATH
    shaft = along(tip - _ARROW), along(tip - _HEAD + 0.5)
    head = along(tip), along(tip - _HEAD, _HALF_HEAD), along(tip - _HEAD, -_HALF_HEAD)
    accent, paper = style.palette.accent, style.palette.paper
    casing = Stroke(paper, 2 * _CASING, join=Join.ROUND)
    return Group(
        (
            Line(*shaft, Stroke(paper, _ARROW_WIDTH + 2 * _CASING, cap=Cap.ROUND)),
            Polygon(head, Fill(paper), casing),
            Line(*shaft, Stroke(accent, _ARROW_WIDTH, cap=Cap.ROUND)),
            Polygon(head, Fill(accent)),
        ),
        tag=ARROW_TAG,
    )


def _folded_ends(item: Placed, look: Look, style: DrawingStyle) -> Iterator[Shape]:
    """The ends of a band that runs from edge to edge, which are folded behind the page: dashed, beyond it."""
    page, box = look.page, look.reach[item.id]
    cut = next((one for one in look.layout.details(CutLength) if one.item == item.id), None)
    if cut is None or cut.form is not BandForm.RUN or not cut.allowance:
        return
    end = min(look.scale.points(cut.allowance / 2, look.resolved.kit.unit), _MARGIN - 1)
    if box.width >= box.height:
        ends = (
            Box(page.left - end, box.top, page.left, box.bottom),
            Box(page.right, box.top, page.right + end, box.bottom),
        )
    else:
        ends = (
            Box(box.left, page.top - end, box.right, page.top),
            Box(box.left, page.bottom, box.right, page.bottom + end),
        )
    dashed = Stroke(style.palette.ink, style.fine_width, _DASH)
    for one in ends:
        yield Polygon(one.corners, Fill(_pale(paper_tone(item, look))), dashed)
