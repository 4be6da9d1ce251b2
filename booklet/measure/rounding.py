"""Rounding, done once and from the exact value."""

from __future__ import annotations

from booklet.measure.exact import Fraction


def round_to(value: Fraction, step: Fraction) -> Fraction:
    """Round `value` to a whole number of `step`s, ties to the even number of steps.

    ISO 80000-1:2009, annex B, rule A (from memory).
    """
    return round(value / step) * step
