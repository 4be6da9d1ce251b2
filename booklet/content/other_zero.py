"""A kit for a trimmer like its own whose scale begins at the other side."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from booklet.cutting.cut import cut_kit
from booklet.cutting.model import CutSheet
from booklet.kit.kit import ScaleZero
from booklet.kit.own_trimmer import with_zero
from booklet.measure.dataclass import replace
from booklet.placing.resolved import ResolvedKit


def other_zero(resolved: ResolvedKit) -> ResolvedKit | None:
    """The same kit with every sheet half round; None where that does not give the same pieces.

    What was sorted and placed stays: it knows pieces by their place on the front, not by how they lay.
    """
    zero = ScaleZero.LEFT if resolved.kit.trimmer.zero is ScaleZero.RIGHT else ScaleZero.RIGHT
    kit = with_zero(resolved.kit, zero)
    sheets = cut_kit(kit)
    if _labels(sheets) != _labels(resolved.sheets):
        return None
    return replace(resolved, kit=kit, sheets=sheets)


def _labels(sheets: Sequence[CutSheet]) -> Mapping[object, str]:
    return {piece.key: piece.label for sheet in sheets for piece in sheet.pieces}
