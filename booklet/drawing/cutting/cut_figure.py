"""One stage at the trimmer as a figure: the piece as it lies, the scale on top, its cuts, strips and sizes.

The figure is worked out in two steps.  `draw_stage` draws all but the print, so that pages can be planned
from its size; `with_print` lays the print in and makes the figure.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from booklet.cutting.orientation import Orientation
from booklet.drawing.cutting.cut_chips import Chips, StripChip, strip_chips
from booklet.drawing.marks.dimension import Chain, Side, dimension, dimension_chain
from booklet.drawing.marks.scale_bar import Reading, Ruler, ScaleDrawing, scale_bar
from booklet.drawing.papers.lying import lie, on_face
from booklet.drawing.shapes.affine import (
    Box,
    bounds_of_points,
    translation,
)
from booklet.drawing.shapes.figure import (
    Anchor,
    Circle,
    Figure,
    Fill,
    Group,
    Line,
    Polyline,
    Rect,
    Shape,
    Stroke,
    Symbol,
    Text,
    Use,
    walk,
)
from booklet.drawing.shapes.fonts import Font, cap_height, font_metrics, text_width
from booklet.drawing.shapes.hatch import hatch
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size, Unit

# How far a figure reaches left of the outline: the scale's band starts a little before its zero.
HANG = 8.0
# How far a chip may hang out into the margin: its words stay within.
_CHIP_HANG = 4.0
# How far a register mark lies from the sheet's edge.
REGISTER_DROP = 6.5
_STACK_STEP = 3.0
_MOST_SHOWN_BENEATH = 3
ROOM_FOR_HEIGHT = 30.0
_READING_OVERHANG = 52.0
# A page holds two or three figures one under another: the dimension line keeps the 6 mm that ASME Y14.5 asks
# between lines, not the 10 mm at the outline.
_CHAIN_OFFSET = 17.2


@dataclass(frozen=True)
class StripView:
    """A strip between two readings: what is written on it, and the label of its width.

    What is written stands `off` a strip whose artwork it would hide.
    """

    start: Fraction
    end: Fraction
    letters: str
    size: str
    goes: str
    scrap: bool
    off: bool
    width_label: str


@dataclass(frozen=True)
class StageView:
    """A stage as it is to be drawn, lengths in `unit`; `seen` is along the scale by along the blade.

    `papers` lie on each other.  On a printed sheet `register_marks` show where cuts run.  `column` is the
    width in points that figures keep to; what is said beside a figure starts a `gutter` further right, at the
    scale's top, and is `beside` points high.
    """

    name: str
    alt: str
    unit: Unit
    scale: Scale
    mark: Fraction
    seen: Size
    height_label: str
    readings: tuple[Reading, ...]
    strips: tuple[StripView, ...]
    papers: int
    register_marks: bool
    column: float
    gutter: float
    beside: float


@dataclass(frozen=True)
class StageDrawing:
    """A stage drawn but for its print, which goes between `under` and `over` in the outline's box.

    `outline` is in the figure's coordinates; what is said beside it starts at `beside_top`.
    """

    view: StageView
    under: tuple[Shape, ...]
    over: tuple[Shape, ...]
    outline: Box
    beside_top: float
    width: float
    height: float


def draw_stage(view: StageView, style: DrawingStyle) -> StageDrawing:
    """Draw everything but the print, the outline's top left corner at (0, 0), then move it into place."""
    wide, high = view.scale.size(view.seen, view.unit)
    sheet = Box(0.0, 0.0, wide, high)
    ruler = Ruler(view.seen.width, view.mark, view.unit, view.scale.points(Fraction(1), view.unit))
    scale = scale_bar(0, 0, ruler, view.readings, style, room=(-HANG, view.column + _READING_OVERHANG))
    band_top = scale.band_top
    over, below = _over(view, sheet, ruler, style)
    beside = band_top + view.beside
    stated = _scale_words(view, below, beside, style)
    top = scale.box.top - 1.0
    bottom = max(below.bottom, beside, stated.box.bottom)
    move = translation(HANG, -top)
    shapes = (*over, *scale.shapes, *_named_zero(scale, style), stated)
    return StageDrawing(
        view,
        (Group(tuple(_beneath(view, sheet, style)), move),),
        (Group(shapes, move),),
        sheet.under(move),
        band_top - top,
        HANG + max(stated.box.right, scale.box.right, view.column),
        bottom - top,
    )


