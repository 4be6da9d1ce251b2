"""Whether all pieces come out of one sheet, against a plain search that tries every cut."""

from __future__ import annotations

from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.cutting.planner.boxes import fill_table
from booklet.cutting.planner.decide import decide
from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.kinds import Kind, fields_of

PLENTY = 10**9


@cache
def comes_apart(pieces: tuple[tuple[int, int, bool], ...], width: int, height: int) -> bool:
    """Try every whole reading in both directions, and every sharing of the pieces between the two sides."""
    if not pieces:
        return True
    if sum(w * h for w, h, _ in pieces) > width * height:
        return False
    if len(pieces) == 1:
        w, h, turns = pieces[0]
        return (w <= width and h <= height) or (turns and h <= width and w <= height)
    for chosen in range(1, 2 ** len(pieces) - 1):
        here = tuple(piece for i, piece in enumerate(pieces) if chosen >> i & 1)
        there = tuple(piece for i, piece in enumerate(pieces) if not chosen >> i & 1)
        for at in range(1, width):
            if comes_apart(here, at, height) and comes_apart(there, width - at, height):
                return True
        for at in range(1, height):
            if comes_apart(here, width, at) and comes_apart(there, width, height - at):
                return True
    return False


PIECES = st.lists(
    st.tuples(st.integers(1, 5), st.integers(1, 5), st.integers(1, 2), st.booleans()), min_size=1, max_size=3
)


@settings(max_examples=150, deadline=None)
@given(PIECES, st.integers(3, 7), st.integers(3, 7))
def test_the_verdict_is_that_of_trying_every_cut(pieces, width, height):
    kinds = [Kind(*piece) for piece in pieces]
    each = tuple(sorted((w, h, turns) for w, h, count, turns in pieces for _ in range(count)))
    assert decide(kinds, width, height, Effort(PLENTY)).verdict is comes_apart(each, width, height)


def test_a_pinwheel_fills_the_square_but_no_edge_to_edge_cut_starts_it():
    pinwheel = [Kind(2, 1, 2, False), Kind(1, 2, 2, False), Kind(1, 1, 1, False)]
    assert decide(pinwheel, 3, 3, Effort(PLENTY)).verdict is False


def test_turning_helps_where_the_direction_was_in_the_way():
    def halves(turns: bool) -> list[Kind]:
        return [Kind(6, 12, 1, turns), Kind(12, 6, 1, turns)]

    assert decide(halves(False), 12, 12, Effort(PLENTY)).verdict is False
    assert decide(halves(True), 12, 12, Effort(PLENTY)).verdict is True


def test_without_effort_there_is_no_verdict():
    pieces = [Kind(3 + i, 5 + (i * 7) % 11, 1, True) for i in range(12)]
    assert decide(pieces, 40, 40, Effort(1000)).verdict is None


def test_a_narrow_look_does_not_pass_for_a_proof():
    pieces = [Kind(3 + i, 5 + (i * 7) % 11, 1, True) for i in range(9)]
    assert not fill_table(pieces, 40, 40, 900, Effort(PLENTY), breadth=3).complete
    assert fill_table(pieces, 40, 40, 900, Effort(PLENTY)).complete


@given(st.lists(st.integers(1, 6), min_size=1, max_size=8), st.data())
def test_a_bundle_is_taken_out_of_another_only_if_it_holds_it(counts, data):
    fields = fields_of([Kind(1, 1, count, False) for count in counts])

    def bundle() -> tuple[list[int], int]:
        chosen = [data.draw(st.integers(0, count)) for count in counts]
        return chosen, sum(unit * n for unit, n in zip(fields.units, chosen, strict=True))

    (one, one_code), (other, other_code) = bundle(), bundle()
    assert fields.holds(one_code, other_code) == all(a >= b for a, b in zip(one, other, strict=True))
    assert [fields.count(one_code, kind) for kind in range(len(counts))] == one
