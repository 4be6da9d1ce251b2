"""Sizes of press stock against published ones."""

from __future__ import annotations

from fractions import Fraction

import pytest
from reportlab.lib import pagesizes

from booklet.binding.stock import A3, A4, A5, HALF_LETTER, LETTER, Stock, a_series
from booklet.measure.length import Size


def stated_by_reportlab(name: str) -> tuple[float, float]:
    width, height = getattr(pagesizes, name)
    return float(width), float(height)


def in_points(stock: Stock) -> tuple[float, float]:
    return float(stock.upright.width), float(stock.upright.height)


# Outside check: the table of an independent library, to a thousandth of a point.
@pytest.mark.parametrize("number", range(11))
def test_the_a_series_agrees_with_an_independent_table(number: int) -> None:
    assert in_points(a_series(number)) == pytest.approx(stated_by_reportlab(f"A{number}"), abs=0.001)


# Half letter is left out: that table has it 8 in high, which is not half of Letter.
def test_letter_agrees_with_an_independent_table() -> None:
    assert in_points(LETTER) == pytest.approx(stated_by_reportlab("LETTER"), abs=0.001)


def test_iso_216_in_millimetres() -> None:
    # ISO 216, as tabulated in public: A3 297 x 420, A4 210 x 297, A5 148 x 210.
    assert [stock.size for stock in (A3, A4, A5)] == [
        Size(Fraction(w), Fraction(h)) for w, h in [(297, 420), (210, 297), (148, 210)]
    ]


def test_letter_is_a_whole_number_of_points() -> None:
    assert LETTER.landscape == Size(Fraction(792), Fraction(612))


def test_two_half_letter_pages_fill_letter_exactly() -> None:
    assert HALF_LETTER.upright.width * 2 == LETTER.landscape.width
    assert HALF_LETTER.upright.height == LETTER.landscape.height


def test_two_a5_pages_leave_one_millimetre_of_a4() -> None:
    assert A4.size.turned.width - A5.size.width * 2 == 1
    assert A4.size.turned.height == A5.size.height


@pytest.mark.parametrize("number", [-1, 11])
def test_there_are_eleven_a_sizes(number: int) -> None:
    with pytest.raises(ValueError, match="from 0 to 10"):
        a_series(number)
