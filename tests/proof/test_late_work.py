"""Punches that come too late: what is glued down flat is out of their reach, what is in the hand is not."""

from __future__ import annotations

import pytest

from booklet.proof.findings import kit_findings
from tests.drawing.looks import resolved_kit
from tests.kits import ids, make_kit, ready, sheet
from tests.placing.layouts import steps_of

FOAM = {"id": "foam", "kind": "foam", "count": 9}
ROUND = "{round: mat, radius: 1/4}"
HOLE = "{punch: mat, hole: 1/8, left: 1/4, top: 1/4}"
LOOSE = "{place: panel, loose: yes}"
BLOCK = "{group: [panel], left: 2, top: 2}"


def found(steps: str) -> list[str]:
    """What is said of a page on which a mat, a panel and a tag are laid in these steps, typed in YAML."""
    names = {"mat": "4 x 6", "panel": "6 x 8", "tag": "1 x 2"}
    layouts = [{"id": "ebb", "pocket": 1, "base": "base", "steps": steps_of(f"[{steps}]")}]
    pieces = [ready(name, size=size) for name, size in names.items() if name in steps]
    kit = make_kit(sheet(id="base"), layouts=layouts, ready=pieces, supplies=[FOAM])
    return ids(kit_findings(resolved_kit(kit)))


@pytest.mark.parametrize("work", [ROUND, HOLE, "{punch: mat, corners: all}"])
class TestPunches:
    def test_before_it_is_laid(self, work: str) -> None:
        assert found(f"{work}, {{place: mat, left: 1, top: 1}}") == []

    def test_right_after_which_is_told_before(self, work: str) -> None:
        """The booklet tells of it in the step that lays the mat, and first."""
        assert found(f"{{place: mat, left: 1, top: 1}}, {work}") == []
        assert found(f"{{place: mat, left: 1, top: 1}}, {{place: tag, right: 1, top: 1}}, {work}") == []

    def test_after_the_block_is_laid(self, work: str) -> None:
        on_block = "{place: mat, on: panel}"
        assert found(f"{LOOSE}, {work}, {on_block}, {BLOCK}") == []
        assert found(f"{LOOSE}, {on_block}, {BLOCK}, {work}") == ["work-too-late"]

    def test_what_is_loose_is_in_the_hand(self, work: str) -> None:
        loose, block = "{place: mat, loose: yes}", "{group: [mat], left: 2, top: 2}"
        assert found(f"{loose}, {work}, {block}") == []
        assert found(f"{loose}, {block}, {work}") == ["work-too-late"]

    def test_what_stands_on_foam_or_over_the_edge_can_be_reached(self, work: str) -> None:
        block = f"{LOOSE}, {{place: mat, on: panel}}, {BLOCK}"
        assert found(f"{block}, {{raise: mat, foam: foam}}, {work}") == []
        over = "{place: mat, loose: yes, overhang: yes}, {group: [mat], left: -1, top: 2, overhang: yes}"
        assert found(f"{over}, {work}") == []


def test_one_of_a_row_that_is_glued_as_a_whole() -> None:
    row = "{row: [mat, tag], called: line, apart: 1, left: 1, top: 1}"
    assert found(f"{row}, {ROUND}") == ["work-too-late"]
    assert found(f"{ROUND}, {row}") == []


def test_ink_can_be_wiped_on_what_lies_on_the_page() -> None:
    loose, block = "{place: mat, loose: yes}", "{group: [mat], left: 2, top: 2}"
    assert found(f"{loose}, {block}, {{ink: mat}}") == []
