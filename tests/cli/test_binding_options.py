"""`booklet make` with the options of printing and binding: what it writes, what it refuses, and why."""

from __future__ import annotations

import argparse
from pathlib import Path

import pikepdf
import pypdfium2 as pdfium
import pytest

from booklet.binding.binding import home_binding
from booklet.cli import main
from booklet.cli.binding_options import add_printing, printing_of
from booklet.cli.print_words import print_lines
from booklet.kit.kit import PageFormat
from tests.cli.runs import SMALL_SPEC

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


@pytest.mark.parametrize(
    ("options", "said"),
    [
        ([], "on both sides of A4 at 100 %, flipped on the short edge. Keep the sheets in order, fold"),
        (["--flip", "long"], "flipped on the long edge."),
        (
            ["--press", "a3"],
            "flipped on the short edge. Cut the pile at the black marks. Keep",
        ),
        (["--press", "a3", "--copies", "fit"], "Cut the pile at the black marks: 2 copies. Keep"),
        (["--sheets-in-signature", "2"], "short edge. Fold 2 sheets at a time"),
        (["--sheets-in-signature", "1"], "Fold each sheet"),
        (["--sheets-in-signature", "99"], "fold the pile"),
        (["--caliper", "0.1mm"], "Trim the open side"),
        (["--flat"], "Punch or bind the leaves along the left of page 1."),
        (
            ["--manual-duplex", "face-up", "--flip", "long"],
            "make the files with --flip short",
        ),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else "",
)
def test_it_says_how_the_booklet_is_printed_cut_and_folded(options: list[str], said: str) -> None:
    parser = argparse.ArgumentParser()
    add_printing(parser)
    printing = printing_of(parser.parse_args(options, argparse.Namespace(proof=False)), PageFormat.A5)
    assert said in " ".join(print_lines(printing.binding, printing.stack, KIT, 20))


@pytest.mark.parametrize(
    ("options", "pages", "is_told"),
    [
        ([], 64, False),
        ([], 68, True),
        (["--sheets-in-signature", "16"], 160, False),
        (["--sheets-in-signature", "17"], 160, True),
        (["--flat"], 160, False),
    ],
)
def test_a_pile_too_thick_to_fold_is_told_with_what_helps(
    options: list[str], pages: int, is_told: bool
) -> None:
    parser = argparse.ArgumentParser()
    add_printing(parser)
    printing = printing_of(parser.parse_args(options, argparse.Namespace(proof=False)), PageFormat.A5)
    said = " ".join(print_lines(printing.binding, printing.stack, KIT, pages))
    assert ("17 sheets are more than the 16 or so of 80 g paper" in said) is is_told
    assert ("--sheets-in-signature 8, or bind flat leaves with --flat" in said) is is_told


def test_one_sheet_is_no_pile() -> None:
    assert "Fold the sheet" in print_lines(home_binding(PageFormat.A5), None, KIT, 4)[1]


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
        (["--caliper", "1mm", "--fold-factor", "4"], "the margin at the fold"),
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


def test_the_readme_explains_every_option() -> None:
    parser = argparse.ArgumentParser(add_help=False)
    add_printing(parser)
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    options = [option for action in parser._actions for option in action.option_strings]
    assert len(options) == 8
    assert [option for option in options if f"`{option}" not in readme] == []


def test_a_print_file_of_another_binding_is_proved_by_saying_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    kit, out = tmp_path / "plain.yaml", tmp_path / "out"
    kit.write_text(SMALL_SPEC, encoding="utf-8")
    bound = ("--copies", "2", "--press", "Tabloid", "--flip", "long")
    assert main(["make", str(kit), "--out", str(out), *bound]) == 0
    files = ("--file", f"{out / 'plain-read.pdf'}", "--print", f"{out / 'plain-print.pdf'}")
    proof = ["proof", str(kit), "--out", str(out), *files]
    assert main([*proof, *bound]) == 0
    assert main(proof) == 1
    assert "places of the print file" in capsys.readouterr().out
