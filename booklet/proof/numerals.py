"""Numbers and words read from print: whole numbers, decimals, fractions in superior and inferior figures.

Written apart from what prints them (`booklet.measure.words`), so that a slip of one shows by the other.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from booklet.measure.exact import Fraction, read_exact
from booklet.measure.length import Unit
from booklet.measure.words import APPROXIMATELY, FINEST, RULER
from booklet.proof.printed import DENOMINATORS, NUMERATORS

# What is read: a number, or a word without the marks about it.
Token = Fraction | str

_FIGURES = {figure: str(at) for figures in (NUMERATORS, DENOMINATORS) for at, figure in enumerate(figures)}
_PLAIN = str.maketrans(_FIGURES)
_FRACTION = rf"(?P<over>[{NUMERATORS}]+)⁄(?P<under>[{DENOMINATORS}]+)"
_NUMERAL = re.compile(rf"(?P<whole>\d+(?:\.\d+)?)?{_FRACTION}|(?P<plain>\d+(?:\.\d+)?)")
_TOKEN = re.compile(rf"{_NUMERAL.pattern}|[^\W\d_{NUMERATORS}{DENOMINATORS}]+")
# Where a word may be broken: a hyphen, one that only shows at a line's end, and how pypdfium2 reads these.
_BREAKS = str.maketrans(dict.fromkeys("-\u2010\u00ad\ufffe\x02"))


# Counts that a sentence writes out, as English has them.
_WRITTEN = {
    "a": Fraction(1),
    "one": Fraction(1),
    "two": Fraction(2),
    "three": Fraction(3),
    "four": Fraction(4),
    "five": Fraction(5),
    "six": Fraction(6),
    "seven": Fraction(7),
    "eight": Fraction(8),
    "nine": Fraction(9),
    "ten": Fraction(10),
    "eleven": Fraction(11),
    "twelve": Fraction(12),
}


def numerals(text: str) -> Iterator[Fraction]:
    """Every number in a printed text, in order; a fraction belongs to the whole number before it."""
    return map(_number, _NUMERAL.finditer(text))


def tokens(text: str) -> Iterator[Token]:
    """Every number and every word of a printed text, in order; a broken word is one."""
    return map(_token, _TOKEN.finditer(text.translate(_BREAKS)))


def placed_tokens(text: str) -> Iterator[tuple[Token, slice]]:
    """Every number and every word of a printed text, and where in it each stands."""
    kept = [at for at, letter in enumerate(text) if ord(letter) not in _BREAKS]
    for found in _TOKEN.finditer(text.translate(_BREAKS)):
        yield _token(found), slice(kept[found.start()], kept[found.end() - 1] + 1)


def _token(found: re.Match[str]) -> Token:
    return found[0] if found["plain"] is found["over"] is None else _number(found)


def leeway(said: str, unit: Unit | None) -> Fraction:
    """How far a number may be from what it stands for: half of the marks that it is rounded to, where it says
    that it is (`≈ 5 1/8`); a share of a count, without a unit, is said to tenths.
    """
    if APPROXIMATELY not in said:
        return Fraction(0)
    return max(FINEST[unit], RULER[unit]) / 2 if unit else Fraction(1, 20)


def written_number(text: str) -> Fraction | None:
    """The count that a word stands for (`Three`, `a`); None for any other word."""
    return _WRITTEN.get(text.strip().casefold())


def _number(found: re.Match[str]) -> Fraction:
    if found["plain"] is not None:
        return read_exact(found["plain"])
    over, under = (int(found[part].translate(_PLAIN)) for part in ("over", "under"))
    return read_exact(found["whole"] or "0") + Fraction(over, under)
