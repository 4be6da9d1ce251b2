"""`booklet check --sheets`: sheets, cuts and sums alone, before any layout exists."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from booklet.cli import main

FERN = """\
title: By the window
publisher: A small press
sheet: 12 x 12
papers: {fern: {front: {pattern: leaves}}, sand: {front: {colours: ["#f1e7d6"]}}}
sheets:
  - id: fern
    paper: fern
    count: 2
    cuts:
      - {at: [9, 2 1/2], leaves: [edge strip, middle, wide strip]}
      - {take: [middle, middle], turn: clockwise, at: 8, leaves: [panel, scrap]}
    spare: edge strip
  - {id: sand, paper: sand}
"""


def spec(folder: Path, text: str = FERN) -> str:
    file = folder / "kit.yaml"
    file.write_text(text, encoding="utf-8")
    return str(file)


def test_a_kit_without_layouts_shows_what_its_cuts_give_and_how_they_add_up(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", "--sheets", spec(tmp_path)]) == 0
    assert capsys.readouterr().out.splitlines() == [
        "1 fern, 2 sheets of 12 x 12: 3 cuts, 3 settings, 1 turn; scrap 18.1 %, the largest piece 6 1/2 x 4",
        "  2 1/2 + 6 1/2 + 3 = 12: edge strip, middle, wide strip",
        "  8 + 4 = 12: panel, scrap",
        "  1A: edge strip, 2 1/2 x 12",
        "  1B: edge strip, 2 1/2 x 12, spare",
        "  1E, 1F: wide strip, 3 x 12",
        "  1G, 1H: panel, 6 1/2 x 8",
        "2 sand, 12 x 12: whole",
        "nothing wrong",
    ]


def test_a_program_gets_the_same(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--sheets", "--json", spec(tmp_path)]) == 0
    told = json.loads(capsys.readouterr().out)
    assert (told["errors"], told["findings"]) == (0, [])
    fern, sand = told["sheets"]
    assert (fern["number"], fern["id"], fern["count"], fern["size"]) == (1, "fern", 2, "12 x 12")
    assert fern["sums"] == [
        {"strips": ["2 1/2", "6 1/2", "3"], "whole": "12"},
        {"strips": ["8", "4"], "whole": "12"},
    ]
    assert {"label": "1G", "name": "panel", "size": "6 1/2 x 8"} in fern["pieces"]
    assert (sand["sums"], [piece["name"] for piece in sand["pieces"]]) == ([], ["sand"])


@pytest.mark.parametrize(
    ("old", "new", "line", "says"),
    [
        ("at: [9, 2 1/2]", "at: [13, 2 1/2]", 10, "cut-beyond-piece"),
        ("spare: edge strip", "sizes: {panel: 6 1/2 x 7}", 12, "size-differs"),
        ("id: sand,", "id: panel,", 13, "name-on-two"),
    ],
)
def test_what_is_wrong_with_the_cuts_is_found(
    old: str, new: str, line: int, says: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", "--sheets", spec(tmp_path, FERN.replace(old, new))]) == 1
    found = [one for one in capsys.readouterr().out.splitlines() if "error" in one]
    assert len(found) == 2
    assert found[0].startswith(f"kit.yaml:{line}: error {says}: ")


def test_cuts_are_planned_for_one_of_each_piece(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    start, end = FERN.index("    count: 2"), FERN.index("  - {id: sand")
    text = FERN[:start] + "    cuts: plan\n    sizes: {panel: 6 1/2 x 8}\n" + FERN[end:]
    assert main(["check", "--sheets", spec(tmp_path, text)]) == 0
    assert "  1B: panel, 6 1/2 x 8" in capsys.readouterr().out.splitlines()


def test_what_the_layouts_lack_is_not_asked(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--sheets", "hill-line"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[-1] == "nothing wrong"
    assert not any("photo" in line for line in lines)


@pytest.mark.parametrize("command", ["check", "make"])
def test_a_kit_that_is_made_must_have_layouts(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main([command, spec(tmp_path)]) == 1
    out, err = capsys.readouterr()
    told = (out + err).splitlines()
    assert told[0] == (
        "kit.yaml:1: error layouts-missing: the kit has no layouts. "
        "Add layouts, or ask for the sheets alone: booklet check --sheets"
    )
    assert told[1] == "1 error"
    assert not (tmp_path / "out").exists()


def test_figures_and_a_draft_can_be_made_before_there_are_layouts(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    kit, out = spec(tmp_path), tmp_path / "out"
    assert main(["draw", kit, "--out", str(out)]) == 1
    assert [path.name for path in sorted((out / "figures").iterdir())] == [
        "kit-print-check.svg",
        "kit-sheet-1-stage-1.svg",
        "kit-sheet-1-stage-2.svg",
    ]
    assert main(["make", kit, "--draft", "--out", str(out)]) == 1
    assert (out / "kit-read.pdf").exists()
    assert main(["rescue", kit, "--spoiled", "1G"]) == 0
    assert "panel" in capsys.readouterr().out


def test_an_empty_list_of_layouts_is_as_good_as_none(tmp_path: Path) -> None:
    assert main(["check", "--sheets", spec(tmp_path, FERN + "layouts: []\n")]) == 0
