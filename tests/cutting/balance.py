"""What every cutting keeps: nothing of a sheet is lost, nothing is there twice."""

from __future__ import annotations

from booklet.cutting.model import CutSheet
from booklet.measure.exact import Fraction


def area_balance(cut: CutSheet) -> Fraction:
    """What the pieces and scrap of a sheet lack of its area: 0, exactly, for a sound cutting."""
    return cut.size.area * cut.sheet.count - sum((piece.part.area for piece in cut.pieces), Fraction(0))
