"""Where labels come to stand: never over what is taken, and in rows along a line."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.drawing.marks.placement import (
    Board,
    Callout,
    around,
    box_about,
    line_meets,
    lines_cross,
    rows_of,
    spread,
)
from booklet.drawing.shapes.affine import Box

places = st.floats(0, 200, allow_nan=False).map(lambda x: round(x, 2))
sizes = st.floats(1, 30).map(lambda x: round(x, 2))


def test_the_first_free_candidate_is_taken() -> None:
    board = Board(clear=0)
    board.take(Box(0, 0, 10, 10))
    assert board.best([Box(5, 5, 15, 15), Box(10, 0, 20, 10), Box(30, 0, 40, 10)]) == Box(10, 0, 20, 10)
    assert not board.is_free(Box(12, 2, 14, 4))


def test_labels_keep_clear_of_each_other_and_within_the_figure() -> None:
    board = Board(within=Box(0, 0, 30, 10), clear=2)
    board.take(Box(0, 0, 10, 10))
    assert not board.is_free(Box(11, 0, 20, 10)), "only 1 off its neighbour"
    assert board.is_free(Box(12, 0, 20, 10))
    assert not board.is_free(Box(25, 0, 31, 10)), "past the figure's edge"


def test_a_label_lies_over_no_line() -> None:
    board = Board(clear=0)
    board.take_line([(0, 0), (20, 20), (40, 20)])
    assert not board.is_free(Box(8, 8, 12, 12))
    assert not board.is_free(Box(28, 15, 32, 25))
    assert board.is_free(Box(8, 21, 18, 30))


def test_a_leader_runs_over_no_label_and_crosses_no_leader() -> None:
    board = Board()
    board.take(Box(10, 0, 20, 10))
    board.take_line([(0, 20), (40, 20)])
    assert not board.is_open([(0, 5), (30, 5)])
    assert not board.is_open([(5, 12), (5, 30)])
    assert board.is_open([(0, 12), (5, 15), (30, 15)])


def test_what_had_better_be_seen_stays_uncovered_where_that_can_be() -> None:
    board = Board(clear=0)
    board.avoid(Box(0, 0, 10, 10), weight=3)
    covering, half, free = Box(0, 0, 4, 4), Box(8, 0, 12, 4), Box(20, 0, 24, 4)
    assert (board.cost(covering), board.cost(half), board.cost(free)) == (48, 24, 0)
    assert board.best([covering, half]) == half
    assert board.best([covering, free]) == free


def test_nothing_is_found_where_nothing_is_free() -> None:
    board = Board(within=Box(0, 0, 10, 10))
    assert board.best([Box(5, 5, 15, 8)]) is None
    assert board.is_free(Box(0, 0, 10, 10)), "and nothing is taken then"


@given(st.lists(st.tuples(places, places, sizes, sizes), max_size=12))
def test_labels_set_by_a_board_never_overlap(wanted: list[tuple[float, float, float, float]]) -> None:
    board = Board(clear=1)
    found = [board.best(around((x, y), w, h, (10, 20, 40))) for x, y, w, h in wanted]
    boxes = [box for box in found if box is not None]
    assert len(boxes) >= min(len(wanted), 1)
    for one, other in combinations(boxes, 2):
        assert not one.grown(0.99).overlaps(other)


@pytest.mark.parametrize(
    ("line", "meets"),
    [
        (((0, 0), (10, 10)), True),
        (((0, 5), (10, 5)), True),
        (((0, 4), (10, 4)), False),
        (((0, 0), (3, 3)), False),
        (((5, 0), (5, 3)), False),
    ],
)
def test_a_line_meets_the_inside_of_a_box(
    line: tuple[tuple[float, float], tuple[float, float]], meets: bool
) -> None:
    assert line_meets(*line, Box(4, 4, 6, 6)) is meets


def test_lines_that_only_touch_do_not_cross() -> None:
    assert lines_cross((0, 0), (10, 10), (0, 10), (10, 0))
    assert not lines_cross((0, 0), (10, 10), (5, 5), (10, 0))
    assert not lines_cross((0, 0), (10, 0), (0, 5), (10, 5))


def test_a_box_about_a_point_has_it_in_its_middle() -> None:
    assert box_about((10, 20), 6, 4) == Box(7, 18, 13, 22)


callouts = st.lists(st.tuples(places, sizes, sizes), min_size=1, max_size=9).map(
    lambda rows: [Callout(*row) for row in sorted(rows)]
)


@given(callouts)
def test_a_row_keeps_its_order_and_its_gaps(row: list[Callout]) -> None:
    found = spread(row, 3.0)
    for (left, at), (right, following) in pairwise(zip(row, found, strict=True)):
        assert following - right.before >= at + left.after + 3.0 - 1e-6
    apart = all(b.at - b.before >= a.at + a.after + 3.0 for a, b in pairwise(row))
    assert not apart or found == pytest.approx([each.at for each in row])


@given(callouts)
def test_what_cannot_move_sideways_goes_to_the_first_row_with_room(row: list[Callout]) -> None:
    rows = rows_of(row, 3.0)
    assert rows[0] == 0
    for number in set(rows):
        mine = [each for each, at in zip(row, rows, strict=True) if at == number]
        assert all(b.at - b.before >= a.at + a.after + 3.0 for a, b in pairwise(mine))
    apart = all(b.at - b.before >= a.at + a.after + 3.0 for a, b in pairwise(row))
    assert (max(rows) == 0) is apart
