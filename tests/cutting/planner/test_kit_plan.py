"""Sheets that leave their cuts to the planner: planned, cut, sorted and placed as any others."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

import booklet.cutting.planner
import booklet.cutting.planner.kit_plan as kit_plan
from booklet.cutting.cut import cut_kit
from booklet.cutting.planner import Plan, Settings
from booklet.cutting.planner.kit_plan import KIT_EFFORT, SHEET_EFFORT, plan_kit
from booklet.cutting.planner.metrics import total_metrics
from booklet.kit.fields import Edge
from booklet.kit.finding import Finding, Severity
from booklet.kit.kit import Kit
from booklet.kit.load import LoadedKit
from booklet.kit.source import Source
from booklet.measure.length import Size
from booklet.placing.resolved import ResolvedKit, resolve_kit
from booklet.proof.findings import kit_findings
from tests.cutting.planner.test_peel import cut_apart
from tests.cutting.planner.tired import tire
from tests.kits import Data, element, finding_ids, ids, layout, make_kit, sheet, value_at


def plan_sheet(paper: str = "plain", **more: Any) -> Data:
    return {**sheet(id="sheet", paper=paper, **more), "cuts": "plan"}


def kit_of(*places: str, **more: Any) -> Kit:
    """One planned sheet, and a layout that takes these pieces of it."""
    return make_kit(plan_sheet(**more), sheet(id="base"), layouts=[layout("base", *places)])


def resolved(kit: Kit) -> ResolvedKit:
    return resolve_kit(LoadedKit(kit, Source("kit.yaml", None, ()), Path()))


def errors(kit: Kit) -> list[Finding]:
    """All errors but that pieces hide each other: the layouts here lay all of them into one corner."""
    found = [finding for finding in kit_findings(resolved(kit)) if finding.severity is Severity.ERROR]
    return [finding for finding in found if finding.id != "piece-hidden"]


def said(kit: Kit) -> tuple[Finding, ...]:
    return plan_kit(kit).findings[0]


SIZES = {"panel": "7 x 8", "strip": "5 x 3", "tag": "2 x 4"}


def test_a_planned_sheet_gives_what_layouts_take_and_what_is_to_be_spare() -> None:
    kit = kit_of("panel", "strip", "tag", "tag", sizes=SIZES, spare=["tag"])
    assert errors(kit) == []
    cut = resolved(kit).sheets[0]
    assert Counter(piece.name for piece in cut.kept) == {"panel": 1, "strip": 1, "tag": 2}
    assert len(cut.pieces) - len(cut.kept) - len(cut.scrap) == 1


@pytest.mark.parametrize("zero", ["left", "right"])
@pytest.mark.parametrize("edge", ["left", "right", "top", "bottom"])
def test_a_piece_lies_at_its_edge_whichever_side_the_scale_begins_at(zero: str, edge: str) -> None:
    planned = plan_sheet(
        paper="shingle",
        sizes={"panel": "7 x 8", "strip": "2 x 3"},
        wishes={"edge": {"panel": edge}},
        lay={"bottom": "wave border"},
    )
    laid = layout("base", "panel", "strip")
    kit = make_kit(planned, sheet(id="base"), layouts=[laid], trimmer={"zero": zero})
    assert errors(kit) == []
    (panel,) = (piece for piece in resolved(kit).sheets[0].kept if piece.name == "panel")
    ends = {
        "left": panel.part.x == 0,
        "right": panel.part.right == 12,
        "top": panel.part.y == 0,
        "bottom": panel.part.bottom == 12,
    }
    assert ends[edge]


def test_the_same_kit_is_planned_the_same_way() -> None:
    def kit() -> Kit:
        return kit_of("panel", "strip", "tag", "tag", sizes=SIZES)

    assert plan_kit(kit()).kit.sheets[0].cuts == plan_kit(kit()).kit.sheets[0].cuts


def test_a_piece_that_nothing_takes_is_cut_and_said_to_be_left_over() -> None:
    assert ids(errors(kit_of("panel", sizes={"panel": "7 x 8", "tag": "2 x 4"}))) == ["piece-left-over"]


def test_sheets_cut_together_share_their_pieces_out() -> None:
    kit = kit_of(*["tag"] * 6, sizes={"tag": "2 x 4"}, count=2)
    assert errors(kit) == []
    assert [len(resolved(kit).kit.sheets[0].cuts or ()), len(resolved(kit).sheets[0].kept)] == [2, 6]


def test_a_printed_paper_keeps_its_direction() -> None:
    kit = kit_of("wide", sizes={"wide": "9 x 2"}, paper="shingle")
    (piece,) = resolved(kit).sheets[0].kept
    assert (piece.part.size, piece.is_turned) == (Size(Fraction(9), Fraction(2)), False)


def test_a_plain_piece_may_be_cut_turned_and_still_stands_as_stated() -> None:
    """Six pieces of 4 x 6 fill the sheet only in rows of one way round."""
    sizes = {"wide": "6 x 4", "tall": "4 x 6"}
    kit = kit_of(*["wide"] * 3, *["tall"] * 3, sizes=sizes)
    assert errors(kit) == []
    cut = resolved(kit).sheets[0]
    assert Counter((piece.name, piece.size) for piece in cut.kept) == {
        ("wide", Size(Fraction(6), Fraction(4))): 3,
        ("tall", Size(Fraction(4), Fraction(6))): 3,
    }
    assert any(piece.is_turned for piece in cut.kept)
    # Which way round it cuts them is not worth a note.
    assert cut.findings == ()
    by_name = {item.name: item.rect.size for item in resolved(kit).layouts[0].items}
    assert by_name["wide"] == by_name["tall"].turned == Size(Fraction(6), Fraction(4))


@pytest.mark.parametrize("face", ["front", "back"])
@pytest.mark.parametrize("left", ["left", "top", "right", "bottom"])
@pytest.mark.parametrize("edge", list(Edge))
def test_a_wish_for_an_edge_is_kept_however_the_sheet_lies(face: str, left: str, edge: Edge) -> None:
    kit = kit_of(
        *("panel", "strip", "tag"),
        sizes=SIZES,
        paper="shingle",
        lay={"face": face, "left": left},
        wishes={"edge": {"strip": edge.value}},
    )
    assert errors(kit) == []
    (strip,) = [piece.part for piece in resolved(kit).sheets[0].kept if piece.name == "strip"]
    assert strip.size == Size(Fraction(5), Fraction(3))
    gaps = {
        Edge.LEFT: strip.x,
        Edge.TOP: strip.y,
        Edge.RIGHT: 12 - strip.right,
        Edge.BOTTOM: 12 - strip.bottom,
    }
    assert gaps[edge] == 0


def test_an_edge_may_be_wished_by_the_paper_s_own_word() -> None:
    kit = kit_of(
        "panel", "strip", sizes=SIZES, spare=["tag"], paper="shingle", wishes={"edge": {"strip": "selvedge"}}
    )
    (strip,) = [piece.part for piece in resolved(kit).sheets[0].kept if piece.name == "strip"]
    assert strip.bottom == 12


def test_two_wished_side_by_side_come_out_of_one_strip() -> None:
    sizes = {"panel": "7 x 5", "other": "4 x 5", "strip": "5 x 3"}
    kit = kit_of(*sizes, sizes=sizes, wishes={"beside": [["panel", "other"]]})
    assert errors(kit) == []
    cuts = resolved(kit).kit.sheets[0].cut_steps
    (together,) = [cut.leaves for cut in cuts if ("panel",) in cut.leaves]
    assert abs(together.index(("panel",)) - together.index(("other",))) == 1


def test_a_sheet_with_written_cuts_is_left_as_it_is() -> None:
    kit = make_kit(sheet({"at": [4], "leaves": ["a", "b"]}), plan_sheet(sizes=SIZES) | {"id": "other"})
    planned = plan_kit(kit)
    assert planned.kit.sheets[0] == kit.sheets[0]
    assert planned.kit.sheets[1].cuts


@dataclass(frozen=True)
class Case:
    """A kit that cannot be planned, and where that is said; and what the cure must name."""

    id: str
    where: tuple[str | int, ...]
    faulty: Kit
    cure: str


AT_CUTS = ("sheets", 0, "cuts")
CASES = [
    Case(
        "plan-impossible",
        AT_CUTS,
        kit_of(
            elements=[
                element("sun", 0, 0, "8 x 4"),
                element("sea", 8, 0, "4 x 8"),
                element("sky", 4, 8, "8 x 4"),
                element("sand", 0, 4, "4 x 8"),
            ]
        ),
        "a straight line runs between them",
    ),
    Case("plan-nothing-wanted", AT_CUTS, kit_of(), "under sizes"),
    Case(
        "plan-uneven",
        ("sheets", 0, "sizes", "tag"),
        kit_of(*["tag"] * 3, sizes={"tag": "2 x 4"}, count=2),
        "a multiple of 2",
    ),
    Case("plan-whole-sheet", AT_CUTS, kit_of("all", sizes={"all": "12 x 12"}), 'the sheet\'s id, "sheet"'),
    Case(
        "plan-too-many-cuts",
        AT_CUTS,
        kit_of(*["sliver"] * 62, sizes={"sliver": "1/8 x 12"}, paper="shingle"),
        "at most 60 steps",
    ),
    Case("plan-impossible", AT_CUTS, kit_of("big", sizes={"big": "13 x 4"}), "make big at most 12 x 12"),
    Case(
        "plan-impossible",
        AT_CUTS,
        kit_of(*["half"] * 3, sizes={"half": "7 x 6"}),
        "leave out one half",
    ),
    Case(
        "wish-for-nothing",
        ("sheets", 0, "wishes", "edge", "pannel"),
        kit_of("panel", sizes={"panel": "7 x 8"}, wishes={"edge": {"pannel": "left"}}),
        'did you mean "panel"?',
    ),
    Case(
        "wish-for-nothing",
        ("sheets", 0, "wishes", "beside", 0),
        kit_of("panel", sizes={"panel": "7 x 8"}, wishes={"beside": [["panel", "moon"]]}),
        "of this sheet's sizes",
    ),
    Case(
        "wish-not-for-two",
        ("sheets", 0, "wishes", "beside", 0),
        kit_of("panel", "tag", "tag", sizes=SIZES, spare=["strip"], wishes={"beside": [["panel", "tag"]]}),
        "cut once each",
    ),
    Case(
        "wish-not-for-two",
        ("sheets", 0, "wishes", "beside", 0),
        kit_of("panel", sizes={"panel": "7 x 8"}, wishes={"beside": [["panel", "panel"]]}),
        "each in one pair only",
    ),
    Case("name-reserved", ("sheets", 0, "sizes", "scrap"), kit_of(sizes={"scrap": "2 x 2"}), "of its own"),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.id}: {case.cure}")
def test_what_cannot_be_planned_is_said_where_it_stands(case: Case) -> None:
    (finding, *_) = said(case.faulty)
    assert (finding.id, finding.where, finding.severity) == (case.id, case.where, Severity.ERROR)
    assert case.cure in finding.cure
    value_at(case.faulty, finding.where[:-1])
    assert finding in errors(case.faulty)
    assert resolved(case.faulty).sheets[0].sheet.cuts is None


def test_one_cause_is_reported_once() -> None:
    """Whoever uses the pieces, whatever is laid on them or said of them: the sheet's plan is at fault."""
    kit = make_kit(
        plan_sheet(sizes={"half": "7 x 12", "other": "6 x 12"}, spare=["half"], pockets={"other": 1}),
        sheet(id="base"),
        layouts=[
            layout("base", "half", "other"),
            {"id": "spread", "pocket": 2, "base": "half", "steps": [{"photo": "4 x 6", "on": "half"}]},
        ],
    )
    (finding,) = kit_findings(resolved(kit))
    assert finding.id == "plan-impossible"


