"""Rooms: rectangles that must yield a bundle of pieces, and every way to cut one in two worth trying."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from booklet.cutting.planner.boxes import Table
from booklet.cutting.planner.effort import Effort

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]

LEFT, TOP, RIGHT, BOTTOM = 1, 2, 4, 8
ALL_EDGES = LEFT | TOP | RIGHT | BOTTOM


@dataclass(frozen=True)
class Room:
    """A rectangle, the bundle that must come out of it, and the edges of the sheet that it lies at.

    `edges` are bits; they are 0 wherever no piece of the bundle wants an edge, so that alike rooms are one.
    """

    bundle: int
    width: int
    height: int
    edges: int


@dataclass(frozen=True)
class Way:
    """A room cut in two: `first` lies left (or above), `second` right (or below); an empty one is scrap."""

    upright: bool
    first: Room
    second: Room


@dataclass(frozen=True)
class House:
    """The table that says what fits, the edges that each kind wants, and the effort that may be spent."""

    table: Table
    borders: tuple[int, ...]
    effort: Effort
    halves: dict[int, tuple[Ints, Ints]] = field(default_factory=dict)

    def room(self, bundle: int, width: int, height: int, edges: int) -> Room:
        """The room, without the edges that nothing in it asks for."""
        return Room(bundle, width, height, edges if self.wants(bundle) else 0)

    def wants(self, bundle: int) -> int:
        """The edges of the sheet that pieces of the bundle want, as bits."""
        wanted = 0
        for kind, _ in self.table.fields.members(bundle):
            wanted |= self.borders[kind]
        return wanted

    def is_piece(self, room: Room) -> bool:
        """Whether the room is exactly one piece, at the edges that it wants."""
        fields = self.table.fields
        if fields.size(room.bundle) != 1:
            return False
        kind, _ = next(fields.members(room.bundle))
        wanted = self.borders[kind]
        return (room.width, room.height) in fields.kinds[kind].lies and wanted & room.edges == wanted


def tight_ways(house: House, room: Room) -> Iterator[Way]:
    """The ways in which one of the two is as large as its pieces, or is scrap beside such a one."""
    area = house.table.fields.area(room.bundle)
    for upright in (True, False):
        length, breadth = (room.width, room.height) if upright else (room.height, room.width)
        if area % breadth == 0 and area // breadth < length:
            yield from _beside_scrap(house, room, upright, [area // breadth])
        for part, rest, least, rest_least in partings(house, room, upright):
            if least * breadth == house.table.fields.area(part):
                yield way(house, room, upright, part, rest, least)
            elif rest_least * breadth == house.table.fields.area(rest):
                yield way(house, room, upright, part, rest, length - rest_least)


def loose_ways(house: House, room: Room) -> Iterator[Way]:
    """The ways in which both waste, or the one beside scrap does."""
    fields = house.table.fields
    for upright in (True, False):
        length, breadth = (room.width, room.height) if upright else (room.height, room.width)
        sums = house.table.across if upright else house.table.down
        places = sorted({at for at in sums if at < length} | {length - at for at in sums if at < length})
        least = least_length(house, room, upright)
        area = fields.area(room.bundle)
        wide = [at for at in places if least <= at < length and at * breadth != area]
        yield from _beside_scrap(house, room, upright, wide)
        for part, rest, low, rest_low in partings(house, room, upright):
            if low * breadth == fields.area(part) or rest_low * breadth == fields.area(rest):
                continue
            high = length - rest_low
            for at in sorted({low, high} | {at for at in places if low < at < high}):
                yield way(house, room, upright, part, rest, at)


def _beside_scrap(house: House, room: Room, upright: bool, lengths: Sequence[int]) -> Iterator[Way]:
    """All pieces in one part, scrap the other; on both sides where an edge is wanted."""
    whole = room.width if upright else room.height
    for length in lengths:
        if house.table.fits(room.bundle, *((length, room.height) if upright else (room.width, length))):
            yield way(house, room, upright, room.bundle, 0, length)
            if room.edges:
                yield way(house, room, upright, 0, room.bundle, whole - length)


def way(house: House, room: Room, upright: bool, part: int, rest: int, at: int) -> Way:
    """The room cut at `at`, `part` left of it (or above), `rest` right (or below)."""
    house.effort.spend(1)
    if upright:
        first = house.room(part, at, room.height, room.edges & ~RIGHT)
        return Way(True, first, house.room(rest, room.width - at, room.height, room.edges & ~LEFT))
    first = house.room(part, room.width, at, room.edges & ~BOTTOM)
    return Way(False, first, house.room(rest, room.width, room.height - at, room.edges & ~TOP))


def least_length(house: House, room: Room, upright: bool) -> int:
    """How short the room could be along this direction and still yield its bundle."""
    table = house.table
    row = table.row(room.bundle)
    if row is None:
        return table.none
    if upright:
        return int(table.slim[row, table.column(room.height, False)])
    return int(table.low[row, table.column(room.width, True)])


def partings(house: House, room: Room, upright: bool) -> Iterator[tuple[int, int, int, int]]:
    """Two bundles that make up the room's, each with the least length that it needs there."""
    import numpy as np

    table = house.table
    parts, rests = halves_of(house, room.bundle)
    house.effort.spend(1 + len(parts) // 64)
    if upright:
        least = table.slim[:, table.column(room.height, False)]
        length = room.width
    else:
        least = table.low[:, table.column(room.width, True)]
        length = room.height
    together = least[parts].astype(np.int64) + least[rests]
    for at in np.flatnonzero(together <= length):
        part, rest = parts[at], rests[at]
        yield int(table.codes[part]), int(table.codes[rest]), int(least[part]), int(least[rest])


def halves_of(house: House, bundle: int) -> tuple[Ints, Ints]:
    """Rows of all pairs of bundles that make up this one; each way round where an edge is wanted."""
    import numpy as np

    if bundle in house.halves:
        return house.halves[bundle]
    codes, guards = house.table.codes, house.table.fields.guards
    house.effort.spend(1 + len(codes) // 64)
    rests = bundle - codes
    possible = ((bundle | guards) - codes) & guards == guards
    if not house.wants(bundle):
        possible &= codes <= rests
    parts = np.flatnonzero(possible & (rests > 0))
    matches = np.minimum(np.searchsorted(codes, rests[parts]), len(codes) - 1)
    there = codes[matches] == rests[parts]
    house.halves[bundle] = parts[there], matches[there]
    return house.halves[bundle]
