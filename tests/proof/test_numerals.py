"""Numbers read from print, apart from what prints them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.measure.words import print_length
from booklet.proof.numerals import numerals


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("7¹⁄₈", ["57/8"]),
        ("6 × ³⁄₈", ["6", "3/8"]),
        ("12⁄", ["12"]),
        ("≈ 10.8 cm, twice", ["54/5"]),
        ("Scale 1:5", ["1", "5"]),
        ("9AB and 3B.", ["9", "3"]),
        ("no number", []),
    ],
)
def test_every_number_of_a_text_is_read(text: str, said: list[str]) -> None:
    assert list(numerals(text)) == [Fraction(*map(int, each.split("/"))) for each in said]


@given(st.integers(0, 64 * 12), st.sampled_from([Unit.INCH, Unit.CENTIMETRE, Unit.MILLIMETRE]))
def test_what_is_printed_exactly_is_read_as_the_same_number(marks: int, unit: Unit) -> None:
    value = Fraction(marks, 64 if unit is Unit.INCH else 10)
    assert list(numerals(print_length(value, unit))) == [value]
