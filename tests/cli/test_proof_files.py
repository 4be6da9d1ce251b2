"""`booklet proof` tells whether the finished files are as print needs them."""

from __future__ import annotations

import json
from pathlib import Path

import pikepdf
import pytest

from booklet.cli import main
from tests.finished.kits import PLAIN


@pytest.fixture
def made(tmp_path: Path) -> Path:
    """A folder with a kit and its two files."""
    (tmp_path / "plain.yaml").write_text(PLAIN, encoding="utf-8")
    assert main(["make", str(tmp_path / "plain.yaml"), "--out", str(tmp_path)]) == 0
    return tmp_path


def proof(folder: Path, *more: str) -> int:
    return main(["proof", str(folder / "plain.yaml"), "--out", str(folder), *more])


def spoiled(folder: Path, name: str) -> str:
    """A file of the kit whose second page is turned, and whose third has words in a line finer than print."""
    whole, out = folder / f"plain-{name}.pdf", folder / "spoiled.pdf"
    with pikepdf.open(whole) as file:
        file.pages[1].Rotate = 90
        file.pages[2].contents_add(b"q 0.1 w 100 100 m 200 100 l S 0 w 100 90 m 200 90 l S Q")
        file.save(out)
    return str(out)


def test_each_check_of_each_file_is_told_in_a_line(made: Path, capsys: pytest.CaptureFixture[str]) -> None:
    capsys.readouterr()
    assert proof(made) == 0
    said = capsys.readouterr().out.splitlines()
    assert (
        "page-boxes, reading file: 8 pages, the farthest off by 0 pt, wanted page 396 x 612 pt: held" in said
    )
    assert "fonts-embedded, print file: 4 typefaces: held" in said
    assert sum(line.endswith(": held") for line in said) == 12
    assert said[-1] == "nothing wrong"


def test_what_fails_is_told_with_its_page(made: Path, capsys: pytest.CaptureFixture[str]) -> None:
    capsys.readouterr()
    assert proof(made, "--file", spoiled(made, "read")) == 1
    said = capsys.readouterr().out.splitlines()
    assert "page-boxes, reading file, p. 2: 90°" in said
    (line,) = (line for line in said if line.startswith("line-width, reading file, p. 3"))
    assert line.endswith(": 0 pt, and 1 more")
    assert sum(line.endswith(": failed") for line in said) >= 2
    assert "nothing wrong" not in said


def test_a_program_reads_what_was_found(made: Path, capsys: pytest.CaptureFixture[str]) -> None:
    capsys.readouterr()
    file = spoiled(made, "print")
    assert proof(made, "--print", file, "--json") == 1
    checks = {
        (check["check"], check["file"]): check for check in json.loads(capsys.readouterr().out)["checks"]
    }
    assert checks["line-width", "reading file"]["holds"]
    fine = checks["line-width", "print file"]
    assert not fine["holds"]
    assert fine["limit"] == {"number": 0.25, "measure": "pt"}
    assert [(fault["page"], fault["found"]["number"]) for fault in fine["faults"]] == [(3, 0.1), (3, 0.0)]
    (turned,) = checks["page-boxes", "print file"]["faults"]
    assert turned == {"page": 2, "place": None, "found": {"number": 90, "measure": "°"}}
