"""The imposed booklet, read back and looked at by libraries that did not write it."""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Iterator
from fractions import Fraction
from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
import pikepdf
import pymupdf
import pypdfium2
import pytest
from numpy.typing import NDArray
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from booklet.binding.binding import Binding, Flip
from booklet.binding.errors import PageCountError, PageSizeError, StockTooSmallError, UnreadablePagesError
from booklet.binding.print_file import print_file
from booklet.binding.signature import saddle_stitched
from booklet.binding.stock import A4, A5, HALF_LETTER, LETTER, PaperStock
from booklet.measure.length import Size

Picture = NDArray[np.int16]

FONT = Path(__file__).parents[2] / "fonts" / "BookletSans-SemiBold.ttf"
PAPERS = [pytest.param(LETTER, HALF_LETTER, id="half letter"), pytest.param(A4, A5, id="A5")]
FLIPS = [pytest.param(flip, id=f"{flip.value} edge") for flip in Flip]
SCALE = 2  # pixels to a point
# Grey levels by which two renderings of the same page may differ on average; two different pages differ by 5
# or more.  Half letter pages lie on whole pixels, and only the fold ticks differ; on A4 edges fall between.
SAME_PICTURE = {LETTER: 0.01, A4: 2.5}


def reading_pages(page_count: int, size: Size, outlined: bool = False) -> bytes:
    """A booklet whose pages bear their numbers, a frame, and a block in a place of their own."""
    pdfmetrics.registerFont(TTFont("Title", str(FONT)))
    out = BytesIO()
    width, height = float(size.width), float(size.height)
    canvas = Canvas(out, pagesize=(width, height), invariant=1, initialFontName="Title", lang="en")
    canvas.setTitle("Tide Lines — №\u00a03")
    for page in range(1, page_count + 1):
        if outlined:
            canvas.bookmarkPage(f"page {page}")
            canvas.addOutlineEntry(f"Page {page}", f"page {page}")
        canvas.setFont("Title", 120)
        canvas.drawCentredString(width / 2, height / 2, str(page))
        canvas.rect(20, 20, width - 40, height - 40)
        canvas.setFillGray(0.5)
        canvas.rect(40, 20 + 22 * page, 200, 20, stroke=0, fill=1)
        canvas.setFillGray(0)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def imposed(page_count: int, press: PaperStock, page: PaperStock, flip: Flip) -> bytes:
    return print_file(reading_pages(page_count, page.upright), Binding(page, press, flip=flip))


def pictures_by_pdfium(pdf: bytes) -> Iterator[Picture]:
    with pypdfium2.PdfDocument(pdf) as document:
        for page in document:
            yield np.asarray(page.render(scale=SCALE, grayscale=True).to_pil(), dtype=np.int16)


def opened(pdf: bytes) -> Any:
    open_document: Any = pymupdf.open
    return open_document(stream=pdf, filetype="pdf")


def pictures_by_mupdf(pdf: bytes) -> Iterator[Picture]:
    with opened(pdf) as document:
        for page in document:
            pixels = page.get_pixmap(dpi=72 * SCALE, colorspace=pymupdf.csGRAY)
            yield np.frombuffer(pixels.samples, dtype=np.uint8).reshape(pixels.h, -1).astype(np.int16)


RENDERERS = [pytest.param(pictures_by_pdfium, id="pdfium"), pytest.param(pictures_by_mupdf, id="mupdf")]


def words_by_side(pdf: bytes) -> list[list[str]]:
    """The page numbers printed on each side, from left to right as the file is seen."""
    with opened(pdf) as document:
        return [
            [word[4] for word in sorted(page.get_text("words"), key=lambda word: word[0])]
            for page in document
        ]


def difference(one: Picture, other: Picture) -> float:
    height, width = min(one.shape[0], other.shape[0]), min(one.shape[1], other.shape[1])
    return float(np.abs(one[:height, :width] - other[:height, :width]).mean())


def halves(side: Picture, page: Picture) -> tuple[Picture, Picture]:
    """The pages left and right of the fold, each as large as `page`."""
    fold = side.shape[1] // 2
    return side[:, max(0, fold - page.shape[1]) : fold], side[:, fold : fold + page.shape[1]]


