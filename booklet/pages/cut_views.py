"""Enlarged views of the trimmer's scale, for readings that the scale on a figure does not label."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from booklet.cutting.model import CutSheet, Stage
from booklet.drawing.figure import Figure, Text, translated
from booklet.drawing.fonts import Font
from booklet.drawing.scale import Scale
from booklet.drawing.scale_bar import Reading, Ruler, enlarged_view, is_labelled, view_width
from booklet.drawing.style import DrawingStyle
from booklet.kit.kit import trimmer_limits
from booklet.measure.length import to_points
from booklet.pages.cut_words import reading_words
from booklet.placing.worked import WorkedKit

# At how large a scale a stretch of the trimmer's scale is shown, largest first.
_SCALES = tuple(Scale(Fraction(reduction)) for reduction in ("1", "3/2", "2", "3"))


def stage_readings(worked: WorkedKit, stage: Stage) -> tuple[Reading, ...]:
    """The readings of a stage as a figure shows them, in cutting order."""
    return tuple(Reading(str(cut.number), cut.reading, reading_words(worked, cut)) for cut in stage.cuts)


def enlarged_views(
    worked: WorkedKit, sheet: CutSheet, stage: Stage, style: DrawingStyle, room: float
) -> dict[int, Figure]:
    """An enlarged view, at most `room` points wide, for each reading that a trimmer does not label.

    The keys are the cuts' numbers.  Register marks are printed on the sheet itself: there the scale only says
    where to look for them.
    """
    if sheet.sheet.is_cut_apart:
        return {}
    unit = worked.kit.unit
    limits = trimmer_limits(worked.kit)
    full = Ruler(max(limits.reach, stage.seen.width), limits.mark, unit, to_points(Fraction(1), unit))
    return {
        cut.number: _view_figure(sheet, cut.number, reading, full, style, room)
        for cut, reading in zip(stage.cuts, stage_readings(worked, stage), strict=True)
        if not is_labelled(reading.value, unit)
    }


def _view_figure(
    sheet: CutSheet, number: int, reading: Reading, full: Ruler, style: DrawingStyle, room: float
) -> Figure:
    """The view at the largest round scale that the column holds, its scale stated at its foot."""
    scale = next(
        (each for each in _SCALES if view_width(_at_scale(full, each), reading) <= room),
        _SCALES[-1],
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
