"""Plans, carried out square by square on the table top, give what was wanted."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from random import Random
from typing import TypeAlias

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.cutting.planner import (
    NoPlan,
    Plan,
    Settings,
    SheetStock,
    Wanted,
    Wish,
    concerns_of,
    measure_steps,
    plan_cuts,
)
from booklet.kit.fields import Edge, Turn
from booklet.kit.sheet import SCRAP
from booklet.measure.length import Size
from tests.benchmarks.bench_planner import cut_up
from tests.cutting.planner.by_hand import what_is_wrong
from tests.cutting.planner.table_top import cut, on_front

Known: TypeAlias = tuple[list[Wanted], int, int]

TRIMMER = Settings(mark=Fraction(1, 8), hold=Fraction(3, 4), reach=Fraction(12))


def size(width: str | int, height: str | int) -> Size:
    return Size(Fraction(width), Fraction(height))


def sheets(count: int = 1, width: int = 12, height: int = 12) -> list[SheetStock]:
    return [SheetStock("shingle", size(width, height), count)]


def planned(wanted: list[Wanted], stocks: list[SheetStock], trimmer: Settings = TRIMMER) -> Plan:
    """The plan, where one is bound to be found and proved."""
    answer = plan_cuts(wanted, stocks, trimmer)
    assert isinstance(answer, Plan)
    return answer


def refused(wanted: list[Wanted], stocks: list[SheetStock]) -> NoPlan:
    """The refusal, where no plan exists."""
    answer = plan_cuts(wanted, stocks, TRIMMER)
    assert isinstance(answer, NoPlan)
    return answer


def yielded(answer: Plan) -> list[tuple[str, tuple[int, int, int, int], Size]]:
    """Each piece that the plan gives: name, place on the front, and the size of its sheet."""
    pieces = []
    for sheet in answer.sheets:
        left = cut(sheet.steps, sheet.size) if sheet.steps else []
        pieces += [(name, on_front(squares), sheet.size) for name, squares in left if name != SCRAP]
        if sheet.whole:
            pieces.append((sheet.whole, (0, 0, int(sheet.size.width), int(sheet.size.height)), sheet.size))
    return pieces


def check_pieces(answer: Plan, wanted: list[Wanted]) -> None:
    pieces = yielded(answer)
    assert Counter(name for name, _, _ in pieces) == {piece.name: piece.count for piece in wanted}
    by_name = {piece.name: piece for piece in wanted}
    for name, (_, _, width, height), _ in pieces:
        piece = by_name[name]
        lies = [piece.size, piece.size.turned] if piece.may_turn else [piece.size]
        assert Size(Fraction(width), Fraction(height)) in lies


@st.composite
def cut_up_sheets(draw: st.DrawFn) -> Known:
    """A sheet cut at random into a few parts, some of them wanted: that it can be cut so is known."""
    width, height = draw(st.integers(6, 16)), draw(st.integers(6, 16))
    parts = [(width, height)]
    for _ in range(draw(st.integers(1, 9))):
        at = draw(st.integers(0, len(parts) - 1))
        w, h = parts.pop(at)
        along = w if draw(st.booleans()) else h
        reading = draw(st.integers(1, along - 1)) if along > 1 else 0
        if not reading:
            parts.append((w, h))
        elif along == w:
            parts += [(reading, h), (w - reading, h)]
        else:
            parts += [(w, reading), (w, h - reading)]
    wanted = [
        Wanted(f"piece {i}", size(w, h), 1, draw(st.booleans()))
        for i, (w, h) in enumerate(parts)
        if i == 0 or draw(st.integers(0, 4))
    ]
    return wanted, width, height


@settings(max_examples=150, deadline=None)
@given(cut_up_sheets())
def test_what_was_cut_from_one_sheet_is_planned_on_one_sheet_again(known: Known) -> None:
    wanted, width, height = known
    answer = plan_cuts(wanted, sheets(2, width, height), TRIMMER)
    assert isinstance(answer, Plan)
    assert len(answer.sheets) == 1
    check_pieces(answer, wanted)


@settings(max_examples=60, deadline=None)
@given(cut_up_sheets())
def test_the_metrics_count_what_happens_at_the_trimmer(known: Known) -> None:
    wanted, width, height = known
    answer = planned(wanted, sheets(1, width, height))
    steps = answer.sheets[0].steps
    metrics = measure_steps(steps, answer.sheets[0].size)
    scrap = [squares for name, squares in cut(steps, size(width, height)) if name == SCRAP] if steps else []
    if steps:
        assert metrics.scrap_area == sum(squares.shape[0] * squares.shape[1] for squares in scrap)
    assert metrics.cuts == sum(len(step.at) for step in steps) >= metrics.settings
    pieces = sum(piece.count for piece in wanted)
    passes = sum(len(step.at) * len(step.take or "1") for step in steps)
    assert passes == pieces + len(scrap) - 1
    assert metrics.turns == sum(step.turn is not None for step in steps)


@settings(max_examples=60, deadline=None)
@given(cut_up_sheets(), st.sampled_from(list(Edge)))
def test_a_piece_wished_at_an_edge_lies_there_or_the_plan_says_it_cannot(known: Known, edge: Edge) -> None:
    wanted, width, height = known
    first = wanted[0]
    asked = [Wanted(first.name, first.size, 1, first.may_turn, Wish(edge=edge)), *wanted[1:]]
    answer = plan_cuts(asked, sheets(1, width, height), TRIMMER)
    if isinstance(answer, NoPlan):
        assert "drop the wishes" in answer.helps
        return
    assert isinstance(answer, Plan)
    check_pieces(answer, asked)
    left, top, wide, tall = next(place for name, place, _ in yielded(answer) if name == first.name)
    gap = {
        Edge.LEFT: left,
        Edge.TOP: top,
        Edge.RIGHT: width - left - wide,
        Edge.BOTTOM: height - top - tall,
    }
    assert gap[edge] == 0


@settings(max_examples=80, deadline=None)
@given(
    st.lists(st.tuples(st.integers(1, 6), st.integers(1, 6), st.booleans()), min_size=3, max_size=6),
    st.sampled_from(list(Edge)),
)
def test_wishes_of_both_kinds_are_kept_together(sizes: list[tuple[int, int, bool]], edge: Edge) -> None:
    wanted = [Wanted(f"piece {i}", size(w, h), 1, turns) for i, (w, h, turns) in enumerate(sizes)]
    first, second, third = wanted[:3]
    wanted[0] = replace(first, wish=Wish(edge=edge, beside=second.name))
    wanted[1] = replace(second, size=Size(second.size.width, first.size.height))
    wanted[2] = replace(third, wish=Wish(edge=Edge.TOP))
    answer = plan_cuts(wanted, sheets(3), TRIMMER)
    assert isinstance(answer, Plan)
    check_pieces(answer, wanted)
    steps = [step for sheet in answer.sheets for step in sheet.steps if first.name in step.leaves]
    assert abs(steps[0].leaves.index(first.name) - steps[0].leaves.index(second.name)) == 1
    for name, (left, top, wide, tall), paper in yielded(answer):
        gaps = {
            Edge.LEFT: left,
            Edge.TOP: top,
            Edge.RIGHT: paper.width - left - wide,
            Edge.BOTTOM: paper.height - top - tall,
        }
        if name == first.name:
            assert gaps[edge] == 0
        if name == third.name:
            assert top == 0


def test_what_is_too_long_for_an_edge_is_proved_to_need_another_sheet() -> None:
    """7 in side by side and 6 in want the top edge of 12 in, however much room there is below."""
    wanted = [
        Wanted("first", size(1, 1), wish=Wish(edge=Edge.TOP, beside="second")),
        Wanted("second", size(6, 1)),
        Wanted("third", size(6, 1), wish=Wish(edge=Edge.TOP)),
        Wanted("fourth", size(1, 1)),
    ]
    assert len(planned(wanted, sheets(3)).sheets) == 2
    assert "drop the wishes" in refused(wanted, sheets()).helps
    turned = [replace(wanted[2], may_turn=True), *wanted[:2], wanted[3]]
    assert len(planned(turned, sheets()).sheets) == 1


def test_the_first_cut_of_a_panel_is_read_in_inches_and_turned_clockwise_to_its_bottom() -> None:
    wanted = [Wanted("edge strip", size("5/2", 12)), Wanted("tall panel", size("11/2", 7))]
    wanted.append(Wanted("wide strip", size(4, 12)))
    answer = planned(wanted, sheets())
    first, second = answer.sheets[0].steps
    assert (first.take, first.turn) == (None, None)
    assert (second.take, second.turn) == (("strip 1",), Turn.CLOCKWISE)
    assert (second.at, second.leaves) == ((Fraction(7),), ("tall panel", SCRAP))
    assert answer.metrics.cuts == 3
    assert answer.metrics.scrap_area == Fraction(55, 2)


def test_two_strips_alike_are_cut_in_one_pass() -> None:
    answer = planned([Wanted("square", size(4, 4), 6)], sheets())
    assert answer.sheets[0].steps[1].take == ("strip 1", "strip 1")
    assert (answer.metrics.cuts, answer.metrics.turns) == (4, 1)
    one_by_one = Settings(mark=TRIMMER.mark, hold=TRIMMER.hold, reach=TRIMMER.reach, together=1)
    assert planned([Wanted("square", size(4, 4), 6)], sheets(), one_by_one).metrics.cuts == 6


def test_pieces_of_one_size_with_names_of_their_own_are_not_cut_in_one_pass() -> None:
    wanted = [Wanted(f"square {i}", size(4, 4)) for i in range(6)]
    answer = planned(wanted, sheets())
    check_pieces(answer, wanted)
    assert answer.metrics.cuts == 6


def test_a_part_is_never_called_like_a_piece() -> None:
    wanted = [Wanted("strip 1", size(4, 4), 6)]
    answer = planned(wanted, sheets())
    check_pieces(answer, wanted)
    assert answer.sheets[0].steps[1].take == ("strip 2", "strip 2")


def test_side_by_side_means_one_setting_for_both() -> None:
    wanted = [
        Wanted("sky", size(3, 4), wish=Wish(beside="sea")),
        Wanted("sea", size(6, 4)),
        Wanted("sand", size(8, 5)),
        Wanted("tag", size(5, 2), 2, may_turn=True),
    ]
    answer = planned(wanted, sheets())
    check_pieces(answer, wanted)
    step = next(step for step in answer.sheets[0].steps if "sky" in step.leaves)
    assert abs(step.leaves.index("sky") - step.leaves.index("sea")) == 1


def test_side_by_side_without_a_common_side_is_refused_with_the_reason() -> None:
    answer = refused(
        [Wanted("sky", size(3, 4), wish=Wish(beside="sand")), Wanted("sand", size(8, 5))], sheets()
    )
    assert answer.failing == ("sky", "sand")


def test_no_more_sheets_than_needed_and_no_fewer() -> None:
    eight = [Wanted("square", size(8, 8), 2)]
    answer = refused(eight, sheets(1))
    assert answer.failing == ("square", "square")
    assert "add one more sheet of shingle" in answer.helps
    assert "make each square 6 x 8" in answer.helps
    assert planned(eight, sheets(5)).metrics.sheets == 2


def test_direction_is_named_where_it_is_the_obstacle() -> None:
    answer = refused([Wanted("wide", size(12, 5)), Wanted("tall", size(5, 12))], sheets())
    assert "let the pieces turn" in answer.helps
    assert set(answer.failing) == {"wide", "tall"}


def test_only_the_pieces_that_fail_together_are_named() -> None:
    wanted = [Wanted("wide", size(12, 5)), Wanted("tall", size(5, 12)), Wanted("dot", size(1, 1))]
    answer = refused(wanted, sheets())
    assert answer.failing == ("tall", "wide") or answer.failing == ("wide", "tall")
    assert {"leave out one wide", "leave out one tall"} <= set(answer.helps)
    assert "make tall 5 x 7" in answer.helps


def test_a_piece_larger_than_the_sheet_and_more_area_than_paper_are_said_as_such() -> None:
    assert refused([Wanted("mural", size(13, 2))], sheets()).reason == "larger than every sheet"
    much = refused([Wanted("half", size(6, 12), 3)], sheets())
    assert much.reason == "the pieces have 72 square units more than the sheets"
    assert much.helps == ("leave out one half", "add 1 more sheet")


def test_a_whole_sheet_is_a_piece_without_a_cut() -> None:
    answer = planned([Wanted("ground", size(12, 12))], sheets())
    assert answer.sheets[0].whole == "ground"
    assert answer.metrics.cuts == 0


def test_a_long_sheet_is_read_within_the_reach() -> None:
    wanted = [Wanted("strip", size(5, 12), 4)]
    answer = planned(wanted, sheets(1, 20))
    check_pieces(answer, wanted)
    assert all(reading <= 12 for step in answer.sheets[0].steps for reading in step.at)
    assert answer.sheets[0].concerns.beyond_reach == 0


def test_a_narrow_strip_is_held_by_its_wide_neighbour() -> None:
    wanted = [Wanted("ribbon", size("1/2", 12)), Wanted("panel", size("23/2", 12))]
    answer = planned(wanted, sheets())
    assert answer.sheets[0].steps[0].leaves == ("panel", "ribbon")
    assert answer.sheets[0].concerns.unsafe == 0


def test_a_reading_between_two_marks_is_moved_to_the_far_end_where_it_can() -> None:
    wanted = [Wanted("odd", size("33/16", 12)), Wanted("even", size(4, 12))]
    answer = planned(wanted, sheets())
    assert answer.sheets[0].steps[0].leaves == ("even", "odd", SCRAP)
    assert concerns_of(answer.sheets[0].steps, size(12, 12), TRIMMER).off_marks == 1


def test_three_full_sheets_are_shared_out_without_a_scrap() -> None:
    first = [Wanted("tall", size(5, 12)), Wanted("low", size(7, 5)), Wanted("square", size(7, 7))]
    second = [Wanted("border", size(12, 3)), Wanted("edge", size(4, 9)), Wanted("panel", size(8, 9))]
    wanted = [*first, *second, Wanted("quarter", size(6, 6), 4)]
    answer = planned(wanted, sheets(5))
    check_pieces(answer, wanted)
    assert (answer.metrics.sheets, answer.metrics.scrap_area) == (3, Fraction(0))


def test_two_sizes_of_paper_take_the_smaller_one_where_it_does() -> None:
    stocks = [SheetStock("large", size(12, 12), 2), SheetStock("small", size(6, 6), 2)]
    answer = planned([Wanted("square", size(6, 6)), Wanted("panel", size(12, 8))], stocks)
    assert [sheet.stock for sheet in answer.sheets] == ["large", "small"]


def test_the_same_question_gets_the_same_answer() -> None:
    wanted = [Wanted(f"card {i}", size(2 + i % 3, 3 + i % 4), 1, may_turn=True) for i in range(9)]
    assert plan_cuts(wanted, sheets(2), TRIMMER) == plan_cuts(wanted, sheets(2), TRIMMER)


def test_out_of_effort_the_best_found_is_given_with_the_bound() -> None:
    wanted = [Wanted(f"card {i}", size(3 + i % 5, 2 + i % 7), 1, may_turn=True) for i in range(16)]
    short = Settings(mark=TRIMMER.mark, hold=TRIMMER.hold, reach=TRIMMER.reach, effort=200_000)
    answer = plan_cuts(wanted, sheets(3, 16, 16), short)
    assert isinstance(answer, Plan)
    assert not answer.proved
    given_up = Counter(answer.left_out)
    assert Counter(name for name, _, _ in yielded(answer)) + given_up == {w.name: 1 for w in wanted}


@pytest.mark.parametrize(
    "wanted",
    [
        [Wanted("scrap", size(1, 1))],
        [Wanted("a", size(1, 1)), Wanted("a", size(2, 1))],
        [Wanted("a", size(1, 1), wish=Wish(beside="b"))],
        [Wanted("a", size(0, 1))],
        [Wanted("a", size(1, 1), count=0)],
    ],
)
def test_a_question_that_makes_no_sense_is_refused(wanted: list[Wanted]) -> None:
    with pytest.raises(ValueError, match=r"\w"):
        plan_cuts(wanted, sheets(), TRIMMER)


@pytest.mark.parametrize("case", range(24))
def test_a_plan_carried_out_by_hand_gives_all_pieces_of_a_cut_up_sheet(case: int) -> None:
    pieces = cut_up(Random(case), 4 + case % 13, case % 4)
    wanted = [
        Wanted(f"piece {i}", Size(Fraction(w, 8), Fraction(h, 8)), 1, case % 2 == 1)
        for i, (w, h) in enumerate(pieces)
    ]
    answer = plan_cuts(wanted, sheets(2), TRIMMER)
    assert isinstance(answer, Plan)
    assert (answer.metrics.sheets, answer.left_out) == (1, ())
    assert list(what_is_wrong(answer, wanted)) == []


def test_what_is_wrong_with_a_plan_is_seen_by_hand() -> None:
    wanted = [Wanted("a", size(5, 12)), Wanted("b", size(7, 7))]
    answer = planned(wanted, sheets())
    (sheet,) = answer.sheets
    first, *others = sheet.steps
    shifted = replace(first, at=tuple(reading - Fraction(1, 8) for reading in first.at))
    spoiled = replace(answer, sheets=(replace(sheet, steps=(shifted, *others)),))
    assert list(what_is_wrong(spoiled, wanted))
    assert list(what_is_wrong(answer, [*wanted, Wanted("c", size(1, 1))]))


def test_six_sheets_that_thirty_nine_pieces_fill_are_filled() -> None:
    rng = Random(1)
    pieces = [piece for sheet in range(6) for piece in cut_up(rng, 6 + sheet % 2, 0)]
    wanted = [Wanted(f"piece {i}", Size(Fraction(w, 8), Fraction(h, 8))) for i, (w, h) in enumerate(pieces)]
    answer = planned(wanted, sheets(6))
    assert (answer.metrics.sheets, answer.metrics.scrap_area) == (6, Fraction(0))
    assert answer.proved
    assert list(what_is_wrong(answer, wanted)) == []


def test_a_refusal_tells_sizes_that_would_do_and_no_less_than_half_a_piece() -> None:
    wanted = [Wanted("panel", size(7, 12)), Wanted("strip", size("11/2", 10)), Wanted("tab", size(1, 2))]
    answer = refused(wanted, sheets())
    assert "make strip 5 x 10" in answer.helps
    assert "add one more sheet of shingle" in answer.helps
    assert not any("make tab" in help_ for help_ in answer.helps)
