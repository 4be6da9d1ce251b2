"""Whether all pieces come out of one sheet, against a search that tries every cut, and a solver."""

from __future__ import annotations

from random import Random
from typing import TypeAlias

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.cutting.planner.boxes import fill_table
from booklet.cutting.planner.decide import decide
from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.kinds import PieceKind, fields_of
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
