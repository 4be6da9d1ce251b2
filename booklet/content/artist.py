"""Draws the figures that content asks for, each in the room that a reader of the content has for it.

Points appear here and nowhere else in content: a block asks for a figure, a page or a screen has the room.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager

from booklet.content import figures as ask
from booklet.content.cutting.labels import strip_labels
from booklet.content.figures import FigureRequest
from booklet.content.layers import LayerArtist, draw_layout_layers, draw_stage_layers
from booklet.content.spans import length_text
from booklet.content.words.language import Language
from booklet.cutting.labels import letter
from booklet.cutting.model import CutSheet, Stage
from booklet.drawing.cutting import signs
from booklet.drawing.cutting.lens_figure import lens_figure
from booklet.drawing.cutting.piece_map import PieceMapView, draw_piece_map, piece_map_size
from booklet.drawing.cutting.pile_figure import PileLook, pile_figure
from booklet.drawing.cutting.stage_figure import StageView, draw_stage, stage_size, with_print
from booklet.drawing.cutting.views import piece_map_view, stage_view
from booklet.drawing.layouts import signs as layout_signs
from booklet.drawing.layouts.finished_pages import draw_finished_pages, finished_page
from booklet.drawing.layouts.look import Look
from booklet.drawing.layouts.numbered_layout import (
    draw_numbered_layout,
    numbered_layout_size,
    numbers_question,
)
from booklet.drawing.layouts.ring_places import RingPlace, place_rings
from booklet.drawing.layouts.ring_question import RingQuestion
from booklet.drawing.layouts.rings import rings_of
from booklet.drawing.layouts.rulers import RulerFlag
from booklet.drawing.layouts.step_figure import draw_step_figure, step_figure_size
from booklet.drawing.marks.marker import POCKET_HEIGHT, POCKET_SIDES, pocket_chip
from booklet.drawing.marks.pen import sheet_in_trimmer, trimmer_picture, turn_arrow
from booklet.drawing.marks.photo_slot import photo_pictogram
from booklet.drawing.marks.print_check import print_check
from booklet.drawing.overview.flow_figure import FlowArt, FlowWords, flow_figure
from booklet.drawing.overview.strands import flow_of
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.papers.lying import lie
from booklet.drawing.papers.swatch import ready_swatch, supply_swatch, swatch_strips
from booklet.drawing.shapes.affine import compose, scaling, translation
from booklet.drawing.shapes.figure import (
    Colour,
    Figure,
    Group,
    Rect,
    Stroke,
    Symbol,
    Use,
    translated,
)
from booklet.drawing.shapes.fonts import Font, text_width
from booklet.drawing.shapes.scale import ROUND_SCALES, TRUE_SIZE, Scale
from booklet.drawing.shapes.style import DrawingStyle, palette_from_accent
from booklet.kit.fields import Face
from booklet.kit.kit import capitalised, layout_title, sheet_title, trimmer_limits
from booklet.kit.spreads import assembly_order
from booklet.measure.cache import cached_on, remember
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.fork import run_in_fork
from booklet.measure.geometry import rect_at_origin
from booklet.measure.length import Size, to_points
from booklet.measure.second_process import SecondProcess
from booklet.placing.resolved import ResolvedKit

# The longest sheet of the pile as a share of its room.
_PILE_SHARE = 0.62
# The name of a pocket is printed no smaller, in points, even where it then takes more than its room.
_LEAST_NAME = 9.0
# A frame is dashed, as what is glued into it covers it: so long a dash and a gap, in points.
_FRAME_DASHES = (4.0, 3.0)
# The print of a sheet along the edge of its pages.
_BAND_SCALE = Scale(Fraction(5, 2))


@dataclass(frozen=True)
class Room:
    """The most room that a figure may take, in points; without a height it is bound by its width alone.

    `pitch` is how far apart leaders end whose words stand beside the figure; at a `scale` the figure is drawn
    at that scale, whatever its room.
    """

    width: float
    height: float | None = None
    pitch: float | None = None
    scale: Scale | None = None

    def holds(self, width: float, height: float) -> bool:
        """Whether a figure of this size fits."""
        return width <= self.width and (self.height is None or height <= self.height)


# Places the numbers of a layout on another core.
RingProcess = SecondProcess[RingQuestion, tuple[RingPlace, ...]]


@dataclass(frozen=True, eq=False)
class Artist:
    """What every figure of a kit is drawn from; compared by identity.

    Of a layout that is drawn by itself the numbers find their places in a `second` process, if there is one.
    """

    resolved: ResolvedKit
    language: Language
    papers: KitPapers
    style: DrawingStyle
    second: RingProcess | None = None

    def sheet(self, index: int) -> CutSheet:
        """A sheet by its index."""
        return next(sheet for sheet in self.resolved.sheets if sheet.index == index)


def artist_in_colour(
    resolved: ResolvedKit,
    language: Language,
    papers: KitPapers | None = None,
    second: RingProcess | None = None,
) -> Artist:
    """Who draws a kit's figures in its own colours, of papers that are drawn already where there are some."""
    style = DrawingStyle(palette=palette_from_accent(Colour(resolved.kit.accent)))
    return Artist(resolved, language, papers or KitPapers(resolved.kit, resolved.images), style, second)


