"""`booklet plan --review`: what is better, and what the saved paper is worth."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.cli import main

HEAD = """\
title: Two
publisher: P
sheet: 12 x 12
papers: {sand: {front: {colours: ["#f1e7d6"]}}, fern: {front: {pattern: leaves}}}
layouts: [{id: w, pocket: 1, base: base, steps: [{row: [PIECES], apart: 0, left: 0, top: 0}]}]
sheets:
  - {id: base, paper: fern}
"""


def reviewed(
    folder: Path, capsys: pytest.CaptureFixture[str], pieces: str, sheets: str, *more: str
) -> list[str]:
    file = folder / "two.yaml"
    file.write_text(HEAD.replace("PIECES", pieces) + sheets, encoding="utf-8")
    assert main(["plan", "--review", str(file), *more]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    return out.splitlines()


WASTEFUL = """\
  - {id: one, paper: sand, cuts: [{at: [6], leaves: [a, scrap]}]}
  - {id: two, paper: sand, cuts: [{at: [5], leaves: [b, scrap]}]}
"""


def test_a_sheet_that_need_not_be_is_found_and_priced(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lines = reviewed(tmp_path, capsys, "a, b", WASTEFUL, "--price", "0.35")
    assert lines == [
        "sheet  cuts  settings  turns  scrap   largest scrap",
        "one    1     1         0      50.0 %  6 x 12",
        "two    1     1         0      58.3 %  7 x 12",
        "",
        "sand: 2 sheets -> 1, cut so:",
        "  # one",
        "    - at: [11, 6]",
        "      leaves: [a, b, scrap]",
        "Saved: 1 sheet in each kit, 1,000 in a thousand kits, worth 350.00.",
    ]


def test_without_a_price_sheets_are_counted(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lines = reviewed(tmp_path, capsys, "a, b", WASTEFUL)
    assert lines[-2] == "Saved: 1 sheet in each kit, 1,000 in a thousand kits."
    assert "--price" in lines[-1]


def test_that_no_fewer_sheets_can_do_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    sheets = """\
  - {id: one, paper: sand, cuts: [{at: [8], leaves: [a, scrap]}]}
  - {id: two, paper: sand, cuts: [{at: [7], leaves: [b, scrap]}]}
"""
    lines = reviewed(tmp_path, capsys, "a, b", sheets)
    assert lines[-2:] == ["sand: 2 sheets, and no fewer can do", "Saved: no sheets."]


def test_fewer_cuts_settings_and_turns_are_set_beside_the_written_ones(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Four quarters cut one by one: two halves on each other need a single second cut."""
    sheets = """\
  - id: one
    paper: sand
    cuts:
      - {at: [6], leaves: [left, right]}
      - {take: left, turn: clockwise, at: [6], leaves: [q, q]}
      - {take: right, turn: anticlockwise, at: [6], leaves: [q, q]}
"""
    lines = reviewed(tmp_path, capsys, "q, q, q, q", sheets)
    assert lines[1] == "one    3 -> 2  1         2 -> 1  0.0 %  none"


def test_printed_borders_are_kept_and_pictures_stay(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", "--review", "hill-line"]) == 0
    out = capsys.readouterr().out
    assert "\nstation " in out
    assert "hills: stays; it is printed with a picture, so that each piece has its place\n" in out
    assert "nameboards: stays; it is cut between its printed elements\n" in out


@pytest.mark.parametrize("typed", ["x", "0", "-1", "nan", "inf", "1e9"])
def test_a_price_is_a_number_above_nothing(typed: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        main(["plan", "--review", "hill-line", f"--price={typed}"])
    assert stopped.value.code == 2
    assert f"{typed} is no price such as 0.35" in capsys.readouterr().err


def test_a_price_without_a_review_is_a_mistake(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", "hill-line", "--price", "1"]) == 2
    assert "--price belongs to --review" in capsys.readouterr().err


def test_a_name_on_two_sheets_is_no_fault_of_the_program(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "two.yaml"
    file.write_text(HEAD.replace("PIECES", "a, a") + WASTEFUL.replace("[b,", "[a,"), encoding="utf-8")
    main(["plan", "--review", str(file)])
    out, err = capsys.readouterr()
    assert "fault" not in out + err
    assert "one    1     1" in out
    assert "2 sheets -> 1" not in out  # nothing is shared out while the name may mean either
