"""`booklet proof`: every number of the finished booklet held against the kit."""

from __future__ import annotations

import csv
import json
from dataclasses import replace
from pathlib import Path

import pytest

from booklet.cli import main, proof_command
from booklet.proof.print_file import WrongPlace
from booklet.proof.proof import Proof
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
    assert said[-1] == "nothing wrong"
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
    other = tmp_path / "other.csv"
    other.write_text("a,b\r\n1,2\r\n", encoding="utf-8")
    assert main([*words, str(other)]) == 2
    assert "no table of claims" in capsys.readouterr().err


# While it is made.


def test_a_booklet_may_be_proved_as_it_is_made(
    kit: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert main(["make", str(kit), "--proof", "--out", str(out)]) == 0
    assert capsys.readouterr().out.splitlines()[-1] == "nothing wrong"
    made = {path.name for path in out.iterdir()}
    assert made >= {
        f"plain-{name}" for name in ("read.pdf", "print.pdf", "proof.pdf", "proof.html", "claims.csv")
    }


def test_what_does_not_hold_is_not_written_to_be_printed(
    kit: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def upside_down(made: proof_command.Made) -> Proof:
        return replace(prove_made(made), misplaced=(WrongPlace(2, "left half", 2, 2, is_upside_down=True),))

    prove_made = proof_command.prove_made
    monkeypatch.setattr(proof_command, "prove_made", upside_down)
    out = tmp_path / "out"
    assert main(["make", str(kit), "--proof", "--out", str(out)]) == 1
    said = capsys.readouterr().out
    assert "side 2 of the print file, left half: page 2, upside down, expected page 2" in said
    assert "plain-print.pdf was not written" in said
    assert "Print plain-print.pdf" not in said
    made = {path.name for path in out.iterdir()}
    assert "plain-print.pdf" not in made
    assert made >= {"plain-read.pdf", "plain-proof.pdf"}


def test_a_build_script_reads_what_was_made_and_proved(
    kit: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["make", str(kit), "--proof", "--json", "--out", str(tmp_path / "out")]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["errors"] == 0
    assert (told["proof"]["pages"], told["proof"]["not printed"]) == (8, [])
    assert all(Path(name).exists() for name in told["files"])


def test_a_draft_is_not_proved(kit: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["make", str(kit), "--proof", "--draft"])
    assert ended.value.code == 2
    assert "not allowed with" in capsys.readouterr().err


# Editions.


def test_an_earlier_spec_tells_what_has_changed_as_its_table_does(
    kit: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    earlier = tmp_path / "before.yaml"
    earlier.write_text(PLAIN, encoding="utf-8")
    kit.write_text(PLAIN.replace("- id: morning", "- id: dawn").replace("at: [10, 6]", "at: [10, 6 1/8]"))
    main(["proof", str(kit), "--out", str(tmp_path / "out"), "--against", str(earlier)])
    said = capsys.readouterr().out.splitlines()
    assert "renamed: morning is now dawn" in said
    key = "sheet-reed / cut 2 / reading / sheets › reed › cuts › 1 › at › 2"
    assert f"changed: {key}: 6 is now 6¹⁄₈" in said
    assert not any(line.startswith("gone: layout-") for line in said)