def draw(artist: Artist, request: FigureRequest, room: Room) -> Figure:
    """A figure as large as its room allows; one of a size of its own may take less."""
    match request:
        case ask.TrimmerFigure() | ask.CutFigure() | ask.LensFigure() | ask.PieceMap() | ask.TurnFigure():
            return _at_trimmer(artist, request, room)
        case ask.NumberedLayout() | ask.StepFigure() | ask.FinishedPages():
            return _at_table(artist, request, room)
        case ask.StageLayers() | ask.LayoutLayers():
            return _in_layers(artist, request, room)
        case ask.SignFigure():
            return _sign(artist, request)
        case _:
            return _in_box(artist, request, room)


@contextmanager
def prepare(artist: Artist, figures: Iterable[tuple[FigureRequest, Scale]]) -> Iterator[None]:
    """Find places for the numbers of layouts beside what is done within, where there is a second core.

    Of all that is drawn this takes longest, and what comes of it is small.
    """
    layouts = [(asked, scale) for asked, scale in figures if isinstance(asked, ask.NumberedLayout)]
    with run_in_fork(lambda: [_ring_places(artist, *layout) for layout in layouts]) as placed:
        yield
        for layout, places in zip(layouts, placed(), strict=True):
            remember(_ring_places, places, artist, *layout)


def begin_numbers(artist: Artist, request: ask.NumberedLayout, scale: Scale) -> None:
    """Have the numbers of a layout at a scale find their places in the second process, if there is one."""
    if artist.second is not None:
        artist.second.ask(_ring_question(artist, request, scale))


def measure(artist: Artist, request: FigureRequest, scale: Scale) -> tuple[float, float]:
    """The width and height in points that a figure would have at a scale; nothing is drawn for it."""
    match request:
        case ask.CutFigure(sheet, stage):
            size = stage_size(_stage_view(artist, sheet, stage, scale), artist.style)
            return size.width, size.height
        case ask.PieceMap(sheet):
            return piece_map_size(_map_view(artist, sheet, scale))
        case ask.NumberedLayout():
            size_of_page, unit = artist.resolved.layouts[request.layout].size, artist.resolved.kit.unit
            return numbered_layout_size(size_of_page, unit, _flags(request), scale, artist.style)
        case ask.StepFigure():
            size_of_page, unit = artist.resolved.layouts[request.layout].size, artist.resolved.kit.unit
            return step_figure_size(size_of_page, unit, scale)
        case _:
            raise TypeError(f"{type(request).__name__} is drawn at no scale of its own")


def _fitting(artist: Artist, request: FigureRequest, room: Room) -> Scale:
    """The scale that the room asks for, or the largest round one at which the figure fits."""
    if room.scale is not None:
        return room.scale
    fitting = (scale for scale in ROUND_SCALES if room.holds(*measure(artist, request, scale)))
    return next(fitting, ROUND_SCALES[-1])


def _scale_words(artist: Artist, scale: Scale) -> str:
    return f"{artist.language.labels.scale} {scale.ratio}"


# At the trimmer.


