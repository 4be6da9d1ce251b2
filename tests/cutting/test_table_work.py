"""What scissors and punches do at the cutting table, between the cuts and before a piece is filed."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.cutting.finish import Finish, Hole, Rounding
from booklet.cutting.model import CutSheet, Fate
from booklet.kit.fields import Face
from booklet.kit.steps import Corner
from booklet.measure.geometry import ExactPoint, ExactRect
from booklet.measure.length import Size
from tests.cutting.balance import area_balance
from tests.kits import Data, cut, cut_one, element, ids, named, sheet

# Of a sheet of 12 x 12: a strip of 3 x 12, then tags of 3 x 3.
STRIP = cut(3, ["strip", "rest"])
TAGS = cut([9, 6, 3], ["tag", "tag", "tag", "tag"], take="strip", turn="clockwise")


def rect(*numbers: Any) -> ExactRect:
    return ExactRect(*map(Fraction, numbers))


def done(*steps: Data, **more: Any) -> CutSheet:
    """A sheet cut and worked on without a finding."""
    made = cut_one(sheet(*steps, **more))
    assert made.findings == ()
    assert area_balance(made) == 0
    return made


def test_scissors_part_a_strip_and_each_part_has_a_letter_of_its_own() -> None:
    made = done(
        STRIP, {"snip": "strip", "measured_from": "bottom", "at": [2, 5], "leaves": ["sea", "scrap", "sky"]}
    )
    assert {piece.name: piece.part for piece in made.pieces if piece.name != "rest"} == {
        "sea": rect(0, 10, 3, 2),
        "scrap": rect(0, 7, 3, 3),
        "sky": rect(0, 0, 3, 7),
    }
    assert [piece.label for piece in made.pieces] == ["1B", "1C", "", "1D"]
    assert made.stages[0].strips[0].pieces[0].fate is Fate.CUT_AGAIN


def test_parts_may_be_snipped_or_cut_again() -> None:
    made = done(
        STRIP,
        {"snip": "strip", "measured_from": "top", "at": 4, "leaves": ["head", "foot"]},
        {"snip": "head", "at": 1, "leaves": ["edge", "card"]},
        cut(4, ["low", "high"], take="foot", turn="clockwise"),
    )
    assert named(made.pieces, "card").part == rect(1, 0, 2, 4)
    assert named(made.pieces, "low").part == rect(0, 8, 3, 4)
    assert [work.number for work in made.works] == [2, 3]
    assert made.stages[1].cuts[0].number == 4


def test_every_piece_of_the_name_is_worked_on_copies_too() -> None:
    made = done(
        cut([8, 4], ["words", "words", "rest"]), {"snip": "words", "at": 3, "leaves": ["a", "b"]}, count=2
    )
    assert sorted(piece.name for piece in made.kept) == ["a"] * 4 + ["b"] * 4 + ["rest"] * 2


def test_a_piece_that_stands_turned_is_snipped_as_it_is_stated() -> None:
    """Cut as 3 x 12 and stated as 12 x 3: its left edge is the foot of the strip on the front."""
    snip = {"snip": "strip", "at": 5, "leaves": ["a", "b"]}
    made = cut_one(sheet(STRIP, snip, sizes={"strip": "12 x 3"}))
    assert ids(made.findings) == ["size-lies"]
    assert named(made.pieces, "a").part == rect(0, 7, 3, 5)
    assert named(made.pieces, "a").size == Size(Fraction(5), Fraction(3))


def test_what_is_trimmed_keeps_its_middle_and_its_letter_and_the_rest_is_scrap() -> None:
    made = done(STRIP, TAGS, {"trim_round": "tag", "size": "2 x 2 1/2"}, sizes={"tag": "2 x 2 1/2"})
    tags = [piece for piece in made.kept if piece.name == "tag"]
    assert [tag.part for tag in tags] == [
        rect(Fraction(1, 2), y + Fraction(1, 4), 2, Fraction(5, 2)) for y in (9, 6, 3, 0)
    ]
    assert [tag.label for tag in tags] == ["1C", "1D", "1E", "1F"]
    assert sum(piece.part.area for piece in made.scrap) == 4 * (9 - 5)


def test_a_printed_element_that_is_trimmed_is_still_itself() -> None:
    tags = [element("sun", 0, 0, "6 x 12"), element("sea", 6, 0, "6 x 12")]
    done(cut(6), {"trim_round": "sun", "size": "5 x 11", "outline": "the printed ray"}, elements=tags)


def test_corners_and_holes_belong_to_the_upright_piece() -> None:
    made = done(
        STRIP,
        TAGS,
        {"round": "tag", "radius": "1/2", "corners": ["top left"]},
        {"punch": "tag", "hole": "1/4", "right": "1/8", "top": 1},
        {"punch": "tag", "corners": ["bottom right"], "shape": "ticket"},
    )
    hole = Hole(ExactPoint(Fraction(11, 4), Fraction(9, 8)), Fraction(1, 4))
    finish = Finish((Rounding((Corner.TOP_LEFT,), Fraction(1, 2)),), (Corner.BOTTOM_RIGHT,), holes=(hole,))
    assert {piece.finish for piece in made.kept if piece.name == "tag"} == {finish}


@pytest.mark.parametrize(
    ("said", "middle"),
    [
        ({}, (Fraction(3, 2), Fraction(3, 2))),
        ({"top": "1/4"}, (Fraction(3, 2), Fraction(1, 2))),
        ({"bottom": "1/4", "left": 1}, (Fraction(5, 4), Fraction(5, 2))),
    ],
)
def test_a_hole_is_in_the_middle_where_nothing_else_is_said(
    said: Data, middle: tuple[Fraction, Fraction]
) -> None:
    made = done(STRIP, TAGS, {"punch": "tag", "hole": "1/2", **said})
    (hole,) = named([*made.kept[1:2]], "tag").finish.holes
    assert hole.middle == ExactPoint(*middle)


def test_a_cut_of_what_is_rounded_already_is_found_and_one_before_is_not() -> None:
    rounding = {"round": "strip", "radius": 1}
    assert ids(cut_one(sheet(STRIP, rounding, TAGS)).findings) == ["work-too-early"]
    assert ids(cut_one(sheet(STRIP, TAGS, {"round": "tag", "radius": 1})).findings) == []


# What is done to a piece goes with it.

sizes = st.builds(Size, st.integers(4, 9).map(Fraction), st.integers(4, 9).map(Fraction))


@given(sizes, st.sampled_from(Corner), st.sampled_from(Face), st.integers(0, 3))
def test_a_corner_and_a_hole_beside_it_stay_together_however_the_piece_is_laid(
    size: Size, corner: Corner, face: Face, turn: int
) -> None:
    near = {"left": Fraction(1), "top": Fraction(1), "right": size.width - 1, "bottom": size.height - 1}
    down, across = corner.value.split()
    hole = Hole(ExactPoint(near[across], near[down]), Fraction(1))
    laid = Finish((Rounding((corner,), Fraction(1)),), (corner,), holes=(hole,)).as_laid(face, turn, size)
    ((there,),) = (one.corners for one in laid.roundings)
    assert laid.punched == (there,)
    (middle,) = (one.middle for one in laid.holes)
    seen = size.turned if turn % 2 else size
    assert (middle.x == 1) is ("left" in there.value)
    assert (middle.y == 1) is ("top" in there.value)
    assert {middle.x, middle.y} <= {Fraction(1), seen.width - 1, seen.height - 1}
