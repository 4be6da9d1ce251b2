"""Lengths and sizes as a hand types them, and what they are exactly."""

from __future__ import annotations

from fractions import Fraction
from numbers import Rational

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from booklet.measure import exact
from booklet.measure.length import (
    Size,
    Unit,
    convert,
    is_on_mark,
    nearest_mark,
    parse_length,
    parse_size,
    to_points,
)

lengths = st.fractions(min_value=Fraction(-1000), max_value=Fraction(1000), max_denominator=64)
units = st.sampled_from(Unit)

SIX_AND_A_QUARTER = Fraction(25, 4)


# Outside check: 1 in = 25.4 mm exactly (NIST Special Publication 811, appendix B; from memory).
def test_an_inch_is_twenty_five_point_four_millimetres_exactly() -> None:
    assert convert(Fraction(1), Unit.INCH, Unit.MILLIMETRE) == Fraction("25.4")
    assert convert(Fraction("25.4"), Unit.MILLIMETRE, Unit.INCH) == 1
    assert convert(Fraction(1), Unit.INCH, Unit.CENTIMETRE) == Fraction("2.54")


@pytest.mark.parametrize("kind", [Fraction, exact.Fraction])
def test_a_converted_length_is_of_the_library_that_it_came_in(kind: type[Fraction]) -> None:
    """Equal numbers of Python's own fractions and of the project's are not taken for each other."""
    assert type(convert(kind(7), Unit.INCH, Unit.INCH)) is kind


def test_a_twelve_inch_sheet() -> None:
    # 12 x 25.4 = 304.8 mm; 12 x 72 = 864 points.
    assert convert(Fraction(12), Unit.INCH, Unit.MILLIMETRE) == Fraction("304.8")
    assert to_points(Fraction(12), Unit.INCH) == 864.0
    assert Unit.MILLIMETRE.points == Fraction(360, 127)


def test_the_small_photograph() -> None:
    # 4 x 6 in is 101.6 x 152.4 mm exactly, though sold as 102 x 152 (from memory).
    assert parse_size("4 x 6 in", Unit.MILLIMETRE) == Size(Fraction("101.6"), Fraction("152.4"))


@given(lengths, units, units)
def test_converting_there_and_back_loses_nothing(value: Fraction, unit: Unit, into: Unit) -> None:
    assert convert(convert(value, unit, into), into, unit) == value


@pytest.mark.parametrize(
    "typed",
    [
        "6 1/4",
        "6-1/4",
        "6 - 1/4",
        "6  1/4",
        "  6 1/4\t",
        "6\u00a01/4",
        "6.25",
        "6.250000000",
        "25/4",
        "6¼",
        "6 ¼",
        "6-¼",
        "6 1\u20444",
        "6 2/8",
        "6 1/4 in",
        "6 1/4in",
        "6¼in",
        '6 1/4"',
        "6 1/4″",
        "6.25 inches",
        "6.25 inch",
        "158.75 mm",
        "158.75mm",
        "15.875 cm",
        "006.25",
        6.25,
    ],
)
def test_six_and_a_quarter_inches_however_typed(typed: str | float) -> None:
    assert parse_length(typed, Unit.INCH) == SIX_AND_A_QUARTER


@pytest.mark.parametrize(
    ("typed", "length"),
    [
        ("0", Fraction(0)),
        ("-0", Fraction(0)),
        ("-0.0", Fraction(0)),
        (-0.0, Fraction(0)),
        ("0/5", Fraction(0)),
        ("-1/4", Fraction(-1, 4)),
        ("−1/4", Fraction(-1, 4)),
        ("- 1/4", Fraction(-1, 4)),
        ("-6 1/4", -SIX_AND_A_QUARTER),
        ("-¼", Fraction(-1, 4)),
        ("½", Fraction(1, 2)),
        ("⅞", Fraction(7, 8)),
        ("⅓", Fraction(1, 3)),
        (".5", Fraction(1, 2)),
        ("999999", Fraction(999999)),
        (12, Fraction(12)),
        (-3, Fraction(-3)),
        (1e3, Fraction(1000)),
        (0.1, Fraction(1, 10)),
        (0.00001, Fraction(1, 100_000)),
    ],
)
def test_other_lengths(typed: str | float, length: Fraction) -> None:
    assert parse_length(typed, Unit.INCH) == length


