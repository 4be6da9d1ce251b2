"""How much work a sheet is, counted by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from booklet.cutting.model import SheetWork, sheet_work
from tests.cutting.balance import area_balance
from tests.kits import Data, cut, cut_one, sheet

WHOLE = sheet()
ONE_CUT = sheet(cut(8, ["panel", "scrap"]))
TWO_SHEETS = sheet(cut(8, ["panel", "scrap"]), count=2)
SAME_SETTING = sheet(cut(6, ["left", "right"]), cut(6, ["a", "b"], take="left", turn="clockwise"))


@pytest.mark.parametrize(
    ("one", "expected"),
    [
        (WHOLE, SheetWork(0, 0, 0, Fraction(0))),
        (ONE_CUT, SheetWork(1, 1, 0, Fraction(1, 3))),
        (TWO_SHEETS, SheetWork(1, 1, 0, Fraction(1, 3))),
        (SAME_SETTING, SheetWork(2, 1, 1, Fraction(0))),
        (sheet(cut([8, 4], ["a", "b", "c"])), SheetWork(2, 2, 0, Fraction(0))),
        (
            sheet(
                cut([8, 4], ["a", "b", "c"]),
                cut(8, ["d", "e"], take="a", turn="clockwise"),
                cut(8, ["f", "g"], take="b", turn="anticlockwise"),
            ),
            SheetWork(4, 3, 2, Fraction(0)),
        ),
        (
            sheet(
                cut([8, 4], ["a", "a", "scrap"]), cut(6, ["b", "scrap"], take=["a", "a"], turn="clockwise")
            ),
            SheetWork(3, 3, 1, Fraction(4 * 12 + 2 * 4 * 6, 144)),
        ),
    ],
    ids=[
        "left whole",
        "one cut",
        "two sheets in one pass",
        "the setting stays for the next step",
        "two settings",
        "a setting that comes back is set again, and then stays",
        "two pieces in one pass",
    ],
)
def test_cuts_settings_turns_and_scrap(one: Data, expected: SheetWork) -> None:
    done = cut_one(one)
    assert done.findings == ()
    assert sheet_work(done) == expected


def test_spare_pieces_are_not_scrap() -> None:
    assert sheet_work(cut_one(sheet(cut(8, ["panel", "border"]), spare="border"))).scrap_share == 0


def test_a_half_turn_is_one_turn_in_the_hand() -> None:
    assert sheet_work(cut_one(sheet(cut(6, ["a", "b"], turn="half")))).turns == 1


def test_a_step_that_cannot_be_cut_is_no_work() -> None:
    assert sheet_work(cut_one(sheet(cut(13, ["a", "b"], turn="clockwise")))) == SheetWork(
        0, 0, 0, Fraction(0)
    )


def test_the_balance_shows_what_is_missing() -> None:
    """The one thing that `area_balance` is for: a cutting that lost a piece does not balance."""
    done = cut_one(sheet(cut(8, ["panel", "border"])))
    assert area_balance(done) == 0
    assert area_balance(replace(done, pieces=done.pieces[:1])) == 48
