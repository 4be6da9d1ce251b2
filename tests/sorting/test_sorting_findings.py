"""Every finding of the sorting stage: a kit that has the fault, and one that is just inside."""

from __future__ import annotations

from pathlib import Path

import pytest

import booklet.sorting
from booklet.cutting.cut import cut_kit
from booklet.kit.finding import Finding, Severity
from booklet.kit.kit import Kit
from booklet.sorting.pile import check_pile
from tests.cases import Case, assert_told_once
from tests.kits import cut, finding_ids, ids, layout, ledger_of, make_kit, ready, sheet

HALVES = sheet(cut(6, ["left", "right"]))
PUNCH = {"punch": "tag", "corners": "all"}
STRIPS = sheet(cut([8, 4], ["strip", "strip", "strip"]))

EBB = {**layout("left", id="ebb"), "facing": "flood"}


CASES = {
    "no layouts": Case(
        "layouts-missing",
        ("layouts",),
        make_kit(sheet(), layouts=[]),
        make_kit(sheet(), layouts=[layout("sheet")]),
    ),
    "a base that nothing makes": Case(
        "piece-not-made",
        ("layouts", 0, "base"),
        make_kit(HALVES, layouts=[layout("lfet", "right")]),
        make_kit(HALVES, layouts=[layout("left", "right")]),
    ),
    "a piece that is cut into others": Case(
        "piece-not-made",
        ("layouts", 0, "steps", 0, "place"),
        make_kit(
            sheet(cut(6, ["a", "b"]), cut(3, ["c", "d"], take="b")), layouts=[layout("a", "b", "c", "d")]
        ),
        make_kit(sheet(cut(6, ["a", "b"]), cut(3, ["b", "d"], take="b")), layouts=[layout("a", "b", "d")]),
    ),
    "a piece used that is said to be spare": Case(
        "piece-spare-used",
        ("layouts", 0, "steps", 0, "place"),
        make_kit(HALVES | {"spare": "right"}, layouts=[layout("left", "right")]),
        make_kit(HALVES | {"spare": "right"}, layouts=[layout("left")]),
    ),
    "one more used than is not spare": Case(
        "piece-spare-used",
        ("layouts", 0, "steps", 1, "place"),
        make_kit(STRIPS | {"spare": "strip"}, layouts=[layout("strip", "strip", "strip")]),
        make_kit(STRIPS | {"spare": "strip"}, layouts=[layout("strip", "strip")]),
    ),
    "ready-cut pieces said to be spare": Case(
        "piece-spare-used",
        ("layouts", 0, "steps", 1, "place"),
        make_kit(sheet(), ready=[ready("mat", 2, spare=1)], layouts=[layout("sheet", "mat", "mat")]),
        make_kit(sheet(), ready=[ready("mat", 2, spare=0)], layouts=[layout("sheet", "mat", "mat")]),
    ),
    "one piece on two layouts": Case(
        "piece-used-twice",
        ("layouts", 1, "base"),
        make_kit(HALVES, layouts=[layout("left", "right"), layout("left", id="high tide")]),
        make_kit(HALVES, layouts=[layout("left"), layout("right", id="high tide")]),
    ),
    "four strips wanted of three": Case(
        "piece-used-twice",
        ("layouts", 0, "steps", 2, "place"),
        make_kit(STRIPS, layouts=[layout(*["strip"] * 4)]),
        make_kit(STRIPS, layouts=[layout(*["strip"] * 3)]),
    ),
    "a ready-cut piece too few": Case(
        "piece-used-twice",
        ("layouts", 0, "steps", 2, "place"),
        make_kit(sheet(), ready=[ready("mat", 2)], layouts=[layout("sheet", "mat", "mat", "mat")]),
        make_kit(sheet(), ready=[ready("mat", 3)], layouts=[layout("sheet", "mat", "mat", "mat")]),
    ),
    "a piece left over": Case(
        "piece-left-over",
        ("sheets", 0, "cuts", 0, "leaves", 1),
        make_kit(HALVES, layouts=[layout("left")]),
        make_kit(HALVES | {"spare": "right"}, layouts=[layout("left")]),
    ),
    "a whole sheet left over": Case(
        "piece-left-over",
        ("sheets", 1),
        make_kit(HALVES, sheet(id="vellum"), layouts=[layout("left", "right")]),
        make_kit(HALVES, sheet(id="vellum", spare="vellum"), layouts=[layout("left", "right")]),
    ),
    "ready-cut pieces left over": Case(
        "piece-left-over",
        ("ready", 0),
        make_kit(sheet(), ready=[ready("mat", 3, spare=1)], layouts=[layout("sheet", "mat")]),
        make_kit(sheet(), ready=[ready("mat", 3, spare=2)], layouts=[layout("sheet", "mat")]),
    ),
    "a name on two sheets": Case(
        "name-on-two",
        ("sheets", 1, "cuts", 0, "leaves", 0),
        make_kit(
            HALVES,
            sheet(cut(6, ["left", "border"]), id="net"),
            layouts=[layout("left", "right", "left", "border")],
        ),
        make_kit(
            HALVES,
            sheet(cut(6, ["near", "border"]), id="net"),
            layouts=[layout("left", "right", "near", "border")],
        ),
    ),
    "a name both cut and ready-cut": Case(
        "name-on-two",
        ("ready", 0),
        make_kit(HALVES, ready=[ready("left", 4)], layouts=[layout("left", "right")]),
        make_kit(HALVES, ready=[ready("mat", 4)], layouts=[layout("left", "right")]),
    ),
    "two ready-cut items of one name": Case(
        "name-on-two",
        ("ready", 1),
        make_kit(HALVES, ready=[ready("mat"), ready("mat")], layouts=[layout("left", "right")]),
        make_kit(HALVES, ready=[ready("mat"), ready("small mat")], layouts=[layout("left", "right")]),
    ),
    "two sizes under one name": Case(
        "name-of-two-sizes",
        ("sheets", 0, "cuts", 0, "leaves", 1),
        make_kit(sheet(cut("6 1/8", ["half", "half"])), layouts=[layout("half", "half")]),
        make_kit(sheet(cut(6, ["half", "half"])), layouts=[layout("half", "half")]),
    ),
    "a name of which some are punched": Case(
        "name-of-two-finishes",
        ("sheets", 0, "cuts", 2, "leaves", 0),
        make_kit(
            sheet(cut(8, ["b", "tag"]), PUNCH, cut(4, ["tag", "scrap"], take="b")),
            layouts=[layout("tag", "tag")],
        ),
        make_kit(sheet(cut([8, 4], ["tag", "tag", "scrap"]), PUNCH), layouts=[layout("tag", "tag")]),
    ),
    "a pocket for a piece that is not filed": Case(
        "pocket-of-nothing",
        ("sheets", 0, "pockets", "right"),
        make_kit(HALVES | {"pockets": {"right": 1}, "spare": "right"}, layouts=[layout("left")]),
        make_kit(HALVES | {"pockets": {"left": 1}, "spare": "right"}, layouts=[layout("left")]),
    ),
    "a pocket other than the layout's": Case(
        "pocket-differs",
        ("sheets", 0, "pockets", "left"),
        make_kit(HALVES | {"pockets": {"left": 4}}, layouts=[layout("left", "right", pocket=3)]),
        make_kit(HALVES | {"pockets": {"left": 3}}, layouts=[layout("left", "right", pocket=3)]),
    ),
    "one pocket stated for pieces that go to two": Case(
        "pocket-differs",
        ("sheets", 0, "pockets", "strip"),
        make_kit(
            STRIPS | {"pockets": {"strip": 1}},
            layouts=[layout("strip", "strip", pocket=1), layout("strip", id="high tide", pocket=2)],
        ),
        make_kit(
            STRIPS | {"pockets": {"strip": 1}},
            layouts=[layout("strip", "strip", pocket=1), layout("strip", id="high tide", pocket=1)],
        ),
    ),
    "two pockets stated for pieces that go to one": Case(
        "pocket-differs",
        ("sheets", 0, "pockets", "strip"),
        make_kit(
            STRIPS | {"pockets": {"strip": ["A3", "front"]}},
            layouts=[layout("strip", "strip", pocket="A3"), layout("strip", id="high tide", pocket="A3")],
        ),
        make_kit(
            STRIPS | {"pockets": {"strip": ["A3", "front"]}},
            layouts=[layout("strip", "strip", pocket="front"), layout("strip", id="high tide", pocket="A3")],
        ),
    ),
    "a tip for a pocket of another name": Case(
        "pocket-tip-of-nothing",
        ("pocket_tips", "fornt"),
        make_kit(HALVES, layouts=[layout("left", "right", pocket="front")], pocket_tips={"fornt": "Last."}),
        make_kit(HALVES, layouts=[layout("left", "right", pocket="front")], pocket_tips={"front": "Last."}),
    ),
    "a tip for a pocket that serves no layout": Case(
        "pocket-tip-of-nothing",
        ("pocket_tips", "5"),
        make_kit(HALVES, layouts=[layout("left", "right", pocket=3)], pocket_tips={5: "Left first."}),
        make_kit(HALVES, layouts=[layout("left", "right", pocket=3)], pocket_tips={3: "Left first."}),
    ),
    "facing pages that are filed in two pockets": Case(
        "facing-pockets-differ",
        ("layouts", 1, "pocket"),
        make_kit(HALVES, layouts=[EBB, layout("right", id="flood", pocket=2)]),
        make_kit(HALVES, layouts=[EBB, layout("right", id="flood", pocket=1)]),
        Severity.WARNING,
    ),
    "facing pages on bases of two papers": Case(
        "facing-bases-differ",
        ("layouts", 1, "base"),
        make_kit(
            sheet(id="ebb paper"),
            sheet(id="flood paper", paper="shingle"),
            layouts=[{**EBB, "base": "ebb paper"}, layout("flood paper", id="flood")],
        ),
        make_kit(
            sheet(id="ebb paper"),
            sheet(id="flood paper"),
            layouts=[{**EBB, "base": "ebb paper"}, layout("flood paper", id="flood")],
        ),
        Severity.NOTE,
    ),
    "more ready-cut pieces spare than there are": Case(
        "spare-too-many",
        ("ready", 0, "spare"),
        make_kit(sheet(), ready=[ready("mat", 2, spare=3)], layouts=[layout("sheet")]),
        make_kit(sheet(), ready=[ready("mat", 2, spare=2)], layouts=[layout("sheet")]),
    ),
    "a circle that is wider than it is high": Case(
        "ready-not-round",
        ("ready", 0, "size"),
        make_kit(sheet(), ready=[ready("sun", size="3 1/8 x 3") | {"outline": "circle"}]),
        make_kit(sheet(), ready=[ready("sun", size="3 x 3") | {"outline": "circle"}]),
        Severity.NOTE,
    ),
    "a pile that leaves out a sheet": Case(
        "pile-misses",
        ("pile",),
        make_kit(HALVES, sheet(id="vellum"), pile=["sheet"]),
        make_kit(HALVES, sheet(id="vellum"), pile=["vellum", "sheet"]),
    ),
}


