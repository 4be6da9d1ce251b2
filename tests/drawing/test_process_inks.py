"""Colours in the four inks of a press."""

from __future__ import annotations

from fractions import Fraction
from io import BytesIO

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image as Pixels

from booklet.drawing.shapes.affine import IDENTITY
from booklet.drawing.shapes.figure import BLACK, WHITE, Colour, colour_from_rgb, image_from_bytes
from booklet.drawing.writers.process_inks import (
    InkLimit,
    ProcessInks,
    process_colour,
    process_line,
    process_picture,
)

USUAL = InkLimit(Fraction(300))
part = st.integers(0, 255)
colours = st.builds(lambda r, g, b: Colour(f"#{r:02x}{g:02x}{b:02x}"), part, part, part)
limits = st.integers(200, 400).map(lambda percent: InkLimit(Fraction(percent)))


def reflected(inks: tuple[float, float, float, float]) -> tuple[float, ...]:
    """Red, green and blue that are left of white light where each ink takes its share of the rest."""
    *colour, black = inks
    return tuple((1 - ink) * (1 - black) for ink in colour)


@given(colours, limits)
def test_no_colour_passes_the_limit_even_under_black_letters(colour: Colour, limit: InkLimit) -> None:
    for inks in (process_colour(colour, limit), process_line(colour, limit)):
        assert all(0 <= ink <= 1 for ink in inks)
        assert sum(inks) * 100 <= float(limit.percent) + 1e-6
        assert (sum(inks[:3]) + 1) * 100 <= float(limit.percent) + 1e-6


@given(colours)
def test_the_light_that_is_left_is_the_colour(colour: Colour) -> None:
    """But for what is over the limit: nearly two solid inks, which are made lighter alike."""
    red, green, blue = colour.rgb
    inks = process_colour(colour, USUAL)
    if sum((1 - red, 1 - green, 1 - blue)) - 3 * min(1 - red, 1 - green, 1 - blue) < 1.9:
        assert reflected(inks) == pytest.approx((red, green, blue), abs=0.002)


def test_black_and_white_are_black_alone_and_no_ink() -> None:
    assert process_colour(BLACK, USUAL) == process_line(BLACK, USUAL) == (0, 0, 0, 1)
    assert process_colour(WHITE, USUAL) == process_line(WHITE, USUAL) == (0, 0, 0, 0)


def test_a_grey_line_is_black_alone_and_so_is_a_light_grey_surface() -> None:
    assert process_line(Colour("#333333"), USUAL) == (0, 0, 0, 0.8)
    assert process_colour(Colour("#cccccc"), USUAL) == (0, 0, 0, 0.2)


def test_a_dark_surface_has_colour_under_its_black() -> None:
    """Black alone is grey beside it on a press: a dark paper would come out pale."""
    assert all(ink > 0.4 for ink in process_colour(Colour("#222222"), USUAL))
    assert sum(process_colour(Colour("#2f1d50"), USUAL)) > 2


def test_a_lower_limit_puts_black_in_the_place_of_colours_before_it_makes_them_lighter() -> None:
    navy = Colour("#141a3c")
    rich, lean = process_colour(navy, USUAL), process_colour(navy, InkLimit(Fraction(240)))
    assert lean[3] > rich[3]
    assert reflected(lean) == pytest.approx(navy.rgb, abs=0.002)
    pure = process_colour(Colour("#ff0000"), InkLimit(Fraction(240)))
    assert pure == (0, 0.7, 0.7, 0)


# Pictures.


def picture(*rgb: tuple[int, ...], mode: str = "RGB") -> Pixels.Image:
    return Pixels.fromarray(np.array([rgb], dtype=np.uint8), mode)


@given(st.lists(st.tuples(part, part, part), min_size=2, max_size=8), limits)
def test_a_picture_has_the_inks_of_its_colours_to_a_step(
    rgb: list[tuple[int, int, int]], limit: InkLimit
) -> None:
    made = process_picture(picture(*rgb, (255, 0, 0)), limit)
    assert made.mode == "CMYK"
    for found, (red, green, blue) in zip(np.asarray(made)[0], rgb, strict=False):
        assert found[:3].sum() / 255 <= limit.of_colours + 1e-6
        if not red == green == blue:
            wanted = process_colour(colour_from_rgb(red / 255, green / 255, blue / 255), limit)
            assert found / 255 == pytest.approx(np.array(wanted), abs=1.1 / 255)


def test_a_black_pixel_is_within_the_limit() -> None:
    for percent in (200, 300, 400):
        limit = InkLimit(Fraction(percent))
        (black, _) = np.asarray(process_picture(picture((0, 0, 0), (255, 0, 0)), limit))[0]
        assert black[3] == 255
        assert black.sum() / 255 <= percent / 100
        assert black[:3].min() > 60


def test_what_is_grey_as_a_whole_stays_grey() -> None:
    for grey in (picture((9, 9, 9), (200, 200, 200)), picture((9, 9, 9)).convert("L")):
        made = process_picture(grey, USUAL)
        assert made.mode == "L"
        assert np.asarray(made)[0, 0] == 9


def test_what_shows_through_is_white_and_nothing_is_transparent() -> None:
    seen_through = picture((200, 30, 30, 0), (200, 30, 30, 255), mode="RGBA")
    made = process_picture(seen_through, USUAL)
    nothing, red = np.asarray(made)[0]
    assert nothing.tolist() == [0, 0, 0, 0]
    assert red[1] > 200
    out = BytesIO()
    seen_through.save(out, "PNG")
    reader = ProcessInks(USUAL).picture(image_from_bytes(out.getvalue()), IDENTITY)
    assert (len(reader.getRGBData()), reader._dataA) == (2 * 4, None)
