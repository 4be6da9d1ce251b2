"""What a spec says in short is the same as what it says at length, and a mistake in it has its own line."""

from __future__ import annotations

import pytest

from booklet.kit.errors import problem_text
from booklet.kit.fields import Face, Turn
from booklet.kit.kit import Kit
from booklet.kit.source import describe
from booklet.placing.resolved import resolve_kit
from booklet.proof.findings import kit_findings
from tests.kit.samples import parsed, problems

HEAD = """
title: Low Tide
publisher: Harbour Paper
sheet: 12 x 12
papers: {sand: {front: {colours: ["#efe3cf"]}}, sea: {front: {colours: ["#17405c"]}}}
sheets:
  - {id: sea, paper: sea, cuts: [{at: [6], leaves: [left half, right half]}]}
layouts:
"""
SAND = (
    HEAD
    + """
  - {id: ebb, pocket: 1, base: {paper: sand}, steps: [{place: left half, left: 0, top: 0}]}
  - {id: flood, pocket: 2, base: {paper: sand, face: back}, steps: [{place: right half, left: 0, top: 0}]}
"""
)


def sheets_of(kit: Kit) -> list[tuple[str, str, int]]:
    return [(sheet.id, sheet.paper, sheet.count) for sheet in kit.sheets]


def told(text: str) -> list[str]:
    return [problem_text(problem) for problem in problems(text)]


# Bases.


def test_a_base_of_a_paper_is_a_sheet_of_its_own_and_layouts_of_one_paper_share_it() -> None:
    kit = parsed(SAND).kit
    assert sheets_of(kit) == [("sea", "sea", 1), ("sand", "sand", 2)]
    assert [(layout.base.name, layout.base.face) for layout in kit.layouts] == [
        ("sand", Face.FRONT),
        ("sand", Face.BACK),
    ]


def test_a_kit_whose_bases_are_papers_balances() -> None:
    assert kit_findings(resolve_kit(parsed(SAND))) == ()


def test_a_base_of_a_paper_of_which_a_sheet_is_cut_is_told_apart_from_that_sheet() -> None:
    kit = parsed(SAND.replace("{paper: sand}", "{paper: sea, turn: clockwise}")).kit
    assert sheets_of(kit) == [("sea", "sea", 1), ("whole sea", "sea", 1), ("sand", "sand", 1)]
    assert (kit.layouts[0].base.name, kit.layouts[0].base.turn) == ("whole sea", Turn.CLOCKWISE)


def test_a_name_that_a_piece_has_is_not_given_to_a_base() -> None:
    text = SAND.replace("left half", "sand")
    kit = parsed(text).kit
    assert kit.layouts[1].base.name == "whole sand"
    assert kit_findings(resolve_kit(parsed(text))) == ()


def test_more_bases_of_one_paper_than_a_sheet_counts_are_more_sheets() -> None:
    pages = "".join(f"  - {{id: page {n}, pocket: 1, base: {{paper: sand}}}}\n" for n in range(13))
    kit = parsed(HEAD.replace("cuts: [{at: [6], leaves: [left half, right half]}]", "spare: sea") + pages).kit
    assert sheets_of(kit)[1:] == [("sand", "sand", 12), ("whole sand", "sand", 1)]
    assert kit.layouts[12].base.name == "whole sand"


def test_more_sheets_with_those_of_the_bases_than_a_box_holds_are_refused() -> None:
    many = "".join(f"  - {{id: sheet {n}, paper: sea}}\n" for n in range(98))
    assert told(SAND.replace("layouts:", f"{many}layouts:")) == [
        "harbour.yaml:6: sheets: found 100 sheets, with those of the bases, expected at most 99"
    ]
    fits = many.replace("  - {id: sheet 0, paper: sea}\n", "")
    assert told(SAND.replace("layouts:", f"{fits}layouts:")) == []


def test_a_paper_that_the_kit_lacks_is_reported_at_the_base() -> None:
    assert told(SAND.replace("{paper: sand}", "{paper: sandy}")) == [
        "harbour.yaml:10: layouts › ebb › base › paper: found sandy, expected a paper of this kit: "
        "sand or sea (nearest: sand)"
    ]


@pytest.mark.parametrize("base", ["{face: back}", "{piece: sea, paper: sand}"])
def test_a_base_is_a_piece_or_a_paper(base: str) -> None:
    (problem,) = problems(SAND.replace("{paper: sand}", base))
    assert (problem.key, problem.expected) == ("layouts › ebb › base", "one of piece and paper")


def test_a_stated_pile_names_the_sheet_of_a_base_by_its_paper() -> None:
    pile = "pile: [sand, sea]\n"
    assert kit_findings(resolve_kit(parsed(SAND + pile))) == ()
    loaded = parsed(SAND + pile.replace("sand, ", ""))
    said = [describe(finding, loaded.source) for finding in kit_findings(resolve_kit(loaded))]
    assert said == [
        'harbour.yaml:12: error pile-misses: the pile leaves out "sand". Name every sheet',
    ]
