"""Gaps between pieces, and stencilled areas, on the placing figure."""

from __future__ import annotations

from itertools import combinations

import pytest

from booklet.drawing.layouts.layout_figure import placing_figure
from booklet.drawing.layouts.look import Look
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Dimension, Figure, Line, Path, Polygon, Text, dimensions, walk
from booklet.drawing.shapes.style import DrawingStyle
from booklet.placing.model import MeasureKind
from tests.drawing.readings import text_boxes
from tests.drawing.test_layout_figure import discs, look_at, own_numbers, page_box
from tests.kits import Data
from tests.pages.telling import typed

STYLE = DrawingStyle()
INCH = 12.0  # points, at one sixth
ROW: Data = {"row": ["card"], "count": 2, "left": "1/2", "right": "1/2", "top": 2}
FIRST: Data = {"place": "card", "called": "first", "left": 1, "top": 2}
BESIDE: Data = {"place": "card", "beside": "first", "flush": "top"}


def drawn(look: Look) -> Figure:
    return placing_figure(look, own_numbers(look), STYLE, "figure")


def between(figure: Figure, look: Look) -> list[Dimension]:
    """The dimensions on the page itself, which are those between pieces."""
    page = page_box(figure, look)
    return [one for one in dimensions(figure.shapes) if page.holds(Box(*one.start, *one.end))]


def test_a_computed_gap_is_dimensioned_where_it_is() -> None:
    look = look_at(ROW)
    figure = drawn(look)
    (gap,) = between(figure, look)
    page = page_box(figure, look)
    # 12 - 2 x 1/2 - 2 x 4 = 3, from 1/2 + 4 = 4 1/2 to 7 1/2.
    assert gap.label == "3"
    assert gap.start[0] - page.left == pytest.approx(4.5 * INCH)
    assert gap.end[0] - page.left == pytest.approx(7.5 * INCH)
    assert 2 * INCH < gap.start[1] - page.top < 5 * INCH


@pytest.mark.parametrize(
    ("step", "labels"),
    [
        ({**BESIDE, "gap": "1/4"}, ["1/4"]),
        ({**BESIDE, "gap": "2 1/2"}, ["2 1/2"]),
        ({**BESIDE, "gap": 0}, []),
        ({"place": "card", "below": "first", "gap": "3/4", "flush": "left"}, ["3/4"]),
        ({"photo": "1 x 1", "on": "first", "left": 2, "top": "1 1/2"}, ["2", "1 1/2"]),
        # Centred on the other, or tilted, it is laid by eye or by its words.
        ({"place": "dot", "on": "first"}, []),
        ({**BESIDE, "gap": 1, "tilt": 5}, []),
    ],
)
def test_what_is_measured_from_another_piece(step: Data, labels: list[str]) -> None:
    look = look_at(FIRST, step)
    assert [typed(one.label) for one in between(drawn(look), look)] == labels


def test_what_has_nothing_in_common_across_a_gap_leaves_it_to_the_words() -> None:
    """A dot beside the card, but below it: no straight line measures from the one to the other."""
    look = look_at(FIRST, {"place": "dot", "beside": "first", "gap": 1, "top": 9})
    assert MeasureKind.GAP in {measure.kind for measure in look.layout.measures}
    assert between(drawn(look), look) == []


def test_an_edge_that_is_covered_later_is_not_measured() -> None:
    over = {"place": "card", "left": 3, "top": 1, "turn": "clockwise"}
    look = look_at(FIRST, {**BESIDE, "gap": 1}, {**over, "left": "4 1/2"})
    assert between(drawn(look), look) == []


def test_a_gap_covers_no_number_and_no_other_text() -> None:
    cards = [{"place": "card", "below": "first", "gap": "1/8", "flush": "left", "called": "second"}]
    look = look_at(
        FIRST, {**BESIDE, "gap": "1/8"}, *cards, {"place": "dot", "beside": "second", "gap": "3/4"}
    )
    figure = drawn(look)
    texts = [text.box.under(map_) for text, map_ in walk(figure.shapes) if isinstance(text, Text)]
    values = [
        text.box.under(map_)
        for text, map_ in walk(figure.shapes)
        if isinstance(text, Text) and text.role == "dimension"
    ]
    assert len(values) > 3
    for one, other in combinations(values, 2):
        assert not one.grown(-2).overlaps(other)
    for _, (x, y), radius in discs(figure):
        disc = Box(x - radius, y - radius, x + radius, y + radius)
        assert not any(disc.overlaps(value.grown(-2)) for value in values)
    assert len(texts) == len(values) + len(discs(figure))