def with_print(
    drawing: StageDrawing, symbol: Symbol, part: ExactRect, whole: Size, lying: Orientation
) -> Figure:
    """The figure, with the part of the sheet's print that shows; `whole` is the size of the sheet."""
    view = drawing.view
    placing = lie(part, whole, lying, view.unit, view.scale).then(
        translation(drawing.outline.left, drawing.outline.top)
    )
    seen = on_face(part, whole, lying.face, view.unit)
    use = Use(symbol, placing, seen.corners)
    shapes = (*drawing.under, use, *drawing.over)
    return Figure(view.name, drawing.width, drawing.height, shapes, view.alt, view.scale.words)


# What lies under the print.


def _beneath(view: StageView, sheet: Box, style: DrawingStyle) -> Iterator[Shape]:
    """The outlines of the papers under the first, each a little further out."""
    for place in reversed(range(1, min(view.papers - 1, _MOST_SHOWN_BENEATH) + 1)):
        off = place * _STACK_STEP
        yield Rect(
            sheet.left + off,
            sheet.top + off,
            sheet.width,
            sheet.height,
            Fill(style.palette.paper),
            style.narrow,
        )
    yield Rect(sheet.left, sheet.top, sheet.width, sheet.height, Fill(style.palette.paper))


def _stack_depth(view: StageView) -> float:
    return min(view.papers - 1, _MOST_SHOWN_BENEATH) * _STACK_STEP


# What lies over it.


@dataclass(frozen=True)
class _Below:
    """What stands under the outline: chips and the dimension line, how far down, and the line's own level."""

    shapes: tuple[Shape, ...]
    bottom: float
    line: float


def _over(view: StageView, sheet: Box, ruler: Ruler, style: DrawingStyle) -> tuple[list[Shape], _Below]:
    edge = sheet.bottom + _stack_depth(view)
    room = (-_CHIP_HANG, view.column + view.gutter - 2)
    labelled = [
        StripChip(strip.letters, strip.size, strip.goes, _strip_box(strip, sheet, ruler), strip.off)
        for strip in view.strips
        if not strip.scrap
    ]
    chips = strip_chips(labelled, style, edge, room)
    shapes: list[Shape] = []
    for strip in view.strips:
        if strip.scrap:
            shapes += scrap_area(_strip_box(strip, sheet, ruler), style)
    if view.register_marks:
        shapes += _register_marks(view, sheet, ruler, style)
    shapes.append(Rect(sheet.left, sheet.top, sheet.width, sheet.height, None, style.outline))
    shapes += _cut_lines(view, sheet, ruler, style)
    shapes += chips.shapes
    below = _below(view, edge, ruler, chips, room, style)
    return [*shapes, *below.shapes, *_height(view, sheet, style)], below


def _below(
    view: StageView,
    edge: float,
    ruler: Ruler,
    chips: Chips,
    room: tuple[float, float],
    style: DrawingStyle,
) -> _Below:
    """The chain of the strips' widths.

    Where cuts run on printed marks no width is measured: there the chips tell about how large a piece is.
    """
    if view.register_marks:
        bottom = max([edge, *(box.bottom for box in chips.below)])
        return _Below((), bottom, edge)
    positions = (0.0, *(ruler.at(strip.end) for strip in view.strips))
    chain = dimension_chain(
        Side.BOTTOM,
        edge,
        Chain(positions, tuple(strip.width_label for strip in view.strips)),
        style,
        offset=_CHAIN_OFFSET,
        room=room,
        obstacles=chips.below,
    )
    return _Below(chain.shapes, chain.box.bottom, edge + chain.line_offset)


def _strip_box(strip: StripView, sheet: Box, ruler: Ruler) -> Box:
    return Box(ruler.at(strip.start), sheet.top, ruler.at(strip.end), sheet.bottom)


def scrap_area(box: Box, style: DrawingStyle) -> list[Shape]:
    """White, hatched, and called scrap where the word has room."""
    word, gap = _scrap_word(box, style)
    gaps = [gap] if gap else []
    white = Rect(box.left, box.top, box.width, box.height, Fill(style.palette.paper))
    return [white, hatch(box.corners, style.hatch_distance, style.fine, gaps), *([word] if word else [])]


