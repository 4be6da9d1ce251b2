"""Press stock: the sizes of paper that a booklet's press sheets are printed on, exactly."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.kit.kit import PageFormat
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit


@dataclass(frozen=True)
class PaperStock:
    """A size of paper, upright, in the unit that its standard gives it in."""

    size: Size
    unit: Unit

    @property
    def upright(self) -> Size:
        """Width and height in PostScript points, the short side across."""
        return Size(self.size.width * self.unit.points, self.size.height * self.unit.points)

    @property
    def landscape(self) -> Size:
        """Width and height in PostScript points, the long side across."""
        return self.upright.turned


# ISO 216: 297 x 420, 210 x 297 and 148 x 210 mm (from public tables).
A3 = PaperStock(Size(Fraction(297), Fraction(420)), Unit.MILLIMETRE)
A4 = PaperStock(Size(Fraction(210), Fraction(297)), Unit.MILLIMETRE)
A5 = PaperStock(Size(Fraction(148), Fraction(210)), Unit.MILLIMETRE)

# ANSI/ASME Y14.1 sizes B and A (from memory), and half of A; Legal is common practice, no source.
TABLOID = PaperStock(Size(Fraction(11), Fraction(17)), Unit.INCH)
LEGAL = PaperStock(Size(Fraction(17, 2), Fraction(14)), Unit.INCH)
LETTER = PaperStock(Size(Fraction(17, 2), Fraction(11)), Unit.INCH)
HALF_LETTER = PaperStock(Size(Fraction(11, 2), Fraction(17, 2)), Unit.INCH)

SQUARE_6_IN = PaperStock(Size(Fraction(6), Fraction(6)), Unit.INCH)
SQUARE_15_CM = PaperStock(Size(Fraction(150), Fraction(150)), Unit.MILLIMETRE)

# The page of each format, and the press sheet that two of them go on at home: the smallest usual one.
STOCK_OF = {
    PageFormat.HALF_LETTER: (HALF_LETTER, LETTER),
    PageFormat.A5: (A5, A4),
    PageFormat.LETTER: (LETTER, TABLOID),
    PageFormat.A4: (A4, A3),
    PageFormat.SQUARE_6_IN: (SQUARE_6_IN, LEGAL),
    PageFormat.SQUARE_15_CM: (SQUARE_15_CM, A3),
}
