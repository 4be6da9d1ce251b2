"""What a spec says in short is the same as what it says at length, and a mistake in it has its own line."""

from __future__ import annotations

import pytest

from booklet.kit.errors import problem_text
from booklet.kit.fields import Face, Turn
from booklet.kit.kit import Kit
from booklet.kit.source import describe
from booklet.kit.steps import Step
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


# Stacks.

MATS = """
title: Low Tide
publisher: Harbour Paper
sheet: 12 x 12
papers: {sand: {front: {colours: ["#efe3cf"]}}}
sheets: [{id: sand, paper: sand}]
ready:
  - {name: cream mat, size: 4 1/4 x 6 1/4, paper: sand, count: 2}
  - {name: brass mat, size: 4 1/2 x 6 1/2, paper: sand, count: 2}
layouts:
  - id: ebb
    pocket: 1
    base: sand
    steps:
"""
BOTH = """
      - {place: brass mat, left: 1, top: 4}
      - {place: cream mat, on: brass mat}
"""


def steps_of(steps: str) -> tuple[Step, ...]:
    return parsed(MATS + steps).kit.layouts[0].steps


@pytest.mark.parametrize(
    ("short", "long"),
    [
        pytest.param(
            "[brass mat, cream mat, photo: 4 x 6], left: 1, top: 1/2, say: A stack., uses: {dots: 4}",
            """
            - {place: brass mat, left: 1, top: 1/2, say: A stack., uses: {dots: 4}}
            - {place: cream mat, on: brass mat}
            - {photo: 4 x 6, on: cream mat}
            """,
            id="the lowest lies where the stack does",
        ),
        pytest.param(
            "[brass mat, cream mat, write: 3 x 2], turn: clockwise, tilt: 3, optional: yes, right: 1, top: 1",
            """
            - {place: brass mat, turn: clockwise, tilt: 3, optional: yes, right: 1, top: 1}
            - {place: cream mat, turn: clockwise, tilt: 3, optional: yes, on: brass mat}
            - {write: 3 x 2, tilt: 3, optional: yes, on: cream mat}
            """,
            id="turn of the pieces, tilt and choice of all",
        ),
        pytest.param(
            "[{place: brass mat, face: back}, {place: cream mat, turn: half, tilt: 2, border: 1/8}, "
            "photo: fits], called: best, tilt: 5, left: 1, top: 1",
            """
            - {place: brass mat, face: back, called: best, tilt: 5, left: 1, top: 1}
            - {place: cream mat, turn: half, tilt: 2, border: 1/8, on: best}
            - {photo: fits, tilt: 5, on: cream mat}
            """,
            id="what a thing says itself",
        ),
        pytest.param(
            "[{place: brass mat, called: lower}, cream mat], under: tag, tucked: [card], left: 1, top: 1",
            """
            - {place: brass mat, called: lower, under: tag, tucked: [card], left: 1, top: 1}
            - {place: cream mat, on: lower}
            """,
            id="the lowest goes beneath what the stack does",
        ),
    ],
)
def test_a_stack_stands_for_its_steps(short: str, long: str) -> None:
    assert steps_of(f"      - {{stack: {short}}}") == steps_of(long)


def test_a_stack_of_mats_that_lie_there_already_is_built_on_its_own_mat() -> None:
    stack = "      - {stack: [brass mat, cream mat, {photo: 4 x 6}], right: 1, top: 1}"
    resolved = resolve_kit(parsed(MATS + BOTH + stack))
    (layout,) = resolved.layouts
    assert kit_findings(resolved) == ()
    third, fourth, photo = (layout.of_step(number)[0] for number in (3, 4, 5))
    assert (fourth.rect.centre, photo.rect.centre) == (third.rect.centre, third.rect.centre)
    assert fourth.piece == "cream mat"


def test_what_is_wrong_in_a_stack_is_told_at_its_line_and_its_key() -> None:
    stack = "      - stack: [cream mat, brass mat, photo: 9 x 9]\n        left: 1\n        tilt: 2\n"
    after = "      - {place: nothing, left: 0, top: 0}\n"
    loaded = parsed(MATS + stack + after)
    found = kit_findings(resolve_kit(loaded))
    told = {one.id: describe(one, loaded.source) for one in found}
    words = {one.id: loaded.source.words(one.where) for one in found}
    assert told["position-open"].startswith("harbour.yaml:15: error")
    assert words["piece-not-made"] == "layouts › ebb › steps › 2 › place"
    assert told["piece-not-made"].startswith("harbour.yaml:18: error")


def test_a_mistake_in_one_thing_of_a_stack_is_told_where_it_is_typed() -> None:
    stack = "      - stack:\n          - brass mat\n          - {place: cream mat, border: 1/2}\n"
    rest = "        left: 1\n        top: 1\n"
    loaded = parsed(MATS + stack + rest)
    (wrong,) = [one for one in kit_findings(resolve_kit(loaded)) if one.id == "border-differs"]
    assert loaded.source.words(wrong.where) == "layouts › ebb › steps › 1 › stack › 2 › border"
    assert loaded.source.line(wrong.where) == 17


@pytest.mark.parametrize(
    ("stack", "message"),
    [
        (
            "{stack: [{place: brass mat, left: 2}, cream mat], left: 1, top: 1}",
            "steps › 1 › stack › 1 › left: found left, which the stack says as well, expected it said once",
        ),
        (
            "{stack: [brass mat, {place: cream mat, on: brass mat}], left: 1, top: 1}",
            "steps › 1 › stack › 2 › on: found on, expected nothing of the kind, "
            "since it lies on the one before it",
        ),
        (
            "{stack: [brass mat], left: 1, top: 1}",
            "steps › 1 › stack: found a list, expected a list of at least 2",
        ),
        (
            "{stack: [brass mat, {row: [cream mat]}], left: 1, top: 1}",
            "steps › 1 › stack › 2: found the keys row, "
            "expected a step with exactly one of: place, photo, write",
        ),
        (
            "{stack: [brass mat, {place: cream mat, lift: 2}], left: 1, top: 1}",
            'steps › 1 › stack › 2: found the unknown key "lift", expected a known key (nearest: left)',
        ),
    ],
)
def test_a_stack_that_cannot_be_written_out_is_refused(stack: str, message: str) -> None:
    assert told(f"{MATS}      - {stack}\n") == [f"harbour.yaml:15: layouts › ebb › {message}"]


def test_a_layout_holds_its_steps_with_those_of_its_stacks() -> None:
    stack = "      - {stack: [brass mat, cream mat, write: 1 x 1, write: 1 x 1], left: 1, top: 1}\n"
    assert len(steps_of(stack * 50)) == 200
    (said,) = told(MATS + stack * 51)
    assert said.endswith("a run or a stack counted, not 204")
