"""`booklet web`: the companion of a kit, written as other files are."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.cli import main
from booklet.cli.starter import STARTER_SPEC


def spec(folder: Path, text: str = STARTER_SPEC) -> str:
    (folder / "kit.yaml").write_text(text, encoding="utf-8")
    return str(folder / "kit.yaml")


def test_it_writes_one_file_and_lists_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["web", spec(tmp_path), "--out", str(tmp_path / "out")]) == 0
    (written,) = (line for line in capsys.readouterr().out.splitlines() if line.endswith(".html"))
    assert written == str(tmp_path / "out" / "kit-companion.html")
    assert Path(written).read_bytes().startswith(b"<!DOCTYPE html>")
    assert "kit-companion.html" in (tmp_path / "out" / "kit-files.sha256").read_text()


def test_a_kit_with_errors_gets_none(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    wrong = STARTER_SPEC.replace("steps:", "steps:\n      - {place: no such piece, left: 0, top: 0}", 1)
    assert main(["web", spec(tmp_path, wrong), "--out", str(tmp_path / "out")]) == 1
    assert "Nothing was written" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_a_file_of_somebody_s_own_stays(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    own = tmp_path / "kit-companion.html"
    own.write_text("mine")
    assert main(["web", spec(tmp_path), "--out", str(tmp_path)]) == 2
    assert "is not as this program wrote it" in capsys.readouterr().err
    assert own.read_text() == "mine"
    assert main(["web", spec(tmp_path), "--out", str(tmp_path), "--replace"]) == 0
    assert own.read_text() != "mine"
