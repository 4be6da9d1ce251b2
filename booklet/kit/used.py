"""Which pieces a layout uses up, in which order: what the ledger gives out one by one."""

from __future__ import annotations

from collections import Counter

from booklet.kit.finding import SpecPath
from booklet.kit.layout import Layout
from booklet.kit.sheet import SCRAP
from booklet.kit.steps import Column, Place, Row, SeriesEntry, Snip, Step
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass


@dataclass(frozen=True)
class PieceUse:
    """One piece that a layout takes: its name, and the place in the spec that says so.

    `number` is its index among the layout's uses.  `step` is the index of its step (None for the base),
    `entry` which of the step's things it is; `optional` that the step may be skipped.  A part that an earlier
    step snipped off is `part_of` the use of the whole piece, by that one's number.
    """

    layout_index: int
    number: int
    name: str
    where: SpecPath
    step: int | None
    entry: int
    optional: bool
    part_of: int | None = None


@cached_on
def uses(layout: Layout, index: int) -> tuple[PieceUse, ...]:
    """Every piece and part that the layout takes, its base first, then in the order of its steps.

    `index` is the layout's place among the kit's layouts, for the paths.  A row's things stand in the row's
    order.  A name that a snip left is taken from its parts as long as there are any.
    """
    found = [PieceUse(index, 0, layout.base.name, ("layouts", index, "base"), None, 0, optional=False)]
    parts: dict[str, list[int]] = {}
    for number, step in enumerate(layout.steps):
        path: SpecPath = ("layouts", index, "steps", number)
        for entry, name, where in _names(step, path):
            pool = parts.get(name, [])
            whole = pool.pop(0) if pool else None
            found.append(PieceUse(index, len(found), name, where, number, entry, step.optional, whole))
        if isinstance(step, Snip):
            for part in step.leaves:
                if part != SCRAP:
                    parts.setdefault(part, []).append(len(found) - 1)
    return tuple(found)


def used_names(layout: Layout, index: int = 0) -> tuple[tuple[str, SpecPath], ...]:
    """The name and the place in the spec of every piece that the layout needs from its pocket, in order."""
    return tuple((use.name, use.where) for use in uses(layout, index) if use.part_of is None)


def series(step: Row | Column) -> tuple[SeriesEntry, ...]:
    """The things of a row or column, repeated as often as it says."""
    return (step.row if isinstance(step, Row) else step.column) * step.count


def _names(step: Step, path: SpecPath) -> list[tuple[int, str, SpecPath]]:
    if isinstance(step, Place):
        return [(0, step.place, (*path, "place"))]
    if isinstance(step, Snip):
        return [(0, step.snip, (*path, "snip"))]
    if isinstance(step, Row | Column):
        key = "row" if isinstance(step, Row) else "column"
        said = len(series(step)) // step.count
        things = enumerate(series(step))
        return [(place, it.place, (*path, key, place % said)) for place, it in things if it.place is not None]
    return []


def parts_left(layout: Layout, index: int) -> tuple[tuple[str, SpecPath], ...]:
    """Parts that a snip of this layout leaves and no step of it takes."""
    used = uses(layout, index)
    taken = Counter((use.name, use.part_of) for use in used if use.part_of is not None)
    left = []
    for number, use in enumerate(used):
        step = layout.steps[use.step] if use.step is not None else None
        if not isinstance(step, Snip) or use.where[-1] != "snip":
            continue
        for place, part in enumerate(step.leaves):
            if part == SCRAP:
                continue
            if taken[part, number]:
                taken[part, number] -= 1
            else:
                left.append((part, (*use.where[:-1], "leaves", place)))
    return tuple(left)
