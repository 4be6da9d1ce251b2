"""`booklet make --black`: files of one ink, beside those in colour; what goes with it and what does not."""

from __future__ import annotations

from pathlib import Path

import pypdfium2 as pdfium
import pytest

from booklet.cli import main
from booklet.cli.written import list_name
from tests.once import shared_by_commands

SMALLER = "roof-garden"
READ, PRINT = f"{SMALLER}-black-read.pdf", f"{SMALLER}-black-print.pdf"
TABLES = [f"{SMALLER}-sorting.csv", f"{SMALLER}-supplies.csv"]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the smaller demo kit was made in black."""
    out = tmp_path_factory.mktemp("black")
    with shared_by_commands():
        assert main(["make", SMALLER, "--black", "--out", str(out)]) == 0
    return out


def test_black_writes_two_pdfs_and_the_tables_and_leaves_the_figures_in_colour_alone(made: Path) -> None:
    assert sorted(path.name for path in made.iterdir()) == sorted([READ, PRINT, *TABLES, list_name(SMALLER)])


def test_the_print_file_has_two_pages_to_a_side(made: Path) -> None:
    assert len(pdfium.PdfDocument(made / PRINT)) * 2 == len(pdfium.PdfDocument(made / READ)) == 20


def test_fronts_and_backs_apart_are_named_black_too(tmp_path: Path) -> None:
    way = ["--manual-duplex", "face-down"]
    assert main(["make", SMALLER, "--black", *way, "--out", str(tmp_path)]) == 0
    names = {path.name for path in tmp_path.glob("*.pdf")}
    assert names == {READ, f"{SMALLER}-black-print-fronts.pdf", f"{SMALLER}-black-print-backs.pdf"}


def test_a_proof_reads_colours_and_is_refused_in_black(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["make", SMALLER, "--black", "--proof", "--out", str(tmp_path)]) == 2
    assert "leave out --proof, or --black" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_nor_is_a_finished_file_in_black_proved(
    made: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["proof", SMALLER, "--file", str(made / READ), "--out", str(tmp_path)]) == 2
    assert f"{READ} is in black" in capsys.readouterr().err


def test_an_edition_in_black_bears_the_name_of_that_in_colour(made: Path, tmp_path: Path) -> None:
    assert main(["make", SMALLER, "--out", str(tmp_path)]) == 0
    dark, bright = (
        pdfium.PdfDocument(file).get_metadata_value("Keywords")
        for file in (made / READ, tmp_path / f"{SMALLER}-read.pdf")
    )
    assert dark == f"{bright}-black"
