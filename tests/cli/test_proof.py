"""`booklet proof`: every number of the finished booklet held against the kit."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest

from booklet.cli import main
from tests.finished.kits import PLAIN


@pytest.fixture
def kit(tmp_path: Path) -> Path:
    file = tmp_path / "plain.yaml"
    file.write_text(PLAIN, encoding="utf-8")
    return file


def test_a_booklet_on_which_all_is_right_says_so_and_lists_every_number(
    kit: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert main(["proof", str(kit), "--out", str(out)]) == 0
    said = capsys.readouterr().out.splitlines()
    assert said[-2] == "nothing wrong"
    with (out / "plain-claims.csv").open(encoding="utf-8", newline="") as table:
        rows = {row["key"]: row for row in csv.DictReader(table)}
    row = rows["sheet-reed / cut 1 / reading / sheets › reed › cuts › 1 › at › 1"]
    assert (row["said"], row["value"], row["unit"], row["place"]) == (
        "10",
        "10",
        "in",
        "sheets › reed › cuts › 1 › at › 1",
    )
    line = kit.read_text(encoding="utf-8").splitlines()[int(row["line"]) - 1]
    assert "at: [10, 6]" in line


def test_a_file_of_an_earlier_edition_is_told_from_the_kit_as_it_is(
    kit: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    made = tmp_path / "made"
    assert main(["make", str(kit), "--out", str(made)]) == 0
    kit.write_text(PLAIN.replace("photo: 3 x 4", "photo: 3 x 3 1/2"), encoding="utf-8")
    capsys.readouterr()
    file = str(made / "plain-read.pdf")
    assert main(["proof", str(kit), "--out", str(tmp_path), "--file", file, "--json"]) == 1
    told = json.loads(capsys.readouterr().out)
    changed = {claim["place"] for claim in told["not printed"]}
    assert "layouts › morning › steps › 4" in changed
    assert any(claim["said"] == "3 × 3¹⁄₂" for claim in told["not printed"])
    assert [each["text"] for each in told["printed, not claimed"]].count("4") == 2


def test_a_file_that_is_no_booklet_of_the_kit_is_refused(
    kit: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ["proof", str(kit), "--out", str(tmp_path), "--file"]
    assert main([*words, str(tmp_path / "none.pdf")]) == 2
    assert main([*words, str(kit)]) == 2
    assert main(["make", "roof-garden", "--out", str(tmp_path)]) == 0
    capsys.readouterr()
    assert main([*words, str(tmp_path / "roof-garden-read.pdf")]) == 2
    assert "expected the booklet of" in capsys.readouterr().err


def test_an_earlier_table_tells_what_has_changed(
    kit: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert main(["proof", str(kit), "--out", str(out)]) == 0
    before = out / "plain-claims.csv"
    before.rename(tmp_path / "before.csv")
    kit.write_text(PLAIN.replace("photo: 3 x 4", "photo: 3 x 3 1/2"), encoding="utf-8")
    capsys.readouterr()
    words = ["proof", str(kit), "--out", str(out), "--against"]
    assert main([*words, str(tmp_path / "before.csv")]) == 0
    said = capsys.readouterr().out.splitlines()
    place = "layouts › morning › steps › 4"
    assert f"changed: layout-morning / size / {place}: 3 × 4 is now 3 × 3¹⁄₂" in said
    assert any(line.startswith("to be read again: p. ") for line in said)
    assert main([*words, str(kit)]) == 2
    assert "no table of claims" in capsys.readouterr().err
