"""`booklet check`: what is wrong with a kit, where, and what to do."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from booklet.cli import main
from booklet.cli.starter import STARTER_SPEC
from tests.cli.kits import BREAKS, SPECS, Break, Broken, broken_copy, line_of

SAID_OF_A_FINDING = {
    "id": {"type": "string", "pattern": "^[a-z]+(-[a-z]+)*$"},
    "severity": {"enum": ["error", "warning", "note"]},
    "file": {"type": "string", "minLength": 1},
    "line": {"type": ["integer", "null"], "minimum": 1},
    "key": {"type": "string"},
    "found": {"type": "string", "minLength": 1},
    "cure": {"type": "string"},
    "nearest": {"type": ["string", "null"]},
}
SAID_OF_A_FINDING["also"] = {
    "type": "array",
    "items": {
        "type": "object",
        "properties": {key: SAID_OF_A_FINDING[key] for key in ("line", "key")},
        "required": ["line", "key"],
        "additionalProperties": False,
    },
}
FINDING = {
    "type": "object",
    "properties": SAID_OF_A_FINDING,
    "required": list(SAID_OF_A_FINDING),
    "additionalProperties": False,
}
ANSWER = {
    "type": "object",
    "properties": {
        "errors": {"type": "integer"},
        "warnings": {"type": "integer"},
        "notes": {"type": "integer"},
        "findings": {"type": "array", "items": FINDING},
        "more": {"type": "integer", "minimum": 1},
    },
    "required": ["errors", "warnings", "notes", "findings"],
    "additionalProperties": False,
}


def checked(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    """The exit code of `booklet check` and what it printed on its two streams."""
    code = main(["check", *arguments])
    out, err = capsys.readouterr()
    return code, out, err


def answer(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, dict[str, Any]]:
    """The exit code of `booklet check --json` and its answer, held against its form."""
    code, out, err = checked(capsys, *arguments, "--json")
    assert err == ""
    told: dict[str, Any] = json.loads(out)
    jsonschema.validate(told, ANSWER)
    for severity in ("error", "warning", "note"):
        counted = sum(finding["severity"] == severity for finding in told["findings"])
        more = told.get("more", 0) if severity == "error" else 0
        assert told[f"{severity}s"] == counted + more
    return code, told


def of_break(one: Break) -> str:
    return one.name


@pytest.mark.parametrize("name", sorted(spec.stem for spec in SPECS.glob("*.yaml")))
def test_the_demo_kits_are_sound(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = checked(capsys, name)
    assert (code, err) == (0, "")
    assert out.splitlines()[-1].startswith("nothing wrong")


@pytest.mark.parametrize("one", BREAKS, ids=of_break)
def test_a_broken_kit_is_reported_by_its_line_and_its_cure(
    one: Break, broken: Broken, capsys: pytest.CaptureFixture[str]
) -> None:
    spec = broken(one)
    code, out, err = checked(capsys, str(spec))
    assert (code, err) == (1, "")
    (told,) = [line for line in out.splitlines() if one.says in line]
    assert told.startswith(f"hill-line.yaml:{line_of(spec, one.at or one.new.strip())}: ")
    assert one.cure in told
    errors = int(out.splitlines()[-1].split(" error")[0])
    assert errors == sum(": note " not in line and ": warning " not in line for line in out.splitlines()[:-1])


@pytest.mark.parametrize("one", BREAKS, ids=of_break)
def test_a_broken_kit_is_reported_to_a_program_too(
    one: Break, broken: Broken, capsys: pytest.CaptureFixture[str]
) -> None:
    spec = broken(one)
    code, told = answer(capsys, str(spec))
    assert code == 1
    assert told["errors"] >= 1
    lines = {finding["line"] for finding in told["findings"] if finding["severity"] == "error"}
    assert line_of(spec, one.at or one.new.strip()) in lines
    assert {finding["file"] for finding in told["findings"]} == {"hill-line.yaml"}


def test_a_sound_kit_is_reported_to_a_program(capsys: pytest.CaptureFixture[str]) -> None:
    code, told = answer(capsys, "hill-line")
    assert (code, told["errors"]) == (0, 0)


PHOTOS = """
title: Low Tide
publisher: Harbour Paper
sheet: 12 x 12
papers: {sand: {front: {colours: ["#efe3cf"]}}}
sheets: [{id: sand, paper: sand}]
layouts:
  - id: ebb
    pocket: 1
    base: sand
    steps:
      - {photo: 2 x 2, left: 1, top: 1}
      - {photo: 2 x 2, left: 4, top: 1}
      - {photo: 2 x 2, left: 7, top: 1}
      - {photo: 3 x 3, left: 1, top: 5}
      - {row: [{photo: 3 x 3}, {photo: 3 x 3}], left: 5, top: 5, apart: 1/2}
