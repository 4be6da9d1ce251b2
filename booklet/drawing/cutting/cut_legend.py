"""The signs of the cutting figures, each drawn alone for the page that explains them."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.drawing.cutting.cut_figure import REGISTER_DROP, register_mark, scrap_area
from booklet.drawing.marks.dimension import Side, dimension
from booklet.drawing.marks.marker import piece_chip
from booklet.drawing.marks.scale_bar import Reading, Ruler, scale_bar, shared_view
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Figure, Fill, Line, Rect, Shape, Stroke, bounds, translated
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit

# How wide the column of signs is, in points.
SIGN_WIDTH = 96.0


def sign_of_reading(unit: Unit, text: str, value: Fraction, span: Fraction, style: DrawingStyle) -> Figure:
    """A stretch of the scale from its zero, with one reading and the paper's edge under it."""
    ruler = Ruler(span, span / 32, unit, (SIGN_WIDTH - 22) / float(span))
    drawn = scale_bar(0, 0, ruler, [Reading("1", value, text)], style)
    right = ruler.at(span)
    edge = Rect(0, 0, right, 26, Fill(style.palette.paper), style.outline)
    return _sign("reading", [edge, *drawn.shapes, _cut(ruler.at(value), 0, 26, style)])


def sign_of_piece(label: str, note: str, style: DrawingStyle) -> Figure:
    """A piece's chip on a tinted ground."""
    chip = piece_chip((0, 0), label, note, style)
    ground = chip.box.grown(5)
    back = Rect(ground.left, ground.top, ground.width, ground.height, Fill(style.palette.accent_tint))
    return _sign("piece", [back, *chip.shapes])


def sign_of_scrap(style: DrawingStyle) -> Figure:
    """Hatched scrap."""
    box = Box(0, 0, 62, 30)
    outline = Rect(box.left, box.top, box.width, box.height, None, style.outline)
    return _sign("scrap", [*scrap_area(box, style), outline])


def sign_of_stack(style: DrawingStyle) -> Figure:
    """Papers that lie on each other."""
    paper = Fill(style.palette.paper)
    under = [Rect(off, off, 56, 26, paper, style.narrow) for off in (6.0, 3.0)]
    return _sign("stack", [*under, Rect(0, 0, 56, 26, paper, style.outline)])


def sign_of_width(label: str, style: DrawingStyle) -> Figure:
    """A dimension under an outline."""
    drawn = dimension(Side.BOTTOM, 0, 0, 62, label, style, offset=17.2)
    edge = Line((0, 0), (62, 0), style.outline)
    return _sign("width", [edge, *drawn.shapes])


def sign_of_view(
    unit: Unit, mark: Fraction, reading: Reading, stretch: tuple[Fraction, Fraction], style: DrawingStyle
) -> Figure:
    """An enlarged stretch of the scale."""
    low, high = stretch
    ruler = Ruler(high + 10 * (high - low), mark, unit, (SIGN_WIDTH - 24) / float(high - low))
    return _sign("view", list(shared_view(0, 0, ruler, stretch, [reading], style).shapes))


def sign_of_register_mark(style: DrawingStyle) -> Figure:
    """A printed register mark with the cut through it."""
    ground = Rect(-30, 0, 60, 30, Fill(style.palette.paper), Stroke(style.palette.rule, style.fine_width))
    return _sign("register", [ground, *register_mark(0, REGISTER_DROP, style), _cut(0, 0, 30, style)])


def _cut(x: float, top: float, bottom: float, style: DrawingStyle) -> Line:
    return Line((x, top), (x, bottom), style.cut)


def _sign(name: str, shapes: Sequence[Shape]) -> Figure:
    box = bounds(shapes)
    moved = translated(shapes, -box.left, -box.top)
    return Figure(f"sign-{name}", box.width, box.height, (moved,), f"The sign of a {name}.", "")
