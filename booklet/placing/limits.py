"""The lengths and shares at which placing has something to say, and the allowances of handwork.

All are common practice, no source, unless a line says otherwise; a round length in either system, so that a
hand can read it off its own ruler.
"""

from __future__ import annotations

from booklet.cutting.elements import NEAR_MISS
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit, convert


@dataclass(frozen=True)
class Limits:
    """Lengths in the kit's unit, and shares of 1.

    Edges closer than `near_miss` but not in line, borders and gaps that differ by no more than `nearly_even`
    look like a mistake.  A photograph may be covered up to `photo_covered` of its area, by one thing that is
    not said to lie on it up to `photo_corner`.  A length of ribbon or tape of which less than `supply_left`
    remains is nearly too short.
    """

    near_miss: Fraction
    nearly_even: Fraction
    photo_covered: Fraction = Fraction(1, 4)
    photo_corner: Fraction = Fraction(1, 10)
    supply_left: Fraction = Fraction(5, 100)


@dataclass(frozen=True)
class Allowances:
    """What handwork takes beyond what is seen: a ribbon's taped end, a wrap's overlap; a brad's width."""

    ends: Fraction
    overlap: Fraction
    added: Fraction


def limits_for(unit: Unit) -> Limits:
    """The limits in a kit's unit: 1/16 in for a near miss in every unit, 1/8 in for what is nearly even."""
    return Limits(_inches(NEAR_MISS, unit), _inches(Fraction(1, 8), unit))


def allowances_for(unit: Unit) -> Allowances:
    """The usual allowances: ends of 1 in or 25 mm, an overlap of 1/2 in or 12 mm, brads of 1/4 in or 6 mm."""
    if unit is Unit.INCH:
        return Allowances(Fraction(1), Fraction(1, 2), Fraction(1, 4))
    ends, overlap, added = (convert(Fraction(mm), Unit.MILLIMETRE, unit) for mm in (25, 12, 6))
    return Allowances(ends, overlap, added)


def _inches(value: Fraction, unit: Unit) -> Fraction:
    return convert(value, Unit.INCH, unit)
