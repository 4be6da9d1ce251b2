"""A sheet's stages laid out for a page, but for their print: figures at the left, words beside them.

Planning needs no print and no page number, so the drawing scale can be chosen from it; what is planned for
the scale that is chosen is then used for the pages themselves.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction
from functools import lru_cache
from xml.sax.saxutils import escape

from reportlab.platypus import Flowable

from booklet.cutting.model import CutSheet, Stage
from booklet.drawing.cut_figure import HANG, ROOM_FOR_HEIGHT, StageDrawing, StageView, StripView, draw_stage
from booklet.drawing.figure import Figure
from booklet.drawing.fonts import Font, pdf_font_name
from booklet.drawing.scale import Scale
from booklet.drawing.style import DrawingStyle, Palette
from booklet.kit.kit import trimmer_limits
from booklet.measure.words import print_length
from booklet.pages.cut_moves import Move, moves
from booklet.pages.cut_steps import Numbered, Steps
from booklet.pages.cut_views import Views, enlarged_views, shared_views, stage_readings, unlabelled
from booklet.pages.cut_words import about, direction_words, strip_words, take_words
from booklet.pages.flow import FigureBox
from booklet.pages.grid import Grid, TypeSizes
from booklet.pages.page import Laid
from booklet.pages.type import Styles, make_styles, rich
from booklet.placing.worked import WorkedKit

GUTTER = 14.0
LEAST_WORDS_WIDTH = 92.0
ROW_GAP = 6.0
_STEP_GAP = 7.0
_HEADING_GAP = 5.0
_NARROW_COLUMN = 0.64  # of the figures' column
# How much deeper than its figure a column of words may run, and how deep it may run beside any figure.
_WORDS_OVERRUN = 60.0
_WORDS_DEPTH = 200.0
_STEPS_TOGETHER = 4


@dataclass(frozen=True)
class Look:
    """What decides how large everything stands on a page."""

    grid: Grid
    sizes: TypeSizes
    drawing: DrawingStyle
    scale: Scale


class Marks(Enum):
    """Where a sheet's enlarged views stand: near the figure of their cut, or together at the sheet's end."""

    NEAR = "near"
    TOGETHER = "together"


@dataclass(frozen=True)
class StageRow:
    """A stage as it goes on a page: its heading over its drawing, its steps beside it, heights in points.

    `views` are the enlarged views of its readings, wherever they stand.
    """

    stage: Stage
    heading: Flowable | None
    heading_height: float
    drawing: StageDrawing
    steps: Steps
    words_x: float
    words_width: float
    views: tuple[Figure, ...]
    bond: int = 0

    @property
    def first_step(self) -> int:
        """The number of its first cut."""
        return self.stage.cuts[0].number

    @property
    def height(self) -> float:
        """How high it stands."""
        return self.heading_height + self.drawing.height

    def laid(self, figure: Figure, y: float, width: float) -> Iterator[Laid]:
        """Everything in its place, the row's top at `y`; `figure` is the drawing with its print."""
        if self.heading:
            yield Laid(self.heading, 0.0, y, width, self.heading_height - _HEADING_GAP)
        y += self.heading_height
        yield Laid(FigureBox(figure), -HANG, y, figure.width, figure.height)
        top = y + self.drawing.beside_top
        yield Laid(self.steps, self.words_x, top, self.words_width, self.steps.height)


@dataclass(frozen=True)
class MoreRow:
    """What of a stage found no room beside its figure: steps or enlarged views across the page.

    Steps want more to stay with the figure than enlarged views do: that is their `bond`.
    """

    stage: Stage
    parts: tuple[Laid, ...]
    height: float
    bond: int
    first_step: int | None = None


Row = StageRow | MoreRow


@dataclass(frozen=True)
class SheetPlan:
    """A sheet's rows, in cutting order."""

    sheet: CutSheet
    rows: tuple[Row, ...]


@lru_cache(maxsize=8)
def _styles(palette: Palette, sizes: TypeSizes) -> Styles:
    return make_styles(palette, sizes)


@lru_cache(maxsize=256)
def plan_sheet(worked: WorkedKit, index: int, look: Look, marks: Marks = Marks.NEAR) -> SheetPlan:
    """Lay out the stages of one sheet of the kit."""
    sheet = worked.sheets[index]
    rows: list[Row] = []
    shown: set[Fraction] = set()
    if marks is Marks.TOGETHER:
        shown = {cut.reading for stage in sheet.stages for cut in stage.cuts}
    for stage in sheet.stages:
        rows += _rows(worked, sheet, stage, look, shown)
        shown.update(cut.reading for cut in stage.cuts)
    if marks is Marks.TOGETHER:
        rows += _marks_rows(worked, sheet, look)
    return SheetPlan(sheet, tuple(rows))


