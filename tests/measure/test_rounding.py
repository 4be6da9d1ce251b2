"""Rounding once, ties to the even step."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.measure.exact import round_to

SIXTEENTH = Fraction(1, 16)

values = st.fractions(min_value=Fraction(-500), max_value=Fraction(500), max_denominator=512)
steps = st.sampled_from(
    [Fraction(1, 64), SIXTEENTH, Fraction(1, 8), Fraction(1, 10), Fraction(1), Fraction(5, 2)]
)


# ISO 80000-1:2009, annex B, rule A (from memory): of two equally near multiples, the even one.
@pytest.mark.parametrize(
    ("value", "rounded"),
    [
        (Fraction(1, 32), Fraction(0)),
        (Fraction(3, 32), Fraction(1, 8)),
        (Fraction(5, 32), Fraction(1, 8)),
        (Fraction(7, 32), Fraction(1, 4)),
        (Fraction(-1, 32), Fraction(0)),
        (Fraction(-3, 32), Fraction(-1, 8)),
    ],
)
def test_a_tie_goes_to_the_even_sixteenth(value: Fraction, rounded: Fraction) -> None:
    assert round_to(value, SIXTEENTH) == rounded


# The standard's own examples with a rounding range of 0.1 and of 10 (rule A, from memory).
@pytest.mark.parametrize(
    ("value", "step", "rounded"),
    [
        ("12.223", "0.1", "12.2"),
        ("12.251", "0.1", "12.3"),
        ("12.275", "0.1", "12.3"),
        ("12.25", "0.1", "12.2"),
        ("12.35", "0.1", "12.4"),
        ("1222.3", "10", "1220"),
        ("1225", "10", "1220"),
        ("1235", "10", "1240"),
    ],
)
def test_the_standard_s_examples(value: str, step: str, rounded: str) -> None:
    assert round_to(Fraction(value), Fraction(step)) == Fraction(rounded)


@given(values, steps)
def test_the_result_is_the_nearest_whole_number_of_steps(value: Fraction, step: Fraction) -> None:
    rounded = round_to(value, step)
    assert (rounded / step).denominator == 1
    assert abs(rounded - value) <= step / 2


@given(values, steps)
def test_rounding_again_changes_nothing(value: Fraction, step: Fraction) -> None:
    assert round_to(round_to(value, step), step) == round_to(value, step)


@given(st.integers(-1000, 1000), steps)
def test_halfway_between_two_steps_is_the_even_one(below: int, step: Fraction) -> None:
    rounded = round_to((below + Fraction(1, 2)) * step, step)
    assert rounded == (below if below % 2 == 0 else below + 1) * step


@given(values, steps)
def test_a_length_and_its_opposite_round_alike(value: Fraction, step: Fraction) -> None:
    assert round_to(-value, step) == -round_to(value, step)
