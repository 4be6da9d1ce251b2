"""The few words that figures print themselves, given by whoever knows the booklet's language."""

from __future__ import annotations

from booklet.measure.dataclass import dataclass


@dataclass(frozen=True)
class FigureLabels:
    """Words of one language for figures: the scale (`Scale` before 1:5), scrap, spare, the trimmer's stop."""

    scale: str
    scrap: str
    spare: str
    stop: str
