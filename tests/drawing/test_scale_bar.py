"""The trimmer's scale, its readings, and the enlarged views."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.drawing.marks.scale_bar import (
    Reading,
    Ruler,
    divisions,
    drawn_divisions,
    enlarged_view,
    is_labelled,
    label_step,
    scale_bar,
)
from booklet.drawing.shapes.figure import Circle, Path, Shape, Text, walk
from booklet.drawing.shapes.style import LEAST_LINE_DISTANCE, DrawingStyle, mm
from booklet.measure.length import Unit
from booklet.measure.words import print_length
from tests.drawing.overlaps import assert_nothing_overlaps, straight_steps
from tests.drawing.readings import text_boxes
from tests.drawing.styles import STYLE, STYLES

AT_QUARTER = Ruler(Fraction(12), Fraction(1, 8), Unit.INCH, 18.0)
MILLIMETRES = Ruler(Fraction(305), Fraction(1), Unit.MILLIMETRE, mm(1) / 4)
CENTIMETRES = Ruler(Fraction(61, 2), Fraction(1, 10), Unit.CENTIMETRE, mm(10) / 4)


def reading(number: int, value: Fraction, unit: Unit = Unit.INCH) -> Reading:
    return Reading(str(number), value, print_length(value, unit))


def texts(shapes: tuple[Shape, ...], role: str) -> list[Text]:
    return [text for text, _ in text_boxes(shapes) if text.role == role]


def ticks(shapes: tuple[Shape, ...]) -> list[float]:
    """Where the upright marks of a scale stand along x."""
    (path,) = [leaf for leaf, _ in walk(shapes) if isinstance(leaf, Path) and leaf.fill is None][:1]
    return [start[0] for start, end in straight_steps(path.segments) if start[0] == end[0]]


def test_a_scale_of_inches_is_divided_as_a_ruler_is() -> None:
    assert divisions(Unit.INCH, Fraction(1, 8)) == (
        Fraction(1),
        Fraction(1, 2),
        Fraction(1, 4),
        Fraction(1, 8),
    )
    assert divisions(Unit.MILLIMETRE, Fraction(1)) == (Fraction(10), Fraction(5), Fraction(1))
    assert divisions(Unit.CENTIMETRE, Fraction(1, 10)) == (Fraction(1), Fraction(1, 2), Fraction(1, 10))
    assert divisions(Unit.INCH, Fraction(1, 10)) == (Fraction(1), Fraction(1, 2), Fraction(1, 10)), (
        "no quarter falls on a tenth"
    )


def test_an_inch_scale_at_one_to_four_shows_every_eighth() -> None:
    drawn = scale_bar(60, 80, AT_QUARTER, [], STYLE)
    assert drawn_divisions(AT_QUARTER)[-1] == Fraction(1, 8)
    assert ticks(drawn.shapes) == pytest.approx([60 + 2.25 * at for at in range(97)])
    assert [text.text for text in texts(drawn.shapes, "scale")] == [str(at) for at in range(13)]


@pytest.mark.parametrize(
    ("ruler", "finest"),
    [
        (AT_QUARTER, Fraction(1, 8)),
        (Ruler(Fraction(12), Fraction(1, 8), Unit.INCH, 12.0), Fraction(1, 4)),
        (MILLIMETRES, Fraction(5)),
    ],
)
def test_marks_closer_than_seven_tenths_of_a_millimetre_are_dropped(ruler: Ruler, finest: Fraction) -> None:
    # ISO 128-2 (from memory): parallel lines at least 0.7 mm apart.
    drawn = scale_bar(0, 0, ruler, [], STYLE)
    assert drawn_divisions(ruler)[-1] == finest
    places = sorted(ticks(drawn.shapes))
    assert min(right - left for left, right in pairwise(places)) >= LEAST_LINE_DISTANCE - 1e-9
    assert pytest.approx(0.7 / 25.4 * 72) == LEAST_LINE_DISTANCE


def test_the_zero_is_named_and_stands_at_the_sheets_edge() -> None:
    zero = next(
        text for text in texts(scale_bar(60, 80, AT_QUARTER, [], STYLE).shapes, "scale") if text.text == "0"
    )
    assert zero.x == 60
    assert zero.font.value.endswith("SemiBold")


def test_labels_grow_sparse_when_it_gets_tight() -> None:
    assert label_step(AT_QUARTER, STYLE) == 1
    assert label_step(Ruler(Fraction(12), Fraction(1, 8), Unit.INCH, 9.0), STYLE) == 2
    assert label_step(MILLIMETRES, STYLE) == 50


def test_a_trimmer_labels_whole_inches_and_whole_centimetres() -> None:
    assert is_labelled(Fraction(8), Unit.INCH)
    assert not is_labelled(Fraction(5, 2), Unit.INCH)
    assert is_labelled(Fraction(110), Unit.MILLIMETRE)
    assert not is_labelled(Fraction(115), Unit.MILLIMETRE)


def test_each_reading_stands_over_its_mark_with_its_number_and_value() -> None:
    drawn = scale_bar(60, 80, AT_QUARTER, [reading(1, Fraction(8)), reading(2, Fraction(5, 2))], STYLE)
    discs = sorted(leaf.x for leaf, _ in walk(drawn.shapes) if isinstance(leaf, Circle))
    assert discs == pytest.approx([60 + 45, 60 + 144])
    assert {text.text for text in texts(drawn.shapes, "reading")} == {"8", "2¹⁄₂"}
    assert {text.text for text in texts(drawn.shapes, "marker")} == {"1", "2"}


RULERS = st.sampled_from(
    [AT_QUARTER, MILLIMETRES, CENTIMETRES, Ruler(Fraction(12), Fraction(1, 16), Unit.INCH, 12.0)]
)


@st.composite
def rulers_with_readings(draw: st.DrawFn) -> tuple[Ruler, list[Reading]]:
    ruler = draw(RULERS)
    most = int(ruler.length / ruler.mark)
    marks = draw(st.lists(st.integers(1, most), min_size=1, max_size=7))
    return ruler, [reading(at + 1, mark * ruler.mark, ruler.unit) for at, mark in enumerate(marks)]


@given(rulers_with_readings(), st.sampled_from([4.0, 40.0, 1000.0]), STYLES)
def test_readings_never_lie_over_each_other_or_over_the_scale(
    case: tuple[Ruler, list[Reading]], margin: float, style: DrawingStyle
) -> None:
    ruler, readings = case
    room = (60 - margin, 60 + ruler.at(ruler.length) + margin)
    drawn = scale_bar(60, 80, ruler, readings, style, room=room)
    assert_nothing_overlaps(drawn.shapes)
    discs = [leaf for leaf, _ in walk(drawn.shapes) if isinstance(leaf, Circle)]
    assert len(discs) == len(readings)
    for one, other in combinations(discs, 2):
        assert (one.x - other.x) ** 2 + (one.y - other.y) ** 2 >= (2 * one.radius - 0.01) ** 2
    for text, box in text_boxes(drawn.shapes):
        for disc in discs:
            if (disc.x, text.role) != (text.x, "marker"):
                assert abs(disc.y - box.centre[1]) > disc.radius or not (
                    box.left < disc.x + disc.radius - 0.01 and disc.x - disc.radius + 0.01 < box.right
                )


@given(rulers_with_readings(), STYLES)
def test_an_enlarged_view_shows_every_mark_about_its_reading(
    case: tuple[Ruler, list[Reading]], style: DrawingStyle
) -> None:
    ruler, (first, *_) = case
    view = enlarged_view(10, 20, 150, ruler, first, style)
    assert view.low <= first.value <= view.high
    assert view.high - view.low == {Unit.INCH: 2, Unit.CENTIMETRE: 4, Unit.MILLIMETRE: 40}[ruler.unit]
    assert_nothing_overlaps(view.shapes)
    places = sorted(ticks(view.shapes))
    assert len(places) >= (view.high - view.low) / ruler.mark + 1
    steps = [right - left for left, right in pairwise(places)]
    assert steps == pytest.approx([steps[0]] * len(steps))
    arrow = next(leaf for leaf, _ in walk(view.shapes) if isinstance(leaf, Path) and leaf.fill)
    tip = float(arrow.segments[0][1])  # type: ignore[misc]
    assert min(abs(tip - place) for place in places) < 1e-6, "the arrow points at a mark"
    whole = {text.text: text.x for text in texts(view.shapes, "scale")}
    unit_points = steps[0] / float(ruler.mark)
    for label, x in whole.items():
        assert tip - x == pytest.approx((float(first.value) - int(label)) * unit_points, abs=1e-6)
    assert whole


def test_an_enlarged_view_keeps_to_the_scale_at_its_ends() -> None:
    near_zero = enlarged_view(0, 0, 150, AT_QUARTER, reading(1, Fraction(1, 8)), STYLE)
    near_end = enlarged_view(0, 0, 150, AT_QUARTER, reading(1, Fraction(95, 8)), STYLE)
    assert (near_zero.low, near_zero.high) == (Fraction(0), Fraction(2))
    assert (near_end.low, near_end.high) == (Fraction(10), Fraction(12))
