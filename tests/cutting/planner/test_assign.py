"""Fewest sheets, against every way of sharing a few pieces out."""

from __future__ import annotations

from itertools import product
from typing import TypeAlias

from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.cutting.planner.assign import assign_to_sheets
from booklet.cutting.planner.assignment_search import AssignmentSearch
from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.kinds import PieceKind
from booklet.cutting.planner.one_sheet import find_pattern
from booklet.cutting.planner.patterns import PatternLeaf, PatternNode
from tests.cutting.planner.every_cut import comes_apart

Pieces: TypeAlias = list[tuple[int, int, int, bool]]

PIECES = st.lists(
    st.tuples(st.integers(1, 5), st.integers(1, 5), st.integers(1, 2), st.booleans()), min_size=1, max_size=4
)


def can_be_shared(pieces: list[tuple[int, int, bool]], sheets: list[tuple[int, int]]) -> bool:
    for homes in product(range(len(sheets)), repeat=len(pieces)):
        shares = [
            tuple(sorted(piece for piece, home in zip(pieces, homes, strict=True) if home == at))
            for at in range(len(sheets))
        ]
        if all(comes_apart(share, *sheet) for share, sheet in zip(shares, sheets, strict=True)):
            return True
    return False


@settings(max_examples=100, deadline=None)
@given(PIECES, st.integers(3, 5), st.integers(3, 6))
def test_the_number_of_sheets_is_the_least(pieces: Pieces, width: int, height: int) -> None:
    pieces = pieces[:3] if sum(piece[2] for piece in pieces) > 5 else pieces
    kinds = tuple(PieceKind(*piece) for piece in pieces)
    each = [(w, h, turns) for w, h, count, turns in pieces for _ in range(count)]
    answer = assign_to_sheets(
        AssignmentSearch(kinds, (0,) * len(kinds), ((width, height),) * 3, Effort(10**9), find_pattern)
    )
    least = next((n for n in (1, 2, 3) if can_be_shared(each, [(width, height)] * n)), None)
    if answer.patterns is None:
        assert answer.settled
        assert least is None
    else:
        assert len(answer.patterns) == least == answer.least


@settings(max_examples=60, deadline=None)
@given(PIECES)
def test_sheets_of_two_sizes_yield_all_or_provably_nothing_does(
    pieces: Pieces,
) -> None:
    kinds = tuple(PieceKind(*piece) for piece in pieces[:3])
    each = [(w, h, turns) for w, h, count, turns in pieces[:3] for _ in range(count)]
    sheets = ((6, 4), (3, 5))
    answer = assign_to_sheets(AssignmentSearch(kinds, (0,) * len(kinds), sheets, Effort(10**9), find_pattern))
    assert (answer.patterns is not None) == can_be_shared(each, list(sheets))
    for at, arrangement in answer.patterns or ():
        assert (arrangement.pattern.width, arrangement.pattern.height) == sheets[at]
        check_adds_up(arrangement.pattern)


def check_adds_up(node: PatternNode) -> None:
    """The parts of a split have its height and together its width, or the other way."""
    if isinstance(node, PatternLeaf):
        return
    if node.upright:
        assert sum(part.width for part in node.parts) == node.width
        assert {part.height for part in node.parts} == {node.height}
    else:
        assert sum(part.height for part in node.parts) == node.height
        assert {part.width for part in node.parts} == {node.width}
    for part in node.parts:
        check_adds_up(part)
