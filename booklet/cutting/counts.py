"""How much work a sheet is at the trimmer: cuts, settings of the scale, turns, and paper lost."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.cutting.model import CutSheet
from booklet.measure.exact import Fraction


@dataclass(frozen=True)
class SheetWork:
    """Passes of the blade, settings of the scale, turns in the hand, and scrap as a share of the paper."""

    cuts: int
    settings: int
    turns: int
    scrap_share: Fraction


def sheet_work(cut: CutSheet) -> SheetWork:
    """Count the work of one sheet; a reading that follows itself needs no new setting."""
    readings = [c.reading for stage in cut.stages for c in stage.cuts]
    settings = sum(a != b for a, b in zip(readings, [None, *readings], strict=False))
    paper = cut.size.area * cut.sheet.count
    scrap = sum((piece.part.area for piece in cut.scrap), Fraction(0))
    turns = sum(stage.turn is not None for stage in cut.stages)
    return SheetWork(len(readings), settings, turns, scrap / paper)
