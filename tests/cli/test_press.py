"""`booklet press`: what it writes, what it refuses, and that it does so the same way twice."""

from __future__ import annotations

from fractions import Fraction
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest

from booklet.cli import main
from booklet.proof.pdfx import pdfx_breaches
from booklet.proof.press_clauses import Breach, Clause
from booklet.proof.reader import read_pages
from tests.finished.kits import PLAIN

NAMES = ["kit-press-info.pdf", "kit-press-sheets.pdf", "kit-press.pdf"]


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    file = tmp_path / "kit.yaml"
    file.write_text(PLAIN, encoding="utf-8")
    return file


def pressed(spec: Path, *options: str) -> tuple[int, dict[str, bytes]]:
    out = spec.parent / "out"
    code = main(["press", str(spec), "--out", str(out), *options])
    return code, {path.name: path.read_bytes() for path in sorted(out.glob("*.pdf"))} if out.exists() else {}


def text_of(pdf: bytes) -> str:
    return " ".join(" ".join(page.text for page in read_pages(pdf)).replace("\u00a0", " ").split())


def test_it_writes_pages_sheets_and_the_page_for_the_printer(
    spec: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, files = pressed(spec)
    assert (code, list(files)) == (0, NAMES)
    told = capsys.readouterr().out.splitlines()
    assert sorted(Path(line).name for line in told) == NAMES
    pages, sheets = (pikepdf.open(BytesIO(files[name])) for name in ("kit-press.pdf", "kit-press-sheets.pdf"))
    assert len(pages.pages) == len(sheets.pages) * 2
    for pdf in (pages, sheets):
        assert pdf.docinfo["/Title"] == "A Week Outdoors"
        assert pdf.Root.OutputIntents[0].OutputConditionIdentifier == "CGATS21-2-CRPC6"


@pytest.mark.usefixtures("made_afresh")
def test_the_same_kit_gives_the_same_bytes(spec: Path) -> None:
    assert pressed(spec) == pressed(spec)


def test_the_page_for_the_printer_says_how_it_is_printed(spec: Path) -> None:
    _, files = pressed(
        spec, "--bleed", "4mm", "--ink-limit", "280 %", "--condition", "fogra52", "--caliper", "0.005in"
    )
    said = text_of(files["kit-press-info.pdf"])
    for part in (
        "FOGRA52: offset on uncoated paper",
        "at most 280 % anywhere",
        "5½ × 8½ in".replace("½", "¹⁄₂"),
        "parallel to the spine",
        "two through the fold, from outside, each 2¹⁄₈ in from head or foot",
        "BookletSans-Regular, BookletSans-SemiBold",
        "Tabloid, 17 × 11 in",
        "0.005 in a sheet",
    ):
        assert part in said, part
    pages = len(pikepdf.open(BytesIO(files["kit-press.pdf"])).pages)
    assert f"kit-press.pdf: {pages} pages in reading order" in said
    assert f"sheet 1 outside, with pages {pages} and 1; sheet {pages // 4} inmost" in said
    assert f"towards the fold by {(pages // 4 - 1) * 0.005:g} in" in said
    assert "the last of" not in said


@pytest.mark.parametrize(
    ("each", "said"),
    [
        ("2", "3 signatures of 2 sheets, the last of 1 sheet, behind"),
        pytest.param("1", "5 signatures of 1 sheet, behind", marks=pytest.mark.thorough),
    ],
)
def test_the_page_for_the_printer_says_if_the_last_signature_is_thinner(
    each: str, said: str, tmp_path: Path
) -> None:
    """Five sheets, the demo in centimetres."""
    assert main(["press", "roof-garden", "--out", str(tmp_path), "--sheets-in-signature", each]) == 0
    assert said in text_of((tmp_path / "roof-garden-press-info.pdf").read_bytes())


def test_signatures_are_told_on_the_sheets_and_to_the_printer(spec: Path) -> None:
    _, files = pressed(spec, "--sheets-in-signature", "1")
    sides = [page.text for page in read_pages(files["kit-press-sheets.pdf"])]
    signatures = len(sides) // 2
    assert signatures > 1
    assert "sheet 1 of" in sides[0]
    assert "front" in sides[0]
    assert "back" in sides[1]
    assert f"signature {signatures}" in sides[-1]
    assert f"{signatures} signatures of 1 sheet" in text_of(files["kit-press-info.pdf"])


def test_what_is_asked_for_is_what_the_file_holds(spec: Path) -> None:
    _, files = pressed(spec, "--bleed", "5mm", "--press", "330x480mm", "--ink-limit", "240")
    with pikepdf.open(BytesIO(files["kit-press-sheets.pdf"])) as pdf:
        page = pdf.pages[0].obj
        assert [float(edge) * 127 / 360 for edge in page.MediaBox][2:] == pytest.approx([480, 330], abs=0.01)
        assert (float(page.TrimBox[0]) - float(page.BleedBox[0])) * 127 / 360 == pytest.approx(5, abs=0.01)
    assert pdfx_breaches(files["kit-press.pdf"], Fraction(240)) == ()


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (["--bleed", "0"], "a bleed of 0 in"),
        (["--bleed", "much"], '"much" is no bleed: expected a length such as 3mm or 1/8in'),
        (["--ink-limit", "150"], "a black letter on one solid colour is 200 % already"),
        (["--ink-limit", "all"], "expected whole percents from 200 to 400"),
        (["--condition", "FOGRA40"], "nearest: FOGRA39"),
        (
            ["--press", "Letter"],
            "11 7/8 x \u2248\u00a09 3/8 in, and Letter is 11 x 8 1/2 in: expected Tabloid or",
        ),
        (["--press", "A4"], "and A4 is 297 x 210 mm: expected A3 or a larger sheet"),
        (["--press", "Foolscap"], "no press sheet is called"),
        (["--caliper", "3mm"], "is board, which cracks when it is folded"),
        (["--sheets-in-signature", "0"], "sheets in a signature"),
    ],
)
def test_what_cannot_be_is_refused_with_the_reason(
    spec: Path, options: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    code, files = pressed(spec, *options)
    assert (code, files) == (2, {})
    assert says in capsys.readouterr().err


def test_a_kit_with_errors_is_not_written(spec: Path, capsys: pytest.CaptureFixture[str]) -> None:
    spec.write_text(PLAIN.replace("at: [10, 6]", "at: [13, 6]"), encoding="utf-8")
    code, files = pressed(spec)
    assert (code, files) == (1, {})
    told = capsys.readouterr().err
    assert "cut-beyond-piece" in told
    assert "Nothing was written" in told


def test_a_file_that_breaks_its_standard_is_not_written(
    spec: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whatever makes the files, what the checker finds keeps them from being written."""
    from booklet.proof import pdfx

    breach = Breach(Clause.FONTS, 1, "Helvetica without its file")
    monkeypatch.setattr(pdfx, "pdfx_breaches", lambda *_: (breach,) * 25)
    code, files = pressed(spec)
    assert (code, files) == (2, {})
    told = capsys.readouterr().err.splitlines()
    assert told[0] == "kit-press.pdf, page 1: 6.3 embedded typefaces: found Helvetica without its file"
    assert "kit-press.pdf: and 5 more" in told
    assert told[-1] == "Nothing was written: a print shop would refuse it."


def test_a_proof_is_of_the_files_in_colours(spec: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A press file is of the same edition and as many pages, and nothing on it is as a proof expects it."""
    pressed(spec)
    made = str(spec.parent / "out" / "kit-press.pdf")
    assert main(["proof", str(spec), "--file", made, "--out", str(spec.parent / "proved")]) == 2
    assert "kit-press.pdf is for a print shop" in capsys.readouterr().err


def test_there_is_no_draft_for_a_press(spec: Path) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["press", str(spec), "--draft"])
    assert ended.value.code == 2
