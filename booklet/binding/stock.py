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


# ISO 216: 210 x 297 and 148 x 210 mm (from public tables).
A4 = PaperStock(Size(Fraction(210), Fraction(297)), Unit.MILLIMETRE)
A5 = PaperStock(Size(Fraction(148), Fraction(210)), Unit.MILLIMETRE)

# ANSI/ASME Y14.1 size A (from memory), and half of it.
LETTER = PaperStock(Size(Fraction(17, 2), Fraction(11)), Unit.INCH)
HALF_LETTER = PaperStock(Size(Fraction(11, 2), Fraction(17, 2)), Unit.INCH)

# The page of each format, and the press sheet that two of them go on at home.
STOCK_OF = {PageFormat.HALF_LETTER: (HALF_LETTER, LETTER), PageFormat.A5: (A5, A4)}
