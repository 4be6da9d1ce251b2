"""Sizes of press stock against published ones."""

from __future__ import annotations

from fractions import Fraction

import pytest
from reportlab.lib import pagesizes

from booklet.binding.stock import A4, A5, HALF_LETTER, LETTER, PaperStock
from booklet.measure.length import Size


def stated_by_reportlab(name: str) -> tuple[float, float]:
    width, height = getattr(pagesizes, name)
    return float(width), float(height)


def in_points(stock: PaperStock) -> tuple[float, float]:
    return float(stock.upright.width), float(stock.upright.height)


# Outside check: the table of an independent library, to a thousandth of a point.  Half letter is left out:
# that table has it 8 in high, which is not half of Letter.
@pytest.mark.parametrize(("stock", "name"), [(A4, "A4"), (A5, "A5"), (LETTER, "LETTER")])
def test_a_size_agrees_with_an_independent_table(stock: PaperStock, name: str) -> None:
    assert in_points(stock) == pytest.approx(stated_by_reportlab(name), abs=0.001)


def test_letter_is_a_whole_number_of_points() -> None:
    assert LETTER.landscape == Size(Fraction(792), Fraction(612))


def test_two_half_letter_pages_fill_letter_exactly() -> None:
    assert HALF_LETTER.upright.width * 2 == LETTER.landscape.width
    assert HALF_LETTER.upright.height == LETTER.landscape.height


def test_two_a5_pages_leave_one_millimetre_of_a4() -> None:
    assert A4.size.turned.width - A5.size.width * 2 == 1
    assert A4.size.turned.height == A5.size.height
