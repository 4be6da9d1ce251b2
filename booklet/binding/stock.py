"""Press stock: the sizes of paper that a booklet's press sheets are printed on, exactly."""

from __future__ import annotations

from booklet.binding.errors import StockError
from booklet.kit.kit import PageFormat
from booklet.kit.words import any_of, nearest, quoted, shown
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit, convert, parse_size
from booklet.measure.words import plain_size


@dataclass(frozen=True)
class PaperStock:
    """A size of paper, upright, in the unit that its standard gives it in, and what it is called."""

    size: Size
    unit: Unit
    name: str = ""

    @property
    def upright(self) -> Size:
        """Width and height in PostScript points, the short side across."""
        return Size(self.size.width * self.unit.points, self.size.height * self.unit.points)

    @property
    def landscape(self) -> Size:
        """Width and height in PostScript points, the long side across."""
        return self.upright.turned

    @property
    def title(self) -> str:
        """What it is called, or how large it is."""
        return self.name or f"{plain_size(self.size, self.unit)} {self.unit.value}"


# ISO 216: 297 x 420, 210 x 297 and 148 x 210 mm (from public tables); ISO 217: SRA3 (from memory).
SRA3 = PaperStock(Size(Fraction(320), Fraction(450)), Unit.MILLIMETRE, "SRA3")
A3 = PaperStock(Size(Fraction(297), Fraction(420)), Unit.MILLIMETRE, "A3")
A4 = PaperStock(Size(Fraction(210), Fraction(297)), Unit.MILLIMETRE, "A4")
A5 = PaperStock(Size(Fraction(148), Fraction(210)), Unit.MILLIMETRE, "A5")

# ANSI/ASME Y14.1 sizes B and A (from memory), and half of A; Legal is common practice, no source.
TABLOID = PaperStock(Size(Fraction(11), Fraction(17)), Unit.INCH, "Tabloid")
LEGAL = PaperStock(Size(Fraction(17, 2), Fraction(14)), Unit.INCH, "Legal")
LETTER = PaperStock(Size(Fraction(17, 2), Fraction(11)), Unit.INCH, "Letter")
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


def flat_sheet(page: PageFormat) -> PaperStock:
    """The usual paper on which one page of this format fits."""
    return A4 if page.is_metric else LETTER


PRESS_SHEETS = {stock.name.lower(): stock for stock in (LETTER, LEGAL, TABLOID, A4, A3, SRA3)}
# No page of a PDF is larger (ISO 32000-1, annex C, from memory: 14 400 points).
_LARGEST = 14_400


def read_press_sheet(text: str) -> PaperStock:
    """The press sheet that is named, or stated as `320 x 450 mm`, its sides in either order.

    Raises StockError for any other name, a size without its unit, or one that no PDF can have.
    """
    if stock := PRESS_SHEETS.get(text.strip().lower()):
        return stock
    try:
        in_mm, in_inches = (parse_size(text, unit) for unit in (Unit.MILLIMETRE, Unit.INCH))
    except ValueError:
        raise StockError(
            f"no press sheet is called {quoted(text)}: expected {_names(text)}, or a size with its unit such "
            "as 320x450mm or 9x12in"
        ) from None
    if convert(in_inches.width, Unit.INCH, Unit.MILLIMETRE) != in_mm.width:
        raise StockError(
            f"the press sheet {quoted(text)} has no unit: expected {shown(text)}mm or {shown(text)}in"
        )
    unit = Unit.MILLIMETRE if text.rstrip().endswith("m") else Unit.INCH
    size = in_mm if unit is Unit.MILLIMETRE else in_inches
    short, long = sorted((size.width, size.height))
    stated = PaperStock(Size(short, long), unit)
    if stated.upright.height > _LARGEST:
        raise StockError(f"a press sheet of {stated.title}: no PDF has a page of more than 200 in (5080 mm)")
    return stated


def _names(text: str) -> str:
    """The name that is nearest to what was typed; all of them where none is near."""
    near = nearest(text.lower(), PRESS_SHEETS)
    return PRESS_SHEETS[near].name if near else any_of([stock.name for stock in PRESS_SHEETS.values()])
