"""One axis of a position: the constraints on it, and the interval that they give."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum

from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.geometry import Interval


class AxisPart(Enum):
    """Which part of the item a constraint fixes."""

    LOW = "low"
    MIDDLE = "middle"
    HIGH = "high"


class ConstraintKind(Enum):
    """Which kind of key of the spec states a constraint."""

    DISTANCE = "distance"
    GAP = "gap"
    FLUSH = "flush"
    CENTRED = "centred"


@dataclass(frozen=True)
class Constraint:
    """One key that fixes one axis: the part is `at` this coordinate, measured from `start`.

    `key` is the key in the spec, `against` the ids of the items that it refers to.
    """

    part: AxisPart
    at: Fraction
    start: Fraction
    kind: ConstraintKind
    key: str
    against: tuple[int, ...]

    @property
    def inwards(self) -> Fraction:
        """How far the part lies inwards of where it is measured from, or away from it; below 0 beyond it."""
        amount = self.at - self.start
        return -amount if self.part is AxisPart.HIGH else amount


class AxisFault(Enum):
    """Why the constraints do not fix an axis."""

    UNDERCONSTRAINED = "underconstrained"
    OVERCONSTRAINED = "overconstrained"
    REVERSED = "reversed"


# The share of a length that lies before a part of it.
_BEFORE = {AxisPart.LOW: Fraction(0), AxisPart.MIDDLE: Fraction(1, 2), AxisPart.HIGH: Fraction(1)}


def solve(length: Fraction | None, constraints: Sequence[Constraint]) -> Interval | AxisFault:
    """The interval of an item of this length.

    A known length takes exactly one constraint.  An unknown one (None) follows from two, one at either end.
    """
    wanted = 1 if length is not None else 2
    if len(constraints) < wanted:
        return AxisFault.UNDERCONSTRAINED
    if len(constraints) > wanted:
        return AxisFault.OVERCONSTRAINED
    return _from_one(length, constraints[0]) if length is not None else _from_two(constraints)


def _from_one(length: Fraction, constraint: Constraint) -> Interval:
    low = constraint.at - length * _BEFORE[constraint.part]
    return Interval(low, low + length)


def _from_two(constraints: Sequence[Constraint]) -> Interval | AxisFault:
    at = {constraint.part: constraint.at for constraint in constraints}
    if set(at) != {AxisPart.LOW, AxisPart.HIGH}:
        return AxisFault.UNDERCONSTRAINED
    return (
        Interval(at[AxisPart.LOW], at[AxisPart.HIGH])
        if at[AxisPart.LOW] < at[AxisPart.HIGH]
        else AxisFault.REVERSED
    )
