"""Rows and columns: several things in one direction, spread evenly."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.kit.finding import warning
from booklet.kit.position import Direction
from booklet.kit.steps import Add, Column, Row
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, Interval, rect_of
from booklet.measure.length import Size
from booklet.measure.words import exact_length
from booklet.placing.axis import AxisFault, Constraint, solve
from booklet.placing.geometry import hull
from booklet.placing.limits import limits_for
from booklet.placing.position import (
    SolvedPosition,
    centred_by_default,
    constraints,
    edge_to_edge,
    look_up,
    report_axis,
)
from booklet.placing.state import PlacingState

SeriesStep = Row | Column | Add
PERPENDICULAR = {Direction.ACROSS: Direction.DOWN, Direction.DOWN: Direction.ACROSS}


@dataclass(frozen=True)
class SeriesPlacement:
    """Things in line: their rectangles in order, the gap between neighbours and whether it was computed.

    `solved` is how they lie as one.
    """

    rects: tuple[ExactRect, ...]
    gap: Fraction
    computed: bool
    solved: SolvedPosition


def line_up(
    state: PlacingState, step: SeriesStep, sizes: Sequence[Size], along: Direction
) -> SeriesPlacement | None:
    """Lay things of these sizes in one direction; None, and findings, where the keys do not settle it."""
    frames = look_up(state, step)
    if frames is None:
        return None
    lengths = [_length(size, along) for size in sizes]
    if not _has_gaps(state, step, lengths):
        return None
    said = constraints(step, frames, along)
    if not said and step.even_ends:
        said = edge_to_edge(frames.frame, along)
    elif not said:
        said = centred_by_default(step, frames, along)
    starts = _starts(state, step, lengths, along, said)
    if starts is not None and starts.computed:
        _check_ends(state, step, along)
    cross = PERPENDICULAR[along]
    cross_constraints = constraints(step, frames, cross) or centred_by_default(step, frames, cross)
    spans = [solve(_length(size, cross), cross_constraints) for size in sizes]
    loose = next((span for span in spans if isinstance(span, AxisFault)), None)
    if loose is not None:
        report_axis(state, loose, cross, cross_constraints)
    if starts is None or loose is not None:
        return None
    rects = [
        _rect(Interval(start, start + length), span, along)
        for start, length, span in zip(starts.starts, lengths, spans, strict=True)
        if isinstance(span, Interval)
    ]
    across, down = (said, cross_constraints) if along is Direction.ACROSS else (cross_constraints, said)
    solved = SolvedPosition(hull(rects), frames.frame, across, down)
    return SeriesPlacement(tuple(rects), starts.gap, starts.computed, solved)


def _has_gaps(state: PlacingState, step: SeriesStep, lengths: Sequence[Fraction]) -> bool:
    """Whether no gap is stated twice, and no overlap so large that the order is reversed."""
    if step.apart is None or len(lengths) < 2:
        return True
    if step.even_ends:
        found = "apart and even_ends both say how wide the gaps are"
        state.report("position-twice", found, "keep one of them", "apart")
        return False
    shortest, overlap, unit = min(lengths), -step.apart, state.kit.unit
    if overlap >= shortest:
        found = f"{exact_length(overlap, unit)} of overlap on what is {exact_length(shortest, unit)} long"
        state.report("overlap-too-large", found, "let them overlap by less than their length", "apart")
    return overlap < shortest


@dataclass(frozen=True)
class _Starts:
    starts: tuple[Fraction, ...]
    gap: Fraction
    computed: bool


def _starts(
    state: PlacingState,
    step: SeriesStep,
    lengths: Sequence[Fraction],
    along: Direction,
    said: Sequence[Constraint],
) -> _Starts | None:
    """Where each begins: at a stated gap, as one block; else spread over the interval that is stated."""
    between = len(lengths) - 1
    taken = sum(lengths, Fraction(0))
    stated = step.apart if between else Fraction(0)
    if stated is not None and not step.even_ends:
        outcome = solve(taken + between * stated, said)
    else:
        outcome = solve(None, said)
    if isinstance(outcome, AxisFault):
        report_axis(state, outcome, along, said)
        return None
    if stated is not None and not step.even_ends:
        return _Starts(_run(outcome.low, lengths, stated), stated, computed=False)
    gap = (outcome.length - taken) / (between + 2 if step.even_ends else between)
    if gap < 0:
        unit, room = state.kit.unit, outcome.length
        free = f"where only {exact_length(room, unit)} is free"
        found = f"together they take {exact_length(taken, unit)}, {free}"
        cure = "leave one out, let them overlap with apart:, or use smaller ones"
        state.report("series-too-long", found, cure)
        return None
    return _Starts(_run(outcome.low + (gap if step.even_ends else 0), lengths, gap), gap, computed=True)


def _check_ends(state: PlacingState, step: SeriesStep, along: Direction) -> None:
    """Whether a row is spread between two distances that are nearly, but not quite, the same."""
    is_across = along is Direction.ACROSS
    key, low, high = ("right", step.left, step.right) if is_across else ("bottom", step.top, step.bottom)
    if low is None or high is None or not 0 < abs(low - high) <= limits_for(state.kit.unit).nearly_even:
        return
    before, after = (exact_length(one, state.kit.unit) for one in (low, high))
    found = f"{before} before the first and {after} after the last"
    cure = "let both be the same, or clearly different"
    state.report("ends-uneven", found, cure, key, kind=warning)


def _run(start: Fraction, lengths: Sequence[Fraction], gap: Fraction) -> tuple[Fraction, ...]:
    starts = []
    for length in lengths:
        starts.append(start)
        start += length + gap
    return tuple(starts)


def _length(size: Size, direction: Direction) -> Fraction:
    return size.width if direction is Direction.ACROSS else size.height


def _rect(along_span: Interval, cross_span: Interval, along: Direction) -> ExactRect:
    if along is Direction.ACROSS:
        return rect_of(along_span, cross_span)
    return rect_of(cross_span, along_span)
