"""The hands at the trimmer: one runs the blade, the other holds the paper beside it."""

from __future__ import annotations

from enum import Enum

from booklet.measure.exact import Fraction


class Hand(Enum):
    """The hand that runs the blade; the other one holds the paper, on its own side of the blade."""

    RIGHT = "right"
    LEFT = "left"


class HeldSide(Enum):
    """Which of the two parts of the paper a hand holds at a cut: where it is not said, the wider one."""

    WIDER = "wider"
    AT_ZERO = "at zero"
    BEYOND_BLADE = "beyond blade"


def held_width(at_zero: Fraction, beyond: Fraction, side: HeldSide) -> Fraction:
    """How wide the held part is, of the one between the scale's zero and the blade and the one beyond it."""
    match side:
        case HeldSide.WIDER:
            return max(at_zero, beyond)
        case HeldSide.AT_ZERO:
            return at_zero
        case HeldSide.BEYOND_BLADE:
            return beyond
