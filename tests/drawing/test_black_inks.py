"""Colours and pictures as one ink has them: letters and lines in black or white, greys in dots."""

from __future__ import annotations

from io import BytesIO

import numpy as np
import pytest
from PIL import Image as Pixels

from booklet.drawing.shapes.affine import Affine, Box, rotation, scaling
from booklet.drawing.shapes.figure import (
    BLACK,
    WHITE,
    Colour,
    Figure,
    Fill,
    Image,
    Rect,
    Symbol,
    Use,
    colour_from_rgb,
    image_from_bytes,
)
from booklet.drawing.shapes.screens import POINTS_PER_DOT, Screen, Weave, lettered, nearest
from booklet.drawing.writers.black_inks import BLACK_INKS, dotted, screen_of
from booklet.drawing.writers.pdf_writer import draw_figure
from booklet.pages.black_canvas import BlackCanvas
from tests.drawing.rasters import pdf_pixels
from tests.drawing.test_screens import Dots, grown, shrunk

DOTS_PER_POINT = 1 / POINTS_PER_DOT


def grey(part: float) -> Colour:
    return colour_from_rgb(part, part, part)


def printed(*shapes: Rect | Use | Image, side: float = 72.0) -> Dots:
    """A square figure at 600 dpi, black is True."""
    held = BytesIO()
    canvas = BlackCanvas(held, pagesize=(side, side), page_of={}, invariant=1)
    draw_figure(Figure("seen", side, side, shapes), canvas.resources, 0, side)
    canvas.save()
    dots: Dots = pdf_pixels(held.getvalue(), DOTS_PER_POINT) < 0.5
    return dots


def filled(colour: Colour, side: float = 72.0) -> Rect:
    return Rect(0, 0, side, side, Fill(colour))


@pytest.mark.parametrize(("part", "screen"), [(0.0, 0.0), (0.02, 0.0), (0.99, 1.0), (1.0, 1.0)])
def test_what_is_nearly_black_or_white_is_just_that(part: float, screen: float) -> None:
    assert screen_of(grey(part)) == screen


def test_a_grey_is_made_of_the_fine_dots_that_are_nearest() -> None:
    light = screen_of(grey(0.9))
    dark = screen_of(grey(0.2))
    assert isinstance(light, Screen)
    assert isinstance(dark, Screen)
    assert light.weave is dark.weave is Weave.FINE
    assert light.coverage < 0.2 < 0.7 < dark.coverage


def test_the_colour_of_a_screen_is_filled_with_that_screen() -> None:
    for screen in (nearest(Weave.ACROSS, 0.25), nearest(Weave.FALLING, 0.7), nearest(Weave.CROSS, 0.75)):
        dots = printed(filled(screen.colour))
        assert dots.mean() == pytest.approx(screen.coverage, abs=0.01)


def test_lines_across_run_across_however_the_paper_is_turned_and_whatever_its_scale() -> None:
    screen = nearest(Weave.ACROSS, 0.25)
    for place in (scaling(1.0), scaling(0.2), rotation(90.0, (36.0, 36.0)), rotation(7.0, (36.0, 36.0))):
        large = 72.0 / place.least_scale
        paper = Symbol(f"paper {place}", (filled(screen.colour, large),), large, large)
        middle = printed(Use(paper, place))[200:400, 200:400]
        assert middle.mean() == pytest.approx(screen.coverage, abs=0.03), place
        assert (middle == middle[:, :1]).all(), place  # each row is of one colour
        starts = np.flatnonzero(middle[1:, 0] & ~middle[:-1, 0])
        assert set(np.diff(starts)) == {screen.pitch}, place


def test_letters_stand_upright_in_drawings_that_have_room_for_them() -> None:
    bare = nearest(Weave.DOTS, 0.1)
    paper = Symbol("lettered", (filled(lettered(bare, "m").colour, 720.0),), 720.0, 720.0)
    large = printed(Use(paper, scaling(0.2)))
    turned = printed(Use(paper, Affine(0.0, 0.2, -0.2, 0.0, 72.0, 0.0)))
    small = printed(Use(paper, scaling(0.1)))
    assert large[:500, :500].mean() > bare.coverage + 0.005
    # A row through an m crosses three stems, a column one bow: on turned paper as well.
    for seen in (large, turned):
        assert begins(seen, 1) > 1.02 * begins(seen, 0)
    assert small.mean() == pytest.approx(bare.coverage, abs=0.01)


def begins(dots: Dots, axis: int) -> float:
    """How often black begins along columns (0) or rows (1)."""
    return float((dots & ~np.roll(dots, 1, axis)).mean())


def picture(part: float, side: int = 40) -> bytes:
    out = BytesIO()
    Pixels.new("L", (side, side), round(255 * part)).save(out, "PNG")
    return out.getvalue()


def test_a_darker_picture_has_more_black_and_neither_closes_nor_vanishes() -> None:
    shares = []
    for part in (0.8, 0.65, 0.5, 0.35, 0.2):
        dots = ~np.asarray(dotted(Pixels.open(BytesIO(picture(part))), (240, 240)))
        assert shrunk(dots).mean() > 0.01
        assert grown(dots).mean() < 0.99
        shares.append(float(dots.mean()))
    assert shares == sorted(shares)
    assert shares == pytest.approx([0.2, 0.35, 0.5, 0.65, 0.8], abs=0.06)


def test_white_and_black_stay_so_in_a_picture() -> None:
    assert np.asarray(dotted(Pixels.open(BytesIO(picture(1.0))), (48, 48))).all()
    assert not np.asarray(dotted(Pixels.open(BytesIO(picture(0.0))), (48, 48))).any()


def test_a_picture_has_the_dots_of_the_printer_at_the_size_that_it_has_on_the_page() -> None:
    source = image_from_bytes(picture(0.5))
    dots = printed(Image(source, Box(0.0, 0.0, 72.0, 72.0)))
    assert (dots[12:588, 12:588] == dots[24:600, 12:588]).mean() > 0.99  # it repeats every twelve dots
    assert dots.mean() == pytest.approx(0.5, abs=0.03)


def test_a_large_picture_keeps_its_proportions() -> None:
    source = image_from_bytes(picture(0.5))
    reader = BLACK_INKS.picture(source, Affine(1440.0, 0.0, 0.0, 720.0))
    width, height = reader.getSize()
    assert width == 2 * height == 2400


def test_black_and_white_are_solid_and_nothing_between() -> None:
    assert BLACK_INKS.is_solid(BLACK)
    assert BLACK_INKS.is_solid(WHITE)
    assert not BLACK_INKS.is_solid(grey(0.5))