def found_in(kit: Kit, id: str) -> list[Finding]:
    findings = [*ledger_of(kit).findings, *check_pile(kit)]
    return [finding for finding in findings if finding.id == id]


@pytest.mark.parametrize("case", CASES.values(), ids=CASES.keys())
def test_the_fault_is_found_where_it_stands(case: Case) -> None:
    assert_told_once(case, found_in(case.faulty, case.id))


@pytest.mark.parametrize("case", CASES.values(), ids=CASES.keys())
def test_just_inside_nothing_is_found(case: Case) -> None:
    assert found_in(case.sound, case.id) == []


def test_no_finding_of_this_stage_goes_untested() -> None:
    folder = Path(str(booklet.sorting.__file__)).parent
    assert finding_ids(folder) == {case.id for case in CASES.values()}


def test_ready_cut_pieces_cannot_be_called_scrap() -> None:
    kit = make_kit(sheet(), ready=[ready("scrap")], layouts=[layout("sheet")])
    assert [finding.where for finding in found_in(kit, "name-reserved")] == [("ready", 0, "name")]


def test_pieces_left_over_are_reported_together_with_their_labels() -> None:
    kit = make_kit(sheet(cut([9, 6, 3], ["strip", "mat", "strip", "mat"])), layouts=[layout("mat", "mat")])
    (finding,) = found_in(kit, "piece-left-over")
    assert finding.found == '2 "strip" (1A, 1C) are used by no layout'


