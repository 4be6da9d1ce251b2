"""Screens hold on a printer that lets black grow or shrink by a dot, and their tones stay apart."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from numpy.typing import NDArray

from booklet.drawing.shapes.figure import BLACK, WHITE, Colour
from booklet.drawing.shapes.hatch import hatch
from booklet.drawing.shapes.screens import (
    LEAST,
    POINTS_PER_DOT,
    Screen,
    Weave,
    every_screen,
    lettered,
    lightness,
    nearest,
    screens,
)
from booklet.drawing.shapes.style import DrawingStyle

Dots = NDArray[np.bool_]
ALL = [screen for weave in Weave for screen in screens(weave)]


def dots_of(screen: Screen, cells: int = 3) -> Dots:
    """Some cells of a screen side by side, black is True, rows from the top."""
    cell = np.zeros((screen.pitch, screen.pitch), dtype=bool)
    for left, foot, wide, high in screen.marks:
        cell[foot : foot + high, left : left + wide] = True
    dots: Dots = np.tile(cell ^ screen.is_reversed, (cells, cells))[::-1]
    return dots


def grown(dots: Dots) -> Dots:
    """Black a dot larger on all sides, as toner spreads."""
    near = [np.roll(dots, (down, across), (0, 1)) for down in (-1, 0, 1) for across in (-1, 0, 1)]
    larger: Dots = np.logical_or.reduce(near)
    return larger


def shrunk(dots: Dots) -> Dots:
    """Black a dot smaller on all sides, as a fine mark breaks off."""
    return ~grown(~dots)


def runs(line: Dots) -> list[int]:
    """How many dots in a row are alike, all round a line that repeats."""
    changes = np.flatnonzero(line != np.roll(line, 1))
    return [int(run) for run in np.diff(np.append(changes, changes[:1] + len(line)))]


@pytest.mark.parametrize("screen", ALL, ids=str)
def test_no_line_and_no_gap_is_finer_than_three_dots(screen: Screen) -> None:
    dots = dots_of(screen, cells=1)
    assert min(run for line in (*dots, *dots.T) for run in runs(line)) >= LEAST


@pytest.mark.parametrize("screen", ALL, ids=str)
def test_a_cell_repeats_without_a_seam(screen: Screen) -> None:
    assert all(left >= 0 and left + wide <= screen.pitch for left, _, wide, _ in screen.marks)
    assert all(foot >= 0 and foot + high <= screen.pitch for _, foot, _, high in screen.marks)
    assert dots_of(screen).mean() == pytest.approx(screen.coverage)


@pytest.mark.parametrize("screen", ALL, ids=str)
def test_a_screen_neither_closes_nor_breaks_off_when_black_grows_or_shrinks_by_a_dot(screen: Screen) -> None:
    dots = dots_of(screen)
    assert 0.02 < dots.mean() < grown(dots).mean() < 0.99
    assert 0.005 < shrunk(dots).mean() < dots.mean()


@pytest.mark.parametrize("weave", Weave)
def test_the_tones_of_a_weave_stay_in_their_order_on_a_printer_that_gains(weave: Weave) -> None:
    for lighter, darker in pairwise(screens(weave)):
        assert grown(dots_of(darker)).mean() > grown(dots_of(lighter)).mean()


def test_each_screen_has_a_colour_of_its_own_about_as_light() -> None:
    known = every_screen()
    assert len(known) == len(ALL) * 27
    for screen in ALL:
        assert known[screen.colour] == screen
        assert known[lettered(screen, "q").colour] == lettered(screen, "q")
        assert lightness(screen.colour) == pytest.approx(1.0 - screen.coverage, abs=0.05)
    assert not {BLACK, WHITE} & known.keys()


def test_the_nearest_screen_of_a_weave_is_nearest() -> None:
    assert nearest(Weave.ACROSS, 0.3) == Screen(Weave.ACROSS, 12, 4)
    assert nearest(Weave.FINE, 0.0) == screens(Weave.FINE)[0]


def test_lightness_is_that_of_the_eye() -> None:
    # L* of the middle grey of sRGB is 53.6 (from memory).
    assert lightness(Colour("#808080")) == pytest.approx(0.536, abs=0.001)
    assert lightness(BLACK) == 0.0
    assert lightness(WHITE) == pytest.approx(1.0)


def test_no_screen_has_lines_that_run_as_the_hatching_of_scrap_does() -> None:
    style = DrawingStyle()
    drawn = hatch(((0, 0), (60, 0), (60, 60), (0, 60)), style.hatch_distance, style.fine)
    (_, x, y), (_, x2, y2) = (segment for segment in drawn.segments[:2] if len(segment) == 3)
    assert (x2 - x) * (y2 - y) < 0  # rising to the right, as y runs down
    falling = dots_of(screens(Weave.FALLING)[0])
    assert (np.roll(falling, (1, 1), (0, 1)) == falling).all()
    assert not (np.roll(falling, (1, -1), (0, 1)) == falling).all()
    # Nor is any so coarse: the lines of the hatching stand twice as far apart.
    coarsest = max(screen.pitch for screen in ALL if screen.weave is Weave.FALLING)
    assert style.hatch_distance * 2**0.5 > 1.9 * coarsest * POINTS_PER_DOT
