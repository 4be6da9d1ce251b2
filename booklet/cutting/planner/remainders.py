"""What is left of a sheet when strips have been cut off it: the other half of the search for a verdict.

Wherever a sheet is cut in two, follow the part with more pieces: a chain of ever smaller remainders, from
each of which a strip was cut off that holds no more pieces than what is left.  So no strip holds more than
half of all pieces, and a table of bundles up to that number tells all that there is to know of strips and of
the last remainder.  What has been cut off is a bundle, too, and the remainder it leaves stands in the same
two rows: for each width the height that is used up, and for each height the width.  Cutting another strip off
adds the strip's row, so levels of cut-off bundles are made as levels of boxes are, and far fewer are made.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from booklet.cutting.planner.crowding import is_crowded, pieces_left
from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.levels import (
    GridSetup,
    Level,
    bundle_alone,
    join_levels,
    joinable,
    kept,
    narrowed,
    no_bundles,
    sum_alone,
)
from booklet.measure.dataclass import dataclass, replace

if TYPE_CHECKING:
    from booklet.cutting.planner.levels import Codes, Joined, Rows


@dataclass(frozen=True)
class Chain:
    """The bundle that is left in the end, and the strips cut off before it, the last one first."""

    rest: int
    strips: tuple[int, ...]


@dataclass(frozen=True)
class _ChainEnd:
    """What had been cut off, the last strip, the rest, and the remainder that the last two come out of."""

    cut_off: int
    strip: int
    rest: int
    size: tuple[int, int]


def remainder_setup(setup: GridSetup) -> GridSetup:
    """The setup for levels of what is cut off: outside a remainder all of the sheet is used."""
    beyond_across = (setup.width - setup.across) * setup.height
    return replace(
        setup, beyond_across=beyond_across, beyond_down=(setup.height - setup.down) * setup.width, limits=None
    )


def uncut_sheet(setup: GridSetup) -> Level:
    """The level on which nothing is cut off yet."""
    import numpy as np

    nothing = np.zeros(1, np.int64)
    min_heights: Rows = np.full((1, len(setup.across)), setup.no_box, setup.dtype)
    min_widths: Rows = np.full((1, len(setup.down)), setup.no_box, setup.dtype)
    min_heights[0, -1] = setup.height - setup.down[-1]
    min_widths[0, -1] = setup.width - setup.across[-1]
    return kept(setup, (nothing, nothing, min_heights, min_widths))


def find_chain(
    setup: GridSetup, levels: Sequence[Level], effort: Effort, breadth: int | None = None
) -> Chain | None:
    """A chain whose strips and last remainder are bundles of these levels; None if there is none.

    That is a proof where the levels are complete and go up to half of all pieces, and no `breadth` says how
    many bundles are kept of each number of pieces cut off.  Raises `OutOfEffortError`.
    """
    outer, total = remainder_setup(setup), setup.fields.size(setup.fields.whole)
    cut_off = [uncut_sheet(outer)]
    for used in range(1, total):
        left = total - used
        pairs = [
            (cut_off[used - strip], levels[strip - 1])
            for strip in range(1, min(used, left, len(levels)) + 1)
            if used - strip < len(cut_off)
        ]
        if left > len(levels):
            cut_off.append(_next_cut_off(outer, pairs, effort, breadth))
            continue
        for ones, strips in pairs:
            end = _last_cut(outer, (ones, strips, levels[left - 1]), effort)
            if end is not None:
                return Chain(end.rest, (end.strip, *_strips_before(outer, levels, cut_off, end)))
    return None


def chain_levels(setup: GridSetup, levels: Sequence[Level], chain: Chain) -> list[Level]:
    """For each remainder of the chain a level of it alone: the boxes that its own strip and rest make."""
    made, rest = list[Level](), bundle_alone(levels, chain.rest)
    for strip in chain.strips:
        rest = sum_alone(setup, rest, bundle_alone(levels, strip))
        made.append(rest)
    return made


def _next_cut_off(
    setup: GridSetup, pairs: Sequence[tuple[Level, Level]], effort: Effort, breadth: int | None
) -> Level:
    level = _left_over(setup, join_levels(setup, pairs, effort))
    if breadth is None:
        return _with_room(setup, level, effort)
    return narrowed(setup, level, breadth)


def _left_over(setup: GridSetup, joined: Joined | None) -> Level:
    """The level of what was cut off, each remainder as large as its pieces can use it."""
    import numpy as np

    if joined is None:
        return no_bundles(setup)
    codes, areas, min_heights, min_widths = joined
    min_heights = _rounded(setup, min_heights, setup.height, setup.down)
    min_widths = _rounded(setup, min_widths, setup.width, setup.across)
    other_heights = other_way(setup, min_widths, upright=True)
    other_widths = other_way(setup, min_heights, upright=False)
    min_heights, min_widths = np.minimum(min_heights, other_heights), np.minimum(min_widths, other_widths)
    return kept(setup, (codes, areas, min_heights, min_widths))


def _with_room(setup: GridSetup, level: Level, effort: Effort) -> Level:
    """The level without the remainders that what is left to do cannot fit."""
    import numpy as np

    columns = len(setup.across) + len(setup.down)
    effort.spend(len(level.codes) * columns * len(setup.fields.kinds) // 2)
    left, kinds = pieces_left(setup.fields, level.codes), setup.fields.kinds
    tall = np.maximum(setup.height - level.min_heights.astype(np.int32), 0)
    level.min_heights[is_crowded(kinds, left, setup.across, tall)] = setup.no_box
    wide = np.maximum(setup.width - level.min_widths.astype(np.int32), 0)
    level.min_widths[is_crowded(kinds, left, wide, setup.down)] = setup.no_box
    return kept(setup, (level.codes, level.areas, level.min_heights, level.min_widths))


def _rounded(setup: GridSetup, used: Rows, whole: int, places: Codes) -> Rows:
    """What is used up, once the remainder is shortened to a length that sums of pieces can have."""
    import numpy as np

    table: Rows = np.full(2 * setup.no_box + 1, setup.no_box, setup.dtype)
    lengths = np.arange(whole, dtype=np.int64)
    table[:whole] = whole - places[np.searchsorted(places, whole - lengths, side="right") - 1]
    table[table >= whole] = setup.no_box
    rounded: Rows = table[used]
    return rounded


def other_way(setup: GridSetup, used: Rows, upright: bool) -> Rows:
    """Turn "height used for each width left" into "width used for each height left", or back (`upright`)."""
    import numpy as np

    by_width, by_height = (setup.across, setup.width), (setup.down, setup.height)
    (places, whole), (others, other_whole) = (by_height, by_width) if upright else (by_width, by_height)
    out: Rows = np.full((len(used), len(others)), setup.no_box, setup.dtype)
    column = np.searchsorted(others, np.arange(other_whole + 1), side="right") - 1
    # Of several assigned to one place the last remains: the widest remainder of that height.
    at, there = np.nonzero(other_whole > used.T)
    out[there, column[other_whole - used[there, at]]] = whole - places[at]
    return out


def _last_cut(setup: GridSetup, levels: tuple[Level, Level, Level], effort: Effort) -> _ChainEnd | None:
    """Some bundle cut off, strip, and rest that are all the pieces and go into the sheet together."""
    import numpy as np

    ones, strips, rests = levels
    if not len(rests.codes):
        return None
    for firsts, seconds in joinable(setup, ones, strips, effort):
        left = setup.fields.whole - ones.codes[firsts] - strips.codes[seconds]
        thirds = np.minimum(np.searchsorted(rests.codes, left), len(rests.codes) - 1)
        waste = ones.waste[firsts] + strips.waste[seconds] + rests.waste[thirds]
        there = np.flatnonzero((rests.codes[thirds] == left) & (waste <= setup.slack))
        rows = firsts[there], seconds[there], thirds[there]
        effort.spend(len(there) * (len(setup.across) + len(setup.down)))
        for upright in (False, True):
            chosen = [_rows(level, upright)[at] for level, at in zip(levels, rows, strict=True)]
            total = np.minimum(chosen[0] + chosen[1], setup.no_box) + chosen[2]
            found = np.flatnonzero(total <= (setup.width if upright else setup.height))
            if len(found):
                at, column = divmod(int(found[0]), total.shape[1])
                used = int(chosen[0][at, column])
                cut_off, strip, rest = (
                    int(level.codes[row[at]]) for level, row in zip(levels, rows, strict=True)
                )
                return _ChainEnd(cut_off, strip, rest, _remainder(setup, upright, column, used))
    return None


def _rows(level: Level, upright: bool) -> Rows:
    """The rows in which upright cuts are sums, or level ones."""
    return level.min_widths if upright else level.min_heights


def _remainder(setup: GridSetup, upright: bool, column: int, used: int) -> tuple[int, int]:
    if upright:
        return setup.width - used, int(setup.down[column])
    return int(setup.across[column]), setup.height - used


def _strips_before(
    setup: GridSetup, levels: Sequence[Level], cut_off: Sequence[Level], end: _ChainEnd
) -> Iterator[int]:
    """The strips cut off before the end of the chain, the last one first."""
    left, size = end.cut_off, end.size
    while left:
        left, strip, size = _one_before(setup, levels, cut_off, (left, size))
        yield strip


def _one_before(
    setup: GridSetup, levels: Sequence[Level], cut_off: Sequence[Level], at: tuple[int, tuple[int, int]]
) -> tuple[int, int, tuple[int, int]]:
    """What had been cut off before the last strip was, that strip, and the remainder before it."""
    import numpy as np

    bundle, (width, height) = at
    used = setup.fields.size(bundle)
    for number in range(1, min(used, len(levels)) + 1):
        before, strips = cut_off[used - number], levels[number - 1]
        if not len(strips.codes):
            continue
        seconds = np.minimum(np.searchsorted(strips.codes, bundle - before.codes), len(strips.codes) - 1)
        firsts = np.flatnonzero(strips.codes[seconds] == bundle - before.codes)
        seconds = seconds[firsts]
        for upright in (False, True):
            places, length = (setup.down, height) if upright else (setup.across, width)
            column = int(np.searchsorted(places, length, side="right")) - 1
            ones = _rows(before, upright)[firsts, column].astype(np.int64)
            sums = ones + _rows(strips, upright)[seconds, column]
            most = setup.width - width if upright else setup.height - height
            for row in np.flatnonzero(sums <= most).tolist():
                size = _remainder(setup, upright, column, int(ones[row]))
                return int(before.codes[firsts[row]]), int(strips.codes[seconds[row]]), size
    raise AssertionError("what is cut off came about by cutting a strip off")
