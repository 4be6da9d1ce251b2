"""Many pieces on one sheet: strips that waste next to nothing are cut off, until few pieces are left.

The exact search handles up to some thirty kinds of pieces.  Of a dozen or two it quickly finds which of them
fill a strip as long as the sheet.  So one such strip after another is cut off; what the sheet has to spare
stays with the last few pieces, which are left to the exact search.  Where these do not fit what is left of
the sheet, the second-best strip is taken in one place, then in two, and so on: a limited discrepancy search
(Harvey and Ginsberg 1995; from memory).

The patterns are found, never proved fewest.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import field
from typing import TYPE_CHECKING, TypeAlias

from booklet.cutting.planner.boxes import BoxTable, fill_table
from booklet.cutting.planner.effort import Effort, OutOfEffortError
from booklet.cutting.planner.kinds import Fields
from booklet.cutting.planner.patterns import PatternNode, join_parts
from booklet.cutting.planner.regions import BOTTOM, LEFT, RIGHT, TOP
from booklet.measure.dataclass import dataclass

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]

# No more pieces than these are left to the exact search.
_FEW = 10
# For a strip, so many pieces are tried together, and of their boxes those that waste at most so many
# thousandths of the region: of many pieces some fit without waste, of few all boxes can be listed.  Found by
# experiment.
_ATTEMPTS = ((14, 0), (20, 0), (26, 0), (14, 10), (10, 60))
# The choices of pieces tried at each attempt, and the number of strips that is enough.
_CHOICES, _KNOWN = 3, 6
# A strip may waste so many thousandths of its area, or the share that the region can spare if that is more.
_WASTE = 30
# What one table may cost; one table costs so much for every two of its pieces; a region of few pieces.
_TABLE, _PAIR, _REGION = 10_000_000, 5_000, 4_000_000

GridSize: TypeAlias = tuple[int, int]


@dataclass(frozen=True)
class PeeledStrip:
    """Pieces that come out of a strip: as high as the region if `upright`, else as wide; how broad it is.

    `waste` is what it leaves of its area, in square grid units.
    """

    bundle: int
    upright: bool
    breadth: int
    waste: int

    def parted(self, size: GridSize) -> tuple[GridSize, GridSize]:
        """The strip and what is left of a region of this size."""
        width, height = size
        if self.upright:
            return (self.breadth, height), (width - self.breadth, height)
        return (width, self.breadth), (width, height - self.breadth)


@dataclass(frozen=True)
class Peeler:
    """The pieces, the edges of the sheet that each kind wants, and what arranges few pieces in a region.

    `strips` and `few` cache what is known about bundles in regions.
    """

    fields: Fields
    borders: tuple[int, ...]
    arrange_few: Callable[[int, GridSize], PatternNode | None]
    effort: Effort
    strips: dict[tuple[int, GridSize], list[PeeledStrip]] = field(default_factory=dict)
    few: dict[tuple[int, GridSize], PatternNode | None] = field(default_factory=dict)

    @property
    def wants(self) -> int:
        """The edges of the sheet that any piece wants, as bits: no strip is cut off there."""
        wanted = 0
        for border in self.borders:
            wanted |= border
        return wanted


def peel(peeler: Peeler, bundle: int, size: GridSize) -> Iterator[PatternNode]:
    """Patterns of the bundle on a sheet of this size, the most promising first, as far as the effort goes.

    Pieces that want an edge of the sheet are among the last few, and the rectangle left for them touches
    every edge that is wanted.
    """
    try:
        for discrepancies in range(_KNOWN):
            found = _peel(peeler, bundle, size, discrepancies)
            if found is not None:
                yield found
    except OutOfEffortError:
        return


def peel_most(peeler: Peeler, bundle: int, size: GridSize) -> tuple[int, PatternNode] | None:
    """Most of the bundle, and a pattern of it; where there is no strip, the smallest piece is left out."""
    try:
        return _peel_most(peeler, bundle, size)
    except OutOfEffortError:
        return None


def _peel_most(peeler: Peeler, left: int, size: GridSize) -> tuple[int, PatternNode] | None:
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


def _most_of_few(peeler: Peeler, left: int, size: GridSize) -> tuple[int, PatternNode] | None:
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


def _peel(peeler: Peeler, left: int, size: GridSize, discrepancies: int) -> PatternNode | None:
    """A pattern of strips whose ranks, 0 for the best in its place, add up to `discrepancies`."""
    if peeler.fields.size(left) <= _FEW:
        return None if discrepancies else _arranged(peeler, left, size)
    for rank, strip in enumerate(_best_strips(peeler, left, size)[: discrepancies + 1]):
        cut, rest = strip.parted(size)
        others = _peel(peeler, left - strip.bundle, rest, discrepancies - rank)
        pattern = _arranged(peeler, strip.bundle, cut) if others else None
        if others is not None and pattern is not None:
            return _put_together(peeler, strip, pattern, others)
    return None


def _put_together(
    peeler: Peeler, strip: PeeledStrip, pattern: PatternNode, others: PatternNode
) -> PatternNode:
    near = LEFT if strip.upright else TOP
    return join_parts(strip.upright, (others, pattern) if peeler.wants & near else (pattern, others))


def _arranged(peeler: Peeler, bundle: int, size: GridSize) -> PatternNode | None:
    if (bundle, size) not in peeler.few:
        peeler.effort.spend(_REGION)
        peeler.few[bundle, size] = peeler.arrange_few(bundle, size)
    return peeler.few[bundle, size]


def _best_strips(peeler: Peeler, left: int, size: GridSize) -> list[PeeledStrip]:
    """The strips that waste least for their area, the best first."""
    if (left, size) not in peeler.strips:
        found: dict[int, PeeledStrip] = {}
        for strips in _candidate_strips(peeler, left, size):
            found = {strip.bundle: strip for strip in strips} | found
            if len(found) >= _KNOWN:
                break
        ranked = sorted(found.values(), key=lambda strip: _rank(peeler.fields, strip))
        peeler.strips[left, size] = ranked[:_KNOWN]
    return peeler.strips[left, size]


def _rank(fields: Fields, strip: PeeledStrip) -> tuple[int, ...]:
    """Little waste first, then large pieces, which fit only while much is left."""
    area = fields.area(strip.bundle)
    return (strip.waste * 1000 // area, -area // fields.size(strip.bundle), strip.bundle)


def _candidate_strips(peeler: Peeler, left: int, size: GridSize) -> Iterator[list[PeeledStrip]]:
    """Strips of one choice of pieces after the other."""
    fields, sheet = peeler.fields, size[0] * size[1]
    slack = sheet - fields.area(left)
    for number, share in _ATTEMPTS:
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


def _table(peeler: Peeler, chosen: Sequence[tuple[int, int]], size: GridSize, slack: int) -> BoxTable | None:
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
    peeler: Peeler, chosen: Sequence[tuple[int, int]], table: BoxTable, within: tuple[int, GridSize]
) -> Iterator[PeeledStrip]:
    """The bundles of a table that nearly fill a strip of the region, upright and level, at a free edge."""
    import numpy as np

    fields, (left, (width, height)) = peeler.fields, within
    slack = width * height - fields.area(left)
    share = max(_WASTE, slack * 1000 // fields.area(left))
    upright = table.min_widths[:, table.column(height, False)], height, width, LEFT | RIGHT
    level = table.min_heights[:, table.column(width, True)], width, height, TOP | BOTTOM
    for least, length, most, edges in (upright, level):
        if peeler.wants & edges == edges:
            continue
        breadths = least.astype(np.int64)
        wastes = breadths * length - table.areas
        fit = (breadths < most) & (wastes <= np.minimum(slack, table.areas * share // 1000))
        for row in np.flatnonzero(fit).tolist():
            bundle = fields.translated(table.fields, [at for at, _ in chosen], int(table.codes[row]))
            yield PeeledStrip(bundle, edges == LEFT | RIGHT, int(breadths[row]), int(wastes[row]))


def _is_room_for_each(fields: Fields, left: int, strip: PeeledStrip, size: GridSize) -> bool:
    """Whether every single piece goes into what the strip leaves of the region."""
    _, rest = strip.parted(size)
    return all(fields.kinds[at].goes_in(*rest) for at, _ in fields.members(left - strip.bundle))
