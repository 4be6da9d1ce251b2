"""The placing figure of a layout: pale pieces as they are stacked, numbered as the steps, and measured."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from booklet.drawing.layouts.gap_dimensions import gap_dimensions
from booklet.drawing.layouts.look import Look, paper_tone
from booklet.drawing.layouts.placing_markers import placing_markers
from booklet.drawing.layouts.stencil_area import stencil_area
from booklet.drawing.marks.dimension import Side
from booklet.drawing.marks.running import Stop, running_line
from booklet.drawing.shapes.affine import Box, Point, translation
from booklet.drawing.shapes.figure import (
    WHITE,
    Circle,
    Colour,
    Figure,
    Fill,
    Group,
    Line,
    Polygon,
    Shape,
    Stroke,
    bounds,
)
from booklet.drawing.shapes.style import DrawingStyle, mm
from booklet.kit.kit import layout_title
from booklet.measure.exact import Fraction
from booklet.measure.words import ruler_length
from booklet.placing.model import ItemKind, Measure, MeasureKind, Placed

_PIECE_WIDTH = mm(0.35)
_PALE = 0.7


def placing_map(look: Look, numbers: Mapping[int, int], style: DrawingStyle, name: str) -> Figure:
    """The numbered pieces without measures; `numbers` gives the printed number of each step of the spec."""
    markers = placing_markers(look, numbers, style, bounds([_edge(look, style)]).bottom)
    return _figure(markers, look, style, name, "numbered as the steps are")


def placing_figure(look: Look, numbers: Mapping[int, int], style: DrawingStyle, name: str) -> Figure:
    """The numbered pieces with their running dimensions, as large as both need; `numbers` as for the map."""
    guides = tuple(_guides(look, style))
    measures = (*guides, *_running(look, style))
    markers = placing_markers(look, numbers, style, bounds((_edge(look, style), *measures)).bottom)
    gaps = gap_dimensions(look, markers, guides, style)
    what = "numbered as the steps are, with what a ruler is needed for"
    return _figure((*measures, *gaps, *markers), look, style, name, what)


def _figure(over: Sequence[Shape], look: Look, style: DrawingStyle, name: str, what: str) -> Figure:
    """The page with its pale pieces, which nothing of them reaches beyond, and what is drawn over it."""
    pieces, edge = Group(tuple(_pale_pieces(look, style)), clip=look.page.corners), _edge(look, style)
    box = bounds((edge, *over))
    title = layout_title(look.resolved.kit.layouts[look.layout.index])
    moved = Group((pieces, edge, *over), translation(-box.left, -box.top))
    alt = f"{title}: where each piece goes, {what}"
    return Figure(name, box.width, box.height, (moved,), alt, look.scale.words)


def _edge(look: Look, style: DrawingStyle) -> Shape:
    return Polygon(look.page.corners, None, style.outline)


def _pale_pieces(look: Look, style: DrawingStyle) -> Iterator[Shape]:
    yield Polygon(look.page.corners, Fill(_pale(paper_tone(look.layout.base, look))))
    for item in look.layout.items:
        outline = look.outline(item)
        shapes = tuple(_pale_item(item, outline, look, style))
        yield Group(shapes, look.map(item))


def _pale(tone: Colour) -> Colour:
    """A tint light enough for ink and numbers, whatever the paper's own tone."""
    pale = tone.lighter(_PALE)
    while pale.luminance < 0.62:
        pale = pale.lighter(0.2)
    return pale


def _pale_item(item: Placed, outline: Sequence[Point], look: Look, style: DrawingStyle) -> Iterator[Shape]:
    line = Stroke(style.palette.ink, _PIECE_WIDTH)
    box = look.box(item)
    match item.kind:
        case ItemKind.PHOTO:
            yield Polygon(tuple(outline), Fill(WHITE), line)
            yield from _photo_sign(box)
        case ItemKind.WRITING:
            yield from _writing_lines(box, style)
        case ItemKind.STENCIL:
            yield from stencil_area(item, look, style)
        case ItemKind.ADDED:
            yield from _dots(item, box, style)
        case ItemKind.RIBBON | ItemKind.TAPE:
            yield Polygon(tuple(outline), Fill(Colour("#e3e6e9")), line)
        case _:
            yield Polygon(tuple(outline), Fill(_pale(paper_tone(item, look))), line)


