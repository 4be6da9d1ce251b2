"""Many pieces of a sheet that was cut up with little scrap: a pattern with as little is found again."""

from __future__ import annotations

from random import Random

import pytest

from booklet.cutting.planner.arrange import arrange
from booklet.cutting.planner.effort import Effort, OutOfEffortError
from booklet.cutting.planner.few_scraps import tables_of_few_scraps
from booklet.cutting.planner.kinds import PieceKind
from booklet.cutting.planner.patterns import count_scraps, pattern_leaves
from tests.benchmarks.bench_planner import as_kinds, cut_up

PLENTY = 10**9


def scraps_found(kinds: list[PieceKind], side: int) -> int | None:
    """The rectangles of scrap of the first pattern that is found; each of its pieces is as it is wanted."""
    table = next(tables_of_few_scraps(kinds, side, side, Effort(PLENTY)), None)
    found = table and arrange(table, side, side, Effort(PLENTY))
    if not found:
        return None
    leaves = [leaf for leaf in pattern_leaves(found.pattern) if leaf.kind is not None]
    assert sorted(leaf.kind or 0 for leaf in leaves) == [
        at for at, kind in enumerate(kinds) for _ in range(kind.count)
    ]
    assert all((leaf.width, leaf.height) in kinds[leaf.kind or 0].orientations for leaf in leaves)
    assert sum(leaf.width * leaf.height for leaf in pattern_leaves(found.pattern)) == side * side
    return count_scraps(found.pattern)


@pytest.mark.parametrize("turns", [False, True])
@pytest.mark.parametrize(("number", "scrap"), [(9, 1), (9, 2), (16, 1), (16, 2), (20, 1)])
def test_as_little_scrap_as_the_sheet_was_cut_up_with(number: int, turns: bool, scrap: int) -> None:
    kinds = as_kinds(cut_up(Random(number + scrap), number, scrap), turns)
    found = scraps_found(kinds, 96)
    assert found is not None
    assert found <= scrap


def test_scrap_at_the_end_of_a_strip_and_along_the_sheet_are_both_found() -> None:
    at_the_end = [PieceKind(10, 4, 1, False), PieceKind(5, 6, 1, False), PieceKind(3, 6, 1, False)]
    along = [PieceKind(4, 9, 1, False), PieceKind(6, 5, 1, False), PieceKind(6, 4, 1, False)]
    assert (scraps_found(at_the_end, 10), scraps_found(along, 10)) == (1, 1)


def test_a_sheet_without_anything_to_spare_is_not_asked() -> None:
    halves = [PieceKind(10, 4, 1, False), PieceKind(10, 6, 1, False)]
    assert list(tables_of_few_scraps(halves, 10, 10, Effort(PLENTY))) == []


def test_no_pinwheel_comes_apart_with_scrap_in_its_middle_either() -> None:
    pinwheel = [PieceKind(2, 1, 2, False), PieceKind(1, 2, 2, False)]
    assert list(tables_of_few_scraps(pinwheel, 3, 3, Effort(PLENTY))) == []


def test_the_effort_is_kept_to() -> None:
    kinds = as_kinds(cut_up(Random(3), 18, 2), True)
    with pytest.raises(OutOfEffortError):
        next(tables_of_few_scraps(kinds, 96, 96, Effort(1000)))
