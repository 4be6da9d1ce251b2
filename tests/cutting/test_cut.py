"""Cutting sheets step by step, with the arithmetic worked by hand."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.cutting.cut import first_lying
from booklet.cutting.model import Fate
from booklet.kit.fields import Edge
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size, Unit
from tests.cutting.balance import area_balance
from tests.kits import Data, cut, cut_one, ids, make_kit, named, sheet


def inches(width: str, height: str) -> Size:
    return Size(Fraction(width), Fraction(height))


def fractions(*numbers: int) -> tuple[Fraction, ...]:
    return tuple(Fraction(number) for number in numbers)


def test_three_equal_pieces_across_twelve_inches_are_cut_at_8_then_at_4() -> None:
    done = cut_one(sheet(cut([8, 4], ["mat", "mat", "mat"])))
    assert done.findings == ()
    assert [one.reading for one in done.stages[0].cuts] == [8, 4]
    assert [(s.start, s.end) for s in done.stages[0].strips] == [
        fractions(0, 4),
        fractions(4, 8),
        fractions(8, 12),
    ]
    assert [piece.size for piece in done.pieces] == [inches("4", "12")] * 3
    assert [piece.part.x for piece in done.pieces] == [0, 4, 8]


def test_the_strips_of_a_sheet_add_up_to_the_sheet() -> None:
    done = cut_one(sheet(cut([8, "2 1/2"], ["edge strip", "panel", "wide strip"])))
    widths = [piece.size.width for piece in done.pieces]
    assert widths == [Fraction(5, 2), Fraction(11, 2), 4]
    assert sum(widths) == 12


def test_a_panel_turned_clockwise_is_cut_from_its_bottom_edge() -> None:
    """8 leaves a panel 8 x 12; turned, its bottom is at the zero, so 7 leaves its lower 7 inches."""
    done = cut_one(
        sheet(cut(8, ["panel", "border"]), cut(7, ["tall panel", "scrap"], take="panel", turn="clockwise"))
    )
    assert done.findings == ()
    tall = named(done.pieces, "tall panel")
    assert tall.part == ExactRect(*fractions(0, 5, 8, 7))
    assert named(done.scrap, "scrap").size == inches("8", "5")
    assert done.stages[1].seen == inches("12", "8")


def test_the_wave_border_at_the_zero_with_the_back_up_is_still_the_fronts_left_edge() -> None:
    one = sheet(cut(2, ["border", "rest"]), paper="shingle", lay={"face": "back", "left": "wave border"})
    kit = make_kit(one)
    assert first_lying(kit, kit.sheets[0]).edge_at(Edge.LEFT) is Edge.LEFT
    done = cut_one(one)
    assert named(done.pieces, "border").part.right == 2
    assert named(done.pieces, "border").lying.quarters == 2


def test_a_plain_word_names_an_edge_even_where_the_paper_has_its_own() -> None:
    kit = make_kit(
        sheet(paper="shingle", lay={"left": "bottom"}), sheet(paper="shingle", lay={"left": "selvedge"})
    )
    at_zero = [first_lying(kit, one).edge_at(Edge.LEFT) for one in kit.sheets]
    assert at_zero == [Edge.BOTTOM, Edge.BOTTOM]


@pytest.mark.parametrize(
    ("lay", "left"),
    [
        ({"left": "selvedge"}, {"left": "selvedge"}),
        ({"bottom": "selvedge"}, {"left": "wave border"}),
        ({"top": "selvedge"}, {"left": "right"}),
        ({"right": "selvedge"}, {"left": "top"}),
        ({"face": "back", "bottom": "selvedge"}, {"face": "back", "left": "right"}),
        ({"face": "back", "right": "wave border"}, {"face": "back", "left": "right"}),
        ({"left": "wave border", "bottom": "selvedge"}, {"left": "wave border"}),
    ],
)
def test_whichever_edge_says_how_a_sheet_lies_the_same_print_comes_off(lay: Data, left: Data) -> None:
    cuts = cut([8, 3], ["one", "two", "three"])
    by_left = cut_one(sheet(cuts, paper="shingle", lay=left))
    assert cut_one(sheet(cuts, paper="shingle", lay=lay)).pieces == by_left.pieces


def test_a_scale_that_begins_at_the_right_cuts_from_there() -> None:
    """3 from the right, then of what is turned clockwise 4 from its top edge, which now lies at the right."""
    cuts = (cut(3, ["strip", "rest"]), cut(4, ["end", "scrap"], take="strip", turn="clockwise"))
    done = cut_one(sheet(*cuts), trimmer={"zero": "right"})
    assert named(done.pieces, "rest").part == ExactRect(*fractions(0, 0, 9, 12))
    assert named(done.pieces, "end").part == ExactRect(*fractions(9, 0, 3, 4))


def test_on_a_trimmer_of_the_other_hand_a_sheet_turned_half_gives_the_same_pieces() -> None:
    cuts = (cut([8, 3], ["one", "two", "three"]), cut(5, ["a", "b"], take="two", turn="anticlockwise"))
    one = cut_one(sheet(*cuts, paper="shingle", lay={"left": "wave border"}))
    other = cut_one(sheet(*cuts, paper="shingle", lay={"right": "wave border"}), trimmer={"zero": "right"})
    assert {p.name: p.part for p in other.pieces} == {p.name: p.part for p in one.pieces}


def test_pieces_are_taken_one_by_one_in_the_order_in_which_they_were_cut() -> None:
    done = cut_one(
        sheet(
            cut([8, 4], ["third", "third", "third"]),
            cut(6, ["near", "far"], take="third", turn="clockwise"),
            cut(3, ["low", "high"], take="third", turn="clockwise"),
        )
    )
    assert done.findings == ()
    assert [stage.taken[0].label for stage in done.stages] == ["1", "1A", "1B"]
    assert [piece.label for piece in done.kept if piece.name == "third"] == ["1C"]


def test_two_pieces_cut_together_each_leave_their_own_pieces_in_one_pass() -> None:
    done = cut_one(
        sheet(
            cut([8, 4], ["third", "third", "rest"]),
            cut([6], ["photo mat", "scrap"], take=["third", "third"], turn="clockwise"),
        )
    )
    assert done.findings == ()
    stage = done.stages[1]
    assert [one.number for one in stage.cuts] == [3]
    assert [len(s.pieces) for s in stage.strips] == [2, 2]
    mats = [piece for piece in done.pieces if piece.name == "photo mat"]
    assert [mat.part for mat in mats] == [
        ExactRect(*fractions(0, 6, 4, 6)),
        ExactRect(*fractions(4, 6, 4, 6)),
    ]
    assert [mat.label for mat in mats] == ["1D", "1E"]
    assert area_balance(done) == 0


def test_pieces_that_lay_differently_can_be_cut_together_when_they_are_equal_as_they_lie() -> None:
    """Two 4 x 12 strips, turned opposite ways and cut at 8: both lie 8 wide, one print upside down."""
    done = cut_one(
        sheet(
            cut([8, 4], ["post", "beam", "rest"]),
            cut(8, ["short post", "scrap"], take="post", turn="clockwise"),
            cut(8, ["short beam", "scrap"], take="beam", turn="anticlockwise"),
            cut(2, ["tab", "scrap"], take=["short post", "short beam"], turn="half"),
        )
    )
    assert done.findings == ()
    tabs = [piece for piece in done.pieces if piece.name == "tab"]
    assert len(tabs) == 2
    assert [tab.lying.quarters for tab in tabs] == [3, 1]
    assert [(tab.part.x, tab.part.y) for tab in tabs] == [fractions(0, 4), fractions(4, 6)]
    assert area_balance(done) == 0


def test_two_sheets_alike_are_cut_in_one_pass_and_give_two_of_everything() -> None:
    done = cut_one(sheet(cut(8, ["panel", "border"]), count=2))
    assert [(piece.label, piece.name, piece.copy) for piece in done.pieces] == [
        ("1A", "panel", 0),
        ("1B", "panel", 1),
        ("1C", "border", 0),
        ("1D", "border", 1),
    ]
    assert [one.number for one in done.stages[0].cuts] == [1]
    assert sum(piece.part.area for piece in done.pieces) == 2 * 144


def test_one_of_two_sheets_alike_may_stay_whole() -> None:
    done = cut_one(sheet(cut(8, ["panel", "border"], take="sheet"), count=2))
    assert done.findings == ()
    assert [(piece.label, piece.name) for piece in done.pieces] == [
        ("1", "sheet"),
        ("1A", "panel"),
        ("1B", "border"),
    ]
    assert [piece.fate for piece in done.whole] == [Fate.CUT_AGAIN, Fate.KEPT]


def test_the_last_pieces_of_a_name_are_the_spare_ones() -> None:
    done = cut_one(sheet(cut([9, 6, 3], ["strip"] * 4), spare=["strip", "strip"]))
    assert done.findings == ()
    assert [piece.fate for piece in done.pieces] == [Fate.KEPT, Fate.KEPT, Fate.SPARE, Fate.SPARE]
    assert [s.pieces[0].fate for s in done.stages[0].strips] == [piece.fate for piece in done.pieces]
    assert [piece.label for piece in done.kept] == ["1A", "1B"]


def test_a_sheet_without_cuts_is_one_whole_piece_named_after_it() -> None:
    done = cut_one(sheet(id="cardstock"))
    assert (done.stages, done.findings) == ((), ())
    assert [(piece.name, piece.label, piece.size) for piece in done.pieces] == [
        ("cardstock", "1", inches("12", "12"))
    ]
    assert done.whole == done.pieces


def test_cuts_are_numbered_through_the_sheet() -> None:
    done = cut_one(
        sheet(
            cut([8, 4], ["a", "b", "c"]),
            cut([6, 3], ["d", "e", "f"], take="b", turn="clockwise"),
            cut(6, ["g", "h"], take="c", turn="clockwise"),
        )
    )
    assert [one.number for stage in done.stages for one in stage.cuts] == [1, 2, 3, 4, 5]
    assert [stage.number for stage in done.stages] == [1, 2, 3]
    assert [one.where for one in done.stages[1].cuts] == [
        ("sheets", 0, "cuts", 1, "at", 0),
        ("sheets", 0, "cuts", 1, "at", 1),
    ]


def test_millimetres_in_an_inch_kit_leave_nothing_over() -> None:
    done = cut_one(sheet(cut(["254 mm", "108 mm"], ["a", "b", "c"])))
    assert [piece.size.width for piece in done.pieces] == [Fraction(540, 127), Fraction(730, 127), 2]
    assert area_balance(done) == 0


def test_inches_in_a_millimetre_kit_leave_nothing_over() -> None:
    done = cut_one(sheet(cut(["4 1/7 in"], ["a", "b"])), unit=Unit.MILLIMETRE)
    assert done.pieces[0].size.width == Fraction(29, 7) * Fraction(254, 10)
    assert area_balance(done) == 0


@pytest.mark.parametrize("parts", [3, 7, 9, 11, 13])
def test_odd_fractions_add_up_to_the_whole(parts: int) -> None:
    at = [f"{12 * n}/{parts}" for n in range(parts - 1, 0, -1)]
    done = cut_one(sheet(cut(at, ["strip"] * parts)))
    assert {piece.size.width for piece in done.pieces} == {Fraction(12, parts)}
    assert area_balance(done) == 0


@given(
    st.lists(
        st.fractions(min_value=Fraction(1, 97), max_value=Fraction(1199, 100)),
        min_size=1,
        max_size=6,
        unique=True,
    )
)
def test_whatever_the_readings_the_strips_add_up_to_the_sheet(readings: list[Fraction]) -> None:
    done = cut_one(sheet(cut(readings, ["strip"] * (len(readings) + 1))))
    strips = done.stages[0].strips
    assert all(near.end == far.start for near, far in pairwise(strips))
    assert (strips[0].start, strips[-1].end) == fractions(0, 12)
    assert {one.reading for one in done.stages[0].cuts} == set(readings)
    assert area_balance(done) == 0


def test_a_reading_that_cannot_be_cut_leaves_the_other_names_where_they_belong() -> None:
    done = cut_one(sheet(cut([13, 8, 4], ["near", "middle", "far", "beyond"])))
    assert ids(done.findings) == ["cut-beyond-piece"]
    assert [piece.name for piece in done.pieces] == ["near", "middle", "far"]


def test_a_step_without_a_possible_reading_is_no_stage_and_later_steps_go_on() -> None:
    done = cut_one(
        sheet(
            cut(8, ["panel", "border"]),
            cut(9, ["card", "scrap"], take="panel"),
            cut(6, ["half card", "half card"], take="card", turn="clockwise"),
        )
    )
    assert ids(done.findings) == ["cut-beyond-piece"]
    assert [stage.where[-1] for stage in done.stages] == [0, 2]
    assert [stage.number for stage in done.stages] == [1, 2]
    assert area_balance(done) == 0


def test_unequal_pieces_are_not_cut_together_and_nothing_is_lost() -> None:
    done = cut_one(sheet(cut(8, ["panel", "border"]), cut(2, ["tab", "rest"], take=["border", "panel"])))
    assert ids(done.findings) == ["cut-together-sizes"]
    assert sorted(piece.name for piece in done.pieces) == ["panel", "rest", "tab"]
    assert area_balance(done) == 0


def test_of_equal_pieces_that_do_not_lie_alike_only_the_first_is_cut() -> None:
    """Two pieces of 4 x 8, one on its side: one reading of 2 would cut them differently."""
    done = cut_one(
        sheet(
            cut(4, ["post", "field"]),
            cut(8, ["tall", "scrap"], take="post", turn="clockwise"),
            cut(8, ["field", "scrap"], take="field", turn="clockwise"),
            cut(4, ["broad", "long"], take="field", turn="anticlockwise"),
            cut(2, ["tab", "rest"], take=["tall", "broad"]),
        )
    )
    assert ids(done.findings) == ["cut-together-sizes"]
    assert named(done.pieces, "broad").size == inches("4", "8")
    assert named(done.pieces, "tab").size == inches("4", "2")
    assert area_balance(done) == 0


# Pieces of one size and different print, cut in one pass.


def test_papers_cut_in_one_pass_have_each_a_name_of_its_own() -> None:
    """The sea was turned half round before, so that its right end lies on the left end of the sky."""
    done = cut_one(
        sheet(
            cut(4, ["sky", "sea"]),
            cut(4, ["sea", "shore"], take="sea", turn="half"),
            cut(
                6,
                [["dusk", "tide"], ["dawn", "scrap"]],
                take=["sky", "sea"],
                turn="clockwise",
            ),
            lay={"left": "top"},
        )
    )
    assert done.findings == ()
    parts = {piece.name: piece.part for piece in done.kept}
    assert parts["dawn"] == ExactRect(*fractions(6, 0, 6, 4))
    assert parts["dusk"] == ExactRect(*fractions(0, 0, 6, 4))
    assert parts["tide"] == ExactRect(*fractions(6, 8, 6, 4))
    assert [piece.name for piece in done.scrap] == ["scrap"]


def test_a_name_for_all_and_names_for_each_stand_in_one_step() -> None:
    strips = cut([8, 4], ["one", "two", "three"])
    later = cut([8, 4], [["a", "b"], "mat", "scrap"], take=["one", "two"], turn="clockwise")
    done = cut_one(sheet(strips, later))
    assert [piece.name for piece in done.kept] == ["three", "a", "b", "mat", "mat"]


def test_sheets_cut_together_may_give_pieces_of_different_names() -> None:
    done = cut_one(sheet(cut(5, [["left page", "right page"], "rest"]), count=2))
    assert [(piece.name, piece.copy) for piece in done.kept][:2] == [("left page", 0), ("right page", 1)]
