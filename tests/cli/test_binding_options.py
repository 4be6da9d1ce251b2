"""`booklet make` with the options of printing and binding: what it writes, what it refuses, and why."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pypdfium2 as pdfium
import pytest

from booklet.cli import main

KIT = "roof-garden"  # pages of A5


def made(folder: Path, *options: str) -> int:
    return main(["make", KIT, "--out", str(folder), *options])


def test_fronts_and_backs_take_the_place_of_the_file_for_both_sides(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert made(tmp_path, "--manual-duplex", "face-down") == 0
    said = capsys.readouterr().out
    fronts, backs = (tmp_path / f"{KIT}-print-{which}.pdf" for which in ("fronts", "backs"))
    assert not (tmp_path / f"{KIT}-print.pdf").exists()
    pages = len(pdfium.PdfDocument(tmp_path / f"{KIT}-read.pdf"))
    assert len(pdfium.PdfDocument(fronts)) == len(pdfium.PdfDocument(backs)) == pages // 4
    assert "the last sheet on top" in said
    assert said.index(fronts.name) < said.index("Put the printed stack") < said.rindex(backs.name)


def sides(folder: Path) -> list[tuple[float, float, list[float]]]:
    """Of each side its width and height in points, and its trim box."""
    with pikepdf.open(folder / f"{KIT}-print.pdf") as pdf:
        return [
            (float(page.mediabox[2]), float(page.mediabox[3]), [float(edge) for edge in page.trimbox])
            for page in pdf.pages
        ]


def test_a_press_sheet_a_caliper_and_signatures_show_in_the_file(tmp_path: Path) -> None:
    options = ("--press", "320x450mm", "--caliper", "0.1mm", "--fold-factor", "square")
    assert made(tmp_path, *options, "--sheets-in-signature", "3") == 0
    found = sides(tmp_path)
    mm = 72 / 25.4
    assert all((width, height) == pytest.approx((450 * mm, 320 * mm), abs=0.01) for width, height, _ in found)
    widths = [trim[2] - trim[0] for *_, trim in found[::2]]
    # Three sheets to a signature, each 2 x 2 x 0.1 mm narrower than the one outside it.
    assert [round(296 - width / mm, 2) for width in widths[:4]] == [0.0, 0.4, 0.8, 0.0]


def test_flat_leaves_stand_upright_on_the_paper_of_one_page(tmp_path: Path) -> None:
    assert made(tmp_path, "--flat", "--copies", "fit") == 0
    mm = 72 / 25.4
    pages = len(pdfium.PdfDocument(tmp_path / f"{KIT}-read.pdf"))
    found = sides(tmp_path)
    assert len(found) == pages
    assert all((width, height) == pytest.approx((210 * mm, 297 * mm), abs=0.01) for width, height, _ in found)
    assert found[0][2][3] - found[0][2][1] == pytest.approx(2 * 148 * mm, abs=0.01)  # two, one over the other


@pytest.mark.parametrize(
    ("options", "reason"),
    [
        (["--press", "foolscap"], 'no press sheet is called "foolscap"'),
        (["--press", "9x12"], "has no unit: expected 9x12mm or 9x12in"),
        (["--press", "Letter"], "too narrow"),
        (["--press", "A4", "--copies", "2"], "expected at most 1"),
        (["--copies", "0"], "expected from 1 to 999 copies"),
        (["--copies", "many"], "expected from 1 to 999 copies"),
        (["--copies", "1000"], "expected from 1 to 999 copies"),
        (["--sheets-in-signature", "0"], "expected from 1 to 999 sheets"),
        (["--sheets-in-signature", "2.5"], "expected from 1 to 999 sheets"),
        (["--caliper", "thin"], '"thin" is no caliper'),
        (["--caliper", "0.1"], "has no unit"),
        (["--caliper", "0"], "paper is thicker than nothing"),
        (["--caliper=-0.1mm"], "paper is thicker than nothing"),
        (["--caliper", "2 mm"], "is board"),
        (["--caliper", "1mm", "--fold-factor", "3"], "the margin at the fold"),
        (["--caliper", "0.1mm", "--fold-factor", "sharp"], '"sharp" is no fold factor'),
        (["--caliper", "0.1mm", "--fold-factor", "2mm"], "is no fold factor"),
        (["--caliper", "0.1mm", "--fold-factor", "0"], "expected more than 0"),
        (["--fold-factor", "round"], "say how thick the paper is"),
        (["--flat", "--caliper", "0.1mm"], "leave out --caliper"),
        (["--flat", "--sheets-in-signature", "2"], "leave out --sheets-in-signature"),
        (["--flat", "--fold-factor", "2"], "leave out --fold-factor"),
        (["--manual-duplex", "face-up", "--proof"], "leave out --proof, or --manual-duplex"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else "",
)
def test_what_cannot_be_is_refused_with_the_reason_and_nothing_is_written(
    options: list[str], reason: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert made(tmp_path / "out", *options) == 2
    told = capsys.readouterr()
    assert reason in told.err
    assert "Traceback" not in told.err
    assert not (tmp_path / "out").exists()


def test_the_usual_binding_is_the_file_that_it_was(tmp_path: Path) -> None:
    """What is stated but usual changes nothing, to the byte."""
    assert made(tmp_path / "usual") == 0
    assert made(tmp_path / "stated", "--press", "a4", "--copies", "1", "--sheets-in-signature", "99") == 0
    usual, stated = ((tmp_path / name / f"{KIT}-print.pdf").read_bytes() for name in ("usual", "stated"))
    assert usual == stated
