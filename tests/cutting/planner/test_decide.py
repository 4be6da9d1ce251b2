"""Whether all pieces come out of one sheet, against a search that tries every cut, and a solver."""

from __future__ import annotations

from collections import Counter
from random import Random
from typing import TypeAlias

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.cutting.planner.boxes import as_table, fill_table
from booklet.cutting.planner.decide import decide
from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.kinds import PieceKind, fields_of
from booklet.cutting.planner.levels import grid_setup, next_level, single_pieces
from booklet.cutting.planner.remainders import chain_levels, find_chain
from tests.cutting.planner.every_cut import comes_apart
from tests.cutting.planner.solver import some_packing_comes_apart

PLENTY = 10**9


Pieces: TypeAlias = list[tuple[int, int, int, bool]]

PIECES = st.lists(
    st.tuples(st.integers(1, 5), st.integers(1, 5), st.integers(1, 2), st.booleans()), min_size=1, max_size=3
)


@settings(max_examples=150, deadline=None)
@given(PIECES, st.integers(3, 7), st.integers(3, 7))
def test_the_verdict_is_that_of_trying_every_cut(pieces: Pieces, width: int, height: int) -> None:
    kinds = [PieceKind(*piece) for piece in pieces]
    each = tuple(sorted((w, h, turns) for w, h, count, turns in pieces for _ in range(count)))
    assert decide(kinds, width, height, Effort(PLENTY)).verdict is comes_apart(each, width, height)


@pytest.mark.parametrize("seed", range(30))
def test_a_constraint_solver_agrees_both_ways(seed: int) -> None:
    rng = Random(seed)
    width, height = rng.randint(4, 6), rng.randint(4, 6)
    pieces = [(rng.randint(1, 4), rng.randint(1, 4), rng.random() < 0.3) for _ in range(rng.randint(3, 5))]
    kinds = [PieceKind(w, h, 1, turns) for w, h, turns in pieces]
    expected = some_packing_comes_apart(pieces, width, height)
    assert decide(kinds, width, height, Effort(PLENTY)).verdict is expected


def test_a_pinwheel_fills_the_square_but_no_edge_to_edge_cut_starts_it() -> None:
    pinwheel = [PieceKind(2, 1, 2, False), PieceKind(1, 2, 2, False), PieceKind(1, 1, 1, False)]
    assert decide(pinwheel, 3, 3, Effort(PLENTY)).verdict is False


def test_turning_helps_where_the_direction_was_in_the_way() -> None:
    def halves(turns: bool) -> list[PieceKind]:
        return [PieceKind(6, 12, 1, turns), PieceKind(12, 6, 1, turns)]

    assert decide(halves(False), 12, 12, Effort(PLENTY)).verdict is False
    assert decide(halves(True), 12, 12, Effort(PLENTY)).verdict is True


def test_without_effort_there_is_no_verdict() -> None:
    pieces = [PieceKind(3 + i, 5 + (i * 7) % 11, 1, True) for i in range(12)]
    assert decide(pieces, 40, 40, Effort(1000)).verdict is None


def test_a_narrow_look_does_not_pass_for_a_proof() -> None:
    pieces = [PieceKind(3 + i, 5 + (i * 7) % 11, 1, True) for i in range(9)]
    assert not fill_table(pieces, 40, 40, 900, Effort(PLENTY), breadth=3).complete
    assert fill_table(pieces, 40, 40, 900, Effort(PLENTY)).complete


@given(st.lists(st.integers(1, 6), min_size=1, max_size=8), st.data())
def test_a_bundle_tells_how_many_of_each_kind_it_holds(counts: list[int], data: st.DataObject) -> None:
    fields = fields_of([PieceKind(1, 1, count, False) for count in counts])
    chosen = [data.draw(st.integers(0, count)) for count in counts]
    code = sum(unit * n for unit, n in zip(fields.units, chosen, strict=True))
    assert [fields.count(code, kind) for kind in range(len(counts))] == chosen


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(st.integers(1, 8), st.integers(1, 8), st.booleans()), min_size=4, max_size=9),
    st.integers(6, 14),
    st.integers(6, 14),
)
def test_following_what_is_left_of_a_sheet_finds_what_all_boxes_show(
    pieces: list[tuple[int, int, bool]], width: int, height: int
) -> None:
    kinds = [PieceKind(w, h, count, turns) for (w, h, turns), count in Counter(pieces).items()]
    slack = width * height - sum(kind.area * kind.count for kind in kinds)
    if slack < 0:
        return
    table = fill_table(kinds, width, height, slack, Effort(PLENTY))
    decision = decide(kinds, width, height, Effort(PLENTY))
    assert decision.verdict is table.fits(table.fields.whole, width, height)
    if decision.found is not None:
        shown = decision.found.table
        assert shown.fits(shown.fields.whole, width, height)


@pytest.mark.parametrize(("strip", "breadth"), [(1, None), (2, None), (2, 4), (3, 1)])
@pytest.mark.parametrize("seed", range(12))
def test_a_chain_of_strips_makes_boxes_that_all_go_into_the_sheet(
    seed: int, strip: int, breadth: int | None
) -> None:
    kinds = [PieceKind(w, h, 1, True) for w, h in cut_up_square(Random(seed), 9, 20)]
    slack = 400 - sum(kind.area for kind in kinds)
    setup = grid_setup(kinds, 20, 20, slack)
    levels = [single_pieces(setup)]
    while len(levels) < strip:
        levels.append(next_level(setup, levels, len(levels) + 1, Effort(PLENTY)))
    chain = find_chain(setup, levels, Effort(PLENTY), breadth)
    if chain is None:
        return
    made = chain_levels(setup, levels, chain)
    assert chain.rest + sum(chain.strips) == setup.fields.whole
    assert max(setup.fields.size(bundle) for bundle in (chain.rest, *chain.strips)) <= strip
    table = as_table(setup, [*levels, *made], complete=False)
    assert table.fits(setup.fields.whole, 20, 20)


def cut_up_square(rng: Random, number: int, side: int) -> list[tuple[int, int]]:
    """Pieces of a square that was cut edge to edge, the largest part halved or so each time."""
    parts = [(side, side)]
    while len(parts) < number:
        parts.sort(key=lambda part: part[0] * part[1])
        wide, tall = parts.pop()
        if wide > tall:
            at = rng.randint(1, wide - 1)
            parts += [(at, tall), (wide - at, tall)]
        else:
            at = rng.randint(1, tall - 1)
            parts += [(wide, at), (wide, tall - at)]
    return parts


def test_chains_are_found_where_a_sheet_was_cut_strip_by_strip() -> None:
    kinds = [PieceKind(w, h, 1, False) for w, h in ((3, 20), (17, 4), (5, 16), (12, 7), (2, 9), (10, 9))]
    setup = grid_setup(kinds, 20, 20, 0)
    chain = find_chain(setup, [single_pieces(setup)], Effort(PLENTY))
    assert chain is not None
    assert len(chain.strips) == 5
