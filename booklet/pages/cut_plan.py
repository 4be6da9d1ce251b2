"""A sheet's stages laid out for a page, but for their print: figures at the left, words beside them.

Planning needs no print and no page number, so the drawing scale can be chosen from it; what is planned for
the scale that is chosen is then used for the pages themselves.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from xml.sax.saxutils import escape

from reportlab.platypus import Flowable

from booklet.cutting.model import CutSheet, Stage
from booklet.drawing.cut_figure import HANG, StageDrawing, StageView, StripView, draw_stage
from booklet.drawing.figure import Figure, Text, translated
from booklet.drawing.fonts import Font
from booklet.drawing.scale import Scale
from booklet.drawing.scale_bar import Reading, Ruler, enlarged_view, label_step, view_width
from booklet.drawing.style import DrawingStyle, Palette
from booklet.kit.kit import trimmer_limits
from booklet.measure.length import to_points
from booklet.measure.words import print_length
from booklet.pages.cut_steps import Numbered, Steps
from booklet.pages.cut_words import (
    Move,
    about,
    direction_words,
    moves,
    reading_words,
    strip_words,
    take_words,
)
from booklet.pages.flow import FigureBox
from booklet.pages.grid import Grid, TypeSizes
from booklet.pages.page import Laid, story_height
from booklet.pages.type import Styles, make_styles, rich, words
from booklet.placing.worked import WorkedKit

GUTTER = 14.0
LEAST_WORDS_WIDTH = 92.0
_STEP_GAP = 7.0
_VIEW_GAP = 10.0
# At how large a scale a stretch of the trimmer's scale is shown enlarged, largest first.
_VIEW_SCALES = tuple(Scale(Fraction(reduction)) for reduction in ("1", "3/2", "2", "3"))


@dataclass(frozen=True)
class Look:
    """What decides how large everything stands on a page."""

    grid: Grid
    sizes: TypeSizes
    drawing: DrawingStyle
    scale: Scale


@dataclass(frozen=True)
class StageRow:
    """A stage as it goes on a page: its heading, its drawing, the words beside it, enlarged views beneath.

    Heights are in points; `words_x` is where the words stand.
    """

    stage: Stage
    heading: tuple[Flowable, ...]
    heading_height: float
    drawing: StageDrawing
    steps: Steps
    words_x: float
    words_width: float
    beneath: tuple[Figure, ...]
    views: tuple[Figure, ...]
    height: float

    def laid(self, figure: Figure, y: float, width: float) -> Iterator[Laid]:
        """Everything in its place, the row's top at `y`; `figure` is the drawing with its print."""
        for part in self.heading:
            high = part.wrap(width, 1000.0)[1]
            yield Laid(part, 0.0, y, width, high)
            y += high
        yield Laid(FigureBox(figure), -HANG, y, figure.width, figure.height)
        beside = self.steps.wrap(self.words_width, 1000.0)[1]
        yield Laid(self.steps, self.words_x, y + self.drawing.outline.top, self.words_width, beside)
        y += figure.height + _VIEW_GAP
        yield from _views_laid(self.beneath, y, width)


@dataclass(frozen=True)
class SheetPlan:
    """A sheet's rows, in cutting order."""

    sheet: CutSheet
    rows: tuple[StageRow, ...]


@lru_cache(maxsize=8)
def _styles(palette: Palette, sizes: TypeSizes) -> Styles:
    return make_styles(palette, sizes)


@lru_cache(maxsize=64)
def plan_sheet(worked: WorkedKit, index: int, look: Look) -> SheetPlan:
    """Lay out the stages of one sheet of the kit."""
    sheet = worked.sheets[index]
    column = figure_column(worked, look.scale)
    return SheetPlan(sheet, tuple(_row(worked, sheet, stage, look, column) for stage in sheet.stages))


