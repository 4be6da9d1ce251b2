"""Sheets with more sizes than the exact search can hold: strip by strip, as good as can be found."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest

from booklet.cutting.planner import Plan, Settings, SheetStock, Wanted, Wish, plan_cuts
from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.kinds import PieceKind, fields_of
from booklet.cutting.planner.peel import Peeler, peel, peel_most
from booklet.kit.fields import Edge
from booklet.measure.length import Size
from tests.cutting.planner.table_top import cut, on_front

SIDE = 96  # a sheet of 12 in in eighths, so that the table top can count its squares
TRIMMER = Settings(mark=Fraction(1), hold=Fraction(6), reach=Fraction(SIDE))


def cut_apart(number: int, scrap: int, seed: int) -> list[tuple[int, int]]:
    """A sheet cut apart edge to edge, the larger parts first: `number` pieces, and what is thrown away."""
    rng, parts = Random(seed), [(SIDE, SIDE)]
    while len(parts) < number + scrap:
        parts.sort(key=lambda part: part[0] * part[1])
        width, height = parts.pop(-1 - rng.randrange(min(3, len(parts))))
        upright = width >= height
        long = width if upright else height
        at = rng.randint(max(1, long // 4), long - max(1, long // 4))
        parts += [(at, height), (width - at, height)] if upright else [(width, at), (width, height - at)]
    rng.shuffle(parts)
    return parts[:number]


def wanted_of(sizes: list[tuple[int, int]], may_turn: bool) -> list[Wanted]:
    return [
        Wanted(f"piece {i}", Size(Fraction(width), Fraction(height)), 1, may_turn)
        for i, (width, height) in enumerate(sizes)
    ]


def one_sheet() -> list[SheetStock]:
    return [SheetStock("sheet", Size(Fraction(SIDE), Fraction(SIDE)))]


def lie(answer: Plan) -> dict[str, tuple[int, int, int, int]]:
    """Where each piece lay on the front: left, top, width and height."""
    (sheet,) = answer.sheets
    parts = cut(sheet.steps, sheet.size)
    assert sum(squares.shape[0] * squares.shape[1] for _, squares in parts) == SIDE * SIDE
    return {name: on_front(squares) for name, squares in parts if name != "scrap"}


def check_sizes(wanted: list[Wanted], given: dict[str, tuple[int, int, int, int]]) -> None:
    for piece in wanted:
        if piece.name in given:
            _, _, width, height = given[piece.name]
            lying = Size(Fraction(width), Fraction(height))
            assert lying in ((piece.size, piece.size.turned) if piece.may_turn else (piece.size,))


@pytest.mark.parametrize(("number", "scrap", "may_turn"), [(36, 2, False), (40, 4, True), (48, 6, False)])
def test_what_more_than_thirty_sizes_were_cut_from_is_planned(
    number: int, scrap: int, may_turn: bool
) -> None:
    sizes = cut_apart(number, scrap, seed=number)
    assert len(set(sizes)) > 30
    wanted = wanted_of(sizes, may_turn)
    answer = plan_cuts(wanted, one_sheet(), TRIMMER)
    assert isinstance(answer, Plan)
    given = lie(answer)
    assert sorted(given) == sorted(piece.name for piece in wanted)
    check_sizes(wanted, given)
    assert plan_cuts(wanted, one_sheet(), TRIMMER) == answer


def test_wishes_for_edges_are_kept_among_many() -> None:
    sizes = cut_apart(38, 6, seed=11)
    wishes = {1: Edge.LEFT, 7: Edge.BOTTOM, 12: Edge.LEFT}
    wanted = [
        Wanted(piece.name, piece.size, 1, False, Wish(edge=wishes[at]) if at in wishes else None)
        for at, piece in enumerate(wanted_of(sizes, may_turn=False))
    ]
    answer = plan_cuts(wanted, one_sheet(), TRIMMER)
    assert isinstance(answer, Plan)
    given = lie(answer)
    assert len(given) == 38
    left, bottom, left_too = (given[f"piece {at}"] for at in (1, 7, 12))
    assert (left[0], left_too[0], bottom[1] + bottom[3]) == (0, 0, SIDE)


def test_what_cannot_all_be_found_leaves_out_little() -> None:
    """Forty pieces that filled the sheet to the last square, before one grew and another shrank."""
    sizes = cut_apart(40, 0, seed=3)
    (width, height), (other_width, other_height) = sizes[0], sizes[1]
    sizes[0], sizes[1] = (width + 1, height), (other_width, other_height - 1 - height // other_width)
    wanted = wanted_of(sizes, may_turn=False)
    answer = plan_cuts(wanted, one_sheet(), TRIMMER)
    assert isinstance(answer, Plan)
    assert not answer.proved
    assert 0 < len(answer.left_out) <= 10
    given = lie(answer)
    assert sorted([*given, *answer.left_out]) == sorted(piece.name for piece in wanted)
    check_sizes(wanted, given)


def test_nothing_is_found_without_effort() -> None:
    kinds = [PieceKind(width, height, 1, False) for width, height in cut_apart(20, 2, seed=1)]
    fields = fields_of(kinds)
    peeler = Peeler(fields, (0,) * len(kinds), lambda *_: None, Effort(1000))
    assert list(peel(peeler, fields.whole, (SIDE, SIDE))) == []
    assert peel_most(peeler, fields.whole, (SIDE, SIDE)) is None


def test_a_plan_proved_to_take_the_fewest_cuts_says_so_and_no_other_does() -> None:
    few = plan_cuts(wanted_of(cut_apart(6, 1, seed=2), may_turn=False), one_sheet(), TRIMMER)
    many = plan_cuts(wanted_of(cut_apart(40, 6, seed=2), may_turn=False), one_sheet(), TRIMMER)
    assert isinstance(few, Plan)
    assert isinstance(many, Plan)
    assert [few.sheets[0].proved, many.sheets[0].proved] == [True, False]
