"""Creep: how far the inner sheets of a nest are pushed out of the outer ones.

A sheet inside the fold of another starts its leaves one thickness of paper further out, so the leaves in the
middle of the booklet stand out at the fore edge.  Moving their pages towards the spine by as much keeps the
outer margins even, whether the fore edge is trimmed or not.
"""

from __future__ import annotations

from dataclasses import dataclass

from booklet.binding.signature import PressSheet
from booklet.measure.exact import Fraction

# By how many thicknesses each sheet stands out from the one around it: the shape of the fold decides.
# Derived from the geometry of the fold; no source with a worked example is known, so fold a dummy to be sure.
NESTED = Fraction(1)
# Concentric half circles give pi/2; 355/226 (half of Zu Chongzhi's 355/113) is right to seven figures.
ROUND_FOLD = Fraction(355, 226)
SQUARE_FOLD = Fraction(2)


@dataclass(frozen=True)
class Creep:
    """What decides the creep: the paper's caliper in millimetres and the factor of the fold's shape."""

    caliper: Fraction
    factor: Fraction = NESTED


def pushed_out(sheet: PressSheet, creep: Creep) -> Fraction:
    """How far `sheet` stands out from the outermost one, in millimetres: factor x number x caliper."""
    return creep.factor * sheet.number * creep.caliper


def whole_creep(sheets: tuple[PressSheet, ...], creep: Creep) -> Fraction:
    """How far the innermost sheet stands out from the outermost one, in millimetres."""
    return max((pushed_out(sheet, creep) for sheet in sheets), default=Fraction(0))
