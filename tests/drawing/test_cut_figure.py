"""A stage at the trimmer: where the print lies, where the cuts run, what is written on the strips."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.cutting.orientation import Orientation, strip
from booklet.drawing.cutting.cut_figure import (
    HANG,
    StageView,
    StripView,
    draw_stage,
    with_print,
)
from booklet.drawing.marks.scale_bar import Reading
from booklet.drawing.papers.lying import lie, on_face
from booklet.drawing.shapes.affine import Box, Point, bounds_of_points
from booklet.drawing.shapes.figure import (
    Colour,
    Figure,
    Fill,
    Line,
    Path,
    Polyline,
    Rect,
    Symbol,
    Use,
    dimensions,
    groups,
    walk,
)
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Edge, Face
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size, Unit
from booklet.measure.words import print_length, print_size
from tests.drawing.readings import text_boxes

STYLE = DrawingStyle()
QUARTER = Scale(Fraction(4))
MARK = Fraction(1, 8)
ORIENTATIONS = [Orientation(face, quarters) for face in Face for quarters in range(4)]


def view(
    *readings: Fraction | int,
    width: Fraction | int = 12,
    height: Fraction | int = 12,
    scrap: tuple[int, ...] = (),
    papers: int = 1,
    marks: bool = False,
    beside: float = 60.0,
) -> StageView:
    """A stage with these readings, cut in this order; `scrap` are strips by their place from the zero."""
    seen = Size(Fraction(width), Fraction(height))
    bounds = [Fraction(0), *sorted(map(Fraction, readings)), seen.width]
    strips = [
        StripView(
            start,
            end,
            "" if place in scrap else chr(ord("A") + place),
            print_size(Size(end - start, seen.height), Unit.INCH),
            "→\u00a03",
            place in scrap,
            marks,
            print_length(end - start, Unit.INCH),
        )
        for place, (start, end) in enumerate(pairwise(bounds))
    ]
    return StageView(
        name="sheet-1-stage-1",
        alt="A sheet",
        unit=Unit.INCH,
        scale=QUARTER,
        mark=MARK,
        seen=seen,
        height_label=print_length(seen.height, Unit.INCH),
        readings=tuple(
            Reading(str(at), Fraction(value), print_length(Fraction(value), Unit.INCH))
            for at, value in enumerate(readings, start=1)
        ),
        strips=tuple(strips),
        papers=papers,
        register_marks=marks,
        column=216.0,
        gutter=14.0,
        beside=beside,
    )


def drawn(stage: StageView) -> Figure:
    """The stage with a plain print."""
    blank = Symbol("blank", (), 864, 864)
    part = ExactRect(Fraction(0), Fraction(0), stage.seen.width, stage.seen.height)
    return with_print(draw_stage(stage, STYLE), blank, part, stage.seen, Orientation())


def words(figure: Figure, role: str) -> list[str]:
    return [text.text for text, _ in text_boxes(figure.shapes) if text.role == role]


def dashed(figure: Figure) -> list[tuple[Point, Point]]:
    return [
        (move.apply(leaf.start), move.apply(leaf.end))
        for leaf, move in walk(figure.shapes)
        if isinstance(leaf, Line) and leaf.stroke.dash
    ]


def assert_texts_apart(figure: Figure) -> None:
    for (one, left), (other, right) in combinations(text_boxes(figure.shapes), 2):
        assert not left.grown(-0.1).overlaps(right), (one.text, other.text)


# The print.


@st.composite
def laid_parts(draw: st.DrawFn) -> tuple[ExactRect, Size, Orientation]:
    whole = Size(*(Fraction(draw(st.integers(16, 96)), 8) for _ in "wh"))
    x, y = (Fraction(draw(st.integers(0, 7)), 8) for _ in "xy")
    part = ExactRect(x, y, whole.width - x, whole.height - y - Fraction(1, 8))
    return part, whole, draw(st.sampled_from(ORIENTATIONS))


@given(laid_parts(), st.integers(1, 5))
def test_the_print_lies_as_the_strips_are_counted(
    case: tuple[ExactRect, Size, Orientation], eighths: int
) -> None:
    """What a cut leaves at the scale's zero is the print that the figure shows there."""
    part, whole, lying = case
    reading = Fraction(eighths, 8)
    placing = lie(part, whole, lying, Unit.INCH, QUARTER)
    wide, high = QUARTER.size(lying.seen_size(part.size), Unit.INCH)
    assert on_face(part, whole, lying.face, Unit.INCH).under(placing) == pytest.approx((0, 0, wide, high))
    cut = strip(part, lying, Fraction(0), reading)
    left = on_face(cut, whole, lying.face, Unit.INCH).under(placing)
    assert left == pytest.approx((0, 0, QUARTER.points(reading, Unit.INCH), high))


