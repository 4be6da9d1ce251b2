"""How far the inner sheets are pushed out."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.binding.creep import NESTED, ROUND_FOLD, SQUARE_FOLD, Creep, pushed_out, whole_creep
from booklet.binding.signature import saddle_stitched

ORDINARY_PAPER = Fraction(1, 10)  # mm: 80 g/m2 copy paper, from memory


# 32 pages are 8 sheets, the innermost inside 7 others: 7 x 0.10 mm, times the shape of the fold.  The factors
# are derived from geometry and worked by hand here; no handbook's example is known.
@pytest.mark.parametrize(
    ("factor", "in_all"), [(NESTED, "0.70"), (ROUND_FOLD, "1.10"), (SQUARE_FOLD, "1.40")]
)
def test_thirty_two_pages_of_ordinary_paper(factor: Fraction, in_all: str) -> None:
    creep = whole_creep(saddle_stitched(32), Creep(ORDINARY_PAPER, factor))
    assert f"{float(creep):.2f}" == in_all


def test_simply_nested_unless_said_otherwise() -> None:
    sheets = saddle_stitched(16)
    pushed = [pushed_out(sheet, Creep(ORDINARY_PAPER)) for sheet in sheets]
    assert pushed == [0, Fraction(1, 10), Fraction(2, 10), Fraction(3, 10)]


def test_the_round_fold_is_half_of_pi() -> None:
    # pi to ten places: 3.1415926536 (from memory); 355/113 is too large by less than 3 in ten million.
    assert abs(ROUND_FOLD * 2 - Fraction("3.1415926536")) < Fraction(3, 10_000_000)


@given(
    st.integers(1, 30), st.fractions(Fraction(1, 100), Fraction(1)), st.fractions(Fraction(1), Fraction(2))
)
def test_creep_grows_evenly_from_nothing(sheet_count: int, caliper: Fraction, factor: Fraction) -> None:
    creep = Creep(caliper, factor)
    sheets = saddle_stitched(4 * sheet_count)
    pushed = [pushed_out(sheet, creep) for sheet in sheets]
    assert pushed[0] == 0
    assert {after - before for before, after in pairwise(pushed)} <= {factor * caliper}
    assert whole_creep(sheets, creep) == pushed[-1]
