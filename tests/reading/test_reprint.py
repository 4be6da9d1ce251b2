"""A lost page printed again from the reading file alone: the same page, on paper, ready to cut out."""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
import pikepdf
import pypdf
import pypdfium2
import pytest
from numpy.typing import NDArray

from booklet.binding.reprint import PageOnPaper, put_on_paper
from booklet.binding.stock import STOCK_OF
from booklet.cli.main import main
from booklet.content.words.language import ENGLISH
from booklet.measure.exact import Fraction
from booklet.measure.length import Size
from booklet.pages.places import section_pages
from booklet.pages.reprint import PaperSide, Reprint, lay_on_paper, write_papers
from booklet.placing.resolved import resolve_kit
from booklet.proof.kit_inside import kit_inside
from tests.finished.kits import PLAIN
from tests.once import laid_once, laid_once_in_black, written_once
from tests.reading.made import made, saved
from tests.spec_data import WHOLE_DEMOS

LETTER, HALF_LETTER = Size(Fraction(612), Fraction(792)), Size(Fraction(396), Fraction(612))
A4 = Size(Fraction(210) * 360 / 127, Fraction(297) * 360 / 127)
A5 = Size(Fraction(148) * 360 / 127, Fraction(210) * 360 / 127)


def reprinted(file: bytes, folder: Path, *arguments: str) -> bytes:
    """What the command makes of a reading file that lies alone in a folder."""
    given = saved(file, folder)
    assert main(["reprint", str(given), "--out", str(folder / "out"), *arguments]) == 0
    (one,) = (folder / "out").glob("*.pdf")
    data = one.read_bytes()
    one.unlink()
    return data


def picture(page: pypdfium2.PdfPage, scale: float) -> NDArray[Any]:
    seen: NDArray[Any] = page.render(scale=scale).to_numpy().astype(np.int16)
    return seen


def page_within(data: bytes, at: int, scale: float) -> NDArray[Any]:
    """What a side of paper shows within its trim box."""
    document = pypdfium2.PdfDocument(data)
    page = document[at]
    page.set_cropbox(*page.get_trimbox())
    return picture(page, scale)


def looks_the_same(one: NDArray[Any], other: NDArray[Any]) -> bool:
    """To a tone: what lies between two dots of the paper may lie otherwise between those of the page."""
    height, width = (min(a, b) for a, b in zip(one.shape[:2], other.shape[:2], strict=True))
    assert abs(one.shape[0] - other.shape[0]) <= 1
    assert abs(one.shape[1] - other.shape[1]) <= 1
    return float(np.abs(one[:height, :width] - other[:height, :width]).mean()) < 1.0


def all_on_paper(kit: str) -> bytes:
    """Every page of a booklet on a side of paper, made from what is inside its reading file."""
    inside = kit_inside("kit-read.pdf", made(kit).file)
    resolved = resolve_kit(inside.loaded)
    laid = laid_once(resolved)
    page, paper = STOCK_OF[resolved.kit.page]
    place = lay_on_paper(page.upright, paper.upright, is_large=False)
    sides = tuple(PaperSide(number) for number in range(1, len(laid.pages) + 1))
    what = Reprint(laid.setup.document.title, laid.edition, len(sides), resolved.kit.unit, sides)
    placed = [PageOnPaper(side.page, place.page, place.left, place.bottom, place.scale) for side in sides]
    return put_on_paper(write_papers(laid.setup, ENGLISH.reprint, what, place), written_once(laid), placed)


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_every_page_is_the_same_page_of_the_booklet(kit: str) -> None:
    paper, booklet = all_on_paper(kit), pypdfium2.PdfDocument(made(kit).file)
    seen = [page_within(paper, at, 0.6) for at in range(len(booklet))]
    wanted = [picture(page, 0.6) for page in booklet]
    assert len(seen) == len(wanted) > 10
    for number, (one, other) in enumerate(zip(seen, wanted, strict=True), 1):
        assert looks_the_same(one, other), number
    assert not looks_the_same(seen[6], wanted[8])