@pytest.mark.parametrize("lying", ORIENTATIONS)
def test_each_edge_of_the_front_lies_where_the_orientation_says(lying: Orientation) -> None:
    whole = Size(Fraction(8), Fraction(12))
    front = ExactRect(Fraction(0), Fraction(0), whole.width, whole.height)
    placing = lie(front, whole, lying, Unit.INCH, QUARTER)
    inch = Fraction(1)
    edges = {
        Edge.LEFT: ExactRect(Fraction(0), Fraction(0), inch, whole.height),
        Edge.RIGHT: ExactRect(whole.width - inch, Fraction(0), inch, whole.height),
        Edge.TOP: ExactRect(Fraction(0), Fraction(0), whole.width, inch),
        Edge.BOTTOM: ExactRect(Fraction(0), whole.height - inch, whole.width, inch),
    }
    wide, high = QUARTER.size(lying.seen_size(whole), Unit.INCH)
    sides = {
        Edge.LEFT: Box(0, 0, 18, high),
        Edge.RIGHT: Box(wide - 18, 0, wide, high),
        Edge.TOP: Box(0, 0, wide, 18),
        Edge.BOTTOM: Box(0, high - 18, wide, high),
    }
    for seen, side in sides.items():
        band = on_face(edges[lying.edge_at(seen)], whole, lying.face, Unit.INCH).under(placing)
        assert band == pytest.approx(side)


def test_only_the_piece_s_own_part_of_the_print_shows() -> None:
    red = Fill(Colour("#ff0000"))
    symbol = Symbol("half red", (Rect(0, 0, 432, 864, red),), 864, 864)
    stage = view(3, width=6)
    part = ExactRect(Fraction(6), Fraction(0), Fraction(6), Fraction(12))
    figure = with_print(
        draw_stage(stage, STYLE), symbol, part, Size(Fraction(12), Fraction(12)), Orientation()
    )
    use = next(shape for shape in figure.shapes if isinstance(shape, Use))
    assert use.clip is not None
    assert bounds_of_points(use.clip) == (432, 0, 864, 864)


# Cuts, strips, dimensions.


def test_cuts_are_dashed_at_their_readings() -> None:
    figure = drawn(view(8, Fraction(5, 2)))
    left = HANG
    assert [start[0] - left for start, _ in dashed(figure)] == pytest.approx([8 * 18, 2.5 * 18])
    assert words(figure, "reading") == ["2¹⁄₂", "8"]


def test_the_strips_widths_add_up_to_the_sheet() -> None:
    chain = [
        each for each in dimensions(drawn(view(8, Fraction(5, 2))).shapes) if each.start[1] == each.end[1]
    ]
    assert [each.label for each in chain] == ["2¹⁄₂", "5¹⁄₂", "4"]
    assert [each.length for each in chain] == pytest.approx([45, 99, 72])
    assert sum(each.length for each in chain) == pytest.approx(12 * 18)


def test_the_outline_is_twice_as_wide_as_a_dimension_line() -> None:
    figure = drawn(view(8))
    outline = max(
        (leaf for leaf, _ in walk(figure.shapes) if isinstance(leaf, Rect) and leaf.stroke),
        key=lambda leaf: leaf.width * leaf.height,
    )
    lines = [
        leaf
        for group, _ in groups(figure.shapes)
        if group.dimension
        for leaf, _ in walk(group.children)
        if isinstance(leaf, Line)
    ]
    assert outline.stroke is not None
    assert lines
    for line in lines:
        assert 2 * line.stroke.width == pytest.approx(outline.stroke.width)


def test_scrap_is_hatched_and_named_and_has_no_letter() -> None:
    figure = drawn(view(7, height=Fraction(11, 2), scrap=(1,)))
    hatched = [
        leaf for leaf, _ in walk(figure.shapes) if isinstance(leaf, Path) and leaf.stroke == STYLE.fine
    ]
    assert any(len(leaf.segments) > 20 for leaf in hatched)
    assert "scrap" in words(figure, "scrap")
    assert words(figure, "piece") == ["A"]