def _marks_rows(worked: WorkedKit, sheet: CutSheet, look: Look) -> Iterator[MoreRow]:
    """Enlarged views for the readings of all stages at the sheet's end, each value once."""
    page, last = look.grid.text_width, sheet.stages[-1]
    wanted = unlabelled(worked, sheet, sheet.stages, ())
    views = shared_views(worked, sheet, wanted, look.drawing, page)
    styles = _styles(look.drawing.palette, look.sizes)
    for row in _view_rows(last, views, page):
        title = rich("The marks between the labels, enlarged.", styles.heading)
        high = title.wrap(page, 1000.0)[1] + _HEADING_GAP if row.parts[0].flowable.figure is views[0] else 0.0
        moved = tuple(replace(part, y=part.y + high) for part in row.parts)
        heading = (Laid(title, 0.0, 0.0, page, high - _HEADING_GAP),) if high else ()
        yield replace(row, parts=(*heading, *moved), height=row.height + high, bond=0)


def figure_column(worked: WorkedKit, scale: Scale) -> float:
    """The width that every figure keeps to: the widest piece that is ever laid in the trimmer, in points."""
    widest = max((stage.seen.width for sheet in worked.sheets for stage in sheet.stages), default=Fraction(1))
    return scale.points(widest, worked.kit.unit)


def _rows(
    worked: WorkedKit, sheet: CutSheet, stage: Stage, look: Look, shown: Collection[Fraction]
) -> Iterator[Row]:
    """The stage's rows; readings that are `shown` enlarged on this sheet already are not shown again."""
    styles = _styles(look.drawing.palette, look.sizes)
    widest, page = figure_column(worked, look.scale), look.grid.text_width
    column = _stage_column(look.scale.points(stage.seen.width, worked.kit.unit), widest)
    spoken = moves(worked, sheet, stage)
    wanted = unlabelled(worked, sheet, [stage], shown)
    views = enlarged_views(worked, sheet, wanted, look.drawing, page - widest - GUTTER, page)
    depth = look.scale.points(stage.seen.height, worked.kit.unit) + look.drawing.first_offset
    beside = _beside(spoken, views, stage.tip, depth, look, page - column - GUTTER)
    drawing = draw_stage(
        _view(worked, sheet, stage, look, column, beside.steps.height, _alt(sheet, stage, spoken)),
        look.drawing,
    )
    heading = _heading(worked, sheet, stage, look, styles)
    heading_height = heading.wrap(page, 1000.0)[1] + _HEADING_GAP if heading else 0.0
    words_x, words_width = column + GUTTER, page - column - GUTTER
    yield StageRow(stage, heading, heading_height, drawing, beside.steps, words_x, words_width, beside.views)
    yield from _step_rows(stage, beside.later, look, page)
    if beside.is_beneath:
        yield from _view_rows(stage, beside.views, page)


def _stage_column(width: float, column: float) -> float:
    """The column that a piece of this width keeps to: where it leaves room, words stand nearer and wider."""
    narrow = _NARROW_COLUMN * column
    return narrow if width + ROOM_FOR_HEIGHT <= narrow else column


def _heading(worked: WorkedKit, sheet: CutSheet, stage: Stage, look: Look, styles: Styles) -> Flowable | None:
    """What is taken and how it is turned; after it, quieter, how the print then lies."""
    taken = take_words(sheet, stage)
    if taken is None:
        return None
    direction = direction_words(worked, sheet, stage)
    face = f'<font name="{pdf_font_name(Font.SANS)}" size="{look.sizes.small}">'
    quiet = f"&nbsp; {face}{escape(direction)}</font>" if direction else ""
    return rich(f"{escape(taken)}.{quiet}", styles.heading)


# The words beside a figure.


@dataclass(frozen=True)
class _Beside:
    """The steps beside a figure, those that must stand elsewhere, and the enlarged views."""

    steps: Steps
    later: tuple[Move, ...]
    views: tuple[Figure, ...]
    is_beneath: bool