@pytest.mark.parametrize(("written", "length"), [("6.25", SIX_AND_A_QUARTER), ("1.0e+3", Fraction(1000))])
def test_numbers_as_yaml_reads_them(written: str, length: Fraction) -> None:
    value = yaml.safe_load(written)
    assert isinstance(value, float)
    assert parse_length(value, Unit.INCH) == length


def test_a_bare_number_is_in_the_unit_asked_for() -> None:
    assert parse_length("108", Unit.MILLIMETRE) == 108
    assert parse_length("108 mm", Unit.CENTIMETRE) == Fraction("10.8")
    assert parse_length("1 in", Unit.MILLIMETRE) == Fraction("25.4")


@pytest.mark.parametrize(
    "typed",
    [
        "",
        " ",
        "in",
        "-",
        "--6",
        "+6",
        "six",
        "1/0",
        "6 1/0",
        "0/0",
        "6 5/4",
        "6 4/4",
        "6/",
        "/4",
        "6 1",
        "6 --1/4",
        "6..25",
        "6.",
        "1,000",
        "6,25",
        "1 000",
        "6 1/4 1/4",
        "6¼¼",
        "1¼/2",
        "6 1/4 ft",
        "6 1/4 mm in",
        "6 in 1/4",
        "1e3",
        "0x10",
        "1_000",
        "nan",
        "inf",
        "-inf",
        "∞",
        "٦",
        "٦/٤",
        "६.२५",
        "６",
        "²",
        "6²",
        "6¹⁄₄",
        "Ⅵ",
        "6\n1/4\n1/4",
        "6\x00",
        "None",
        "1000000",
        "0.1234567890",
        float("nan"),
        float("inf"),
        float("-inf"),
        1e300,
        1e-300,
        10**6,
        -(10**6),
        pytest.param(10**5000, id="more digits than str() writes"),
        True,
    ],
)
def test_refuses_what_is_no_length(typed: str | float) -> None:
    with pytest.raises(ValueError, match=r"^a (length such as|fraction) "):
        parse_length(typed, Unit.INCH)


def test_says_what_is_wrong_with_a_fraction() -> None:
    with pytest.raises(ValueError, match="denominator other than 0"):
        parse_length("6 1/0", Unit.INCH)
    with pytest.raises(ValueError, match="below 1 after a whole number"):
        parse_length("6 5/4", Unit.INCH)


# A reader that goes back over its text would look ten thousand million times at each of these: a hundred
# thousand characters, squared.  They are read once, and the test ends.
@pytest.mark.parametrize(
    "filling", ["1", " ", "-", "/", "1/", "1 ", ".", "¼", "in", "\u00a0", "−", "x", " x"]
)
def test_a_long_hostile_text_is_refused_at_once(filling: str) -> None:
    hostile = "6" + filling * 100_000 + "!"
    with pytest.raises(ValueError, match="length"):
        parse_length(hostile, Unit.INCH)
    with pytest.raises(ValueError, match=r"a (size|length)"):
        parse_size(hostile, Unit.INCH)


@given(st.one_of(st.text(), st.text('0123456789 /-.¼½x×inmc"″', max_size=12), st.floats(), st.integers()))
def test_anything_at_all_is_a_length_or_a_value_error(typed: str | float) -> None:
    try:
        length = parse_length(typed, Unit.INCH)
    except ValueError:
        return
    assert isinstance(length, Rational)


