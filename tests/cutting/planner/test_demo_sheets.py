"""The demo kits' own sheets, planned anew: never worse than the cuts that were written by hand."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from booklet.cutting.cut import cut_kit
from booklet.cutting.model import CutSheet
from booklet.cutting.planner import Metrics, PlannedStep, measure_steps
from booklet.cutting.planner.kit_plan import plan_sheet
from booklet.cutting.planner.request import cut_pieces, sheet_orientation
from booklet.kit.bundled import find_spec
from booklet.kit.finding import Severity
from booklet.kit.kit import Kit
from booklet.kit.load import LoadedKit, load_kit
from booklet.kit.sheet import CutStep
from booklet.placing.resolved import resolve_kit
from booklet.proof.findings import kit_findings

LOADED = {name: load_kit(find_spec(name)) for name in ("hill-line", "roof-garden")}


def cut_sheets() -> list[tuple[str, int]]:
    """Every sheet of the demos that is cut freely, not between printed elements."""
    return [
        (name, sheet.index)
        for name, loaded in LOADED.items()
        for sheet in cut_kit(loaded.kit)
        if sheet.stages and not sheet.sheet.is_cut_apart
    ]


SHEETS = cut_sheets()


def as_steps(cuts: tuple[CutStep, ...]) -> tuple[PlannedStep, ...]:
    return tuple(
        PlannedStep(cut.take or None, cut.turn, cut.at, tuple(name for (name,) in cut.leaves)) for cut in cuts
    )


def measured(kit: Kit, index: int, cuts: tuple[CutStep, ...]) -> Metrics:
    """What the cuts of one copy cost; no demo sheet takes its copies apart in different ways."""
    return measure_steps(as_steps(cuts), sheet_orientation(kit, index).seen_size(cut_kit(kit)[index].size))


def replanned(kit: Kit, index: int) -> Kit:
    answer = plan_sheet(kit, index, cut_pieces(cut_kit(kit)[index]))
    assert answer.findings == ()
    changed = replace(kit.sheets[index], cuts=answer.cuts)
    return replace(kit, sheets=(*kit.sheets[:index], changed, *kit.sheets[index + 1 :]))


def names(sheet: CutSheet) -> Counter[tuple[str, object]]:
    return Counter((piece.name, piece.size) for piece in (*sheet.kept,))


def test_there_are_sheets_of_both_demos_to_plan() -> None:
    assert Counter(name for name, _ in SHEETS) == {"hill-line": 7, "roof-garden": 3}


@pytest.mark.parametrize(("name", "index"), SHEETS)
def test_a_plan_is_never_worse_than_the_written_cuts(name: str, index: int) -> None:
    kit = LOADED[name].kit
    planned = replanned(kit, index)
    assert names(cut_kit(planned)[index]) == names(cut_kit(kit)[index])
    written = measured(kit, index, kit.sheets[index].cut_steps)
    found = measured(planned, index, planned.sheets[index].cut_steps)
    assert found.sheets <= written.sheets
    assert found.cuts <= written.cuts
    assert found.settings <= written.settings
    assert found.turns <= written.turns
    assert found.scrap_area == written.scrap_area
    assert found.largest_scrap >= written.largest_scrap


@pytest.mark.parametrize("name", LOADED)
def test_the_proof_accepts_the_whole_kit_with_every_sheet_planned(name: str) -> None:
    loaded = LOADED[name]
    kit = loaded.kit
    for index in [index for one, index in SHEETS if one == name]:
        kit = replanned(kit, index)
    findings = kit_findings(resolve_kit(LoadedKit(kit, loaded.source, loaded.images)))
    assert [finding for finding in findings if finding.severity is Severity.ERROR] == []
