"""Creep: how far the inner sheets of a nested signature are pushed out at the face."""

from __future__ import annotations

from booklet.binding.errors import CreepError
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction, read_exact
from booklet.measure.length import Unit
from booklet.measure.words import exact_length

# How much of a caliper each sheet adds.  Sheets that lie simply in one another: one.  Folds that are round,
# as concentric half circles: pi/2, its decimals from memory.  Folds pressed square: two, the paper on both
# sides of the fold.
SIMPLE_FOLD = Fraction(1)
ROUND_FOLD = read_exact("1.57079632679489661923")
SQUARE_FOLD = Fraction(2)
FOLD_FACTORS = {"simple": SIMPLE_FOLD, "round": ROUND_FOLD, "square": SQUARE_FOLD}
# A dummy may measure more than a square fold gives; twice as much is a number typed wrong.
LARGEST_FACTOR = Fraction(4)
# Thicker than this it is board, which cracks when it is folded (common practice, no source): the heaviest
# cover card is about half of it.
THICKEST_MM = Fraction(1)


@dataclass(frozen=True)
class Creep:
    """The caliper of the paper, in points, and the factor of its folds.

    Raises CreepError for a caliper that no folded paper has, and a factor that no fold has.
    """

    caliper: Fraction
    factor: Fraction = SIMPLE_FOLD

    def __post_init__(self) -> None:
        thickness = exact_length(self.caliper / Unit.MILLIMETRE.points, Unit.MILLIMETRE)
        if self.caliper <= 0:
            raise CreepError(f"a caliper of {thickness} mm: paper is thicker than nothing")
        if self.caliper > THICKEST_MM * Unit.MILLIMETRE.points:
            raise CreepError(
                f"a caliper of {thickness} mm is board, which cracks when it is folded: expected at most "
                f"{THICKEST_MM} mm, usually 0.1 mm (0.004 in)"
            )
        if not 0 < self.factor <= LARGEST_FACTOR:
            raise CreepError(
                f"a fold factor of {float(self.factor):g}: sheets nested simply have 1, square folds 2; "
                f"expected more than 0, at most {LARGEST_FACTOR}"
            )

    def shift(self, depth: int) -> Fraction:
        """How far the sheet at this depth, 0 the outermost, is pushed out, in points.

        f * k * t for the sheet k of caliper t: each sheet outside it takes up f times its own thickness at
        the fold.  Derived from the geometry; no worked example of a handbook is known.  f is 1 for sheets
        that simply lie in one another, pi/2 where the folds are concentric half circles, 2 where they are
        pressed square; a folded dummy of the paper tells.
        """
        return self.factor * depth * self.caliper


def check_room(creep: Creep, sheets: int, inner_margin: Fraction) -> None:
    """Refuse creep that eats into what is printed: the inmost of so many sheets loses it at the fold.

    `inner_margin` is the white along the fold, in points.  Raises CreepError.
    """
    lost = creep.shift(sheets - 1)
    if lost >= inner_margin:
        raise CreepError(
            f"{sheets} nested sheets of this paper push the inmost one out by {_mm(lost)} mm, and the margin "
            f"at the fold is {_mm(inner_margin)} mm: use thinner paper, or more signatures of fewer sheets"
        )


def _mm(points: Fraction) -> str:
    return f"{float(points / Unit.MILLIMETRE.points):.2f}"
