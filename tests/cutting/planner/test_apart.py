"""Cut-aparts whose cuts are left to the planner: they follow from where the printed elements lie."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from booklet.cutting.cut import cut_kit
from booklet.cutting.model import CutSheet, sheet_work
from booklet.cutting.planner.kit_plan import plan_kit
from booklet.kit.finding import Finding, Severity
from booklet.kit.kit import Kit
from booklet.kit.sheet import CutStep
from booklet.measure.geometry import ExactRect
from tests.cutting.balance import area_balance
from tests.kits import Data, element, ids, make_kit

# What the trimmer or the hand may object to where elements are tiny: it is told as of written cuts.
OF_THE_HAND = {"narrow-hold", "reading-beyond-scale", "cut-longer-than-blade"}


def planned(*elements: Data, **more: Any) -> Data:
    return {"id": "tags", "paper": "plain", "elements": list(elements), "cuts": "plan", **more}


def cut_out(one: Data, **more: Any) -> CutSheet:
    """The sheet with its planned cuts carried out."""
    answer = plan_kit(make_kit(one, **more))
    assert answer.findings == ((),)
    return cut_kit(answer.kit)[0]


def steps(one: Data, **more: Any) -> tuple[CutStep, ...]:
    planned_sheet = plan_kit(make_kit(one, **more)).kit.sheets[0]
    assert planned_sheet.cuts is not None
    return planned_sheet.cut_steps


def grid(columns: int, rows: int, size: tuple[Any, Any], gap: Any = 0, edge: Any = 0) -> list[Data]:
    """Elements in rows and columns, a gap between them and an edge at the top left."""
    wide, high, gap, edge = (Fraction(length) for length in (*size, gap, edge))
    return [
        element(
            f"tag {column} {row}", edge + column * (wide + gap), edge + row * (high + gap), f"{wide} x {high}"
        )
        for row in range(rows)
        for column in range(columns)
    ]


def test_rows_come_off_first_and_rows_alike_are_cut_in_one_pass() -> None:
    rows, cells = steps(planned(*grid(4, 3, (3, 4))))
    assert (rows.at, rows.turn) == ((Fraction(8), Fraction(4)), rows.turn)
    assert rows.take == ()
    assert cells.take == ("strip 1", "strip 2", "strip 3")
    assert cells.at == (Fraction(9), Fraction(6), Fraction(3))
    assert cells.leaves == ()


def test_columns_come_off_first_where_that_is_less_to_cut() -> None:
    """Of three columns of five, 2 cuts and 4 more; of five rows of three, 4 cuts and two times 2 more."""
    columns, cells = steps(planned(*grid(3, 5, (4, Fraction(12, 5)))))
    assert (columns.at, columns.turn) == ((Fraction(8), Fraction(4)), None)
    assert len(cells.at) == 4


def test_a_gap_is_cut_along_both_elements_and_is_scrap() -> None:
    done = cut_out(planned(*grid(2, 1, (5, 12), gap=1)))
    assert [cut.reading for cut in done.stages[0].cuts] == [11, 6, 5]
    assert [piece.part.width for piece in done.scrap] == [1, 1]


def test_a_margin_all_round_is_cut_off_before_the_rows_are_parted() -> None:
    """3 x 3 of 3 with 1 between and 1/2 round: freed across in the rows' step, not once for each row."""
    done = cut_out(planned(*grid(3, 3, (3, 3), gap=1, edge=Fraction(1, 2))))
    assert sheet_work(done).cuts == 12
    assert ids(done.findings) == []


def test_an_element_alone_on_its_sheet_is_cut_out() -> None:
    done = cut_out(planned(element("sun", 1, 2, "4 x 5")))
    (sun,) = done.kept
    assert sun.part == ExactRect(*map(Fraction, (1, 2, 4, 5)))


def test_an_element_as_large_as_its_sheet_needs_no_cut() -> None:
    answer = plan_kit(make_kit(planned(element("tags", 0, 0, "12 x 12"))))
    assert answer.kit.sheets[0].cuts == ()
    assert cut_kit(answer.kit)[0].findings == ()


def test_the_last_cut_leaves_something_to_hold() -> None:
    """Half an inch and half an inch at one end: with that end at the zero, nothing is left to hold."""
    tags = [
        element("wide", 0, 0, "11 x 12"),
        element("a", 11, 0, "1/2 x 12"),
        element("b", "11 1/2", 0, "1/2 x 12"),
    ]
    done = cut_out(planned(*tags, lay={"left": "right"}))
    assert ids(done.findings) == []
    assert done.stages[0].turn is not None


def test_sheets_cut_together_are_parted_together() -> None:
    done = cut_out(planned(*grid(2, 2, (6, 6)), count=2))
    assert done.findings == ()
    assert Counter(piece.name for piece in done.kept) == dict.fromkeys(
        ["tag 0 0", "tag 1 0", "tag 0 1", "tag 1 1"], 2
    )
    assert max(len(stage.taken) for stage in done.stages) <= 3


@pytest.mark.parametrize("zero", ["left", "right"])
@pytest.mark.parametrize("lay", [{"left": "top"}, {"bottom": "left"}, {"face": "back", "left": "right"}])
def test_however_the_sheet_lies_each_element_comes_out(zero: str, lay: Data) -> None:
    tags = [*grid(2, 2, (3, 4), edge=1), element("foot", 1, 10, "10 x 1")]
    done = cut_out(planned(*tags, lay=lay), trimmer={"zero": zero})
    assert set(ids(done.findings)) <= {"marks-face-down"}
    assert {p.name: p.part for p in done.kept} == {e.name: e.rect for e in done.sheet.printed}


