"""Putting items down: into the stack, under what they are tucked, with what holds them there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from booklet.cutting.orientation import quarters_of
from booklet.kit.finding import SpecPath, error
from booklet.kit.position import Direction, Position
from booklet.kit.steps import PositionedStep
from booklet.measure.exact import Fraction
from booklet.measure.length import Size
from booklet.placing.apart import NamedCover, check_on, check_under
from booklet.placing.axis import Constraint
from booklet.placing.details import EvenGap, Held
from booklet.placing.geometry import hull, span_of
from booklet.placing.model import ItemKind, Placed
from booklet.placing.nesting import check_held, check_nesting
from booklet.placing.position import SolvedPosition
from booklet.placing.series import SeriesPlacement
from booklet.placing.spread import cut_at_gutter
from booklet.placing.state import (
    BASE_ID,
    PlacingState,
    Reference,
    add_detail,
    find,
    name_block,
    put,
    rect_of_ids,
)

_FOLLOWING = {ItemKind.RIBBON, ItemKind.TAPE, ItemKind.ADDED, ItemKind.STENCIL}


def turned_size(size: Size, position: Position) -> Size:
    """A size after the quarter turns of its step."""
    return size.turned if quarters_of(position.turn) % 2 else size


def overs(state: PlacingState, position: Position, path: SpecPath) -> tuple[NamedCover, ...]:
    """Everything that a position goes under; nothing goes under the page."""
    named: list[tuple[str, SpecPath]] = [(position.under, (*path, "under"))] if position.under else []
    named += [(name, (*path, "tucked", index)) for index, name in enumerate(position.tucked)]
    found: list[NamedCover] = []
    for name, where in named:
        reference = find(state, name, where)
        if reference and BASE_ID in reference.ids:
            state.findings.append(
                error("under-the-page", where, "nothing goes under the page", "name a piece")
            )
        elif reference:
            found.append(NamedCover(name, where, reference.ids))
    return tuple(found)


def ids_over(found: Sequence[NamedCover]) -> tuple[int, ...]:
    """The ids of all items that something goes under."""
    return tuple(id for over in found for id in over.ids)


def put_down(state: PlacingState, step: PositionedStep, item: Placed, solved: SolvedPosition) -> Placed:
    """Lay one item, and note what holds it there."""
    here = cut_at_gutter(state, item) if step.spread else _tilted_with(state, step, item, solved.frame)
    above = overs(state, step, item.path)
    placed = put(state, here, ids_over(above))
    _mount(state, step, placed, solved.frame, (*solved.across, *solved.down))
    check_under(state, [placed], above)
    if step.on is not None:
        check_on(state, placed, step.on, solved.frame.ids)
    rect = placed.rect if placed.whole else solved.rect
    add_detail(state, placed.step_number, Held(
        (placed.id,), rect, solved.frame.ids, solved.frame.rect, solved.across, solved.down,
        tuple(over.ids for over in above),
    ))  # fmt: skip
    check_nesting(state, step, placed, solved)
    return placed


def put_in_line(
    state: PlacingState,
    step: PositionedStep,
    items: Sequence[Placed],
    lined: SeriesPlacement,
    along: Direction,
) -> tuple[Placed, ...]:
    """Lay the items of a row or column; its own name stands for all of them together."""
    above = overs(state, step, items[0].path)
    under = ids_over(above)
    placed = tuple(put(state, _tilted_with(state, step, item, lined.frame), under) for item in items)
    for item in placed:
        _mount(state, step, item, lined.frame, (*lined.along, *lined.cross))
        check_held(state, step, item, lined.frame)
        if step.on is not None:
            check_on(state, item, step.on, lined.frame.ids)
    check_under(state, placed, above)
    if step.called:
        for number, item in enumerate(placed, start=1):
            name_block(state, f"{step.called} {number}", (item.id,))
        name_block(state, step.called, tuple(item.id for item in placed))
    number = placed[0].step_number
    across, down = (lined.along, lined.cross) if along is Direction.ACROSS else (lined.cross, lined.along)
    add_detail(state, number, Held(
        tuple(item.id for item in placed), hull(lined.rects), lined.frame.ids, lined.frame.rect, across, down,
        tuple(over.ids for over in above),
    ))  # fmt: skip
    if len(placed) > 1:
        add_detail(state, number, EvenGap(along, lined.gap, lined.computed, _middle(state, lined, along)))
    return placed


def _middle(state: PlacingState, lined: SeriesPlacement, along: Direction) -> Fraction | None:
    """How far along the centre of the middle one lies, where a row is best begun with it."""
    spans = [span_of(rect, along) for rect in lined.rects]
    is_even = lined.computed and len(spans) > 2 and len({span.length for span in spans}) == 1
    if not is_even or len(spans) % 2 == 0:
        return None
    low = span_of(rect_of_ids(state, lined.along[0].against), along).low
    return abs(spans[len(spans) // 2].middle - low) or None


def _tilted_with(state: PlacingState, step: PositionedStep, item: Placed, frame: Reference) -> Placed:
    """What lies on a tilted item at the same tilt turns with it, about its middle.

    Ribbon, tape and small things follow a tilted piece by default: they are measured from its own edges.
    """
    if step.on is None or len(frame.ids) != 1:
        return item
    host = state.items[frame.ids[0]]
    follows = item.tilt == host.tilt or (not item.tilt and item.kind in _FOLLOWING)
    if not host.tilt or not follows:
        return item
    return replace(item, tilt=host.tilt, pivot=host.pivot or host.rect.centre)


def _mount(
    state: PlacingState,
    step: PositionedStep,
    item: Placed,
    frame: Reference,
    constraints: Sequence[Constraint],
) -> None:
    """Remember what an item lies on, and whether that still lies loose on the table."""
    if step.on and BASE_ID not in frame.ids:
        state.mounted[item.id] = frame.ids
    if step.loose:
        state.loose[item.id] = item.id
        return
    roots = [state.loose.get(id) for constraint in constraints for id in constraint.against]
    loose = [root for root in roots if root is not None]
    if len(set(roots)) > 1:
        cure = "place it by the loose pieces only, or by the page only"
        found = "this lies partly by something loose, whose place on the page is not settled"
        state.findings.append(error("loose-mixed", item.path, found, cure))
    if loose:
        state.loose[item.id] = loose[0]
