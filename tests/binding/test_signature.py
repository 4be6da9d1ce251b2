"""The order of pages on the press sheets."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.binding.errors import PageCountError
from booklet.binding.signature import Leaf, PressSheet, PressSide, flat_leaves, saddle_stitched

page_counts = st.integers(min_value=1, max_value=40).map(lambda sheets: 4 * sheets)

# The tables of saddle-stitched signatures, sheet by sheet from the outside in, front before back: from
# memory, the table given in printing handbooks.
HANDBOOK = {
    4: [(4, 1), (2, 3)],
    8: [(8, 1), (2, 7), (6, 3), (4, 5)],
    12: [(12, 1), (2, 11), (10, 3), (4, 9), (8, 5), (6, 7)],
    16: [(16, 1), (2, 15), (14, 3), (4, 13), (12, 5), (6, 11), (10, 7), (8, 9)],
    32: [
        *((32, 1), (2, 31), (30, 3), (4, 29), (28, 5), (6, 27), (26, 7), (8, 25)),
        *((24, 9), (10, 23), (22, 11), (12, 21), (20, 13), (14, 19), (18, 15), (16, 17)),
    ],
}


def sides(sheets: tuple[PressSheet, ...]) -> list[PressSide]:
    return [side for sheet in sheets for side in (sheet.front, sheet.back)]


@pytest.mark.parametrize("page_count", sorted(HANDBOOK))
def test_agrees_with_the_table_of_printing_handbooks(page_count: int) -> None:
    order = [(side.left, side.right) for side in sides(saddle_stitched(page_count))]
    assert order == HANDBOOK[page_count]


def test_one_folded_sheet() -> None:
    assert saddle_stitched(4) == (PressSheet(0, front=PressSide(4, 1), back=PressSide(2, 3)),)


@given(page_counts)
def test_every_page_is_printed_exactly_once(page_count: int) -> None:
    printed = [page for side in sides(saddle_stitched(page_count)) for page in (side.left, side.right)]
    assert sorted(printed) == list(range(1, page_count + 1))


@given(page_counts)
def test_the_two_pages_of_a_side_add_up_to_one_more_than_the_count(page_count: int) -> None:
    assert {side.left + side.right for side in sides(saddle_stitched(page_count))} == {page_count + 1}


@given(page_counts)
def test_right_hand_pages_are_odd(page_count: int) -> None:
    for sheet in saddle_stitched(page_count):
        assert (sheet.front.right % 2, sheet.back.right % 2) == (1, 1)


def fold_and_leaf_through(sheets: tuple[PressSheet, ...]) -> list[int]:
    """The pages in the order in which a reader of the folded, nested sheets meets them.

    A sheet lies front down with the head away from the hand; the back is then seen as it is read, and behind
    its left half lies the front's right half.  Folded, it is two leaves; the stack, outermost sheet lowest,
    is folded together, so the left halves come out as the first leaves, lowest sheet first.
    """
    first_leaves = [(sheet.front.right, sheet.back.left) for sheet in sheets]
    last_leaves = [(sheet.back.right, sheet.front.left) for sheet in reversed(sheets)]
    return [page for leaf in first_leaves + last_leaves for page in leaf]


@given(page_counts)
def test_the_folded_and_nested_sheets_read_in_order(page_count: int) -> None:
    assert fold_and_leaf_through(saddle_stitched(page_count)) == list(range(1, page_count + 1))


@pytest.mark.parametrize("page_count", [0, 1, 2, 3, 5, 6, 7, 10, 22, -4])
def test_refuses_pages_that_do_not_fill_whole_sheets(page_count: int) -> None:
    with pytest.raises(PageCountError, match="multiple of 4"):
        saddle_stitched(page_count)


# Signatures of a stated number of sheets.


def pages_by_signature(page_count: int, sheets: int) -> list[list[int]]:
    """The pages of each signature, sorted."""
    found: dict[int, list[int]] = {}
    for sheet in saddle_stitched(page_count, sheets):
        for side in (sheet.front, sheet.back):
            found.setdefault(sheet.signature, []).extend((side.left, side.right))
    return [sorted(found[signature]) for signature in sorted(found)]


def test_two_signatures_of_two_sheets_bear_the_pages_of_two_booklets_of_eight() -> None:
    order = [(side.left, side.right) for side in sides(saddle_stitched(16, 2))]
    assert order == [(8, 1), (2, 7), (6, 3), (4, 5), (16, 9), (10, 15), (14, 11), (12, 13)]


@given(page_counts, st.integers(min_value=1, max_value=12))
def test_signatures_follow_each_other_and_each_holds_a_multiple_of_four_pages(
    page_count: int, sheets: int
) -> None:
    signatures = pages_by_signature(page_count, sheets)
    assert [page for pages in signatures for page in pages] == list(range(1, page_count + 1))
    *full, last = map(len, signatures)
    assert set(full) <= {4 * sheets}
    assert last % 4 == 0
    assert 0 < last <= 4 * sheets


def test_the_last_signature_has_the_sheets_that_are_left() -> None:
    # 36 pages are nine sheets: four, four and one.
    assert [len(pages) for pages in pages_by_signature(36, 4)] == [16, 16, 4]


def test_more_sheets_to_a_signature_than_there_are_make_one() -> None:
    assert saddle_stitched(12, 9) == saddle_stitched(12)


@pytest.mark.parametrize("sheets", [0, -1])
def test_refuses_a_signature_without_sheets(sheets: int) -> None:
    with pytest.raises(PageCountError, match="at least one"):
        saddle_stitched(8, sheets)


# Flat leaves.


def test_flat_leaves_bear_the_pages_front_and_back_in_turn() -> None:
    assert flat_leaves(4) == (Leaf(1, 2), Leaf(3, 4))


def test_the_last_of_an_odd_number_of_pages_has_a_blank_back() -> None:
    assert flat_leaves(3) == (Leaf(1, 2), Leaf(3, None))


def test_refuses_a_booklet_without_pages() -> None:
    with pytest.raises(PageCountError, match="at least one"):
        flat_leaves(0)
