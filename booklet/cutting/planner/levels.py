"""Bundles of one number of pieces with their least boxes, and how two such levels are joined to a larger one.

Boxes are kept in two rows for each bundle.  `min_heights` says for each width the least height, `min_widths`
for each height the least width; the two are inverse to each other, so both kinds of cut are sums of rows.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, TypeAlias

from booklet.cutting.planner.crowding import BesideLimits, beside_limits, most_beside
from booklet.cutting.planner.disjoint import Tree, build_tree, disjoint_pairs
from booklet.cutting.planner.effort import Effort, OutOfEffortError
from booklet.cutting.planner.kinds import WORD_BITS, Fields, PieceKind, fields_of, positions
from booklet.measure.dataclass import dataclass, replace

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Rows = NDArray[np.unsignedinteger]
    Codes = NDArray[np.int64]
    Wastes = NDArray[np.signedinteger]

# Pairs joined at once: enough to keep the per-call cost small, within some ten megabytes.
_JOINED = 1 << 15
# Two lists with no more pairs than these are compared one by one: quicker than to descend their trees.
_FEW_PAIRS = 1 << 16

# The longest sheet, in grid units, whose lengths can be added in 16 bits.
LONGEST = 32766


@dataclass(frozen=True)
class GridSetup:
    """What stays the same while levels are made: the sheet, what it has to spare, where cuts may be.

    `no_box` stands for a box that is not there.  `beyond_across` and `beyond_down` are what is counted as
    used of the sheet at each width or height, however small the box.  `limits` say what room boxes of each
    width, and of each height, have to leave where all pieces come out of this one sheet.
    """

    fields: Fields
    width: int
    height: int
    slack: int
    across: Codes
    down: Codes
    no_box: int
    dtype: type
    beyond_across: Codes
    beyond_down: Codes
    limits: tuple[BesideLimits, BesideLimits] | None = None


@dataclass(frozen=True)
class Level:
    """All bundles of one number of pieces, sorted by code.

    `waste` is the least that a box of the bundle wastes, `shapes` the bits of the widths and of the heights
    that it has a box for.
    """

    fields: Fields
    codes: Codes
    areas: Codes
    min_heights: Rows
    min_widths: Rows
    waste: Codes
    shapes: tuple[Codes, Codes]

    @cached_property
    def tree(self) -> Tree:
        """The tree over the bundles, built when it is first asked for."""
        return build_tree(self.fields, self.codes, self.waste, self.shapes)


Joined: TypeAlias = "tuple[Codes, Codes, Rows, Rows]"


def grid_setup(kinds: Sequence[PieceKind], width: int, height: int, slack: int) -> GridSetup:
    """The setup for a sheet of `width` by `height` grid units, no box wasting more than `slack`.

    Raises `OutOfEffortError` for more kinds, or a finer grid, than any effort can settle.
    """
    import numpy as np

    if fields_of(kinds).bits > WORD_BITS or max(width, height) > LONGEST:
        raise OutOfEffortError("too many kinds of pieces, or too fine a grid")
    # Two boxes side by side must not overflow: twice `no_box` fits the type, and it is above any length.
    longest = max(width, height)
    dtype: type
    dtype, no_box = (np.uint8, 127) if longest < 127 else (np.uint16, LONGEST + 1)
    across = np.array(positions(kinds, width, upright=True), np.int64)
    down = np.array(positions(kinds, height, upright=False), np.int64)
    nothing = np.zeros_like(across), np.zeros_like(down)
    return GridSetup(fields_of(kinds), width, height, slack, across, down, no_box, dtype, *nothing)


def with_limits(setup: GridSetup) -> GridSetup:
    """The setup where all pieces are to come out of this one sheet."""
    kinds, size = setup.fields.kinds, (setup.width, setup.height)
    by_width = beside_limits(kinds, size, setup.across, upright=False)
    return replace(setup, limits=(by_width, beside_limits(kinds, size, setup.down, upright=True)))


def single_pieces(setup: GridSetup) -> Level:
    """The level of one piece of each kind."""
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
    return kept(setup, (codes, areas, min_heights, min_widths))


def kept(setup: GridSetup, joined: Joined) -> Level:
    """Drop every box that wastes too much, and every bundle that has none left."""
    import numpy as np

    codes, areas, min_heights, min_widths = joined
    waste = _waste(setup, min_heights, setup.across, setup.beyond_across, areas)
    min_heights[waste > setup.slack] = setup.no_box
    other = _waste(setup, min_widths, setup.down, setup.beyond_down, areas)
    min_widths[other > setup.slack] = setup.no_box
    if setup.limits is not None:
        by_width, by_height = setup.limits
        min_heights[min_heights > most_beside(setup.fields, by_width, codes)] = setup.no_box
        min_widths[min_widths > most_beside(setup.fields, by_height, codes)] = setup.no_box
    waste[min_heights == setup.no_box] = setup.slack + 1
    least = waste.min(axis=1, initial=setup.slack + 1).astype(np.int64)
    alive = least <= setup.slack
    min_heights, min_widths = min_heights[alive], min_widths[alive]
    shapes = _shapes(min_heights != setup.no_box), _shapes(min_widths != setup.no_box)
    return Level(setup.fields, codes[alive], areas[alive], min_heights, min_widths, least[alive], shapes)


def _waste(setup: GridSetup, rows: Rows, places: Codes, beyond: Codes, areas: Codes) -> Wastes:
    """What each box of some rows wastes; of one that is not there, any number."""
    import numpy as np

    # A sheet whose lengths go into 8 bits has no area that goes not into 32.
    wide = np.int32 if setup.dtype is np.uint8 else np.int64
    waste: Wastes = np.multiply(rows, places.astype(wide), dtype=wide)
    np.add(waste, beyond.astype(wide), out=waste)
    np.subtract(waste, areas.astype(wide)[:, None], out=waste)
    return waste


def narrowed(setup: GridSetup, level: Level, breadth: int) -> Level:
    """Only the `breadth` bundles of a level that waste least for their area."""
    import numpy as np

    if len(level.codes) <= breadth:
        return level
    share = level.waste * 1024 // level.areas
    best = np.sort(np.lexsort((level.codes, share))[:breadth])
    rows = level.codes[best], level.areas[best], level.min_heights[best], level.min_widths[best]
    return kept(setup, rows)


def _shapes(there: NDArray[np.bool_]) -> Codes:
    """Which lengths have a box at all, as bits; neighbouring lengths share a bit where there are many."""
    import numpy as np

    columns = there.shape[1]
    bits = np.left_shift(1, np.arange(columns, dtype=np.int64) * min(columns, 62) // columns)
    shapes: Codes = np.bitwise_or.reduce(np.where(there, bits, 0), axis=1)
    return shapes


def next_level(setup: GridSetup, levels: Sequence[Level], size: int, effort: Effort) -> Level:
    """The bundles of `size` pieces, each some two smaller ones side by side or stacked."""
    pairs = [(levels[small - 1], levels[size - small - 1]) for small in range(1, size // 2 + 1)]
    joined = join_levels(setup, pairs, effort)
    return no_bundles(setup) if joined is None else _both_ways(setup, joined)


def _both_ways(setup: GridSetup, joined: Joined) -> Level:
    import numpy as np

    codes, areas, min_heights, min_widths = joined
    other_heights = _inverse(setup, min_widths, setup.down, setup.across, setup.width)
    other_widths = _inverse(setup, min_heights, setup.across, setup.down, setup.height)
    heights, widths = np.minimum(min_heights, other_heights), np.minimum(min_widths, other_widths)
    return kept(setup, (codes, areas, heights, widths))


def no_bundles(setup: GridSetup) -> Level:
    """A level without a bundle."""
    import numpy as np

    nothing = np.zeros(0, np.int64)
    rows: list[Rows] = [np.zeros((0, len(places)), setup.dtype) for places in (setup.across, setup.down)]
    return kept(setup, (nothing, nothing, rows[0], rows[1]))


def bundle_alone(levels: Sequence[Level], bundle: int) -> Level:
    """The level of one bundle alone, as it stands in one of the levels."""
    for level in levels:
        at = int(level.codes.searchsorted(bundle))
        if at < len(level.codes) and int(level.codes[at]) == bundle:
            one = slice(at, at + 1)
            shapes = level.shapes[0][one], level.shapes[1][one]
            rows = level.min_heights[one], level.min_widths[one]
            return Level(level.fields, level.codes[one], level.areas[one], *rows, level.waste[one], shapes)
    raise LookupError("the bundle is on none of the levels")


def sum_alone(setup: GridSetup, one: Level, other: Level) -> Level:
    """The level of the sum of two bundles that each stand alone, side by side or stacked."""
    import numpy as np

    first = np.zeros(1, np.int64)
    return _both_ways(setup, _merged_sums(one, first, other, first))


def _inverse(setup: GridSetup, rows: Rows, places: Codes, asked: Codes, most: int) -> Rows:
    """Turn "least width within each height" into "least height within each width", or the other way."""
    import numpy as np

    out: Rows = np.full((len(rows), len(asked)), setup.no_box, setup.dtype)
    column = np.searchsorted(asked, np.arange(most + 1))
    # Of several assigned to one place the last remains: the least.
    at, reached = np.nonzero(rows.T[::-1] <= most)
    at = len(places) - 1 - at
    out[reached, column[rows[reached, at]]] = places[at]
    result: Rows = np.minimum.accumulate(out, axis=1)
    return result


def join_levels(setup: GridSetup, pairs: Sequence[tuple[Level, Level]], effort: Effort) -> Joined | None:
    """All sums of rows of two disjoint bundles of these pairs of levels, the least for each bundle."""
    import numpy as np

    found = [
        _merged_sums(ones, firsts[start : start + _JOINED], others, seconds[start : start + _JOINED])
        for ones, others in pairs
        for firsts, seconds in joinable(setup, ones, others, effort)
        for start in _starts(setup, firsts, effort)
    ]
    if not found:
        return None
    codes, areas, min_heights, min_widths = (np.concatenate(parts) for parts in zip(*found, strict=True))
    return merged_rows(codes, areas, min_heights, min_widths)


def _starts(setup: GridSetup, firsts: Codes, effort: Effort) -> Iterator[int]:
    for start in range(0, len(firsts), _JOINED):
        number = min(_JOINED, len(firsts) - start)
        effort.spend(number * (len(setup.across) + len(setup.down)))
        yield start


def joinable(setup: GridSetup, ones: Level, others: Level, effort: Effort) -> Iterator[tuple[Codes, Codes]]:
    """Rows of every two disjoint bundles that do not waste too much together, in the order of their sums."""
    import numpy as np

    number = len(ones.codes) * len(others.codes)
    if not number:
        return
    if number <= _FEW_PAIRS:
        effort.spend(2 * number)
        found: Iterator[tuple[Codes, Codes]] = iter([_compared(setup, ones, others)])
    else:
        found = disjoint_pairs(setup.fields, ones.tree, others.tree, setup.slack, effort)
    for firsts, seconds in found:
        order = np.argsort(ones.codes[firsts] + others.codes[seconds], kind="stable")
        yield firsts[order], seconds[order]


def _compared(setup: GridSetup, ones: Level, others: Level) -> tuple[Codes, Codes]:
    """The rows of `joinable`, found by comparing each bundle with each."""
    import numpy as np

    guards, whole = setup.fields.guards, setup.fields.whole
    fit = ((whole | guards) - ones.codes[:, None] - others.codes) & guards == guards
    fit &= ones.waste[:, None] + others.waste <= setup.slack
    firsts, seconds = np.nonzero(fit)
    common = ones.shapes[0][firsts] & others.shapes[0][seconds]
    common |= ones.shapes[1][firsts] & others.shapes[1][seconds]
    keep = common != 0
    if ones is others:
        keep &= firsts <= seconds
    return firsts[keep], seconds[keep]


def sums(ones: Level, firsts: Codes, others: Level, seconds: Codes) -> Joined:
    """The sums of rows of one level and of another, one by one; a bundle may come more than once."""
    return (
        ones.codes[firsts] + others.codes[seconds],
        ones.areas[firsts] + others.areas[seconds],
        ones.min_heights[firsts] + others.min_heights[seconds],
        ones.min_widths[firsts] + others.min_widths[seconds],
    )


def _merged_sums(ones: Level, firsts: Codes, others: Level, seconds: Codes) -> Joined:
    return merged_rows(*sums(ones, firsts, others, seconds))


def merged_rows(codes: Codes, areas: Codes, min_heights: Rows, min_widths: Rows) -> Joined:
    """One row for each bundle: the least of all its rows."""
    import numpy as np

    order = np.argsort(codes, kind="stable")
    codes = codes[order]
    starts = np.flatnonzero(np.concatenate(([True], codes[1:] != codes[:-1])))
    runs = _runs_of(order, starts)
    return codes[starts], areas[order[starts]], _least(min_heights, runs), _least(min_widths, runs)


@dataclass(frozen=True)
class _Runs:
    """Which rows belong together.

    `parts` has the first row of each run, then the second of each that has one, and so on, the longest runs
    first; `places` says where each of these runs belongs.
    """

    parts: tuple[Codes, ...]
    places: Codes


def _runs_of(order: Codes, starts: Codes) -> _Runs:
    import numpy as np

    lengths = np.diff(starts, append=len(order))
    places = np.argsort(-lengths, kind="stable")
    firsts, lengths = starts[places], lengths[places]
    longest = int(lengths[0]) if len(lengths) else 0
    numbers = np.searchsorted(-lengths, -np.arange(longest)).tolist()
    return _Runs(tuple(order[firsts[:number] + at] for at, number in enumerate(numbers)), places)


def _least(rows: Rows, runs: _Runs) -> Rows:
    """The least of the rows of each run; `np.minimum.reduceat` takes ten times as long for short runs."""
    import numpy as np

    if not runs.parts:
        return rows
    first, *others = runs.parts
    found: Rows = rows[first]
    for part in others:
        np.minimum(found[: len(part)], rows[part], out=found[: len(part)])
    least: Rows = np.empty_like(found)
    least[runs.places] = found
    return least