def figure_column(worked: WorkedKit, scale: Scale) -> float:
    """The width that every figure keeps to: the widest piece that is ever laid in the trimmer, in points."""
    widest = max((stage.seen.width for sheet in worked.sheets for stage in sheet.stages), default=Fraction(1))
    return scale.points(widest, worked.kit.unit)


def _row(worked: WorkedKit, sheet: CutSheet, stage: Stage, look: Look, column: float) -> StageRow:
    styles = _styles(look.drawing.palette, look.sizes)
    words_x = column + GUTTER
    words_width = look.grid.text_width - words_x
    lines = _step_lines(worked, sheet, stage, look, styles)
    views = _views(worked, sheet, stage, look, words_width)
    spoken = _tallied(lines, {}, words_width, styles, stage)
    beside = _tallied(lines, dict(views), words_width, styles, stage)
    high = look.scale.points(stage.seen.height, worked.kit.unit)
    least = high + look.drawing.first_offset
    rows_beneath = _beneath_height([view for _, view in views], look.grid.text_width)
    inside = max(beside.height, least) <= max(spoken.height, least) + rows_beneath
    steps = beside if inside else spoken
    beneath = () if inside else tuple(view for _, view in views)
    drawing = draw_stage(_view(worked, sheet, stage, look, column, steps.height), look.drawing)
    heading = tuple(_heading(worked, sheet, stage, styles))
    heading_height = story_height(heading, look.grid.text_width)
    height = heading_height + drawing.height + (rows_beneath if beneath else 0.0)
    figures = tuple(view for _, view in views)
    return StageRow(
        stage, heading, heading_height, drawing, steps, words_x, words_width, beneath, figures, height
    )


def _heading(worked: WorkedKit, sheet: CutSheet, stage: Stage, styles: Styles) -> Iterator[Flowable]:
    taken = take_words(sheet, stage)
    if taken:
        yield words(taken, styles.heading)
    direction = direction_words(worked, sheet, stage)
    if direction:
        yield words(direction, styles.small)


def _step_lines(
    worked: WorkedKit, sheet: CutSheet, stage: Stage, look: Look, styles: Styles
) -> list[tuple[int, Numbered]]:
    return [
        (move.number, Numbered(str(move.number), _move_paragraph(move, styles), look.drawing))
        for move in moves(worked, sheet, stage)
    ]


def _move_paragraph(move: Move, styles: Styles) -> Flowable:
    outcome = "<br/>".join(escape(sentence) for sentence in move.outcome)
    return rich(f"<b>{escape(move.order)}</b><br/>{outcome}", styles.body)


def _tallied(
    lines: Sequence[tuple[int, Numbered]],
    views: dict[int, Figure],
    width: float,
    styles: Styles,
    stage: Stage,
) -> Steps:
    """The words of a stage with the enlarged views that stand among them, and how high that is."""
    parts: list[Flowable] = []
    for number, line in lines:
        parts.append(line)
        if number in views:
            parts.append(FigureBox(views[number]))
    if stage.tip:
        parts.append(rich(f"<b>Tip</b> {escape(stage.tip)}", styles.small))
    steps = Steps(parts, _STEP_GAP)
    steps.wrap(width, 1000.0)
    return steps


def _view(
    worked: WorkedKit, sheet: CutSheet, stage: Stage, look: Look, column: float, beside: float
) -> StageView:
    unit = worked.kit.unit
    about_it = sheet.sheet.is_cut_apart
    strips = []
    for strip in stage.strips:
        said = strip_words(worked, sheet, strip)
        width = about(print_length(strip.end - strip.start, unit), about_it)
        strips.append(
            StripView(strip.start, strip.end, said.letters, said.size, said.goes, said.scrap, width)
        )
    return StageView(
        name=f"sheet-{sheet.number}-stage-{stage.number}",
        alt=_alt(worked, sheet, stage),
        unit=unit,
        scale=look.scale,
        mark=trimmer_limits(worked.kit).mark,
        seen=stage.seen,
        height_label=about(print_length(stage.seen.height, unit), about_it),
        readings=_readings(worked, stage),
        strips=tuple(strips),
        papers=len(stage.taken),
        register_marks=about_it,
        column=column,
        gutter=GUTTER,
        beside=beside,
    )


