"""Lengths as text: for a spec, a message, and (with real fractions) for print."""

from __future__ import annotations

from fractions import Fraction

from booklet.measure.length import Size, Unit
from booklet.measure.rounding import round_to

TIMES = "×"
APPROXIMATELY = "≈"
_SUPERIORS = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_INFERIORS = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
_FRACTION_SLASH = "\u2044"
# The finest denominators that a ruler in the trade carries, and the decimals that a metric one does.
_FINEST_INCH = Fraction(1, 64)
_FINEST_METRIC = {Unit.MILLIMETRE: Fraction(1, 10), Unit.CENTIMETRE: Fraction(1, 100)}


def _finest(unit: Unit) -> Fraction:
    return _FINEST_METRIC.get(unit, _FINEST_INCH)


def plain_length(value: Fraction, unit: Unit) -> str:
    """A length as it would be typed in a spec: `6 1/4`, `108`, `10.8`; `≈ 4.25` where that is inexact."""
    return _mark_inexact(value, unit, _plain_inches if unit is Unit.INCH else _decimal)


def print_length(value: Fraction, unit: Unit) -> str:
    """A length for print, its fraction in the font's own superior and inferior figures: `6¹⁄₄`."""
    return _mark_inexact(value, unit, _print_inches if unit is Unit.INCH else _decimal)


def plain_size(size: Size, unit: Unit) -> str:
    """A size as typed: `5 1/2 x 7`."""
    return f"{plain_length(size.width, unit)} x {plain_length(size.height, unit)}"


def print_size(size: Size, unit: Unit) -> str:
    """A size for print: `5¹⁄₂ × 7`, width first."""
    return f"{print_length(size.width, unit)}\u00a0{TIMES}\u00a0{print_length(size.height, unit)}"


def _mark_inexact(value: Fraction, unit: Unit, write: object) -> str:
    assert callable(write)
    rounded = round_to(value, _finest(unit))
    text: str = write(rounded)
    return text if rounded == value else f"{APPROXIMATELY}\u00a0{text}"


def _sign(value: Fraction) -> str:
    return "−" if value < 0 else ""


def _plain_inches(value: Fraction) -> str:
    whole, rest = divmod(abs(value), 1)
    fraction = f"{rest.numerator}/{rest.denominator}" if rest else ""
    shown = " ".join(part for part in (str(whole) if whole or not rest else "", fraction) if part)
    return _sign(value).replace("−", "-") + shown


def _print_inches(value: Fraction) -> str:
    whole, rest = divmod(abs(value), 1)
    shown = str(whole) if whole or not rest else ""
    return _sign(value) + shown + (print_fraction(rest) if rest else "")


def print_fraction(value: Fraction) -> str:
    """A proper fraction in superior and inferior figures around the fraction slash (U+2044)."""
    numerator = str(value.numerator).translate(_SUPERIORS)
    denominator = str(value.denominator).translate(_INFERIORS)
    return f"{numerator}{_FRACTION_SLASH}{denominator}"


def _decimal(value: Fraction) -> str:
    text = f"{float(abs(value)):.2f}".rstrip("0").rstrip(".")
    return _sign(value) + text
