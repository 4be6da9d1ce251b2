"""Fewest sheets: share the pieces out so that those of each sheet come out of it, edge to edge."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import product

from booklet.cutting.planner.arrange import Arrangement, arrange
from booklet.cutting.planner.boxes import Table, fill_table
from booklet.cutting.planner.decide import Decision, decide
from booklet.cutting.planner.effort import Effort, OutOfEffortError
from booklet.cutting.planner.kinds import WORD_BITS, Fields, Kind, bits_of, fields_of
from booklet.cutting.planner.patterns import Leaf, Node, Split, scraps
from booklet.cutting.planner.peel import Peeler, peel, peel_most
from booklet.cutting.planner.rooms import BOTTOM, LEFT, RIGHT, TOP

# Up to so many pieces are left to the exact search alone.  For more, it may take the first of these parts of
# the whole effort, the search for strips the second, and what arranges a single strip the last.
_FEW, _SEARCH, _PEEL, _STRIP = 14, 10, 2, 20
# Of the whole effort, one question about several sheets at once may take this part, one about the pattern of
# one sheet that number of rooms looked at.
_PART = 4
_ROOMS = 10_000
# One room looked at is worth so many steps of the effort.
_ROOM_COST = 2000
# A complete table of so many bundles is worth filling for the sake of the pattern.
_COMPLETE = 20_000_000
# How many bundles a sheet is tried with, fullest first, where not all can be.
_TRIED, _FULLEST, _BREADTH = 4, 8, 200


@dataclass(frozen=True)
class Sharing:
    """Patterns for some of the sheets, by their numbers; no sharing needs fewer than `least` sheets.

    `patterns` is None where none was found; `settled` says that this is then proved.
    """

    patterns: tuple[tuple[int, Arrangement], ...] | None
    least: int
    settled: bool


def no_objections(_: Node) -> int:
    """None, where any pattern will do."""
    return 0


@dataclass
class Sharer:
    """The question, the effort left for it, and the patterns found for bundles on sheets so far.

    `look` finds the pattern of one bundle on one sheet, or anything that stands for it where only the verdict
    is asked.  `objections` counts the cuts of a pattern that the trimmer or the hand cannot make.
    """

    kinds: tuple[Kind, ...]
    borders: tuple[int, ...]
    sheets: tuple[tuple[int, int], ...]
    effort: Effort
    look: Callable[[Sharer, int, tuple[int, int]], Arrangement | None]
    objections: Callable[[Node], int] = no_objections
    patterns: dict[tuple[int, tuple[int, int]], Arrangement | None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.used = tuple(at for at, kind in enumerate(self.kinds) if kind.count)
        self.fields: Fields = fields_of([self.kinds[at] for at in self.used])
        self.unsure = False


def share_out(sharer: Sharer) -> Sharing:
    """The pieces shared out over the fewest of the sheets, each with its pattern."""
    least = _least_by_area(sharer)
    settled = True
    for number in range(least, len(sharer.sheets) + 1):
        for chosen in _choices(sharer, number):
            sharer.unsure = False
            patterns = _on_sheets(sharer, chosen)
            if patterns is not None:
                return Sharing(patterns, least, True)
            settled = settled and not sharer.unsure
        if settled:
            least = number + 1
    return Sharing(None, least, settled)


def _least_by_area(sharer: Sharer) -> int:
    wanted, number = sharer.fields.area(sharer.fields.whole), 0
    for area in sorted((width * height for width, height in sharer.sheets), reverse=True):
        if wanted <= 0:
            break
        wanted, number = wanted - area, number + 1
    return number if wanted <= 0 else len(sharer.sheets) + 1


def _choices(sharer: Sharer, number: int) -> list[tuple[int, ...]]:
    """Every choice of so many sheets that has enough area, the least area first, alike sheets as one."""
    wanted = sharer.fields.area(sharer.fields.whole)
    alike: dict[tuple[int, int], list[int]] = {}
    for at, size in enumerate(sharer.sheets):
        alike.setdefault(size, []).append(at)
    numbers = product(*(range(min(number, len(sheets)) + 1) for sheets in alike.values()))
    chosen = [
        tuple(at for sheets, count in zip(alike.values(), counts, strict=True) for at in sheets[:count])
        for counts in numbers
        if sum(counts) == number
    ]
    areas = {one: sum(sharer.sheets[at][0] * sharer.sheets[at][1] for at in one) for one in chosen}
    return sorted((one for one in chosen if areas[one] >= wanted), key=lambda one: (areas[one], one))


def _on_sheets(sharer: Sharer, chosen: tuple[int, ...]) -> tuple[tuple[int, Arrangement], ...] | None:
    """Patterns for these sheets; None if there are none, or `unsure`."""
    sizes = [sharer.sheets[at] for at in chosen]
    whole = sharer.fields.whole
    bundles = (whole,) if len(sizes) == 1 else _shared(sharer, sizes)
    if bundles is None:
        return None
    found = [
        (at, pattern_for(sharer, bundle, size))
        for at, bundle, size in zip(chosen, bundles, sizes, strict=True)
        if bundle
    ]
    patterns = tuple((at, pattern) for at, pattern in found if pattern is not None)
    return patterns if len(patterns) == len(found) else None


def pattern_for(sharer: Sharer, bundle: int, size: tuple[int, int]) -> Arrangement | None:
    """A pattern of this bundle on one sheet of this size, its kinds numbered as in the question.

    None if there is none; then `unsure` tells whether that is not proved.
    """
    if (bundle, size) not in sharer.patterns:
        sharer.patterns[bundle, size] = sharer.look(sharer, bundle, size)
    return sharer.patterns[bundle, size]


def look_for_pattern(sharer: Sharer, bundle: int, size: tuple[int, int]) -> Arrangement | None:
    """The pattern with fewest cuts, as far as it can be had with little effort."""
    if sharer.fields.size(bundle) <= _FEW:
        return _searched(sharer, bundle, size, sharer.effort.limit // 2)
    unsure, sharer.unsure = sharer.unsure, False
    found = _searched(sharer, bundle, size, sharer.effort.limit // _SEARCH)
    is_best = found.fewest and not sharer.objections(found.pattern) if found else not sharer.unsure
    if not is_best:
        all_found = [found, *_peeled(sharer, bundle, size)] if found else _peeled(sharer, bundle, size)
        found = min(all_found, key=lambda one: _demerits(sharer, one), default=None)
    sharer.unsure = unsure or not (found or is_best)
    return found


def _demerits(sharer: Sharer, found: Arrangement) -> tuple[int, int]:
    return sharer.objections(found.pattern), scraps(found.pattern)


def _peeled(sharer: Sharer, bundle: int, size: tuple[int, int]) -> list[Arrangement]:
    """Patterns of many pieces, strip by strip, up to the first that a hand can cut without objection."""
    peeler, found = _peeler(sharer), list[Arrangement]()
    for pattern in peel(peeler, bundle, size):
        found.append(Arrangement(pattern, False))
        if not sharer.objections(pattern):
            break
    sharer.effort.charge(peeler.effort)
    return found


def _peeler(sharer: Sharer) -> Peeler:
    def arrange_few(few: int, room: tuple[int, int]) -> Node | None:
        own = replace(sharer, effort=Effort(sharer.effort.limit // _STRIP))
        found = _searched(own, few, room, own.effort.limit)
        return found.pattern if found else None

    borders = tuple(sharer.borders[at] for at in sharer.used)
    return Peeler(sharer.fields, borders, arrange_few, sharer.effort.part(sharer.effort.limit // _PEEL))


def _searched(sharer: Sharer, bundle: int, size: tuple[int, int], most: int) -> Arrangement | None:
    """A pattern by the exact search, whose verdict may cost `most`; None is proved unless it is `unsure`."""
    kinds, numbers = _asked(sharer, bundle)
    if not _edges_have_room(kinds, [sharer.borders[at] for at in numbers], size):
        return None
    decision = _decided(sharer, kinds, size, most)
    if decision.table is None or not decision.verdict:
        return None
    table = _completed(decision.table, kinds, size)
    rooms = Effort(sharer.effort.part(_ROOMS * _ROOM_COST).limit // _ROOM_COST)
    try:
        found = arrange(table, *size, rooms, tuple(sharer.borders[at] for at in numbers))
    except OutOfEffortError:
        sharer.unsure = True
        return None
    finally:
        sharer.effort.charge(Effort(0, rooms.spent * _ROOM_COST))
    if found is None:
        sharer.unsure = sharer.unsure or not table.complete
        return None
    return Arrangement(_renumbered(found.pattern, numbers), found.fewest)


def _edges_have_room(kinds: Sequence[Kind], borders: Sequence[int], size: tuple[int, int]) -> bool:
    """Whether the pieces that want an edge of the sheet are no longer together than it."""
    for edge in (LEFT, TOP, RIGHT, BOTTOM):
        side = 0 if edge & (TOP | BOTTOM) else 1
        taken = sum(
            kind.count * min(lie[side] for lie in kind.lies)
            for kind, wanted in zip(kinds, borders, strict=True)
            if wanted & edge
        )
        if taken > size[side]:
            return False
    return True


def look_for_verdict(sharer: Sharer, bundle: int, size: tuple[int, int]) -> Arrangement | None:
    """An uncut sheet in place of a pattern, if there is one; only wishes for an edge need it in truth."""
    kinds, numbers = _asked(sharer, bundle)
    if any(sharer.borders[at] for at in numbers):
        return look_for_pattern(sharer, bundle, size)
    decision = _decided(sharer, kinds, size, sharer.effort.limit // 2)
    return Arrangement(Leaf(*size, None), False) if decision.verdict else None


def _asked(sharer: Sharer, bundle: int) -> tuple[list[Kind], list[int]]:
    """The kinds in the bundle, and their numbers in the question."""
    members = tuple(sharer.fields.members(bundle))
    kinds = [sharer.fields.kinds[at].counted(count) for at, count in members]
    return kinds, [sharer.used[at] for at, _ in members]


def _decided(sharer: Sharer, kinds: Sequence[Kind], size: tuple[int, int], most: int) -> Decision:
    part = sharer.effort.part(most)
    decision = decide(kinds, *size, part)
    sharer.effort.charge(part)
    sharer.unsure = sharer.unsure or decision.verdict is None
    return decision


def _completed(table: Table, kinds: Sequence[Kind], size: tuple[int, int]) -> Table:
    """The complete table, where that does not take much; the pattern is the better for it."""
    if table.complete:
        return table
    slack = size[0] * size[1] - table.fields.area(table.fields.whole)
    try:
        return fill_table(kinds, *size, slack, Effort(_COMPLETE * 4))
    except OutOfEffortError:
        return table


def _renumbered(node: Node, numbers: Sequence[int]) -> Node:
    if isinstance(node, Leaf):
        return node if node.kind is None else Leaf(node.width, node.height, numbers[node.kind])
    parts = tuple(_renumbered(part, numbers) for part in node.parts)
    return Split(node.width, node.height, node.upright, parts)


def _shared(sharer: Sharer, sizes: list[tuple[int, int]]) -> tuple[int, ...] | None:
    """A bundle for each of the sheets; by a complete table if that can be had, else by the fullest first."""
    fields = sharer.fields
    wide, tall = max(width for width, _ in sizes), max(height for _, height in sizes)
    slack = sum(width * height for width, height in sizes) - fields.area(fields.whole)
    part = sharer.effort.part(sharer.effort.limit // _PART)
    try:
        table = fill_table(fields.kinds, wide, tall, min(slack, wide * tall), part)
        return _with_table(sharer, table, fields.whole, tuple(sizes), part, set())
    except OutOfEffortError:
        found = _fullest_first(sharer, fields.whole, tuple(sizes))
        sharer.unsure = sharer.unsure or found is None
        return found
    finally:
        sharer.effort.charge(part)


def _with_table(
    sharer: Sharer,
    table: Table,
    left: int,
    sizes: tuple[tuple[int, int], ...],
    effort: Effort,
    failed: set[tuple[int, int]],
) -> tuple[int, ...] | None:
    """Try every bundle of the table on the first sheet, and share the rest out over the others."""
    if not left:
        return (0,) * len(sizes)
    if (left, len(sizes)) in failed:
        return None
    for bundle in _candidates(table, left, sizes):
        effort.spend(100)
        rest = _with_table(sharer, table, left - bundle, sizes[1:], effort, failed) if sizes[1:] else ()
        before = sharer.effort.spent
        if rest is not None and pattern_for(sharer, bundle, sizes[0]) is not None:
            return (bundle, *rest)
        # Counted here as well, so that effort is left for a simpler way if patterns turn out hard to find.
        effort.spend(sharer.effort.spent - before)
    failed.add((left, len(sizes)))
    return None


def _candidates(table: Table, left: int, sizes: tuple[tuple[int, int], ...]) -> Iterator[int]:
    """The bundles that the first sheet may get, fullest first, so that the other sheets can hold the rest."""
    import numpy as np

    width, height = sizes[0]
    if len(sizes) == 1:
        if table.fits(left, width, height):
            yield left
        return
    guards = table.fields.guards
    others = sum(wide * tall for wide, tall in sizes[1:])
    possible = ((left | guards) - table.codes) & guards == guards
    possible &= table.low[:, table.column(width, True)] <= height
    possible &= table.areas >= table.fields.area(left) - others
    if len(set(sizes)) == 1:
        # Sheets alike: whatever sheet gets a piece of the last kind may be called the first.
        kind = max(kind for kind, _ in table.fields.members(left))
        possible &= (table.codes & table.fields.masks[kind]) > 0
    rows = np.flatnonzero(possible)
    for row in rows[np.lexsort((table.codes[rows], -table.areas[rows]))]:
        yield int(table.codes[row])


def _fullest_first(sharer: Sharer, left: int, sizes: tuple[tuple[int, int], ...]) -> tuple[int, ...] | None:
    """Fill one sheet after the other, each with one of the fullest bundles that a narrow table knows."""
    if not left:
        return (0,) * len(sizes)
    if not sizes:
        return None
    if len(sizes) == 1:
        return (left,) if pattern_for(sharer, left, sizes[0]) is not None else None
    for bundle in _fullest(sharer, left, sizes[0])[:_TRIED]:
        rest = _fullest_first(sharer, left - bundle, sizes[1:])
        if rest is not None and pattern_for(sharer, bundle, sizes[0]) is not None:
            return (bundle, *rest)
    return None


def _fullest(sharer: Sharer, left: int, size: tuple[int, int]) -> list[int]:
    """Bundles of what is left that one sheet of this size can hold, fullest first; not all that there are."""
    import numpy as np

    members = _largest(sharer.fields, left)
    numbers = [at for at, _ in members]
    kinds = [sharer.fields.kinds[at].counted(count) for at, count in members]
    width, height = size
    try:
        table = fill_table(kinds, width, height, width * height, sharer.effort, _BREADTH)
    except OutOfEffortError:
        return []
    rows = np.flatnonzero(table.low[:, table.column(width, True)] <= height)
    order = rows[np.lexsort((table.codes[rows], -table.areas[rows]))]
    return [sharer.fields.translated(table.fields, numbers, int(table.codes[row])) for row in order]


def _largest(fields: Fields, bundle: int) -> tuple[tuple[int, int], ...]:
    """The members of a bundle with the largest pieces, as many as a table can be filled for."""
    members = sorted(fields.members(bundle), key=lambda member: (-fields.kinds[member[0]].area, member))
    room, kept = WORD_BITS, list[tuple[int, int]]()
    for kind, count in members:
        room -= bits_of(count)
        if room >= 0:
            kept.append((kind, count))
    return tuple(sorted(kept))


def filled(sharer: Sharer, left: int, size: tuple[int, int]) -> tuple[int, Arrangement] | None:
    """As much of what is left as one sheet of this size is found to hold, with its pattern."""
    fields = sharer.fields
    if fields.size(left) > _FEW and fields.area(left) <= size[0] * size[1]:
        most = peel_most(_peeler(sharer), left, size)
        if most is not None:
            return most[0], Arrangement(most[1], False)
    for bundle in _fullest(sharer, left, size)[:_FULLEST]:
        pattern = pattern_for(sharer, bundle, size)
        if pattern is not None:
            return bundle, pattern
    return None