def _at_trimmer(artist: Artist, request: FigureRequest, room: Room) -> Figure:
    match request:
        case ask.TrimmerFigure(index):
            return _trimmer(artist, artist.sheet(index))
        case ask.CutFigure(index, number):
            return _cut_figure(artist, index, number, _fitting(artist, request, room))
        case ask.LensFigure(index, number, cuts):
            view = _stage_view(artist, index, number, TRUE_SIZE)
            return lens_figure(view, cuts, room.width, artist.style, f"{view.name}-lens")
        case ask.PieceMap(index):
            sheet = artist.sheet(index)
            mapped = _map_view(artist, index, _fitting(artist, request, room))
            return draw_piece_map(mapped, artist.papers.sheet(index, sheet.whole[0].lying.face), artist.style)
        case ask.TurnFigure(turn):
            return turn_arrow(turn, artist.style)
        case _:
            raise TypeError(type(request).__name__)


def _stage(sheet: CutSheet, number: int) -> Stage:
    return sheet.stages[number - 1]


def _stage_view(artist: Artist, index: int, number: int, scale: Scale) -> StageView:
    sheet = artist.sheet(index)
    stage = _stage(sheet, number)
    words = strip_labels(sheet, stage, artist.language)
    return stage_view(artist.resolved, sheet, stage, scale, artist.language.labels, words)


def _map_view(artist: Artist, index: int, scale: Scale) -> PieceMapView:
    sheet = artist.sheet(index)
    return piece_map_view(artist.resolved, sheet, scale, artist.papers, artist.language.labels)


def _cut_figure(artist: Artist, index: int, number: int, scale: Scale) -> Figure:
    sheet = artist.sheet(index)
    stage = _stage(sheet, number)
    drawing = draw_stage(_stage_view(artist, index, number, scale), artist.style)
    symbol = artist.papers.sheet(index, stage.lying.face)
    return with_print(drawing, symbol, stage.taken[0].part, sheet.size, stage.lying)


def _trimmer(artist: Artist, sheet: CutSheet) -> Figure:
    """The sheet as it first lies at the stop, the blade at its first reading."""
    lying, unit = sheet.whole[0].lying, artist.resolved.kit.unit
    seen, stop = lying.seen_size(sheet.size), trimmer_limits(artist.resolved.kit).zero
    proportions = float(seen.width / seen.height)
    box = sheet_in_trimmer(proportions, stop)
    factor = box.width / to_points(seen.width, unit)
    flat = lie(rect_at_origin(sheet.size), sheet.size, lying, unit, TRUE_SIZE)
    symbol = artist.papers.sheet(sheet.index, lying.face)
    placed = compose(flat, scaling(factor), translation(box.left, box.top))
    first = sheet.stages[0] if sheet.stages else None
    blade = float(first.cuts[0].reading / first.seen.width) if first else 1.0
    return trimmer_picture((Use(symbol, placed),), proportions, blade, stop, artist.style)


# At the table.


def _at_table(artist: Artist, request: FigureRequest, room: Room) -> Figure:
    match request:
        case ask.NumberedLayout(index):
            scale = _fitting(artist, request, room)
            layout = artist.resolved.layouts[index]
            look, finished = _look(artist, index, scale), _finished(artist, index)
            len(finished.shapes)  # drawn now, while its numbers may be finding their places elsewhere
            places = _ring_places(artist, request, scale)
            name = f"layout-{layout.id}"
            flags = _flags(request)
            figure = draw_numbered_layout(look, finished, places, flags, artist.style, name)
            return replace(figure, scale=_scale_words(artist, scale))
        case ask.StepFigure(index, numbers, step):
            scale = _fitting(artist, request, room)
            look = _look(artist, index, scale)
            name = f"layout-{look.layout.id}-step-{step}"
            figure = draw_step_figure(look, numbers, step, artist.style, name)
            return replace(figure, scale="")
        case ask.FinishedPages(indexes):
            return _finished_pages(artist, indexes, room)
        case _:
            raise TypeError(type(request).__name__)


@cached_on
def _look(artist: Artist, index: int, scale: Scale) -> Look:
    return Look(artist.resolved.layouts[index], artist.resolved, artist.papers, scale)