@pytest.mark.parametrize(("papers", "beneath"), [(1, 0), (2, 1), (3, 2), (8, 3)])
def test_papers_beneath_show_past_the_first(papers: int, beneath: int) -> None:
    figure = drawn(view(6, papers=papers))
    behind = [
        leaf for leaf, _ in walk(figure.shapes) if isinstance(leaf, Rect) and leaf.stroke == STYLE.narrow
    ]
    assert len(behind) == beneath


def test_a_narrower_piece_has_its_height_at_its_right() -> None:
    upright = [d for d in dimensions(drawn(view(3, width=6)).shapes) if d.start[0] == d.end[0]]
    assert [each.label for each in upright] == ["12"]
    assert upright[0].length == pytest.approx(216)


def test_register_marks_stand_at_both_edges_and_no_width_is_measured() -> None:
    figure = drawn(view(6, 4, height=6, marks=True))
    strokes = [
        [move.apply(point) for point in leaf.points]
        for leaf, move in walk(figure.shapes)
        if isinstance(leaf, Polyline) and leaf.points[0][1] == leaf.points[-1][1]
    ]
    marks = [way for way in strokes if way[1][0] - way[0][0] == pytest.approx(11)]
    assert len(marks) == 4
    assert dimensions(figure.shapes) == ()


# Chips.


def test_a_quarter_inch_strip_has_its_chip_outside_on_a_leader() -> None:
    """At 1:4 such a strip is 4.5 pt wide."""
    stage = view(Fraction(47, 4))
    figure = drawn(stage)
    outline = draw_stage(stage, STYLE).outline
    chip = next(box for text, box in text_boxes(figure.shapes) if text.role == "piece" and text.text == "B")
    assert chip.top > outline.bottom
    starts = [
        move.apply(leaf.points[0])
        for leaf, move in walk(figure.shapes)
        if isinstance(leaf, Polyline) and leaf.stroke == STYLE.narrow
    ]
    strip_left = outline.right - 4.5
    assert any(strip_left < x < outline.right and y < outline.bottom for x, y in starts)


def test_a_chip_says_letter_size_and_pocket() -> None:
    figure = drawn(view(8))
    assert words(figure, "piece") == ["A", "B"]
    assert words(figure, "pocket")[:2] == ["→\u00a03", "8\u00a0×\u00a012"]


def test_what_is_written_stands_off_the_artwork_of_a_printed_sheet() -> None:
    stage = view(6, 4, height=6, marks=True)
    outline = draw_stage(stage, STYLE).outline
    pieces = [box for text, box in text_boxes(drawn(stage).shapes) if text.role == "piece"]
    assert len(pieces) == 3
    assert all(box.top > outline.bottom for box in pieces)


def test_the_scale_is_stated_clear_of_the_words_beside() -> None:
    short, deep = (drawn(view(6, height=3, beside=beside)) for beside in (20.0, 300.0))
    for figure in (short, deep):
        assert figure.scale == "Scale 1:4"
        assert words(figure, "scale words") == ["Scale 1:4"]
    right = {text.text: box for text, box in text_boxes(deep.shapes)}["Scale 1:4"].right
    assert right <= HANG + 216 + 0.1


@st.composite
def stages(draw: st.DrawFn) -> StageView:
    width = draw(st.sampled_from([3, 6, 12]))
    height = draw(st.sampled_from([Fraction(1, 2), Fraction(2), Fraction(6), Fraction(12)]))
    eighths = draw(st.lists(st.integers(1, 8 * width - 1), min_size=1, max_size=7, unique=True))
    readings = [Fraction(each, 8) for each in sorted(eighths, reverse=True)]
    scrap = draw(st.sampled_from([(), (0,), (len(readings),)]))
    return view(
        *readings,
        width=width,
        height=height,
        scrap=scrap,
        papers=draw(st.integers(1, 3)),
        marks=draw(st.booleans()),
    )


@given(stages())
def test_no_text_ever_lies_over_another(stage: StageView) -> None:
    assert_texts_apart(drawn(stage))


@given(stages())
def test_everything_lies_within_the_figure(stage: StageView) -> None:
    figure = drawn(stage)
    for text, box in text_boxes(figure.shapes):
        assert box.left >= -0.1, text.text
        assert box.top >= -0.1, text.text
        assert box.bottom <= figure.height + 0.1, text.text
