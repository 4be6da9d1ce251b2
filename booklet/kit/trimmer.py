"""A kit's trimmer with every value filled in."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.kit.kit import Kit
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit, convert


@dataclass(frozen=True)
class TrimmerLimits:
    """A trimmer with every value filled in, lengths in the kit's unit."""

    mark: Fraction
    reach: Fraction
    blade: Fraction
    hold: Fraction
    together: int


_INCH_TRIMMER = {"mark": Fraction(1, 8), "reach": Fraction(15), "blade": Fraction(12), "hold": Fraction(1)}
_METRIC_TRIMMER = {"mark": Fraction(1), "reach": Fraction(380), "blade": Fraction(310), "hold": Fraction(25)}


def trimmer_limits(kit: Kit) -> TrimmerLimits:
    """The kit's trimmer, with what the spec leaves out filled in for its unit."""
    usual = _INCH_TRIMMER
    if kit.unit is not Unit.INCH:
        usual = {key: convert(value, Unit.MILLIMETRE, kit.unit) for key, value in _METRIC_TRIMMER.items()}
    said = {key: getattr(kit.trimmer, key) for key in usual}
    chosen = {key: usual[key] if said[key] is None else said[key] for key in usual}
    return TrimmerLimits(**chosen, together=kit.trimmer.together)
