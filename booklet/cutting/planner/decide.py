"""Do all pieces come out of one sheet?  The exact answer, or none within the stated effort."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.cutting.planner.boxes import BoxTable, fill_table
from booklet.cutting.planner.effort import Effort, OutOfEffortError
from booklet.cutting.planner.kinds import PieceKind


@dataclass(frozen=True)
class Decision:
    """`verdict` is None where the effort ran out first; `table` shows how where the verdict is yes."""

    verdict: bool | None
    table: BoxTable | None


# The attempts in order: bundles kept of each number of pieces (None: all), and the most effort spent on it.
# A short complete search settles tight questions; a narrow one finds most of what can be found in large ones.
_ATTEMPTS: tuple[tuple[int | None, int | None], ...] = (
    (None, 10_000_000),
    (100, None),
    (None, 60_000_000),
    (400, None),
    (None, 300_000_000),
    (2000, None),
    (None, None),
)


def decide(kinds: Sequence[PieceKind], width: int, height: int, effort: Effort) -> Decision:
    """Decide whether all pieces come out of a sheet of `width` by `height` grid units, edge to edge.

    A yes may come from the least wasteful bundles alone; a no is proved by the complete table.
    """
    slack = width * height - sum(kind.area * kind.count for kind in kinds)
    if slack < 0 or not all(kind.goes_in(width, height) for kind in kinds):
        return Decision(False, None)
    for breadth, most in _ATTEMPTS:
        attempt = effort.part(effort.limit if most is None else most)
        try:
            table = fill_table(kinds, width, height, slack, attempt, breadth)
        except OutOfEffortError:
            table = None
        effort.charge(attempt)
        if table and table.fits(table.fields.whole, width, height):
            return Decision(True, table)
        if table and table.complete:
            return Decision(False, table)
    return Decision(None, None)
