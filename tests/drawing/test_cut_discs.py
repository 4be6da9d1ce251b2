"""Discs over the marks of cuts: alone, in turns on two rows, or in one bracket."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.drawing.marks.cut_discs import CutMark, Head, Side, cut_heads, heads_height, stem_start
from tests.drawing.styles import STYLE

RADIUS = STYLE.disc_radius


def heads(*places: float, numbers: tuple[int, ...] = (), least: float = -7.5) -> tuple[Head, ...]:
    """Heads for cuts at these places, made from the right to the left unless numbered."""
    count = len(places)
    order = numbers or tuple(range(count, 0, -1))
    return cut_heads([CutMark(n, x) for n, x in zip(order, places, strict=True)], least, STYLE)


def shown(head: Head) -> list[int]:
    return [disc.number for disc in head.discs]


def test_a_disc_stands_straight_over_its_mark() -> None:
    found = heads(20, 60, 100)
    assert [[(disc.at, disc.row) for disc in head.discs] for head in found] == [
        [(20, 0)],
        [(60, 0)],
        [(100, 0)],
    ]
    assert heads_height(found, STYLE) < 2 * RADIUS + 4


def test_two_that_would_touch_take_two_rows_and_the_first_cut_keeps_the_near_one() -> None:
    (head,) = heads(20, 32)
    assert [(disc.number, disc.at, disc.row) for disc in head.discs] == [(2, 20, 1), (1, 32, 0)]


def test_many_take_turns() -> None:
    (head,) = heads(20, 32, 44, 56)
    assert [disc.row for disc in head.discs] == [1, 0, 1, 0]


def test_nearer_ones_become_a_bracket_with_its_ends_over_their_marks() -> None:
    (head,) = heads(20, 25, 30, 35, 40, 45)
    assert head.is_bracket
    assert [(disc.number, disc.at) for disc in head.discs] == [(6, 20), (1, 45)]
    assert len(head.dashes) == 1


def test_a_bracket_wider_than_its_marks_has_them_in_its_middle() -> None:
    (head,) = heads(50, 53, 56)
    assert shown(head) == [3, 1]
    assert sum(disc.at for disc in head.discs) / 2 == pytest.approx(53)


def test_two_in_a_bracket_have_no_dash() -> None:
    (head,) = heads(50, 53)
    assert (shown(head), head.dashes) == ([2, 1], ())


def test_cuts_out_of_order_are_all_named() -> None:
    (head,) = heads(50, 53, 56, 59, numbers=(2, 5, 1, 3))
    assert shown(head) == [2, 5, 1, 3]


def test_a_bracket_keeps_within_the_figure() -> None:
    (head,) = heads(1, 3, 5, least=-7.5)
    assert min(disc.at for disc in head.discs) - RADIUS >= -7.5


def test_only_a_disc_over_its_own_mark_has_a_stem() -> None:
    side = Side(100.0, -1)
    (head,) = heads(20, 25, 30, 35, 40, 45)
    starts = [stem_start(head, cut, side, STYLE) for cut in head.cuts]
    assert starts[0] == starts[-1] == pytest.approx(side.middle(0, STYLE) + RADIUS)
    assert starts[1:-1] == [None] * 4


def test_discs_may_hang_below() -> None:
    below, above = Side(100.0, 1), Side(100.0, -1)
    assert below.middle(0, STYLE) - 100 == pytest.approx(100 - above.middle(0, STYLE))
    assert below.middle(1, STYLE) > below.middle(0, STYLE) + 2 * RADIUS


@given(
    st.lists(st.integers(0, 864), min_size=1, max_size=12, unique=True).flatmap(
        lambda places: st.tuples(st.just(places), st.permutations(range(1, len(places) + 1)))
    )
)
def test_heads_never_touch_and_name_every_cut_at_either_end_of_a_run(
    case: tuple[list[int], list[int]],
) -> None:
    places, numbers = case
    cuts = [CutMark(number, place / 4) for number, place in zip(numbers, places, strict=True)]
    found = cut_heads(cuts, -7.5, STYLE)
    assert sorted(cut.number for head in found for cut in head.cuts) == sorted(numbers)
    for left, right in pairwise(found):
        assert left.right < right.left
    for head in found:
        if not head.is_bracket:
            assert [(disc.at, disc.number) for disc in head.discs] == [
                (cut.at, cut.number) for cut in head.cuts
            ]
        for one, other in pairwise(sorted(head.discs, key=lambda disc: disc.at)):
            near = one.row == other.row
            assert other.at - one.at >= (2 * RADIUS if near else RADIUS)
