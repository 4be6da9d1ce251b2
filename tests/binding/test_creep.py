"""Creep against the geometry written out: paper of a thickness, folded and nested."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise
from math import hypot, pi

import pytest

from booklet.binding.creep import FOLD_FACTORS, ROUND_FOLD, SIMPLE_FOLD, SQUARE_FOLD, Creep, check_room
from booklet.binding.errors import CreepError
from booklet.measure.length import Unit

MM = Unit.MILLIMETRE.points


def creep(caliper: str, factor: Fraction = SIMPLE_FOLD) -> Creep:
    """For paper of a caliper in millimetres."""
    return Creep(Fraction(caliper) * MM, factor)


# A sheet is as long as its two leaves and what it takes to get round the fold.  The middle of the paper of
# sheet k runs about the inner ones; the face of the outermost sheet lies where its length ends.


def round_fold(k: int, n: int, t: float) -> float:
    """How long the middle of sheet k is about the common centre of all folds, half circles: the inmost has
    the radius t/2.
    """
    return pi * (n - 1 - k + 0.5) * t


def square_fold(k: int, n: int, t: float) -> float:
    """The same pressed square, its corners sharp: across the back and along both sides of what lies within.

    The back of sheet k lies so far out as there are sheets within it, and is as long as they are thick.
    """
    within = (n - 1 - k + 0.5) * t
    corners = [(0.0, within), (within, within), (within, -within), (0.0, -within)]
    return sum(hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairwise(corners))


@pytest.mark.parametrize("n", [2, 8, 16])
@pytest.mark.parametrize(
    ("length", "factor"), [(round_fold, ROUND_FOLD), (square_fold, SQUARE_FOLD)], ids=["round", "square"]
)
def test_an_inner_sheet_comes_out_by_half_of_what_the_outer_ones_take_at_the_fold(
    n: int, length: Callable[[int, int, float], float], factor: Fraction
) -> None:
    for k in range(n):
        out = (length(0, n, 0.1) - length(k, n, 0.1)) / 2
        assert float(creep("0.1", factor).shift(k) / MM) == pytest.approx(out, abs=1e-9)


def test_sheets_that_simply_lie_in_one_another_come_out_by_a_caliper_each() -> None:
    assert [creep("0.1").shift(k) / MM for k in range(3)] == [0, Fraction(1, 10), Fraction(2, 10)]


# N = 32 of 0.10 mm paper: the inmost of eight sheets, worked out by hand.
@pytest.mark.parametrize(("name", "out"), [("simple", 0.70), ("round", 1.0996), ("square", 1.40)])
def test_the_inmost_sheet_of_32_pages(name: str, out: float) -> None:
    assert float(creep("0.1", FOLD_FACTORS[name]).shift(7) / MM) == pytest.approx(out, abs=0.0001)


def test_half_pi_is_exact_to_nineteen_digits() -> None:
    # The decimals of pi, from memory: 3.14159265358979323846.
    assert abs(2 * ROUND_FOLD - Fraction("3.14159265358979323846")) < Fraction(1, 10**19)


@pytest.mark.parametrize("caliper", ["0", "-0.1", "1.01", "2"])
def test_refuses_a_caliper_that_no_folded_paper_has(caliper: str) -> None:
    with pytest.raises(CreepError, match="caliper"):
        creep(caliper)


@pytest.mark.parametrize("factor", [0, -1, Fraction(401, 100)])
def test_refuses_a_factor_that_no_fold_has(factor: Fraction) -> None:
    with pytest.raises(CreepError, match="factor"):
        creep("0.1", Fraction(factor))


def test_the_thickest_paper_and_the_largest_factor_just_pass() -> None:
    assert creep("1", Fraction(4)).shift(1) / MM == 4


def test_refuses_creep_that_eats_the_margin_at_the_fold() -> None:
    # Nine sheets push the inmost one out by 8 x 0.3 mm.
    check_room(creep("0.3"), 9, Fraction("2.41") * MM)
    with pytest.raises(CreepError, match=r"by 2\.40 mm, and the margin at the fold is 2\.40 mm"):
        check_room(creep("0.3"), 9, Fraction("2.4") * MM)


def test_one_sheet_alone_never_creeps() -> None:
    check_room(creep("1", SQUARE_FOLD), 1, Fraction(1, 1000))
