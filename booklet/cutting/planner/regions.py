"""Regions: rectangles that must yield a bundle of pieces, and every option worth trying to cut one in two."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import field
from typing import TYPE_CHECKING, NamedTuple

from booklet.cutting.planner.boxes import BoxTable
from booklet.cutting.planner.effort import Effort
from booklet.measure.dataclass import dataclass, replace

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]

LEFT, TOP, RIGHT, BOTTOM = 1, 2, 4, 8
ALL_EDGES = LEFT | TOP | RIGHT | BOTTOM


class Region(NamedTuple):
    """A rectangle, the bundle that must come out of it, and the edges of the sheet that it touches.

    `edges` are bits; they are 0 wherever no piece of the bundle wants an edge, so that such regions compare
    equal.  They are looked up more often than all else, for which a tuple is quick.
    """

    bundle: int
    width: int
    height: int
    edges: int


@dataclass(frozen=True)
class CutOption:
    """A region cut in two: `first` is left (or above), `second` right (or below); an empty one is scrap."""

    upright: bool
    first: Region
    second: Region


@dataclass(frozen=True)
class Search:
    """The table that says what fits, the edges that each kind wants, and the effort that may be spent."""

    table: BoxTable
    borders: tuple[int, ...]
    effort: Effort
    halves: dict[int, tuple[Ints, Ints]] = field(default_factory=dict)
    areas: dict[int, int] = field(default_factory=dict)
    wanted: dict[int, int] = field(default_factory=dict)
    singles: dict[int, int | None] = field(default_factory=dict)

    def with_effort(self, effort: Effort) -> Search:
        """The same search with another effort; what is known of bundles is kept."""
        return replace(self, effort=effort)

    def area(self, bundle: int) -> int:
        """The area of all pieces in the bundle, in square grid units."""
        if bundle not in self.areas:
            self.areas[bundle] = self.table.fields.area(bundle)
        return self.areas[bundle]

    def region(self, bundle: int, width: int, height: int, edges: int) -> Region:
        """The region, without the edges that none of its pieces wants."""
        return Region(bundle, width, height, edges if self.wants(bundle) else 0)

    def wants(self, bundle: int) -> int:
        """The edges of the sheet that pieces of the bundle want, as bits."""
        if bundle not in self.wanted:
            wanted = 0
            for kind, _ in self.table.fields.members(bundle):
                wanted |= self.borders[kind]
            self.wanted[bundle] = wanted
        return self.wanted[bundle]

    def single(self, bundle: int) -> int | None:
        """The kind of a bundle that is exactly one piece."""
        if bundle not in self.singles:
            members = list(self.table.fields.members(bundle))
            is_one = len(members) == 1 and members[0][1] == 1
            self.singles[bundle] = members[0][0] if is_one else None
        return self.singles[bundle]

    def is_piece(self, region: Region) -> bool:
        """Whether the region is exactly one piece, at the edges that it wants."""
        kind = self.single(region.bundle)
        if kind is None:
            return False
        wanted = self.borders[kind]
        at_edges = wanted & region.edges == wanted
        return at_edges and (region.width, region.height) in self.table.fields.kinds[kind].orientations


def tight_options(search: Search, region: Region) -> Iterator[CutOption]:
    """The cuts where one side is exactly as large as its pieces, or is scrap beside such a one."""
    area = search.area(region.bundle)
    for upright in (True, False):
        length, breadth = (region.width, region.height) if upright else (region.height, region.width)
        if area % breadth == 0 and area // breadth < length:
            yield from _beside_scrap(search, region, upright, [area // breadth])
        for part, rest, least, rest_least in fitting_splits(search, region, upright):
            if least * breadth == search.area(part):
                yield cut_option(search, region, upright, part, rest, least)
            elif rest_least * breadth == search.area(rest):
                yield cut_option(search, region, upright, part, rest, length - rest_least)


def loose_options(search: Search, region: Region) -> Iterator[CutOption]:
    """The cuts where both sides leave scrap, or the one beside scrap does."""
    for upright in (True, False):
        length, breadth = (region.width, region.height) if upright else (region.height, region.width)
        sums = search.table.across if upright else search.table.down
        places = sorted({at for at in sums if at < length} | {length - at for at in sums if at < length})
        least = least_length(search, region, upright)
        area = search.area(region.bundle)
        wide = [at for at in places if least <= at < length and at * breadth != area]
        yield from _beside_scrap(search, region, upright, wide)
        for part, rest, low, rest_low in fitting_splits(search, region, upright):
            if low * breadth == search.area(part) or rest_low * breadth == search.area(rest):
                continue
            high = length - rest_low
            for at in sorted({low, high} | {at for at in places if low < at < high}):
                yield cut_option(search, region, upright, part, rest, at)


def _beside_scrap(
    search: Search, region: Region, upright: bool, lengths: Sequence[int]
) -> Iterator[CutOption]:
    """All pieces in one part, scrap the other; on both sides where an edge is wanted."""
    whole = region.width if upright else region.height
    for length in lengths:
        if search.table.fits(
            region.bundle, *((length, region.height) if upright else (region.width, length))
        ):
            yield cut_option(search, region, upright, region.bundle, 0, length)
            if region.edges:
                yield cut_option(search, region, upright, 0, region.bundle, whole - length)


def cut_option(search: Search, region: Region, upright: bool, part: int, rest: int, at: int) -> CutOption:
    """The region cut at `at`, `part` left of it (or above), `rest` right (or below)."""
    search.effort.spend(1)
    if upright:
        first = search.region(part, at, region.height, region.edges & ~RIGHT)
        return CutOption(
            True, first, search.region(rest, region.width - at, region.height, region.edges & ~LEFT)
        )
    first = search.region(part, region.width, at, region.edges & ~BOTTOM)
    return CutOption(False, first, search.region(rest, region.width, region.height - at, region.edges & ~TOP))


def least_length(search: Search, region: Region, upright: bool) -> int:
    """The least length along this direction at which the region still yields its bundle."""
    table = search.table
    row = table.row(region.bundle)
    if row is None:
        return table.no_box
    if upright:
        return int(table.min_widths[row, table.column(region.height, False)])
    return int(table.min_heights[row, table.column(region.width, True)])


def fitting_splits(search: Search, region: Region, upright: bool) -> Iterator[tuple[int, int, int, int]]:
    """Pairs of bundles that make up the region's and fit it, each with the least length that it needs."""
    import numpy as np

    table = search.table
    parts, rests = split_rows(search, region.bundle)
    search.effort.spend(1 + len(parts) // 64)
    if upright:
        least = table.min_widths[:, table.column(region.height, False)]
        length = region.width
    else:
        least = table.min_heights[:, table.column(region.width, True)]
        length = region.height
    together = least[parts].astype(np.int64) + least[rests]
    (fitting,) = (together <= length).nonzero()
    part, rest = parts[fitting], rests[fitting]
    columns = table.codes[part], table.codes[rest], least[part], least[rest]
    yield from zip(*(column.tolist() for column in columns), strict=True)


def split_rows(search: Search, bundle: int) -> tuple[Ints, Ints]:
    """Rows of all pairs of bundles that make up this one; in both orders where an edge is wanted."""
    import numpy as np

    if bundle in search.halves:
        return search.halves[bundle]
    codes, guards = search.table.codes, search.table.fields.guards
    search.effort.spend(1 + len(codes) // 64)
    rests = bundle - codes
    possible = ((bundle | guards) - codes) & guards == guards
    if not search.wants(bundle):
        possible &= codes <= rests
    parts = np.flatnonzero(possible & (rests > 0))
    matches = np.minimum(np.searchsorted(codes, rests[parts]), len(codes) - 1)
    there = codes[matches] == rests[parts]
    search.halves[bundle] = parts[there], matches[there]
    return search.halves[bundle]
