"""A sheet's stages laid out for a page, but for their print.

Planning needs no print and no page number, so the drawing scale can be chosen from it; what is planned for
the scale that is chosen is then used for the pages themselves.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from enum import Enum

from reportlab.platypus import Flowable

from booklet.cutting.model import CutSheet, Stage
from booklet.drawing.cutting.cut_figure import ROOM_FOR_HEIGHT, StageView, StripView, draw_stage
from booklet.drawing.marks.scale_bar import Reading
from booklet.drawing.shapes.fonts import Font, pdf_font_name
from booklet.drawing.shapes.scale import Scale
from booklet.kit.kit import trimmer_limits
from booklet.measure.cache import cached_on
from booklet.measure.exact import Fraction
from booklet.measure.words import print_length
from booklet.pages.cut_beside import (
    GUTTER,
    Look,
    beside_words,
    step_rows,
    styles_of,
    view_rows,
)
from booklet.pages.cut_moves import Move, moves
from booklet.pages.cut_rows import HEADING_GAP, MoreRow, Row, SheetPlan, StageRow
from booklet.pages.cut_views import enlarged_views, shared_views, stage_readings, unlabelled
from booklet.pages.cut_words import direction_words, strip_words, take_words
from booklet.pages.type import escaped, rich
from booklet.placing.resolved import ResolvedKit

LEAST_WORDS_WIDTH = 92.0
_NARROW_COLUMN = 0.64  # of the figures' column


class Fit(Enum):
    """Where a sheet's enlarged views stand: near the figure of their cut, or gathered at the sheet's end."""

    NEAR = "near"
    GATHERED = "gathered"


@cached_on
def plan_sheet(resolved: ResolvedKit, index: int, look: Look, fit: Fit = Fit.NEAR) -> SheetPlan:
    """Lay out the stages of one sheet of the kit."""
    sheet = resolved.sheets[index]
    if fit is Fit.NEAR:
        return SheetPlan(sheet, tuple(_near_rows(resolved, sheet, look)))
    rows = [row for stage in sheet.stages for row in _rows(resolved, index, stage.number, look, ())]
    return SheetPlan(sheet, (*rows, *_marks_rows(resolved, sheet, look)))


def figure_column(resolved: ResolvedKit, scale: Scale) -> float:
    """The width that every figure keeps to: the widest piece that is ever laid in the trimmer, in points."""
    widest = max(
        (stage.seen.width for sheet in resolved.sheets for stage in sheet.stages), default=Fraction(1)
    )
    return scale.points(widest, resolved.kit.unit)


def _near_rows(resolved: ResolvedKit, sheet: CutSheet, look: Look) -> Iterator[Row]:
    """Readings that are shown enlarged on this sheet already are not shown again."""
    shown: set[Fraction] = set()
    for stage in sheet.stages:
        wanted = unlabelled(resolved, sheet, [stage], shown)
        yield from _rows(resolved, sheet.index, stage.number, look, tuple(wanted))
        shown.update(cut.reading for cut in stage.cuts)


@cached_on
def _rows(
    resolved: ResolvedKit, index: int, number: int, look: Look, wanted: tuple[Reading, ...]
) -> tuple[Row, ...]:
    """One stage, with enlarged views of the readings that are `wanted`."""
    sheet = resolved.sheets[index]
    stage = sheet.stages[number - 1]
    widest, page = figure_column(resolved, look.scale), look.grid.text_width
    column = _stage_column(look.scale.points(stage.seen.width, resolved.kit.unit), widest)
    spoken = moves(resolved, sheet, stage)
    views = enlarged_views(resolved, sheet, wanted, look.drawing, page - widest - GUTTER, page)
    depth = look.scale.points(stage.seen.height, resolved.kit.unit) + look.drawing.first_offset
    beside = beside_words(spoken, views, stage.tip, depth, look, page - column - GUTTER)
    view = _view(resolved, sheet, stage, look, column, beside.steps.height, _alt(sheet, stage, spoken))
    drawing = draw_stage(view, look.drawing)
    heading, heading_height = _heading(resolved, sheet, stage, look, page)
    words_x, words_width = column + GUTTER, page - column - GUTTER
    return (
        StageRow(stage, heading, heading_height, drawing, beside.steps, words_x, words_width, beside.views),
        *step_rows(stage, beside.later, look, page),
        *(view_rows(stage, beside.views, look) if beside.is_beneath else ()),
    )


def _marks_rows(resolved: ResolvedKit, sheet: CutSheet, look: Look) -> Iterator[MoreRow]:
    """Enlarged views for the readings of all stages at the sheet's end, each value once."""
    wanted = unlabelled(resolved, sheet, sheet.stages, ())
    views = shared_views(resolved, sheet, wanted, look.drawing, look.grid.text_width)
    for place, row in enumerate(view_rows(sheet.stages[-1], views, look)):
        yield row if place else replace(row.titled(), bond=0, views=views)


def _stage_column(width: float, column: float) -> float:
    """The column that a piece of this width keeps to: where it leaves room, words stand nearer and wider."""
    narrow = _NARROW_COLUMN * column
    return narrow if width + ROOM_FOR_HEIGHT <= narrow else column


def _heading(
    resolved: ResolvedKit, sheet: CutSheet, stage: Stage, look: Look, width: float
) -> tuple[Flowable | None, float]:
    """What is taken and how it is turned; after it, quieter, how the print then lies.  And its height."""
    taken = take_words(sheet, stage)
    if taken is None:
        return None, 0.0
    direction = direction_words(resolved, sheet, stage)
    face = f'<font name="{pdf_font_name(Font.SANS)}" size="{look.sizes.small}">'
    # Held together, so that it stands on one line, the first or the next.
    held = escaped(direction or "").replace(" ", "\u00a0")
    quiet = f"&nbsp; {face}{held}</font>" if direction else ""
    heading = rich(f"{escaped(taken)}.{quiet}", styles_of(look).heading)
    return heading, heading.wrap(width, 1000.0)[1] + HEADING_GAP


def _view(
    resolved: ResolvedKit,
    sheet: CutSheet,
    stage: Stage,
    look: Look,
    column: float,
    beside: float,
    alt: str,
) -> StageView:
    unit = resolved.kit.unit
    strips = []
    for strip in stage.strips:
        said = strip_words(resolved, sheet, strip)
        width = print_length(strip.end - strip.start, unit)
        strips.append(
            StripView(strip.start, strip.end, said.letters, said.size, said.goes, said.scrap, said.off, width)
        )
    return StageView(
        name=f"sheet-{sheet.number}-stage-{stage.number}",
        alt=alt,
        unit=unit,
        scale=look.scale,
        mark=trimmer_limits(resolved.kit).mark,
        seen=stage.seen,
        height_label=print_length(stage.seen.height, unit),
        readings=stage_readings(resolved, stage),
        strips=tuple(strips),
        papers=len(stage.taken),
        register_marks=sheet.sheet.is_cut_apart,
        column=column,
        gutter=GUTTER,
        beside=beside,
    )


def _alt(sheet: CutSheet, stage: Stage, spoken: Sequence[Move]) -> str:
    said = " ".join(f"{move.order} {' '.join(move.outcome)}" for move in spoken)
    return f"Sheet {sheet.number}, stage {stage.number}. {said}"
