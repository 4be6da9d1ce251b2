"""Sheets of one paper planned together: all pieces, each name from one sheet, few sheets."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.cutting.cut import cut_kit
from booklet.cutting.planner.together import PaperPlan, plan_together
from booklet.kit.kit import Kit
from booklet.kit.sheet import Sheet
from tests.kits import Data, ids, layout, make_kit, sheet


def plan_sheets(number_of_sheets: int, paper: str = "shingle", **more: Any) -> list[Data]:
    """Sheets that say `cuts: plan`; the first of them states all the pieces."""
    plain = [
        {**sheet(id=f"sheet {number}", paper=paper), "cuts": "plan"} for number in range(number_of_sheets)
    ]
    return [{**plain[0], **more}, *plain[1:]]


def kit_of(sheets: list[Data], *places: str) -> Kit:
    return make_kit(*sheets, sheet(id="base"), layouts=[layout("base", *places)])


def planned(kit: Kit) -> PaperPlan:
    (together,) = plan_together(kit)
    return together


def filled_in(kit: Kit, together: PaperPlan) -> Kit:
    """The kit as it is when what was printed is pasted."""
    sheets: list[Sheet] = list(kit.sheets)
    for share in together.shares:
        cuts = share.answer.cuts if share.answer else ()
        sizes = {piece.name: piece.size for piece in share.pieces}
        sheets[share.index] = replace(sheets[share.index], cuts=cuts or (), sizes=sizes)
    return replace(kit, sheets=tuple(sheets))


def given_by(kit: Kit, together: PaperPlan) -> Counter[str]:
    needed = [share.index for share in together.shares if share.answer]
    cut = [one for one in cut_kit(filled_in(kit, together)) if one.index in needed]
    assert [finding for one in cut for finding in one.findings if finding.id.startswith("size")] == []
    return Counter(piece.name for one in cut for piece in one.kept)


def test_pieces_are_shared_out_over_the_fewest_sheets() -> None:
    sizes = {"a": "7 x 12", "b": "5 x 6", "d": "7 x 8", "e": "5 x 12", "f": "7 x 4"}
    kit = kit_of(plan_sheets(3, sizes=sizes), "a", "b", "b", "d", "e", "f")
    together = planned(kit)
    assert together.proved
    assert sum(share.answer is not None for share in together.shares) == 2
    assert given_by(kit, together) == {"a": 1, "b": 2, "d": 1, "e": 1, "f": 1}


@settings(max_examples=25)
@given(st.lists(st.tuples(st.integers(2, 7), st.integers(2, 9), st.integers(1, 3)), min_size=1, max_size=6))
def test_every_name_comes_from_one_sheet(pieces: list[tuple[int, int, int]]) -> None:
    sizes = {f"piece {number}": f"{w} x {h}" for number, (w, h, _) in enumerate(pieces)}
    wanted = Counter({f"piece {number}": count for number, (_, _, count) in enumerate(pieces)})
    kit = kit_of(plan_sheets(4, sizes=sizes), *wanted.elements())
    together = planned(kit)
    if not together.shares:
        assert together.findings
        return
    names = [piece.name for share in together.shares for piece in share.pieces]
    assert sorted(names) == sorted(sizes)
    assert given_by(kit, together) == wanted


def test_wishes_and_the_way_each_sheet_lies_are_kept() -> None:
    sizes = {"edge": "3 x 12", "panel": "9 x 12", "other": "3 x 9"}
    sheets = plan_sheets(2, sizes=sizes, wishes={"edge": {"edge": "right", "other": "bottom"}})
    sheets[1]["lay"] = {"face": "back", "left": "top"}
    kit = kit_of(sheets, "edge", "panel", "other")
    together = planned(kit)
    assert given_by(kit, together) == {"edge": 1, "panel": 1, "other": 1}
    parts = {piece.name: piece.part for one in cut_kit(filled_in(kit, together))[:2] for piece in one.kept}
    assert parts["edge"].right == 12
    assert parts["other"].bottom == 12


def test_two_wished_side_by_side_come_from_one_sheet() -> None:
    sizes = {"a": "7 x 6", "b": "5 x 6", "c": "8 x 9"}
    kit = kit_of(plan_sheets(2, sizes=sizes, wishes={"beside": [["a", "b"]]}), "a", "b", "c")
    together = planned(kit)
    assert {frozenset(piece.name for piece in share.pieces) for share in together.shares} == {
        frozenset({"a", "b"}),
        frozenset({"c"}),
    }


@pytest.mark.parametrize(
    ("sheets", "places", "said"),
    [
        (plan_sheets(2, sizes={"a": "7 x 12"}), ["a"] * 2, "plan-together-names"),
        (plan_sheets(2, sizes={"a": "7 x 12"}), ["a"] * 3, "plan-impossible"),
        (plan_sheets(2, sizes={"a": "7 x 12"}, count=2), ["a"], "plan-together-count"),
        (plan_sheets(2), [], "plan-nothing-wanted"),
    ],
)
def test_what_cannot_be_planned_together_is_said(sheets: list[Data], places: list[str], said: str) -> None:
    together = planned(kit_of(sheets, *places))
    assert (together.shares, ids(together.findings)[0]) == ((), said)


def test_a_sheet_that_would_help_is_called_by_its_id() -> None:
    kit = kit_of(plan_sheets(2, sizes={"a": "7 x 12"}), *["a"] * 3)
    (refused,) = planned(kit).findings[:1]
    assert f"one more sheet of {kit.sheets[0].id}" in refused.cure


def test_what_can_be_planned_together_is_not_complained_of() -> None:
    kit = kit_of(plan_sheets(2, sizes={"a": "7 x 12", "b": "7 x 12"}), "a", "b")
    assert (planned(kit).findings, given_by(kit, planned(kit))) == ((), {"a": 1, "b": 1})


def test_sheets_of_different_papers_have_nothing_to_share() -> None:
    one, other = plan_sheets(2, sizes={"a": "7 x 12"})
    assert plan_together(kit_of([one, {**other, "paper": "plain"}], "a")) == ()
