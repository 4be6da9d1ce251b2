"""Sizes of press stock against published ones."""

from __future__ import annotations

from fractions import Fraction

import pytest
from reportlab.lib import pagesizes

from booklet.binding.errors import StockError
from booklet.binding.stock import (
    A3,
    A4,
    A5,
    HALF_LETTER,
    LEGAL,
    LETTER,
    SRA3,
    STOCK_OF,
    TABLOID,
    PaperStock,
    flat_sheet,
    read_press_sheet,
)
from booklet.kit.kit import PageFormat
from booklet.measure.length import Size, Unit


def stated_by_reportlab(name: str) -> tuple[float, float]:
    width, height = getattr(pagesizes, name)
    return float(width), float(height)


def in_points(stock: PaperStock) -> tuple[float, float]:
    return float(stock.upright.width), float(stock.upright.height)


# Outside check: the table of an independent library, to a thousandth of a point.  Half letter is left out:
# that table has it 8 in high, which is not half of Letter.
@pytest.mark.parametrize(
    ("stock", "name"),
    [
        *((A3, "A3"), (A4, "A4"), (A5, "A5")),
        *((LETTER, "LETTER"), (LEGAL, "LEGAL"), (TABLOID, "TABLOID")),
    ],
)
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


def test_each_size_of_iso_216_is_half_of_the_one_before_rounded_down() -> None:
    # ISO 216, from memory: halved across, whole millimetres.  A0 is 841 x 1189.
    width, height = 841, 1189
    sizes = {"A0": (width, height)}
    for number in range(1, 6):
        width, height = height // 2, width
        sizes[f"A{number}"] = (width, height)
    for name, stock in (("A3", A3), ("A4", A4), ("A5", A5)):
        assert stock.size == Size(*map(Fraction, sizes[name]))
        assert stock.unit is Unit.MILLIMETRE


def test_sra3_leaves_bleed_and_marks_about_a3() -> None:
    # ISO 217, from memory: SRA3 is 320 x 450 mm.
    assert SRA3.size == Size(Fraction(320), Fraction(450))
    assert SRA3.size.width - A3.size.width == 23
    assert SRA3.size.height - A3.size.height == 30


@pytest.mark.parametrize("format", PageFormat)
def test_two_pages_of_each_format_fit_on_its_press_sheet_and_one_on_its_flat_one(format: PageFormat) -> None:
    page, press = STOCK_OF[format]
    assert press.landscape.holds(Size(page.upright.width * 2, page.upright.height))
    assert flat_sheet(format).upright.holds(page.upright)


@pytest.mark.parametrize("format", PageFormat)
def test_the_usual_press_sheet_is_the_smallest_of_its_land_that_takes_two_pages(format: PageFormat) -> None:
    page, press = STOCK_OF[format]
    opened = Size(page.upright.width * 2, page.upright.height)
    land = (A4, A3) if format.is_metric else (LETTER, LEGAL, TABLOID)
    assert press == next(stock for stock in land if stock.landscape.holds(opened))


@pytest.mark.parametrize(
    ("typed", "stock"),
    [
        ("letter", LETTER),
        (" LEGAL ", LEGAL),
        ("sra3", SRA3),
        ("450x320mm", PaperStock(SRA3.size, Unit.MILLIMETRE)),
        ("32 x 45 cm", PaperStock(SRA3.size, Unit.MILLIMETRE)),
        ("9 x 12 1/2 in", PaperStock(Size(Fraction(9), Fraction(25, 2)), Unit.INCH)),
    ],
)
def test_a_press_sheet_is_read_by_its_name_or_its_size(typed: str, stock: PaperStock) -> None:
    assert read_press_sheet(typed) == stock


@pytest.mark.parametrize(
    ("typed", "reason"),
    [
        ("foolscap", "expected Letter, Legal, Tabloid, A4, A3 or SRA3, or a size with its unit"),
        ("tablod", "expected Tabloid,"),
        ("9x12", "has no unit: expected 9x12mm or 9x12in"),
        ("0x12in", "no press sheet"),
        ("9inx12", "no press sheet"),
        ("", "no press sheet"),
        ("9x12x3 in", "no press sheet"),
        ("201x1in", "no PDF has a page of more than 200 in"),
    ],
)
def test_refuses_a_press_sheet_that_is_none(typed: str, reason: str) -> None:
    with pytest.raises(StockError, match=reason):
        read_press_sheet(typed)