def test_a_misspelt_want_is_answered_with_the_nearest_piece() -> None:
    kit = make_kit(HALVES, layouts=[layout("left", "Rihgt")])
    (finding,) = found_in(kit, "piece-not-made")
    assert finding.cure == 'did you mean "right"?'


def test_a_piece_used_twice_tells_who_has_it() -> None:
    kit = make_kit(STRIPS, layouts=[layout(*["strip"] * 3), layout("strip", id="high tide")])
    (finding,) = found_in(kit, "piece-used-twice")
    assert finding.found == '"high tide" wants one more "strip" than the kit gives'
    assert finding.cure == 'all 3 are used already, by "low tide"'


def test_a_tip_for_no_pocket_is_answered_with_the_nearest_pocket() -> None:
    layouts = [layout("left", pocket=3), layout("right", id="high tide", pocket=8)]
    kit = make_kit(HALVES, layouts=layouts, pocket_tips={5: "Left first.", 7: "Right first."})
    cures = [finding.cure for finding in found_in(kit, "pocket-tip-of-nothing")]
    assert cures == ["did you mean 3?", "did you mean 8?"]


def test_a_name_on_two_sheets_is_reported_once_for_each_sheet() -> None:
    kit = make_kit(STRIPS, STRIPS | {"id": "net"}, STRIPS | {"id": "sky"}, layouts=[layout("strip")])
    assert [finding.where[1] for finding in found_in(kit, "name-on-two")] == [1, 2]


