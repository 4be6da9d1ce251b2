"""Affine maps, boxes, colours and the filters over shapes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.drawing.shapes.affine import (
    Affine,
    Box,
    compose,
    rotation,
    scaling,
    translation,
)
from booklet.drawing.shapes.figure import (
    BLACK,
    WHITE,
    Anchor,
    Circle,
    Colour,
    Dimension,
    Fill,
    Group,
    Line,
    Path,
    Rect,
    Stroke,
    Symbol,
    Text,
    Use,
    bounds,
    translated,
)
from booklet.drawing.shapes.fonts import Font
from tests.drawing.readings import text_boxes
from tests.drawing.walking import DrawnDimension, dimensions, walk

numbers = st.floats(-100, 100, allow_nan=False)
points = st.tuples(numbers, numbers)
maps = st.one_of(
    st.builds(translation, numbers, numbers),
    st.builds(rotation, numbers, points),
    st.builds(scaling, st.floats(0.1, 10), st.floats(0.1, 10)),
    st.builds(scaling, st.just(-1.0), st.just(1.0)),
)
INK = Colour("#1f2d3d")


@given(st.lists(maps, max_size=4), points)
def test_a_composed_map_does_each_in_turn(steps: list[Affine], point: tuple[float, float]) -> None:
    after = point
    for step in steps:
        after = step.apply(after)
    assert compose(*steps).apply(point) == pytest.approx(after, abs=1e-6)


def test_a_turn_is_clockwise_as_seen_and_quarter_turns_are_exact() -> None:
    assert rotation(90).apply((1, 0)) == (0, 1), "right goes down"
    assert rotation(90, (5, 5)).apply((5, 0)) == (10, 5), "the top goes to the right"
    assert rotation(-90).apply((3, 4)) == (4, -3)
    assert rotation(450) == rotation(90)


def test_boxes_that_share_only_an_edge_do_not_overlap() -> None:
    left = Box(0, 0, 10, 10)
    assert not left.overlaps(Box(10, 0, 20, 10))
    assert left.overlaps(Box(9, 9, 20, 20))
    assert left.common(Box(9, 9, 20, 20)) == Box(9, 9, 10, 10)
    assert left.grown(1).holds(left)


@pytest.mark.parametrize("wrong", ["#12345", "1b5a78", "#1B5A78", "red", "#12345g"])
def test_a_colour_is_six_small_hex_digits(wrong: str) -> None:
    with pytest.raises(ValueError, match="colour"):
        Colour(wrong)


def test_contrast_of_known_colours() -> None:
    # WCAG 2.x: black on white is 21:1; #767676 is the lightest grey that reaches 4.5:1 on white.
    assert BLACK.contrast(WHITE) == pytest.approx(21)
    assert Colour("#767676").contrast(WHITE) == pytest.approx(4.54, abs=0.01)
    assert Colour("#777777").contrast(WHITE) < 4.5


def test_a_mixed_colour_is_opaque_and_between() -> None:
    assert BLACK.lighter(0.5) == Colour("#808080")
    assert WHITE.darker(1) == BLACK
    assert Colour("#ff0000").mixed(Colour("#0000ff"), 0.25) == Colour("#bf0040")


def test_bounds_count_strokes_transforms_and_clips() -> None:
    thick = Line((0, 0), (10, 0), Stroke(INK, 2))
    assert bounds([thick]) == Box(-1, -1, 11, 1)
    assert bounds([translated([thick], 5, 5)]) == Box(4, 4, 16, 6)
    clipped = Group((Rect(0, 0, 100, 100, Fill(INK)),), scaling(2), ((10, 10), (20, 10), (20, 30), (10, 30)))
    assert bounds([clipped]) == Box(20, 20, 40, 60)
    curve = Path((("M", 0, 0), ("C", 0, 10, 20, 10, 20, 0)), Fill(INK))
    assert bounds([curve]).holds(Box(0, 0, 20, 7.5)), "the curve's own height is 7.5"
    assert bounds([Circle(5, 5, 5)]) == Box(0, 0, 10, 10)


def test_walking_reaches_into_groups_and_symbols() -> None:
    dot = Circle(1, 1, 1)
    symbol = Symbol("dot", (dot,), 2, 2)
    shapes = (Group((Use(symbol, translation(10, 0)),), scaling(2)), dot)
    found = [(leaf, transform.apply((1, 1))) for leaf, transform in walk(shapes)]
    assert found == [(dot, (22, 2)), (dot, (1, 1))]


def test_a_text_turned_to_read_from_the_right_stands_upright() -> None:
    text = Text("12", 50, 50, 10, Font.SANS, INK, Anchor.MIDDLE, -90)
    box = text.box
    assert box.width == pytest.approx(10 * (0.80 + 0.225))
    assert box.height == pytest.approx(text.width)
    assert box.centre[1] == pytest.approx(50)
    assert box.right == pytest.approx(50 + 2.25), "the feet lie to the right"
    ((found, moved),) = text_boxes([translated([text], 100, 0)])
    assert found is text
    assert moved.left == pytest.approx(box.left + 100)


def test_a_dimension_is_found_where_its_figure_puts_it() -> None:
    record = Dimension((0, 0), (18, 0), "1")
    inner = Group((), tag="dimension", dimension=record)
    (found,) = dimensions([Group((inner,), compose(scaling(0.5), translation(10, 20)))])
    assert found == DrawnDimension((10, 20), (19, 20), "1")
    assert found.length == 9