@given(st.integers(0, 9999), st.integers(0, 63), st.integers(1, 64), units, units)
def test_a_mixed_number_is_its_whole_and_its_part(
    whole: int, num: int, den: int, unit: Unit, into: Unit
) -> None:
    if num >= den:
        num %= den
    length = parse_length(f"{whole} {num}/{den} {unit.value}", into)
    assert length == convert(whole + Fraction(num, den), unit, into)


@given(st.decimals(-9999, 9999, places=4))
def test_a_decimal_is_what_it_says(typed: object) -> None:
    assert parse_length(str(typed), Unit.MILLIMETRE) == Fraction(str(typed))


@given(st.integers(-99_999_999, 99_999_999))
def test_a_float_is_what_was_typed(ten_thousandths: int) -> None:
    exact = Fraction(ten_thousandths, 10_000)
    assert parse_length(float(exact), Unit.INCH) == exact


@pytest.mark.parametrize(
    "typed",
    ["5 1/2 x 7", "5.5x7", "5½ × 7", "5 1/2 in x 7 in", "5 1/2 x 7 in", '5 1/2" x 7"', "139.7 mm x 17.78 cm"],
)
def test_five_and_a_half_by_seven_however_typed(typed: str) -> None:
    assert parse_size(typed, Unit.INCH) == Size(Fraction(11, 2), Fraction(7))


def test_a_unit_after_the_last_number_holds_for_both() -> None:
    assert parse_size("10 x 15 cm", Unit.MILLIMETRE) == Size(Fraction(100), Fraction(150))


def test_a_unit_after_the_first_number_only_is_refused() -> None:
    with pytest.raises(ValueError, match="unit after the last number"):
        parse_size("10 cm x 15", Unit.INCH)


@pytest.mark.parametrize(
    "typed",
    ["", "x", "5", "5 x", "x 7", "5 x 7 x 9", "5 xx 7", "5 by 7", "0 x 7", "5 x -7", "5 x 0 cm", "5 x 1/0"],
)
def test_refuses_what_is_no_size(typed: str) -> None:
    with pytest.raises(ValueError, match=r"^a (size|length|fraction) "):
        parse_size(typed, Unit.INCH)


def test_a_quarter_turn_keeps_the_area() -> None:
    size = Size(Fraction(11, 2), Fraction(7))
    assert size.turned == Size(Fraction(7), Fraction(11, 2))
    assert size.turned.turned == size
    assert size.area == size.turned.area == Fraction(77, 2)


@given(st.integers(0, 800), st.sampled_from([Fraction(1, 8), Fraction(1, 16), Fraction(1), Fraction(1, 2)]))
def test_a_whole_number_of_marks_is_on_a_mark(count: int, mark: Fraction) -> None:
    assert is_on_mark(count * mark, mark)
    assert nearest_mark(count * mark, mark) == count * mark
    assert not is_on_mark(count * mark + mark / 3, mark)


@given(lengths, st.sampled_from([Fraction(1, 8), Fraction(1, 16), Fraction(1), Fraction(1, 2)]))
def test_no_mark_is_nearer_than_the_nearest(value: Fraction, mark: Fraction) -> None:
    nearest = nearest_mark(value, mark)
    assert is_on_mark(nearest, mark)
    assert abs(nearest - value) <= mark / 2


def test_two_fifths_of_an_inch_on_eighths() -> None:
    # 2/5 in is 3.2 eighths: off the marks, and nearest to 3/8.
    assert not is_on_mark(Fraction(2, 5), Fraction(1, 8))
    assert nearest_mark(Fraction(2, 5), Fraction(1, 8)) == Fraction(3, 8)


@given(
    st.fractions(max_denominator=1000),
    st.sampled_from(Unit),
    st.sampled_from([Fraction(1), Fraction(7, 2), Fraction(4)]),
)
def test_points_are_the_nearest_float(value: Fraction, unit: Unit, reduction: Fraction) -> None:
    assert to_points(value, unit, reduction) == float(value / reduction * unit.points)
