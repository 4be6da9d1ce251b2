"""Printed papers, borders, pictures and frames."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import numpy as np
import pytest
from PIL import Image as Pixels

from booklet.drawing.papers.patterns import BorderPaint, FacePaint, paint_face
from booklet.drawing.papers.pictures import frame_shapes, picture_shapes
from booklet.drawing.shapes.affine import Affine, Box, compose, rotation, scaling, translation
from booklet.drawing.shapes.figure import (
    Colour,
    Figure,
    Motifs,
    Path,
    Shape,
    Symbol,
    Use,
    bounds,
    image_from_bytes,
)
from booklet.kit.element import ElementFrame, ElementPicture
from booklet.kit.fields import Edge
from booklet.kit.paper import BorderStyle, Pattern, Print
from tests.drawing.rasters import farthest, figure_pdf, figure_svg, pdf_pixels, same_picture
from tests.drawing.walking import walk

COLOURS = tuple(map(Colour, ("#f4ead8", "#c9695a", "#2f5d73", "#e0a458")))
SIDE = 432.0


def sheet(face: FacePaint, transform: Affine = Affine()) -> Figure:  # noqa: B008 - an immutable tuple
    symbol = Symbol("face", paint_face(face, SIDE, SIDE), SIDE, SIDE)
    use = Use(symbol, transform.then(scaling(0.5)))
    return Figure("Sheet", SIDE / 2, SIDE / 2, (use,), "", "")


def seen(figure: Figure) -> np.ndarray:
    return pdf_pixels(figure_pdf(figure), 1.0)


# A pattern is all edges, where the rasterisers differ: scallops by 0.6 % in the mean (measured), the others
# by less; a paper shifted by 2 points at full size differs by 1.6 % (confetti) to 14 %.
PATTERN_LIMIT = 0.009


@pytest.mark.parametrize("pattern", Pattern)
def test_both_writers_print_the_same_paper(pattern: Pattern) -> None:
    figure = sheet(FacePaint(pattern, COLOURS))
    assert same_picture(figure_pdf(figure), figure_svg(figure), PATTERN_LIMIT)


@pytest.mark.parametrize("pattern", [each for each in Pattern if each is not Pattern.SOLID])
def test_a_paper_shifted_a_little_is_seen(pattern: Pattern) -> None:
    face = FacePaint(pattern, COLOURS)
    shifted = sheet(face, translation(2, 1))
    assert not same_picture(figure_pdf(sheet(face)), figure_svg(shifted), PATTERN_LIMIT)


@pytest.mark.parametrize("pattern", [each for each in Pattern if each is not Pattern.SOLID])
def test_a_pattern_covers_the_whole_face(pattern: Pattern) -> None:
    picture = seen(sheet(FacePaint(pattern, COLOURS)))
    blank = seen(sheet(FacePaint(Pattern.SOLID, COLOURS)))
    quarters = np.abs(picture - blank)[:216, :216].reshape(4, 54, 4, 54).max(axis=(1, 3))
    assert (quarters > 0.1).all(), "something is printed in each of sixteen parts"


@pytest.mark.parametrize("pattern", Pattern)
def test_each_pattern_is_a_ground_and_a_few_paths(pattern: Pattern) -> None:
    shapes = paint_face(FacePaint(pattern, COLOURS), 864, 864)
    assert len(shapes) <= 6
    assert all(isinstance(shape, Path | Motifs) for shape in shapes[1:])


@pytest.mark.parametrize("pattern", [each for each in Pattern if each is not Pattern.SOLID])
def test_no_motif_is_drawn_far_beyond_its_face(pattern: Pattern) -> None:
    face = Box(0, 0, 864, 500)
    rows = [
        row
        for shape in paint_face(FacePaint(pattern, COLOURS), face.width, face.height)
        if isinstance(shape, Motifs)
        for row in shape.rows
    ]
    assert bool(rows) == (pattern not in (Pattern.STRIPES, Pattern.GRID))
    near = face.grown(36)
    assert all(near.overlaps(replace(row, xs=(x,)).box) for row in rows for x in row.xs)


@pytest.mark.parametrize("pattern", Pattern)
def test_printed_lines_keep_their_width_at_one_to_four(pattern: Pattern) -> None:
    # ISO 128-2 (from memory): nothing under 0.18 mm.
    for shape in paint_face(FacePaint(pattern, COLOURS), 864, 864):
        if isinstance(shape, Path | Motifs) and shape.stroke:
            assert shape.stroke.width / 4 >= 0.18 / 25.4 * 72


@pytest.mark.parametrize("pattern", Pattern)
def test_the_model_knows_which_papers_a_quarter_turn_shows_on(pattern: Pattern) -> None:
    """A face that is said to have no direction looks alike in kind after a turn: as dark along its rows."""
    if Print(pattern=pattern).has_direction or pattern is Pattern.CONFETTI:
        return
    face = FacePaint(pattern, COLOURS, repeat=54)
    picture = seen(sheet(face))
    turned = seen(sheet(face, compose(rotation(90), translation(SIDE, 0))))
    assert np.sort(picture.mean(axis=0)) == pytest.approx(np.sort(turned.mean(axis=0)), abs=0.02)


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_missing_colours_are_mixed_so_that_the_pattern_shows(count: int) -> None:
    for ground in ("#f4ead8", "#2f5d73", "#ffffff", "#000000"):
        colours = (Colour(ground), *COLOURS[1:count])
        picture = seen(sheet(FacePaint(Pattern.STRIPES, colours)))
        assert picture.max() - picture.min() > 0.04


@pytest.mark.parametrize("style", BorderStyle)
@pytest.mark.parametrize("edge", Edge)
def test_a_border_lies_along_its_edge_and_no_deeper_than_said(edge: Edge, style: BorderStyle) -> None:
    border = BorderPaint(edge, 60, Colour("#2f5d73"), style)
    apart = np.abs(seen(sheet(FacePaint(borders=(border,)))) - 1.0) > 0.05
    depth = 30  # 60 points at half size
    inside = {
        Edge.TOP: apart[depth + 1 :, :],
        Edge.BOTTOM: apart[: -depth - 1, :],
        Edge.LEFT: apart[:, depth + 1 :],
        Edge.RIGHT: apart[:, : -depth - 1],
    }[edge]
    assert not inside.any()
    along = apart.any(axis=0 if edge in (Edge.TOP, Edge.BOTTOM) else 1)
    assert along.mean() > 0.5, "from end to end"


def test_a_very_fine_repeat_does_not_swell_the_file() -> None:
    fine = len(figure_pdf(sheet(FacePaint(Pattern.DOTS, COLOURS, repeat=1.0))))
    assert fine < 400_000


def test_an_image_covers_the_face() -> None:
    held = BytesIO()
    Pixels.new("RGB", (4, 4), "#808080").save(held, "PNG")
    face = FacePaint(image=image_from_bytes(held.getvalue()))
    assert farthest(seen(sheet(face)), np.full((216, 216), 128 / 255)) <= 0.01


@pytest.mark.parametrize("picture", ElementPicture)
@pytest.mark.parametrize("box", [Box(10, 20, 90, 100), Box(0, 0, 200, 40)])
def test_a_picture_stays_in_its_box(picture: ElementPicture, box: Box) -> None:
    drawn = picture_shapes(picture, box, COLOURS[1], COLOURS[2])
    assert box.grown(0.5).holds(bounds([drawn]))
    side = min(box.width, box.height)
    assert max(bounds([drawn]).width, bounds([drawn]).height) >= 0.8 * side, "and fills it"


def test_every_picture_is_drawn_alike_by_both_writers() -> None:
    shapes: tuple[Shape, ...] = tuple(
        picture_shapes(
            picture, Box(at % 4 * 60, at // 4 * 60, at % 4 * 60 + 50, at // 4 * 60 + 50), *COLOURS[1:3]
        )
        for at, picture in enumerate(ElementPicture)
    )
    figure = Figure("Pictures", 240, 180, shapes, "", "")
    assert same_picture(figure_pdf(figure), figure_svg(figure))


@pytest.mark.parametrize("frame", ElementFrame)
def test_a_frame_keeps_off_the_cut(frame: ElementFrame) -> None:
    box = Box(0, 0, 216, 144)
    shapes = frame_shapes(frame, box, COLOURS[1])
    assert bool(shapes) == (frame is not ElementFrame.NONE)
    if shapes:
        # A hand's cut may lie 1/16 in (4.5 pt) off (common practice, no source).
        assert box.grown(-4.5).holds(bounds(shapes))
        assert all(
            leaf.stroke and leaf.stroke.width >= 2 for leaf, _ in walk(shapes) if hasattr(leaf, "stroke")
        )
