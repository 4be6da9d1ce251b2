"""Putting items down: into the stack, under what they are tucked, with the measures that place them."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.kit.finding import SpecPath, error
from booklet.kit.position import Direction, Position
from booklet.kit.steps import PositionedStep
from booklet.measure.length import Size
from booklet.placing.measures import measures_of, measures_of_line
from booklet.placing.model import QUARTERS, Placed
from booklet.placing.position import Fixed
from booklet.placing.series import Lined
from booklet.placing.table import BASE_ID, Table, find, name_block, put


def step_path(table: Table, number: int) -> SpecPath:
    """The way to a step in the spec; steps are numbered from 1."""
    return ("layouts", table.index, "steps", number - 1)


def turned(size: Size, position: Position) -> Size:
    """A size after the quarter turns of its step."""
    return size.turned if QUARTERS[position.turn] % 2 else size


def beneath(table: Table, position: Position, path: SpecPath) -> tuple[int, ...]:
    """The ids of everything that a position goes under; nothing goes under the page."""
    named = [(position.under, (*path, "under"))] if position.under else []
    named += [(name, (*path, "tucked", index)) for index, name in enumerate(position.tucked)]
    ids: list[int] = []
    for name, where in named:
        reference = find(table, name, where)
        if reference and BASE_ID in reference.ids:
            table.findings.append(
                error("under-the-page", where, "nothing goes under the page", "name a piece")
            )
        elif reference:
            ids.extend(reference.ids)
    return tuple(ids)


def put_down(table: Table, step: PositionedStep, item: Placed, fixed: Fixed) -> Placed:
    """Lay one item, and note the measures that a hand needs for it."""
    placed = put(table, item, beneath(table, step, item.path))
    table.measures.extend(measures_of(table, placed, fixed))
    return placed


def put_in_line(
    table: Table, step: PositionedStep, items: Sequence[Placed], lined: Lined, along: Direction
) -> tuple[Placed, ...]:
    """Lay the items of a row or column; its own name stands for all of them together."""
    under = beneath(table, step, items[0].path)
    placed = tuple(put(table, item, under) for item in items)
    if step.called:
        name_block(table, step.called, tuple(item.id for item in placed))
        for number, item in enumerate(placed, start=1):
            name_block(table, f"{step.called} {number}", (item.id,))
    table.measures.extend(measures_of_line(table, placed, lined, along))
    return placed
