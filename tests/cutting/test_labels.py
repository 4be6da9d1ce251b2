"""Labels: sheet number and letter."""

from __future__ import annotations

import pytest

from booklet.cutting.cut import cut_kit
from booklet.cutting.labels import letter
from tests.kits import cut, cut_one, element, make_kit, sheet


@pytest.mark.parametrize(
    ("index", "expected"),
    [
        (0, "A"),
        (1, "B"),
        (7, "H"),
        (8, "J"),  # no I, which reads as 1
        (13, "P"),  # no O, which reads as 0
        (23, "Z"),
        (24, "AA"),
        (25, "AB"),
        (47, "AZ"),
        (48, "BA"),
        (599, "ZZ"),
        (600, "AAA"),
    ],
)
def test_letters_go_from_a_to_z_and_on_to_aa(index: int, expected: str) -> None:
    assert letter(index) == expected


def test_no_letters_come_twice() -> None:
    assert len({letter(index) for index in range(2000)}) == 2000


def test_pieces_that_are_cut_on_carry_labels_too_and_scrap_does_not() -> None:
    done = cut_one(
        sheet(cut(8, ["panel", "border"]), cut(7, ["tall panel", "scrap"], take="panel", turn="clockwise"))
    )
    assert [piece.label for stage in done.stages for s in stage.strips for piece in s.pieces] == [
        "1A",
        "1B",
        "1C",
        "",
    ]
    assert [piece.label for piece in done.stages[1].taken] == ["1A"]
    assert [piece.label for piece in done.whole] == ["1"]


def test_the_twenty_fifth_piece_of_a_sheet_is_aa() -> None:
    at = [f"{26 - n} in" for n in range(1, 26)]
    done = cut_one(sheet(cut(at, [f"strip {n}" for n in range(26)])), sheet="26 x 12")
    assert [piece.label for piece in done.pieces][22:] == ["1Y", "1Z", "1AA", "1AB"]


def test_cut_sheets_are_numbered_first_then_cut_aparts_then_whole_sheets() -> None:
    kit = make_kit(
        sheet(id="cardstock"),
        sheet(cut(6), id="tags", elements=[element("sun", 1, 1), element("moon", 7, 1)]),
        sheet(cut(6, ["left", "right"]), id="shingle"),
        sheet(id="vellum"),
        sheet(cut(4, ["near", "far"]), id="net"),
    )
    done = cut_kit(kit)
    assert {one.sheet.id: one.number for one in done} == {
        "shingle": 1,
        "net": 2,
        "tags": 3,
        "cardstock": 4,
        "vellum": 5,
    }
    assert [piece.label for piece in done[4].pieces] == ["2A", "2B"]
