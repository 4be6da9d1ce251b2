"""Lengths as text: for a spec, a message, and (with real fractions) for print."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from booklet.measure.exact import Fraction, round_to
from booklet.measure.length import MOST_DECIMALS, TIMES, Size, Unit

APPROXIMATELY = "≈"
MINUS = "−"
_SUPERIORS = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_INFERIORS = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
_FRACTION_SLASH = "\u2044"

# The finest division that a ruler in the trade carries, and that a metric one is read to (common practice,
# no source).
FINEST = {
    Unit.INCH: Fraction(1, 64),
    Unit.MILLIMETRE: Fraction(1, 10),
    Unit.CENTIMETRE: Fraction(1, 100),
}

# What a plain ruler shows: sixteenths, or halves of its millimetres (common practice, no source).
RULER = {
    Unit.INCH: Fraction(1, 16),
    Unit.MILLIMETRE: Fraction(1, 2),
    Unit.CENTIMETRE: Fraction(1, 20),
}


@lru_cache(maxsize=4096)
def plain_length(value: Fraction, unit: Unit) -> str:
    """A length as it would be typed in a spec: `6 1/4`, `108`, `10.8`.

    Where the finest division of the unit does not hold it, the nearest one: `≈ 6 15/64`.
    """
    return _mark_inexact(value, unit, _plain_mixed if unit is Unit.INCH else _plain_decimal)


@lru_cache(maxsize=4096)
def print_length(value: Fraction, unit: Unit) -> str:
    """A length for print, its fraction in the font's own superior and inferior figures: `6¹⁄₄`."""
    return _mark_inexact(value, unit, _print_mixed if unit is Unit.INCH else _print_decimal)


def ruler_length(value: Fraction, unit: Unit) -> str:
    """A length for print that a hand sets with a plain ruler.

    What no print could say exactly is given to the nearest mark that a ruler has or an eye halves: 4/3 in is
    `≈ 1⁵⁄₁₆`, not sixty-fourths.
    """
    if is_printable(value, unit):
        return print_length(value, unit)
    return f"{APPROXIMATELY}\u00a0{print_length(round_to(value, RULER[unit]), unit)}"


def is_printable(value: Fraction, unit: Unit) -> bool:
    """Whether the finest division of the unit holds this length, so that print says it exactly."""
    return round_to(value, FINEST[unit]) == value


def exact_length(value: Fraction, unit: Unit) -> str:
    """A length as it would be typed, never rounded: `6 1/4`, `158.75`, `2.000000001`, `3 1/3`.

    Decimals stand where the finest division of the unit does not hold it and they end soon enough to be
    typed, and a fraction else.
    """
    if is_printable(value, unit):
        return plain_length(value, unit)
    shifted = abs(value) * 10**MOST_DECIMALS
    if shifted.denominator != 1:
        return _plain_mixed(value)
    whole, decimals = divmod(shifted.numerator, 10**MOST_DECIMALS)
    return _sign(value, "-") + f"{whole}.{decimals:0{MOST_DECIMALS}}".rstrip("0")


def exact_size(size: Size, unit: Unit) -> str:
    """A size as it would be typed, never rounded."""
    return f"{exact_length(size.width, unit)} x {exact_length(size.height, unit)}"


def plain_size(size: Size, unit: Unit) -> str:
    """A size as typed: `5 1/2 x 7`."""
    return f"{plain_length(size.width, unit)} x {plain_length(size.height, unit)}"


def print_size(size: Size, unit: Unit) -> str:
    """A size for print: `5¹⁄₂ × 7`, width first."""
    return f"{print_length(size.width, unit)}\u00a0{TIMES}\u00a0{print_length(size.height, unit)}"


def _mark_inexact(value: Fraction, unit: Unit, write: Callable[[Fraction], str]) -> str:
    rounded = round_to(value, FINEST[unit])
    return write(rounded) if rounded == value else f"{APPROXIMATELY}\u00a0{write(rounded)}"


def _plain_mixed(value: Fraction) -> str:
    whole, rest = divmod(abs(value), 1)
    parts = [str(whole)] if whole or not rest else []
    if rest:
        parts.append(f"{rest.numerator}/{rest.denominator}")
    return _sign(value, "-") + " ".join(parts)


def _print_mixed(value: Fraction) -> str:
    whole, rest = divmod(abs(value), 1)
    shown = str(whole) if whole or not rest else ""
    return _sign(value, MINUS) + shown + (print_fraction(rest) if rest else "")


def _plain_decimal(value: Fraction) -> str:
    return _sign(value, "-") + _hundredths(abs(value))


def _print_decimal(value: Fraction) -> str:
    return _sign(value, MINUS) + _hundredths(abs(value))


def _sign(value: Fraction, minus: str) -> str:
    return minus if value < 0 else ""


def _hundredths(value: Fraction) -> str:
    whole, rest = divmod(round(value * 100), 100)
    return f"{whole}.{rest:02}".rstrip("0").rstrip(".")


def print_fraction(value: Fraction) -> str:
    """A proper fraction in superior and inferior figures around the fraction slash (U+2044)."""
    numerator = str(value.numerator).translate(_SUPERIORS)
    denominator = str(value.denominator).translate(_INFERIORS)
    return f"{numerator}{_FRACTION_SLASH}{denominator}"
