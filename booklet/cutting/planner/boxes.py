"""The least box of every bundle of pieces: the table that decides whether pieces come out of one sheet.

For a bundle S let `min_heights[S][w]` be the least height in which S can be cut edge to edge from a strip of
width w, and `min_widths[S][h]` the least width within height h.  One piece is plain; a larger bundle is some
split of it, stacked (heights add) or side by side (widths add).  The table is filled bundle by bundle, all of
one number of pieces at once.

A box that wastes more area than the whole sheet has to spare never occurs, so it is left out; a bundle left
with no box at all is dropped, and so is everything that would be built on it.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from typing import TYPE_CHECKING

from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.kinds import Fields, PieceKind
from booklet.cutting.planner.levels import GridSetup, Level, grid_setup, narrowed, next_level, single_pieces
from booklet.measure.dataclass import dataclass

if TYPE_CHECKING:
    from booklet.cutting.planner.levels import Codes, Rows


@dataclass(frozen=True)
class BoxTable:
    """The least boxes of bundles, sorted by code; of all that can occur if `complete`."""

    fields: Fields
    width: int
    height: int
    across: tuple[int, ...]
    down: tuple[int, ...]
    codes: Codes
    areas: Codes
    min_heights: Rows
    min_widths: Rows
    no_box: int
    complete: bool

    def fits(self, bundle: int, width: int, height: int) -> bool:
        """Whether the bundle comes out of a rectangle of this size, edge to edge."""
        return self.least_height(bundle, width) <= height

    def least_height(self, bundle: int, width: int) -> int:
        """The least height that the bundle needs within `width`; `no_box` where it cannot be."""
        row = self.row(bundle)
        return self.no_box if row is None else int(self.min_heights[row, self.column(width, True)])

    def column(self, length: int, across: bool) -> int:
        """The column of the longest distance in `across` (else `down`) that is not above `length`."""
        return bisect_right(self.across if across else self.down, length) - 1

    def row(self, bundle: int) -> int | None:
        """Where the bundle stands in the table, if it does."""
        at = int(self.codes.searchsorted(bundle))
        return at if at < len(self.codes) and int(self.codes[at]) == bundle else None


def fill_table(
    kinds: Sequence[PieceKind],
    width: int,
    height: int,
    slack: int,
    effort: Effort,
    breadth: int | None = None,
) -> BoxTable:
    """Fill the table for a sheet of `width` by `height` grid units, no box wasting more than `slack`.

    With a `breadth`, at most so many bundles of each number of pieces are kept: a quick search that can
    find but not refute.
    Raises `OutOfEffortError` when the effort runs out, and for more kinds than any effort can settle.
    """
    setup = grid_setup(kinds, width, height, slack)
    total = sum(kind.count for kind in kinds)
    levels, complete = [single_pieces(setup)], True
    for size in range(2, total + 1):
        level = next_level(setup, levels, size, effort)
        levels.append(level if breadth is None else narrowed(setup, level, breadth))
        complete = complete and len(level.codes) == len(levels[-1].codes)
    return as_table(setup, levels, complete)


def complete_table(setup: GridSetup, levels: Sequence[Level], effort: Effort) -> BoxTable:
    """The table of all bundles, from its first levels; raises `OutOfEffortError`."""
    levels = list(levels)
    for size in range(len(levels) + 1, setup.fields.size(setup.fields.whole) + 1):
        levels.append(next_level(setup, levels, size, effort))
    return as_table(setup, levels, complete=True)


def as_table(setup: GridSetup, levels: Sequence[Level], complete: bool) -> BoxTable:
    """All bundles of some levels as one table."""
    import numpy as np

    codes = np.concatenate([level.codes for level in levels])
    order = np.argsort(codes, kind="stable")
    return BoxTable(
        setup.fields,
        setup.width,
        setup.height,
        tuple(int(at) for at in setup.across),
        tuple(int(at) for at in setup.down),
        codes[order],
        np.concatenate([level.areas for level in levels])[order],
        np.concatenate([level.min_heights for level in levels])[order],
        np.concatenate([level.min_widths for level in levels])[order],
        setup.no_box,
        complete,
    )
