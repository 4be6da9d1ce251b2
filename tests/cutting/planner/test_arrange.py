"""Patterns with the fewest cuts, against every way of cutting a few pieces out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import cache
from typing import TypeAlias

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.cutting.planner.arrange import arrange
from booklet.cutting.planner.beam_search import beam_search
from booklet.cutting.planner.decide import decide
from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.kinds import PieceKind
from booklet.cutting.planner.patterns import (
    PatternLeaf,
    PatternNode,
    PatternSplit,
    count_scraps,
    pattern_leaves,
)
from booklet.cutting.planner.regions import BOTTOM, LEFT, RIGHT, TOP, Search
from tests.cutting.planner.every_cut import comes_apart
from tests.cutting.planner.test_assign import check_adds_up

PLENTY = 10**9
NEVER = 10**6

Pieces: TypeAlias = tuple[tuple[int, int, bool], ...]


@cache
def least_scrap(pieces: Pieces, width: int, height: int) -> int:
    """The fewest rectangles of scrap, by trying every whole reading and every sharing of the pieces."""
    if not pieces:
        return 1
    if not comes_apart(pieces, width, height):
        return NEVER
    if len(pieces) == 1:
        w, h, turns = pieces[0]
        if (w, h) == (width, height) or (turns and (h, w) == (width, height)):
            return 0
    best = NEVER
    for chosen in range(2 ** len(pieces)):
        here = tuple(piece for i, piece in enumerate(pieces) if chosen >> i & 1)
        there = tuple(piece for i, piece in enumerate(pieces) if not chosen >> i & 1)
        for at in range(1, width):
            best = min(best, least_scrap(here, at, height) + least_scrap(there, width - at, height))
        for at in range(1, height):
            best = min(best, least_scrap(here, width, at) + least_scrap(there, width, height - at))
    return best


PIECES = st.lists(st.tuples(st.integers(1, 4), st.integers(1, 4), st.booleans()), min_size=1, max_size=3)

EDGES = st.sampled_from([0, LEFT, TOP, RIGHT, BOTTOM])


@settings(max_examples=120, deadline=None)
@given(PIECES, st.integers(2, 6), st.integers(2, 6))
def test_no_pattern_has_fewer_cuts(pieces: list[tuple[int, int, bool]], width: int, height: int) -> None:
    kinds = [PieceKind(w, h, count, turns) for (w, h, turns), count in Counter(pieces).items()]
    decision = decide(kinds, width, height, Effort(PLENTY))
    if not decision.verdict or decision.found is None:
        assert least_scrap(tuple(sorted(pieces)), width, height) == NEVER
        return
    found = arrange(decision.found.completed(Effort(PLENTY)), width, height, Effort(PLENTY))
    assert found is not None
    assert found.fewest
    assert count_scraps(found.pattern) == least_scrap(tuple(sorted(pieces)), width, height)
    check_yields(found.pattern, kinds)


@settings(max_examples=60, deadline=None)
@given(PIECES, st.integers(4, 8), st.integers(4, 8))
def test_a_handful_of_boxes_finds_a_pattern_too(
    pieces: list[tuple[int, int, bool]], width: int, height: int
) -> None:
    kinds = [PieceKind(w, h, count, turns) for (w, h, turns), count in Counter(pieces).items()]
    decision = decide(kinds, width, height, Effort(PLENTY))
    if not decision.verdict or decision.found is None:
        return
    pattern = beam_search(
        Search(decision.found.completed(Effort(PLENTY)), (0,) * len(kinds), Effort(PLENTY)), width, height
    )
    assert (pattern.width, pattern.height) == (width, height)
    check_yields(pattern, kinds)
    # So few boxes are all kept, and joins of all boxes miss nothing.
    assert count_scraps(pattern) == least_scrap(tuple(sorted(pieces)), width, height)


def check_yields(pattern: PatternNode, kinds: list[PieceKind]) -> None:
    check_adds_up(pattern)
    counted = Counter(leaf.kind for leaf in pattern_leaves(pattern) if leaf.kind is not None)
    assert [counted[at] for at in range(len(kinds))] == [kind.count for kind in kinds]
    for leaf in pattern_leaves(pattern):
        assert leaf.kind is None or (leaf.width, leaf.height) in kinds[leaf.kind].orientations


def test_loose_pieces_get_few_cuts_even_where_little_effort_is_left() -> None:
    kinds = [PieceKind(9 + 5 * i, 40 - 3 * i, 1, True) for i in range(8)]
    decision = decide(kinds, 96, 96, Effort(PLENTY)).found
    assert decision is not None
    table = decision.completed(Effort(PLENTY))
    short, long = (arrange(table, 96, 96, Effort(effort)) for effort in (50, 30_000))
    assert short is not None
    assert long is not None
    check_yields(short.pattern, kinds)
    assert not short.fewest
    assert count_scraps(long.pattern) <= count_scraps(short.pattern) <= len(kinds) + 1


@pytest.mark.parametrize(("edge", "first"), [(LEFT, True), (RIGHT, False), (TOP, True), (BOTTOM, False)])
def test_what_wants_an_edge_comes_first_or_last(edge: int, first: bool) -> None:
    upright = edge in (LEFT, RIGHT)
    sizes = ((3, 10), (7, 10)) if upright else ((10, 3), (10, 7))
    kinds = [PieceKind(*size, 1, False) for size in sizes]
    decision = decide(kinds, 10, 10, Effort(PLENTY)).found
    assert decision is not None
    table = decision.completed(Effort(PLENTY))
    found = arrange(table, 10, 10, Effort(PLENTY), (edge, 0))
    assert found is not None
    assert isinstance(found.pattern, PatternSplit)
    wanted = found.pattern.parts[0 if first else -1]
    assert isinstance(wanted, PatternLeaf)
    assert wanted.kind == 0


@settings(max_examples=80, deadline=None)
@given(PIECES, st.integers(4, 8), st.integers(4, 8), st.lists(EDGES, min_size=3, max_size=3))
def test_a_handful_keeps_the_edges_that_the_search_keeps(
    pieces: list[tuple[int, int, bool]], width: int, height: int, edges: list[int]
) -> None:
    kinds = [PieceKind(w, h, 1, turns) for w, h, turns in pieces]
    decision = decide(kinds, width, height, Effort(PLENTY))
    if not decision.verdict or decision.found is None:
        return
    borders = tuple(edges[: len(kinds)])
    searched = arrange(decision.found.completed(Effort(PLENTY)), width, height, Effort(PLENTY), borders)
    house = Search(decision.found.completed(Effort(PLENTY)), borders, Effort(PLENTY))
    if searched is None:
        with pytest.raises(LookupError):
            beam_search(house, width, height)
        return
    for pattern in (searched.pattern, beam_search(house, width, height)):
        check_yields(pattern, kinds)
        assert count_scraps(pattern) == count_scraps(searched.pattern)
        for kind, missed in missed_edges(pattern, LEFT | TOP | RIGHT | BOTTOM):
            assert not borders[kind] & missed


def missed_edges(node: PatternNode, at: int) -> Iterator[tuple[int, int]]:
    """Each piece with the edges of the sheet that it does not touch, as bits."""
    if isinstance(node, PatternLeaf):
        if node.kind is not None:
            yield node.kind, ~at
        return
    before, after = (LEFT, RIGHT) if node.upright else (TOP, BOTTOM)
    for i, part in enumerate(node.parts):
        inner = at & ~(before if i else 0) & ~(after if i < len(node.parts) - 1 else 0)
        yield from missed_edges(part, inner)


def test_two_pieces_cannot_both_have_the_whole_of_an_edge() -> None:
    kinds = [PieceKind(10, 3, 1, False), PieceKind(10, 7, 1, False)]
    decision = decide(kinds, 10, 10, Effort(PLENTY)).found
    assert decision is not None
    table = decision.completed(Effort(PLENTY))
    assert arrange(table, 10, 10, Effort(PLENTY), (TOP, TOP)) is None