@st.composite
def printed_sheets(draw: st.DrawFn) -> Data:
    """A sheet parted from edge to edge, over and over; an element in each part, with a margin or without."""
    elements: list[Data] = []

    def part(x: Fraction, y: Fraction, wide: Fraction, high: Fraction, depth: int) -> None:
        side = draw(st.sampled_from(["across", "down", "whole"])) if depth else "whole"
        length = wide if side == "across" else high
        if side == "whole" or length < 2:
            margin = Fraction(draw(st.integers(0, 1)), 4)
            size = f"{wide - 2 * margin} x {high - 2 * margin}"
            elements.append(element(f"e{len(elements)}", x + margin, y + margin, size))
            return
        at = Fraction(draw(st.integers(4, int(4 * length) - 4)), 4)
        if side == "across":
            part(x, y, at, high, depth - 1)
            part(x + at, y, wide - at, high, depth - 1)
        else:
            part(x, y, wide, at, depth - 1)
            part(x, y + at, wide, high - at, depth - 1)

    part(Fraction(0), Fraction(0), Fraction(12), Fraction(10), draw(st.integers(1, 4)))
    assume(len(elements) > 1)
    return planned(*elements, size="12 x 10", count=draw(st.integers(1, 2)))


@given(printed_sheets())
def test_whatever_can_be_parted_is_parted_into_its_elements(one: Data) -> None:
    done = cut_out(one)
    assert area_balance(done) == 0
    assert set(ids(done.findings)) <= OF_THE_HAND
    found = Counter((piece.name, piece.part) for piece in done.kept)
    assert found == {(each.name, each.rect): done.sheet.count for each in done.sheet.printed}


# What cannot be planned.

PINWHEEL = [
    element("north", 0, 0, "8 x 4"),
    element("east", 8, 0, "4 x 8"),
    element("south", 4, 8, "8 x 4"),
    element("west", 0, 4, "4 x 8"),
    element("middle", 4, 4, "4 x 4"),
]


def said(kit: Kit) -> tuple[Finding, ...]:
    return plan_kit(kit).findings[0]


def test_elements_round_a_middle_cannot_be_parted() -> None:
    (finding,) = said(make_kit(planned(*PINWHEEL)))
    assert (finding.id, finding.where) == ("plan-impossible", ("sheets", 0, "cuts"))
    assert finding.severity is Severity.ERROR
    assert all(f'"{name}"' in finding.found for name in ("north", "east", "south", "west", "middle"))


def test_without_the_middle_s_neighbour_in_its_way_they_can() -> None:
    assert said(make_kit(planned(*[one for one in PINWHEEL if one["name"] != "east"]))) == ()


def test_only_those_that_cannot_be_parted_are_named() -> None:
    turned = [{**one, "size": "2 x 1" if one["size"] == "8 x 4" else "1 x 2"} for one in PINWHEEL[:4]]
    small = [{**one, "left": Fraction(one["left"], 4), "top": Fraction(one["top"], 4)} for one in turned]
    (finding,) = said(make_kit(planned(*small, element("far", 6, 6, "4 x 4"))))
    assert '"far"' not in finding.found


@pytest.mark.parametrize(
    ("elements", "id"),
    [
        ([element("sun", 10, 0, "3 x 3")], "element-off-sheet"),
        ([element("sun", 0, 0, "3 x 3"), element("moon", 2, 0, "3 x 3")], "elements-overlap"),
        ([element("scrap", 0, 0, "3 x 3")], "name-reserved"),
    ],
)
def test_a_print_at_fault_is_not_planned_and_told_once(elements: list[Data], id: str) -> None:
    kit = make_kit(planned(*elements))
    assert ids(said(kit)) == [id]
    assert cut_kit(plan_kit(kit).kit)[0].findings == said(kit)


def test_wishes_are_not_for_what_the_print_decides() -> None:
    wished = planned(element("sun", 0, 0, "6 x 12"), wishes={"edge": {"sun": "left"}})
    (finding,) = said(make_kit(wished))
    assert (finding.id, finding.where) == ("wish-for-nothing", ("sheets", 0, "wishes"))


def test_more_steps_than_a_sheet_may_have_are_refused() -> None:
    """A staircase: each cut leaves one element and a part that must be turned for the next."""
    elements: list[Data] = []
    x = y = Fraction(0)
    for number in range(70):
        wide, high = 12 - x, 12 - y
        if number % 2:
            elements.append(element(f"e{number}", x, y, f"{wide} x 1/8"))
            y += Fraction(1, 8)
        else:
            elements.append(element(f"e{number}", x, y, f"1/8 x {high}"))
            x += Fraction(1, 8)
    assert ids(said(make_kit(planned(*elements)))) == ["plan-too-many-cuts"]


def test_a_sheet_full_of_elements_is_planned_at_once() -> None:
    done = cut_out(
        planned({"row": ["stamp"], "count": 20, "lines": 10, "left": 0, "top": 0, "size": "1/2 x 1"})
    )
    assert len(done.kept) == 200
    # Columns first, what is left of the sheet at the zero, and seven passes for twenty columns.
    assert sheet_work(done).cuts == 1 + 20 + 7 * 9
    assert done.findings == ()