def _photo_sign(box: Box) -> Iterator[Shape]:
    """A low skyline that says photograph, upright as the photograph is."""
    grey = Fill(Colour("#e6e9ec"))
    inside = box.grown(-min(2.5, box.width * 0.06))
    foot, peak = inside.bottom, inside.top + inside.height * 0.56
    points = (
        (inside.left, foot),
        (inside.left, peak + inside.height * 0.16),
        (inside.left + inside.width * 0.32, peak),
        (inside.left + inside.width * 0.52, peak + inside.height * 0.2),
        (inside.left + inside.width * 0.74, peak + inside.height * 0.06),
        (inside.right, peak + inside.height * 0.24),
        (inside.right, foot),
    )
    yield Polygon(points, grey)


def _writing_lines(box: Box, style: DrawingStyle) -> Iterator[Shape]:
    step = max(6.0, box.height / max(1, round(box.height / 8)))
    y = step
    while y <= box.height + 0.1:
        yield Line((0, y - 1), (box.width, y - 1), Stroke(style.palette.soft_ink, style.fine_width))
        y += step


def _dots(item: Placed, box: Box, style: DrawingStyle) -> Iterator[Shape]:
    line = Stroke(style.palette.ink, style.fine_width)
    if item.count == 1:
        yield Circle(*box.centre, min(box.width, box.height) / 2, Fill(WHITE), line)
        return
    yield Polygon(box.corners, None, Stroke(style.palette.ink, style.fine_width, (1.5, 1.5)))


# Measures.


def _on_page(measure: Measure) -> bool:
    return measure.against == (0,) and measure.kind is not MeasureKind.BORDER


def _is_across(measure: Measure) -> bool:
    return measure.start.y == measure.end.y


def _side(measure: Measure) -> tuple[Side, bool]:
    """Where a measure from the page's edge is drawn, and whether it starts at the left or top."""
    if _is_across(measure):
        from_left = measure.start.x == 0
        return (Side.TOP if from_left else Side.BOTTOM), from_left
    from_top = measure.start.y == 0
    return (Side.RIGHT if from_top else Side.LEFT), from_top


def _running(look: Look, style: DrawingStyle) -> list[Shape]:
    """One running line for each edge that something is measured from; equal distances are shown once."""
    unit = look.resolved.kit.unit
    stops: dict[tuple[Side, bool], dict[Fraction, Stop]] = {}
    for measure in filter(_on_page, look.layout.measures):
        end = measure.end.x if _is_across(measure) else measure.end.y
        stop = Stop(look.scale.points(end, unit), ruler_length(measure.length, unit))
        stops.setdefault(_side(measure), {})[end] = stop
    shapes: list[Shape] = []
    for (side, from_start), found in stops.items():
        shapes += running_line(side, look.page, from_start, tuple(found.values()), style)
    return shapes


def _guides(look: Look, style: DrawingStyle) -> Iterator[Shape]:
    """A fine line from the page's edge to the edge that is measured, so that the eye finds it."""
    unit, page = look.resolved.kit.unit, look.page
    stroke = Stroke(style.palette.soft_ink, style.fine_width, (1.2, 1.8))
    for measure in filter(_on_page, look.layout.measures):
        item = look.layout.item(measure.owner)
        side, _ = _side(measure)
        rect = item.rect
        at = look.scale.points(measure.end.x if _is_across(measure) else measure.end.y, unit)
        near_top, near_bottom = (look.scale.points(value, unit) for value in (rect.y, rect.bottom))
        near_left, near_right = (look.scale.points(value, unit) for value in (rect.x, rect.right))
        ends = {
            Side.TOP: ((at, page.top), (at, near_top)),
            Side.BOTTOM: ((at, page.bottom), (at, near_bottom)),
            Side.RIGHT: ((page.right, at), (near_right, at)),
            Side.LEFT: ((page.left, at), (near_left, at)),
        }
        yield Line(*ends[side], stroke)
