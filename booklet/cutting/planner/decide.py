"""Do all pieces come out of one sheet?  The exact answer, or none within the stated effort."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from booklet.cutting.planner.boxes import BoxTable, as_table, complete_table
from booklet.cutting.planner.effort import Effort, OutOfEffortError
from booklet.cutting.planner.kinds import PieceKind
from booklet.cutting.planner.levels import (
    GridSetup,
    Level,
    grid_setup,
    next_level,
    single_pieces,
    with_limits,
)
from booklet.cutting.planner.remainders import Chain, chain_levels, find_chain


@dataclass(frozen=True)
class Decision:
    """`verdict` is None where the effort ran out first; `found` shows how where the verdict is yes."""

    verdict: bool | None
    found: FoundBoxes | None


@dataclass(frozen=True)
class FoundBoxes:
    """The bundles that were looked at before the verdict was yes, and the chain that showed it."""

    setup: GridSetup
    levels: tuple[Level, ...]
    chain: tuple[Level, ...]

    @property
    def table(self) -> BoxTable:
        """The boxes that are known, those of the chain among them."""
        return as_table(self.setup, [*self.levels, *self.chain], complete=False)

    def completed(self, effort: Effort) -> BoxTable:
        """The boxes of all bundles; raises `OutOfEffortError`."""
        return complete_table(self.setup, self.levels, effort)


@dataclass(frozen=True)
class _Attempt:
    """One way to look: strips of so many pieces at most (None: half of all), and how many bundles are kept.

    `most` is the effort that it may take.
    """

    strip: int | None
    breadth: int | None
    most: int | None


# A short complete search settles tight questions; a narrow one finds most of what can be found in large ones.
# Found by experiment.
_ATTEMPTS = (
    _Attempt(2, 20, None),
    _Attempt(None, None, 1_000_000),
    _Attempt(5, 30, None),
    _Attempt(None, None, 40_000_000),
    _Attempt(7, 50, None),
    _Attempt(None, None, 200_000_000),
    _Attempt(9, 200, None),
    _Attempt(None, None, None),
)


@dataclass
class _Looked:
    """The complete levels so far, the first of single pieces."""

    setup: GridSetup
    levels: list[Level] = field(default_factory=list)

    def up_to(self, size: int, effort: Effort) -> list[Level]:
        """The levels of up to so many pieces; each that is new is kept for the next attempt."""
        if not self.levels:
            self.levels.append(single_pieces(self.setup))
        while len(self.levels) < size:
            self.levels.append(next_level(self.setup, self.levels, len(self.levels) + 1, effort))
        return self.levels[:size]


def decide(kinds: Sequence[PieceKind], width: int, height: int, effort: Effort) -> Decision:
    """Decide whether all pieces come out of a sheet of `width` by `height` grid units, edge to edge.

    A yes may come from the least wasteful bundles alone; a no is proved by all bundles up to half the pieces.
    """
    slack = width * height - sum(kind.area * kind.count for kind in kinds)
    if slack < 0 or not all(kind.goes_in(width, height) for kind in kinds):
        return Decision(False, None)
    try:
        looked = _Looked(with_limits(grid_setup(kinds, width, height, slack)))
    except OutOfEffortError:
        return Decision(None, None)
    half = max(1, (sum(kind.count for kind in kinds) + 1) // 2)
    for attempt in _ATTEMPTS:
        part = effort.part(effort.limit if attempt.most is None else attempt.most)
        strip = min(half, attempt.strip or half)
        try:
            verdict = _attempt(looked, strip, attempt.breadth, part)
        except OutOfEffortError:
            continue
        finally:
            effort.charge(part)
        if verdict is not None:
            return verdict
        if strip == half and attempt.breadth is None:
            return Decision(False, None)
    return Decision(None, None)


def _attempt(looked: _Looked, strip: int, breadth: int | None, effort: Effort) -> Decision | None:
    levels, setup = looked.up_to(strip, effort), looked.setup
    if setup.fields.size(setup.fields.whole) == 1:
        chain: Chain | None = Chain(setup.fields.whole, ())
    else:
        chain = find_chain(setup, levels, effort, breadth)
    if chain is None:
        return None
    return Decision(True, FoundBoxes(setup, tuple(levels), tuple(chain_levels(setup, levels, chain))))
