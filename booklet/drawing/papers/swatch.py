"""Swatches: what lies in the box, small enough for a list and still recognisable."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.drawing.papers.embellishments import embellishment_shapes
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.papers.piece_outline import outline_points
from booklet.drawing.shapes.affine import Box, Point, box_about, scaling, translation
from booklet.drawing.shapes.figure import (
    Circle,
    Colour,
    Figure,
    Fill,
    Polygon,
    Rect,
    Shape,
    Stroke,
    Symbol,
    Use,
)
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Face
from booklet.kit.kit import Kit
from booklet.kit.sheet import ReadyCut
from booklet.kit.supply import Supply, SupplyKind, SupplyOutline
from booklet.measure.geometry import rect_at_origin
from booklet.placing.model import ItemKind, Placed


def _edge(style: DrawingStyle) -> Stroke:
    return Stroke(style.palette.ink, style.dimension_width)


def _print(symbol: Symbol, outline: tuple[Point, ...], width: float) -> Use:
    factor = width / symbol.width
    return Use(symbol, scaling(factor), tuple((x / factor, y / factor) for x, y in outline))


def ready_swatch(kit: Kit, papers: KitPapers, ready: ReadyCut, scale: Scale, style: DrawingStyle) -> Figure:
    """A ready-cut piece in its outline."""
    width, height = scale.size(ready.size, kit.unit)
    outline = outline_points(_as_placed(ready), Box(0.0, 0.0, width, height), scale, kit.unit)
    symbol = papers.paper(ready.paper, Face.FRONT, ready.size)
    shapes = (_print(symbol, outline, width), Polygon(outline, None, _edge(style)))
    return Figure(f"swatch-{ready.name}", width, height, shapes)


def _as_placed(ready: ReadyCut) -> Placed:
    """The piece as it would lie in a corner of a page."""
    at = rect_at_origin(ready.size)
    return Placed(0, 0, ready.name, None, ItemKind.PIECE, at, (), outline=ready.outline)


_WIDTH, _HEIGHT = 26.0, 14.0
# The middles of a few small things side by side, or of the holes of a stencil; how broad
# the frame of an ink pad is.
_FEW, _PAD_FRAME = (4.6, 13.0, 21.4), 3.0
# Wider than high by this, one alone is shown of a thing with an outline of its own.
_BROAD = 1.6


def supply_swatch(supply: Supply, style: DrawingStyle) -> Figure:
    """A supply's colour in the shape of what it is, told apart without colour too; to no scale."""
    colour = Colour(supply.colour)
    if supply.outline is not None:
        shapes = tuple(_outlined(supply, supply.outline, colour))
    else:
        shapes = tuple(_supply_shapes(supply.kind, Fill(colour), style))
    return Figure(f"supply-{supply.id}", _WIDTH, _HEIGHT, shapes)


def _outlined(supply: Supply, outline: SupplyOutline, colour: Colour) -> Iterator[Shape]:
    """A few in their own proportions, or one where they are broad."""
    width, height = (float(supply.size.width), float(supply.size.height)) if supply.size else (1.0, 1.0)
    is_broad = width > _BROAD * height
    room = _WIDTH - 4 if is_broad else _FEW[1] - _FEW[0] - 1
    factor = min(room / width, (_HEIGHT - 2) / height)
    for x in _FEW[1:2] if is_broad else _FEW:
        box = box_about((x, _HEIGHT / 2), width * factor, height * factor)
        yield from embellishment_shapes(outline, box, colour)


def _supply_shapes(kind: SupplyKind, colour: Fill, style: DrawingStyle) -> Iterator[Shape]:
    """A band, flat dots, brads whose heads shine, thick foam, a stencil with its holes, an ink pad."""
    edge, paper, y = Stroke(style.palette.ink, style.fine_width), Fill(style.palette.paper), _HEIGHT / 2
    match kind:
        case SupplyKind.RIBBON | SupplyKind.TAPE:
            yield Rect(1, y - 3.6, _WIDTH - 2, 7.2, colour, edge)
        case SupplyKind.DOTS:
            yield from (Circle(x, y, 3.4, colour, edge) for x in _FEW)
        case SupplyKind.BRADS:
            for x in _FEW:
                yield Circle(x, y, 3.4, colour, edge)
                yield Circle(x - 0.9, y - 0.9, 1.0, paper)
        case SupplyKind.FOAM:
            for x in _FEW:
                yield Circle(x, y + 1.4, 3.4, Fill(style.palette.ink))
                yield Circle(x, y - 0.9, 3.4, colour, edge)
        case SupplyKind.STENCIL:
            yield Rect(1, y - 6, _WIDTH - 2, 12, colour, edge)
            for x in _FEW:
                yield Polygon(((x, y - 4), (x + 2.4, y), (x, y + 4), (x - 2.4, y)), paper, edge)
        case SupplyKind.INK:
            yield Rect(2, y - 6, 22, 12, paper, edge, radius=2.0)
            yield Rect(
                2 + _PAD_FRAME, y - 6 + _PAD_FRAME, 22 - 2 * _PAD_FRAME, 12 - 2 * _PAD_FRAME, colour, edge
            )
        case SupplyKind.ADHESIVE:
            yield Rect(5, y - 6, 16, 12, colour, edge, radius=2.0)


_STRIP_GAP = 3.0


def swatch_strips(kit: Kit, papers: KitPapers, width: float, height: float) -> Figure:
    """A strip of every paper side by side, as large as a sheet must be to be `height` points high.

    Printed sheets of small elements stay out, as a strip would cut their words.
    """
    shown = [index for index, sheet in enumerate(kit.sheets) if not sheet.is_cut_apart]
    each = (width + _STRIP_GAP) / max(len(shown), 1) - _STRIP_GAP
    shapes: list[Shape] = []
    for place, index in enumerate(shown):
        symbol = papers.sheet(index, Face.FRONT)
        factor = max(height / symbol.height, each / symbol.width)
        seen = Box(0.0, 0.0, each / factor, height / factor)
        at = translation(place * (each + _STRIP_GAP), 0.0)
        shapes.append(Use(symbol, scaling(factor).then(at), seen.corners))
    return Figure("papers", width, height, tuple(shapes))
