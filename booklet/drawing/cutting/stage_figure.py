"""One stage at the trimmer as a figure: the piece as it lies, the scale along its top, cuts, strips, sizes.

`stage_size` says how large the figure is, by arithmetic alone, so that a page can choose its scale.
`draw_stage` draws all but the print, and `with_print` lays the print in and makes the figure.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from itertools import pairwise

from booklet.cutting.orientation import Orientation
from booklet.drawing.cutting.paper_parts import beneath, register_mark, scrap_area, stack_depth
from booklet.drawing.marks.cut_discs import (
    CutMark,
    Head,
    Side,
    cut_heads,
    head_shapes,
    heads_height,
    stem_start,
)
from booklet.drawing.marks.piece_chip import ChipForm, chip_form, chip_shapes
from booklet.drawing.marks.placement import Callout, spread
from booklet.drawing.marks.trimmer_scale import (
    Band,
    Numeral,
    Ruler,
    band_hang,
    band_height,
    band_shapes,
    drawn_divisions,
    numerals,
    stem,
)
from booklet.drawing.marks.width_chain import (
    Width,
    WidthChain,
    chain_shapes,
    height_room,
    height_shapes,
    merged,
)
from booklet.drawing.papers.lying import lie, on_face
from booklet.drawing.shapes.affine import Box, translation
from booklet.drawing.shapes.figure import (
    Anchor,
    Area,
    Figure,
    Group,
    Line,
    Polyline,
    Shape,
    Stroke,
    Symbol,
    Text,
    Use,
    filled_box,
)
from booklet.drawing.shapes.fonts import Font, cap_height, font_metrics, text_width
from booklet.drawing.shapes.labels import FigureLabels
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Edge
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.length import TIMES, Size, Unit

_TICK = 9.0
_EDGE_GAP = 4.0  # between the scale and the sheet
_STOP_GAP = 2.0
_LETTER_DROP = 4.0  # from a sheet's foot to letters under it
_LETTER_GAP = 4.0
_LETTER_SLOPE = 0.35  # how steep a tick is at least that leads to a letter beside its strip
# The light casing on both sides of a cut.  Where strips are narrow, all takes at most a share of one, but
# the line no less than is seen and the casing no less than parts it from the print.
_CASING, _LEAST_CASING, _SHARE = 0.6, 0.5, 0.6


@dataclass(frozen=True)
class StageCut:
    """A cut's number, and the value at which it is made."""

    number: int
    value: Fraction


@dataclass(frozen=True)
class StageStrip:
    """A strip between two readings: its letters, one for each paper, and words under them where room is.

    Scrap has no letters.  `width` is its width as printed.
    """

    start: Fraction
    end: Fraction
    letters: tuple[str, ...]
    words: tuple[str, ...]
    width: str


@dataclass(frozen=True)
class StageView:
    """A stage as it is to be drawn, lengths in `unit`; `seen` is along the scale by along the blade.

    `mark` is the scale's finest division, `reach` its end and `zero` the side at which it begins; `cuts` and
    `strips` go from there outwards.  `papers` lie on each other.  On a printed
    sheet (`is_printed`) register marks show where cuts run, and nothing is written on its artwork.
    `height` is the piece's height as printed, or nothing where it is that of the sheet.
    """

    name: str
    unit: Unit
    scale: Scale
    mark: Fraction
    reach: Fraction
    seen: Size
    height: str
    cuts: tuple[StageCut, ...]
    strips: tuple[StageStrip, ...]
    papers: int
    is_printed: bool
    labels: FigureLabels
    zero: Edge = Edge.LEFT


@dataclass(frozen=True)
class StageSize:
    """How large a figure is, in points, and where the outline of the piece lies in it."""

    width: float
    height: float
    outline: Box


def stage_size(view: StageView, style: DrawingStyle) -> StageSize:
    """How large the figure of a stage will be; nothing is drawn for it."""
    return _Plan(view, style).size


@dataclass(frozen=True)
class StageDrawing:
    """A stage drawn but for its print, which goes between `under` and `over` in the outline's box."""

    view: StageView
    under: tuple[Shape, ...]
    over: tuple[Shape, ...]
    size: StageSize