@pytest.mark.parametrize(
    ("kit", "number"), [pytest.param("hill-line", 31, marks=pytest.mark.thorough), ("roof-garden", 9)]
)
def test_a_page_looks_the_same_at_a_high_resolution(kit: str, number: int, tmp_path: Path) -> None:
    file = made(kit).file
    seen = page_within(reprinted(file, tmp_path, "--page", str(number)), 0, 3.0)
    assert looks_the_same(seen, picture(pypdfium2.PdfDocument(file)[number - 1], 3.0))


def test_a_page_of_half_letter_is_the_same_to_the_last_dot(tmp_path: Path) -> None:
    file = made(PLAIN).file
    paper = page_within(reprinted(file, tmp_path, "--page", "5"), 0, 2.0)
    assert np.array_equal(paper, picture(pypdfium2.PdfDocument(file)[4], 2.0))


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_a_page_is_drawn_and_says_what_it_is_and_how_to_print_it(kit: str, tmp_path: Path) -> None:
    paper = reprinted(made(kit).file, tmp_path, "--page", "9")
    with pikepdf.open(BytesIO(paper)) as document:
        assert document.check_pdf_syntax() == []
        assert document.Root.ViewerPreferences.PrintScaling == pikepdf.Name("/None")
        assert document.Root.ViewerPreferences.Duplex == pikepdf.Name.Simplex
        drawn = document.pages[0].Resources.XObject
        assert drawn["/Booklet"].Subtype == pikepdf.Name.Form
        assert "/AF" not in document.Root
    reader = pypdf.PdfReader(BytesIO(paper))
    said = " ".join(reader.pages[0].extract_text().split())
    one = made(kit)
    assert f"Page 9 of {len(one.laid.pages)}: {one.resolved.kit.title}" in said
    assert "Print at 100 %, without fitting" in said
    assert f"Edition {one.laid.edition}" in said
    assert "long if the page has its true size" in said


def test_two_sides_of_a_leaf_lie_over_each_other_when_turned_on_the_long_edge(tmp_path: Path) -> None:
    for kit in (PLAIN, "roof-garden"):
        paper = reprinted(made(kit).file, tmp_path, "--leaf", "3")
        with pikepdf.open(BytesIO(paper)) as document:
            assert document.Root.ViewerPreferences.Duplex == pikepdf.Name.DuplexFlipLongEdge
            front, back = ([float(side) for side in page.trimbox] for page in document.pages)
            width = float(document.pages[0].mediabox[2])
        turned = [width - back[2], back[1], width - back[0], back[3]]
        assert front == pytest.approx(turned, abs=0.001)


def test_the_bar_is_as_long_as_it_says(tmp_path: Path) -> None:
    """Measured between the arrows of its dimension, from the drawing itself: 4 in are 288 points."""
    from booklet.proof.reader import read_pages

    paths = read_pages(reprinted(made(PLAIN).file, tmp_path, "--page", "5"))[0].paths
    below = [path.box for path in paths if path.box.top > 710]
    assert any(box.width == pytest.approx(288, abs=0.6) for box in below)