@cached_on
def _finished(artist: Artist, index: int) -> Symbol:
    return finished_page(artist.resolved, index, artist.papers)


@cached_on
def _ring_places(artist: Artist, request: ask.NumberedLayout, scale: Scale) -> tuple[RingPlace, ...]:
    question = _ring_question(artist, request, scale)
    return place_rings(question) if artist.second is None else artist.second.reply(question)


@cached_on
def _ring_question(artist: Artist, request: ask.NumberedLayout, scale: Scale) -> RingQuestion:
    look, flags = _look(artist, request.layout, scale), _flags(request)
    return numbers_question(look, rings_of(look.layout, request.numbers), flags, artist.style)


@cached_on
def _flags(request: ask.NumberedLayout) -> tuple[RulerFlag, ...]:
    return ruler_flags(request.flags)


def ruler_flags(flags: Sequence[ask.Flag]) -> tuple[RulerFlag, ...]:
    """Flags as they are printed: without their unit, which the ruler has."""
    bare = ((flag, replace(flag.value, with_unit=False)) for flag in flags)
    return tuple(
        RulerFlag(flag.along, flag.start, value.value, length_text(value), flag.steps) for flag, value in bare
    )


def _finished_pages(artist: Artist, indexes: Sequence[int], room: Room) -> Figure:
    pages = [_finished(artist, index) for index in indexes]
    name = "finished-" + "-".join(artist.resolved.layouts[index].id for index in indexes)
    return draw_finished_pages(pages, room.width, room.height, artist.style, name)


# Step by step.


def _in_layers(artist: Artist, request: FigureRequest, room: Room) -> Figure:
    layers = LayerArtist(artist.resolved, artist.language, artist.papers, artist.style)
    width, height = room.width, room.height or room.width
    match request:
        case ask.StageLayers(index, number):
            sheet = artist.sheet(index)
            return draw_stage_layers(layers, sheet, _stage(sheet, number), width, height)
        case ask.LayoutLayers(index, numbers):
            return draw_layout_layers(layers, index, numbers)
        case _:
            raise TypeError(type(request).__name__)


# How to read.


# Numbers to explain a sign by: of a cut that comes later, and of a step that is not the first.
_LATER_CUT, _LATER_STEP = 3, 5


def _sign(artist: Artist, request: ask.SignFigure) -> Figure:
    unit, style, labels = artist.resolved.kit.unit, artist.style, artist.language.labels
    limits = trimmer_limits(artist.resolved.kit)
    mark, stop = limits.mark, limits.zero
    value = request.value.value
    match request.sign:
        case ask.Sign.READING:
            return signs.reading_sign(value, unit, mark, stop, style)
        case ask.Sign.LENS:
            return signs.lens_sign(value, unit, mark, stop, labels, style)
        case ask.Sign.PIECE:
            return signs.piece_sign(letter(0), style)
        case ask.Sign.SET_ASIDE:
            return signs.set_aside_sign(letter(1), _LATER_CUT, style)
        case ask.Sign.SCRAP:
            return signs.scrap_sign(labels, style)
        case ask.Sign.STACK:
            return signs.stack_sign([letter(at) for at in range(3)], style)
        case ask.Sign.WIDTH:
            return signs.width_sign(value, unit, style)
        case ask.Sign.BRACKET:
            return signs.bracket_sign(unit, style)
        case ask.Sign.REGISTER_MARK:
            return signs.register_mark_sign(style)
        case ask.Sign.FLAG:
            return layout_signs.flag_sign(_LATER_STEP, value, unit, style)


# In the box.