def draw_stage(view: StageView, style: DrawingStyle) -> StageDrawing:
    """Draw everything but the print."""
    plan = _Plan(view, style)
    move = translation(-plan.left, -plan.top)
    under = Group(tuple(beneath(plan.sheet, view.papers, style)), move)
    over = Group(
        (
            *_sheet_shapes(plan),
            Group(tuple(_scale_shapes(plan)), tag="scale"),
            *_below_shapes(plan),
        ),
        move,
    )
    return StageDrawing(view, (under,), (over,), plan.size)


def with_print(
    drawing: StageDrawing, symbol: Symbol, part: ExactRect, whole: Size, lying: Orientation
) -> Figure:
    """The figure, with the part of the sheet's print that shows; `whole` is the size of the sheet."""
    view, size = drawing.view, drawing.size
    placing = lie(part, whole, lying, view.unit, view.scale).then(
        translation(size.outline.left, size.outline.top)
    )
    use = Use(symbol, placing, on_face(part, whole, lying.face, view.unit).corners)
    shapes = (*drawing.under, use, *drawing.over)
    said = f"{view.labels.scale} {view.scale.ratio}"
    return Figure(view.name, size.width, size.height, shapes, "", said, areas=tuple(_areas(view, size)))


def _areas(view: StageView, size: StageSize) -> Iterator[Area]:
    """Where each strip lies, by its place among those of the view."""
    outline, whole = size.outline, view.seen.width
    for at, strip in enumerate(view.strips):
        start, end = (float(x / whole) * outline.width for x in (strip.start, strip.end))
        if view.zero is Edge.RIGHT:
            start, end = outline.width - end, outline.width - start
        yield Area(Box(outline.left + start, outline.top, outline.left + end, outline.bottom), at)


# Where everything stands, the outline's top left corner at (0, 0).


