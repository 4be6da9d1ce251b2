"""Putting items down: into the stack, under what they are tucked, with what holds them there."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.cutting.orientation import quarters_of
from booklet.kit.finding import SpecPath
from booklet.kit.position import Direction, Position
from booklet.kit.steps import PositionedStep
from booklet.measure.dataclass import replace
from booklet.measure.exact import Fraction
from booklet.measure.length import Size
from booklet.placing.apart import NamedCover, check_on, check_under
from booklet.placing.details import FIXED_ON, EvenGap
from booklet.placing.geometry import span_of
from booklet.placing.model import ItemKind, Placed
from booklet.placing.nesting import LYING, check_held, check_larger, check_nesting
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
    tilted_with,
)
from booklet.placing.visible import upright_bounds

# What is fixed to the face of a thing stays on top where that is slid under another.
_ON_TOP = {ItemKind.ADDED}
_FOLLOWING = {ItemKind.RIBBON, ItemKind.TAPE, ItemKind.ADDED, ItemKind.STENCIL}


def turned_size(size: Size, position: Position) -> Size:
    """A size after the quarter turns of its step."""
    return size.turned if quarters_of(position.turn) % 2 else size


def overs(state: PlacingState, position: Position) -> tuple[NamedCover, ...]:
    """Everything that a position goes under; nothing goes under the page."""
    named: list[tuple[str, SpecPath]] = [(position.under, ("under",))] if position.under else []
    named += [(name, ("tucked", index)) for index, name in enumerate(position.tucked)]
    found: list[NamedCover] = []
    for name, keys in named:
        reference = find(state, name, *keys)
        if reference and BASE_ID in reference.ids:
            state.report("under-the-page", "nothing goes under the page", "name a piece", *keys)
        elif reference:
            found.append(NamedCover(name, keys, reference.ids))
    return tuple(found)


def ids_over(found: Sequence[NamedCover]) -> tuple[int, ...]:
    """The ids of all items that something goes under."""
    return tuple(id for over in found for id in over.ids)


def put_down(state: PlacingState, step: PositionedStep, item: Placed, solved: SolvedPosition) -> Placed:
    """Lay one item, and note what holds it there."""
    here = cut_at_gutter(state, item) if step.spread else _tilted_with(state, step, item, solved.frame)
    above = overs(state, step)
    under = _all_over(state, step, [here], solved.frame, above)
    placed = put(state, here, [id for ids in under for id in ids])
    _mount(state, step, placed, solved, under)
    check_under(state, [placed], above)
    if step.on is not None:
        check_on(state, placed, step.on, solved.frame.ids)
    lies = replace(solved, rect=placed.rect) if placed.whole else solved
    add_detail(state, lies.held((placed.id,), under))
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
    above, solved = overs(state, step), lined.solved
    here = [_tilted_with(state, step, item, solved.frame) for item in items]
    under = _all_over(state, step, here, solved.frame, above)
    placed = tuple(put(state, item, [id for ids in under for id in ids]) for item in here)
    if any(item.kind in LYING for item in items):
        check_larger(state, step, step.called or items[0].name, solved.rect.size, solved.frame)
    for item in placed:
        _mount(state, step, item, solved, under)
        check_held(state, step, item, solved.frame)
        if step.on is not None:
            check_on(state, item, step.on, solved.frame.ids)
    check_under(state, placed, above)
    if step.called:
        for number, item in enumerate(placed, start=1):
            name_block(state, f"{step.called} {number}", (item.id,))
        name_block(state, step.called, tuple(item.id for item in placed))
    add_detail(state, solved.held(tuple(item.id for item in placed), under))
    if len(placed) > 1:
        add_detail(state, EvenGap(along, lined.gap, lined.computed, _middle(state, lined, along)))
    return placed


def _middle(state: PlacingState, lined: SeriesPlacement, along: Direction) -> Fraction | None:
    """How far along the centre of the middle one lies, where a row is best begun with it."""
    spans = [span_of(rect, along) for rect in lined.rects]
    is_even = lined.computed and len(spans) > 2 and len({span.length for span in spans}) == 1
    if not is_even or len(spans) % 2 == 0:
        return None
    first = lined.solved.axis(along)[0]
    low = span_of(rect_of_ids(state, first.against), along).low
    return abs(spans[len(spans) // 2].middle - low) or None


def _tilted_with(state: PlacingState, step: PositionedStep, item: Placed, frame: Reference) -> Placed:
    """What lies on a tilted item at the same tilt turns with it, about its middle.

    Ribbon, tape and small things follow a tilted piece by default: they are measured from its own edges.
    """
    if step.on is None or len(frame.ids) != 1:
        return item
    host = state.items[frame.ids[0]]
    follows = item.tilt == host.tilt or (not item.tilt and item.kind in _FOLLOWING)
    return tilted_with(item, host) if follows else item


def _all_over(
    state: PlacingState,
    step: PositionedStep,
    items: Sequence[Placed],
    frame: Reference,
    above: Sequence[NamedCover],
) -> tuple[tuple[int, ...], ...]:
    """Everything that items go beneath: what their step names, and what covers them with what they lie on."""
    named = [over.ids for over in above]
    if step.on is not None and not any(item.kind in _ON_TOP or item.form in FIXED_ON for item in items):
        named += [
            over for id in frame.ids for over in state.tucked.get(id, ()) if _covers(state, over, items)
        ]
    return tuple(dict.fromkeys(named))


def _covers(state: PlacingState, over: Sequence[int], items: Sequence[Placed]) -> bool:
    covers = [upright_bounds(state.items[id]) for id in over]
    return any(upright_bounds(item).overlaps(cover) for item in items for cover in covers)


def _mount(
    state: PlacingState,
    step: PositionedStep,
    item: Placed,
    solved: SolvedPosition,
    under: tuple[tuple[int, ...], ...],
) -> None:
    """Remember what an item lies on and under, and whether that still lies loose on the table."""
    if under:
        state.tucked[item.id] = under
    if step.on and BASE_ID not in solved.frame.ids:
        state.mounted[item.id] = solved.frame.ids
    if step.loose:
        state.loose[item.id] = item.id
        return
    roots = [state.loose.get(id) for constraint in solved.constraints for id in constraint.against]
    loose = [root for root in roots if root is not None]
    if len(set(roots)) > 1:
        cure = "place it by the loose pieces only, or by the page only"
        found = "this lies partly by something loose, whose place on the page is not settled"
        state.report("loose-mixed", found, cure)
    if loose:
        state.loose[item.id] = loose[0]
