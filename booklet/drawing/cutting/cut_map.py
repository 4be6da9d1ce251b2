"""A whole sheet with the outlines of all that is cut from it: where each piece lay."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from booklet.cutting.orientation import Orientation
from booklet.drawing.cutting.cut_chips import StripChip, inside_chip
from booklet.drawing.cutting.cut_figure import scrap_area
from booklet.drawing.papers.lying import lie, on_face
from booklet.drawing.shapes.affine import Box, translation
from booklet.drawing.shapes.figure import Figure, Rect, Shape, Symbol, Text, Use
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.geometry import ExactRect, rect_at_origin
from booklet.measure.length import Size, Unit

_EDGE = 1.0  # room for half an outline
_WORDS_GAP = 14.0


@dataclass(frozen=True)
class MapPiece:
    """A piece by its part of the front; scrap has no letters."""

    part: ExactRect
    letters: str
    size: str
    goes: str


@dataclass(frozen=True)
class MapView:
    """A sheet of a size as it lies, lengths in `unit`, and its pieces, which cover it."""

    name: str
    alt: str
    unit: Unit
    scale: Scale
    whole: Size
    lying: Orientation
    pieces: tuple[MapPiece, ...]


def draw_map(view: MapView, symbol: Symbol, style: DrawingStyle) -> Figure:
    """The sheet with its print and its pieces, the scale at its right."""
    wide, high = view.scale.size(view.lying.seen_size(view.whole), view.unit)
    placing = lie(rect_at_origin(view.whole), view.whole, view.lying, view.unit, view.scale).then(
        translation(_EDGE, _EDGE)
    )
    stated = Text(
        view.scale.words,
        wide + _WORDS_GAP,
        _EDGE + high,
        style.note_size,
        Font.SANS,
        style.palette.soft_ink,
        role="scale words",
    )
    boxes = [
        on_face(piece.part, view.whole, view.lying.face, view.unit).under(placing) for piece in view.pieces
    ]
    shapes = (Use(symbol, placing), *_pieces(view.pieces, boxes, style), stated)
    return Figure(
        view.name,
        stated.box.right,
        high + 2 * _EDGE + style.note_size * 0.25,
        shapes,
        view.alt,
        view.scale.words,
    )


def _pieces(pieces: Sequence[MapPiece], boxes: Sequence[Box], style: DrawingStyle) -> Iterator[Shape]:
    for piece, box in zip(pieces, boxes, strict=True):
        if not piece.letters:
            yield from scrap_area(box, style)
    for box in boxes:
        yield Rect(box.left, box.top, box.width, box.height, None, style.outline)
    for piece, box in zip(pieces, boxes, strict=True):
        if piece.letters:
            whole = StripChip(piece.letters, piece.size, piece.goes, box)
            # A small piece still bears its letter.
            chip = inside_chip(whole, style) or inside_chip(replace(whole, size="", goes=""), style)
            yield from chip or ()