@dataclass(frozen=True)
class _Plan:
    """Where all of a figure stands: arithmetic on the view, asked for as far as it is needed."""

    view: StageView
    style: DrawingStyle

    @cached_property
    def sheet(self) -> Box:
        """The outline."""
        return Box(0.0, 0.0, *self.view.scale.size(self.view.seen, self.view.unit))

    @cached_property
    def ruler(self) -> Ruler:
        """The trimmer's scale, as long as the piece is wide."""
        view = self.view
        points = view.scale.points(Fraction(1), view.unit)
        return Ruler(view.seen.width, view.mark, view.unit, points, view.zero)

    @cached_property
    def band(self) -> Band:
        """The scale's band over the outline."""
        size, base = self.style.scale_label_size, self.sheet.top - _EDGE_GAP
        box = Box(self.left, base - band_height(_TICK, size), self.right, base)
        zero = 0.0 if self.view.zero is Edge.LEFT else self.sheet.right
        return Band(box, base, zero, _TICK, size, self.ruler)

    @cached_property
    def strips(self) -> tuple[StageStrip, ...]:
        """The strips from left to right."""
        return self.view.strips[:: self.ruler.way]

    def ends(self, strip: StageStrip) -> tuple[float, float]:
        """Where a strip begins and ends, from left to right."""
        left, right = sorted((self.band.x(strip.start), self.band.x(strip.end)))
        return left, right

    def middle(self, strip: StageStrip) -> float:
        """Halfway along a strip."""
        return self.band.x((strip.start + strip.end) / 2)

    @cached_property
    def numerals(self) -> tuple[Numeral, ...]:
        """The scale's numerals."""
        readings = {cut.value for cut in self.view.cuts}
        return numerals(self.ruler, readings, self.style.scale_label_size)

    @cached_property
    def marks(self) -> tuple[CutMark, ...]:
        """The cuts on the scale, in cutting order."""
        return tuple(CutMark(cut.number, self.band.x(cut.value)) for cut in self.view.cuts)

    @cached_property
    def heads(self) -> tuple[Head, ...]:
        """The discs over the scale."""
        return cut_heads(self.marks, self.left, self.style)

    @cached_property
    def discs(self) -> Side:
        """Where discs stand: over the band."""
        return Side(self.band.box.top, -1)

    @cached_property
    def stop_row(self) -> int:
        """Over how many rows of discs the word at the zero stands: over none where it has room beside."""
        room = text_width(self.view.labels.stop, Font.SANS, self.style.note_size) + 2.0
        left, right = (
            (self.left, self.left + room) if self.view.zero is Edge.LEFT else (self.right - room, self.right)
        )
        near = [head for head in self.heads if head.left < right and left < head.right]
        taken = [disc.row for head in near for disc in head.discs]
        return 1 + max(taken) if taken else 0

    @cached_property
    def edge(self) -> float:
        """The foot of the outline and of what lies beneath."""
        return self.sheet.bottom + stack_depth(self.view.papers)

    @cached_property
    def chips(self) -> tuple[ChipForm | None, ...]:
        """What stands on each strip: nothing on scrap, on a printed sheet, and where it has no room."""
        view = self.view
        return tuple(
            chip_form(
                strip.letters,
                strip.words,
                self.ruler.at(strip.end - strip.start),
                self.sheet.height,
                self.style,
            )
            if strip.letters and not view.is_printed
            else None
            for strip in self.strips
        )

    @cached_property
    def chain(self) -> WidthChain | None:
        """The widths under the outline; where cuts run on printed marks, no width is measured."""
        view = self.view
        if view.is_printed:
            return None
        widths = [
            Width(*self.ends(strip), strip.width, " ".join(strip.letters) if chip is None else "")
            for strip, chip in zip(self.strips, self.chips, strict=True)
        ]
        alike = [False, *(_are_alike(one, other) for one, other in pairwise(self.strips))]
        return WidthChain(merged(widths, alike, TIMES), self.edge, self.left, self.right, self.style)

    @cached_property
    def lettered(self) -> tuple[StageStrip, ...]:
        """The strips of a printed sheet whose letters stand under it."""
        return tuple(strip for strip in self.strips if strip.letters) if self.view.is_printed else ()

    @cached_property
    def letter_places(self) -> tuple[float, ...]:
        """Where the letters under a printed sheet stand."""
        callouts = []
        for strip in self.lettered:
            half = text_width(" ".join(strip.letters), Font.SANS_BOLD, self.style.label_size) / 2
            callouts.append(Callout(self.middle(strip), half, half))
        return tuple(spread(callouts, _LETTER_GAP, self.left, self.right)) if callouts else ()

    @cached_property
    def letter_baseline(self) -> float:
        """Where letters under a printed sheet stand."""
        return self.edge + self.letter_drop + cap_height(Font.SANS_BOLD, self.style.label_size)

    @cached_property
    def letter_drop(self) -> float:
        """How far under the sheet letters begin: farther where they stand beside their strips."""
        shifts = [
            abs(place - self.middle(strip))
            for strip, place in zip(self.lettered, self.letter_places, strict=True)
        ]
        return max(_LETTER_DROP, _LETTER_SLOPE * max(shifts, default=0.0))

    @cached_property
    def bottom(self) -> float:
        """How far down the figure reaches."""
        if self.chain is not None:
            return self.chain.bottom
        if self.lettered:
            return self.letter_baseline + font_metrics(Font.SANS_BOLD).descent * self.style.label_size
        return self.edge + self.style.outline_width

    @cached_property
    def left(self) -> float:
        """How far left the figure reaches: as far as the scale's band."""
        return -band_hang(self.style.scale_label_size)

    @cached_property
    def right(self) -> float:
        """How far right the scale's band reaches."""
        return self.sheet.right + band_hang(self.style.scale_label_size)

    @cached_property
    def top(self) -> float:
        """How far up the figure reaches."""
        heads = self.band.box.top - heads_height(self.heads, self.style)
        return min(heads, self.stop_baseline - font_metrics(Font.SANS).ascent * self.style.note_size) - 0.5

    @cached_property
    def stop_baseline(self) -> float:
        """Where the word at the zero stands."""
        if not self.stop_row:
            return self.band.box.top - _STOP_GAP - font_metrics(Font.SANS).descent * self.style.note_size
        last = self.discs.middle(self.stop_row - 1, self.style)
        return last - self.style.disc_radius - _STOP_GAP

    @cached_property
    def size(self) -> StageSize:
        """How large the figure is."""
        view, style = self.view, self.style
        rights = [self.band.box.right, *(head.right for head in self.heads)]
        edge = self.sheet.right + stack_depth(view.papers)
        rights.append(edge + style.outline_width / 2)
        if view.height:
            rights.append(edge + height_room(view.height, self.sheet.height, style))
        if self.chain is not None:
            rights.append(self.chain.right)
        if self.lettered:
            last = text_width(" ".join(self.lettered[-1].letters), Font.SANS_BOLD, style.label_size) / 2
            rights.append(self.letter_places[-1] + last)
        return StageSize(
            max(rights) - self.left,
            self.bottom - self.top,
            self.sheet.under(translation(-self.left, -self.top)),
        )