def test_sound_wishes_and_counts_are_not_complained_of() -> None:
    kit = kit_of(
        "panel", "strip", "tag", sizes=SIZES, wishes={"beside": [["panel", "tag"]], "edge": {"tag": "top"}}
    )
    assert ids(said(kit)) in ([], ["plan-impossible"])
    kit = kit_of(*["tag"] * 4, sizes={"tag": "2 x 4"}, count=2)
    assert said(kit) == ()


def test_no_finding_of_the_planner_goes_untested() -> None:
    folder = Path(str(booklet.cutting.planner.__file__)).parent
    tested = {case.id for case in CASES} - {"name-reserved"}
    elsewhere = {"plan-not-found", "plan-together-count", "plan-together-names"}
    assert finding_ids(folder) == tested | elsewhere


# That these do not go on one sheet is a long proof.
HARD = ["4 1/2 x 1 1/2", "5 1/2 x 3 1/2", "5 1/2 x 4 1/2", "3 1/2 x 3", "2 1/2 x 4", "3 x 2 1/2"]
HARD += ["4 1/2 x 5", "2 1/2 x 2 1/2", "2 x 4 1/2", "5 1/2 x 2", "3 x 3 1/2"]


@pytest.mark.parametrize(
    ("effort", "found"), [(1, "for any of the pieces"), (700_000, 'leaves out "piece 7"')]
)
def test_what_was_not_found_within_the_effort_is_said(
    effort: int, found: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    tire(monkeypatch, effort)
    sizes = {f"piece {number}": size for number, size in enumerate(HARD)}
    (finding,) = said(kit_of(*sizes, sizes=sizes))
    assert finding.id == "plan-not-found"
    assert finding.found.endswith(found)


@pytest.mark.parametrize("paper", ["plain", "shingle"])
def test_forty_sizes_on_one_sheet_are_planned_and_pass_every_check(paper: str) -> None:
    sizes = {
        f"piece {number}": f"{width}/8 x {height}/8"
        for number, (width, height) in enumerate(cut_apart(40, 4, seed=2))
    }
    kit = kit_of(*sizes, sizes=sizes, paper=paper)
    assert errors(kit) == []
    assert sorted(piece.name for piece in resolved(kit).sheets[0].kept) == sorted(sizes)


def test_a_kit_that_plans_nothing_does_not_load_the_planner() -> None:
    script = (
        "import sys; from booklet.kit.bundled import find_spec; from booklet.kit.load import load_kit;"
        "from booklet.placing.resolved import resolve_kit; resolve_kit(load_kit(find_spec('hill-line')));"
        "print([name for name in sys.modules if 'planner' in name])"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_a_planned_sheet_is_numbered_among_those_that_are_cut() -> None:
    kit = make_kit(sheet(id="base"), plan_sheet(sizes=SIZES), layouts=[layout("base", *SIZES)])
    assert [cut.number for cut in cut_kit(kit)] == [2, 1]
    assert [cut.number for cut in resolved(kit).sheets] == [2, 1]


def test_each_sheet_is_told_of_before_it_is_planned() -> None:
    kit = make_kit(
        {**plan_sheet(sizes={"a": "6 x 6"}, spare=["a"]), "id": "first"},
        sheet(id="written"),
        {**plan_sheet(sizes={"b": "6 x 6"}, spare=["b"]), "id": "second"},
    )
    told: list[tuple[str, int, int]] = []
    plan_kit(kit, lambda *what: told.append(what))
    assert told == [("first", 1, 2), ("second", 2, 2)]


def test_the_effort_for_a_kit_is_shared_out_among_its_sheets(monkeypatch: pytest.MonkeyPatch) -> None:
    efforts: list[int] = []

    def counted(_: object, __: object, settings: Settings) -> Plan:
        efforts.append(settings.effort)
        return Plan((), total_metrics(()), ("a",))

    monkeypatch.setattr(kit_plan, "plan_cuts", counted)
    hard = plan_sheet(sizes={"a": "6 x 6"}, spare=["a"])
    for number in (1, 2, 10):
        plan_kit(make_kit(*({**hard, "id": f"sheet {at}"} for at in range(number))))
    assert efforts == [SHEET_EFFORT] + [KIT_EFFORT // 2] * 2 + [KIT_EFFORT // 10] * 10


def two_planned(*places: str, **more: Any) -> Kit:
    """Two planned sheets, and a layout that takes the pieces of both."""
    first = {**plan_sheet(sizes=more.get("first", SIZES)), "id": "first"}
    second = {**plan_sheet(sizes=more.get("second", {"wide": "6 x 12"})), "id": "second"}
    kept = [*(places or [*SIZES, "wide"])]
    return make_kit(first, second, sheet(id="base"), layouts=[layout("base", *kept)])


AGAIN = [
    pytest.param(two_planned(), [], id="nothing"),
    pytest.param(two_planned(second={"wide": "5 x 12"}), ["second"], id="a size"),
    pytest.param(two_planned(*SIZES, "wide", "tag"), ["first"], id="one more of a piece"),
    pytest.param(two_planned(second={"wide": "13 x 12"}), ["second"], id="a piece too large"),
]


@pytest.mark.parametrize(("now", "planned"), AGAIN)
def test_only_what_is_asked_anew_is_planned_again(now: Kit, planned: list[str]) -> None:
    fresh, before, asked = resolved(now), resolved(two_planned()), list[str]()
    again = resolved_again(now, before, asked)
    assert asked == planned
    assert again.kit == fresh.kit
    assert again.sheets == fresh.sheets
    # And back to what it was.
    assert resolved_again(two_planned(), again).sheets == before.sheets


def resolved_again(kit: Kit, before: ResolvedKit, asked: list[str] | None = None) -> ResolvedKit:
    """A kit resolved with what is as before; the sheets that are planned for it are noted."""
    noted = [] if asked is None else asked
    loaded = LoadedKit(kit, Source("kit.yaml", None, ()), Path())
    return resolve_kit(loaded, before, lambda sheet, *_: noted.append(sheet))


def test_a_refusal_for_another_reason_is_told_alone() -> None:
    too_large = kit_of("big", sizes={"big": "13 x 4"})
    many = kit_of(*["big"] * 4, sizes={"big": "12 x 4"})
    more = kit_of(*["big"] * 5, sizes={"big": "12 x 4"})
    for one, other in ((too_large, many), (many, more), (more, too_large), (more, many)):
        again = resolved_again(other, resolved(one))
        assert [cut.findings for cut in again.sheets] == [cut.findings for cut in resolved(other).sheets]


def test_cuts_written_as_they_were_planned_are_checked_as_written_ones() -> None:
    planned = resolved(kit_of("strip", sizes={"strip": "3 x 5"}))
    assert resolved_again(planned.kit, planned).sheets == resolved(planned.kit).sheets
