"""The small drawings of what a step does: one for each verb, each its own, the same in both writers."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest

from booklet.drawing.marks.symbols import NEED_NONE, OPTIONAL, SYMBOL_NAMES, SYMBOL_SIDE, step_symbol
from booklet.drawing.shapes.affine import Box, compose, scaling, translation
from booklet.drawing.shapes.figure import BLACK, Figure, Use, bounds, walk
from booklet.drawing.shapes.style import mm
from booklet.kit.steps import VERBS
from tests.drawing.rasters import Pixels, figure_pdf, figure_svg, pdf_pixels, same_picture

# A page held at reading distance and printed at 150 dots to the inch.
READING = 150 / 72


def drawn(name: str) -> Figure:
    return Figure(name, SYMBOL_SIDE, SYMBOL_SIDE, (Use(step_symbol(name, BLACK)),), "", "")


def ink(name: str) -> Pixels:
    """How dark each dot is, 0 white to 1 black."""
    return 1 - pdf_pixels(figure_pdf(drawn(name)), READING)


def test_every_verb_has_a_symbol_or_is_said_to_need_none() -> None:
    assert {*SYMBOL_NAMES, *NEED_NONE} == {*VERBS, OPTIONAL}
    assert not NEED_NONE & set(SYMBOL_NAMES)


def test_symbols_of_different_verbs_are_different_pictures() -> None:
    pictures = {name: ink(name) for name in SYMBOL_NAMES}
    for one, other in combinations(SYMBOL_NAMES, 2):
        apart = np.abs(pictures[one] - pictures[other]).sum()
        # Two drawings with no stroke in common are apart by the ink of both, the same drawing by nothing.
        share = apart / (pictures[one].sum() + pictures[other].sum())
        assert share > 1 / 3, (one, other, share)


@pytest.mark.parametrize("name", SYMBOL_NAMES)
def test_a_symbol_prints_in_lines_of_one_weight_and_keeps_to_its_square(name: str) -> None:
    shapes = step_symbol(name, BLACK).shapes
    widths = {stroke.width for leaf, _ in walk(shapes) if (stroke := getattr(leaf, "stroke", None))}
    assert widths == {0.71}
    assert min(widths) >= mm(0.18), "the least width that prints safely"
    seen = bounds(shapes)
    assert Box(0, 0, SYMBOL_SIDE, SYMBOL_SIDE).common(seen) == seen


@pytest.mark.parametrize("name", SYMBOL_NAMES)
def test_a_symbol_is_neither_faint_nor_a_blot(name: str) -> None:
    assert 0.12 < ink(name).mean() < 0.36, ink(name).mean()


def test_both_writers_draw_every_symbol() -> None:
    # At their own size they would be nearly all edge, which the two rasterisers soften differently.
    large = [
        Use(step_symbol(name, BLACK), compose(scaling(8), translation(96.0 * at, 8)))
        for at, name in enumerate(SYMBOL_NAMES)
    ]
    figure = Figure("symbols", 96.0 * len(large), 8 * SYMBOL_SIDE + 16, tuple(large), "All symbols", "")
    assert same_picture(figure_pdf(figure), figure_svg(figure))
