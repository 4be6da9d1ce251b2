"""Press stock: the sizes of paper that a booklet's press sheets are printed on, exactly."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit

# ISO 216 (from memory): A0 has an area of one square metre and sides as 1 to the root of 2, in whole
# millimetres; every following size halves the long side and drops the half millimetre.
_A0_SHORT = 841
_A0_LONG = 1189


@dataclass(frozen=True)
class Stock:
    """A size of paper, upright, in the unit that its standard gives it in."""

    name: str
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


def a_series(number: int) -> Stock:
    """ISO 216 size A`number`, from A0 to A10."""
    if not 0 <= number <= 10:
        raise ValueError("an A size from 0 to 10")
    short, long = _A0_SHORT, _A0_LONG
    for _ in range(number):
        short, long = long // 2, short
    return Stock(f"A{number}", Size(Fraction(short), Fraction(long)), Unit.MILLIMETRE)


A3 = a_series(3)
A4 = a_series(4)
A5 = a_series(5)

# ANSI/ASME Y14.1 size A (from memory), and half of it.
LETTER = Stock("Letter", Size(Fraction(17, 2), Fraction(11)), Unit.INCH)
HALF_LETTER = Stock("half letter", Size(Fraction(11, 2), Fraction(17, 2)), Unit.INCH)
