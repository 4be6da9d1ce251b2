"""Numbers read from print: whole ones, decimals, and fractions in superior and inferior figures.

Written apart from what prints them (`booklet.measure.words`), so that a slip of one shows by the other.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from booklet.measure.exact import Fraction, read_exact
from booklet.proof.printed import DENOMINATORS, NUMERATORS

_FIGURES = {figure: str(at) for figures in (NUMERATORS, DENOMINATORS) for at, figure in enumerate(figures)}
_PLAIN = str.maketrans(_FIGURES)
_FRACTION = rf"(?P<over>[{NUMERATORS}]+)⁄(?P<under>[{DENOMINATORS}]+)"
_NUMERAL = re.compile(rf"(?P<whole>\d+(?:\.\d+)?)?{_FRACTION}|(?P<plain>\d+(?:\.\d+)?)")


def numerals(text: str) -> Iterator[Fraction]:
    """Every number in a printed text, in order; a fraction belongs to the whole number before it."""
    for found in _NUMERAL.finditer(text):
        if found["plain"] is not None:
            yield read_exact(found["plain"])
        else:
            over, under = (int(found[part].translate(_PLAIN)) for part in ("over", "under"))
            yield read_exact(found["whole"] or "0") + Fraction(over, under)