def turned_over(side: Picture, flip: Flip) -> Picture:
    """A back as it lies in the file, as it stands once the printer has turned the sheet about `flip`."""
    return side[::-1, ::-1] if flip is Flip.LONG_EDGE else side


@pytest.mark.parametrize("render", RENDERERS)
@pytest.mark.parametrize("flip", FLIPS)
@pytest.mark.parametrize(("press", "page"), PAPERS)
def test_each_half_of_each_side_shows_its_reading_page(
    press: PaperStock, page: PaperStock, flip: Flip, render: Any
) -> None:
    reading = list(render(reading_pages(8, page.upright)))
    sides = list(render(imposed(8, press, page, flip)))
    assert len(sides) == 4
    for sheet, front, back in zip(saddle_stitched(8), sides[::2], sides[1::2], strict=True):
        for side, seen in ((sheet.front, front), (sheet.back, turned_over(back, flip))):
            left, right = halves(seen, reading[0])
            for number, half in ((side.left, left), (side.right, right)):
                differences = [difference(half, shown) for shown in reading]
                assert differences[number - 1] < SAME_PICTURE[press]
                assert differences.index(min(differences)) == number - 1


@pytest.mark.parametrize("flip", FLIPS)
@pytest.mark.parametrize(("press", "page"), PAPERS)
def test_pages_of_a_side_add_up_to_one_more_than_the_count(
    press: PaperStock, page: PaperStock, flip: Flip
) -> None:
    sides = words_by_side(imposed(12, press, page, flip))
    assert [sum(map(int, side)) for side in sides] == [13] * 6


def test_backs_stand_on_their_heads_for_a_printer_that_flips_on_the_long_edge() -> None:
    short, long = (
        words_by_side(imposed(8, LETTER, HALF_LETTER, flip)) for flip in (Flip.SHORT_EDGE, Flip.LONG_EDGE)
    )
    assert short == [["8", "1"], ["2", "7"], ["6", "3"], ["4", "5"]]
    assert long == [["8", "1"], ["7", "2"], ["6", "3"], ["5", "4"]]


@pytest.mark.parametrize(("press", "page"), PAPERS)
@pytest.mark.parametrize("flip", FLIPS)
def test_page_two_is_printed_behind_page_one_and_the_same_way_up(
    press: PaperStock, page: PaperStock, flip: Flip
) -> None:
    front, back, *_ = pictures_by_pdfium(imposed(8, press, page, flip))
    # Seen through the paper from the front: turned about its short edge the back is mirrored across, about
    # its long edge up and down.
    through = back[:, ::-1] if flip is Flip.SHORT_EDGE else back[::-1]
    one, two, *_ = pictures_by_pdfium(reading_pages(8, page.upright))
    assert difference(halves(front, one)[1], one) < SAME_PICTURE[press]
    assert difference(halves(through, one)[1], two[:, ::-1]) < SAME_PICTURE[press]


@pytest.mark.parametrize("flip", FLIPS)
@pytest.mark.parametrize(("press", "page"), PAPERS)
def test_renderers_open_it_without_a_warning(
    press: PaperStock, page: PaperStock, flip: Flip, capfd: pytest.CaptureFixture[str]
) -> None:
    mupdf: Any = pymupdf.TOOLS
    mupdf.reset_mupdf_warnings()
    pdf = imposed(16, press, page, flip)
    assert len(list(pictures_by_mupdf(pdf))) == len(list(pictures_by_pdfium(pdf))) == 8
    assert mupdf.mupdf_warnings() == ""
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize("flip", FLIPS)
@pytest.mark.parametrize(("press", "page"), PAPERS)
def test_qpdf_finds_nothing_wrong(press: PaperStock, page: PaperStock, flip: Flip) -> None:
    with pikepdf.open(BytesIO(imposed(16, press, page, flip))) as pdf:
        assert pdf.check_pdf_syntax() == []
        assert pdf.get_warnings() == []


