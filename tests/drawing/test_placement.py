"""Where labels come to stand: never over what is taken, and in rows along a line."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.drawing.marks.placement import (
    Board,
    Callout,
    lines_cross,
    spread,
)
from booklet.drawing.shapes.affine import Box, box_about

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


def test_nothing_is_found_where_nothing_is_free() -> None:
    board = Board(within=Box(0, 0, 10, 10))
    assert board.best([Box(5, 5, 15, 8)]) is None
    assert board.is_free(Box(0, 0, 10, 10)), "and nothing is taken then"


def around(x: float, y: float, wide: float, high: float) -> list[Box]:
    """Candidates on a point, then farther and farther off to each side."""
    ways = [(0.0, 0.0), *((way * far, 0.0) for far in (20, 40, 80) for way in (1, -1))]
    return [box_about((x + across, y + down), wide, high) for across, down in ways]


@given(st.lists(st.tuples(places, places, sizes, sizes), max_size=12))
def test_labels_set_by_a_board_never_overlap(wanted: list[tuple[float, float, float, float]]) -> None:
    board = Board(clear=1)
    found = [board.best(around(x, y, w, h)) for x, y, w, h in wanted]
    boxes = [box for box in found if box is not None]
    assert len(boxes) >= min(len(wanted), 1)
    for one, other in combinations(boxes, 2):
        assert not one.grown(0.99).overlaps(other)


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
