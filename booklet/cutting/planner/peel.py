"""Many pieces on one sheet: strips that waste next to nothing are cut off, until few pieces are left.

The exact search is at its end with some thirty kinds of pieces.  Of a dozen or two, though, it finds at once
which of them fill a strip as long as the sheet.  So one such strip after another is set aside; what the sheet
has to spare stays with the last few pieces, which are left to the exact search.  Where these do not come out
of what is left of the sheet, a strip of the second rank is taken in one place, then in two, and so on.

What comes of it is found, never proved.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, TypeAlias

from booklet.cutting.planner.boxes import Table, fill_table
from booklet.cutting.planner.effort import Effort, OutOfEffortError
from booklet.cutting.planner.kinds import Fields
from booklet.cutting.planner.patterns import Node, joined
from booklet.cutting.planner.rooms import BOTTOM, LEFT, RIGHT, TOP

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]

# No more pieces than these are left to the exact search.
_FEW = 10
# For a strip, so many pieces are looked at together, and of their boxes those that waste at most so many
# thousandths of the room: of many pieces some fit without waste, of few all can be known.  Found by trying.
_LOOKS = ((14, 0), (20, 0), (26, 0), (14, 10), (10, 60))
# So many choices of pieces are looked at each time, until so many strips are known.
_CHOICES, _KNOWN = 3, 6
# A strip may waste so many thousandths of its area, or the share that the room has to spare if that is more.
_WASTE = 30
# What one table may cost; one table costs so much for every two of its pieces; one room of few pieces.
_TABLE, _PAIR, _ROOM = 10_000_000, 5_000, 4_000_000

Size: TypeAlias = tuple[int, int]


@dataclass(frozen=True)
class Strip:
    """Pieces that come out of a strip: as high as the room if `upright`, else as wide; how broad it is.

    `waste` is what it leaves of its area, in square grid units.
    """

    bundle: int
    upright: bool
    breadth: int
    waste: int

    def parted(self, size: Size) -> tuple[Size, Size]:
        """The strip and what is left of a room of this size."""
        width, height = size
        if self.upright:
            return (self.breadth, height), (width - self.breadth, height)
        return (width, self.breadth), (width, height - self.breadth)


@dataclass(frozen=True)
class Peeler:
    """The pieces, the edges of the sheet that each kind wants, and how few pieces in a room are arranged.

    What has been found out about bundles in rooms is kept in `strips` and `few`.
    """

    fields: Fields
    borders: tuple[int, ...]
    arrange_few: Callable[[int, Size], Node | None]
    effort: Effort
    strips: dict[tuple[int, Size], list[Strip]] = field(default_factory=dict)
    few: dict[tuple[int, Size], Node | None] = field(default_factory=dict)

    @property
    def wants(self) -> int:
        """The edges of the sheet that any piece wants, as bits: no strip is cut off there."""
        wanted = 0
        for border in self.borders:
            wanted |= border
        return wanted


def peel(peeler: Peeler, bundle: int, size: Size) -> Iterator[Node]:
    """Patterns of the bundle on a sheet of this size, the most promising first, as far as the effort goes.

    Pieces that want an edge of the sheet are among the last few, and the room that is left for them lies at
    every edge that is wanted.
    """
    try:
        for steps_aside in range(_KNOWN):
            found = _peel(peeler, bundle, size, steps_aside)
            if found is not None:
                yield found
    except OutOfEffortError:
        return


def peel_most(peeler: Peeler, bundle: int, size: Size) -> tuple[int, Node] | None:
    """Most of the bundle, and a pattern of it; where there is no strip, the smallest piece is left out."""
    try:
        return _peel_most(peeler, bundle, size)
    except OutOfEffortError:
        return None


def _peel_most(peeler: Peeler, left: int, size: Size) -> tuple[int, Node] | None:
    fields = peeler.fields
    if fields.size(left) <= _FEW:
        return _most_of_few(peeler, left, size)
    for strip in _best_strips(peeler, left, size):
        cut, rest = strip.parted(size)
        pattern = _arranged(peeler, strip.bundle, cut)
        others = _peel_most(peeler, left - strip.bundle, rest) if pattern else None
        if others is not None and pattern is not None:
            return strip.bundle + others[0], _put_together(peeler, strip, pattern, others[1])
    return _peel_most(peeler, left - next(_singles(fields, left)), size)


def _most_of_few(peeler: Peeler, left: int, size: Size) -> tuple[int, Node] | None:
    """All of them, or all but one, the smallest that it takes; or else less."""
    if not left:
        return None
    singles = list(_singles(peeler.fields, left))
    for fewer in (left, *(left - one for one in singles)):
        pattern = _arranged(peeler, fewer, size) if fewer else None
        if pattern is not None:
            return fewer, pattern
    return _most_of_few(peeler, left - singles[0], size)


def _singles(fields: Fields, bundle: int) -> Iterator[int]:
    """One piece of each kind in the bundle, as a bundle; the smallest first."""
    for at, _ in sorted(fields.members(bundle), key=lambda member: (fields.kinds[member[0]].area, member)):
        yield fields.units[at]


def _peel(peeler: Peeler, left: int, size: Size, steps_aside: int) -> Node | None:
    """A pattern of strips whose ranks, 0 for the best of its room, come to `steps_aside` in all."""
    if peeler.fields.size(left) <= _FEW:
        return None if steps_aside else _arranged(peeler, left, size)
    for rank, strip in enumerate(_best_strips(peeler, left, size)[: steps_aside + 1]):
        cut, rest = strip.parted(size)
        others = _peel(peeler, left - strip.bundle, rest, steps_aside - rank)
        pattern = _arranged(peeler, strip.bundle, cut) if others else None
        if others is not None and pattern is not None:
            return _put_together(peeler, strip, pattern, others)
    return None


def _put_together(peeler: Peeler, strip: Strip, pattern: Node, others: Node) -> Node:
    near = LEFT if strip.upright else TOP
    return joined(strip.upright, (others, pattern) if peeler.wants & near else (pattern, others))


def _arranged(peeler: Peeler, bundle: int, size: Size) -> Node | None:
    if (bundle, size) not in peeler.few:
        peeler.effort.spend(_ROOM)
        peeler.few[bundle, size] = peeler.arrange_few(bundle, size)
    return peeler.few[bundle, size]


def _best_strips(peeler: Peeler, left: int, size: Size) -> list[Strip]:
    """The strips that waste least for their area, the best first."""
    if (left, size) not in peeler.strips:
        found: dict[int, Strip] = {}
        for strips in _looks(peeler, left, size):
            found = {strip.bundle: strip for strip in strips} | found
            if len(found) >= _KNOWN:
                break
        ranked = sorted(found.values(), key=lambda strip: _rank(peeler.fields, strip))
        peeler.strips[left, size] = ranked[:_KNOWN]
    return peeler.strips[left, size]


def _rank(fields: Fields, strip: Strip) -> tuple[int, ...]:
    """Little waste first, then large pieces, for they find room while there is much of it."""
    area = fields.area(strip.bundle)
    return (strip.waste * 1000 // area, -area // fields.size(strip.bundle), strip.bundle)


def _looks(peeler: Peeler, left: int, size: Size) -> Iterator[list[Strip]]:
    """Strips of one choice of pieces after the other."""
    fields, sheet = peeler.fields, size[0] * size[1]
    slack = sheet - fields.area(left)
    for number, share in _LOOKS:
        for chosen in dict.fromkeys(_choices(peeler, left, number)):
            table = _table(peeler, chosen, size, min(slack, sheet * share // 1000))
            if table is None:
                break
            strips = _strips_of(peeler, chosen, table, (left, size))
            yield [strip for strip in strips if _is_room_for_each(fields, left, strip, size)]


def _choices(peeler: Peeler, left: int, most: int) -> Iterator[tuple[tuple[int, int], ...]]:
    """The largest pieces, every so many-th of all, and something between; kinds with their counts."""
    fields = peeler.fields
    free = [at for at, count in fields.members(left) for _ in range(count) if not peeler.borders[at]]
    free.sort(key=lambda at: (-fields.kinds[at].area, at))
    number = min(most, len(free))
    if not number:
        return
    for choice in range(_CHOICES):
        span = number + (len(free) - number) * choice // (_CHOICES - 1)
        chosen = [free[place * span // number] for place in range(number)]
        yield tuple((at, chosen.count(at)) for at in sorted(set(chosen)))


def _table(peeler: Peeler, chosen: Sequence[tuple[int, int]], size: Size, slack: int) -> Table | None:
    """All boxes of the chosen pieces that waste at most `slack`, if they are not too many."""
    kinds = [peeler.fields.kinds[at].counted(count) for at, count in chosen]
    peeler.effort.spend(_PAIR * sum(count for _, count in chosen) ** 2)
    part = peeler.effort.part(_TABLE)
    try:
        return fill_table(kinds, *size, slack, part)
    except OutOfEffortError:
        return None
    finally:
        peeler.effort.charge(part)


def _strips_of(
    peeler: Peeler, chosen: Sequence[tuple[int, int]], table: Table, within: tuple[int, Size]
) -> Iterator[Strip]:
    """The bundles of a table that nearly fill a strip of the room, upright and level, at a free edge."""
    import numpy as np

    fields, (left, (width, height)) = peeler.fields, within
    slack = width * height - fields.area(left)
    share = max(_WASTE, slack * 1000 // fields.area(left))
    upright = table.slim[:, table.column(height, False)], height, width, LEFT | RIGHT
    level = table.low[:, table.column(width, True)], width, height, TOP | BOTTOM
    for least, length, most, edges in (upright, level):
        if peeler.wants & edges == edges:
            continue
        breadths = least.astype(np.int64)
        wastes = breadths * length - table.areas
        fit = (breadths < most) & (wastes <= np.minimum(slack, table.areas * share // 1000))
        for row in np.flatnonzero(fit).tolist():
            bundle = fields.translated(table.fields, [at for at, _ in chosen], int(table.codes[row]))
            yield Strip(bundle, edges == LEFT | RIGHT, int(breadths[row]), int(wastes[row]))


def _is_room_for_each(fields: Fields, left: int, strip: Strip, size: Size) -> bool:
    """Whether every single piece goes into what the strip leaves of the room."""
    _, rest = strip.parted(size)
    return all(fields.kinds[at].goes_in(*rest) for at, _ in fields.members(left - strip.bundle))
