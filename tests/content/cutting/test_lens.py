"""Cuts that lie near each other are shown at true size."""

from __future__ import annotations

import pytest

from booklet.content.blocks import Lens
from booklet.content.figures import LensFigure
from booklet.measure.length import Unit
from booklet.placing.resolved import ResolvedKit
from tests.content.cutting.slips import resolved, section_of, stages_of
from tests.kits import Data, cut, element, sheet


def lenses(kit: ResolvedKit) -> list[Lens | None]:
    """The lens of each stage of the first sheet."""
    return [stage.lens for stage in stages_of(section_of(kit))]


def lens_cuts(kit: ResolvedKit) -> list[tuple[int, ...]]:
    """The cuts in the lens of each stage."""
    figures = [lens.picture.figure if lens else None for lens in lenses(kit)]
    return [figure.cuts if isinstance(figure, LensFigure) else () for figure in figures]


def strips(*at: object) -> Data:
    """A step that cuts here and keeps the first strip."""
    return cut(list(at), ["one", *["rail"] * len(at)])


@pytest.mark.parametrize(
    ("at", "cuts"),
    [
        (["11 5/8", "11 1/4", "10 7/8", 6], (1, 2, 3)),
        ([11, "10 3/8"], ()),
        ([11, "10 7/16"], (1, 2)),
        (["11 1/2", 11, 6, 3, "2 1/2"], (1, 2, 4, 5)),
        ([9, 6, 3], ()),
        ([6], ()),
    ],
)
def test_runs_of_cuts_nearer_than_five_eighths_of_an_inch_get_a_lens(
    at: list[object], cuts: tuple[int, ...]
) -> None:
    assert lens_cuts(resolved(sheet(strips(*at)))) == [cuts]


@pytest.mark.parametrize(("gap", "near"), [(14, True), (15, False)])
def test_in_millimetres_nearer_than_fifteen(gap: int, near: bool) -> None:
    kit = resolved(sheet(strips(200, 200 - gap)), unit=Unit.MILLIMETRE)
    assert lens_cuts(kit) == [(1, 2) if near else ()]


def test_the_same_readings_get_no_second_lens_on_a_sheet() -> None:
    first = cut([11, "10 1/2", 5], ["strip", "one", "rail", "rail"])
    again = cut([11, "10 1/2"], ["two", "rail", "rail"], take="one", turn="clockwise")
    another = cut([11, 10, "9 1/2"], ["two", "rail", "rail", "rail"], take="one", turn="clockwise")
    assert lens_cuts(resolved(sheet(first, again), base="two")) == [(1, 2), ()]
    assert lens_cuts(resolved(sheet(first, another), base="two")) == [(1, 2), (5, 6)]


def test_a_reading_that_stood_alone_before_is_shown_where_another_is_near() -> None:
    first = cut([11, 5], ["strip", "one", "rail"])
    again = cut([11, "10 1/2"], ["two", "rail", "rail"], take="one", turn="clockwise")
    assert lens_cuts(resolved(sheet(first, again), base="two")) == [(), (3, 4)]


def test_printed_marks_need_no_lens() -> None:
    elements = [element("one", 0, 0, "11 x 12"), element("two", 11, 0, "1/2 x 12")]
    kit = resolved(sheet(cut(["11 1/2", 11], ["one", "two", "scrap"]), elements=elements))
    assert lenses(kit) == [None]