@pytest.mark.parametrize("flip", FLIPS)
def test_asks_the_printer_for_both_sides_and_no_scaling(flip: Flip) -> None:
    with pikepdf.open(BytesIO(imposed(4, A4, A5, flip))) as pdf:
        preferences = pdf.Root.ViewerPreferences
        assert preferences.PrintScaling == "/None"
        assert (
            preferences.Duplex
            == {
                Flip.LONG_EDGE: "/DuplexFlipLongEdge",
                Flip.SHORT_EDGE: "/DuplexFlipShortEdge",
            }[flip]
        )


def test_carries_the_title_and_language_and_no_dates_and_no_outline() -> None:
    reading = reading_pages(4, A5.upright, outlined=True)
    with pikepdf.open(BytesIO(print_file(reading, Binding(A5, A4)))) as pdf:
        assert dict(pdf.docinfo) == {"/Title": "Tide Lines — №\u00a03"}
        assert str(pdf.Root.Lang) == "en"
        assert "/Outlines" not in pdf.Root


def test_a_booklet_without_a_title_gets_none() -> None:
    blank = pikepdf.new()
    for _ in range(4):
        blank.add_blank_page(page_size=(396, 612))
    out = BytesIO()
    blank.save(out)
    with pikepdf.open(BytesIO(print_file(out.getvalue(), Binding(HALF_LETTER, LETTER)))) as pdf:
        assert "/Title" not in pdf.docinfo


def test_the_font_is_embedded_once() -> None:
    with pikepdf.open(BytesIO(imposed(24, LETTER, HALF_LETTER, Flip.SHORT_EDGE))) as pdf:
        fonts = [
            thing for thing in pdf.objects if isinstance(thing, pikepdf.Dictionary) and "/FontFile2" in thing
        ]
        assert len(fonts) == 1


@pytest.mark.parametrize(("press", "page"), PAPERS)
def test_sides_are_whole_press_sheets(press: PaperStock, page: PaperStock) -> None:
    with pikepdf.open(BytesIO(imposed(8, press, page, Flip.SHORT_EDGE))) as pdf:
        for side in pdf.pages:
            box = [Fraction(str(edge)) for edge in side.mediabox.as_list()]
            assert box[:2] == [0, 0]
            assert abs(box[2] - press.landscape.width) <= Fraction(1, 10_000)
            assert abs(box[3] - press.landscape.height) <= Fraction(1, 10_000)


def wait_for_the_next_second() -> None:
    now = int(time.time())
    while int(time.time()) == now:
        time.sleep(0.02)


def test_the_same_bytes_in_another_second_and_in_another_process(tmp_path: Path) -> None:
    reading = reading_pages(8, HALF_LETTER.upright)
    first = print_file(reading, Binding(HALF_LETTER, LETTER, flip=Flip.LONG_EDGE))
    wait_for_the_next_second()
    assert print_file(reading, Binding(HALF_LETTER, LETTER, flip=Flip.LONG_EDGE)) == first
    (tmp_path / "reading.pdf").write_bytes(reading)
    program = (
        "import sys; from pathlib import Path\n"
        "from booklet.binding.binding import Binding, Flip\n"
        "from booklet.binding.print_file import print_file\n"
        "from booklet.binding.stock import HALF_LETTER, LETTER\n"
        "reading = Path(sys.argv[1]).read_bytes()\n"
        "pdf = print_file(reading, Binding(HALF_LETTER, LETTER, flip=Flip.LONG_EDGE))\n"
        "sys.stdout.buffer.write(pdf)"
    )
    elsewhere = subprocess.run(
        [sys.executable, "-c", program, str(tmp_path / "reading.pdf")],
        cwd=Path(__file__).parents[2],
        stdout=subprocess.PIPE,
        check=True,
    )
    assert elsewhere.stdout == first


def inked_in_fold(side: Picture) -> list[int]:
    """The rows, from the top, in which the two pixels at the fold are not white."""
    fold = side.shape[1] // 2
    return [int(row) for row in np.flatnonzero(side[:, fold - 1 : fold + 1].min(axis=1) < 250)]


