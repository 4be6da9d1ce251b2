"""The signs of the cutting figures, each drawn alone where it is explained."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.drawing.cutting.lens_figure import lens_figure
from booklet.drawing.cutting.paper_parts import beneath, register_mark, scrap_area
from booklet.drawing.cutting.stage_figure import StageCut, StageView
from booklet.drawing.marks.cut_discs import CutMark, Side, cut_heads, head_shapes, stem_start
from booklet.drawing.marks.marker import cut_marker
from booklet.drawing.marks.piece_chip import chip_forms, chip_shapes
from booklet.drawing.marks.trimmer_scale import (
    Band,
    Ruler,
    band_hang,
    band_height,
    band_shapes,
    drawn_divisions,
    numerals,
    stem,
)
from booklet.drawing.marks.width_chain import Width, WidthChain, arrowhead, chain_shapes, merged
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import (
    Figure,
    Fill,
    Line,
    Path,
    Rect,
    Shape,
    Stroke,
    figure_about,
    filled_box,
)
from booklet.drawing.shapes.labels import FigureLabels
from booklet.drawing.shapes.scale import TRUE_SIZE
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Edge
from booklet.measure.exact import Fraction
from booklet.measure.length import TIMES, Size, Unit
from booklet.measure.words import print_length

_WIDTH, _LENS_WIDTH = 92.0, 112.0
_PAPER = Box(0.0, 0.0, 64.0, 24.0)
_GAP, _TICK = 4.0, 9.0
# Typical widths of narrow strips.
_NARROW = {Unit.INCH: Fraction(3, 8), Unit.CENTIMETRE: Fraction(1), Unit.MILLIMETRE: Fraction(10)}
_ALIKE = 6


def reading_sign(value: Fraction, unit: Unit, mark: Fraction, zero: Edge, style: DrawingStyle) -> Figure:
    """A cut at a reading: its number, its stem through the scale, the dashed line on the paper."""
    length = value * Fraction(4, 3)
    size, base = style.scale_label_size, -_GAP
    hang = band_hang(size)
    ruler = Ruler(length, mark, unit, (_WIDTH - 2 * hang) / float(length), zero)
    end = ruler.at(length)
    box = Box(-hang, base - band_height(_TICK, size), end + hang, base)
    band = Band(box, base, 0.0 if zero is Edge.LEFT else end, _TICK, size, ruler)
    shown, side = numerals(ruler, {value}, size), Side(box.top, -1)
    cut = CutMark(1, band.x(value))
    heads = cut_heads([cut], -hang, style)
    top = stem_start(heads[0], cut, side, style)
    shapes: list[Shape] = [
        Rect(0.0, 0.0, end, _PAPER.height, Fill(style.palette.paper), style.outline),
        *band_shapes(band, shown, drawn_divisions(ruler), style),
        *head_shapes(heads, side, style),
        *stem(cut.at, top or box.top, 0.0, band, shown, Stroke(style.palette.accent, style.cut_width)),
        Line((cut.at, 0.0), (cut.at, _PAPER.height), style.cut),
    ]
    return _sign("reading", shapes)


def lens_sign(
    value: Fraction, unit: Unit, mark: Fraction, zero: Edge, labels: FigureLabels, style: DrawingStyle
) -> Figure:
    """A stretch of the scale at true size with two cuts near each other."""
    other = value + _NARROW[unit]
    cuts = (StageCut(2, value), StageCut(1, other))
    seen = Size(2 * value, value)
    view = StageView(
        "sign-lens", unit, TRUE_SIZE, mark, 2 * value, seen, "", cuts, (), 1, False, labels, zero
    )
    return lens_figure(view, (1, 2), _LENS_WIDTH, style, "sign-lens")


def piece_sign(letter: str, style: DrawingStyle) -> Figure:
    """A piece with its letter."""
    return _sign("piece", [*_piece(_PAPER, (letter,), style)])


def set_aside_sign(letter: str, number: int, style: DrawingStyle) -> Figure:
    """A piece that waits for a cut: its letter, an arrow, the number of the cut."""
    paper = Box(0.0, 0.0, 34.0, _PAPER.height)
    y, start = paper.centre[1], paper.right + 5.0
    tip = (start + 17.0, y)
    disc = tip[0] + 2.5 + style.disc_radius
    shapes = [
        *_piece(paper, (letter,), style),
        Line((start, y), (tip[0] - style.arrow_length, y), style.outline),
        Path(arrowhead(tip, (-1.0, 0.0), style.with_changes(arrow_width=4.0)), Fill(style.palette.ink)),
        cut_marker(disc, y, str(number), style),
    ]
    return _sign("set-aside", shapes)


def scrap_sign(labels: FigureLabels, style: DrawingStyle) -> Figure:
    """Hatched scrap."""
    return _sign("scrap", [*scrap_area(_PAPER, labels.scrap, style), _outline(_PAPER, style)])


def stack_sign(letters: Sequence[str], style: DrawingStyle) -> Figure:
    """Papers that lie on each other, a letter for each."""
    shapes = [*beneath(_PAPER, len(letters), style), *_piece(_PAPER, letters, style)]
    return _sign("stack", shapes)


def width_sign(value: Fraction, unit: Unit, style: DrawingStyle) -> Figure:
    """A width under an outline."""
    width = Width(0.0, _PAPER.right, print_length(value, unit))
    return _measured("width", (width,), style)


def bracket_sign(unit: Unit, style: DrawingStyle) -> Figure:
    """Equal strips measured together."""
    pitch, label = _PAPER.width / _ALIKE, print_length(_NARROW[unit], unit)
    widths = [Width(at * pitch, (at + 1) * pitch, label) for at in range(_ALIKE)]
    return _measured("bracket", merged(widths, [True] * _ALIKE, TIMES), style, [w.start for w in widths[1:]])


def register_mark_sign(style: DrawingStyle) -> Figure:
    """A printed register mark with the cut through it."""
    middle = _PAPER.centre[0]
    shapes = [
        _outline(_PAPER, style),
        *register_mark(middle, _PAPER, style),
        Line((middle, _PAPER.top), (middle, _PAPER.bottom), style.cut),
    ]
    return _sign("register-mark", shapes)


def _measured(
    name: str, widths: tuple[Width, ...], style: DrawingStyle, cuts: Sequence[float] = ()
) -> Figure:
    chain = WidthChain(widths, _PAPER.bottom, _PAPER.left, _PAPER.right, style)
    lines = [Line((x, _PAPER.top), (x, _PAPER.bottom), style.cut) for x in cuts]
    return _sign(name, [_outline(_PAPER, style), *lines, *chain_shapes(chain)])


def _piece(box: Box, letters: Sequence[str], style: DrawingStyle) -> list[Shape]:
    """A tinted piece with its chip."""
    tint = filled_box(box, Fill(style.palette.accent.lighter(0.6)), style.outline)
    form = next(chip_forms(letters, (), style))
    return [tint, chip_shapes(form, box.centre, style)]


def _outline(box: Box, style: DrawingStyle) -> Rect:
    return filled_box(box, None, style.outline)


def _sign(name: str, shapes: Sequence[Shape]) -> Figure:
    return figure_about(f"sign-{name}", shapes)