"""


def test_the_same_of_several_is_told_once_with_its_places(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    spec = tmp_path / "kit.yaml"
    spec.write_text(PHOTOS)
    _, out, _ = checked(capsys, str(spec))
    said = "no usual print is {0} x {0}. It is trimmed from a print of {0} x {1} in. The same in {2}"
    assert out.splitlines() == [
        f"kit.yaml:12: note photo-no-print-size: {said.format(2, 3, 'lines 13 and 14')}",
        f"kit.yaml:15: note photo-no-print-size: {said.format(3, 4, 'line 16')}",
        "nothing wrong, 2 notes",
    ]
    _, told = answer(capsys, str(spec))
    assert [[place["line"] for place in one["also"]] for one in told["findings"]] == [[13, 14], [16]]
    assert told["findings"][0]["also"][1]["key"] == "layouts › ebb › steps › 3"


def test_what_differs_is_told_by_itself(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    spec = tmp_path / "kit.yaml"
    spec.write_text(PHOTOS.replace("{photo: 2 x 2, left: 7", "{photo: 2 x 2 1/2, left: 7"))
    _, told = answer(capsys, str(spec))
    assert [[place["line"] for place in one["also"]] for one in told["findings"]] == [[13], [], [16]]


def test_errors_come_before_warnings_before_notes(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    late = next(one for one in BREAKS if one.name == "a place above something unknown")
    _, told = answer(capsys, str(broken_copy(late, tmp_path)))
    order = [("error", "warning", "note").index(finding["severity"]) for finding in told["findings"]]
    assert order == sorted(order)
    assert len(set(order)) > 1


def test_a_file_full_of_mistakes_does_not_fill_the_terminal(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    spec = tmp_path / "kit.yaml"
    spec.write_text("".join(f"key{number}: 1\n" for number in range(300)))
    code, out, _ = checked(capsys, str(spec))
    assert code == 1
    assert len(out.splitlines()) < 45
    assert out.splitlines()[-2].startswith("and ")


def test_the_file_is_named_as_it_was_typed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    broken_copy(BREAKS[0], tmp_path / "june")
    monkeypatch.chdir(tmp_path)
    _, out, _ = checked(capsys, "june/hill-line.yaml")
    assert out.startswith("june/hill-line.yaml:")
    assert str(tmp_path) not in out


def test_of_thousands_of_mistakes_the_first_hundred_are_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    spec = tmp_path / "kit.yaml"
    first = len(STARTER_SPEC.splitlines()) + 1
    spec.write_text(STARTER_SPEC + "".join(f"key{at}: x\n" for at in range(24_000)), encoding="utf-8")
    code, told = answer(capsys, str(spec))
    assert code == 1
    assert (told["errors"], told["more"]) == (24_000, 23_900)
    assert [finding["line"] for finding in told["findings"]] == list(range(first, first + 100))
    code, out, _ = checked(capsys, str(spec))
    *lines, more, count = out.splitlines()
    assert len(lines) == 40
    assert (more, count) == ("and 23960 more", "24000 errors")
