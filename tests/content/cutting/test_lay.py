"""How a sheet lies in the trimmer, what is taken for a stage, and how the print lies then."""

from __future__ import annotations

from typing import Any

import pytest

from booklet.content.blocks import Beside, CutStage, Paragraph, Tone
from booklet.content.figures import TrimmerFigure
from booklet.content.spans import Own, Weight, plain_text
from tests.content.cutting.slips import headings, resolved, section_of
from tests.kits import Data, cut, element, sheet

LAYS = [
    ("waves", {}, "Print up, waves running from left to right."),
    ("waves", {"left": "wave border"}, "Print up, wave border at the stop."),
    ("waves", {"face": "back", "left": "wave border"}, "Print down, wave border at the stop."),
    ("waves", {"left": "top"}, "Print up, waves running away from you."),
    ("waves", {"face": "back"}, "Print down, the top of the print, underneath, towards you."),
    ("leaves", {}, "Print up, leaves growing away from you."),
    ("leaves", {"left": "right"}, "Print up, leaves growing towards you."),
    ("leaves", {"left": "bottom"}, "Print up, leaves growing to the right."),
    ("leaves", {"left": "top"}, "Print up, leaves growing to the left."),
    ("stripes", {"left": "bottom"}, "Print up, stripes running from left to right."),
    ("stars", {"left": "top"}, "Print up, the top of the print at the stop."),
    ("bordered", {"left": "bottom"}, "Print up, the top of the print at the right."),
    ("double", {"face": "back"}, "Stripes up, stripes running away from you."),
    ("double", {}, "Waves up, waves running from left to right."),
    ("plain", {}, "Either side up, any edge at the stop."),
    ("dots", {"face": "back"}, "Print down, any edge at the stop."),
    ("waves", {"bottom": "wave border"}, "Print up, wave border towards you."),
    ("waves", {"right": "wave border"}, "Print up, wave border at the right."),
    ("waves", {"top": "wave border"}, "Print up, wave border away from you."),
    ("waves", {"left": "wave border", "top": "top"}, "Print up, wave border at the stop."),
    ("leaves", {"bottom": "left"}, "Print up, leaves growing to the left."),
]
AT_RIGHT = [
    ("waves", {"right": "wave border"}, "Print up, wave border at the stop."),
    ("waves", {"left": "wave border"}, "Print up, wave border at the left."),
    ("stars", {"left": "top"}, "Print up, the top of the print at the left."),
    ("stars", {"right": "top"}, "Print up, the top of the print at the stop."),
    ("leaves", {}, "Print up, leaves growing away from you."),
]


def lay_said(kit_sheet: Data, **more: Any) -> list[str]:
    """What stands out beside the picture of the trimmer, and what follows it."""
    (beside, *_) = section_of(resolved(kit_sheet, **more)).blocks
    assert isinstance(beside, Beside)
    assert isinstance(beside.picture.figure, TrimmerFigure)
    (paragraph, *_) = beside.blocks
    assert isinstance(paragraph, Paragraph)
    stands_out = [getattr(span, "weight", None) is Weight.STRONG for span in paragraph.text]
    end = stands_out.index(False)
    return [plain_text(paragraph.text[:end]), plain_text(paragraph.text[end:]).strip()]


@pytest.mark.parametrize(("paper", "lay", "said"), LAYS)
def test_how_the_sheet_is_laid(paper: str, lay: Data, said: str) -> None:
    assert lay_said(sheet(cut([8], ["one", "scrap"]), paper=paper, lay=lay))[0] == said


@pytest.mark.parametrize(("paper", "lay", "said"), AT_RIGHT)
def test_how_the_sheet_is_laid_with_the_stop_at_the_right(paper: str, lay: Data, said: str) -> None:
    laid = sheet(cut([8], ["one", "scrap"]), paper=paper, lay=lay)
    assert lay_said(laid, trimmer={"zero": "right"})[0] == said


def test_sheets_that_are_cut_together_are_laid_on_each_other() -> None:
    said = lay_said(sheet(cut([8], ["one", "scrap"]), count=2, paper="leaves"))
    assert said[0] == "Two sheets exactly on one another. Print up, leaves growing away from you."


@pytest.mark.parametrize(
    ("size", "said"),
    [
        ("12 x 6", "Either side up, the long side along the scale."),
        ("6 x 12", "Either side up, the short side along the scale."),
    ],
)
def test_of_a_plain_sheet_that_is_not_square_it_matters_which_side_lies_along_the_scale(
    size: str, said: str
) -> None:
    assert lay_said(sheet(cut([5], ["one", "scrap"]), size=size))[0] == said


def test_the_member_s_word_for_an_edge_is_the_designer_s_own() -> None:
    kit = resolved(sheet(cut([8], ["one", "scrap"]), paper="waves", lay={"left": "wave border"}))
    (beside, *_) = section_of(kit).blocks
    assert isinstance(beside, Beside)
    (paragraph, *_) = beside.blocks
    assert isinstance(paragraph, Paragraph)
    (own,) = [span for span in paragraph.text if isinstance(span, Own)]
    assert (own.text, own.source) == ("wave border", ("papers", "waves", "edges", "left"))


