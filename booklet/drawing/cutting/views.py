"""What cutting figures show of a kit: cuts, strips, pieces and sizes as plain data."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.cutting.model import CutSheet, Piece, Stage, Strip
from booklet.drawing.cutting.piece_map import MappedPiece, PieceMapView
from booklet.drawing.cutting.stage_figure import StageCut, StageStrip, StageView
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.shapes.labels import FigureLabels
from booklet.drawing.shapes.scale import Scale
from booklet.kit.fields import Face
from booklet.kit.kit import trimmer_limits
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Unit
from booklet.measure.words import print_length
from booklet.placing.resolved import ResolvedKit


def stage_view(
    resolved: ResolvedKit,
    sheet: CutSheet,
    stage: Stage,
    scale: Scale,
    labels: FigureLabels,
    words: Sequence[Sequence[str]] = (),
) -> StageView:
    """A stage of a sheet at a scale; `words` are what stands on each strip under its letters, row by row."""
    unit, limits = resolved.kit.unit, trimmer_limits(resolved.kit)
    stated = (sheet.size.width, sheet.size.height)
    height = "" if stage.seen.height in stated else print_length(stage.seen.height, unit)
    return StageView(
        name=f"sheet-{sheet.number}-stage-{stage.number}",
        unit=unit,
        scale=scale,
        mark=limits.mark,
        reach=max(limits.reach, stage.seen.width),
        seen=stage.seen,
        height="" if sheet.sheet.is_cut_apart else height,
        cuts=tuple(StageCut(cut.number, cut.reading) for cut in stage.cuts),
        strips=tuple(
            _strip(sheet, strip, rows, unit)
            for strip, rows in zip(stage.strips, words or [()] * len(stage.strips), strict=True)
        ),
        papers=len(stage.taken),
        is_printed=sheet.sheet.is_cut_apart,
        labels=labels,
        zero=limits.zero,
    )


def _strip(sheet: CutSheet, strip: Strip, words: Sequence[str], unit: Unit) -> StageStrip:
    width = print_length(strip.end - strip.start, unit)
    return StageStrip(strip.start, strip.end, _letters(sheet, strip.pieces), tuple(words), width)


def _letters(sheet: CutSheet, pieces: Sequence[Piece]) -> tuple[str, ...]:
    """The letters of pieces that lie on each other; scrap has none."""
    return tuple(piece.label.removeprefix(str(sheet.number)) for piece in pieces if piece.is_useful)


def piece_map_view(
    resolved: ResolvedKit,
    sheet: CutSheet,
    scale: Scale,
    papers: KitPapers,
    labels: FigureLabels,
) -> PieceMapView:
    """A sheet as it first lies, with all that is cut from it, the letters of every copy."""
    lying = sheet.whole[0].lying
    alike: dict[ExactRect, list[Piece]] = {}
    for piece in sheet.pieces:
        alike.setdefault(piece.part, []).append(piece)
    return PieceMapView(
        name=f"sheet-{sheet.number}-pieces",
        unit=resolved.kit.unit,
        scale=scale,
        whole=sheet.size,
        lying=lying,
        pieces=tuple(
            MappedPiece(part, _letters(sheet, copies), _names(copies)) for part, copies in alike.items()
        ),
        artwork=papers.artwork(sheet.index) if lying.face is Face.FRONT else (),
        labels=labels,
    )


def _names(pieces: Sequence[Piece]) -> tuple[str, ...]:
    """What the copies of a piece are called, where that is one name."""
    names = {piece.name for piece in pieces if piece.is_useful}
    return tuple(names) if len(names) == 1 else ()
