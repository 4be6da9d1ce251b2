"""Which cuts of a stage lie so near each other that their marks are shown at true size."""

from __future__ import annotations

from collections.abc import Collection
from itertools import pairwise

from booklet.cutting.model import Cut, Stage
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit

# Nearer than this, two numbers over a sheet drawn at 1:5 or smaller would stand nearer than 3 mm, where no
# two of them can be parted.
_NEAR = {Unit.INCH: Fraction(5, 8), Unit.CENTIMETRE: Fraction(3, 2), Unit.MILLIMETRE: Fraction(15)}


def near_cuts(stage: Stage, unit: Unit, shown: Collection[Fraction]) -> tuple[Cut, ...]:
    """The cuts of a stage that another one lies near to, in cutting order.

    A run of them whose readings are all `shown` at true size already is left out.  On printed register marks
    the print says where to cut, and the scale about where to look.
    """
    cuts = sorted((cut for cut in stage.cuts if not cut.approximate), key=lambda cut: cut.reading)
    near: set[int] = set()
    for run in _runs(cuts, _NEAR[unit]):
        if len(run) > 1 and not all(cut.reading in shown for cut in run):
            near.update(cut.number for cut in run)
    return tuple(cut for cut in stage.cuts if cut.number in near)


def _runs(cuts: list[Cut], distance: Fraction) -> list[list[Cut]]:
    """Rising cuts in runs, each cut nearer than a distance to the one before it."""
    runs = [[cut] for cut in cuts[:1]]
    for low, high in pairwise(cuts):
        if high.reading - low.reading < distance:
            runs[-1].append(high)
        else:
            runs.append([high])
    return runs
