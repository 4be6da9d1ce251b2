"""The least box of every bundle of pieces: the table that decides whether pieces come out of one sheet.

For a bundle S let `low[S][w]` be the least height in which S can be cut edge to edge from a strip of width w,
and `slim[S][h]` the least width within height h.  One piece is plain; a larger bundle is some split of it,
stacked (heights add) or side by side (widths add).  `low` and `slim` are inverse to each other, so both kinds
of cut are sums of rows, and the table is filled bundle by bundle, all of one number of pieces at once.

A box that wastes more area than the whole sheet has to spare never occurs, so it is left out; a bundle left
with no box at all is dropped, and so is everything that would be built on it.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from booklet.cutting.planner.disjoint import Tree, disjoint_pairs, grow_tree
from booklet.cutting.planner.effort import Effort, OutOfEffortError
from booklet.cutting.planner.kinds import WORD_BITS, Fields, Kind, fields_of, positions

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
class Table:
    """The least boxes of bundles, sorted by code; of all that can occur if `complete`."""

    fields: Fields
    width: int
    height: int
    across: tuple[int, ...]
    down: tuple[int, ...]
    codes: Codes
    areas: Codes
    low: Rows
    slim: Rows
    none: int
    complete: bool

    def fits(self, bundle: int, width: int, height: int) -> bool:
        """Whether the bundle comes out of a rectangle of this size, edge to edge."""
        return self.least_height(bundle, width) <= height

    def least_height(self, bundle: int, width: int) -> int:
        """The least height that the bundle needs within `width`; `none` where it cannot be."""
        row = self.row(bundle)
        return self.none if row is None else int(self.low[row, self.column(width, True)])

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
    low: Rows
    slim: Rows
    tree: Tree


@dataclass(frozen=True)
class _Frame:
    """What stays the same while a table is filled."""

    fields: Fields
    width: int
    height: int
    slack: int
    across: Codes
    down: Codes
    none: int
    dtype: type


def fill_table(
    kinds: Sequence[Kind], width: int, height: int, slack: int, effort: Effort, breadth: int | None = None
) -> Table:
    """Fill the table for a sheet of `width` by `height` grid units, no box wasting more than `slack`.

    With a `breadth`, at most so many bundles of each number of pieces are kept: a quick look that can only
    find, not refute.
    Raises `OutOfEffortError` when the effort runs out, and for more kinds than any effort would do.
    """
    if fields_of(kinds).bits > WORD_BITS or max(width, height) > LONGEST:
        raise OutOfEffortError("too many kinds of pieces, or too fine a grid")
    frame = _frame(kinds, width, height, slack)
    total = sum(kind.count for kind in kinds)
    levels, complete = [_singles(frame)], True
    for size in range(2, total + 1):
        level = _next_level(frame, levels, size, effort)
        levels.append(level if breadth is None else _narrowed(frame, level, breadth))
        complete = complete and len(level.codes) == len(levels[-1].codes)
    return _collect(frame, levels, complete)


def _frame(kinds: Sequence[Kind], width: int, height: int, slack: int) -> _Frame:
    import numpy as np

    # Two boxes side by side must not overflow: twice `none` fits the type, and `none` is above any length.
    longest = max(width, height)
    dtype: type
    dtype, none = (np.uint8, 127) if longest < 127 else (np.uint16, LONGEST + 1)
    return _Frame(
        fields_of(kinds),
        width,
        height,
        slack,
        np.array(positions(kinds, width, upright=True), np.int64),
        np.array(positions(kinds, height, upright=False), np.int64),
        none,
        dtype,
    )


def _singles(frame: _Frame) -> _Level:
    import numpy as np

    kinds = frame.fields.kinds
    low: Rows = np.full((len(kinds), len(frame.across)), frame.none, frame.dtype)
    slim: Rows = np.full((len(kinds), len(frame.down)), frame.none, frame.dtype)
    for row, kind in enumerate(kinds):
        for width, height in kind.lies:
            wide, tall = frame.across >= width, frame.down >= height
            if width <= frame.width and height <= frame.height:
                low[row, wide] = np.minimum(low[row, wide], height)
                slim[row, tall] = np.minimum(slim[row, tall], width)
    codes = np.array(frame.fields.units, np.int64)
    areas = np.array([kind.area for kind in kinds], np.int64)
    return _kept(frame, codes, areas, low, slim)


def _kept(frame: _Frame, codes: Codes, areas: Codes, low: Rows, slim: Rows) -> _Level:
    """Drop every box that wastes too much, and every bundle that has none left."""
    import numpy as np

    waste = low.astype(np.int64) * frame.across - areas[:, None]
    low[waste > frame.slack] = frame.none
    waste[low == frame.none] = frame.slack + 1
    across = slim.astype(np.int64) * frame.down - areas[:, None]
    slim[across > frame.slack] = frame.none
    least = waste.min(axis=1)
    alive = least <= frame.slack
    codes, low, slim = codes[alive], low[alive], slim[alive]
    shapes = (_shapes(low != frame.none), _shapes(slim != frame.none))
    tree = grow_tree(frame.fields, codes, least[alive], shapes)
    return _Level(codes, areas[alive], low, slim, tree)


def _narrowed(frame: _Frame, level: _Level, breadth: int) -> _Level:
    """Only the `breadth` bundles of a level that waste least for their area."""
    import numpy as np

    if len(level.codes) <= breadth:
        return level
    waste = level.low.astype(np.int64) * frame.across - level.areas[:, None]
    waste[level.low == frame.none] = frame.slack + 1
    share = waste.min(axis=1) * 1024 // level.areas
    best = np.sort(np.lexsort((level.codes, share))[:breadth])
    return _kept(frame, level.codes[best], level.areas[best], level.low[best], level.slim[best])


def _shapes(there: NDArray[np.bool_]) -> Codes:
    """Which lengths have a box at all, as bits; neighbouring lengths share a bit where there are many."""
    import numpy as np

    columns = there.shape[1]
    bits = np.left_shift(1, np.arange(columns, dtype=np.int64) * min(columns, 62) // columns)
    shapes: Codes = np.bitwise_or.reduce(np.where(there, bits, 0), axis=1)
    return shapes


def _next_level(frame: _Frame, levels: list[_Level], size: int, effort: Effort) -> _Level:
    import numpy as np

    found = [
        joined
        for small in range(1, size // 2 + 1)
        for joined in _joined(frame, levels[small - 1], levels[size - small - 1], effort)
    ]
    if not found:
        empty = np.zeros(0, np.int64)
        return _kept(
            frame,
            empty,
            empty,
            np.zeros((0, len(frame.across)), frame.dtype),
            np.zeros((0, len(frame.down)), frame.dtype),
        )
    codes, areas, low, slim = (np.concatenate(parts) for parts in zip(*found, strict=True))
    codes, areas, low, slim = _merged(codes, areas, low, slim)
    low_too = _inverse(frame, slim, frame.down, frame.across, frame.width)
    slim_too = _inverse(frame, low, frame.across, frame.down, frame.height)
    return _kept(frame, codes, areas, np.minimum(low, low_too), np.minimum(slim, slim_too))


def _merged(codes: Codes, areas: Codes, low: Rows, slim: Rows) -> tuple[Codes, Codes, Rows, Rows]:
    """One row for each bundle: the least of all its rows."""
    import numpy as np

    order = np.argsort(codes, kind="stable")
    codes = codes[order]
    starts = np.flatnonzero(np.concatenate(([True], codes[1:] != codes[:-1])))
    return (
        codes[starts],
        areas[order[starts]],
        np.minimum.reduceat(low[order], starts, axis=0),
        np.minimum.reduceat(slim[order], starts, axis=0),
    )


def _inverse(frame: _Frame, rows: Rows, places: Codes, asked: Codes, most: int) -> Rows:
    """Turn "least width within each height" into "least height within each width", or the other way."""
    import numpy as np

    out: Rows = np.full((len(rows), len(asked)), frame.none, frame.dtype)
    column = np.searchsorted(asked, np.arange(most + 1))
    for at in range(len(places) - 1, -1, -1):
        reached = np.flatnonzero(rows[:, at] <= most)
        out[reached, column[rows[reached, at]]] = places[at]
    result: Rows = np.minimum.accumulate(out, axis=1)
    return result


def _joined(
    frame: _Frame, ones: _Level, others: _Level, effort: Effort
) -> Iterator[tuple[Codes, Codes, Rows, Rows]]:
    """Join every two disjoint bundles of two levels, stacked and side by side."""
    import numpy as np

    if not len(ones.codes) or not len(others.codes):
        return
    for firsts, seconds in disjoint_pairs(frame.fields, ones.tree, others.tree, frame.slack, effort):
        order = np.argsort(ones.codes[firsts] + others.codes[seconds], kind="stable")
        firsts, seconds = firsts[order], seconds[order]
        for start in range(0, len(firsts), _JOINED):
            one, other = firsts[start : start + _JOINED], seconds[start : start + _JOINED]
            effort.spend(len(one) * (len(frame.across) + len(frame.down)))
            yield _merged(
                ones.codes[one] + others.codes[other],
                ones.areas[one] + others.areas[other],
                ones.low[one] + others.low[other],
                ones.slim[one] + others.slim[other],
            )


def _collect(frame: _Frame, levels: list[_Level], complete: bool) -> Table:
    import numpy as np

    codes = np.concatenate([level.codes for level in levels])
    order = np.argsort(codes, kind="stable")
    return Table(
        frame.fields,
        frame.width,
        frame.height,
        tuple(int(at) for at in frame.across),
        tuple(int(at) for at in frame.down),
        codes[order],
        np.concatenate([level.areas for level in levels])[order],
        np.concatenate([level.low for level in levels])[order],
        np.concatenate([level.slim for level in levels])[order],
        frame.none,
        complete,
    )