# Stencils.

NET: Data = {"id": "net", "kind": "stencil", "repeat": "1 1/4 x 1"}


def stencilled(**where: object) -> Look:
    return look_at({"stencil": "net", "left": 0, "right": 0, **where}, supplies=[NET])


def test_a_stencilled_area_shows_how_its_repeat_fits() -> None:
    figure = drawn(stencilled(top=3, bottom=6))
    texts = [typed(leaf.text) for leaf, _ in walk(figure.shapes) if isinstance(leaf, Text)]
    # 12 = 9 x 1 1/4 + 3/4; 12 - 3 - 6 = 3 = 3 x 1.
    assert "→ 9 × 1 1/4 + 3/4" in texts
    assert "↓ 3 × 1" in texts


@pytest.mark.parametrize(("edge", "down"), [("top", 3), ("bottom", 6)])
def test_its_guideline_is_drawn_and_measured(edge: str, down: float) -> None:
    look = stencilled(top=3, bottom=6, guideline=edge)
    figure = drawn(look)
    page = page_box(figure, look)
    chains = [
        (map_.apply(leaf.start), map_.apply(leaf.end))
        for leaf, map_ in walk(figure.shapes)
        if isinstance(leaf, Line) and len(leaf.stroke.dash) == 4
    ]
    ((start, end),) = chains
    assert start == pytest.approx((page.left, page.top + down * INCH))
    assert end == pytest.approx((page.right, page.top + down * INCH))
    far = {"top": "3", "bottom": "6"}[edge]
    assert [typed(one.label) for one in dimensions(figure.shapes)] == [far]


def test_repeats_are_marked_from_the_guideline() -> None:
    look = stencilled(top=3, bottom="6 1/2", guideline="bottom")
    figure = drawn(look)
    page = page_box(figure, look)
    marks = sorted(
        round((map_.apply(leaf.start)[1] - page.top) / INCH, 3)
        for leaf, map_ in walk(figure.shapes)
        if isinstance(leaf, Line)
        and leaf.stroke == STYLE.narrow
        and leaf.start[1] == leaf.end[1]
        and abs(leaf.end[0] - leaf.start[0]) < 5
        and map_.apply(leaf.start)[0] == pytest.approx(page.left)
    )
    # The area ends at 12 - 6 1/2 = 5 1/2; two whole repeats upwards from there, 1/2 remains.
    assert marks == [3.5, 4.5]


def test_a_stencil_that_says_no_repeat_is_outlined_only() -> None:
    plain = {"id": "net", "kind": "stencil"}
    look = look_at({"stencil": "net", "size": "4 x 3", "centred": True}, supplies=[plain])
    figure = drawn(look)
    assert notes_of(figure) == []
    dashes = [leaf.stroke for leaf, _ in walk(figure.shapes) if isinstance(leaf, Polygon) and leaf.stroke]
    assert [len(stroke.dash) for stroke in dashes if stroke.dash] == [2]
    assert not any(isinstance(leaf, Path) for leaf, _ in walk(figure.shapes)), "nothing is hatched"


def test_how_a_repeat_fits_is_noted_beside_what_lies_on_the_area() -> None:
    card = {"place": "card", "left": 0, "top": 1}
    look = look_at({"stencil": "net", "left": 0, "right": 0, "top": 1, "bottom": 5}, card, supplies=[NET])
    figure = drawn(look)
    notes = notes_of(figure)
    assert len(notes) == 2
    page = page_box(figure, look)
    lying = Box(page.left, page.top + INCH, page.left + 4 * INCH, page.top + 4 * INCH)
    assert not any(note.overlaps(lying) for note in notes)


def notes_of(figure: Figure) -> list[Box]:
    """Where it is noted how often a repeat fits, across and down."""
    return [box for text, box in text_boxes(figure.shapes) if text.text[0] in "→↓"]
