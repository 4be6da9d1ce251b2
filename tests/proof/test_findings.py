"""Every stage's findings on a kit, gathered in the order of the work."""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations
from pathlib import Path

import pytest

from booklet.kit.finding import Severity
from booklet.kit.kit import Kit
from booklet.kit.load import load_kit
from booklet.placing.resolved import resolve_kit
from booklet.proof.findings import kit_findings
from tests.drawing.looks import resolved_kit
from tests.kits import Data, cut, ids, make_kit, sheet

SPECS = Path(__file__).parents[2] / "kit_specs"

# What is to be wrong, in the order of the work: at the trimmer, in the pockets, in the pile, on a page, in
# the box.
FAULTS = ("reading-off-mark", "piece-left-over", "pile-misses", "overhang", "supply-short")


def kit_with(*faults: str) -> Kit:
    """A sound kit, but for these faults."""
    strips = [cut("4 1/16" if "reading-off-mark" in faults else 4, ["strip", "panel"])]
    steps: list[Data] = [{"place": "strip", "left": 0, "top": 0}]
    if "piece-left-over" not in faults:
        steps.append({"place": "panel", "right": 0, "top": 6 if "overhang" in faults else 0})
    elif "overhang" in faults:
        steps.append({"photo": "4 x 6", "right": 0, "top": 8})
    steps.append({"tape": "washi", "length": 4, "left": 5, "top": 9})
    layouts = [{"id": "ebb", "pocket": 1, "base": "base", "steps": steps}]
    supply = {
        "id": "washi",
        "kind": "tape",
        "width": "1/2",
        "length": "3" if "supply-short" in faults else "30",
    }
    pile = ["base"] if "pile-misses" in faults else ["base", "cut sheet"]
    sheets = [sheet(id="base", paper="plain"), sheet(*strips, id="cut sheet", paper="plain")]
    return make_kit(*sheets, layouts=layouts, supplies=[supply], pile=pile)


def found(*faults: str) -> list[str]:
    return ids(kit_findings(resolved_kit(kit_with(*faults))))


def test_a_sound_kit_has_no_findings() -> None:
    assert found() == []


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_of_one_stage_is_the_only_finding(fault: str) -> None:
    assert found(fault) == [fault]


def test_faults_of_every_stage_stand_in_the_order_of_the_work() -> None:
    assert found(*FAULTS) == list(FAULTS)


def test_no_stage_hides_what_another_finds() -> None:
    for one, other in combinations(FAULTS, 2):
        assert found(one, other) == [one, other]


def test_pages_that_face_each_other_are_looked_at_together() -> None:
    strips = sheet(cut(["4", "2"], ["strip", "strip", "rest"]), id="strips", spare=["rest"])
    layouts = [
        {"id": "ebb", "pocket": 1, "base": "base", "facing": "flood", "steps": [run_at("2")]},
        {"id": "flood", "pocket": 1, "base": "other base", "steps": [run_at("2 1/8")]},
    ]
    kit = make_kit(sheet(id="base"), sheet(id="other base"), strips, layouts=layouts)
    assert ids(kit_findings(resolved_kit(kit))) == ["facing-offset"]


def run_at(top: str) -> Data:
    return {"place": "strip", "turn": "clockwise", "left": 0, "top": top}


@pytest.mark.parametrize(
    "stage",
    [
        lambda resolved: [f for each in resolved.sheets for f in each.findings],
        lambda resolved: resolved.ledger.findings,
        lambda resolved: [f for each in resolved.layouts for f in each.findings],
    ],
)
@pytest.mark.parametrize("name", ["hill-line", "roof-garden"])
def test_what_a_stage_has_to_say_is_among_them(name: str, stage: Callable[..., list[object]]) -> None:
    resolved = resolve_kit(load_kit(SPECS / f"{name}.yaml"))
    assert set(stage(resolved)) <= set(kit_findings(resolved))
    assert all(finding.severity is not Severity.ERROR for finding in kit_findings(resolved))