def _in_box(artist: Artist, request: FigureRequest, room: Room) -> Figure:
    kit, style, papers = artist.resolved.kit, artist.style, artist.papers
    match request:
        case ask.PileFigure(sheets):
            look = PileLook(_PILE_SHARE * room.width, room.pitch or 0.0, room.width)
            return pile_figure(artist.resolved, papers, [artist.sheet(at) for at in sheets], look, style)
        case ask.ReadySwatch(ready):
            scale = _shared_scale(artist, [each.size for each in kit.ready], room)
            swatch = ready_swatch(kit, papers, kit.ready[ready], scale, style)
            return replace(swatch, scale=_scale_words(artist, scale))
        case ask.SupplySwatch(supply):
            return supply_swatch(kit.supplies[supply], style)
        case ask.PhotoFigure(size):
            longest = min(room.width, room.height or room.width)
            return photo_pictogram(size.size, longest, style)
        case ask.PocketFigure(name):
            return _pocket(artist, name, room)
        case ask.PrintFrame(size):
            return _print_frame(artist, size.size)
        case ask.PaperStrips():
            return swatch_strips(kit, papers, room.width, room.height or room.width)
        case ask.PaperBand(sheet):
            return _band(artist, sheet, room)
        case ask.KitFlow():
            return _flow(artist, room)
        case ask.PrintCheck():
            return replace(print_check(kit.unit, style), scale=_scale_words(artist, TRUE_SIZE))
        case _:
            raise TypeError(type(request).__name__)


def _flow(artist: Artist, room: Room) -> Figure:
    """The flow of the kit, its sheets and layouts numbered and named as their pages are."""
    kit, sheets = artist.resolved.kit, artist.resolved.sheets
    named = {
        **{("sheets", each.index): (str(each.number), sheet_title(kit, each.sheet)) for each in sheets},
        **{("ready", index): ("", capitalised(each.name)) for index, each in enumerate(kit.ready)},
    }
    order = assembly_order(kit)
    layouts = {index: (str(place), layout_title(kit.layouts[index])) for place, index in enumerate(order, 1)}
    words = FlowWords(named, layouts, artist.language.labels.spare)
    pages = [_finished(artist, index) for index in range(len(kit.layouts))]
    art = FlowArt(kit, artist.papers, pages, words, artist.style)
    return flow_figure(flow_of(artist.resolved), art, room.width)


def _shared_scale(artist: Artist, sizes: Sequence[Size], room: Room) -> Scale:
    """The largest round scale at which the largest of things that are compared fits the room."""
    longest = max(max(size.width, size.height) for size in sizes)
    side, unit = min(room.width, room.height or room.width), artist.resolved.kit.unit
    return next((scale for scale in ROUND_SCALES if scale.points(longest, unit) <= side), ROUND_SCALES[-1])


def _pocket(artist: Artist, name: str, room: Room) -> Figure:
    """A pocket with its name, as high as the room, or as wide where its name is long."""
    edge = artist.style.dimension_width
    high, wide = (side - 2 * edge for side in (room.height or room.width, room.width))
    fitting = (wide - POCKET_SIDES) / text_width(name, Font.SANS_BOLD, 1.0)
    size = min(high / POCKET_HEIGHT, max(fitting, _LEAST_NAME))
    chip = pocket_chip(0.0, 0.0, name, artist.style.with_changes(disc_text_size=size))
    shapes = (translated(chip.shapes, edge, edge),)
    return Figure(f"pocket-{name}", chip.box.width + 2 * edge, chip.box.height + 2 * edge, shapes)


def _print_frame(artist: Artist, size: Size) -> Figure:
    """A frame at true size."""
    width, height = TRUE_SIZE.size(size, artist.resolved.kit.unit)
    line = Stroke(artist.style.palette.ink, artist.style.dimension_width, _FRAME_DASHES)
    edge = line.width / 2
    frame = Rect(edge, edge, width - 2 * edge, height - 2 * edge, None, line)
    return Figure("print-frame", width, height, (frame,))


def _band(artist: Artist, index: int, room: Room) -> Figure:
    """A strip of the front of a sheet's paper, repeated down a room of a height in points."""
    height = room.height or room.width
    symbol = artist.papers.sheet(index, Face.FRONT)
    factor = float(1 / _BAND_SCALE.reduction)
    count = int(height / (symbol.height * factor)) + 1
    strips = [
        Use(symbol, scaling(factor).then(translation(0.0, at * symbol.height * factor)))
        for at in range(count)
    ]
    corners = ((0.0, 0.0), (room.width, 0.0), (room.width, height), (0.0, height))
    return Figure(f"band-{index}", room.width, height, (Group(tuple(strips), clip=corners),))
