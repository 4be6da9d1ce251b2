"""The order of pages on the press sheets."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.binding.errors import PageCountError
from booklet.binding.signature import PressSheet, PressSide, saddle_stitched

page_counts = st.integers(min_value=1, max_value=40).map(lambda sheets: 4 * sheets)

# The tables of saddle-stitched signatures, sheet by sheet from the outside in, front before back: from
# memory, the table given in printing handbooks.
HANDBOOK = {
    8: [(8, 1), (2, 7), (6, 3), (4, 5)],
    16: [(16, 1), (2, 15), (14, 3), (4, 13), (12, 5), (6, 11), (10, 7), (8, 9)],
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
