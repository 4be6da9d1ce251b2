"""What is written on each strip of a stage's figure."""

from __future__ import annotations

from booklet.content.cutting.pieces import piece_run
from booklet.content.cutting.records import PieceRun
from booklet.cutting.model import CutSheet, Fate, Strip


def strip_letters(sheet: CutSheet, strip: Strip) -> PieceRun | None:
    """The letters of a strip; None for scrap."""
    useful = [piece for piece in strip.pieces if piece.fate is not Fate.SCRAP]
    return piece_run(sheet, strip, useful) if useful else None
