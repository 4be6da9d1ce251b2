"""Swatches, the pile, the pictogram of a photograph."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.cutting.model import CutSheet
from booklet.cutting.orientation import Orientation
from booklet.drawing.cutting.pile_figure import PileLook, pile_figure
from booklet.drawing.marks.photo_slot import photo_pictogram
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.papers.swatch import ready_swatch, swatch_strips
from booklet.drawing.shapes.affine import Box, bounds_of_points
from booklet.drawing.shapes.figure import Figure, Group, Polygon, Shape, Use, bounds
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Face
from booklet.kit.load import load_kit
from booklet.measure.length import Size
from booklet.placing.resolved import ResolvedKit, resolve_kit
from booklet.sorting.pile import pile

STYLE = DrawingStyle()
TWELFTH = Scale(Fraction(12))
SPEC = Path(__file__).parents[2] / "kit_specs" / "hill-line.yaml"


@cache
def hill_line() -> tuple[ResolvedKit, KitPapers]:
    resolved = resolve_kit(load_kit(SPEC))
    return resolved, KitPapers(resolved.kit, resolved.images)


def sheet_index(id: str) -> int:
    return [sheet.id for sheet in hill_line()[0].kit.sheets].index(id)


def uses(shapes: Iterable[Shape]) -> list[Use]:
    return [shape for shape in shapes if isinstance(shape, Use)]


def seen(use: Use) -> Box:
    """Where a symbol shows."""
    assert use.clip is not None
    return bounds_of_points(map(use.transform.apply, use.clip))


def test_a_round_piece_is_cut_round() -> None:
    resolved, papers = hill_line()
    sun = next(ready for ready in resolved.kit.ready if ready.name == "sun")
    figure = ready_swatch(resolved.kit, papers, sun, TWELFTH, STYLE)
    (outline,) = [shape for shape in figure.shapes if isinstance(shape, Polygon)]
    middle = figure.width / 2
    reach = [((x - middle) ** 2 + (y - middle) ** 2) ** 0.5 for x, y in outline.points]
    assert reach == pytest.approx([middle] * len(reach))


def test_strips_lie_side_by_side_and_leave_out_what_has_words() -> None:
    resolved, papers = hill_line()
    figure = swatch_strips(resolved.kit, papers, 300.0, 90.0)
    boxes = [seen(use) for use in uses(figure.shapes)]
    assert len(boxes) == sum(not sheet.is_cut_apart for sheet in resolved.kit.sheets)
    assert boxes[-1].right == pytest.approx(300.0)
    assert all(box.height == pytest.approx(90.0) for box in boxes)
    assert all(left.right < right.left for left, right in pairwise(boxes))


# The pile.

LOOK = PileLook(longest=112.0, pitch=28.0, width=178.0)


def drawn_pile() -> tuple[tuple[CutSheet, ...], Figure]:
    resolved, papers = hill_line()
    sheets = pile(resolved.kit, resolved.sheets, resolved.ledger)
    return sheets, pile_figure(resolved, papers, sheets, LOOK, STYLE)


def test_what_lies_below_is_drawn_before_what_lies_on_it() -> None:
    _, figure = drawn_pile()
    fronts = [seen(use).bottom for use in uses(figure.shapes)]
    assert fronts == sorted(fronts, reverse=True)


def test_the_pile_stays_within_its_figure() -> None:
    _, figure = drawn_pile()
    box = bounds(shape for shape in figure.shapes if not isinstance(shape, Group))
    assert box.left >= -1
    assert box.top >= -1
    assert box.right <= figure.width + STYLE.dimension_width / 2
    assert box.bottom <= figure.height


def test_a_sheet_lies_in_the_pile_as_it_is_cut() -> None:
    resolved, papers = hill_line()
    contour = resolved.sheets[sheet_index("contour")]
    assert contour.whole[0].lying.face is Face.BACK
    assert resolved.sheets[sheet_index("sage")].whole[0].lying == Orientation()
    figure = pile_figure(resolved, papers, [contour], PileLook(200.0, 20.0, 300.0), STYLE)
    (shown,) = uses(figure.shapes)
    assert shown.symbol == papers.sheet(contour.index, Face.BACK)


# The pictogram.


@given(st.integers(1, 40), st.integers(1, 40))
def test_a_pictogram_keeps_the_photograph_s_proportions(width: int, height: int) -> None:
    size = Size(Fraction(width, 4), Fraction(height, 4))
    figure = photo_pictogram(size, 22.0, STYLE)
    assert max(figure.width, figure.height) == pytest.approx(22.0)
    assert figure.width / figure.height == pytest.approx(width / height)