def test_fold_ticks_stand_at_the_edges_of_the_outside_only() -> None:
    outside, *others = pictures_by_pdfium(imposed(12, LETTER, HALF_LETTER, Flip.SHORT_EDGE))
    rows = inked_in_fold(outside)
    # 1/6 in that printers leave blank and 3 mm to be seen: 12 + 8.5 points at the top, as much at the bottom.
    tick = 41 * SCALE // 2
    assert rows == [*range(tick), *range(612 * SCALE - tick, 612 * SCALE)]
    assert all(inked_in_fold(side) == [] for side in others)


def test_fold_ticks_lie_under_what_the_pages_print() -> None:
    out = BytesIO()
    canvas = Canvas(out, pagesize=(396, 612), invariant=1)
    for _ in range(4):
        canvas.setFillGray(1)
        canvas.rect(0, 0, 396, 612, stroke=0, fill=1)
        canvas.showPage()
    canvas.save()
    outside, _ = pictures_by_pdfium(print_file(out.getvalue(), Binding(HALF_LETTER, LETTER)))
    assert inked_in_fold(outside) == []


def test_the_trim_box_is_what_is_imposed() -> None:
    """A page with bleed round it shows what lies inside its trim box, at the same place."""
    trimmed = pikepdf.open(BytesIO(reading_pages(4, HALF_LETTER.upright)))
    for page in trimmed.pages:
        page.contents_add(b"1 0 0 1 9 9 cm", prepend=True)
        page.mediabox = pikepdf.Array([0, 0, 396 + 18, 612 + 18])
        page.cropbox = page.mediabox
        page.trimbox = pikepdf.Array([9, 9, 396 + 9, 612 + 9])
    out = BytesIO()
    trimmed.save(out)
    with_bleed = print_file(out.getvalue(), Binding(HALF_LETTER, LETTER))
    without = imposed(4, LETTER, HALF_LETTER, Flip.SHORT_EDGE)
    for one, other in zip(pictures_by_pdfium(with_bleed), pictures_by_pdfium(without), strict=True):
        assert difference(one, other) == 0


def test_a_page_slightly_too_wide_does_not_cross_the_fold() -> None:
    """Page 8, black from edge to edge and 0.09 pt too wide, leaves page 1 beside it white."""
    out = BytesIO()
    canvas = Canvas(out, pagesize=(396.09, 612), invariant=1)
    for page in range(1, 9):
        if page != 1:
            canvas.rect(0, 0, 397, 612, stroke=0, fill=1)
        canvas.showPage()
    canvas.save()
    pdf = print_file(out.getvalue(), Binding(HALF_LETTER, LETTER))
    outside = next(pictures_by_pdfium(pdf))
    first = outside[30 * SCALE : -30 * SCALE, outside.shape[1] // 2 :]  # between the fold ticks
    assert set(np.unique(first)) == {255}


def test_refuses_a_sheet_that_is_too_small() -> None:
    with pytest.raises(StockTooSmallError, match=r"A4 is 210 mm: 5\.9 mm too low"):
        imposed(4, A4, HALF_LETTER, Flip.SHORT_EDGE)


def test_refuses_pages_of_another_size_rather_than_scaling_them() -> None:
    with pytest.raises(PageSizeError, match="page 1 "):
        print_file(reading_pages(4, A5.upright), Binding(HALF_LETTER, LETTER))


def test_refuses_a_page_that_lies_on_its_side() -> None:
    with pikepdf.open(BytesIO(reading_pages(4, A5.upright))) as pdf:
        pdf.pages[2].Rotate = 90
        out = BytesIO()
        pdf.save(out)
    with pytest.raises(PageSizeError, match="page 3 "):
        print_file(out.getvalue(), Binding(A5, A4))


def test_refuses_pages_that_do_not_fill_the_sheets() -> None:
    with pytest.raises(PageCountError):
        imposed(6, LETTER, HALF_LETTER, Flip.SHORT_EDGE)


@pytest.mark.parametrize("rubbish", [b"", b"not a PDF at all", b"%PDF-1.4\n%%EOF"])
def test_refuses_what_is_no_pdf(rubbish: bytes) -> None:
    with pytest.raises(UnreadablePagesError):
        print_file(rubbish, Binding(HALF_LETTER, LETTER))
