"""What a figure of a stage shows of a kit: its cuts, strips and sizes as plain data."""

from __future__ import annotations

from booklet.cutting.model import CutSheet, Fate, Stage, Strip
from booklet.drawing.cutting.stage_figure import StageCut, StageStrip, StageView
from booklet.drawing.shapes.labels import FigureLabels
from booklet.drawing.shapes.scale import Scale
from booklet.kit.trimmer import trimmer_limits
from booklet.measure.length import Unit
from booklet.measure.words import print_length
from booklet.placing.resolved import ResolvedKit


def stage_view(
    resolved: ResolvedKit, sheet: CutSheet, stage: Stage, scale: Scale, labels: FigureLabels, alt: str = ""
) -> StageView:
    """A stage of a sheet at a scale; `alt` says in words what a person who cannot see it must know."""
    unit, limits = resolved.kit.unit, trimmer_limits(resolved.kit)
    stated = (sheet.size.width, sheet.size.height)
    height = "" if stage.seen.height in stated else print_length(stage.seen.height, unit)
    return StageView(
        name=f"sheet-{sheet.number}-stage-{stage.number}",
        alt=alt,
        unit=unit,
        scale=scale,
        mark=limits.mark,
        reach=max(limits.reach, stage.seen.width),
        seen=stage.seen,
        height="" if sheet.sheet.is_cut_apart else height,
        cuts=tuple(StageCut(cut.number, cut.reading) for cut in stage.cuts),
        strips=tuple(_strip(sheet, strip, unit) for strip in stage.strips),
        papers=len(stage.taken),
        is_printed=sheet.sheet.is_cut_apart,
        labels=labels,
    )


def _strip(sheet: CutSheet, strip: Strip, unit: Unit) -> StageStrip:
    kept = [piece for piece in strip.pieces if piece.fate is not Fate.SCRAP]
    letters = tuple(piece.label.removeprefix(str(sheet.number)) for piece in kept)
    names = dict.fromkeys(piece.name for piece in kept)
    width = print_length(strip.end - strip.start, unit)
    return StageStrip(strip.start, strip.end, letters, tuple(names) if len(names) == 1 else (), width)
