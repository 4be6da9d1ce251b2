"""Numbers as a PDF has them: decimals, rounded once from their exact value."""

from __future__ import annotations

from booklet.measure.exact import Fraction, round_to

# Coordinates in the file, in points: a ten-thousandth is 0.04 micrometres.
_COORDINATE_STEP = Fraction(1, 10_000)


def number(value: Fraction) -> str:
    """A coordinate in decimals."""
    steps = round_to(value, _COORDINATE_STEP)
    return f"{float(steps):.4f}".rstrip("0").rstrip(".")
