"""The other cutting figures: the map of a sheet's pieces, the pile, the signs, and the demos' own stages."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise
from pathlib import Path

import pytest

from booklet.cutting.orientation import Orientation
from booklet.drawing.cutting.piece_map import MappedPiece, PieceMapView, draw_piece_map, piece_map_size
from booklet.drawing.cutting.pile_figure import PileLook, pile_figure
from booklet.drawing.cutting.signs import (
    bracket_sign,
    lens_sign,
    piece_sign,
    reading_sign,
    register_mark_sign,
    scrap_sign,
    set_aside_sign,
    stack_sign,
    width_sign,
)
from booklet.drawing.cutting.stage_figure import draw_stage, stage_size, with_print
from booklet.drawing.cutting.views import piece_map_view, stage_view
from booklet.drawing.layouts.signs import flag_sign
from booklet.drawing.marks.placement import lines_cross
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Figure, Polygon, Polyline, Symbol, Use
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.shapes.scale import Scale
from booklet.kit.fields import Edge
from booklet.kit.load import load_kit
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size, Unit
from booklet.placing.resolved import ResolvedKit, resolve_kit
from booklet.sorting.pile import pile
from tests.drawing.overlaps import assert_texts_stand_clear
from tests.drawing.readings import ink_boxes, measured_label, text_boxes
from tests.drawing.styles import LABELS, STYLE
from tests.drawing.walking import dimensions, groups, walk

SPECS = Path(__file__).parents[2] / "kit_specs"
FIFTH = Scale(Fraction(5))


@pytest.fixture(scope="module", params=["hill-line", "roof-garden"])
def demo(request: pytest.FixtureRequest) -> ResolvedKit:
    return resolve_kit(load_kit(SPECS / f"{request.param}.yaml"))


# The demos.


@pytest.mark.parametrize("reduction", [4, 5, 6])
def test_every_stage_of_the_demos_is_clear(demo: ResolvedKit, reduction: int) -> None:
    scale, unit = Scale(Fraction(reduction)), demo.kit.unit
    for sheet in demo.sheets:
        for stage in sheet.stages:
            words = [tuple({piece.name for piece in strip.pieces}) for strip in stage.strips]
            view = stage_view(demo, sheet, stage, scale, LABELS, words)
            shapes = draw_stage(view, STYLE).over
            assert_texts_stand_clear(shapes)
            for each in dimensions(shapes):
                assert each.length == pytest.approx(scale.points(measured_label(each.label), unit))


@pytest.mark.parametrize("reduction", [4, 5, 6])
def test_no_letter_lies_on_the_words_or_pictures_of_a_demo(demo: ResolvedKit, reduction: int) -> None:
    """Not on the stages of a cut-apart sheet, nor on the map of its pieces."""
    papers, scale = KitPapers(demo.kit, demo.images), Scale(Fraction(reduction))
    for sheet in demo.sheets:
        if not sheet.sheet.is_cut_apart:
            continue
        for stage in sheet.stages:
            view = stage_view(demo, sheet, stage, scale, LABELS)
            symbol = papers.sheet(sheet.index, stage.lying.face)
            figure = with_print(draw_stage(view, STYLE), symbol, stage.taken[0].part, sheet.size, stage.lying)
            outline = stage_size(view, STYLE).outline
            assert all(not box.overlaps(outline) for _, box in text_boxes(figure.shapes))
        mapped = piece_map_view(demo, sheet, scale, papers, LABELS)
        figure = draw_piece_map(mapped, papers.sheet(sheet.index, mapped.lying.face), STYLE)
        assert_off_artwork(figure, mapped.artwork)


def assert_off_artwork(figure: Figure, artwork: tuple[Box, ...]) -> None:
    use = next(shape for shape in figure.shapes if isinstance(shape, Use))
    boxes = [box.under(use.transform) for box in artwork]
    assert boxes
    chips = [group for group, _ in groups(figure.shapes) if group.tag == "chip"]
    assert chips
    for chip in chips:
        ground = chip.children[0].box  # type: ignore[union-attr]
        assert not any(ground.overlaps(box) for box in boxes)


# The map.


def quarters(*letters: tuple[str, ...], artwork: tuple[Box, ...] = ()) -> PieceMapView:
    """A sheet of 12 x 12 in four squares, in the order of their letters, row by row."""
    half = Fraction(6)
    parts = [ExactRect(x * half, y * half, half, half) for y in (0, 1) for x in (0, 1)]
    pieces = tuple(MappedPiece(part, each, ()) for part, each in zip(parts, letters, strict=True))
    size = Size(Fraction(12), Fraction(12))
    return PieceMapView("map", Unit.INCH, FIFTH, size, Orientation(), pieces, artwork, LABELS)


def mapped(view: PieceMapView) -> Figure:
    return draw_piece_map(view, Symbol("blank", (), 864, 864), STYLE)


def test_each_piece_has_its_letters_where_it_lay() -> None:
    view = quarters(("A",), ("B",), ("C", "D"), ())
    figure = mapped(view)
    found = {text.text: box.centre for text, box in text_boxes(figure.shapes)}
    assert set(found) == {"A", "B", "C D", "scrap"}
    assert found["A"][0] < found["B"][0]
    assert found["A"][1] < found["C D"][1]
    assert figure.scale == "Scale 1:5"
    assert (figure.width, figure.height) == piece_map_size(view)


def test_a_letter_goes_to_a_corner_that_is_free() -> None:
    words = Box(20, 20, 412, 412)  # nearly all of the first quarter, at full size
    corner = Box(20, 120, 412, 412)
    covered = mapped(quarters(("A",), ("B",), ("C",), ("D",), artwork=(words,)))
    assert [text.text for text, _ in text_boxes(covered.shapes)] == ["B", "C", "D"], "no letter on the words"
    free = mapped(quarters(("A",), ("B",), ("C",), ("D",), artwork=(corner,)))
    assert "A" in [text.text for text, _ in text_boxes(free.shapes)]
    assert_off_artwork(free, (corner,))


# The pile.


def test_the_pile_s_leaders_end_a_pitch_apart_and_run_over_no_paper(demo: ResolvedKit) -> None:
    sheets = pile(demo.kit, demo.sheets, demo.ledger)
    look = PileLook(81.0, 26.0, 131.0)
    figure = pile_figure(demo, KitPapers(demo.kit, demo.images), sheets, look, STYLE)
    leaders = [leaf.points for leaf, _ in walk(figure.shapes) if isinstance(leaf, Polyline)]
    assert [points[-1][1] for points in leaders] == [look.row_middle(at) for at in range(len(sheets))]
    assert figure.height - leaders[-1][-1][1] == pytest.approx(look.pitch / 2)
    assert all(points[-1][0] == look.width for points in leaders)
    papers = [
        [move.apply(point) for point in leaf.points]
        for leaf, move in walk(figure.shapes)
        if isinstance(leaf, Polygon)
    ]
    for points in leaders:
        for start, end in pairwise(points):
            for paper in papers:
                assert not any(lines_cross(start, end, *edge) for edge in pairwise([*paper, paper[0]]))


# The signs.

SIGNS = [
    reading_sign(Fraction(3), Unit.INCH, Fraction(1, 8), Edge.LEFT, STYLE),
    reading_sign(Fraction(100), Unit.MILLIMETRE, Fraction(1), Edge.LEFT, STYLE),
    lens_sign(Fraction(3), Unit.INCH, Fraction(1, 8), Edge.LEFT, LABELS, STYLE),
    lens_sign(Fraction(10), Unit.CENTIMETRE, Fraction(1, 10), Edge.LEFT, LABELS, STYLE),
    reading_sign(Fraction(3), Unit.INCH, Fraction(1, 8), Edge.RIGHT, STYLE),
    lens_sign(Fraction(3), Unit.INCH, Fraction(1, 8), Edge.RIGHT, LABELS, STYLE),
    piece_sign("A", STYLE),
    set_aside_sign("B", 9, STYLE),
    scrap_sign(LABELS, STYLE),
    stack_sign("KLM", STYLE),
    width_sign(Fraction(3), Unit.INCH, STYLE),
    bracket_sign(Unit.INCH, STYLE),
    bracket_sign(Unit.MILLIMETRE, STYLE),
    register_mark_sign(STYLE),
    flag_sign(4, Fraction(3), Unit.INCH, STYLE),
]


@pytest.mark.parametrize("sign", SIGNS, ids=lambda sign: sign.name)
def test_a_sign_is_small_and_clear(sign: Figure) -> None:
    assert sign.width <= 112
    assert sign.height <= 80
    inked = ink_boxes(sign.shapes)
    for (one, left), (other, right) in combinations(inked, 2):
        assert not left.overlaps(right), (one.text, other.text)


def test_a_reading_is_explained_by_the_value_of_its_words() -> None:
    figure = reading_sign(Fraction(3), Unit.INCH, Fraction(1, 8), Edge.LEFT, STYLE)
    bold = [
        text.text
        for text, _ in text_boxes(figure.shapes)
        if text.role == "scale" and text.font is Font.SANS_BOLD
    ]
    assert bold == ["0", "3"]
    assert [text.text for text, _ in text_boxes(figure.shapes) if text.role == "marker"] == ["1"]


def test_a_bracket_says_how_many_and_how_wide() -> None:
    (measured,) = dimensions(bracket_sign(Unit.INCH, STYLE).shapes)
    assert measured.label == "6\u00a0×\u00a0³⁄₈"
