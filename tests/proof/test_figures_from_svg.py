"""Figures that come by another route measure the same: the proof rests on ink, not on habits of our writer.

The measured figures of each page go out as SVG, and Typst makes a page of them: another parser, another
writer.  The scale is stated below each, as the booklet states it; all else is found.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import pytest

from booklet.content.figures import CutFigure as CutRequest
from booklet.content.figures import NumberedLayout
from booklet.drawing.shapes.figure import Figure
from booklet.drawing.writers.svg_writer import figure_svgs
from booklet.kit.fields import Edge
from booklet.pages.booklet import figures_of
from booklet.pages.boxes import FigureBox, all_in
from booklet.proof.at_table import arrow_tips, finished_page
from booklet.proof.figures import CutFigure, cut_figures
from booklet.proof.lengths import measured
from booklet.proof.measured import Measured
from booklet.proof.printed import POINTS_PER_MM, Page
from tests.proof.finished import Finished, finished
from tests.proof.typeset import typeset

pytestmark = pytest.mark.thorough

DEMOS = ("hill-line", "roof-garden")
# How far the routes may lie apart, in points: SVG is written to thousandths, before figures are made smaller.
SAME = 0.005
# How far a length may lie from its number, in millimetres.
NEAR = 0.05


@dataclass(frozen=True)
class Routes:
    """A page of the booklet, and one with its measured figures by another route."""

    own: Page
    other: Page


@cache
def routes(kit: str) -> tuple[Routes, ...]:
    """Every page with a figure at the trimmer or a finished page."""
    made = finished(kit)
    return tuple(
        Routes(made.pages[number - 1], typeset([(svg(figure), figure.scale) for figure in figures], number))
        for number, figures in measured_figures(made)
    )


def svg(figure: Figure) -> str:
    """A figure as the program's own SVG."""
    return figure_svgs([figure])[0]


def measured_figures(made: Finished) -> Iterator[tuple[int, list[Figure]]]:
    """The figures of each page on which lengths are measured, from the top down."""
    for number, page in enumerate(made.laid.pages, 1):
        inside = (each for placed in page.column for each in all_in(placed.flowable))
        figures = [each.figure for each in inside if isinstance(each, FigureBox)]
        if found := [each for each in figures if isinstance(each.subject, CutRequest | NumberedLayout)]:
            yield number, found


@pytest.mark.parametrize("kit", DEMOS)
def test_every_reading_and_every_flag_is_where_it_says_by_both_routes(kit: str) -> None:
    made = finished(kit)
    figures = [one for one in made.figures if isinstance(one.request, CutRequest | NumberedLayout)]
    lengths = measured(made.resolved, figures, [both.own for both in routes(kit)])
    found = measured(made.resolved, figures, [both.other for both in routes(kit)])
    assert [length.claim for length in found] == [length.claim for length in lengths]
    assert [length for length in found if length.off is None or length.off > NEAR] == []


@pytest.mark.parametrize("kit", DEMOS)
def test_figures_at_the_trimmer_read_alike_by_both_routes(kit: str) -> None:
    count = 0
    for both in routes(kit):
        own, other = cut_figures(both.own), cut_figures(both.other)
        assert [figure.scale.values for figure in own] == [figure.scale.values for figure in other]
        for one, two in zip(own, other, strict=True):
            assert places(one) == pytest.approx(places(two), abs=SAME)
        count += len(own)
    assert count == sum(isinstance(figure.subject, CutRequest) for figure in figures_of(finished(kit).laid))


def places(figure: CutFigure) -> list[float]:
    """The sides of a figure, its marks and its cut lines, from the corner of its outline, in points."""
    left, top = figure.outline.left, figure.outline.top
    marks = [part for x, length in figure.scale.marks for part in (x - left, length)]
    cuts = [part for stroke in figure.cuts for part in (stroke.start[0] - left, stroke.length)]
    return [figure.outline.width, figure.outline.height, top - figure.scale.base, *marks, *cuts]


@pytest.mark.parametrize("kit", DEMOS)
def test_finished_pages_read_alike_by_both_routes(kit: str) -> None:
    layouts = [both for both in routes(kit) if not cut_figures(both.own)]
    assert len(layouts) == sum(
        isinstance(figure.subject, NumberedLayout) for figure in figures_of(finished(kit).laid)
    )
    for both in layouts:
        assert ends(both.own) == pytest.approx(ends(both.other), abs=SAME)


def ends(page: Page) -> list[float]:
    """The sides of the finished page, and where arrows end along each edge, from its corner, in points."""
    outline = finished_page(page)
    assert outline is not None
    found = [outline.width, outline.height]
    for along in Edge:
        corner = outline.top if along.is_upright else outline.left
        found += sorted(tip - corner for tip in arrow_tips(page, outline, along))
    return found


def test_the_figures_of_a_kit_are_small_enough_to_be_sent() -> None:
    figures = figures_of(finished("hill-line").laid)
    assert len(figures) > 30
    assert sum(len(document.encode()) for document in figure_svgs(figures)) < 2_000_000


# What another route draws wrong is found as well.

# Its dashes are its own, or those of the group that it begins.
CUT_LINE = re.compile(
    r'(<g [^>]*stroke-dasharray[^>]*>)?<line x1="([\d.]+)" y1="0" x2="\2" (?(1)|(?=[^>]*stroke-dasharray))'
)


@pytest.mark.parametrize(("off", "holds"), [(0.04, True), (0.08, False)])
def test_a_cut_line_that_the_other_route_draws_beside_its_reading_is_found(off: float, holds: bool) -> None:
    made = finished("hill-line")
    number, (figure,) = next(each for each in measured_figures(made) if len(each[1]) == 1)
    wrong, moved = CUT_LINE.subn(lambda line: moved_line(line, off), svg(figure), count=1)
    assert moved == 1
    found = lengths_of(made, typeset([(wrong, figure.scale)], number))
    assert all(length.holds for length in found) is holds


def moved_line(line: re.Match[str], off: float) -> str:
    """A cut line `off` millimetres farther right."""
    x = f"{float(line[2]) + off * POINTS_PER_MM:.3f}"
    return f'{line[1] or ""}<line x1="{x}" y1="0" x2="{x}" '


def test_a_figure_of_another_scale_than_is_stated_is_found() -> None:
    made = finished("hill-line")
    number, (figure,) = next(each for each in measured_figures(made) if len(each[1]) == 1)
    found = lengths_of(made, typeset([(svg(figure), "Scale 1:4")], number))
    lines = [length for length in found if "line of cut" in length.claim.key]
    assert lines
    assert not any(length.holds for length in lines)


def lengths_of(made: Finished, page: Page) -> tuple[Measured, ...]:
    """What is measured of the figures at the trimmer of a page."""
    figures = [one for one in made.figures if isinstance(one.request, CutRequest)]
    return measured(made.resolved, figures, [page])
