"""The artwork of printed elements: ground, frame, picture and words stay inside, and off each other."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.drawing.papers.elements import ElementPaint, artwork_boxes, element_shapes, words_box
from booklet.drawing.papers.pictures import frame_shapes
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Colour, Group, Path, Rect, Shape, bounds
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.outlined import outlined
from booklet.kit.element import ElementFrame, ElementPicture
from tests.drawing.looks import colours
from tests.drawing.readings import text_boxes
from tests.drawing.walking import walk

GROUND, INK = Colour("#fff4dd"), Colour("#204060")
SIDES = st.floats(18, 860)  # from a quarter of an inch to nearly a whole sheet
WORDS = st.lists(st.text("aegjlmtwWMQ’éß&-0", min_size=1, max_size=14), min_size=1, max_size=8).map(" ".join)


@st.composite
def paints(draw: st.DrawFn) -> ElementPaint:
    left, top = draw(st.floats(0, 100)), draw(st.floats(0, 100))
    box = Box(left, top, left + draw(SIDES), top + draw(SIDES))
    return ElementPaint(
        box,
        GROUND,
        INK,
        draw(st.sampled_from(list(ElementFrame))),
        draw(st.none() | WORDS),
        draw(st.none() | st.sampled_from(list(ElementPicture))),
    )


def parts(paint: ElementPaint) -> tuple[Shape, tuple[Shape, ...], list[Shape], list[Shape]]:
    """The ground, the frame, the pictures and the words."""
    ground, *others = element_shapes(paint)
    count = len(frame_shapes(paint.frame, paint.box, paint.ink))
    frame, contents = tuple(others[:count]), others[count:]
    pictures: list[Shape] = [
        shape for shape in contents if isinstance(shape, Group) and shape.tag.startswith("picture")
    ]
    return ground, frame, pictures, [shape for shape in contents if shape not in pictures]


@given(paints())
def test_everything_stays_inside_the_element(paint: ElementPaint) -> None:
    ground, frame, pictures, words = parts(paint)
    assert tuple(bounds([ground])) == pytest.approx(tuple(paint.box))
    for shape in (*frame, *pictures, *words):
        assert paint.box.grown(1e-6).holds(bounds([shape])), shape


@given(paints())
def test_words_and_pictures_lie_within_the_frame_and_off_each_other(paint: ElementPaint) -> None:
    _, frame, pictures, words = parts(paint)
    inner = within(frame, paint.box)
    for shape in (*pictures, *words):
        assert inner.grown(0.01).holds(bounds([shape]))
    for picture in pictures:
        for said in words:
            assert not bounds([picture]).grown(-0.01).overlaps(bounds([said]))


def within(frame: tuple[Shape, ...], box: Box) -> Box:
    """The room within the innermost line of a frame."""
    for shape in frame:
        assert isinstance(shape, Rect | Path)
        assert shape.stroke is not None
        line = bounds([shape]).grown(-shape.stroke.width)
        assert line.width > 0
        assert line.height > 0
        box = box.common(line) or box
    return box


@given(paints())
def test_no_box_is_turned_inside_out(paint: ElementPaint) -> None:
    for leaf, _ in walk(element_shapes(paint)):
        if isinstance(leaf, Rect):
            assert leaf.width > 0
            assert leaf.height > 0


@given(paints())
@settings(max_examples=30)
def test_words_are_print_and_no_text(paint: ElementPaint) -> None:
    """What is printed on a sheet is not to be found by a search, nor counted as the booklet's own words."""
    assert text_boxes(element_shapes(paint)) == ()


def test_words_are_as_large_as_there_is_room() -> None:
    heights = [letters_height("Hi", Box(0, 0, side, side)) for side in (72, 144, 216)]
    assert heights == sorted(heights)
    assert heights[0] < heights[-1]


def letters_height(words: str, box: Box) -> float:
    *_, said = parts(ElementPaint(box, GROUND, INK, words=words))
    return bounds(said).height


@pytest.mark.parametrize(("box", "upright"), [(Box(0, 0, 40, 200), True), (Box(0, 0, 200, 40), False)])
def test_words_run_along_a_narrow_strip_and_read_from_the_right(box: Box, upright: bool) -> None:
    *_, (said,) = parts(ElementPaint(box, GROUND, INK, words="thyme and mint"))
    taken = bounds([said])
    assert (taken.height > taken.width) == upright
    if upright:
        assert isinstance(said, Group)
        # Quarter turns anticlockwise: what runs to the right runs up the page.
        assert said.transform.apply((1, 0))[1] < said.transform.apply((0, 0))[1]


def test_lines_that_are_typed_stay_lines() -> None:
    *_, (one,) = parts(ElementPaint(Box(0, 0, 144, 144), GROUND, INK, words="good night"))
    *_, (two,) = parts(ElementPaint(Box(0, 0, 144, 144), GROUND, INK, words="good\nnight"))
    assert bounds([two]).height > bounds([one]).height or bounds([two]) == bounds([one])


def test_ground_and_ink_are_printed() -> None:
    paint = ElementPaint(Box(0, 0, 100, 60), GROUND, INK, ElementFrame.LINE, "Low tide")
    pixels = colours(element_shapes(paint), 100, 60, 4.0)
    found = {tuple(int(part) for part in pixel) for pixel in pixels.reshape(-1, 3)}
    assert {(0xFF, 0xF4, 0xDD), (0x20, 0x40, 0x60)} <= found


# Words as outlines.


@given(st.text("aegjlmtwWMQ", min_size=1, max_size=20), st.floats(6, 60))
def test_outlines_are_as_wide_and_stand_where_the_text_would(text: str, size: float) -> None:
    path = Path(outlined(text, Font.SERIF_BOLD, size, 100.0, 50.0))
    box = bounds([path])
    width = text_width(text, Font.SERIF_BOLD, size)
    # Letters have a little air to both sides within their advance, and hardly ever reach beyond it.
    assert abs(box.centre[0] - 100.0) <= 0.12 * size
    assert box.width <= width + 0.1 * size
    assert box.top >= 50.0 - 0.95 * size
    assert box.bottom <= 50.0 + 0.32 * size


def test_a_capital_stands_on_the_line_as_high_as_the_face_says() -> None:
    box = bounds([Path(outlined("H", Font.SERIF_BOLD, 100.0, 0.0, 0.0))])
    assert box.bottom == pytest.approx(0.0, abs=0.5)
    assert -box.top == pytest.approx(cap_height(Font.SERIF_BOLD, 100.0), abs=0.5)


def test_a_letter_that_the_face_lacks_shows_nothing() -> None:
    assert outlined("\ue000", Font.SERIF_BOLD, 12.0, 0.0, 0.0) == ()


@pytest.mark.parametrize("picture", [None, ElementPicture.LEAF])
def test_words_of_letters_that_the_typeface_lacks_leave_the_element_without_words(
    picture: ElementPicture | None,
) -> None:
    box = Box(0.0, 0.0, 72.0, 36.0)
    wordless = ElementPaint(box, GROUND, INK, picture=picture)
    unknown = ElementPaint(box, GROUND, INK, words="ᚠ", picture=picture)
    assert element_shapes(unknown) == element_shapes(wordless)
    assert artwork_boxes(unknown) == artwork_boxes(wordless)
    assert words_box(unknown) is None
