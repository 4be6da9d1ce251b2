"""Exact numbers: the fractions that every length, angle and count of this project is computed in.

They come from quicktions, which has the interface of Python's own and is about ten times as fast.  A type
checker sees Python's own, whose types are declared.
"""

from __future__ import annotations

import fractions
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fractions import Fraction
else:
    from quicktions import Fraction

__all__ = ["Fraction", "read_exact", "round_to"]


def read_exact(text: str) -> Fraction:
    """The exact number that a text such as `6.25` states.  Raises ValueError for any other text.

    Python's own fractions read it: quicktions must not be given text, since for a single letter it writes
    over a byte of the interpreter's own (seen in its releases 1.18 to 1.24).
    """
    return Fraction(fractions.Fraction(text))


def round_to(value: Fraction, step: Fraction) -> Fraction:
    """Round `value` to a whole number of `step`s, ties to the even number of steps.

    ISO 80000-1:2009, annex B, rule A (from memory).
    """
    return round(value / step) * step
