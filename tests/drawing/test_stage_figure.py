"""A stage at the trimmer: where the print lies, where cuts run, what is written, and nothing over another."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.cutting.orientation import Orientation, strip
from booklet.drawing.cutting.stage_figure import (
    StageCut,
    StageStrip,
    StageView,
    draw_stage,
    stage_size,
    with_print,
)
from booklet.drawing.papers.lying import lie, on_face
from booklet.drawing.shapes.affine import Box, bounds_of_points
from booklet.drawing.shapes.figure import (
    Circle,
    Colour,
    Figure,
    Fill,
    Line,
    Path,
    Rect,
    Symbol,
    Text,
    Use,
    bounds,
)
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle, mm
from booklet.kit.fields import Edge, Face
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size, Unit
from booklet.measure.words import print_length
from tests.drawing.overlaps import assert_texts_stand_clear
from tests.drawing.rasters import figure_pdf, figure_svg, same_picture
from tests.drawing.readings import measured_label, text_boxes
from tests.drawing.styles import LABELS, STYLE, STYLES
from tests.drawing.walking import dimensions, groups, walk

QUARTER = Scale(Fraction(4))
ORIENTATIONS = [Orientation(face, quarters) for face in Face for quarters in range(4)]
MARKS = {Unit.INCH: Fraction(1, 8), Unit.CENTIMETRE: Fraction(1, 10), Unit.MILLIMETRE: Fraction(1)}


def view(
    *readings: Fraction | int,
    width: Fraction | int = 12,
    height: Fraction | int = 12,
    scrap: tuple[int, ...] = (),
    papers: int = 1,
    printed: bool = False,
    unit: Unit = Unit.INCH,
    scale: Scale = QUARTER,
    words: tuple[str, ...] = (),
    stated_height: str = "",
) -> StageView:
    """A stage with these readings, cut in this order; `scrap` are strips by their place from the zero."""
    seen = Size(Fraction(width), Fraction(height))
    ends = [Fraction(0), *sorted(map(Fraction, readings)), seen.width]
    letters = iter("ABCDEFGHJKLMNPQRSTUVWXYZ" * 3)
    strips = [
        StageStrip(
            start,
            end,
            () if place in scrap else tuple(next(letters) for _ in range(papers)),
            words,
            print_length(end - start, unit),
        )
        for place, (start, end) in enumerate(pairwise(ends))
    ]
    return StageView(
        name="sheet-1-stage-1",
        unit=unit,
        scale=scale,
        mark=MARKS[unit],
        reach=seen.width,
        seen=seen,
        height=stated_height,
        cuts=tuple(StageCut(number, Fraction(value)) for number, value in enumerate(readings, start=1)),
        strips=tuple(strips),
        papers=papers,
        is_printed=printed,
        labels=LABELS,
    )


def drawn(stage: StageView, style: DrawingStyle = STYLE) -> Figure:
    """The stage with a plain print."""
    size = Size(Fraction(1), Fraction(1))
    blank = Symbol("blank", (), float(stage.unit.points), float(stage.unit.points))
    part = ExactRect(Fraction(0), Fraction(0), size.width, size.height)
    return with_print(draw_stage(stage, style), blank, part, size, Orientation())


def at_right(stage: StageView) -> StageView:
    """The same stage on a trimmer whose scale begins at the right."""
    return replace(stage, zero=Edge.RIGHT)


def at(stage: StageView, value: Fraction | int, style: DrawingStyle = STYLE) -> float:
    """Where a value of the scale stands in the figure."""
    return stage_size(stage, style).outline.left + stage.scale.points(Fraction(value), stage.unit)


def words(figure: Figure, role: str) -> list[str]:
    return [text.text for text, _ in text_boxes(figure.shapes) if text.role == role]


def dashed(figure: Figure) -> list[float]:
    """Where cut lines run, along x."""
    return [
        move.apply(leaf.start)[0]
        for leaf, move in walk(figure.shapes)
        if isinstance(leaf, Line) and leaf.stroke.dash
    ]


def stems(figure: Figure, style: DrawingStyle = STYLE) -> list[float]:
    """Where stems reach down to the sheet, along x."""
    top = min(
        move.apply(leaf.start)[1]
        for leaf, move in walk(figure.shapes)
        if isinstance(leaf, Line) and leaf.stroke.dash
    )
    return [
        move.apply(leaf.end)[0]
        for leaf, move in walk(figure.shapes)
        if isinstance(leaf, Line)
        and leaf.stroke.colour == style.palette.accent
        and not leaf.stroke.dash
        and abs(move.apply(leaf.end)[1] - top) < 0.01
    ]


def discs(figure: Figure) -> list[tuple[str, float, float, float]]:
    """The number, middle and radius of every disc."""
    found = []
    for group, move in groups(figure.shapes):
        if group.tag == "cut marker":
            circle = next(leaf for leaf in group.children if isinstance(leaf, Circle))
            number = text_boxes(group.children)[0][0].text
            found.append((number, *move.apply((circle.x, circle.y)), circle.radius))
    return found


def brackets(figure: Figure) -> list[tuple[float, float]]:
    """From where to where along x the discs over the scale stand for all cuts between them."""
    ends = [
        (move.apply(leaf.start), move.apply(leaf.end))
        for leaf, move in walk(figure.shapes)
        if isinstance(leaf, Line) and leaf.stroke.colour == STYLE.palette.accent
    ]
    return [(start[0], end[0]) for start, end in ends if start[1] == end[1]]


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
    cut = strip(part, lying, Fraction(0), reading, Edge.LEFT)
    left = on_face(cut, whole, lying.face, Unit.INCH).under(placing)
    width = QUARTER.points(reading, Unit.INCH)
    assert left == pytest.approx((0, 0, width, high))
    cut = strip(part, lying, Fraction(0), reading, Edge.RIGHT)
    right = on_face(cut, whole, lying.face, Unit.INCH).under(placing)
    assert right == pytest.approx((wide - width, 0, wide, high))


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
    part = ExactRect(Fraction(6), Fraction(0), Fraction(6), Fraction(12))
    drawing = draw_stage(view(3, width=6), STYLE)
    figure = with_print(drawing, symbol, part, Size(Fraction(12), Fraction(12)), Orientation())
    use = next(shape for shape in figure.shapes if isinstance(shape, Use))
    assert use.clip is not None
    assert bounds_of_points(use.clip) == (432, 0, 864, 864)


# The scale and its cuts.


def test_a_cut_stands_under_its_disc_and_over_its_dashed_line() -> None:
    stage = view(8, Fraction(5, 2))
    figure = drawn(stage)
    expected = [at(stage, Fraction(5, 2)), at(stage, 8)]
    assert sorted(dashed(figure)) == pytest.approx(expected)
    assert sorted(stems(figure)) == pytest.approx(expected)
    found = {number: x for number, x, _, _ in discs(figure)}
    assert (found["2"], found["1"]) == pytest.approx(expected)


def test_a_numeral_stays_though_a_cut_is_made_right_beside_it() -> None:
    """At 11 3/4 the stem would run through the 12: it gives way, not the numeral."""
    figure = drawn(view(Fraction(47, 4), scale=Scale(Fraction(5))))
    assert words(figure, "scale") == [str(inch) for inch in range(13)]
    assert_texts_stand_clear(figure.shapes)


def test_a_whole_reading_stands_out_on_the_scale() -> None:
    numerals = {text.text: text for text, _ in text_boxes(drawn(view(9, 4)).shapes) if text.role == "scale"}
    bold = [name for name, text in numerals.items() if "SemiBold" in text.font.value]
    assert bold == ["0", "4", "9"]


def test_readings_are_not_said_again_on_the_figure() -> None:
    assert words(drawn(view(Fraction(57, 8), Fraction(9, 4))), "reading") == []


def test_the_stop_is_named_at_the_zero() -> None:
    figure = drawn(view(6))
    (stop,) = [box for text, box in text_boxes(figure.shapes) if text.role == "stop"]
    assert words(figure, "stop") == ["stop"]
    assert stop.left == pytest.approx(0)
    assert stop.right < at(view(6), 1)


def test_a_cut_right_at_the_stop_has_its_disc_below_the_word() -> None:
    figure = drawn(view(Fraction(1, 4)))
    assert words(figure, "stop") == ["stop"]
    assert_texts_stand_clear(figure.shapes)


def test_discs_that_would_touch_take_turns_on_two_rows() -> None:
    """Cuts 7/8 apart stand 12.6 pt apart at 1:5, a disc is 15.2 pt wide."""
    stage = view(11, Fraction(81, 8), Fraction(37, 4), scale=Scale(Fraction(5)))
    found = sorted(discs(drawn(stage)), key=lambda disc: disc[1])
    assert [number for number, *_ in found] == ["3", "2", "1"]
    heights = [y for _, _, y, _ in found]
    assert heights[0] == heights[2] != heights[1]
    assert [x for _, x, _, _ in found] == pytest.approx([at(stage, cut.value) for cut in stage.cuts[::-1]])
    assert brackets(drawn(stage)) == []


def test_cuts_too_near_for_that_become_one_bracket() -> None:
    """Six rails of 3/8: the discs of the outermost, each straight over its mark, stand for all."""
    rails = [Fraction(eighths, 8) for eighths in (93, 90, 87, 84, 81, 78)]
    stage = view(*rails, Fraction(13, 2), Fraction(13, 4), scale=Scale(Fraction(5)))
    found = sorted(discs(drawn(stage)), key=lambda disc: disc[1])
    assert [number for number, *_ in found] == ["8", "7", "6", "1"]
    assert [x for _, x, _, _ in found[2:]] == pytest.approx([at(stage, rails[-1]), at(stage, rails[0])])
    assert brackets(drawn(stage)) == [pytest.approx((at(stage, rails[-1]), at(stage, rails[0])))]
    assert sorted(stems(drawn(stage))) == pytest.approx(sorted(at(stage, cut.value) for cut in stage.cuts))


# Strips.


def test_the_widths_add_up_to_the_sheet() -> None:
    chain = dimensions(drawn(view(8, Fraction(5, 2))).shapes)
    assert [each.label for each in chain] == ["2¹⁄₂", "5¹⁄₂", "4"]
    assert [each.length for each in chain] == pytest.approx([45, 99, 72])


def test_equal_neighbours_are_measured_together() -> None:
    chain = dimensions(drawn(view(9, 6, Fraction(9, 2), 3, Fraction(3, 2))).shapes)
    assert [each.label for each in chain] == ["4\u00a0×\u00a01¹⁄₂", "2\u00a0×\u00a03"]
    assert [each.length for each in chain] == pytest.approx([108, 108])


def test_scrap_is_measured_apart_from_a_piece_of_its_width() -> None:
    labels = [each.label for each in dimensions(drawn(view(9, 6, scrap=(2,))).shapes)]
    assert labels == ["6", "3", "3"]


def test_narrow_strips_have_their_letters_at_their_width() -> None:
    rails = [Fraction(eighths, 8) for eighths in (93, 90, 87, 84, 81, 78)]
    figure = drawn(view(*rails, Fraction(13, 2), Fraction(13, 4), scale=Scale(Fraction(5))))
    pieces = {text.text: box for text, box in text_boxes(figure.shapes) if text.role == "piece"}
    assert list(pieces) == ["A", "B", "C", "D–J"]
    foot = max(box.bottom for text, box in text_boxes(figure.shapes) if text.role == "piece")
    assert pieces["D–J"].bottom == foot


def test_a_strip_has_its_words_where_they_have_room() -> None:
    assert words(drawn(view(8, words=("carriage band",))), "note") == ["carriage band"] * 2
    assert words(drawn(view(11, words=("carriage band",), scrap=(0,))), "note") == []


def test_papers_on_each_other_have_a_letter_each() -> None:
    figure = drawn(view(6, papers=3))
    assert words(figure, "piece") == ["A B C", "D E F"]


def test_a_stack_in_a_narrow_strip_has_its_letters_under_one_another() -> None:
    figure = drawn(view(Fraction(11), papers=3, scrap=(0,)))
    assert words(figure, "piece") == ["A", "B", "C"]


def test_scrap_is_hatched_and_named_and_has_no_letter() -> None:
    figure = drawn(view(7, height=Fraction(11, 2), scrap=(1,)))
    hatched = [
        leaf for leaf, _ in walk(figure.shapes) if isinstance(leaf, Path) and leaf.stroke == STYLE.fine
    ]
    assert any(len(leaf.segments) > 20 for leaf in hatched)
    assert words(figure, "scrap") == ["scrap"]
    assert words(figure, "piece") == ["A"]


@pytest.mark.parametrize(("papers", "beneath"), [(1, 0), (2, 1), (3, 2), (8, 3)])
def test_papers_beneath_show_past_the_first(papers: int, beneath: int) -> None:
    figure = drawn(view(6, papers=papers))
    behind = [
        leaf for leaf, _ in walk(figure.shapes) if isinstance(leaf, Rect) and leaf.stroke == STYLE.narrow
    ]
    assert len(behind) == beneath


def test_a_height_is_said_only_where_the_sheet_does_not_say_it() -> None:
    plain = dimensions(drawn(view(3, width=6)).shapes)
    assert all(each.start[1] == each.end[1] for each in plain)
    upright = [
        each
        for each in dimensions(drawn(view(3, width=6, height=5, stated_height="5")).shapes)
        if each.start[0] == each.end[0]
    ]
    assert [each.label for each in upright] == ["5"]
    assert upright[0].length == pytest.approx(90)


def test_nothing_is_written_on_a_printed_sheet_and_no_width_is_measured() -> None:
    stage = view(10, 8, 6, 4, 2, height=6, printed=True)
    figure = drawn(stage)
    outline = stage_size(stage, STYLE).outline
    letters = [(text.text, box) for text, box in text_boxes(figure.shapes) if text.role == "piece"]
    assert [text for text, _ in letters] == list("ABCDEF")
    for place, (_, box) in enumerate(letters):
        assert box.centre[0] == pytest.approx(at(stage, 2 * place + 1)), "in line with its strip"
    assert all(not box.overlaps(outline) for _, box in text_boxes(figure.shapes))
    assert dimensions(figure.shapes) == ()


def test_register_marks_stand_at_both_ends_of_each_cut() -> None:
    figure = drawn(view(6, 4, height=6, printed=True))
    rings = [leaf for leaf, _ in walk(figure.shapes) if isinstance(leaf, Circle) and leaf.radius < 3]
    assert len(rings) == 4


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


def test_the_scale_of_the_figure_is_given_to_who_sets_it() -> None:
    assert drawn(view(6)).scale == "Scale 1:4"
    german = replace(LABELS, scale="Maßstab", stop="Anschlag")
    figure = drawn(replace(view(6), labels=german))
    assert figure.scale == "Maßstab 1:4"
    assert words(figure, "stop") == ["Anschlag"]


# Whatever is cut.


@st.composite
def stages(draw: st.DrawFn) -> StageView:
    unit = draw(st.sampled_from([Unit.INCH, Unit.CENTIMETRE, Unit.MILLIMETRE]))
    factor = {Unit.INCH: Fraction(1), Unit.CENTIMETRE: Fraction(5, 2), Unit.MILLIMETRE: Fraction(25)}[unit]
    width = draw(st.sampled_from([3, 6, 12])) * factor
    height = draw(st.sampled_from([Fraction(1, 2), Fraction(2), Fraction(6), Fraction(12)])) * factor
    most = int(width / MARKS[unit]) - 1
    marks = draw(st.lists(st.integers(1, most), min_size=1, max_size=9, unique=True))
    readings = [number * MARKS[unit] for number in marks]
    in_order = draw(st.booleans())
    scrap = draw(st.sampled_from([(), (0,), (len(readings),)]))
    return view(
        *(sorted(readings, reverse=True) if in_order else readings),
        width=width,
        height=height,
        scrap=scrap,
        papers=draw(st.integers(1, 3)),
        printed=draw(st.booleans()),
        unit=unit,
        scale=Scale(Fraction(draw(st.sampled_from([3, 4, 5, 6, 8])))),
        words=draw(st.sampled_from([(), ("rail",), ("carriage band", "spare")])),
        stated_height=draw(st.sampled_from(["", print_length(height, unit)])),
    )


# Eight tests look at such figures, and what goes wrong in one of them shows in several: each looks at forty.
FIGURES = settings(max_examples=40)


@FIGURES
@given(stages(), STYLES)
def test_no_text_lies_over_another_or_over_a_line(stage: StageView, style: DrawingStyle) -> None:
    assert_texts_stand_clear(drawn(stage, style).shapes)


@FIGURES
@given(stages(), STYLES)
def test_every_numeral_stands_on_its_mark(stage: StageView, style: DrawingStyle) -> None:
    figure = drawn(stage, style)
    numerals = [(text, box) for text, box in text_boxes(figure.shapes) if text.role == "scale"]
    assert numerals
    for text, box in numerals:
        assert abs(box.centre[0] - at(stage, int(text.text), style)) < mm(0.3), text.text


@FIGURES
@given(stages(), STYLES)
def test_even_numerals_are_never_left_out(stage: StageView, style: DrawingStyle) -> None:
    found = sorted(int(text) for text in words(drawn(stage, style), "scale"))
    whole = {int(cut.value) for cut in stage.cuts if cut.value.denominator == 1}
    bare = set(drawn_numerals(stage, style))
    assert bare <= set(found)
    assert set(found) - bare <= whole


def drawn_numerals(stage: StageView, style: DrawingStyle) -> list[int]:
    """The numerals of the same scale if nothing were cut at a whole number."""
    half = view(
        stage.mark,
        width=stage.seen.width,
        height=stage.seen.height,
        unit=stage.unit,
        scale=stage.scale,
    )
    return [int(text) for text in words(drawn(half, style), "scale")]


@FIGURES
@given(stages(), STYLES)
def test_every_cut_has_its_line_and_its_stem(stage: StageView, style: DrawingStyle) -> None:
    figure = drawn(stage, style)
    expected = sorted(at(stage, cut.value, style) for cut in stage.cuts)
    assert sorted(dashed(figure)) == pytest.approx(expected)
    assert sorted(stems(figure, style)) == pytest.approx(expected)


@FIGURES
@given(stages(), STYLES)
def test_discs_touch_nothing_and_stand_over_their_marks(stage: StageView, style: DrawingStyle) -> None:
    found = discs(drawn(stage, style))
    for (_, x, y, radius), (_, other_x, other_y, _) in combinations(found, 2):
        assert (x - other_x) ** 2 + (y - other_y) ** 2 >= (2 * radius - 0.01) ** 2
    over = {number: x for number, x, _, _ in found}
    lines = brackets(drawn(stage, style))
    for cut in stage.cuts:
        x = at(stage, cut.value, style)
        is_bracketed = any(start - 0.01 <= x <= end + 0.01 for start, end in lines)
        assert is_bracketed or over[str(cut.number)] == pytest.approx(x)


@FIGURES
@given(stages())
def test_a_dimension_says_what_it_measures(stage: StageView) -> None:
    for each in dimensions(drawn(stage).shapes):
        said = measured_label(each.label)
        assert each.length == pytest.approx(stage.scale.points(said, stage.unit), abs=1e-6), each.label


@FIGURES
@given(stages(), STYLES)
def test_the_size_is_known_before_anything_is_drawn(stage: StageView, style: DrawingStyle) -> None:
    size, figure = stage_size(stage, style), drawn(stage, style)
    assert (figure.width, figure.height) == (size.width, size.height)
    box = bounds(shape for shape in figure.shapes if not isinstance(shape, Use))
    # A line's box is a little longer than the line, which ends square.
    assert Box(0, 0, size.width, size.height).grown(0.51 * style.dimension_width).holds(box)
    assert box.grown(1.5).holds(Box(0, 0, size.width, size.height)), "and no larger than it must be"


@FIGURES
@given(stages())
def test_nothing_is_printed_under_nine_points(stage: StageView) -> None:
    for text, _ in text_boxes(drawn(stage).shapes):
        assert text.role == "marker" or text.size >= 9, text


@pytest.mark.parametrize(
    "stage",
    [
        view(8, Fraction(5, 2), words=("rail",)),
        view(Fraction(93, 8), Fraction(90, 8), Fraction(87, 8), scale=Scale(Fraction(5)), scrap=(3,)),
        view(6, height=3, printed=True, papers=2),
        view(
            20,
            15,
            12,
            width=30,
            height=12,
            unit=Unit.CENTIMETRE,
            scale=Scale(Fraction(5)),
            stated_height="12",
        ),
    ],
)
def test_pdf_and_svg_show_the_same(stage: StageView) -> None:
    page = replace(drawn(stage), width=360.0, height=540.0)  # whole millimetres and pixels
    assert same_picture(figure_pdf(page), figure_svg(page))


# A scale that begins at the right.


@pytest.mark.parametrize(
    "stage",
    [
        view(8, Fraction(5, 2), words=("panel",)),
        view(11, 8, 5, scrap=(3,)),
        view(9, 6, 3, printed=True),
        view(4, papers=3, stated_height="5"),
    ],
)
def test_a_scale_that_begins_at_the_right_is_the_mirror_image(stage: StageView) -> None:
    """Cuts, numerals and strips stand as far from the right as they else do from the left."""
    one, other = drawn(stage), drawn(at_right(stage))
    left, right = stage_size(stage, STYLE).outline, stage_size(at_right(stage), STYLE).outline
    assert sorted(right.right - x for x in dashed(other)) == pytest.approx(
        sorted(x - left.left for x in dashed(one))
    )
    for role in ("scale", "piece"):
        from_left = {(text.text, round(box.centre[0] - left.left, 3)) for text, box in texts(one, role)}
        from_right = {(text.text, round(right.right - box.centre[0], 3)) for text, box in texts(other, role)}
        assert from_left == from_right
    assert_texts_stand_clear(other.shapes)


def test_the_stop_stands_at_the_side_of_the_zero() -> None:
    figure, outline = drawn(at_right(view(8))), stage_size(at_right(view(8)), STYLE).outline
    ((_, stop),) = texts(figure, "stop")
    zero = next(box for text, box in texts(figure, "scale") if text.text == "0")
    assert stop.left > outline.centre[0]
    assert stop.right <= figure.width
    assert zero.centre[0] == pytest.approx(outline.right)


def test_widths_are_told_from_left_to_right_with_the_zero_at_the_right() -> None:
    shapes = drawn(at_right(view(10, 7))).shapes
    across = sorted(dimensions(shapes), key=lambda each: each.start[0])
    assert [measured_label(each.label) for each in across] == [2, 3, 7]
    for each in across:
        assert each.end[0] - each.start[0] == pytest.approx(
            QUARTER.points(measured_label(each.label), Unit.INCH)
        )


def test_letters_of_many_narrow_strips_run_as_they_lie() -> None:
    rails = [Fraction(eighths, 8) for eighths in (93, 90, 87, 84, 81, 78)]
    assert "B–F" in words(drawn(view(*rails, scrap=(6,))), "piece")
    assert "F–B" in words(drawn(at_right(view(*rails, scrap=(6,)))), "piece")


def texts(figure: Figure, role: str) -> list[tuple[Text, Box]]:
    return [(text, box) for text, box in text_boxes(figure.shapes) if text.role == role]
