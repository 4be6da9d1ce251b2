"""Written cuts planned anew: what stays because of its print, and what a plan of it must keep."""

from __future__ import annotations

from dataclasses import replace

import pytest

from booklet.cutting.cut import cut_kit
from booklet.cutting.planner.written import KeptCuts, freed_sheet, plan_written
from booklet.kit.kit import Kit
from booklet.kit.sheet import CutStep, Sheet
from tests.kits import Data, cut, element, make_kit, sheet


def bordered(face: str, *edges: str) -> Data:
    borders = [{"edge": edge, "width": 1, "colour": "#112233"} for edge in edges]
    return {"front": {}, "back": {}} | {face: {"borders": borders}}


def kit_of(one: Data, paper: Data) -> Kit:
    return make_kit({**one, "paper": "printed"}, papers={"printed": paper})


def freed(one: Data, paper: Data) -> Sheet | KeptCuts:
    kit = kit_of(one, paper)
    return freed_sheet(kit, cut_kit(kit)[0])


BANDS = sheet(cut([9, 3], ["first", "middle", "last"]))


@pytest.mark.parametrize(
    ("paper", "kept"),
    [
        (bordered("front", "left"), {"first": "left"}),
        (bordered("front", "left", "right"), {"first": "left", "last": "right"}),
        (bordered("back", "left"), {"last": "right"}),
        (bordered("front"), {}),
    ],
)
def test_a_printed_border_becomes_a_wish(paper: Data, kept: dict[str, str]) -> None:
    found = freed(BANDS, paper)
    assert isinstance(found, Sheet)
    assert found.wishes.edge == kept


def test_the_border_lies_where_it_did_after_planning() -> None:
    for edges in (("left", "right"), ("right",), ("left",)):
        kit = kit_of(BANDS, bordered("front", *edges))
        (before,) = cut_kit(kit)
        answer = plan_written(kit, before)
        assert not isinstance(answer, KeptCuts)
        assert answer.cuts
        after = cut_kit(make_kit_with(kit, answer.cuts))[0]
        for name, edge in (("first", "left"), ("last", "right")):
            if edge in edges:
                assert [p.part for p in after.kept if p.name == name] == [
                    p.part for p in before.kept if p.name == name
                ]


def make_kit_with(kit: Kit, cuts: tuple[CutStep, ...]) -> Kit:
    return replace(kit, sheets=(replace(kit.sheets[0], cuts=cuts),))


@pytest.mark.parametrize(
    ("one", "paper", "why"),
    [
        (sheet(), bordered("front"), "left whole"),
        (sheet(cut(3), elements=[element("sun", 1, 1)]), bordered("front"), "between its printed elements"),
        (BANDS, {"front": {"image": "sea.jpg"}}, "printed with a picture"),
        (sheet(cut([8, 4], ["a", "a", "a"])), bordered("front", "left"), "not all pieces of one name"),
        (sheet(cut([8, 3], ["a", "a", "b"])), bordered("front"), "one name has two sizes"),
        (
            sheet(cut(5, ["a", "b"]), cut(2, ["c", "d"], take="a", turn="clockwise"), count=2),
            bordered("front"),
            "not cut alike",
        ),
    ],
)
def test_what_cannot_be_planned_anew_says_why(one: Data, paper: Data, why: str) -> None:
    found = freed(one, paper)
    assert isinstance(found, KeptCuts)
    assert why in found.why


def test_a_picture_that_may_lie_any_way_is_free() -> None:
    found = freed(BANDS, {"front": {"image": "sea.jpg", "upright": False}})
    assert isinstance(found, Sheet)
    assert found.wishes.edge == {}
