"""What scissors and punches do at the cutting table, between the cuts: rows below those of a stage."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.blocks import CutSlip, SlipRow
from booklet.content.cutting.outcomes import outcome_row, outcomes
from booklet.content.cutting.pieces import piece_refs
from booklet.content.spans import CutRef, Extent, Length, Line, Own, Role, line
from booklet.content.words.language import Language
from booklet.cutting.model import CutSheet, Stage, TableWork
from booklet.kit.table_work import PunchWork, RoundWork, SnipWork, TrimWork, WorkStep
from booklet.measure.exact import Fraction
from booklet.placing.details import Tool
from booklet.placing.resolved import ResolvedKit


def tools_of(sheets: Sequence[CutSheet]) -> tuple[Tool, ...]:
    """The tools that sheets take at the cutting table besides the trimmer."""
    needed = {_tool(work.step) for sheet in sheets for work in sheet.works}
    return tuple(tool for tool in Tool if tool in needed)


def _tool(step: WorkStep) -> Tool:
    match step:
        case SnipWork() | TrimWork():
            return Tool.SCISSORS
        case RoundWork():
            return Tool.CORNER_ROUNDER
        case PunchWork():
            return Tool.CORNER_PUNCH if step.hole is None else Tool.HOLE_PUNCH


def work_slip(kit: ResolvedKit, sheet: CutSheet, stage: Stage, language: Language) -> CutSlip | None:
    """What is done by hand after a stage and before the next, and what is then filed; None for nothing."""
    works = [work for work in sheet.works if work.after == stage.number]
    rows = [row for work in works for row in _rows(kit, sheet, work, language)]
    return CutSlip(language.cutting.work_heads, tuple(rows)) if rows else None


def _rows(kit: ResolvedKit, sheet: CutSheet, work: TableWork, language: Language) -> Iterator[SlipRow]:
    yield SlipRow(CutRef(sheet.sheet.id, work.number), None, _said(kit, work, language))
    if work.step.tip:
        yield SlipRow(None, None, line(Own(work.step.tip, (*work.where, "tip"))))
    above: Extent | None = None
    useful = [piece for piece in work.left if piece.is_useful]
    for outcome in outcomes(kit, sheet, useful, work.number):
        row, above = outcome_row(kit, sheet, SlipRow(None, None, ()), outcome, above, language)
        yield row
    for width in _scraps(kit, work):
        yield SlipRow(None, None, language.cutting.scrap(width))


def _scraps(kit: ResolvedKit, work: TableWork) -> Iterator[Length]:
    """How wide the parts are that scissors leave as scrap, those of the first piece for all."""
    if isinstance(work.step, SnipWork):
        for piece in work.left[: len(work.step.leaves)]:
            if not piece.is_useful:
                size = piece.size
                width = size.width if work.step.measured_from.is_upright else size.height
                yield _length(kit, width, Role.WIDTH, work, "at")


def _said(kit: ResolvedKit, work: TableWork, language: Language) -> Line:
    """What is done, to which pieces."""
    words, step, letters = language.cutting, work.step, piece_refs(work.taken)
    match step:
        case SnipWork():
            at = [_length(kit, one, Role.DISTANCE, work, "at", n) for n, one in enumerate(step.at)]
            return words.snip(letters, at, step.measured_from)
        case TrimWork():
            source = (*work.where, "size")
            size = Extent(step.size, kit.kit.unit, source, with_unit=True) if step.size else None
            outline = Own(step.outline, (*work.where, "outline")) if step.outline else None
            return words.trim_round(letters, outline, size)
        case RoundWork():
            radius = _length(kit, step.radius, Role.RADIUS, work, "radius")
            return words.round_corners(letters, step.corners, radius)
        case PunchWork():
            shape = Own(step.shape, (*work.where, "shape")) if step.shape else None
            if step.hole is None:
                return words.punch_corners(letters, step.corners, shape)
            width = _length(kit, step.hole, Role.HOLE, work, "hole")
            return words.punch_hole(letters, width, shape, _rims(kit, work, step))


def _rims(kit: ResolvedKit, work: TableWork, step: PunchWork) -> dict[str, Length]:
    """How far the rim of a hole lies from edges of the piece, by the edge."""
    said = {"left": step.left, "right": step.right, "top": step.top, "bottom": step.bottom}
    return {
        edge: _length(kit, length, Role.DISTANCE, work, edge)
        for edge, length in said.items()
        if length is not None
    }


def _length(kit: ResolvedKit, value: Fraction, role: Role, work: TableWork, *keys: str | int) -> Length:
    return Length(value, kit.kit.unit, role, (*work.where, *keys), with_unit=True)