def test_how_much_there_is_to_do_is_said_before_the_first_cut() -> None:
    later = cut([6], ["two", "three"], take="strip", turn="clockwise")
    assert lay_said(sheet(cut([8, 4], ["one", "strip", "scrap"]), later))[1] == "3\u00a0cuts, 1\u00a0turn."
    assert lay_said(sheet(cut([8], ["one", "scrap"])))[1] == "1\u00a0cut, no\u00a0turn."


def test_on_a_printed_sheet_the_marks_say_where_to_cut() -> None:
    elements = [element("one", 0, 0, "6 x 12"), element("two", 6, 0, "6 x 12")]
    said = lay_said(sheet(cut([6]), elements=elements))
    assert said == [
        "Print up, the top of the print away from you.",
        "1\u00a0cut, no\u00a0turn. Cut on the printed marks.",
    ]


def test_of_a_printed_sheet_that_lies_face_down_the_print_is_underneath() -> None:
    elements = [element("one", 0, 0, "12 x 6"), element("two", 0, 6, "12 x 6")]
    printed = sheet(cut([6]), elements=elements, lay={"face": "back", "left": "top"})
    assert lay_said(printed)[0] == "Print down, the top of the print, underneath, at the stop."


def test_the_sheet_s_tip_stands_before_its_first_cut() -> None:
    kit = resolved(sheet(cut([8], ["one", "scrap"]), tip="Measure twice."))
    (beside, stage, *_) = section_of(kit).blocks
    assert isinstance(stage, CutStage)
    assert isinstance(beside, Beside)
    tip = beside.blocks[-1]
    assert tip == Paragraph((Own("Measure twice.", ("sheets", 0, "tip")),), Tone.TIP)


# What is taken.

FIRST = cut([8, 4], ["one", "two", "three"])


@pytest.mark.parametrize(
    ("later", "said"),
    [
        (cut([6], take="one", turn="clockwise"), "Turn A a quarter, clockwise."),
        (cut([2], take="one", turn="half"), "Turn A half round."),
        (cut([2], take="one"), "Go on with A, as it lies."),
        (cut([6], take="two", turn="anticlockwise"), "Take B. Turn it a quarter, anticlockwise."),
        (cut([2], take="two"), "Take B. Lay it as before."),
        (
            cut([6], take=["one", "two", "three"], turn="clockwise"),
            "Stack A, B and C. Turn them a quarter, clockwise.",
        ),
        (cut([2], take=["two", "three"]), "Stack B and C. Lay them as before."),
    ],
)
def test_what_is_taken_and_how_it_is_turned(later: Data, said: str) -> None:
    later["leaves"] = ["four", "five"]
    assert headings(resolved(sheet(FIRST, later))) == ["", said]


def test_papers_that_lie_on_each_other_already_are_not_stacked() -> None:
    first = cut([8], ["one", "two"])
    here = cut([6], ["three", "four"], take=["one", "one"], turn="clockwise")
    there = cut([2], ["three", "four"], take=["two", "two"])
    assert headings(resolved(sheet(first, here, count=2)))[1] == "Turn A and B a quarter, clockwise."
    assert headings(resolved(sheet(first, there, count=2)))[1] == "Take C and D. Lay them as before."


def test_a_sheet_that_is_turned_before_its_first_cut_says_so() -> None:
    assert headings(resolved(sheet(cut([8], ["one", "scrap"], turn="clockwise")))) == [
        "Turn it a quarter, clockwise."
    ]


# How the print lies then.


@pytest.mark.parametrize(
    ("paper", "turn", "said"),
    [
        ("stars", "clockwise", "The top of the print now points right."),
        ("stars", "half", "The print is now upside down."),
        ("stars", "anticlockwise", "The top of the print now points left."),
        ("leaves", "clockwise", "The leaves now grow to the right."),
        ("stripes", "clockwise", "The stripes now run from left to right."),
        ("waves", "half", "The waves now run from left to right."),
    ],
)
def test_after_a_turn_it_is_said_how_the_print_lies(paper: str, turn: str, said: str) -> None:
    later = cut([2], ["two", "three"], take="one", turn=turn)
    kit = resolved(sheet(cut([8], ["one", "scrap"]), later, paper=paper))
    assert headings(kit)[1].endswith(f" {said}")


def test_a_piece_that_shows_no_direction_is_told_nothing_of_its_print() -> None:
    """The border at the sheet's top is cut off the lower piece; dots look alike all round."""
    first = cut([8], ["one", "border strip"])
    later = cut([6], ["two", "three"], take="{}", turn="clockwise")
    plain = resolved(
        sheet(first, later | {"take": "one"}, paper="bordered", lay={"left": "bottom"}), base="two"
    )
    bordered = resolved(
        sheet(first, later | {"take": "border strip"}, paper="bordered", lay={"left": "bottom"}), base="two"
    )
    assert headings(plain)[1] == "Turn A a quarter, clockwise."
    assert headings(bordered)[1].endswith("The print is now upside down.")


def test_a_print_that_lies_face_down_is_told_nothing_of_its_way() -> None:
    later = cut([6], ["two", "three"], take="one", turn="clockwise")
    kit = resolved(sheet(cut([8], ["one", "scrap"]), later, paper="stars", lay={"face": "back"}))
    assert headings(kit)[1] == "Turn A a quarter, clockwise."
