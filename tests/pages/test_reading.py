"""The reading of pages itself, on pages whose texts are known."""

from __future__ import annotations

from io import BytesIO

import pypdfium2 as pdfium
import pytest
from reportlab.pdfgen.canvas import Canvas

from booklet.drawing.shapes.fonts import Font, pdf_font_name
from tests.pages.reading import LETTER_SPACE, Run, overlaps, runs_of


def page_with(*texts: tuple[str, float, float], size: float = 10, turned: float = 0) -> pdfium.PdfPage:
    """A page with texts from their lower left corners, all turned by degrees to the left about (100, 100)."""
    out = BytesIO()
    canvas = Canvas(out, pagesize=(400, 400))
    canvas.translate(100, 100)
    canvas.rotate(turned)
    canvas.scale(size, size)
    canvas.setFont(pdf_font_name(Font.SANS), 1)
    for text, x, y in texts:
        canvas.drawString(x / size, y / size, text)
    canvas.save()
    return pdfium.PdfDocument(out.getvalue())[0]


def runs(*texts: tuple[str, float, float], turned: float = 0) -> list[Run]:
    return runs_of(page_with(*texts, turned=turned))


def test_type_is_as_large_as_it_is_printed() -> None:
    (run,) = runs_of(page_with(("Sheet 1", 0, 0), size=9))
    assert run.letters[0].size == pytest.approx(9, abs=1e-4)


@pytest.mark.parametrize("turned", [0, 90, -90])
def test_words_of_a_line_are_one_run(turned: float) -> None:
    (run,) = runs(("Cut at 7, then at 2", 0, 0), turned=turned)
    assert run.text == "Cutat7,thenat2"


@pytest.mark.parametrize("turned", [0, 90])
def test_texts_apart_are_two_runs_and_do_not_overlap(turned: float) -> None:
    found = runs(("Cut at 7", 0, 0), ("Cut at 2", 60, 0), ("Cut at 1", 0, 12), turned=turned)
    assert [run.text for run in found] == ["Cutat7", "Cutat2", "Cutat1"]
    assert list(overlaps(found)) == []


@pytest.mark.parametrize(("x", "y"), [(20, 0), (0, 3), (-15, -2), (0.5, 0)])
@pytest.mark.parametrize("turned", [0, 90, 30])
def test_texts_over_each_other_are_told(x: float, y: float, turned: float) -> None:
    found = runs(("Cut at 7", 0, 0), ("mind the print", x, y), turned=turned)
    (told,) = overlaps(found)
    assert set(told) == {"Cutat7", "mindtheprint"}


def test_a_narrow_gap_parts_words_where_that_is_asked_for() -> None:
    page = page_with(("1 3/4", 0, 0), ("1", 24, 0))
    assert [run.text for run in runs_of(page)] == ["13/41"]
    assert [run.text for run in runs_of(page, LETTER_SPACE)] == ["1", "3/4", "1"]


def test_a_number_printed_into_a_text_is_told() -> None:
    assert list(overlaps(runs(("carriage band", 0, 0), ("7", 24, 1)))) == [("carriageband", "7")]
