"""Widths on one line under an outline: what stands above the line, what under it, how ends are drawn."""

from __future__ import annotations

from dataclasses import replace
from itertools import accumulate, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.drawing.marks.width_chain import Width, WidthChain, chain_shapes, height_shapes, merged
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Circle, Path, Polyline, Shape, bounds
from booklet.drawing.shapes.style import DrawingStyle
from tests.drawing.overlaps import assert_texts_stand_clear
from tests.drawing.readings import text_boxes
from tests.drawing.styles import STYLE, STYLES
from tests.drawing.walking import dimensions, walk


def chain(*spans: float, letters: tuple[str, ...] = (), style: DrawingStyle = STYLE) -> WidthChain:
    """A chain of strips of these widths in points, each labelled with its own width."""
    ends = [0.0, *accumulate(spans)]
    names = letters or ("",) * len(spans)
    widths = [
        Width(start, end, f"{end - start:g}", name)
        for (start, end), name in zip(pairwise(ends), names, strict=True)
    ]
    return WidthChain(tuple(widths), 100.0, -7.5, ends[-1] + 7.5, style)


def shapes(of: WidthChain) -> tuple[Shape, ...]:
    return tuple(chain_shapes(of))


def texts(of: WidthChain) -> dict[str, Box]:
    return {text.text: box for text, box in text_boxes(shapes(of))}


def test_a_width_stands_above_its_line() -> None:
    of = chain(60, 80)
    assert all(box.bottom < of.line for box in texts(of).values())
    assert [each.label for each in dimensions(shapes(of))] == ["60", "80"]
    assert of.bottom < of.line + 4


def test_a_width_without_room_stands_under_the_line() -> None:
    of = chain(80, 6)
    assert texts(of)["80"].bottom < of.line < texts(of)["6"].top
    assert texts(of)["6"].centre[0] == pytest.approx(83)


def test_texts_under_the_line_move_apart_in_order_on_leaders() -> None:
    of = chain(6, 6.5, 7, 7.5, 8)
    found = [texts(of)[label].centre[0] for label in ("6", "6.5", "7", "7.5", "8")]
    assert found == sorted(found)
    assert any(isinstance(leaf, Polyline) for leaf, _ in walk(shapes(of)))
    assert_texts_stand_clear(shapes(of))


def test_letters_of_a_narrow_strip_stand_with_its_width() -> None:
    of = chain(80, 6, letters=("", "D"))
    found = texts(of)
    assert found["D"].top > found["6"].top
    assert found["D"].centre[0] == pytest.approx(found["6"].centre[0])


def test_a_line_with_nothing_above_it_lies_nearer() -> None:
    assert chain(6, 6).line < chain(60, 6).line


def test_alike_neighbours_are_one() -> None:
    widths = [Width(0, 5, "3/8", "D"), Width(5, 10, "3/8", "E"), Width(10, 40, "2")]
    assert merged(widths, [False, True, False], "×") == (
        Width(0, 10, "2\u00a0×\u00a03/8", "D E"),
        Width(10, 40, "2"),
    )


def test_letters_of_many_alike_neighbours_are_told_by_the_first_and_the_last() -> None:
    ends = [3.0 * at for at in range(7)]
    rails = [Width(a, b, "3/8", name) for (a, b), name in zip(pairwise(ends), "DEFGHJ", strict=True)]
    alike = [False, *[True] * 5]
    assert [width.letters for width in merged(rails, alike, "×")] == ["D–J"]
    apart = [replace(width, letters=name) for width, name in zip(rails, "ACEGJL", strict=True)]
    assert [width.letters for width in merged(apart, alike, "×")] == ["A C E G J L"]


def test_wide_strips_have_arrows_and_narrow_ones_between_them_dots() -> None:
    drawn = shapes(chain(60, 6, 6, 60))
    dots = [leaf.x for leaf, _ in walk(drawn) if isinstance(leaf, Circle)]
    assert dots == pytest.approx([66])
    (heads,) = [leaf for leaf, _ in walk(drawn) if isinstance(leaf, Path)]
    tips = [float(step[-2]) for step in heads.segments if step[0] == "M" and len(step) > 1]
    assert tips == pytest.approx([0, 60, 72, 132])


@given(st.lists(st.floats(2, 90).map(lambda x: round(x, 1)), min_size=1, max_size=8), STYLES)
def test_nothing_of_a_chain_overlaps_and_its_reach_is_known(spans: list[float], style: DrawingStyle) -> None:
    of = chain(*spans, letters=tuple("ABCDEFGH"[: len(spans)]), style=style)
    assert_texts_stand_clear(shapes(of))
    box = bounds(shapes(of))
    assert box.bottom <= of.bottom + 0.5
    # Half an arrowhead stands beyond the point that it touches.
    assert box.right <= max(of.right, sum(spans)) + style.arrow_width / 2 + 0.25
    assert [each.length for each in dimensions(shapes(of))] == pytest.approx(spans)


def test_a_height_reads_from_the_right() -> None:
    outline = Box(0, 0, 80, 60)
    ((text, box),) = text_boxes(height_shapes(outline, 80, "7¹⁄₂", STYLE))
    assert text.rotation == -90
    assert box.left > 80
    assert box.centre[1] == pytest.approx(30, abs=0.5)


def test_a_height_without_room_along_its_line_stands_beside_it() -> None:
    outline = Box(0, 0, 80, 9)
    ((text, box),) = text_boxes(height_shapes(outline, 80, "10¹⁄₂", STYLE))
    assert text.rotation == 0
    (measured,) = dimensions(height_shapes(outline, 80, "10¹⁄₂", STYLE))
    assert box.left > measured.start[0]
    assert measured.length == pytest.approx(9)
