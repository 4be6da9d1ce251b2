"""Where the things of a row or column lie, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.kit.position import Direction
from booklet.kit.steps import Add, Column, Row
from booklet.pages.laid import Laid, length, refer
from booklet.pages.where_words import (
    Hold,
    centred_on,
    distance_words,
    flush_words,
    frames_of,
    gap_words,
    holds_of,
)
from booklet.placing.axis import AxisPart, ConstraintKind
from booklet.placing.details import EvenGap
from booklet.placing.geometry import hull, span_of
from booklet.placing.model import MeasureKind
from booklet.placing.series import PERPENDICULAR
from booklet.placing.state import BASE_ID

Series = Row | Column | Add
# What things in line are called.
NOUNS = {Direction.ACROSS: "row", Direction.DOWN: "column"}
_HALF_WAY = {Direction.ACROSS: "left", Direction.DOWN: "top"}


def in_line(laid: Laid, step: Series, along: Direction) -> tuple[str, ...]:
    """The phrases for a line of several things: beside what, from which edges, how far apart."""
    frames = frames_of(laid, step)
    if frames is None:
        return ()
    cross = holds_of(step, frames, PERPENDICULAR[along])
    lengthwise = () if step.even_ends else holds_of(step, frames, along)
    said = (*lengthwise, *cross)
    on = f"on {refer(laid, frames.frame.ids)}" if step.on and BASE_ID not in frames.frame.ids else ""
    return tuple(phrase for phrase in (
        on,
        *gap_words(laid, said),
        *_ends(laid, lengthwise),
        *distance_words(laid, cross, step.spread, "their"),
        *flush_words(laid, cross),
        *(centred_on(laid, step, hold) for hold in cross if hold.constraint.kind is ConstraintKind.CENTRED),
        *_centred_whole(laid, step, lengthwise, along),
        *_apart(laid, step),
    ) if phrase)  # fmt: skip


def _ends(laid: Laid, lengthwise: Sequence[Hold]) -> Iterator[str]:
    """From which edge the line begins, or between which two it is spread."""
    held = [
        hold for hold in lengthwise if hold.constraint.kind in {ConstraintKind.DISTANCE, ConstraintKind.FLUSH}
    ]
    if len(held) == 2:
        yield _between(laid, held)
        return
    for hold in held:
        which = "the first" if hold.constraint.part is AxisPart.LOW else "the last"
        its = f"{which} one's"
        for phrase in (*distance_words(laid, [hold], its=its), *flush_words(laid, [hold])):
            yield phrase if phrase.startswith(its) else f"{which} {phrase}"


def _between(laid: Laid, held: Sequence[Hold]) -> str:
    first, last = held
    ends = f"{first.edge.value} and {last.edge.value} edges"
    owner = "the page's" if first.on_page else f"{refer(laid, first.constraint.against)}'s"
    if first.amount == last.amount == 0:
        return f"from edge to edge of {refer(laid, first.constraint.against)}"
    if first.amount == last.amount:
        return f"{length(laid, first.amount)} from {owner} {ends}"
    one, other = length(laid, first.amount), length(laid, last.amount)
    return f"{one} from {owner} {first.edge.value} edge and {other} from its {last.edge.value}"


def _centred_whole(laid: Laid, step: Series, lengthwise: Sequence[Hold], along: Direction) -> Iterator[str]:
    for hold in lengthwise:
        if hold.constraint.kind is ConstraintKind.CENTRED:
            yield f"the {NOUNS[along]} {centred_on(laid, step, hold)}"


def _apart(laid: Laid, step: Series) -> Iterator[str]:
    """The gap between neighbours, and the same at both ends where the spec wants that."""
    for detail in laid.placed.details:
        if isinstance(detail, EvenGap):
            ends = " and at both ends" if step.even_ends else ""
            if detail.gap > 0:
                yield f"{length(laid, detail.gap)} apart{ends}"
            elif detail.gap < 0:
                yield f"each overlapping the one before by {length(laid, -detail.gap)}"
            else:
                yield "edge to edge"


def middle_words(laid: Laid, along: Direction) -> str:
    """Where the middle one's centre lies, if the line is best begun with it; else nothing."""
    for measure in laid.layout.measures:
        if measure.step_number != laid.number or measure.kind is not MeasureKind.MIDDLE:
            continue
        whole = span_of(hull([laid.layout.item(id).rect for id in measure.against]), along)
        far = f"{length(laid, measure.length)} from"
        edge = _HALF_WAY[along]
        owner = f"{refer(laid, measure.against)}'s"
        if measure.length * 2 == whole.length:
            return f"Begin with the middle one: its centre lies on {owner} centre, {far} the {edge} edge."
        return f"Begin with the middle one: its centre lies {far} {owner} {edge} edge."
    return ""
