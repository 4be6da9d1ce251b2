"""A whole sheet with the outlines and letters of all that is cut from it: where each piece lay."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.cutting.orientation import Orientation
from booklet.drawing.cutting.paper_parts import scrap_area
from booklet.drawing.marks.piece_chip import ChipForm, chip_form, chip_forms, chip_shapes
from booklet.drawing.marks.placement import Board
from booklet.drawing.papers.lying import lie, on_face
from booklet.drawing.shapes.affine import Box, box_about, translation
from booklet.drawing.shapes.figure import Area, Figure, Shape, Symbol, Use, filled_box
from booklet.drawing.shapes.labels import FigureLabels
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.dataclass import dataclass
from booklet.measure.geometry import ExactRect, rect_at_origin
from booklet.measure.length import Size, Unit

_EDGE = 1.0  # room for half an outline
_CLEAR = 0.5  # between a chip and printed words or pictures


@dataclass(frozen=True)
class MappedPiece:
    """A piece by its part of the front; scrap has no letters."""

    part: ExactRect
    letters: tuple[str, ...]
    words: tuple[str, ...]


@dataclass(frozen=True)
class PieceMapView:
    """A sheet of a size as it lies, lengths in `unit`, and its pieces, which cover it.

    `artwork` are the boxes of printed words and pictures on the face that is seen, in points at full size.
    """

    name: str
    unit: Unit
    scale: Scale
    whole: Size
    lying: Orientation
    pieces: tuple[MappedPiece, ...]
    artwork: tuple[Box, ...]
    labels: FigureLabels


def piece_map_size(view: PieceMapView) -> tuple[float, float]:
    """How wide and high the figure will be, in points; nothing is drawn for it."""
    wide, high = view.scale.size(view.lying.seen_size(view.whole), view.unit)
    return wide + 2 * _EDGE, high + 2 * _EDGE


def draw_piece_map(view: PieceMapView, symbol: Symbol, style: DrawingStyle) -> Figure:
    """The sheet with its print and its pieces."""
    width, height = piece_map_size(view)
    placing = lie(rect_at_origin(view.whole), view.whole, view.lying, view.unit, view.scale).then(
        translation(_EDGE, _EDGE)
    )
    boxes = [
        on_face(piece.part, view.whole, view.lying.face, view.unit).under(placing) for piece in view.pieces
    ]
    artwork = [box.under(placing) for box in view.artwork]
    said = f"{view.labels.scale} {view.scale.ratio}"
    shapes = (Use(symbol, placing), *_pieces(view, boxes, artwork, style))
    areas = tuple(Area(box, at) for at, box in enumerate(boxes))
    return Figure(view.name, width, height, shapes, "", said, areas=areas)


def _pieces(
    view: PieceMapView, boxes: Sequence[Box], artwork: Sequence[Box], style: DrawingStyle
) -> Iterator[Shape]:
    for piece, box in zip(view.pieces, boxes, strict=True):
        if not piece.letters:
            yield from scrap_area(box, view.labels.scrap, style)
    for box in boxes:
        yield filled_box(box, None, style.outline)
    for piece, box in zip(view.pieces, boxes, strict=True):
        if piece.letters:
            own = [art for art in artwork if art.overlaps(box)]
            yield from _lettered(piece, box, own, style)


def _lettered(piece: MappedPiece, box: Box, artwork: Sequence[Box], style: DrawingStyle) -> Iterator[Shape]:
    """The chip in the middle of a piece, or where that shows words or a picture, beside them.

    Where no chip has room beside them there is none: the words tell the piece.
    """
    if not artwork:
        form = chip_form(piece.letters, piece.words, box.width, box.height, style)
        if form is not None:
            yield chip_shapes(form, box.centre, style)
        return
    board = Board(within=box, clear=_CLEAR)
    board.take(*artwork)
    for form in chip_forms(piece.letters, (), style):
        spot = board.best(_spots(form, box)) if form.fits(box.width, box.height) else None
        if spot is not None:
            yield chip_shapes(form, spot.centre, style)
            return


def _spots(form: ChipForm, box: Box) -> Iterator[Box]:
    """Places for a chip on a piece: its corners, its edges, its middle."""
    across = box.width / 2 - form.width / 2 - _EDGE
    down = box.height / 2 - form.height / 2 - _EDGE
    x, y = box.centre
    for right, low in ((-1, -1), (1, -1), (-1, 1), (1, 1), (0, -1), (0, 1), (-1, 0), (1, 0), (0, 0)):
        yield box_about((x + right * across, y + low * down), form.width, form.height)
