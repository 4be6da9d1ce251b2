"""Lengths on the pages, measured where they are drawn."""

from __future__ import annotations

from dataclasses import replace

import pytest

from booklet.measure.exact import Fraction
from booklet.proof.figures import CutFigure, cut_figures
from booklet.proof.lengths import TOLERANCE, measured
from booklet.proof.printed import POINTS_PER_MM, Page
from tests.finished.kits import PLAIN
from tests.proof.finished import finished


def moved_line(page: Page, figure: CutFigure, off: float) -> Page:
    """The page with the first cut line of a figure drawn `off` millimetres farther right."""
    at, by = figure.cuts[0].start[0], off * POINTS_PER_MM
    paths = tuple(
        replace(
            path,
            outlines=tuple(
                tuple((x + by if abs(x - at) < 0.01 else x, y) for x, y in outline)
                for outline in path.outlines
            ),
        )
        if path.is_dashed
        else path
        for path in page.paths
    )
    return replace(page, paths=paths)


@pytest.mark.parametrize(
    "kit", ["hill-line", "roof-garden", PLAIN], ids=["hill-line", "roof-garden", "plain"]
)
def test_every_reading_and_every_flag_is_drawn_where_it_says(kit: str) -> None:
    made = finished(kit)
    found = measured(made.claims, made.pages)
    readings = [claim for claim in made.claims if claim.kind.value == "reading" and " / cut " in claim.key]
    assert len(found) > len(readings) > 0
    assert [length for length in found if not length.holds] == []
    assert max(length.off or 0.0 for length in found) < 0.005


@pytest.mark.parametrize(("off", "holds"), [(0.8 * TOLERANCE, True), (1.2 * TOLERANCE, False)])
def test_a_cut_line_beside_its_reading_is_found(off: float, holds: bool) -> None:
    made = finished(PLAIN)
    page = next(page for page in made.pages if cut_figures(page))
    wrong = moved_line(page, cut_figures(page)[0], off)
    pages = [wrong if each is page else each for each in made.pages]
    assert all(length.holds for length in measured(made.claims, pages)) is holds


def test_a_reading_of_another_mark_is_found_though_it_is_printed_as_it_is_claimed() -> None:
    made = finished(PLAIN)
    at = next(at for at, claim in enumerate(made.claims) if " / cut 1 / reading" in claim.key)
    claim = made.claims[at]
    other = replace(claim, value=(claim.value[0] + Fraction(1, 16),))
    found = measured([*made.claims[:at], other, *made.claims[at + 1 :]], made.pages)
    assert [length.claim for length in found if not length.holds] == [other]


def test_a_figure_that_is_not_drawn_fails_with_all_its_readings() -> None:
    made = finished(PLAIN)
    page = next(page for page in made.pages if cut_figures(page))
    bare = replace(page, paths=())
    pages = [bare if each is page else each for each in made.pages]
    lost = [length for length in measured(made.claims, pages) if not length.holds]
    assert lost
    assert all(length.off is None and length.claim.page == page.number for length in lost)
