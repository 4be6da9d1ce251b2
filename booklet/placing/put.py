"""Putting items down: into the stack, under what they are tucked, with the measures that place them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from booklet.kit.finding import SpecPath, error
from booklet.kit.position import Direction, Position
from booklet.kit.steps import PositionedStep
from booklet.measure.length import Size
from booklet.placing.apart import Over, check_on, check_under
from booklet.placing.axis import Constraint
from booklet.placing.details import EvenGap
from booklet.placing.measures import measures_of, measures_of_line
from booklet.placing.model import QUARTERS, Kind, Placed
from booklet.placing.nesting import check_held, check_nesting
from booklet.placing.position import Fixed
from booklet.placing.series import Lined
from booklet.placing.spread import cut_at_gutter
from booklet.placing.table import BASE_ID, Reference, Table, find, name_block, put, tell

_FOLLOWING = {Kind.RIBBON, Kind.TAPE, Kind.ADDED, Kind.STENCIL}


def turned(size: Size, position: Position) -> Size:
    """A size after the quarter turns of its step."""
    return size.turned if QUARTERS[position.turn] % 2 else size


def overs(table: Table, position: Position, path: SpecPath) -> tuple[Over, ...]:
    """Everything that a position goes under; nothing goes under the page."""
    named: list[tuple[str, SpecPath]] = [(position.under, (*path, "under"))] if position.under else []
    named += [(name, (*path, "tucked", index)) for index, name in enumerate(position.tucked)]
    found: list[Over] = []
    for name, where in named:
        reference = find(table, name, where)
        if reference and BASE_ID in reference.ids:
            table.findings.append(
                error("under-the-page", where, "nothing goes under the page", "name a piece")
            )
        elif reference:
            found.append(Over(name, where, reference.ids))
    return tuple(found)


def ids_over(found: Sequence[Over]) -> tuple[int, ...]:
    """The ids of all items that something goes under."""
    return tuple(id for over in found for id in over.ids)


def put_down(table: Table, step: PositionedStep, item: Placed, fixed: Fixed) -> Placed:
    """Lay one item, and note the measures that a hand needs for it."""
    here = cut_at_gutter(table, item) if step.spread else _tilted_with(table, step, item, fixed.frame)
    above = overs(table, step, item.path)
    placed = put(table, here, ids_over(above))
    _mount(table, step, placed, fixed.frame, (*fixed.across, *fixed.down))
    check_under(table, [placed], above)
    if step.on is not None:
        check_on(table, placed, step.on, fixed.frame.ids)
    table.measures.extend(measures_of(table, placed, fixed))
    check_nesting(table, step, placed, fixed)
    return placed


def put_in_line(
    table: Table, step: PositionedStep, items: Sequence[Placed], lined: Lined, along: Direction
) -> tuple[Placed, ...]:
    """Lay the items of a row or column; its own name stands for all of them together."""
    above = overs(table, step, items[0].path)
    under = ids_over(above)
    placed = tuple(put(table, _tilted_with(table, step, item, lined.frame), under) for item in items)
    for item in placed:
        _mount(table, step, item, lined.frame, (*lined.along, *lined.cross))
        check_held(table, step, item, lined.frame)
        if step.on is not None:
            check_on(table, item, step.on, lined.frame.ids)
    check_under(table, placed, above)
    if step.called:
        for number, item in enumerate(placed, start=1):
            name_block(table, f"{step.called} {number}", (item.id,))
        name_block(table, step.called, tuple(item.id for item in placed))
    table.measures.extend(measures_of_line(table, placed, lined, along))
    if len(placed) > 1:
        tell(table, placed[0].step_number, EvenGap(along, lined.gap, len(placed), lined.computed))
    return placed


def _tilted_with(table: Table, step: PositionedStep, item: Placed, frame: Reference) -> Placed:
    """What lies on a tilted thing at the same tilt turns with it, about its middle.

    Ribbon, tape and small things follow a tilted piece unsaid: they are measured from its own edges.
    """
    if step.on is None or len(frame.ids) != 1:
        return item
    host = table.items[frame.ids[0]]
    follows = item.tilt == host.tilt or (not item.tilt and item.kind in _FOLLOWING)
    if not host.tilt or not follows:
        return item
    return replace(item, tilt=host.tilt, pivot=host.pivot or host.rect.centre)


def _mount(
    table: Table, step: PositionedStep, item: Placed, frame: Reference, constraints: Sequence[Constraint]
) -> None:
    """Remember what an item lies on, and whether that still lies loose on the table."""
    if step.on and BASE_ID not in frame.ids:
        table.mounted[item.id] = frame.ids
    if step.loose:
        table.loose[item.id] = item.id
        return
    roots = [table.loose.get(id) for constraint in constraints for id in constraint.against]
    loose = [root for root in roots if root is not None]
    if len(set(roots)) > 1:
        cure = "place it by the loose pieces only, or by the page only"
        found = "this lies partly by something loose, whose place on the page is not settled"
        table.findings.append(error("loose-mixed", item.path, found, cure))
    if loose:
        table.loose[item.id] = loose[0]
