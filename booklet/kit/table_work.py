"""Work of scissors and punches at the cutting table, before a piece is filed: other steps among the cuts."""

from __future__ import annotations

from typing import TypeAlias

from booklet.kit.fields import Edge, Name, PositiveLength, SizeField, WordsField
from booklet.kit.steps import Corner, Corners, SnippedNames, SnipPlaces
from booklet.measure.dataclass import dataclass


@dataclass(frozen=True, kw_only=True)
class SnipWork:
    """Cut every piece of this name in parts, `at` these distances from its left (or another) edge."""

    snip: Name
    at: SnipPlaces
    leaves: SnippedNames
    measured_from: Edge = Edge.LEFT
    tip: WordsField | None = None


@dataclass(frozen=True, kw_only=True)
class TrimWork:
    """Trim every piece of this name round a printed outline; `size` is what is left, if it gets smaller."""

    trim_round: Name
    size: SizeField | None = None
    outline: WordsField | None = None
    tip: WordsField | None = None


@dataclass(frozen=True, kw_only=True)
class RoundWork:
    """Round corners of every piece of this name to this radius."""

    round: Name
    radius: PositiveLength
    corners: Corners = tuple(Corner)
    tip: WordsField | None = None


@dataclass(frozen=True, kw_only=True)
class PunchWork:
    """Punch corners of every piece of this name, or a `hole` of this diameter.

    `left`, `right`, `top` and `bottom` are from an edge of the upright piece to the rim of the hole; where
    one way is not said, the hole is in the middle.
    """

    punch: Name
    hole: PositiveLength | None = None
    left: PositiveLength | None = None
    right: PositiveLength | None = None
    top: PositiveLength | None = None
    bottom: PositiveLength | None = None
    corners: Corners = ()
    shape: WordsField | None = None
    tip: WordsField | None = None


WorkStep: TypeAlias = SnipWork | TrimWork | RoundWork | PunchWork
# The kinds of work by the key that a step of a spec has.
WORK_VERBS: dict[str, type[WorkStep]] = {
    "snip": SnipWork,
    "trim_round": TrimWork,
    "round": RoundWork,
    "punch": PunchWork,
}


def worked_on(step: WorkStep) -> str:
    """The name of the pieces that a step works on."""
    match step:
        case SnipWork():
            return step.snip
        case TrimWork():
            return step.trim_round
        case RoundWork():
            return step.round
        case PunchWork():
            return step.punch


def verb_of_work(step: WorkStep) -> str:
    """The verb of a step, as it stands in the spec."""
    return next(verb for verb, kind in WORK_VERBS.items() if type(step) is kind)
