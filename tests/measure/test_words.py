"""Lengths written for a spec, a message and print."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.measure.length import Size, Unit, parse_length, parse_size
from booklet.measure.words import (
    exact_length,
    exact_size,
    plain_length,
    plain_size,
    print_fraction,
    print_length,
    print_size,
    ruler_length,
)

NBSP = "\u00a0"

# Lengths that the finest division of their unit holds exactly.
inches = st.integers(-64 * 999, 64 * 999).map(lambda count: Fraction(count, 64))
millimetres = st.integers(-99_999, 99_999).map(lambda count: Fraction(count, 10))
centimetres = st.integers(-999_999, 999_999).map(lambda count: Fraction(count, 100))


@st.composite
def written_lengths(draw: st.DrawFn) -> tuple[Fraction, Unit]:
    unit = draw(st.sampled_from(Unit))
    exact = {Unit.INCH: inches, Unit.MILLIMETRE: millimetres, Unit.CENTIMETRE: centimetres}
    return draw(exact[unit]), unit


@pytest.mark.parametrize(
    ("value", "unit", "plain", "printed"),
    [
        (Fraction(25, 4), Unit.INCH, "6 1/4", "6¹⁄₄"),
        (Fraction(1, 4), Unit.INCH, "1/4", "¹⁄₄"),
        (Fraction(-25, 4), Unit.INCH, "-6 1/4", "−6¹⁄₄"),
        (Fraction(11, 16), Unit.INCH, "11/16", "¹¹⁄₁₆"),
        (Fraction(63, 64), Unit.INCH, "63/64", "⁶³⁄₆₄"),
        (Fraction(12), Unit.INCH, "12", "12"),
        (Fraction(100), Unit.INCH, "100", "100"),
        (Fraction(0), Unit.INCH, "0", "0"),
        (Fraction(108), Unit.MILLIMETRE, "108", "108"),
        (Fraction(100), Unit.MILLIMETRE, "100", "100"),
        (Fraction("101.6"), Unit.MILLIMETRE, "101.6", "101.6"),
        (Fraction("-101.6"), Unit.MILLIMETRE, "-101.6", "−101.6"),
        (Fraction("10.8"), Unit.CENTIMETRE, "10.8", "10.8"),
        (Fraction("10.16"), Unit.CENTIMETRE, "10.16", "10.16"),
        (Fraction("0.05"), Unit.CENTIMETRE, "0.05", "0.05"),
        (Fraction(0), Unit.MILLIMETRE, "0", "0"),
    ],
)
def test_a_length_that_can_be_written_exactly(value: Fraction, unit: Unit, plain: str, printed: str) -> None:
    assert plain_length(value, unit) == plain
    assert print_length(value, unit) == printed


@pytest.mark.parametrize(
    ("value", "unit", "printed"),
    [
        (Fraction(1, 3), Unit.INCH, "²¹⁄₆₄"),  # 21.33 sixty-fourths
        (Fraction(1, 128), Unit.INCH, "0"),  # halfway between 0 and 1 sixty-fourth: the even one
        (Fraction(3, 128), Unit.INCH, "¹⁄₃₂"),  # halfway between 1 and 2 sixty-fourths
        (Fraction(158) + Fraction(3, 4), Unit.MILLIMETRE, "158.8"),  # 6 1/4 in: a tie, to the even tenth
        (Fraction(-1, 1000), Unit.MILLIMETRE, "0"),
        (Fraction(1, 3), Unit.CENTIMETRE, "0.33"),
    ],
)
def test_a_length_that_cannot_be_written_exactly_says_so(value: Fraction, unit: Unit, printed: str) -> None:
    assert print_length(value, unit) == f"≈{NBSP}{printed}"
    assert plain_length(value, unit).startswith("≈")


@given(written_lengths())
def test_what_is_written_plainly_reads_back_as_the_same_length(length: tuple[Fraction, Unit]) -> None:
    value, unit = length
    assert parse_length(plain_length(value, unit), unit) == value
    assert parse_length(f"{plain_length(value, unit)} {unit.value}", unit) == value


@given(written_lengths())
def test_print_says_the_same_as_plain_text(length: tuple[Fraction, Unit]) -> None:
    value, unit = length
    assert printed_as_typed(print_length(value, unit)) == plain_length(value, unit)


def printed_as_typed(printed: str) -> str:
    """Typeset figures back in ordinary ones, the whole number set off from its fraction."""
    whole = printed.rstrip("⁰¹²³⁴⁵⁶⁷⁸⁹⁄₀₁₂₃₄₅₆₇₈₉")
    fraction = printed[len(whole) :].translate(
        str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁄₀₁₂₃₄₅₆₇₈₉", "0123456789/0123456789")
    )
    apart = " " if fraction and whole not in ("", "−") else ""
    return f"{whole}{apart}{fraction}".replace("−", "-")


@given(st.fractions(min_value=Fraction(-1000), max_value=Fraction(1000)), st.sampled_from(Unit))
def test_a_sign_of_nearness_stands_exactly_where_a_length_was_rounded(value: Fraction, unit: Unit) -> None:
    text = plain_length(value, unit)
    read_back = parse_length(text.removeprefix(f"≈{NBSP}"), unit)
    assert text.startswith("≈") == (read_back != value)


@pytest.mark.parametrize(
    ("value", "unit", "said"),
    [
        (Fraction("2.000000001"), Unit.INCH, "2.000000001"),
        (Fraction(1, 128), Unit.INCH, "0.0078125"),
        (Fraction(10, 3), Unit.INCH, "3 1/3"),
        (Fraction("50.35"), Unit.MILLIMETRE, "50.35"),
        (Fraction("-158.75"), Unit.MILLIMETRE, "-158.75"),
        (Fraction(10, 3), Unit.CENTIMETRE, "3 1/3"),
    ],
)
def test_a_length_that_no_ruler_shows_is_still_written_exactly(
    value: Fraction, unit: Unit, said: str
) -> None:
    assert exact_length(value, unit) == said


@given(
    st.one_of(
        st.fractions(Fraction(-9999), Fraction(9999), max_denominator=999),
        st.integers(-(10**14), 10**14).map(lambda billionths: Fraction(billionths, 10**9)),
    ),
    st.sampled_from(Unit),
)
def test_what_is_written_exactly_reads_back_as_the_same_length(value: Fraction, unit: Unit) -> None:
    assert parse_length(exact_length(value, unit), unit) == value


@given(written_lengths())
def test_what_a_ruler_shows_is_written_exactly_as_in_any_message(length: tuple[Fraction, Unit]) -> None:
    value, unit = length
    assert exact_length(value, unit) == plain_length(value, unit)


def test_a_size_written_exactly() -> None:
    size = Size(Fraction("50.35"), Fraction(7))
    assert exact_size(size, Unit.MILLIMETRE) == "50.35 x 7"


@pytest.mark.parametrize(
    ("value", "printed"), [(Fraction(1, 2), "¹⁄₂"), (Fraction(7, 8), "⁷⁄₈"), (Fraction(15, 32), "¹⁵⁄₃₂")]
)
def test_a_fraction_in_the_font_s_own_figures(value: Fraction, printed: str) -> None:
    assert print_fraction(value) == printed


def test_sizes_width_first() -> None:
    size = Size(Fraction(11, 2), Fraction(7))
    assert plain_size(size, Unit.INCH) == "5 1/2 x 7"
    assert print_size(size, Unit.INCH) == f"5¹⁄₂{NBSP}×{NBSP}7"
    assert parse_size(plain_size(size, Unit.INCH), Unit.INCH) == size


@pytest.mark.parametrize(
    ("value", "unit", "printed"),
    [
        (Fraction(4, 3), Unit.INCH, "≈ 1⁵⁄₁₆"),  # 21.33 sixteenths
        (Fraction(5, 12), Unit.INCH, "≈ ⁷⁄₁₆"),  # 6.67 sixteenths
        (Fraction(3, 32), Unit.INCH, "³⁄₃₂"),  # what can be said exactly is
        (Fraction(10, 3), Unit.MILLIMETRE, "≈ 3.5"),  # 6.67 halves
        (Fraction(1, 3), Unit.CENTIMETRE, "≈ 0.35"),
        (Fraction("1.75"), Unit.CENTIMETRE, "1.75"),
    ],
)
def test_a_length_for_a_plain_ruler(value: Fraction, unit: Unit, printed: str) -> None:
    assert ruler_length(value, unit).replace(NBSP, " ") == printed
