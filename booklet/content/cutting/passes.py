"""What each pass of the blade gives: what comes off, and what stays in the trimmer."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.cutting.model import Cut, Stage, Strip
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction


@dataclass(frozen=True)
class Pass:
    """One cut of a stage and the strips that are then done.

    `low` is where the paper in hand begins on the scale, 0 until the edge at the stop is cut off; `low_cut`
    is the cut that left it there.  `off` comes off, the right one first; `stays` is what the last cut leaves
    in the trimmer.  Neither is there where later cuts run through both parts.
    """

    cut: Cut
    low: Fraction
    low_cut: Cut | None
    off: tuple[Strip, ...]
    stays: Strip | None


def passes(stage: Stage) -> Iterator[Pass]:
    """The passes of a stage in cutting order; each of its strips comes off or stays once."""
    strips = {(strip.start, strip.end): strip for strip in stage.strips}
    made: dict[Fraction, Cut | None] = {Fraction(0): None, stage.seen.width: None}
    for cut in stage.cuts:
        low = max(bound for bound in made if bound < cut.reading)
        high = min(bound for bound in made if bound > cut.reading)
        right, left = strips.get((cut.reading, high)), strips.get((low, cut.reading))
        stays = left if cut is stage.cuts[-1] else None
        off = tuple(strip for strip in (right, None if stays else left) if strip is not None)
        yield Pass(cut, low, made[low], off, stays)
        made[cut.reading] = cut