def test_a_sheet_a_layout_and_a_pocket_are_printed_whole(tmp_path: Path) -> None:
    one = made("roof-garden")
    layout, pocket = one.resolved.kit.layouts[1], one.resolved.kit.layouts[-1].pocket

    def folios(*arguments: str) -> list[int]:
        reader = pypdf.PdfReader(BytesIO(reprinted(one.file, tmp_path, *arguments)))
        return [int(page.extract_text().split("Page ")[1].split(" ")[0]) for page in reader.pages]

    assert folios("--sheet", "2") == list(section_pages(one.laid.pages, "sheet-trellis"))
    assert folios("--layout", layout.id) == list(section_pages(one.laid.pages, f"layout-{layout.id}"))
    (table,) = folios("--pocket", pocket)
    words = pypdf.PdfReader(BytesIO(one.file)).pages[table - 1].extract_text()
    assert str(one.resolved.kit.layouts[-1].title) in words.replace("\u2019", "'")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--page", "99"], "there is no page 99: the booklet has 20 pages (nearest: 20)"),
        (["--page", "0"], "(nearest: 1)"),
        (["--leaf", "19"], "there is no leaf 19: the booklet has 10 leaves (nearest: 10)"),
        (["--sheet", "vien"], 'no sheet that is cut is called "vien" (nearest: vine)'),
        (["--layout", "god-night"], "(nearest: good-night)"),
        (["--pocket", "9"], "there are: 1, 2"),
    ],
)
def test_what_is_not_in_the_booklet_is_refused_with_the_nearest(
    arguments: list[str], said: str, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    assert main(["reprint", "roof-garden", "--out", str(tmp_path), *arguments]) == 2
    assert said in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


# True size, and what is not.


@pytest.mark.parametrize("page", [HALF_LETTER, A5])
@pytest.mark.parametrize("paper", [LETTER, A4])
def test_a_page_that_fits_has_its_true_size_with_words_about_it(page: Size, paper: Size) -> None:
    place = lay_on_paper(page, paper, is_large=False)
    assert place.is_true
    assert place.has_words
    assert place.left * 2 + page.width == paper.width


def test_a_page_as_large_as_its_paper_has_no_room_for_words_and_keeps_its_size() -> None:
    place = lay_on_paper(LETTER, LETTER, is_large=False)
    assert place.is_true
    assert (place.left, place.bottom) == (Fraction(0), Fraction(0))
    assert not place.has_words


def test_a_page_larger_than_its_paper_is_reduced_by_whole_per_cents_and_lies_on_it() -> None:
    for page, paper in ((A4, LETTER), (LETTER, A4)):
        place = lay_on_paper(page, paper, is_large=False)
        assert not place.is_true
        assert place.scale == Fraction(place.percent, 100) < 1
        assert place.has_words
        assert place.left >= 18
        assert place.bottom >= 18


def test_a_large_page_fills_the_paper_and_claims_no_size(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    paper = reprinted(made(PLAIN).file, tmp_path, "--page", "5", "--large")
    assert "115 % of true size on Letter: nothing may be measured on it" in capsys.readouterr().out
    said = " ".join(pypdf.PdfReader(BytesIO(paper)).pages[0].extract_text().split())
    assert "Enlarged to 115 %: not the page's true size." in said
    assert "long if the page has its true size" not in said
    assert "Print at 100 %" not in said


def test_a_kit_of_letter_pages_is_printed_on_either_paper(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    spec = made("roof-garden").loaded.typed[0].data.decode().replace("page: a5", "page: letter")
    (tmp_path / "big.yaml").write_text(spec)
    for paper, said in (("letter", "at true size"), ("a4", "% of true size on A4")):
        asked = ["--page", "4", "--paper", paper, "--out", str(tmp_path)]
        assert main(["reprint", str(tmp_path / "big.yaml"), *asked]) == 0
        assert said in capsys.readouterr().out


# Files that are not what their kit says.


def changed(kit: str, change: Callable[[pikepdf.Pdf], object], **how: Any) -> bytes:
    out = BytesIO()
    with pikepdf.open(BytesIO(made(kit).file)) as document:
        change(document)
        document.save(out, **how)
    return out.getvalue()


def with_another_numeral(number: int) -> Callable[[pikepdf.Pdf], object]:
    """Print the first numeral of a page's drawings as another: its glyph in the place of the other's."""

    def change(document: pikepdf.Pdf) -> None:
        page = document.pages[number - 1]
        content = page.Contents.read_bytes()
        at = content.rindex(b") Tj")
        other = content[:at] + content[at - 1 : at] + content[at:]
        page.Contents.write(other)

    return change


def test_a_page_with_another_numeral_is_refused_and_the_others_are_printed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = saved(changed("roof-garden", with_another_numeral(12)), tmp_path)
    assert main(["reprint", str(file), "--page", "12", "--out", str(tmp_path / "out")]) == 2
    assert "page 12 of kit-read.pdf is not what its kit says" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()
    assert main(["reprint", str(file), "--page", "13", "--out", str(tmp_path / "out")]) == 0


@pytest.mark.parametrize("how", [{"recompress_flate": True}, {"linearize": True}, {"qdf": True}])
def test_a_file_that_another_program_has_saved_is_printed_from(how: dict[str, Any], tmp_path: Path) -> None:
    again = changed("roof-garden", lambda _: None, **how)
    straight = reprinted(made("roof-garden").file, tmp_path, "--page", "9")
    assert reprinted(again, tmp_path, "--page", "9") == straight


def test_a_file_that_has_lost_pages_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    def lose(document: pikepdf.Pdf) -> None:
        del document.pages[4]

    file = saved(changed("roof-garden", lose), tmp_path)
    assert main(["reprint", str(file), "--page", "2", "--out", str(tmp_path)]) == 2
    assert "has 19 pages, while its kit makes 20" in capsys.readouterr().err


def test_a_file_of_another_version_says_so_rather_than_print_a_wrong_page(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def older(document: pikepdf.Pdf) -> None:
        with_another_numeral(9)(document)
        document.docinfo["/Keywords"] = "edition 0123456789ab"
        document.docinfo["/Creator"] = "kit-booklet 0.0.9"

    file = saved(changed("roof-garden", older), tmp_path)
    assert main(["reprint", str(file), "--page", "9", "--out", str(tmp_path)]) == 2
    said = capsys.readouterr().err
    assert "was made by another version of this program (kit-booklet 0.0.9; this is kit-booklet" in said


def test_a_draft_is_printed_as_a_draft(tmp_path: Path) -> None:
    draft = written_once(made("roof-garden").laid, is_draft=True)
    paper = page_within(reprinted(draft, tmp_path, "--page", "9"), 0, 1.0)
    assert looks_the_same(paper, picture(pypdfium2.PdfDocument(draft)[8], 1.0))
    assert not looks_the_same(paper, picture(pypdfium2.PdfDocument(made("roof-garden").file)[8], 1.0))


def test_a_booklet_in_black_is_printed_in_black(tmp_path: Path) -> None:
    black = written_once(laid_once_in_black(made("roof-garden").resolved))
    paper = page_within(reprinted(black, tmp_path, "--page", "8"), 0, 1.0)
    assert looks_the_same(paper, picture(pypdfium2.PdfDocument(black)[7], 1.0))
    assert not looks_the_same(paper, picture(pypdfium2.PdfDocument(made("roof-garden").file)[7], 1.0))


def test_a_page_in_black_does_not_take_the_place_of_that_in_colour(tmp_path: Path) -> None:
    one = made("roof-garden")
    black = saved(written_once(laid_once_in_black(one.resolved)), tmp_path)
    assert main(["reprint", str(black), "--page", "8", "--out", str(tmp_path / "out")]) == 0
    assert (
        main(["reprint", str(saved(one.file, tmp_path)), "--page", "8", "--out", str(tmp_path / "out")]) == 0
    )
    assert {file.name for file in (tmp_path / "out").glob("*.pdf")} == {
        "roof-garden-black-page-8.pdf",
        "roof-garden-page-8.pdf",
    }


def test_a_page_is_the_same_from_the_spec_and_from_the_file(tmp_path: Path) -> None:
    alone = reprinted(made("roof-garden").file, tmp_path, "--page", "12")
    assert main(["reprint", "roof-garden", "--page", "12", "--out", str(tmp_path / "spec")]) == 0
    assert (tmp_path / "spec" / "roof-garden-page-12.pdf").read_bytes() == alone
