"""Dimension lines: their arrangement after ISO 129-1 and ISO 128-2, and texts that lie over nothing."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.drawing.marks.dimension import (
    ENDS_TAG,
    Chain,
    Dimensioning,
    Side,
    dimension,
    dimension_chain,
)
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import (
    Circle,
    Line,
    Path,
    Polyline,
    Shape,
    Text,
    dimensions,
    groups,
    walk,
)
from booklet.drawing.shapes.style import DrawingStyle, mm
from tests.drawing.overlaps import assert_nothing_overlaps, crosses, segments
from tests.drawing.readings import text_boxes
from tests.drawing.styles import STYLE, STYLES

INCH = 18.0  # an inch at 1:4, in points
SIDES = tuple(Side)


def labelled(shapes: Iterable[Shape]) -> dict[str, Text]:
    return {text.text: text for text, _ in text_boxes(shapes)}


def test_the_check_for_crossing_sees_a_crossing() -> None:
    box = Box(0, 0, 10, 10)
    assert crosses((-5, 5), (15, 6), box)
    assert crosses((2, 2), (3, 3), box)
    assert not crosses((-5, 5), (5, 16), Box(0, 0, 10, 10).grown(-4.9))
    assert not crosses((0, -1), (0, 11), box), "along the edge"


# --- arrangement ---


def lines_of(drawn: Dimensioning, tag: str) -> list[Line]:
    return [
        child
        for group, _ in groups(drawn.shapes)
        if group.tag == tag
        for child in group.children
        if isinstance(child, Line)
    ]


def test_outlines_are_twice_as_wide_as_dimension_lines() -> None:
    # ISO 128-2 (from memory): wide to narrow 2:1, here 0.5 mm and 0.25 mm; nothing under 0.18 mm.
    drawn = dimension(Side.BOTTOM, 100, 0, 90, "5", STYLE)
    widths = {line.stroke.width for line in lines_of(drawn, "dimension") + lines_of(drawn, ENDS_TAG)}
    assert widths == {STYLE.dimension_width}
    assert STYLE.outline.width == pytest.approx(2 * STYLE.dimension_width)
    assert STYLE.outline.width == pytest.approx(1.417, abs=0.001)
    assert min(STYLE.fine_width, *widths) >= mm(0.18)


def test_dimension_numerals_are_at_least_two_and_a_half_millimetres_high() -> None:
    # ISO 3098: lettering heights 2.5, 3.5, 5 mm; a numeral of Booklet Sans is as high as its capitals.
    text = labelled(dimension(Side.BOTTOM, 0, 0, 90, "5", STYLE).shapes)["5"]
    assert text.size * 0.656 / 72 * 25.4 >= 2.5 - 0.001
    assert text.size >= 9.9


@pytest.mark.parametrize(("side", "edge", "out"), [(Side.BOTTOM, 100, 1), (Side.TOP, 100, -1)])
def test_extension_lines_start_clear_of_the_outline_and_pass_the_line(
    side: Side, edge: float, out: int
) -> None:
    drawn = dimension(side, edge, 0, 90, "5", STYLE)
    level = lines_of(drawn, "dimension")[0].start[1]
    extensions = lines_of(drawn, ENDS_TAG)
    assert [line.start[0] for line in extensions] == [0, 90]
    for line in extensions:
        assert (line.start[1] - edge) * out >= 2 * STYLE.outline_width / 2 + 0.5, "a visible gap"
        # ISO 129-1 (from memory): about eight line widths past the dimension line.
        assert (line.end[1] - level) * out == pytest.approx(8 * STYLE.dimension_width)


def test_the_text_stands_above_a_level_line_and_reads_from_below() -> None:
    for side in (Side.BOTTOM, Side.TOP):
        drawn = dimension(side, 100, 0, 90, "5¹⁄₂", STYLE)
        line, text = lines_of(drawn, "dimension")[0], labelled(drawn.shapes)["5¹⁄₂"]
        assert text.rotation == 0
        assert text.box.bottom < line.start[1]
        assert text.box.centre[0] == pytest.approx(45)


def test_the_text_of_an_upright_line_stands_left_of_it_and_reads_from_the_right() -> None:
    for side in (Side.LEFT, Side.RIGHT):
        drawn = dimension(side, 100, 0, 90, "5¹⁄₂", STYLE)
        line, text = lines_of(drawn, "dimension")[0], labelled(drawn.shapes)["5¹⁄₂"]
        assert text.rotation == -90, "its feet point to the right, where the reader turns the page to"
        assert text.box.right < line.start[0]
        assert text.box.centre[1] == pytest.approx(45)


@pytest.mark.parametrize("side", SIDES)
def test_a_dimension_lies_outside_the_outline(side: Side) -> None:
    drawn = dimension(side, 100, 0, 90, "5", STYLE)
    box = drawn.box
    nearest = {
        Side.BOTTOM: box.top - 100,
        Side.TOP: 100 - box.bottom,
        Side.RIGHT: box.left - 100,
        Side.LEFT: 100 - box.right,
    }[side]
    assert nearest == pytest.approx(STYLE.extension_gap, abs=STYLE.dimension_width)


def arrow_tails(drawn: Dimensioning) -> list[tuple[float, float]]:
    """Each level arrowhead as (tip, tail) along x."""
    found = []
    for leaf, _ in walk(drawn.shapes):
        if isinstance(leaf, Path):
            across = [step[1] for step in leaf.segments if len(step) == 3]
            found += list(zip(across[::3], across[1::3], strict=True))
    return found


def test_arrowheads_lie_inside_where_both_fit_and_outside_where_not() -> None:
    length = STYLE.arrow_length
    assert arrow_tails(dimension(Side.BOTTOM, 0, 0, 90, "5", STYLE)) == [(0, length), (90, 90 - length)]
    assert arrow_tails(dimension(Side.BOTTOM, 0, 0, 12, "1", STYLE)) == [(0, -length), (12, 12 + length)]


def test_arrowheads_are_three_times_as_long_as_wide() -> None:
    assert STYLE.arrow_length == pytest.approx(3 * STYLE.arrow_width)


def test_a_text_that_fits_stays_inside_though_the_arrowheads_do_not() -> None:
    text = labelled(dimension(Side.BOTTOM, 0, 0, 13, "1", STYLE).shapes)["1"]
    assert 0 < text.box.left < text.box.right < 13


def test_a_text_too_wide_for_its_space_moves_past_the_arrowhead() -> None:
    drawn = dimension(Side.BOTTOM, 0, 0, 9, "11⁷⁄₈", STYLE)
    box = labelled(drawn.shapes)["11⁷⁄₈"].box
    assert box.left > 9 + STYLE.arrow_length
    assert max(line.end[0] for line in lines_of(drawn, ENDS_TAG)) >= box.right - 0.01, "the line underlies it"


def test_a_text_with_no_room_past_the_end_moves_out_on_a_leader() -> None:
    drawn = dimension(Side.BOTTOM, 0, 50, 54, "¹⁄₄", STYLE, room=(45, 60))
    (leader,) = (leaf for leaf, _ in walk(drawn.shapes) if isinstance(leaf, Polyline))
    box = labelled(drawn.shapes)["¹⁄₄"].box
    assert leader.points[0] == (52, STYLE.first_offset), "from the middle of the dimension line"
    assert box.left <= leader.points[-1][0] <= box.right
    assert box.top - 1 <= leader.points[-1][1] < box.top


def test_a_dot_stands_between_neighbouring_narrow_spaces() -> None:
    drawn = dimension_chain(Side.BOTTOM, 0, Chain((0, 60, 66, 72, 140), ("a", "b", "c", "d")), STYLE)
    dots = [leaf.x for leaf, _ in walk(drawn.shapes) if isinstance(leaf, Circle)]
    assert dots == [66]
    assert sorted(tip for tip, _ in arrow_tails(drawn)) == [0, 60, 72, 140]


def test_a_span_without_a_label_gets_no_dimension() -> None:
    drawn = dimension_chain(Side.BOTTOM, 0, Chain((0, 60, 90, 150), ("3", None, "3")), STYLE)
    assert [record.start[0] for record in dimensions(drawn.shapes)] == [0, 90]


@pytest.mark.parametrize(
    "wrong", [((0, 10), ("a", "b")), ((0, 10, 5), ("a", "b")), ((0, 0), ("a",)), ((0,), ())]
)
def test_a_chain_whose_positions_and_labels_disagree_is_refused(
    wrong: tuple[tuple[float, ...], tuple[str, ...]],
) -> None:
    with pytest.raises(ValueError, match="chain"):
        Chain(*wrong)


# --- never over each other ---

LABELS = st.sampled_from(["¹⁄₈", "¹⁄₄", "³⁄₈", "1", "2¹⁄₂", "11⁷⁄₈", "12", "108", "≈ 3¹⁄₁₆"])


@st.composite
def chains(draw: st.DrawFn) -> Chain:
    eighths = draw(st.lists(st.integers(1, 40), min_size=1, max_size=14))
    labels = draw(st.lists(LABELS, min_size=len(eighths), max_size=len(eighths)))
    positions = [draw(st.sampled_from([0.0, 100.0]))]
    for length in eighths:
        positions.append(positions[-1] + length * INCH / 8)
    return Chain(tuple(positions), tuple(labels))


def rooms(chain: Chain) -> st.SearchStrategy[tuple[float, float]]:
    margin = st.sampled_from([0.0, 8.0, 30.0, 1000.0])
    return st.tuples(margin, margin).map(
        lambda pair: (chain.positions[0] - pair[0], chain.positions[-1] + pair[1])
    )


@given(st.data(), chains(), st.sampled_from(SIDES), STYLES)
def test_no_text_lies_over_another_or_over_a_line(
    data: st.DataObject, chain: Chain, side: Side, style: DrawingStyle
) -> None:
    room = data.draw(rooms(chain))
    drawn = dimension_chain(side, 50, chain, style, room=room)
    assert_nothing_overlaps(drawn.shapes)
    records = dimensions(drawn.shapes)
    assert len(records) == len(chain.labels)


@given(
    st.data(), chains(), st.lists(st.tuples(*[st.integers(0, 200)] * 2), min_size=1, max_size=4, unique=True)
)
def test_texts_already_there_are_avoided(
    data: st.DataObject, chain: Chain, corners: list[tuple[int, int]]
) -> None:
    taken: list[Box] = []
    for x, y in corners:
        box = Box(x, 55 + y, x + 40, 55 + y + 11)
        if not any(box.grown(6).overlaps(other) for other in taken):
            taken.append(box)
    drawn = dimension_chain(Side.BOTTOM, 50, chain, STYLE, room=data.draw(rooms(chain)), obstacles=taken)
    assert_nothing_overlaps(drawn.shapes, taken)
    for start, end in segments(drawn.shapes):
        for box in taken:
            assert not crosses(start, end, box.grown(-0.01)), (start, end, box)


@given(chains(), st.sampled_from(SIDES))
def test_each_dimension_line_measures_its_span(chain: Chain, side: Side) -> None:
    drawn = dimension_chain(side, 50, chain, STYLE)
    upright = side in (Side.LEFT, Side.RIGHT)
    found = [
        (sorted((record.start[upright], record.end[upright])), record.label, record.length)
        for record in dimensions(drawn.shapes)
    ]
    wanted: list[tuple[Any, str | None, Any]] = [
        ([pytest.approx(start), pytest.approx(end)], label, pytest.approx(end - start))
        for (start, end), label in zip(pairwise(chain.positions), chain.labels, strict=True)
    ]
    assert sorted(found) == wanted
    lines = [(line.start, line.end) for line in lines_of(drawn, "dimension")]
    assert lines == [(record.start, record.end) for record in dimensions(drawn.shapes)]
