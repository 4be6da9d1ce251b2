"""Photographs as they are printed: their usual sizes, and which print something comes out of."""

from __future__ import annotations

from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction, read_exact
from booklet.measure.length import Size, Unit, convert


@dataclass(frozen=True)
class PrintSize:
    """A usual size of print, upright, in its own unit."""

    name: str
    width: Fraction
    height: Fraction
    unit: Unit

    @cached_on
    def size(self, unit: Unit) -> Size:
        """Its upright size in a unit, exactly."""
        return Size(convert(self.width, self.unit, unit), convert(self.height, self.unit, unit))


def _inch(width: str, height: str) -> PrintSize:
    return PrintSize(f"{width} x {height} in", read_exact(width), read_exact(height), Unit.INCH)


def _cm(width: int, height: int) -> PrintSize:
    return PrintSize(f"{width} x {height} cm", Fraction(width), Fraction(height), Unit.CENTIMETRE)


# Sizes of prints as they are sold (common practice, no source): a 4 x 6 in print is 101.6 x 152.4 mm and is
# sold as 102 x 152, a 5 x 7 in print as 127 x 178 (from memory); 10 x 15 cm is a size of its own.
PRINT_SIZES = (
    _inch("2", "3"),
    _inch("3", "4"),
    _inch("3.5", "5"),
    _inch("4", "4"),
    _inch("4", "6"),
    _inch("5", "7"),
    _inch("6", "8"),
    _inch("8", "8"),
    _inch("8", "10"),
    _cm(9, 13),
    _cm(10, 15),
    _cm(13, 18),
    _cm(15, 20),
    _cm(20, 30),
)


def upright(size: Size) -> Size:
    """The size with its longer side up."""
    return size if size.height >= size.width else size.turned


def exact_print(size: Size, unit: Unit) -> PrintSize | None:
    """The print of exactly this size, either way up; one of the unit's own system first."""
    exact = [one for one in PRINT_SIZES if one.size(unit) == upright(size)]
    return min(exact, key=lambda one: _is_foreign(one, unit), default=None)


def smallest_print_for(size: Size, unit: Unit) -> PrintSize | None:
    """The smallest print that this can be trimmed out of; None where it is larger than any."""
    wanted = upright(size)
    able = [one for one in PRINT_SIZES if one.size(unit).holds(wanted)]
    return min(able, key=lambda one: (_is_foreign(one, unit), one.size(unit).area), default=None)


def largest_within(room: Size, unit: Unit) -> Size | None:
    """The largest print that fits into this size, the way up in which it does; upright where both do."""
    found = [
        size
        for one in PRINT_SIZES
        if not _is_foreign(one, unit)
        for size in (one.size(unit), one.size(unit).turned)
        if room.holds(size)
    ]
    return max(found, key=lambda size: size.area, default=None)


def _is_foreign(one: PrintSize, unit: Unit) -> bool:
    return (one.unit is Unit.INCH) != (unit is Unit.INCH)
