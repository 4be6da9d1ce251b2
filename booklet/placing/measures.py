"""The measures that need a ruler, and no others.

A distance of 0, an edge in line with another and a middle on a middle of the same length need none: the
hand sees or feels them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from booklet.kit.position import Direction
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactPoint, ExactRect
from booklet.placing.axis import AxisPart, Constraint, ConstraintKind
from booklet.placing.geometry import hull, shared, span_of
from booklet.placing.model import Measure, MeasureKind, Placed
from booklet.placing.position import SolvedPosition
from booklet.placing.series import PERPENDICULAR, SeriesPlacement
from booklet.placing.state import BASE_ID, PlacingState, rect_of_ids

_KINDS = {
    ConstraintKind.DISTANCE: MeasureKind.EDGE,
    ConstraintKind.FLUSH: MeasureKind.EDGE,
    ConstraintKind.GAP: MeasureKind.GAP,
    ConstraintKind.CENTRED: MeasureKind.CENTRE,
}


def measures_of(state: PlacingState, item: Placed, solved: SolvedPosition) -> tuple[Measure, ...]:
    """The measures for one item, at most one for each axis; an equal border on both axes is one measure."""
    across = [_of_constraint(state, item, constraint, Direction.ACROSS) for constraint in solved.across]
    down = [_of_constraint(state, item, constraint, Direction.DOWN) for constraint in solved.down]
    found = [measure for measure in across + down if measure is not None and measure.length]
    if item.whole is not None:
        # The far edge of the facing page is not at hand; what is cut at the gutter ends there anyway.
        found = [measure for measure in found if measure.start.x <= state.page.right]
    centred = [m for m in found if m.kind is MeasureKind.BORDER]
    if len(centred) == 2 and centred[0].length == centred[1].length:
        found.remove(centred[1])
    return tuple(found)


def _of_constraint(
    state: PlacingState, item: Placed, constraint: Constraint, direction: Direction
) -> Measure | None:
    """From where the constraint is measured to the edge that it places."""
    span = span_of(item.rect, direction)
    reference = rect_of_ids(state, constraint.against)
    start, end, kind = (
        constraint.start,
        span.high if constraint.part is AxisPart.HIGH else span.low,
        _KINDS[constraint.kind],
    )
    if constraint.kind is ConstraintKind.CENTRED:
        start = span_of(reference, direction).low
        on_page = constraint.against == (BASE_ID,)
        kind = MeasureKind.CENTRE if on_page else MeasureKind.BORDER
        if span.low < start:
            return None
    at = _cross(item.rect, reference, PERPENDICULAR[direction])
    return Measure(
        kind, _point(start, at, direction), _point(end, at, direction), item.id, item.step_number,
        computed=constraint.kind is ConstraintKind.CENTRED, against=constraint.against,
    )  # fmt: skip


def _cross(rect: ExactRect, reference: ExactRect, direction: Direction) -> Fraction:
    """Where the line of a measure runs: half way along what both have in common."""
    one, other = span_of(rect, direction), span_of(reference, direction)
    if shared(one, other) <= 0:
        return one.middle
    return (max(one.low, other.low) + min(one.high, other.high)) / 2


def _point(along: Fraction, cross: Fraction, direction: Direction) -> ExactPoint:
    return ExactPoint(along, cross) if direction is Direction.ACROSS else ExactPoint(cross, along)


def measures_of_line(
    state: PlacingState, items: Sequence[Placed], lined: SeriesPlacement, along: Direction
) -> tuple[Measure, ...]:
    """The measures for a row or column: where it begins, one gap for all, the middle of its middle one.

    With a plain ruler, an odd number of equal things that are spread evenly is begun in the middle: the
    middle one's centre lies half way along, and the ends follow from their edges.
    """
    cross = PERPENDICULAR[along]
    items = [replace(item, rect=rect) for item, rect in zip(items, lined.rects, strict=True)]
    block = replace(items[0], rect=hull(lined.rects))
    middle = _middle(state, items, lined, along)
    start = _of_constraint(state, block, lined.along[0], along)
    if lined.along[0].kind is ConstraintKind.FLUSH and start is not None:
        # Only even ends leave something here: as much as the gaps, and nothing that the middle does not say.
        start = replace(start, computed=True) if middle is None else None
    found = [start, *(_of_constraint(state, items[0], constraint, cross) for constraint in lined.cross)]
    found += [_gap(items, lined, along), middle]
    return tuple(measure for measure in found if measure is not None and measure.length)


def _gap(items: Sequence[Placed], lined: SeriesPlacement, along: Direction) -> Measure | None:
    if len(items) < 2:
        return None
    first, second = items[0], items[1]
    at = _cross(first.rect, second.rect, PERPENDICULAR[along])
    start, end = span_of(first.rect, along).high, span_of(second.rect, along).low
    return Measure(
        MeasureKind.GAP, _point(start, at, along), _point(end, at, along), second.id, second.step_number,
        computed=lined.computed, against=(first.id,),
    )  # fmt: skip


def _middle(
    state: PlacingState, items: Sequence[Placed], lined: SeriesPlacement, along: Direction
) -> Measure | None:
    """From the edge that the row is measured from to the centre of its middle one, where that helps."""
    lengths = {span_of(item.rect, along).length for item in items}
    if not lined.computed or len(items) < 3 or len(items) % 2 == 0 or len(lengths) > 1:
        return None
    item = items[len(items) // 2]
    against = lined.along[0].against
    reference = rect_of_ids(state, against)
    at = _cross(item.rect, reference, PERPENDICULAR[along])
    start, end = span_of(reference, along).low, span_of(item.rect, along).middle
    return Measure(
        MeasureKind.MIDDLE, _point(start, at, along), _point(end, at, along), item.id, item.step_number,
        computed=True, against=against,
    )  # fmt: skip
