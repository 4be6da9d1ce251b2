"""Stretches of the trimmer's scale at true size."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.drawing.cutting.lens_figure import lens_figure, lens_stretches
from booklet.drawing.cutting.stage_figure import StageView
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Circle, Figure, Line, Path, bounds
from booklet.kit.fields import Edge
from booklet.measure.length import Unit, to_points
from tests.drawing.overlaps import assert_texts_stand_clear, straight_steps
from tests.drawing.rasters import figure_pdf, figure_svg, same_picture
from tests.drawing.readings import text_boxes
from tests.drawing.styles import STYLE
from tests.drawing.test_stage_figure import MARKS, view
from tests.drawing.walking import groups, walk

RAILS = tuple(Fraction(eighths, 8) for eighths in (93, 90, 87, 84, 81, 78))


def lens(stage: StageView, *cuts: int, width: float = 320.0) -> Figure:
    return lens_figure(stage, cuts or tuple(cut.number for cut in stage.cuts), width, STYLE, "lens")


def ticks(figure: Figure) -> list[float]:
    """Where the marks of the scale stand, from left to right."""
    return sorted(
        move.apply(start)[0]
        for leaf, move in walk(figure.shapes)
        if isinstance(leaf, Path) and leaf.fill is None
        for start, end in straight_steps(leaf.segments)
        if start[0] == end[0]
    )


def cut_places(figure: Figure) -> dict[str, tuple[float, float]]:
    """Of each disc, its middle."""
    found = {}
    for group, move in groups(figure.shapes):
        if group.tag == "cut marker":
            circle = next(leaf for leaf in group.children if isinstance(leaf, Circle))
            found[text_boxes(group.children)[0][0].text] = move.apply((circle.x, circle.y))
    return found


def test_an_inch_is_an_inch() -> None:
    figure = lens(view(*RAILS))
    numerals = {text.text: text.x for text, _ in text_boxes(figure.shapes) if text.role == "scale"}
    assert numerals["11"] - numerals["10"] == pytest.approx(72)
    steps = [right - left for left, right in pairwise(ticks(figure))]
    assert steps == pytest.approx([9.0] * len(steps))
    assert figure.scale == "Scale 1:1"


def test_a_centimetre_is_a_centimetre() -> None:
    stage = view(Fraction(177, 10), Fraction(85, 5), width=30, unit=Unit.CENTIMETRE)
    numerals = {text.text: text.x for text, _ in text_boxes(lens(stage).shapes) if text.role == "scale"}
    assert numerals["18"] - numerals["17"] == pytest.approx(360 / 12.7)


def test_each_cut_has_its_disc_right_under_its_mark() -> None:
    stage = view(*RAILS)
    figure = lens(stage)
    (stretch,) = lens_stretches(stage, {1, 2, 3, 4, 5, 6}, 320.0)
    places, left = cut_places(figure), ticks(figure)[0]
    assert list(places) == ["6", "5", "4", "3", "2", "1"]
    for cut in stage.cuts:
        assert places[str(cut.number)][0] == pytest.approx(
            left + to_points(cut.value - stretch.low, Unit.INCH)
        )
    assert len({y for _, y in places.values()}) == 1, "3/8 in apart, a disc has room beside the next"


def test_cuts_nearer_than_discs_take_turns_on_two_rows() -> None:
    places = cut_places(lens(view(Fraction(41, 8), 5, Fraction(39, 8))))
    assert list(places) == ["3", "2", "1"]
    assert places["3"][1] == places["1"][1] != places["2"][1]


def test_only_the_cuts_that_are_asked_for_are_shown() -> None:
    stage = view(*RAILS, Fraction(13, 2), Fraction(13, 4))
    assert set(cut_places(lens(stage, 1, 2))) == {"1", "2"}


def test_much_of_the_scale_between_two_cuts_is_left_out() -> None:
    stretches = lens_stretches(view(10, 2), {1, 2}, 320.0)
    assert [[number for _, number in stretch.cuts] for stretch in stretches] == [[2], [1]]


def test_no_stretch_is_longer_than_the_page_is_wide() -> None:
    stage = view(*(Fraction(eighths, 8) for eighths in range(90, 10, -5)))
    cuts = tuple(cut.number for cut in stage.cuts)
    stretches = lens_stretches(stage, cuts, 200.0)
    assert len(stretches) > 3
    for stretch in stretches:
        assert to_points(stretch.high - stretch.low, Unit.INCH) <= 200.0
    assert lens(stage, width=200.0).width <= 200.0


def test_the_scale_ends_where_the_trimmer_s_does() -> None:
    stage = view(Fraction(95, 8))
    (stretch,) = lens_stretches(stage, {1}, 320.0)
    assert stretch.high == 12
    (longer,) = lens_stretches(replace(stage, reach=Fraction(15)), {1}, 320.0)
    assert longer.high == Fraction(49, 4)


def test_a_stretch_runs_on_to_a_numeral() -> None:
    """Between 5 and 6 no numeral stands: half an inch would name no mark."""
    figure = lens(view(Fraction(11, 2)))
    assert [text.text for text, _ in text_boxes(figure.shapes) if text.role == "scale"] == ["5"]


@st.composite
def stages(draw: st.DrawFn) -> StageView:
    unit = draw(st.sampled_from([Unit.INCH, Unit.CENTIMETRE, Unit.MILLIMETRE]))
    width = {Unit.INCH: 12, Unit.CENTIMETRE: 30, Unit.MILLIMETRE: 305}[unit]
    most = int(width / MARKS[unit]) - 1
    marks = draw(st.lists(st.integers(1, most), min_size=1, max_size=9, unique=True))
    return view(*(number * MARKS[unit] for number in marks), width=width, unit=unit)


@given(stages(), st.sampled_from([200.0, 328.0]))
def test_whatever_is_shown_is_exact_and_nothing_overlaps(stage: StageView, width: float) -> None:
    cuts = tuple(cut.number for cut in stage.cuts)
    figure = lens(stage, width=width)
    assert_texts_stand_clear(figure.shapes)
    box = bounds(figure.shapes)
    assert Box(0, 0, figure.width, figure.height).grown(0.01).holds(box)
    assert figure.width <= width
    marks = [
        move.apply(leaf.start)[0]
        for leaf, move in walk(figure.shapes)
        if isinstance(leaf, Line) and leaf.stroke.width == STYLE.cut_width * 1.5
    ]
    assert len(marks) == len(cuts)
    places = ticks(figure)
    for x in marks:
        assert min(abs(x - place) for place in places) < 1e-6, "a cut's mark is one of the trimmer's"


def test_pdf_and_svg_show_the_same() -> None:
    page = replace(lens(view(*RAILS)), width=360.0, height=180.0)
    assert same_picture(figure_pdf(page), figure_svg(page))


def test_a_scale_that_begins_at_the_right_runs_from_there() -> None:
    """A hand lays the lens beside its own scale, whose values rise to the left."""
    stage = replace(view(*RAILS), zero=Edge.RIGHT)
    figure, mirrored = lens(view(*RAILS)), lens(stage)
    numerals = {text.text: text.x for text, _ in text_boxes(mirrored.shapes) if text.role == "scale"}
    assert numerals["10"] - numerals["11"] == pytest.approx(72)
    places = {number: x for number, (x, _) in cut_places(mirrored).items()}
    assert sorted(places, key=lambda number: -places[number]) == ["6", "5", "4", "3", "2", "1"]
    assert mirrored.width == pytest.approx(figure.width)
    assert_texts_stand_clear(mirrored.shapes)


def test_stretches_stand_in_the_order_of_the_scale() -> None:
    stage = replace(view(10, Fraction(79, 8), 4, Fraction(31, 8)), zero=Edge.RIGHT)
    lows = [stretch.low for stretch in lens_stretches(stage, {1, 2, 3, 4}, 400.0)]
    assert lows == sorted(lows, reverse=True)
    assert len(lows) == 2
