"""The least box of every bundle of pieces: the table that decides whether pieces come out of one sheet.

For a bundle S let `min_heights[S][w]` be the least height in which S can be cut edge to edge from a strip of
width w, and `min_widths[S][h]` the least width within height h.  One piece is plain; a larger bundle is some
split of it, stacked (heights add) or side by side (widths add).  The two are inverse to each other, so both
kinds of cut are sums of rows, and the table is filled bundle by bundle, all of one number of pieces at once.

A box that wastes more area than the whole sheet has to spare never occurs, so it is left out; a bundle left
with no box at all is dropped, and so is everything that would be built on it.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from booklet.cutting.planner.disjoint import Tree, build_tree, disjoint_pairs
from booklet.cutting.planner.effort import Effort, OutOfEffortError
from booklet.cutting.planner.kinds import WORD_BITS, Fields, PieceKind, fields_of, positions

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Rows = NDArray[np.unsignedinteger]
    Codes = NDArray[np.int64]

# Pairs joined at once: enough to keep the per-call cost small, within some ten megabytes.
_JOINED = 1 << 15

# The longest sheet, in grid units, whose lengths can be added in 16 bits.
LONGEST = 32766


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


@dataclass(frozen=True)
class _Level:
    """All bundles of one number of pieces."""

    codes: Codes
    areas: Codes
    min_heights: Rows
    min_widths: Rows
    tree: Tree


@dataclass(frozen=True)
class _TableSetup:
    """What stays the same while a table is filled."""

    fields: Fields
    width: int
    height: int
    slack: int
    across: Codes
    down: Codes
    no_box: int
    dtype: type


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
    if fields_of(kinds).bits > WORD_BITS or max(width, height) > LONGEST:
        raise OutOfEffortError("too many kinds of pieces, or too fine a grid")
    setup = _table_setup(kinds, width, height, slack)
    total = sum(kind.count for kind in kinds)
    levels, complete = [_singles(setup)], True
    for size in range(2, total + 1):
        level = _next_level(setup, levels, size, effort)
        levels.append(level if breadth is None else _narrowed(setup, level, breadth))
        complete = complete and len(level.codes) == len(levels[-1].codes)
    return _collect(setup, levels, complete)


def _table_setup(kinds: Sequence[PieceKind], width: int, height: int, slack: int) -> _TableSetup:
    import numpy as np

    # Two boxes side by side must not overflow: twice `no_box` fits the type, and it is above any length.
    longest = max(width, height)
    dtype: type
    dtype, no_box = (np.uint8, 127) if longest < 127 else (np.uint16, LONGEST + 1)
    return _TableSetup(
        fields_of(kinds),
        width,
        height,
        slack,
        np.array(positions(kinds, width, upright=True), np.int64),
        np.array(positions(kinds, height, upright=False), np.int64),
        no_box,
        dtype,
    )


def _singles(setup: _TableSetup) -> _Level:
    import numpy as np

    kinds = setup.fields.kinds
    min_heights: Rows = np.full((len(kinds), len(setup.across)), setup.no_box, setup.dtype)
    min_widths: Rows = np.full((len(kinds), len(setup.down)), setup.no_box, setup.dtype)
    for row, kind in enumerate(kinds):
        for width, height in kind.orientations:
            wide, tall = setup.across >= width, setup.down >= height
            if width <= setup.width and height <= setup.height:
                min_heights[row, wide] = np.minimum(min_heights[row, wide], height)
                min_widths[row, tall] = np.minimum(min_widths[row, tall], width)
    codes = np.array(setup.fields.units, np.int64)
    areas = np.array([kind.area for kind in kinds], np.int64)
    return _kept(setup, codes, areas, min_heights, min_widths)


def _kept(setup: _TableSetup, codes: Codes, areas: Codes, min_heights: Rows, min_widths: Rows) -> _Level:
    """Drop every box that wastes too much, and every bundle that has none left."""
    import numpy as np

    waste = min_heights.astype(np.int64) * setup.across - areas[:, None]
    min_heights[waste > setup.slack] = setup.no_box
    waste[min_heights == setup.no_box] = setup.slack + 1
    across = min_widths.astype(np.int64) * setup.down - areas[:, None]
    min_widths[across > setup.slack] = setup.no_box
    least = waste.min(axis=1)
    alive = least <= setup.slack
    codes, min_heights, min_widths = codes[alive], min_heights[alive], min_widths[alive]
    shapes = (_shapes(min_heights != setup.no_box), _shapes(min_widths != setup.no_box))
    tree = build_tree(setup.fields, codes, least[alive], shapes)
    return _Level(codes, areas[alive], min_heights, min_widths, tree)


def _narrowed(setup: _TableSetup, level: _Level, breadth: int) -> _Level:
    """Only the `breadth` bundles of a level that waste least for their area."""
    import numpy as np

    if len(level.codes) <= breadth:
        return level
    waste = level.min_heights.astype(np.int64) * setup.across - level.areas[:, None]
    waste[level.min_heights == setup.no_box] = setup.slack + 1
    share = waste.min(axis=1) * 1024 // level.areas
    best = np.sort(np.lexsort((level.codes, share))[:breadth])
    return _kept(setup, level.codes[best], level.areas[best], level.min_heights[best], level.min_widths[best])


def _shapes(there: NDArray[np.bool_]) -> Codes:
    """Which lengths have a box at all, as bits; neighbouring lengths share a bit where there are many."""
    import numpy as np

    columns = there.shape[1]
    bits = np.left_shift(1, np.arange(columns, dtype=np.int64) * min(columns, 62) // columns)
    shapes: Codes = np.bitwise_or.reduce(np.where(there, bits, 0), axis=1)
    return shapes


def _next_level(setup: _TableSetup, levels: list[_Level], size: int, effort: Effort) -> _Level:
    import numpy as np

    found = [
        joined
        for small in range(1, size // 2 + 1)
        for joined in _join_levels(setup, levels[small - 1], levels[size - small - 1], effort)
    ]
    if not found:
        empty = np.zeros(0, np.int64)
        return _kept(
            setup,
            empty,
            empty,
            np.zeros((0, len(setup.across)), setup.dtype),
            np.zeros((0, len(setup.down)), setup.dtype),
        )
    codes, areas, min_heights, min_widths = (np.concatenate(parts) for parts in zip(*found, strict=True))
    codes, areas, min_heights, min_widths = _merged(codes, areas, min_heights, min_widths)
    other_heights = _inverse(setup, min_widths, setup.down, setup.across, setup.width)
    other_widths = _inverse(setup, min_heights, setup.across, setup.down, setup.height)
    return _kept(
        setup, codes, areas, np.minimum(min_heights, other_heights), np.minimum(min_widths, other_widths)
    )


def _merged(
    codes: Codes, areas: Codes, min_heights: Rows, min_widths: Rows
) -> tuple[Codes, Codes, Rows, Rows]:
    """One row for each bundle: the least of all its rows."""
    import numpy as np

    order = np.argsort(codes, kind="stable")
    codes = codes[order]
    starts = np.flatnonzero(np.concatenate(([True], codes[1:] != codes[:-1])))
    return (
        codes[starts],
        areas[order[starts]],
        np.minimum.reduceat(min_heights[order], starts, axis=0),
        np.minimum.reduceat(min_widths[order], starts, axis=0),
    )


def _inverse(setup: _TableSetup, rows: Rows, places: Codes, asked: Codes, most: int) -> Rows:
    """Turn "least width within each height" into "least height within each width", or the other way."""
    import numpy as np

    out: Rows = np.full((len(rows), len(asked)), setup.no_box, setup.dtype)
    column = np.searchsorted(asked, np.arange(most + 1))
    for at in range(len(places) - 1, -1, -1):
        reached = np.flatnonzero(rows[:, at] <= most)
        out[reached, column[rows[reached, at]]] = places[at]
    result: Rows = np.minimum.accumulate(out, axis=1)
    return result


def _join_levels(
    setup: _TableSetup, ones: _Level, others: _Level, effort: Effort
) -> Iterator[tuple[Codes, Codes, Rows, Rows]]:
    """Join every two disjoint bundles of two levels, stacked and side by side."""
    import numpy as np

    if not len(ones.codes) or not len(others.codes):
        return
    for firsts, seconds in disjoint_pairs(setup.fields, ones.tree, others.tree, setup.slack, effort):
        order = np.argsort(ones.codes[firsts] + others.codes[seconds], kind="stable")
        firsts, seconds = firsts[order], seconds[order]
        for start in range(0, len(firsts), _JOINED):
            one, other = firsts[start : start + _JOINED], seconds[start : start + _JOINED]
            effort.spend(len(one) * (len(setup.across) + len(setup.down)))
            yield _merged(
                ones.codes[one] + others.codes[other],
                ones.areas[one] + others.areas[other],
                ones.min_heights[one] + others.min_heights[other],
                ones.min_widths[one] + others.min_widths[other],
            )


def _collect(setup: _TableSetup, levels: list[_Level], complete: bool) -> BoxTable:
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
