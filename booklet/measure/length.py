"""Exact lengths: units, what a hand types, and what a booklet prints.

Every length of a kit is a `Fraction` in the kit's own unit from the moment it is read until a renderer
asks for points.  Nothing in between rounds.
"""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from functools import lru_cache

from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction, read_exact, round_to
from booklet.measure.identity_enum import IdentityEnum

# 1 in = 25.4 mm exactly (NIST Special Publication 811, appendix B; from memory) = 72 PostScript points.
MM_PER_INCH = Fraction(254, 10)
POINTS_PER_INCH = 72

TIMES = "×"


class Unit(IdentityEnum):
    """A unit of length that a kit may be written in."""

    INCH = "in"
    MILLIMETRE = "mm"
    CENTIMETRE = "cm"

    @property
    def millimetres(self) -> Fraction:
        """One of this unit in millimetres, exactly."""
        return _MILLIMETRES[self]

    @property
    def points(self) -> Fraction:
        """One of this unit in PostScript points (1/72 in), exactly."""
        return _POINTS[self]


_MILLIMETRES = {
    Unit.INCH: MM_PER_INCH,
    Unit.MILLIMETRE: Fraction(1),
    Unit.CENTIMETRE: Fraction(10),
}
_POINTS = {unit: length / MM_PER_INCH * POINTS_PER_INCH for unit, length in _MILLIMETRES.items()}

_UNIT_WORDS = {
    "in": Unit.INCH,
    "inch": Unit.INCH,
    "inches": Unit.INCH,
    '"': Unit.INCH,
    "″": Unit.INCH,
    "mm": Unit.MILLIMETRE,
    "cm": Unit.CENTIMETRE,
}

# What is expected where a length or a size belongs, for messages.
A_LENGTH = "a length such as 6 1/4, 6.25 or 108 mm"
A_SIZE = "a size such as 5 1/2 x 7"

# ASCII digits only, and few of them: a spec's numbers are short, and int() is slow on thousands.
_WHOLE = "[0-9]{1,6}"
MOST_DECIMALS = 9
_DECIMALS = rf"\.[0-9]{{1,{MOST_DECIMALS}}}"
_LENGTH = re.compile(
    rf"""(?P<sign>[-−])?\s*
        (?:(?P<whole>{_WHOLE})(?:\s*-\s*|\s+)(?P<num>{_WHOLE})/(?P<den>{_WHOLE})
          |(?P<fnum>{_WHOLE})/(?P<fden>{_WHOLE})
          |(?P<decimal>{_WHOLE}(?:{_DECIMALS})?|{_DECIMALS}))
        \s*(?P<unit>{"|".join(_UNIT_WORDS)})?""",
    re.VERBOSE,
)
_LARGEST_WHOLE = 999_999

# `6¼` reads as `6 1/4`: a fraction typed as one character, or with the fraction slash, in ordinary figures.
_TYPEABLE = str.maketrans(
    {"\u2044": "/"}
    | {sign: " " + unicodedata.normalize("NFKC", sign).replace("\u2044", "/") for sign in "½⅓⅔¼¾⅛⅜⅝⅞"}
)


@lru_cache(maxsize=4096, typed=True)  # equal numbers of two libraries are one key else
def convert(value: Fraction, unit: Unit, into: Unit) -> Fraction:
    """Express `value`, a length in `unit`, in the unit `into`; exact."""
    return value if unit is into else value * unit.millimetres / into.millimetres


def to_points(value: Fraction, unit: Unit, reduction: Fraction = Fraction(1)) -> float:
    """A length in `unit`, drawn 1:`reduction`, as points for a renderer: the one place where exactness ends.

    The quotient of two whole numbers is the nearest float to the exact value, and quicker than a `Fraction`.
    """
    each = _POINTS[unit]
    return (value.numerator * each.numerator * reduction.denominator) / (
        value.denominator * each.denominator * reduction.numerator
    )


def parse_length(text: str | int | float, unit: Unit) -> Fraction:
    """Read a length as typed: `6 1/4`, `6-1/4`, `6¼`, `6.25`, `6 1/4 in`, `108 mm`, `10.8 cm`, or a number.

    Returns the length in `unit`, which a bare number is taken to be in already.
    Raises ValueError for anything else.  A float is read by its shortest decimal, which is what was typed.
    """
    value, typed_unit = _read(text)
    return convert(value, typed_unit or unit, unit)


def _read(text: str | int | float) -> tuple[Fraction, Unit | None]:
    """The number that was typed, and the unit after it if there is one."""
    match = _LENGTH.fullmatch(_as_typed(text).translate(_TYPEABLE).strip())
    if match is None:
        raise ValueError(A_LENGTH)
    value = -_magnitude(match) if match["sign"] else _magnitude(match)
    return value, _UNIT_WORDS[match["unit"]] if match["unit"] else None


def _as_typed(text: str | int | float) -> str:
    if isinstance(text, float):
        return format(Decimal(repr(text)), "f")
    if isinstance(text, int) and abs(text) > _LARGEST_WHOLE:
        raise ValueError(A_LENGTH)
    return str(text)


def _magnitude(match: re.Match[str]) -> Fraction:
    if match["decimal"]:
        return read_exact(match["decimal"])
    numerator = int(match["num"] or match["fnum"])
    denominator = int(match["den"] or match["fden"])
    if denominator == 0:
        raise ValueError("a fraction with a denominator other than 0")
    if match["whole"] and numerator >= denominator:
        raise ValueError("a fraction below 1 after a whole number")
    return int(match["whole"] or 0) + Fraction(numerator, denominator)


@dataclass(frozen=True)
class Size:
    """Width across and height down, in the kit's unit."""

    width: Fraction
    height: Fraction

    @property
    def area(self) -> Fraction:
        """Width times height, in square units."""
        return self.width * self.height

    @property
    def turned(self) -> Size:
        """The same rectangle after a quarter turn."""
        return Size(self.height, self.width)

    def holds(self, other: Size) -> bool:
        """Whether `other` fits into this, neither of them turned."""
        return other.width <= self.width and other.height <= self.height


def parse_size(text: str, unit: Unit) -> Size:
    """Read `5 1/2 x 7` or `10 x 15 cm`, width first; a unit after the last number holds for both.

    Raises ValueError unless both are positive lengths, and where only the first has a unit.
    """
    parts = str(text).replace(TIMES, "x").split("x")
    if len(parts) != 2:
        raise ValueError(A_SIZE)
    (width, width_unit), (height, height_unit) = (_read(part) for part in parts)
    if width_unit and not height_unit:
        raise ValueError("a size with its unit after the last number, such as 10 x 15 cm")
    if width <= 0 or height <= 0:
        raise ValueError("a size with two lengths above 0")
    return Size(
        convert(width, width_unit or height_unit or unit, unit), convert(height, height_unit or unit, unit)
    )


def is_on_mark(value: Fraction, mark: Fraction) -> bool:
    """Whether `value` falls on a division of a scale whose finest division is `mark`."""
    return (value / mark).denominator == 1


def nearest_mark(value: Fraction, mark: Fraction) -> Fraction:
    """The division of the scale nearest to `value`; a tie goes to the even division."""
    return round_to(value, mark)
