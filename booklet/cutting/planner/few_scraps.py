"""Many pieces with few rectangles of scrap: strips without any are cut off, and scrap only where it may be.

A pattern with few rectangles of scrap consists mostly of parts that have none, and such parts are rare: their
sides must match.  So bundles are looked for that fill a rectangle, and a chain of remainders as for the
verdict, with one more kind of step: scrap cut off the remainder, or left at the end of a strip.  Layers count
such steps.  After the last of them nothing is wasted any more: what was wasted up to there is all that the
sheet has to spare, so its size is known.

The patterns are found, never proved fewest.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING

from booklet.cutting.planner.boxes import BoxTable, as_table
from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.kinds import PieceKind
from booklet.cutting.planner.levels import (
    GridSetup,
    Joined,
    Level,
    grid_setup,
    joinable,
    kept,
    merged_rows,
    narrowed,
    next_level,
    no_bundles,
    single_pieces,
    sums,
    with_limits,
)
from booklet.cutting.planner.remainders import Chain, chain_levels, other_way, remainder_setup, uncut_sheet
from booklet.measure.dataclass import dataclass, replace

if TYPE_CHECKING:
    from booklet.cutting.planner.levels import Codes, Rows

# The longest sheet, in grid units, of which every length is looked at.
_LONGEST = 400
# Bundles kept of each number of pieces: of those without scrap, and of those cut off.
_PARTS, _BREADTH = 150, 60
# The most rectangles of scrap that are looked for, and the chains of so many that are taken.
_MOST_SCRAPS, _ENDS = 4, 4


@dataclass(frozen=True)
class _Search:
    """The setups, and the bundles that fill a rectangle: as they are, and with scrap at one end.

    `most` is the effort that may be spent.
    """

    setup: GridSetup
    outer: GridSetup
    filled: Sequence[Level]
    ended: Sequence[Level]
    effort: Effort

    @property
    def total(self) -> int:
        """The number of all pieces."""
        return self.setup.fields.size(self.setup.fields.whole)


@dataclass(frozen=True)
class _Remainder:
    """What is left when a bundle is cut off, on a layer: its width and height."""

    layer: int
    cut_off: int
    width: int
    height: int


def tables_of_few_scraps(
    kinds: Sequence[PieceKind], width: int, height: int, effort: Effort
) -> Iterator[BoxTable]:
    """Boxes among which is a pattern of all pieces with few rectangles of scrap, the fewest found first.

    Raises `OutOfEffortError`.
    """
    slack = width * height - sum(kind.area * kind.count for kind in kinds)
    if max(width, height) > _LONGEST or slack <= 0:
        return
    search = _start(kinds, (width, height, slack), effort)
    layers = [_layer(search, None)]
    for _ in range(_MOST_SCRAPS):
        for chain in _chains(search, layers):
            made = chain_levels(search.setup, search.ended, chain)
            yield as_table(search.setup, [*search.ended, *made], complete=False)
        layers.append(_layer(search, layers[-1]))


def _chains(search: _Search, layers: Sequence[list[Level]]) -> Iterator[Chain]:
    """Chains whose last strip leaves nothing but scrap, then those whose scrap was all cut off before."""
    yield from _ends(search, layers)
    yield from _ends(search, [*layers, _last_layer(search, layers[-1])])


def _start(kinds: Sequence[PieceKind], sheet: tuple[int, int, int], effort: Effort) -> _Search:
    import numpy as np

    every = np.arange(sheet[0] + 1, dtype=np.int64), np.arange(sheet[1] + 1, dtype=np.int64)
    nothing = np.zeros_like(every[0]), np.zeros_like(every[1])
    plain = replace(
        grid_setup(kinds, *sheet),
        across=every[0],
        down=every[1],
        beyond_across=nothing[0],
        beyond_down=nothing[1],
    )
    setup = with_limits(plain)
    exact = replace(setup, slack=0)
    filled = [single_pieces(exact)]
    for size in range(2, sum(kind.count for kind in kinds)):
        filled.append(narrowed(exact, next_level(exact, filled, size, effort), _PARTS))
    ended = [_ended(setup, level) for level in filled]
    return _Search(setup, remainder_setup(setup), filled, ended, effort)


def _ended(setup: GridSetup, level: Level) -> Level:
    """The bundles of a level with scrap at one end, as long as may be."""
    import numpy as np

    rows = [np.minimum.accumulate(row, axis=1) for row in (level.min_heights, level.min_widths)]
    return kept(setup, (level.codes, level.areas, rows[0], rows[1]))


def _layer(search: _Search, before: list[Level] | None) -> list[Level]:
    """All that can be cut off with one more rectangle of scrap than on the layer before; at first none."""
    outer, layer = search.outer, list[Level]()
    for used in range(search.total):
        found = [_as_joined(uncut_sheet(outer))] if not used and before is None else []
        if before is not None:
            found.append(_as_joined(_shrunk(outer, before[used])))
            found += _joins(search, before, search.ended, used)
        found += _joins(search, layer, search.filled, used)
        layer.append(narrowed(outer, _level(outer, found), _BREADTH))
    return layer


def _last_layer(search: _Search, before: list[Level]) -> list[Level]:
    """All that can be cut off so that what is left has nothing to spare."""
    outer, layer = search.outer, list[Level]()
    for used in range(search.total):
        found = [_as_joined(_shrunk_to_fill(outer, before[used]))]
        found += _joins(search, before, search.ended, used, exactly=True)
        found += _joins(search, layer, search.filled, used)
        layer.append(narrowed(outer, _level(outer, found), _BREADTH))
    return layer


def _as_joined(level: Level) -> Joined:
    return level.codes, level.areas, level.min_heights, level.min_widths


def _joins(
    search: _Search, cut_off: Sequence[Level], strips: Sequence[Level], used: int, *, exactly: bool = False
) -> list[Joined]:
    """What strips cut off make of what is cut off before; `exactly` keeps what leaves nothing to spare."""
    outer = search.outer
    found: list[Joined] = []
    for number in range(1, used + 1):
        if used - number >= len(cut_off) or number > len(strips):
            continue
        ones, others = cut_off[used - number], strips[number - 1]
        for firsts, seconds in joinable(outer, ones, others, search.effort):
            search.effort.spend(len(firsts) * (len(outer.across) + len(outer.down)))
            joined = sums(ones, firsts, others, seconds)
            if len(firsts):
                found.append(merged_rows(*(_without_spare(outer, joined) if exactly else joined)))
    return found


def _without_spare(outer: GridSetup, joined: Joined) -> Joined:
    import numpy as np

    _, areas, min_heights, min_widths = joined
    waste = min_heights.astype(np.int64) * outer.across + outer.beyond_across - areas[:, None]
    min_heights[waste != outer.slack] = outer.no_box
    waste = min_widths.astype(np.int64) * outer.down + outer.beyond_down - areas[:, None]
    min_widths[waste != outer.slack] = outer.no_box
    return joined


def _level(outer: GridSetup, found: Sequence[Joined]) -> Level:
    import numpy as np

    found = [joined for joined in found if len(joined[0])]
    if not found:
        return no_bundles(outer)
    codes, areas, min_heights, min_widths = merged_rows(
        *(np.concatenate(parts) for parts in zip(*found, strict=True))
    )
    min_heights[min_heights >= outer.height] = outer.no_box
    min_widths[min_widths >= outer.width] = outer.no_box
    heights = other_way(outer, min_widths, upright=True)
    widths = other_way(outer, min_heights, upright=False)
    return kept(outer, (codes, areas, np.minimum(min_heights, heights), np.minimum(min_widths, widths)))


def _shrunk(outer: GridSetup, level: Level) -> Level:
    """Every remainder with scrap cut off it, of any breadth."""
    import numpy as np

    rows = [
        np.minimum.accumulate(row[:, ::-1], axis=1)[:, ::-1].copy()
        for row in (level.min_heights, level.min_widths)
    ]
    return kept(outer, (level.codes, level.areas, rows[0], rows[1]))


def _shrunk_to_fill(outer: GridSetup, level: Level) -> Level:
    """Every remainder with all that it has to spare cut off as scrap in one rectangle."""
    left = outer.fields.area(outer.fields.whole) - level.areas
    by_width = _narrower(level.min_heights, (outer.across, outer.height), left, outer.no_box)
    by_height = _narrower(level.min_widths, (outer.down, outer.width), left, outer.no_box)
    return kept(outer, (level.codes, level.areas, by_width, by_height))


def _narrower(used: Rows, along: tuple[Codes, int], left: Codes, no_box: int) -> Rows:
    """Each remainder as broad as its pieces need it, where that is a whole number; as long as it was."""
    import numpy as np

    places, whole = along
    out: Rows = np.full_like(used, no_box)
    rows, columns = np.nonzero(used < whole)
    lengths = whole - used[rows, columns].astype(np.int64)
    breadths = left[rows] // lengths
    fit = (breadths * lengths == left[rows]) & (breadths <= places[columns]) & (breadths > 0)
    out[rows[fit], breadths[fit]] = used[rows[fit], columns[fit]]
    return out


def _ends(search: _Search, layers: Sequence[list[Level]]) -> Iterator[Chain]:
    """Some chains on these layers to a remainder that a bundle fills, but for scrap along one side."""
    yield from islice(_all_ends(search, layers), _ENDS)


def _all_ends(search: _Search, layers: Sequence[list[Level]]) -> Iterator[Chain]:
    import numpy as np

    fields, last = search.setup.fields, len(layers) - 1
    for used, ones in enumerate(layers[last]):
        rests = search.filled[search.total - used - 1] if used else None
        if rests is None or not len(rests.codes) or not len(ones.codes):
            continue
        left = fields.whole - ones.codes
        at = np.minimum(np.searchsorted(rests.codes, left), len(rests.codes) - 1)
        there = np.flatnonzero(rests.codes[at] == left)
        for upright in (False, True):
            mine, theirs = (level.min_widths if upright else level.min_heights for level in (ones, rests))
            whole = search.setup.width if upright else search.setup.height
            fit = mine[there].astype(np.int64) + theirs[at[there]] <= whole
            for row, column in np.argwhere(fit)[:1].tolist():
                first = there[row]
                length = whole - int(mine[first, column])
                size = (length, column) if upright else (column, length)
                end = _Remainder(last, int(ones.codes[first]), *size)
                yield Chain(int(left[first]), tuple(_strips(search, layers, end)))


def _strips(search: _Search, layers: Sequence[list[Level]], end: _Remainder) -> Iterator[int]:
    """The strips that were cut off before the end, the last one first."""
    at = end
    while at.cut_off:
        before = next(_before(search, layers, at))
        if before.cut_off != at.cut_off:
            yield at.cut_off - before.cut_off
        at = before


def _before(search: _Search, layers: Sequence[list[Level]], at: _Remainder) -> Iterator[_Remainder]:
    """The remainders of which one step made this one."""
    used = search.setup.fields.size(at.cut_off)
    for number in range(1, used + 1):
        yield from _cut_before(search, layers, at, (at.layer, search.filled[number - 1]), used - number)
        if at.layer:
            yield from _cut_before(
                search, layers, at, (at.layer - 1, search.ended[number - 1]), used - number
            )
    if at.layer:
        yield from _larger(layers[at.layer - 1][used], at)


def _cut_before(
    search: _Search,
    layers: Sequence[list[Level]],
    at: _Remainder,
    step: tuple[int, Level],
    used: int,
) -> Iterator[_Remainder]:
    import numpy as np

    layer, strips = step
    before = layers[layer][used]
    if not len(strips.codes) or not len(before.codes):
        return
    seconds = np.minimum(np.searchsorted(strips.codes, at.cut_off - before.codes), len(strips.codes) - 1)
    firsts = np.flatnonzero(strips.codes[seconds] == at.cut_off - before.codes)
    seconds = seconds[firsts]
    for upright in (False, True):
        column, length = (at.height, at.width) if upright else (at.width, at.height)
        whole = search.setup.width if upright else search.setup.height
        mine, theirs = (level.min_widths if upright else level.min_heights for level in (before, strips))
        ones = mine[firsts, column].astype(np.int64)
        for row in np.flatnonzero(ones + theirs[seconds, column] == whole - length).tolist():
            left = whole - int(ones[row])
            size = (left, column) if upright else (column, left)
            yield _Remainder(layer, int(before.codes[firsts[row]]), *size)


def _larger(level: Level, at: _Remainder) -> Iterator[_Remainder]:
    """Remainders of the layer before from which scrap was cut off."""
    import numpy as np

    row = int(level.codes.searchsorted(at.cut_off))
    if row == len(level.codes) or int(level.codes[row]) != at.cut_off:
        return
    for upright, rows in ((False, level.min_heights), (True, level.min_widths)):
        column, length = (at.height, at.width) if upright else (at.width, at.height)
        whole = (level.min_heights if upright else level.min_widths).shape[1] - 1
        same = np.flatnonzero(rows[row] == whole - length)
        for broader in same[same > column].tolist():
            yield _Remainder(at.layer - 1, at.cut_off, *((length, broader) if upright else (broader, length)))
