"""From a yes to a pattern: of all ways to take a sheet apart, one with fewest cuts, then fewest takes.

Every cut makes one rectangle more, so a sheet of n pieces and s rectangles of scrap takes n + s - 1 cuts,
and the fewest cuts are the fewest rectangles of scrap.  They are counted up from none; at each number the
sheet is cut in two in every way that the table of least boxes allows, and each part again, with what has been
proved about a part remembered.  A rectangle as large as its pieces has no scrap, any other at least one: this
alone leaves few ways to try.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TypeAlias

from booklet.cutting.planner.boxes import Table, fill_table
from booklet.cutting.planner.effort import Effort, OutOfEffortError
from booklet.cutting.planner.handful import handful
from booklet.cutting.planner.patterns import Leaf, Node, joined, scraps
from booklet.cutting.planner.rooms import (
    ALL_EDGES,
    House,
    Room,
    Way,
    least_length,
    loose_ways,
    partings,
    tight_ways,
    way,
)

# So many bundles at most are looked at for a good pattern.
_BUNDLES = 4200
# What a good pattern takes is bounded by the number of bundles; this effort is never spent.
_AMPLE = 1_000_000_000


@dataclass(frozen=True)
class Arrangement:
    """A pattern, and whether its number of rectangles of scrap is proved to be the least."""

    pattern: Node
    fewest: bool


# Takes, then the squares of the areas of scrap, negative: scrap in one piece before scrap in many.
Cost: TypeAlias = tuple[int, int]


@dataclass
class _Search:
    """What has been found out about rooms: `found` and `proved` count rectangles of scrap."""

    house: House
    proved: dict[Room, int] = field(default_factory=dict)
    found: dict[Room, int] = field(default_factory=dict)
    tight: dict[Room, tuple[Way, ...]] = field(default_factory=dict)
    loose: dict[Room, tuple[Way, ...]] = field(default_factory=dict)
    fewest: dict[tuple[Room, bool | None], tuple[Cost, Node]] = field(default_factory=dict)


def arrange(
    table: Table, width: int, height: int, effort: Effort, borders: tuple[int, ...] = ()
) -> Arrangement | None:
    """The pattern with fewest cuts, then fewest takes, for all pieces of a table that says they fit.

    `borders` gives for each kind the edges of the sheet that it must touch, as bits.  Returns None if the
    borders cannot be had; raises `OutOfEffortError` if that is not settled within the effort.
    """
    borders = borders or (0,) * len(table.fields.kinds)
    search = _Search(House(table, borders, effort))
    room = search.house.room(table.fields.whole, width, height, ALL_EDGES)
    most = 2 * table.fields.size(room.bundle) + 2
    try:
        if not _can(search, room, most):
            return None
    except OutOfEffortError:
        return _good_pattern(search, room)
    return Arrangement(_with_few_takes(search, room, effort), table.complete)


def _good_pattern(search: _Search, room: Room) -> Arrangement:
    """Few cuts; they may turn out to be as few as what is proved so far allows."""
    house = House(_narrow(search.house.table, room), search.house.borders, Effort(_AMPLE))
    try:
        pattern = handful(house, room.width, room.height)
    except LookupError as none:
        if any(house.borders):
            raise OutOfEffortError("no pattern keeps the wishes, as far as the effort goes") from none
        pattern = _plain_pattern(_again(search, Effort(_AMPLE)), room)
    fewest = search.house.table.complete and scraps(pattern) == _at_least(search, room)
    return Arrangement(pattern, fewest)


def _narrow(table: Table, room: Room) -> Table:
    """The table, or a narrow one in place of one with too many bundles to try all their boxes."""
    if len(table.codes) <= _BUNDLES:
        return table
    slack = room.width * room.height - table.fields.area(room.bundle)
    breadth = _BUNDLES // table.fields.size(room.bundle)
    return fill_table(table.fields.kinds, room.width, room.height, slack, Effort(_AMPLE), breadth)


def _again(search: _Search, effort: Effort) -> _Search:
    """The search with fresh effort, as large as the first; what it knows stays known."""
    house = House(search.house.table, search.house.borders, Effort(effort.limit), search.house.halves)
    return _Search(house, search.proved, search.found, search.tight, search.loose)


def _with_few_takes(search: _Search, room: Room, effort: Effort) -> Node:
    found = _found_pattern(search, room)
    try:
        return _fewest_takes(_again(search, effort), room, None)[1]
    except OutOfEffortError:
        return found


def _can(search: _Search, room: Room, scrap: int) -> bool:
    """Whether the room comes apart with at most `scrap` rectangles of scrap; notes the least number."""
    if not room.bundle:
        return scrap >= 1
    if room in search.found:
        return search.found[room] <= scrap
    while (least := _at_least(search, room)) <= scrap:
        if search.house.is_piece(room) or any(
            _way_can(search, cut, least) for cut in _ways(search, room, least)
        ):
            search.found[room] = least
            return True
        search.proved[room] = least + 1
    return False


def _at_least(search: _Search, room: Room) -> int:
    """The number of rectangles of scrap that the room is known to leave, or more."""
    if not room.bundle:
        return 1
    if room in search.proved:
        return search.proved[room]
    return int(room.width * room.height > search.house.table.fields.area(room.bundle))


def _way_can(search: _Search, cut: Way, scrap: int) -> bool:
    least = _at_least(search, cut.second)
    for share in range(_at_least(search, cut.first), scrap - least + 1):
        if _can(search, cut.first, share):
            return _can(search, cut.second, scrap - share)
    return False


def _ways(search: _Search, room: Room, scrap: int) -> Iterator[Way]:
    """The ways to cut the room in two that so much scrap allows."""
    if room not in search.tight:
        search.tight[room] = tuple(tight_ways(search.house, room))
    yield from search.tight[room]
    if scrap < 2:
        return
    if room not in search.loose:
        search.loose[room] = tuple(loose_ways(search.house, room))
    yield from search.loose[room]


def _found_pattern(search: _Search, room: Room) -> Node:
    """The pattern that `_can` came upon."""
    if not room.bundle:
        return Leaf(room.width, room.height, None)
    if search.house.is_piece(room):
        return _piece(search, room)
    scrap = search.found[room]
    cut = next(cut for cut in _ways(search, room, scrap) if _known(search, cut, scrap))
    return joined(cut.upright, (_found_pattern(search, cut.first), _found_pattern(search, cut.second)))


def _known(search: _Search, cut: Way, scrap: int) -> bool:
    parts = [1 if not part.bundle else search.found.get(part) for part in (cut.first, cut.second)]
    return None not in parts and sum(part or 0 for part in parts) <= scrap


def _piece(search: _Search, room: Room) -> Leaf:
    kind, _ = next(search.house.table.fields.members(room.bundle))
    return Leaf(room.width, room.height, kind)


def _fewest_takes(search: _Search, room: Room, within: bool | None) -> tuple[Cost, Node]:
    """Of the patterns with least scrap one with fewest takes; `within` is the cut that the room came from."""
    if not room.bundle:
        return (0, -((room.width * room.height) ** 2)), Leaf(room.width, room.height, None)
    if search.house.is_piece(room):
        return (0, 0), _piece(search, room)
    if (room, within) not in search.fewest:
        search.fewest[room, within] = min(_taken(search, room, within), key=lambda taken: taken[0])
    return search.fewest[room, within]


def _taken(search: _Search, room: Room, within: bool | None) -> Iterator[tuple[Cost, Node]]:
    scrap = search.found[room]
    for cut in _ways(search, room, scrap):
        search.house.effort.spend(1)
        if _way_can(search, cut, scrap):
            first, one = _fewest_takes(search, cut.first, cut.upright)
            second, other = _fewest_takes(search, cut.second, cut.upright)
            cost = (int(cut.upright != within) + first[0] + second[0], first[1] + second[1])
            yield cost, joined(cut.upright, (one, other))


def _plain_pattern(search: _Search, room: Room) -> Node:
    """Some pattern, by always taking the parting that leaves most aside in one strip."""
    if not room.bundle:
        return Leaf(room.width, room.height, None)
    if search.house.is_piece(room):
        return _piece(search, room)
    if room in search.found:
        return _found_pattern(search, room)
    cut = _strip_of_scrap(search.house, room) or _parting(search.house, room)
    return joined(cut.upright, (_plain_pattern(search, cut.first), _plain_pattern(search, cut.second)))


def _strip_of_scrap(house: House, room: Room) -> Way | None:
    """Set aside all that the room has too much in one direction, the larger strip of the two."""
    wide, tall = least_length(house, room, True), least_length(house, room, False)
    if (room.width - wide, room.height - tall) == (0, 0):
        return None
    if (room.width - wide) * room.height >= (room.height - tall) * room.width:
        return way(house, room, True, room.bundle, 0, wide)
    return way(house, room, False, room.bundle, 0, tall)


def _parting(house: House, room: Room) -> Way:
    for upright in (True, False):
        for part, rest, least, _ in partings(house, room, upright):
            return way(house, room, upright, part, rest, least)
    raise AssertionError("a room that the table says can be cut can be cut in two")