def _are_alike(one: StageStrip, other: StageStrip) -> bool:
    return one.end - one.start == other.end - other.start and bool(one.letters) == bool(other.letters)


# The sheet.


def _sheet_shapes(plan: _Plan) -> Iterator[Shape]:
    view, style, sheet = plan.view, plan.style, plan.sheet
    ends = (plan.ends(strip) for strip in plan.strips)
    boxes = [Box(left, sheet.top, right, sheet.bottom) for left, right in ends]
    for strip, box in zip(plan.strips, boxes, strict=True):
        if not strip.letters:
            yield from scrap_area(box, view.labels.scrap, style)
    if view.is_printed:
        for mark in plan.marks:
            yield from register_mark(mark.at, sheet, style)
    yield filled_box(sheet, None, style.outline)
    yield from _cut_lines(plan)
    for form, box in zip(plan.chips, boxes, strict=True):
        if form is not None:
            yield chip_shapes(form, box.centre, style)


def _cut_lines(plan: _Plan) -> Iterator[Shape]:
    """Each cut from edge to edge, in a light casing that parts it from the print."""
    style, sheet = plan.style, plan.sheet
    places = sorted({0.0, sheet.right, *(mark.at for mark in plan.marks)})
    lines: list[Line] = []
    for before, x, after in zip(places, places[1:], places[2:], strict=False):
        free = min(x - before, after - x) * _SHARE
        width = min(max(free - 2 * _LEAST_CASING, style.dimension_width), style.cut_width)
        casing = min(max((free - width) / 2, _LEAST_CASING), _CASING)
        ends = (x, sheet.top), (x, sheet.bottom)
        yield Line(*ends, Stroke(style.palette.paper, width + 2 * casing))
        lines.append(Line(*ends, replace(style.cut, width=width)))
    yield from lines


# The scale.


def _scale_shapes(plan: _Plan) -> Iterator[Shape]:
    style, band = plan.style, plan.band
    yield from band_shapes(band, plan.numerals, drawn_divisions(plan.ruler), style)
    edge = Stroke(style.palette.ink, style.outline_width)
    yield Line((band.zero, band.base), (band.zero, plan.sheet.top), edge)
    stroke = Stroke(style.palette.accent, style.cut_width)
    for head in plan.heads:
        for cut in head.cuts:
            top = stem_start(head, cut, plan.discs, style)
            start = band.base - band.tick if top is None else top
            yield from stem(cut.at, start, plan.sheet.top, band, plan.numerals, stroke)
    yield from head_shapes(plan.heads, plan.discs, style)
    words, size, ink = plan.view.labels.stop, style.note_size, style.palette.ink
    at_left = plan.view.zero is Edge.LEFT
    x, anchor = (plan.left, Anchor.START) if at_left else (plan.right, Anchor.END)
    yield Text(words, x, plan.stop_baseline, size, Font.SANS, ink, anchor, role="stop")


# Under the sheet.


def _below_shapes(plan: _Plan) -> Iterator[Shape]:
    view, style = plan.view, plan.style
    if plan.chain is not None:
        yield from chain_shapes(plan.chain)
    yield from _letters_below(plan)
    if view.height:
        edge = plan.sheet.right + stack_depth(view.papers)
        yield from height_shapes(plan.sheet, edge, view.height, style)


def _letters_below(plan: _Plan) -> Iterator[Shape]:
    """The letters of a printed sheet's strips in line with them, each with a short tick."""
    style = plan.style
    for strip, place in zip(plan.lettered, plan.letter_places, strict=True):
        middle = plan.middle(strip)
        if abs(place - middle) > 0.5:
            foot = (place, plan.edge + plan.letter_drop - 0.8)
            yield Polyline(((middle, plan.edge + 0.8), foot), style.narrow)
        yield Text(
            " ".join(strip.letters),
            place,
            plan.letter_baseline,
            style.label_size,
            Font.SANS_BOLD,
            style.palette.ink,
            Anchor.MIDDLE,
            role="piece",
        )
