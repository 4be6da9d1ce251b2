"""Fewest sheets: assign the pieces to sheets so that each sheet yields its own, edge to edge."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from booklet.cutting.planner.arrange import FoundPattern
from booklet.cutting.planner.assignment_search import AssignmentSearch, cached_pattern
from booklet.cutting.planner.boxes import BoxTable, fill_table
from booklet.cutting.planner.effort import Effort, OutOfEffortError
from booklet.cutting.planner.kinds import WORD_BITS, Fields, PieceKind, bits_of
from booklet.cutting.planner.one_sheet import FEW, peeler_of
from booklet.cutting.planner.peel import peel_most
from booklet.measure.dataclass import replace

# Of the whole effort, one question about several sheets at once may take this part.
_PART = 4
# How many bundles a sheet is tried with where not all pieces go on it, fullest first, and how many of each
# number of pieces are kept for that: all, or fewer where that takes too much.
_FULLEST, _BREADTHS = 8, (None, 200, 20)
# What one table of such bundles may take at most.
_ONE_TABLE = 30_000_000


@dataclass(frozen=True)
class _Pains:
    """How many bundles are tried on a sheet; what part of the effort one question about the rest may take."""

    tried: int
    part: int


_PAINS = (_Pains(4, 20), _Pains(12, 8))


@dataclass(frozen=True)
class SheetAssignment:
    """Patterns for some of the sheets, by their numbers; no assignment needs fewer than `least` sheets.

    `patterns` is None where none was found; `settled` says that this is then proved.
    """

    patterns: tuple[tuple[int, FoundPattern], ...] | None
    least: int
    settled: bool


def assign_to_sheets(search: AssignmentSearch) -> SheetAssignment:
    """Assign the pieces to the fewest of the sheets, each with its pattern."""
    least = _least_by_area(search)
    settled = True
    for number in range(least, len(search.sheets) + 1):
        for chosen in _choices(search, number):
            search.unsure = False
            patterns = _on_sheets(search, chosen)
            if patterns is not None:
                return SheetAssignment(patterns, least, True)
            settled = settled and not search.unsure
        if settled:
            least = number + 1
    return SheetAssignment(None, least, settled)


def _least_by_area(search: AssignmentSearch) -> int:
    wanted, number = search.fields.area(search.fields.whole), 0
    for area in sorted((width * height for width, height in search.sheets), reverse=True):
        if wanted <= 0:
            break
        wanted, number = wanted - area, number + 1
    return number if wanted <= 0 else len(search.sheets) + 1


def _choices(search: AssignmentSearch, number: int) -> list[tuple[int, ...]]:
    """Every choice of so many sheets with enough area, the least area first, equal sheets counted once."""
    wanted = search.fields.area(search.fields.whole)
    alike: dict[tuple[int, int], list[int]] = {}
    for at, size in enumerate(search.sheets):
        alike.setdefault(size, []).append(at)
    numbers = product(*(range(min(number, len(sheets)) + 1) for sheets in alike.values()))
    chosen = [
        tuple(at for sheets, count in zip(alike.values(), counts, strict=True) for at in sheets[:count])
        for counts in numbers
        if sum(counts) == number
    ]
    areas = {one: sum(search.sheets[at][0] * search.sheets[at][1] for at in one) for one in chosen}
    return sorted((one for one in chosen if areas[one] >= wanted), key=lambda one: (areas[one], one))


def _on_sheets(
    search: AssignmentSearch, chosen: tuple[int, ...]
) -> tuple[tuple[int, FoundPattern], ...] | None:
    """Patterns for these sheets; None if there are none, or `unsure`."""
    sizes = [search.sheets[at] for at in chosen]
    whole = search.fields.whole
    bundles = (whole,) if len(sizes) == 1 else _shared_out(search, sizes)
    if bundles is None:
        return None
    found = [
        (at, cached_pattern(search, bundle, size))
        for at, bundle, size in zip(chosen, bundles, sizes, strict=True)
        if bundle
    ]
    patterns = tuple((at, pattern) for at, pattern in found if pattern is not None)
    return patterns if len(patterns) == len(found) else None


def _shared_out(search: AssignmentSearch, sizes: list[tuple[int, int]]) -> tuple[int, ...] | None:
    """A bundle for each of the sheets, looked for ever more thoroughly while there is effort."""
    for pains in _PAINS:
        search.unsure = False
        found = _assign_bundles(search, sizes, pains, search.effort.limit // _PART)
        if found is not None or not search.unsure:
            return found
    return None


def _assign_bundles(
    search: AssignmentSearch, sizes: list[tuple[int, int]], pains: _Pains, most: int
) -> tuple[int, ...] | None:
    """A bundle for each of the sheets; by a complete table where `most` is enough for it, else in turn."""
    fields = search.fields
    wide, tall = max(width for width, _ in sizes), max(height for _, height in sizes)
    slack = sum(width * height for width, height in sizes) - fields.area(fields.whole)
    part = search.effort.part(most)
    try:
        table = fill_table(fields.kinds, wide, tall, min(slack, wide * tall), part)
        return _with_table(search, table, fields.whole, tuple(sizes), part, set())
    except OutOfEffortError:
        found = _sheet_by_sheet(search, tuple(sizes), pains)
        search.unsure = search.unsure or found is None
        return found
    finally:
        search.effort.charge(part)


def _with_table(
    search: AssignmentSearch,
    table: BoxTable,
    left: int,
    sizes: tuple[tuple[int, int], ...],
    effort: Effort,
    failed: set[tuple[int, int]],
) -> tuple[int, ...] | None:
    """Try every bundle of the table on the first sheet, and assign the rest to the others."""
    if not left:
        return (0,) * len(sizes)
    if (left, len(sizes)) in failed:
        return None
    for bundle in _candidates(table, left, sizes):
        effort.spend(100)
        rest = _with_table(search, table, left - bundle, sizes[1:], effort, failed) if sizes[1:] else ()
        before = search.effort.spent
        if rest is not None and cached_pattern(search, bundle, sizes[0]) is not None:
            return (bundle, *rest)
        # Counted here as well, so that effort is left for a simpler way if patterns turn out hard to find.
        effort.spend(search.effort.spent - before)
    failed.add((left, len(sizes)))
    return None


def _candidates(table: BoxTable, left: int, sizes: tuple[tuple[int, int], ...]) -> Iterator[int]:
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
    possible &= table.min_heights[:, table.column(width, True)] <= height
    possible &= table.areas >= table.fields.area(left) - others
    if len(set(sizes)) == 1:
        # Equal sheets: whatever sheet gets a piece of the last kind may be called the first.
        kind = max(kind for kind, _ in table.fields.members(left))
        possible &= (table.codes & table.fields.masks[kind]) > 0
    rows = np.flatnonzero(possible)
    for row in rows[np.lexsort((table.codes[rows], -table.areas[rows]))]:
        yield int(table.codes[row])


def _sheet_by_sheet(
    search: AssignmentSearch, sizes: tuple[tuple[int, int], ...], pains: _Pains
) -> tuple[int, ...] | None:
    """Fill the first sheet with one of the bundles that fill it best, and assign the rest to the others."""
    whole = search.fields.whole
    if len(sizes) == 1:
        return (whole,) if cached_pattern(search, whole, sizes[0]) is not None else None
    for bundle in dict.fromkeys(_first_sheets(search, sizes, pains.tried)):
        rest = _assign_rest(search, whole - bundle, sizes[1:], pains)
        if rest is not None and cached_pattern(search, bundle, sizes[0]) is not None:
            return (bundle, *rest)
    return None


def _assign_rest(
    search: AssignmentSearch, left: int, sizes: tuple[tuple[int, int], ...], pains: _Pains
) -> tuple[int, ...] | None:
    """A bundle of what is left for each of these sheets: the same question, with fewer pieces."""
    if not left:
        return (0,) * len(sizes)
    counts = {search.used[at]: count for at, count in search.fields.members(left)}
    kinds = tuple(kind.counted(counts.get(at, 0)) for at, kind in enumerate(search.kinds))
    rest = replace(search, kinds=kinds, patterns={})
    if len(sizes) == 1:
        found: tuple[int, ...] | None = None
        if cached_pattern(rest, rest.fields.whole, sizes[0]):
            found = (rest.fields.whole,)
    else:
        found = _assign_bundles(rest, list(sizes), pains, search.effort.limit // pains.part)
    search.unsure = search.unsure or rest.unsure
    if found is None:
        return None
    numbers = [search.used.index(at) for at in rest.used]

    def here(bundle: int) -> int:
        return search.fields.translated(rest.fields, numbers, bundle)

    search.patterns.update({(here(bundle), size): one for (bundle, size), one in rest.patterns.items()})
    return tuple(here(bundle) for bundle in found)


def _first_sheets(search: AssignmentSearch, sizes: tuple[tuple[int, int], ...], tried: int) -> Iterator[int]:
    """Bundles for the first of some sheets that waste no more than all can spare; then any, fullest first.

    Of equal sheets whichever has a piece of the largest kind may be called the first.
    """
    spare = sum(width * height for width, height in sizes) - search.fields.area(search.fields.whole)
    area = sizes[0][0] * sizes[0][1]
    for members in _choices_of_kinds(search.fields):
        found = [
            bundle
            for bundle in _fullest(search, members, sizes[0], spare)
            if search.fields.area(bundle) >= area - spare
        ]
        largest = max(members, key=lambda member: (search.fields.kinds[member[0]].area, member))[0]
        with_largest = [bundle for bundle in found if search.fields.count(bundle, largest)]
        yield from (with_largest if with_largest and len(set(sizes)) == 1 else found)[:tried]
    yield from _fullest(search, _largest(search.fields, search.fields.whole), sizes[0], area)[:tried]


def _choices_of_kinds(fields: Fields) -> Iterator[tuple[tuple[int, int], ...]]:
    """As many kinds as a table can be filled for: the largest; then the largest one and every other one."""
    yield _largest(fields, fields.whole)
    members = sorted(fields.members(fields.whole), key=lambda member: (-fields.kinds[member[0]].area, member))
    first, others = members[0], members[1:]
    room, kept = WORD_BITS - bits_of(first[1]), [first]
    for step in range(2):
        for kind, count in others[step::2]:
            if bits_of(count) <= room:
                room -= bits_of(count)
                kept.append((kind, count))
    yield tuple(sorted(kept))


def _fullest(
    search: AssignmentSearch, members: Sequence[tuple[int, int]], size: tuple[int, int], spare: int
) -> list[int]:
    """Bundles of these kinds that one sheet of this size can hold, fullest first; not all that there are.

    No part of them wastes more than `spare` of the sheet's area.
    """
    import numpy as np

    numbers = [at for at, _ in members]
    kinds = [search.fields.kinds[at].counted(count) for at, count in members]
    table = _narrow_table(search, kinds, size, spare)
    if table is None:
        return []
    rows = np.flatnonzero(table.min_heights[:, table.column(size[0], True)] <= size[1])
    order = rows[np.lexsort((table.codes[rows], -table.areas[rows]))]
    return [search.fields.translated(table.fields, numbers, int(table.codes[row])) for row in order]


def _narrow_table(
    search: AssignmentSearch, kinds: Sequence[PieceKind], size: tuple[int, int], spare: int
) -> BoxTable | None:
    """A table of some of the bundles that a sheet can hold, of as many as the effort goes for."""
    for breadth in _BREADTHS:
        part = search.effort.part(min(search.effort.limit // _PART, _ONE_TABLE))
        try:
            return fill_table(kinds, *size, min(spare, size[0] * size[1]), part, breadth)
        except OutOfEffortError:
            continue
        finally:
            search.effort.charge(part)
    return None


def _largest(fields: Fields, bundle: int) -> tuple[tuple[int, int], ...]:
    """The members of a bundle with the largest pieces, as many as a table can be filled for."""
    members = sorted(fields.members(bundle), key=lambda member: (-fields.kinds[member[0]].area, member))
    room, kept = WORD_BITS, list[tuple[int, int]]()
    for kind, count in members:
        room -= bits_of(count)
        if room >= 0:
            kept.append((kind, count))
    return tuple(sorted(kept))


def fill_sheet(search: AssignmentSearch, left: int, size: tuple[int, int]) -> tuple[int, FoundPattern] | None:
    """As much of what is left as one sheet of this size is found to hold, with its pattern."""
    fields = search.fields
    if fields.size(left) > FEW and fields.area(left) <= size[0] * size[1]:
        most = peel_most(peeler_of(search), left, size)
        if most is not None:
            return most[0], FoundPattern(most[1], False)
    for bundle in _fullest(search, _largest(fields, left), size, size[0] * size[1])[:_FULLEST]:
        pattern = cached_pattern(search, bundle, size)
        if pattern is not None:
            return bundle, pattern
    return None