def _beside(
    spoken: Sequence[Move],
    views: Views,
    tip: str | None,
    depth: float,
    look: Look,
    width: float,
) -> _Beside:
    """Words for a figure of this depth: as many steps as fit beside it, the others across the page.

    Enlarged views stand under their steps if that makes the whole no deeper, else in rows across the page.
    """
    styles = _styles(look.drawing.palette, look.sizes)
    lines = [Numbered(move.numbers, _narrow_words(move, styles), look.drawing) for move in spoken]
    tips = [rich(f"<b>Tip</b> {escape(tip)}", styles.small)] if tip else []
    viewed: list[Flowable] = []
    for move, line in zip(spoken, lines, strict=True):
        viewed.append(line)
        viewed += [FigureBox(views.single[number]) for number in move.numbers if number in views.single]
    bare = _stacked([*lines, *tips], width)
    full = _stacked([*viewed, *tips], width)
    most = max(depth + _WORDS_OVERRUN, _WORDS_DEPTH)
    if max(full.height, depth) <= min(max(bare.height, depth) + _views_height(views.shared, look), most):
        return _Beside(full, (), tuple(views.single.values()), is_beneath=False)
    count = len(lines)
    while count > 1 and bare.height > most:
        count -= 1
        bare = _stacked([*lines[:count], *tips], width)
    return _Beside(bare, tuple(spoken[count:]), views.shared, is_beneath=True)


def _stacked(parts: Sequence[Flowable], width: float) -> Steps:
    steps = Steps(parts, _STEP_GAP)
    steps.wrap(width, 1000.0)
    return steps


def _narrow_words(move: Move, styles: Styles) -> Flowable:
    outcome = "<br/>".join(escape(sentence) for sentence in move.outcome)
    return rich(f"<b>{escape(move.order)}</b><br/>{outcome}", styles.body)


def _wide_words(move: Move, styles: Styles) -> Flowable:
    outcome = " ".join(escape(sentence) for sentence in move.outcome)
    return rich(f"<b>{escape(move.order)}</b> {outcome}", styles.body)


# What stands across the page.


def _step_rows(stage: Stage, later: Sequence[Move], look: Look, width: float) -> Iterator[MoreRow]:
    styles = _styles(look.drawing.palette, look.sizes)
    for at in range(0, len(later), _STEPS_TOGETHER):
        some = later[at : at + _STEPS_TOGETHER]
        steps = _stacked(
            [Numbered(move.numbers, _wide_words(move, styles), look.drawing) for move in some], width
        )
        yield MoreRow(
            stage, (Laid(steps, 0.0, 0.0, width, steps.height),), steps.height, 2, some[0].numbers[0]
        )


def _view_rows(stage: Stage, views: Sequence[Figure], width: float) -> Iterator[MoreRow]:
    for row in _in_rows(views, width):
        pitch = max(view.width for view in views) + GUTTER
        laid = tuple(
            Laid(FigureBox(view), at * pitch, 0.0, view.width, view.height) for at, view in enumerate(row)
        )
        yield MoreRow(stage, laid, max(view.height for view in row), bond=1)


def _in_rows(views: Sequence[Figure], width: float) -> list[Sequence[Figure]]:
    if not views:
        return []
    widest = max(view.width for view in views)
    across = max(int((width + GUTTER) // (widest + GUTTER)), 1)
    return [views[at : at + across] for at in range(0, len(views), across)]


def _views_height(views: Sequence[Figure], look: Look) -> float:
    rows = _in_rows(views, look.grid.text_width)
    return sum((max(view.height for view in row) + ROW_GAP for row in rows), start=0.0)


# The figure.


def _view(
    worked: WorkedKit, sheet: CutSheet, stage: Stage, look: Look, column: float, beside: float, alt: str
) -> StageView:
    unit = worked.kit.unit
    about_it = sheet.sheet.is_cut_apart
    strips = []
    for strip in stage.strips:
        said = strip_words(worked, sheet, strip)
        width = about(print_length(strip.end - strip.start, unit), about_it)
        strips.append(
            StripView(strip.start, strip.end, said.letters, said.size, said.goes, said.scrap, said.off, width)
        )
    return StageView(
        name=f"sheet-{sheet.number}-stage-{stage.number}",
        alt=alt,
        unit=unit,
        scale=look.scale,
        mark=trimmer_limits(worked.kit).mark,
        seen=stage.seen,
        height_label=about(print_length(stage.seen.height, unit), about_it),
        readings=stage_readings(worked, stage),
        strips=tuple(strips),
        papers=len(stage.taken),
        register_marks=about_it,
        column=column,
        gutter=GUTTER,
        beside=beside,
    )


def _alt(sheet: CutSheet, stage: Stage, spoken: Sequence[Move]) -> str:
    said = " ".join(f"{move.order} {' '.join(move.outcome)}" for move in spoken)
    return f"Sheet {sheet.number}, stage {stage.number}. {said}"