def _scrap_word(box: Box, style: DrawingStyle) -> tuple[Text | None, Box | None]:
    size = style.note_size + 1
    half_width = text_width("scrap", Font.SANS, size) / 2 + 4
    half_height = size * 0.62
    x, y = box.centre
    upright = box.width < 2 * half_width
    across, down = (half_height, half_width) if upright else (half_width, half_height)
    gap = Box(x - across, y - down, x + across, y + down)
    if not box.holds(gap.grown(1)):
        return None, None
    drop = cap_height(Font.SANS, size) / 2 - 0.5
    place = (x + drop, y) if upright else (x, y + drop)
    return _centred("scrap", *place, size, -90.0 if upright else 0.0, style), gap


def _centred(words: str, x: float, y: float, size: float, turn: float, style: DrawingStyle) -> Text:
    return Text(words, x, y, size, Font.SANS, style.palette.ink, Anchor.MIDDLE, turn, "scrap")


def _cut_lines(view: StageView, sheet: Box, ruler: Ruler, style: DrawingStyle) -> Iterator[Shape]:
    """The blade's way, dashed, on a band of paper white that parts it from any print."""
    ways = [(ruler.at(reading.value), sheet.top, sheet.bottom) for reading in view.readings]
    halo = Stroke(style.palette.paper, 2 * style.cut_width)
    for x, top, bottom in ways:
        yield Line((x, top), (x, bottom), halo)
    for x, top, bottom in ways:
        yield Line((x, top), (x, bottom), style.cut)


def _register_marks(view: StageView, sheet: Box, ruler: Ruler, style: DrawingStyle) -> Iterator[Shape]:
    """A mark at both edges where a cut runs, as they are printed on the sheet."""
    for reading in view.readings:
        for y in (sheet.top + REGISTER_DROP, sheet.bottom - REGISTER_DROP):
            yield from register_mark(ruler.at(reading.value), y, style)


def register_mark(x: float, y: float, style: DrawingStyle) -> tuple[Shape, ...]:
    """A printed register mark: a ring and a line about (x, y)."""
    ring = Circle(x, y, 3.0, Fill(style.palette.paper), style.narrow)
    return ring, Polyline(((x - 5.5, y), (x + 5.5, y)), style.narrow)


def _height(view: StageView, sheet: Box, style: DrawingStyle) -> tuple[Shape, ...]:
    """The piece's height at its right, where the figure's column leaves room for it."""
    edge = sheet.right + _stack_depth(view)
    if view.register_marks or edge + ROOM_FOR_HEIGHT > view.column:
        return ()
    return dimension(Side.RIGHT, edge, sheet.top, sheet.bottom, view.height_label, style).shapes


def _scale_words(view: StageView, below: _Below, beside: float, style: DrawingStyle) -> Text:
    """The scale, right of the dimension line; where words stand there, at the column's end under the line.

    `beside` is how far the words beside the figure reach down.
    """
    stated = Text(
        view.scale.words,
        view.column + view.gutter,
        below.line,
        style.note_size,
        Font.SANS,
        style.palette.soft_ink,
        role="scale words",
    )
    if beside + style.note_size <= stated.y:
        return stated
    ascent = font_metrics(stated.font).ascent * stated.size
    return replace(stated, x=view.column, y=below.bottom + ascent + 1, anchor=Anchor.END)


def _named_zero(scale: ScaleDrawing, style: DrawingStyle) -> list[Shape]:
    """The word for the scale's zero over its 0, where no reading stands."""
    words = Text("zero", 0.0, scale.band_top - 3.2, style.note_size, Font.SANS, style.palette.soft_ink)
    crossed = any(box.overlaps(words.box.grown(2.0)) for box in _marked(scale))
    return [] if crossed else [words]


def _marked(scale: ScaleDrawing) -> Iterator[Box]:
    """Where discs, readings and their leaders stand over the scale."""
    for leaf, move in walk(scale.shapes):
        match leaf:
            case Text(role="reading"):
                yield leaf.box.under(move)
            case Circle(x, y, radius):
                yield Box(x - radius, y - radius, x + radius, y + radius).under(move)
            case Polyline(points):
                for ends in pairwise(points):
                    yield bounds_of_points(map(move.apply, ends))
            case _:
                pass
