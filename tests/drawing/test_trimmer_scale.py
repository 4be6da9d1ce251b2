"""The trimmer's scale as it is drawn: its marks, its numerals, the stems of cuts through it."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from booklet.drawing.marks.trimmer_scale import (
    Band,
    Numeral,
    Ruler,
    band_height,
    band_shapes,
    divisions,
    drawn_divisions,
    is_numbered,
    numeral_step,
    numerals,
    stem,
)
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Path, Shape
from booklet.drawing.shapes.style import LEAST_LINE_DISTANCE, mm
from booklet.measure.length import Unit
from tests.drawing.overlaps import straight_steps
from tests.drawing.styles import STYLE
from tests.drawing.walking import walk

AT_QUARTER = Ruler(Fraction(12), Fraction(1, 8), Unit.INCH, 18.0)
AT_SIXTH = Ruler(Fraction(12), Fraction(1, 8), Unit.INCH, 12.0)
MILLIMETRES = Ruler(Fraction(305), Fraction(1), Unit.MILLIMETRE, mm(1) / 4)
CENTIMETRES = Ruler(Fraction(30), Fraction(1, 10), Unit.CENTIMETRE, mm(10) / 5)
SIZE = STYLE.scale_label_size


def band(ruler: Ruler) -> Band:
    """The band of a ruler with its zero at 0 and its foot at 100."""
    height = band_height(9.0, SIZE)
    box = Box(-7.0, 100.0 - height, ruler.at(ruler.length) + 7.0, 100.0)
    return Band(box, 100.0, 0.0, 9.0, SIZE, ruler)


def shapes(ruler: Ruler, *readings: Fraction | int) -> tuple[Shape, ...]:
    shown = numerals(ruler, set(map(Fraction, readings)), SIZE)
    return tuple(band_shapes(band(ruler), shown, drawn_divisions(ruler), STYLE))


def ticks(drawn: tuple[Shape, ...]) -> list[tuple[float, float]]:
    """Where the marks of a scale stand along x, and how long each is."""
    (path,) = [leaf for leaf, _ in walk(drawn) if isinstance(leaf, Path)]
    steps = straight_steps(path.segments)
    return [(start[0], start[1] - end[1]) for start, end in steps if start[0] == end[0]]


def said(found: tuple[Numeral, ...]) -> list[str]:
    return [numeral.text for numeral in found]


def test_a_scale_is_divided_as_a_ruler_of_its_unit_is() -> None:
    one, half, quarter, eighth, tenth = (Fraction(1, part) for part in (1, 2, 4, 8, 10))
    assert divisions(Unit.INCH, eighth) == (one, half, quarter, eighth)
    assert divisions(Unit.MILLIMETRE, one) == (10 * one, 5 * one, one)
    assert divisions(Unit.CENTIMETRE, tenth) == (one, half, tenth)
    assert divisions(Unit.INCH, tenth) == (one, half, tenth), "no quarter falls on a tenth"
    sixteenth_inch = Fraction(254, 1600)
    assert divisions(Unit.CENTIMETRE, sixteenth_inch) == (one, half), "an inch scale has no centimetres"


def test_at_one_to_four_every_eighth_of_an_inch_has_its_mark() -> None:
    found = ticks(shapes(AT_QUARTER))
    assert [x for x, _ in found] == pytest.approx([2.25 * eighths for eighths in range(97)])


def test_finer_marks_are_shorter() -> None:
    lengths = {round(x / 18, 3): length for x, length in ticks(shapes(AT_QUARTER))}
    assert lengths[1] > lengths[0.5] > lengths[0.25] > lengths[0.125]
    assert lengths[1] == lengths[7]


@pytest.mark.parametrize(
    ("ruler", "finest"),
    [(AT_QUARTER, Fraction(1, 8)), (AT_SIXTH, Fraction(1, 4)), (MILLIMETRES, Fraction(5))],
)
def test_marks_closer_than_seven_tenths_of_a_millimetre_are_left_out(ruler: Ruler, finest: Fraction) -> None:
    # ISO 128-2 (from memory): parallel lines at least 0.7 mm apart.
    assert drawn_divisions(ruler)[-1] == finest
    places = [x for x, _ in ticks(shapes(ruler))]
    assert min(right - left for left, right in pairwise(places)) >= LEAST_LINE_DISTANCE - 1e-9


def test_a_trimmer_has_numerals_at_whole_inches_and_whole_centimetres() -> None:
    assert is_numbered(Fraction(8), Unit.INCH)
    assert not is_numbered(Fraction(5, 2), Unit.INCH)
    assert is_numbered(Fraction(110), Unit.MILLIMETRE)
    assert not is_numbered(Fraction(115), Unit.MILLIMETRE)


def test_numerals_are_sparse_and_even_where_it_gets_tight() -> None:
    assert said(numerals(AT_QUARTER, set(), SIZE)) == [str(inch) for inch in range(13)]
    assert said(numerals(AT_SIXTH, set(), SIZE)) == ["0", "2", "4", "6", "8", "10", "12"]
    assert numeral_step(MILLIMETRES, SIZE) == 50


def test_a_whole_reading_keeps_its_numeral_between_the_even_ones() -> None:
    found = numerals(AT_SIXTH, {Fraction(9), Fraction(5, 2)}, SIZE)
    assert said(found) == ["0", "2", "4", "6", "8", "9", "10", "12"]
    assert [numeral.text for numeral in found if numeral.is_reading] == ["9"]


def test_a_whole_reading_too_near_an_even_numeral_has_none() -> None:
    """At 1:5 the 11 would touch the 10; the 13 stands clear of it and of the 15."""
    assert said(numerals(CENTIMETRES, {Fraction(11)}, SIZE)) == ["0", "5", "10", "15", "20", "25", "30"]
    assert "13" in said(numerals(CENTIMETRES, {Fraction(13)}, SIZE))


def test_a_stem_runs_straight_through_where_no_numeral_stands() -> None:
    whole = list(stem(27.0, 70.0, 104.0, band(AT_QUARTER), numerals(AT_QUARTER, set(), SIZE), STYLE.narrow))
    assert [(line.start, line.end) for line in whole] == [((27.0, 70.0), (27.0, 104.0))]


@pytest.mark.parametrize("value", [Fraction(12), Fraction(95, 8), Fraction(10), Fraction(81, 8)])
def test_a_stem_gives_way_to_a_numeral(value: Fraction) -> None:
    shown = numerals(AT_QUARTER, set(), SIZE)
    x = AT_QUARTER.at(value)
    parts = list(stem(x, 70.0, 104.0, band(AT_QUARTER), shown, STYLE.narrow))
    assert len(parts) == 2
    nearest = min(shown, key=lambda numeral: abs(numeral.value - value))
    box = band(AT_QUARTER).numeral_box(nearest)
    assert parts[0].start[1] == 70.0
    assert parts[0].end[1] < box.top
    assert parts[1].start[1] > box.bottom
    assert parts[1].end[1] == 104.0
