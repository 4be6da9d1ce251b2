"""One axis of a position: what ties it down, and where it then lies."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from booklet.measure.exact import Fraction
from booklet.measure.geometry import Span


class Part(Enum):
    """Which part of the thing a tie holds."""

    LOW = "low"
    MIDDLE = "middle"
    HIGH = "high"


class How(Enum):
    """By which kind of word a tie was said."""

    DISTANCE = "distance"
    GAP = "gap"
    FLUSH = "flush"
    CENTRED = "centred"


@dataclass(frozen=True)
class Tie:
    """One word that fixes one axis: the part lies `at` this coordinate, measured from `start`.

    `key` is the word in the spec, `against` the ids of the items that it refers to.
    """

    part: Part
    at: Fraction
    start: Fraction
    how: How
    key: str
    against: tuple[int, ...]


class Slack(Enum):
    """How an axis fails to be fixed."""

    OPEN = "open"
    TWICE = "twice"
    REVERSED = "reversed"


def solve(length: Fraction | None, ties: Sequence[Tie]) -> Span | Slack:
    """Where something of this length lies.

    A known length takes exactly one tie.  An open one (None) takes two, of either end, and follows from them.
    """
    wanted = 1 if length is not None else 2
    if len(ties) < wanted:
        return Slack.OPEN
    if len(ties) > wanted:
        return Slack.TWICE
    return _from_one(length, ties[0]) if length is not None else _from_two(ties)


def _from_one(length: Fraction, tie: Tie) -> Span:
    share = {Part.LOW: Fraction(0), Part.MIDDLE: Fraction(1, 2), Part.HIGH: Fraction(1)}[tie.part]
    low = tie.at - length * share
    return Span(low, low + length)


def _from_two(ties: Sequence[Tie]) -> Span | Slack:
    at = {tie.part: tie.at for tie in ties}
    if set(at) != {Part.LOW, Part.HIGH}:
        return Slack.OPEN
    return Span(at[Part.LOW], at[Part.HIGH]) if at[Part.LOW] < at[Part.HIGH] else Slack.REVERSED