def test_a_want_of_a_piece_that_is_cut_on_is_reported_so() -> None:
    kit = make_kit(
        sheet(cut(6, ["a", "b"]), cut(3, ["c", "d"], take="b")), layouts=[layout("a", "b", "c", "d")]
    )
    (finding,) = found_in(kit, "piece-not-made")
    assert finding.found == '"b" is cut into other pieces'


def test_one_step_that_wants_too_many_is_reported_once_with_their_number() -> None:
    mats = {"row": ["mat"], "count": 4, "left": 0, "top": 0}
    kit = make_kit(sheet(), ready=[ready("mat", 1)], layouts=[layout("sheet") | {"steps": [mats]}])
    (finding,) = found_in(kit, "piece-used-twice")
    assert finding.found == '"low tide" wants 3 more "mat" than the kit gives'


def test_a_misspelt_piece_is_reported_at_each_step_that_names_it() -> None:
    kit = make_kit(HALVES, layouts=[layout("left", "rihgt", "rihgt")])
    wheres = [finding.where for finding in found_in(kit, "piece-not-made")]
    assert wheres == [("layouts", 0, "steps", step, "place") for step in (0, 1)]


@pytest.mark.parametrize(("spare", "cure"), [(0, "spare: 2"), (1, "spare: 3")])
def test_what_is_left_of_a_ready_cut_piece_is_reported_as_it_would_be_typed(spare: int, cure: str) -> None:
    kit = make_kit(sheet(), ready=[ready("mat", spare + 3, spare)], layouts=[layout("sheet", "mat")])
    (finding,) = found_in(kit, "piece-left-over")
    assert finding.cure == f"place it on a layout, or say {cure}"


@pytest.mark.parametrize(("spare", "how"), [([], " once for each"), (["strip"], " once more")])
def test_a_piece_left_over_next_to_a_spare_one_is_listed_once_more(spare: list[str], how: str) -> None:
    kit = make_kit(STRIPS | {"spare": spare}, layouts=[layout("strip")])
    (finding,) = found_in(kit, "piece-left-over")
    assert finding.cure == f"place it on a layout, or list it under spare{how}"


class TestOneCauseIsToldOnce:
    def test_a_step_that_takes_nothing_is_not_blamed_on_the_layouts(self) -> None:
        wrong = sheet(
            cut(8, ["panel", "border"]),
            cut(4, ["low", "high"], take="panle"),
            cut(2, ["tab", "scrap"], take="low"),
            spare="high",
            sizes={"tab": "2 x 12"},
        )
        kit = make_kit(wrong, layouts=[layout("border", "low", "tab")])
        done = cut_kit(kit)
        assert ids(done[0].findings) == ["cut-takes-missing"]
        # The panel that was not taken is told of: the spec nowhere says that it is cut on.
        assert ids(ledger_of(kit).findings) == ["piece-left-over"]

    def test_pieces_of_which_too_many_are_taken_are_not_reported_to_be_left_over(self) -> None:
        wrong = sheet(cut(6, ["half", "half"]), cut(3, ["low", "high"], take=["half"] * 3))
        kit = make_kit(wrong, layouts=[layout("low", "high")])
        assert ids(cut_kit(kit)[0].findings) == ["cut-takes-missing"]
        assert ids(ledger_of(kit).findings) == []

    def test_a_sheet_without_a_plan_is_not_blamed_on_the_layouts(self) -> None:
        unplanned = {"id": "sheet", "paper": "plain", "cuts": "plan", "sizes": {"mat": "13 x 4"}}
        kit = make_kit(unplanned | {"spare": "mat"}, sheet(id="base"), layouts=[layout("base", "mat")])
        assert ids(cut_kit(kit)[0].findings) == []
        assert ids(ledger_of(kit).findings) == []

    def test_more_said_to_be_spare_than_there_is_is_not_blamed_on_its_uses(self) -> None:
        kit = make_kit(sheet(), ready=[ready("mat", 2, spare=3)], layouts=[layout("sheet", "mat")])
        assert ids(ledger_of(kit).findings) == ["spare-too-many"]


def test_before_there_are_layouts_no_piece_is_left_over_and_no_pocket_is_wrong() -> None:
    kit = make_kit(HALVES | {"pockets": {"left": 3}}, layouts=[], pocket_tips={3: "Lay it flat."})
    assert ids(ledger_of(kit).findings) == ["layouts-missing"]


def test_the_names_of_pieces_are_checked_before_there_are_layouts() -> None:
    kit = make_kit(HALVES, sheet(cut(4, ["left", "rest"]), id="other"), layouts=[])
    assert ids(ledger_of(kit).findings) == ["name-on-two", "layouts-missing"]
