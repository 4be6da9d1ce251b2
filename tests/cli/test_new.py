"""`booklet new`: a first spec that builds as it is."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from booklet.cli import main


def test_a_new_kit_is_sound_and_builds(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "my first kit"
    assert main(["new", str(folder)]) == 0
    written, after = capsys.readouterr().out.splitlines()
    assert written == str(folder / "kit.yaml")
    assert main(["check", written]) == 0
    assert capsys.readouterr().out == "nothing wrong\n"
    program, *arguments = shlex.split(after.removeprefix("Next: "))
    assert program == "booklet"
    assert main([*arguments, "--out", str(tmp_path / "out")]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert f"{tmp_path / 'out' / 'kit-read.pdf'}\n" in out


def test_a_new_kit_explains_itself(tmp_path: Path) -> None:
    main(["new", str(tmp_path)])
    spec = (tmp_path / "kit.yaml").read_text(encoding="utf-8")
    assert sum("#" in line for line in spec.splitlines()) >= 15
    assert max(map(len, spec.splitlines())) <= 110


def test_a_kit_that_is_there_is_left_as_it_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "kit.yaml").write_text("mine")
    assert main(["new", str(tmp_path)]) == 2
    assert "is there already" in capsys.readouterr().err
    assert (tmp_path / "kit.yaml").read_text() == "mine"


def test_a_folder_that_cannot_be_made_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "kit").touch()
    assert main(["new", str(tmp_path / "kit")]) == 2
    assert "cannot be written" in capsys.readouterr().err
