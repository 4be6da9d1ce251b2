"""One sheet: the pattern with fewest cuts of a bundle, one way to look after the other; the verdict alone."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.cutting.planner.arrange import FoundPattern, arrange
from booklet.cutting.planner.assignment_search import AssignmentSearch
from booklet.cutting.planner.boxes import BoxTable
from booklet.cutting.planner.decide import Decision, FoundBoxes, decide
from booklet.cutting.planner.effort import Effort, OutOfEffortError
from booklet.cutting.planner.few_scraps import tables_of_few_scraps
from booklet.cutting.planner.kinds import PieceKind
from booklet.cutting.planner.patterns import PatternLeaf, PatternNode, PatternSplit, count_scraps
from booklet.cutting.planner.peel import Peeler, peel
from booklet.cutting.planner.regions import BOTTOM, LEFT, RIGHT, TOP
from booklet.measure.dataclass import replace

# Up to so many pieces are left to the exact search alone.  For more, the search for few rectangles of scrap
# may take the first of these parts of the whole effort, the exact search the second before others are tried,
# that for strips the third, and what arranges a single strip the last.
FEW = 14
_SCRAPS, _SEARCH, _PEEL, _STRIP = 8, 10, 2, 20
# One question about the pattern of a sheet may take that number of regions searched, and one region searched
# costs so many steps of effort.
_REGIONS, _REGION_COST = 10_000, 2000
# So much effort is worth spending on a complete table for the sake of the pattern.
_COMPLETE = 40_000_000


def find_pattern(search: AssignmentSearch, bundle: int, size: tuple[int, int]) -> FoundPattern | None:
    """The pattern with fewest cuts, as far as it can be had with little effort."""
    if search.fields.size(bundle) <= FEW:
        return _searched(search, bundle, size, search.effort.limit // 2)
    unsure, search.unsure = search.unsure, False
    found, settled = _best_of_many(search, bundle, size)
    search.unsure = unsure or not settled
    return found


def _best_of_many(
    search: AssignmentSearch, bundle: int, size: tuple[int, int]
) -> tuple[FoundPattern | None, bool]:
    """The best pattern of many pieces found, one way to look after the other; and whether None is proved."""
    few = _with_few_scraps(search, bundle, size)
    if any(one.fewest and not search.objections(one.pattern) for one in few):
        return min(few, key=lambda one: _penalty(search, one)), True
    search.unsure = False
    exact = _searched(search, bundle, size, search.effort.limit // _SEARCH)
    all_found = [*few, exact] if exact else few
    if not all_found and not search.unsure:
        return None, True
    is_best = exact is not None and exact.fewest and not search.objections(exact.pattern)
    if not is_best and not any(not search.objections(one.pattern) for one in few):
        all_found += _peeled(search, bundle, size)
    if not all_found:
        search.unsure = False
        exact = _searched(search, bundle, size, search.effort.limit)
        return exact, exact is not None or not search.unsure
    return min(all_found, key=lambda one: _penalty(search, one)), True


def _with_few_scraps(search: AssignmentSearch, bundle: int, size: tuple[int, int]) -> list[FoundPattern]:
    """Patterns of strips that mostly have no scrap, up to the first that a hand can cut without objection.

    One rectangle of scrap is the fewest where any is left.
    """
    (kinds, numbers), found = _asked(search, bundle), list[FoundPattern]()
    part = search.effort.part(search.effort.limit // _SCRAPS)
    try:
        for table in tables_of_few_scraps(kinds, *size, part):
            one = _arranged(search, table, size, numbers)
            found += [FoundPattern(one.pattern, count_scraps(one.pattern) == 1)] if one else []
            if one and not search.objections(one.pattern):
                break
    except OutOfEffortError:
        pass  # what was found before stays
    finally:
        search.effort.charge(part)
    return found


def _penalty(search: AssignmentSearch, found: FoundPattern) -> tuple[int, int]:
    return search.objections(found.pattern), count_scraps(found.pattern)


def _peeled(search: AssignmentSearch, bundle: int, size: tuple[int, int]) -> list[FoundPattern]:
    """Patterns of many pieces, strip by strip, up to the first that a hand can cut without objection."""
    peeler, found = peeler_of(search), list[FoundPattern]()
    for pattern in peel(peeler, bundle, size):
        found.append(FoundPattern(pattern, False))
        if not search.objections(pattern):
            break
    search.effort.charge(peeler.effort)
    return found


def peeler_of(search: AssignmentSearch) -> Peeler:
    """What cuts strips off for this question, and arranges the few pieces that are left."""
    effort = search.effort.part(search.effort.limit // _PEEL)

    def arrange_few(few: int, room: tuple[int, int]) -> PatternNode | None:
        own = replace(search, effort=effort.part(search.effort.limit // _STRIP))
        found = _searched(own, few, room, own.effort.limit)
        effort.charge(own.effort)
        return found.pattern if found else None

    return Peeler(search.fields, tuple(search.borders[at] for at in search.used), arrange_few, effort)


def _searched(search: AssignmentSearch, bundle: int, size: tuple[int, int], most: int) -> FoundPattern | None:
    """A pattern by the exact search, whose verdict may cost `most`; None is proved unless it is `unsure`."""
    kinds, numbers = _asked(search, bundle)
    if not _edges_have_room(kinds, [search.borders[at] for at in numbers], size):
        return None
    decision = _decided(search, kinds, size, most)
    if decision.found is None:
        return None
    table = _completed(search, decision.found)
    try:
        found = _arranged(search, table, size, numbers)
    except OutOfEffortError:
        search.unsure = True
        return None
    if found is None:
        search.unsure = search.unsure or not table.complete
    return found


def _arranged(
    search: AssignmentSearch, table: BoxTable, size: tuple[int, int], numbers: Sequence[int]
) -> FoundPattern | None:
    """The best pattern that a table has; raises `OutOfEffortError`."""
    regions = Effort(search.effort.part(_REGIONS * _REGION_COST).limit // _REGION_COST)
    try:
        found = arrange(table, *size, regions, tuple(search.borders[at] for at in numbers))
    finally:
        search.effort.charge(Effort(0, regions.spent * _REGION_COST))
    return FoundPattern(_renumbered(found.pattern, numbers), found.fewest) if found else None


def _edges_have_room(kinds: Sequence[PieceKind], borders: Sequence[int], size: tuple[int, int]) -> bool:
    """Whether the pieces that want an edge of the sheet are no longer together than it."""
    for edge in (LEFT, TOP, RIGHT, BOTTOM):
        side = 0 if edge & (TOP | BOTTOM) else 1
        taken = sum(
            kind.count * min(lie[side] for lie in kind.orientations)
            for kind, wanted in zip(kinds, borders, strict=True)
            if wanted & edge
        )
        if taken > size[side]:
            return False
    return True


def find_verdict(search: AssignmentSearch, bundle: int, size: tuple[int, int]) -> FoundPattern | None:
    """An uncut sheet in place of a pattern, if there is one; only wishes for an edge need a real one."""
    kinds, numbers = _asked(search, bundle)
    if any(search.borders[at] for at in numbers):
        return find_pattern(search, bundle, size)
    decision = _decided(search, kinds, size, search.effort.limit // 2)
    return FoundPattern(PatternLeaf(*size, None), False) if decision.verdict else None


def _asked(search: AssignmentSearch, bundle: int) -> tuple[list[PieceKind], list[int]]:
    """The kinds in the bundle, and their numbers in the question."""
    members = tuple(search.fields.members(bundle))
    kinds = [search.fields.kinds[at].counted(count) for at, count in members]
    return kinds, [search.used[at] for at, _ in members]


def _decided(
    search: AssignmentSearch, kinds: Sequence[PieceKind], size: tuple[int, int], most: int
) -> Decision:
    part = search.effort.part(most)
    decision = decide(kinds, *size, part)
    search.effort.charge(part)
    search.unsure = search.unsure or decision.verdict is None
    return decision


def _completed(search: AssignmentSearch, found: FoundBoxes) -> BoxTable:
    """The complete table, where that does not take much; the pattern is the better for it."""
    part = search.effort.part(_COMPLETE)
    try:
        return found.completed(part)
    except OutOfEffortError:
        return found.table
    finally:
        search.effort.charge(part)


def _renumbered(node: PatternNode, numbers: Sequence[int]) -> PatternNode:
    if isinstance(node, PatternLeaf):
        return node if node.kind is None else PatternLeaf(node.width, node.height, numbers[node.kind])
    parts = tuple(_renumbered(part, numbers) for part in node.parts)
    return PatternSplit(node.width, node.height, node.upright, parts)