def _alt(worked: WorkedKit, sheet: CutSheet, stage: Stage) -> str:
    said = " ".join(
        f"{move.number}: {move.order} {' '.join(move.outcome)}" for move in moves(worked, sheet, stage)
    )
    return f"Sheet {sheet.number}, stage {stage.number}. {said}"


def _readings(worked: WorkedKit, stage: Stage) -> tuple[Reading, ...]:
    return tuple(Reading(str(cut.number), cut.reading, reading_words(worked, cut)) for cut in stage.cuts)


# Enlarged views of the scale.


def _views(
    worked: WorkedKit, sheet: CutSheet, stage: Stage, look: Look, room: float
) -> list[tuple[int, Figure]]:
    """An enlarged view for each reading that the drawn scale does not label, by its cut's number.

    Register marks are printed on the sheet itself: there the scale only says where to look for them.
    """
    if sheet.sheet.is_cut_apart:
        return []
    unit = worked.kit.unit
    limits = trimmer_limits(worked.kit)
    drawn = Ruler(stage.seen.width, limits.mark, unit, look.scale.points(Fraction(1), unit))
    step = label_step(drawn, look.drawing)
    reach = max(limits.reach, stage.seen.width)
    full = Ruler(reach, limits.mark, unit, to_points(Fraction(1), unit))
    return [
        (cut.number, _view_figure(sheet, cut.number, reading, full, look.drawing, room))
        for cut, reading in zip(stage.cuts, _readings(worked, stage), strict=True)
        if reading.value % step
    ]


def _view_figure(
    sheet: CutSheet, number: int, reading: Reading, full: Ruler, style: DrawingStyle, room: float
) -> Figure:
    """The view at the largest round scale that the column holds, its scale stated at its foot."""
    scale = next(
        (each for each in _VIEW_SCALES if view_width(_at_scale(full, each), reading) <= room),
        _VIEW_SCALES[-1],
    )
    width = view_width(_at_scale(full, scale), reading)
    view = enlarged_view(0, 0, width, full, reading, style)
    words = scale.words.removeprefix("Scale ")
    ink = style.palette.soft_ink
    stated = Text(words, 0, view.box.bottom - 4.5, style.note_size, Font.SANS, ink, role="scale words")
    left = min(view.box.left, 0.0)
    return Figure(
        f"sheet-{sheet.number}-step-{number}",
        view.box.right - left,
        view.box.height,
        (translated((*view.shapes, stated), -left, -view.box.top),),
        f"The trimmer's scale enlarged, an arrow at {reading.text}.",
        scale.words,
    )


def _at_scale(full: Ruler, scale: Scale) -> Ruler:
    return replace(full, unit_points=scale.points(Fraction(1), full.unit))


def _beneath_height(views: Sequence[Figure], width: float) -> float:
    """How high enlarged views stand in rows beneath the figure, with the gaps above the rows."""
    return sum(max(view.height for view in row) + _VIEW_GAP for row in _view_rows(views, width))


def _view_rows(views: Sequence[Figure], width: float) -> list[Sequence[Figure]]:
    if not views:
        return []
    widest = max(view.width for view in views)
    across = max(int((width + GUTTER) // (widest + GUTTER)), 1)
    return [views[at : at + across] for at in range(0, len(views), across)]


def _views_laid(views: Sequence[Figure], y: float, width: float) -> Iterator[Laid]:
    for row in _view_rows(views, width):
        x = 0.0
        for view in row:
            yield Laid(FigureBox(view), x, y, view.width, view.height)
            x += max(each.width for each in views) + GUTTER
        y += max(view.height for view in row) + _VIEW_GAP
