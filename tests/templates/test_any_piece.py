"""Whatever the size of a piece, and whatever is done to it, its words find a place off its lines."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.cutting.finish import Finish, Hole, Rounding
from booklet.drawing.shapes.affine import Box, bounds_of_points
from booklet.drawing.shapes.style import DrawingStyle
from booklet.drawing.templates.lines import drawn_lines, text_boxes
from booklet.drawing.templates.piece_template import PieceTemplate, draw_piece_template, piece_area
from booklet.drawing.templates.words import WordBlock
from booklet.kit.sheet import OutlineShape
from booklet.kit.steps import Corner
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactPoint, ExactRect, rect_at_origin
from booklet.measure.length import Size, Unit
from booklet.pages.office_paper import OfficePaper
from booklet.pages.tiles import tile
from booklet.placing.piece_shape import PieceShape, ShapePart

STYLE = DrawingStyle()

sides = st.builds(Fraction, st.integers(1, 30 * 16), st.just(16))
names = st.sampled_from(
    ["rail", "left canopy", "Blätterhintergrundtafelkartenschuber", "a b c d e f g h i j"]
)


@st.composite
def shapes(draw: st.DrawFn) -> PieceShape:
    size = Size(draw(sides), draw(sides))
    least = min(size.width, size.height)
    corners = draw(st.lists(st.sampled_from(Corner), unique=True))
    holes = [
        Hole(ExactPoint(size.width * share, size.height / 2), least / 4)
        for share in draw(st.lists(st.sampled_from([Fraction(1, 4), Fraction(3, 4)]), unique=True))
    ]
    finish = Finish((Rounding(tuple(corners), least / 3),), tuple(corners), holes=tuple(holes))
    outline = draw(st.sampled_from(OutlineShape))
    whole = ShapePart("piece", rect_at_origin(size), finish)
    if draw(st.booleans()):
        return PieceShape(size, outline, finish, (whole,))
    half = size.width / 2
    parts = [
        ShapePart(name, ExactRect(x, Fraction(0), half, size.height), Finish())
        for name, x in (("one", Fraction(0)), ("other", half))
    ]
    return PieceShape(size, OutlineShape.RECTANGLE, Finish(), tuple(parts))


@given(shape=shapes(), name=names, up=st.booleans(), paper=st.sampled_from(OfficePaper))
@settings(max_examples=25, deadline=None)
def test_words_find_a_place(shape: PieceShape, name: str, up: bool, paper: OfficePaper) -> None:
    assert_words_have_a_place(shape, name, up, paper)


@pytest.mark.thorough
@given(shape=shapes(), name=names, up=st.booleans(), paper=st.sampled_from(OfficePaper))
@settings(max_examples=60, deadline=None)
def test_words_find_a_place_on_many_pieces(
    shape: PieceShape, name: str, up: bool, paper: OfficePaper
) -> None:
    assert_words_have_a_place(shape, name, up, paper)


def assert_words_have_a_place(shape: PieceShape, name: str, up: bool, paper: OfficePaper) -> None:
    words = WordBlock((f"3D, 3E, {name}", "The middle of the line is the edge."), (name,), up)
    template = PieceTemplate(name, shape, Unit.INCH, words, tuple(part.name for part in shape.parts))
    area = piece_area(template, STYLE)
    seams = [
        bounds_of_points([(float(r.x), float(r.y)), (float(r.right), float(r.bottom))])
        for r in (seam.shared for seam in tile(area.size, paper).seams)
    ]
    figure = draw_piece_template(template, seams, STYLE)
    boxes = list(text_boxes(figure.shapes))
    assert len(boxes) >= 3
    whole = Box(0.0, 0.0, float(area.size.width), float(area.size.height)).grown(0.1)
    assert all(whole.holds(box) for box in boxes)
    for start, end in drawn_lines(figure.shapes):
        line = bounds_of_points([start, end])
        if start[0] == end[0] or start[1] == end[1]:
            touched = [box for box in boxes if box.grown(-0.5).overlaps(line.grown(0.1))]
            assert touched == []
