"""Strips alike on one another: all pieces still come out, and in no more passes than one by one."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.cutting.planner import Plan, Settings, SheetStock, Wanted, plan_cuts
from booklet.cutting.planner.metrics import execute_steps
from booklet.kit.sheet import SCRAP
from booklet.measure.length import Size

ONE_BY_ONE = Settings(mark=Fraction(1, 8), hold=Fraction(1), reach=Fraction(15), together=1)
SHEET = Size(Fraction(12), Fraction(12))
PIECES = st.tuples(st.integers(1, 6), st.integers(1, 6), st.integers(1, 6), st.booleans())
WISHED = st.lists(PIECES, min_size=1, max_size=4)


def planned(wanted: list[Wanted], together: int) -> Plan | None:
    answer = plan_cuts(wanted, [SheetStock("sheet", SHEET)], replace(ONE_BY_ONE, together=together))
    return answer if isinstance(answer, Plan) else None


def check(answer: Plan, wanted: list[Wanted]) -> None:
    """The steps carried out give each piece, as large as it was wanted, turned only where it may be."""
    (sheet,) = answer.sheets
    pieces = [part for part in execute_steps(sheet.steps, sheet.size) if part.name != SCRAP]
    assert Counter(part.name for part in pieces) == {piece.name: piece.count for piece in wanted}
    by_name = {piece.name: piece for piece in wanted}
    for part in pieces:
        piece = by_name[part.name]
        assert part.rect.size in ((piece.size, piece.size.turned) if piece.may_turn else (piece.size,))


@settings(max_examples=30)
@given(WISHED, st.integers(2, 4))
def test_no_more_passes_than_one_by_one(pieces: list[tuple[int, int, int, bool]], together: int) -> None:
    assert_no_more_passes(pieces, together)


@pytest.mark.thorough
@settings(max_examples=80)
@given(WISHED, st.integers(2, 4))
def test_no_more_passes_for_many_wishes(pieces: list[tuple[int, int, int, bool]], together: int) -> None:
    assert_no_more_passes(pieces, together)


def assert_no_more_passes(pieces: list[tuple[int, int, int, bool]], together: int) -> None:
    wanted = [
        Wanted(f"piece {number}", Size(Fraction(w), Fraction(h)), count, turns)
        for number, (w, h, count, turns) in enumerate(pieces)
    ]
    single, stacked = planned(wanted, 1), planned(wanted, together)
    if single is None or stacked is None:
        assert single is stacked is None
        return
    check(stacked, wanted)
    assert stacked.metrics.cuts <= single.metrics.cuts
    assert all(len(step.take or ()) <= together for sheet in stacked.sheets for step in sheet.steps)


@pytest.mark.parametrize(
    ("size", "count", "together", "passes"),
    [
        (Size(Fraction(6), Fraction(6)), 4, 2, 2),  # two halves, and both halves once more
        (Size(Fraction(4), Fraction(4)), 9, 3, 4),  # two cuts into three strips, two through all three
        (Size(Fraction(4), Fraction(4)), 9, 1, 8),
        (Size(Fraction(3), Fraction(12)), 4, 2, 2),  # halves first, for their quarters lie on each other
    ],
)
def test_the_passes_of_a_hand_that_thinks(size: Size, count: int, together: int, passes: int) -> None:
    wanted = [Wanted("square", size, count)]
    answer = planned(wanted, together)
    assert answer is not None
    check(answer, wanted)
    assert answer.metrics.cuts == passes
