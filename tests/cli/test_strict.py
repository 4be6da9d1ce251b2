"""Warnings let a booklet be printed: they are shown again when it is made, or stop a build script."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from booklet.cli import main
from booklet.cli.starter import STARTER_SPEC

# Two pieces run off the page and a photograph is half covered: three warnings, of two kinds, and no error.
CHANGES = {
    "{place: border strip, left: 0, top: 0}": "{place: border strip, left: -1/4, top: 0}",
    "{place: side strip, right: 0, top: 0}": "{place: side strip, right: -1/4, top: 0}",
    "below: panel, gap: 1/4, flush: left": "left: 3, top: 4",
}


@pytest.fixture
def doubtful(tmp_path: Path) -> Path:
    """The starter kit with three things that a person should look at."""
    text = STARTER_SPEC
    for old, new in CHANGES.items():
        assert text.count(old) == 1
        text = text.replace(old, new)
    spec = tmp_path / "kit.yaml"
    spec.write_text(text, encoding="utf-8")
    return spec


def line_of(spec: Path, part: str) -> int:
    return next(n for n, line in enumerate(spec.read_text().splitlines(), start=1) if part in line)


def test_warnings_are_counted_by_kind_at_the_end_of_make(
    doubtful: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["make", str(doubtful), "--out", str(tmp_path / "out")]) == 0
    first, second = (line_of(doubtful, f"{side}: -1/4") for side in ("left", "right"))
    photo = line_of(doubtful, "{photo: 4 x 6")
    assert capsys.readouterr().err.splitlines()[-4:] == [
        "3 warnings",
        "Printed with 3 warnings:",
        f"  2 overhang (line {first}, {second})",
        f"  1 photo-covered (line {photo})",
    ]


def test_a_booklet_without_warnings_says_nothing_of_them(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["make", "roof-garden", "--out", str(tmp_path)]) == 0
    assert "Printed with" not in capsys.readouterr().err


def test_check_lets_warnings_pass_unless_it_is_strict(
    doubtful: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(doubtful)]) == 0
    assert capsys.readouterr().out.endswith("\n3 warnings\n")
    assert main(["check", str(doubtful), "--strict"]) == 1
    assert capsys.readouterr().out.endswith("\n3 errors\n")


def test_a_strict_answer_for_a_program_counts_them_as_errors(
    doubtful: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(doubtful), "--json", "--strict"]) == 1
    told = json.loads(capsys.readouterr().out)
    assert (told["errors"], told["warnings"]) == (3, 0)
    assert {finding["severity"] for finding in told["findings"]} == {"error"}


def test_strict_make_writes_nothing_while_there_are_warnings(
    doubtful: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert main(["make", str(doubtful), "--strict", "--out", str(out)]) == 1
    assert "Nothing was written" in capsys.readouterr().err
    assert not out.exists()


def test_notes_are_no_errors_however_strict(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "roof-garden", "--strict"]) == 0
    assert "note" in capsys.readouterr().out
