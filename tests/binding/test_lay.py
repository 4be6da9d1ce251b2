"""Where pages, folds, cuts and boxes lie on the sides of press sheets."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.binding.binding import Binding, Flat, Flip, Folded
from booklet.binding.copies import copies_of
from booklet.binding.creep import ROUND_FOLD, Creep
from booklet.binding.errors import CreepError, PageCountError, StockTooSmallError
from booklet.binding.lay import impose
from booklet.binding.sides import Box, ImposedSide, box_of
from booklet.binding.stock import (
    A3,
    A4,
    A5,
    HALF_LETTER,
    LETTER,
    SQUARE_6_IN,
    SQUARE_15_CM,
    SRA3,
    TABLOID,
    PaperStock,
    read_press_sheet,
)
from booklet.measure.length import Unit

MM = Unit.MILLIMETRE.points
INNER = 9 * MM


def crept(caliper: str = "0.1", sheets: int | None = None) -> Folded:
    return Folded(sheets, Creep(Fraction(caliper) * MM, ROUND_FOLD), INNER)


def holds(outer: Box, inner: Box) -> bool:
    return inner.within(outer) == inner


def meet(one: Box, other: Box) -> bool:
    """Whether two boxes share more than an edge."""
    common = one.within(other)
    return common.left < common.right and common.bottom < common.top


bindings = st.builds(
    Binding,
    page=st.sampled_from([HALF_LETTER, A5, SQUARE_6_IN, SQUARE_15_CM]),
    press=st.sampled_from([TABLOID, A3, SRA3, read_press_sheet("700x1000mm")]),
    style=st.sampled_from([Folded(), Folded(2), crept(), crept("0.2", 3), Flat()]),
    copies=st.sampled_from([1, None]),
    flip=st.sampled_from(Flip),
    bleed=st.sampled_from([Fraction(0), 3 * MM]),
)


@given(bindings, st.integers(1, 6).map(lambda sheets: 4 * sheets))
def test_boxes_are_nested_and_nothing_crosses_a_fold(binding: Binding, page_count: int) -> None:
    """ISO 32000-1, 14.11.2 (from memory): trim within bleed within media."""
    for sheet in impose(page_count, binding):
        for side in sheet.sides:
            assert holds(box_of(side.size), side.bleed)
            assert holds(side.bleed, side.trim)
            assert all(holds(side.bleed, page.clip) for page in side.pages)
            assert not any(meet(one.clip, other.clip) for one, other in combinations(side.pages, 2))
            for fold in side.folds:
                on_fold = Box(fold.x0, fold.y0, fold.x1, fold.y1).grown(Fraction(1, 1000))
                clips = [page.clip for page in side.pages if meet(page.clip, on_fold)]
                assert all(
                    clip.left >= fold.x0 or clip.right <= fold.x0
                    if fold.is_upright
                    else clip.bottom >= fold.y0 or clip.top <= fold.y0
                    for clip in clips
                )


@given(bindings)
def test_cuts_run_across_the_whole_sheet_along_the_trim_of_the_copies(binding: Binding) -> None:
    side = impose(4, binding)[0].front
    sheet = box_of(side.size)
    for cut in side.cuts:
        start, end, edge = (cut.y0, cut.y1, sheet.top) if cut.is_upright else (cut.x0, cut.x1, sheet.right)
        assert start == 0
        assert end == edge
    across = {cut.x0 for cut in side.cuts if cut.is_upright}
    assert across >= {side.trim.left, side.trim.right} - {sheet.left, sheet.right}


@given(bindings)
def test_every_page_keeps_its_size(binding: Binding) -> None:
    page = binding.page.upright
    for sheet in impose(8, binding):
        for side in sheet.sides:
            for placed in side.pages:
                assert placed.trim.size == (page.turned if placed.turn % 2 else page)


def pages(side: ImposedSide) -> list[int]:
    return [placed.page for placed in side.pages]


def test_four_pages_are_a_single_fold() -> None:
    (sheet,) = impose(4, Binding(A5, A4))
    assert (pages(sheet.front), pages(sheet.back)) == ([4, 1], [2, 3])
    (fold,) = sheet.front.folds
    assert fold.x0 == fold.x1 == A4.landscape.width / 2


def test_an_odd_page_of_flat_leaves_has_nothing_behind_it() -> None:
    *_, last = impose(3, Binding(A4, A4, Flat()))
    assert (pages(last.front), pages(last.back)) == ([3], [])


@pytest.mark.parametrize("flip", Flip)
def test_with_creep_the_trim_of_the_sheet_k_is_narrower_by_twice_f_k_t(flip: Flip) -> None:
    for k, sheet in enumerate(impose(32, Binding(A5, A3, crept(), flip=flip))):
        push = ROUND_FOLD * k * MM / 10
        for side in sheet.sides:
            assert side.depth == k
            assert side.trim.size.width == 2 * (A5.upright.width - push)
            fold = side.folds[0].x0
            assert fold - side.trim.left == side.trim.right - fold
            assert [cut.x0 for cut in side.cuts if cut.is_upright] == [side.trim.left, side.trim.right]


def test_with_creep_a_page_loses_at_the_fold_what_it_moves() -> None:
    sheet = impose(32, Binding(A5, A3, crept()))[7]
    left, right = sheet.front.pages
    fold, push = A3.landscape.width / 2, ROUND_FOLD * 7 * MM / 10
    assert (left.trim.right, right.trim.left) == (fold + push, fold - push)
    assert (left.clip.right, right.clip.left) == (fold, fold)


def test_creep_begins_anew_in_every_signature() -> None:
    sheets = impose(32, Binding(A5, A3, crept(sheets=3)))
    assert [sheet.front.depth for sheet in sheets] == [0, 1, 2, 0, 1, 2, 0, 1]
    widths = [sheet.front.trim.size.width for sheet in sheets]
    assert widths[:3] == widths[3:6]
    assert len(set(widths)) == 3


def test_creep_that_eats_the_page_is_refused_and_fewer_sheets_to_a_signature_help() -> None:
    thick = "0.9"
    with pytest.raises(CreepError, match="9 nested sheets"):
        impose(36, Binding(A5, A3, crept(thick)))
    assert len(impose(36, Binding(A5, A3, crept(thick, sheets=3)))) == 9


def test_bleed_ends_at_the_fold_and_shows_at_the_other_edges() -> None:
    bleed = 3 * MM
    left, right = impose(4, Binding(A5, A3, bleed=bleed))[0].front.pages
    assert (left.clip.left, left.clip.right) == (left.trim.left - bleed, left.trim.right)
    assert (right.clip.left, right.clip.top) == (right.trim.left, right.trim.top + bleed)


# How many copies stand on a press sheet, and how they lie.


@pytest.mark.parametrize(
    ("page", "press", "style", "count", "turn"),
    [
        (A5, A4, Folded(), 1, 0),
        (A5, A3, Folded(), 2, 1),  # 296 wide twice does not fit in 420; 210 wide does
        (HALF_LETTER, TABLOID, Folded(), 2, 1),
        (SQUARE_15_CM, SRA3, Folded(), 3, 1),
        (A5, A4, Flat(), 2, 1),
        (HALF_LETTER, TABLOID, Flat(), 4, 0),
        (A4, A4, Flat(), 1, 0),
    ],
)
def test_as_many_copies_stand_on_a_sheet_as_fit_turned_if_that_is_more(
    page: PaperStock, press: PaperStock, style: Folded | Flat, count: int, turn: int
) -> None:
    copies = copies_of(Binding(page, press, style, copies=None))
    assert (len(copies), {copy.turn for copy in copies}) == (count, {turn})


def test_bleed_keeps_copies_apart_by_twice_its_width() -> None:
    one, other = copies_of(Binding(A5, SRA3, Flat(), copies=2, bleed=3 * MM))
    assert other.box.left - one.box.right == 6 * MM


def test_bleed_that_leaves_no_room_for_a_second_copy() -> None:
    with pytest.raises(StockTooSmallError, match="expected at most 1"):
        copies_of(Binding(A5, A4, Flat(), copies=2, bleed=MM))


@pytest.mark.parametrize(
    ("binding", "reason"),
    [
        (
            Binding(SQUARE_6_IN, A4),
            r"2 pages of 152\.4 mm need 304\.8 mm; A4 is 297 mm: 7\.8 mm too narrow",
        ),
        (Binding(SQUARE_6_IN, LETTER), "2 pages of 6 in need 12 in; Letter is 11 in: 1 in too narrow"),
        (Binding(HALF_LETTER, A4), r"pages 215\.9 mm high need 215\.9 mm; A4 is 210 mm: 5\.9 mm too low"),
        (Binding(A4, A5, Flat()), "a page of 210 mm needs 210 mm; .* 62 mm too narrow"),
        (Binding(A5, A4, copies=2), "2 copies do not fit on a sheet of A4: expected at most 1"),
        (Binding(A5, A4, copies=0), "expected at least 1"),
    ],
)
def test_what_does_not_fit_is_refused_with_by_how_much(binding: Binding, reason: str) -> None:
    with pytest.raises(StockTooSmallError, match=reason):
        impose(4, binding)


def test_refuses_pages_that_do_not_fill_whole_sheets_where_they_are_folded() -> None:
    with pytest.raises(PageCountError):
        impose(6, Binding(A5, A4))
    assert len(impose(6, Binding(A5, A4, Flat()))) == 3
