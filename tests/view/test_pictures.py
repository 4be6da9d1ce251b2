"""Pages as pictures: as another library reads them, and what of a picture is not as before."""

from __future__ import annotations

from functools import cache
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from pypdfium2 import PdfDocument, PdfImage, PdfPage
from reportlab.pdfgen.canvas import Canvas

from booklet.kit.load import load_kit, parse_kit
from booklet.pages.again import write_page_alone
from booklet.pages.booklet import make_booklet
from booklet.pages.compose import page_numbers
from booklet.placing.resolved import resolve_kit
from booklet.view.pictures import Pictures, WrittenPage, changed_part, differing, pixels, png_of, written_page
from tests.finished.kits import PLAIN
from tests.once import laid_once, written_once

KITS = Path(__file__).parents[2] / "kit_specs"


@cache
def cover(title: str) -> WrittenPage:
    """The front cover of a small kit with another title."""
    text = PLAIN.replace(f"title: {TITLE}", f"title: {title}", 1)
    laid = make_booklet(resolve_kit(parse_kit(text, "kit.yaml", KITS)))
    return written_page(1, write_page_alone(laid.setup, laid.pages[0], 1, page_numbers(laid.pages)))


TITLE = parse_kit(PLAIN, "kit.yaml", KITS).kit.title


def test_a_png_holds_the_pixels_that_were_rendered() -> None:
    rows = pixels(cover(TITLE).pdf, 211)
    assert rows.shape[1] == 211
    read = np.asarray(Image.open(BytesIO(png_of(rows))))
    assert (read == rows).all()
    assert len(np.unique(rows)) > 20


@pytest.mark.parametrize("page", [(396, 612), (148 * 72 / 25.4, 210 * 72 / 25.4)], ids=["half letter", "a5"])
def test_a_picture_is_exactly_as_wide_as_asked(page: tuple[float, float]) -> None:
    """A patch is laid over a picture of its own width alone."""
    written = BytesIO()
    canvas = Canvas(written, pagesize=page)
    canvas.showPage()
    canvas.save()
    for width in range(200, 600):
        high, wide, _ = pixels(written.getvalue(), width).shape
        assert wide == width
        assert abs(high - width * page[1] / page[0]) < 1


def test_an_equal_page_has_an_equal_digest_and_another_one_has_not() -> None:
    written_anew = cover.__wrapped__(TITLE)
    assert written_anew is not cover(TITLE)
    assert cover(TITLE).digest == written_anew.digest
    assert cover(TITLE).digest != cover("Another").digest


def test_what_a_save_changes_on_a_page_is_found() -> None:
    assert changed_part(cover(TITLE).pdf, cover(TITLE).pdf) is None
    part = changed_part(cover(TITLE).pdf, cover("Another").pdf)
    assert part is not None
    left, top, right, bottom = part
    assert 0 < left < right < 1
    assert 0 < top < bottom < 0.6  # the title stands about the middle


def test_a_page_looks_as_it_does_in_the_booklet_with_fewer_pixels_of_its_photographs() -> None:
    laid = laid_once(resolve_kit(load_kit(KITS / "hill-line.yaml")))
    numbers = page_numbers(laid.pages)
    number = numbers["layout-meadow-crossing"]
    alone = write_page_alone(laid.setup, laid.pages[number - 1], number, numbers).pdf
    bound = PdfDocument(written_once(laid))[number - 1]
    shown, whole = pixels(alone, 800), bound.render(scale=800 / bound.get_width(), rev_byteorder=True)
    difference = np.abs(shown.astype(int) - whole.to_numpy())
    # Where a photograph was made smaller its edges are a little softer.
    assert difference.mean() < 0.1
    assert (difference > 32).mean() < 0.001
    assert 0 < pixels_of_images(PdfDocument(alone)[0]) < pixels_of_images(bound) / 4


def pixels_of_images(page: PdfPage) -> int:
    """How many pixels the pictures have that a page shows, each counted once."""
    images = [each for each in page.get_objects(max_depth=6) if isinstance(each, PdfImage)]
    return sum(wide * high for wide, high in {image.get_px_size() for image in images})


@pytest.mark.parametrize(
    ("changed", "box"), [([(3, 5)], (5, 3, 6, 4)), ([(0, 0), (9, 19)], (0, 0, 20, 10)), ([], None)]
)
def test_pictures_differ_in_a_box_about_all_that_differs(
    changed: list[tuple[int, int]], box: tuple[int, int, int, int] | None
) -> None:
    before = np.zeros((10, 20, 3), np.uint8)
    now = before.copy()
    for row, column in changed:
        now[row, column, 2] = 1
    assert differing(before, now) == box
    assert differing(before, now[:5]) == (0, 0, 20, 5)


def test_a_patch_makes_the_new_picture_of_the_old_one() -> None:
    pictures, width = Pictures(), 240
    for page in (cover(TITLE), cover("Another")):
        pictures.add(page)
    old, new = cover(TITLE).digest, cover("Another").digest
    assert pictures.patch(old, new, width) is None  # no browser has the old one so wide
    before = Image.open(BytesIO(pictures.png(old, width) or b"")).convert("RGB")
    patch = pictures.patch(old, new, width)
    assert patch is not None
    before.paste(Image.open(BytesIO(patch.png)), patch.box[:2])
    after = Image.open(BytesIO(pictures.png(new, width) or b""))
    assert (np.asarray(before) == np.asarray(after)).all()
    assert len(patch.png) < len(pictures.png(new, width) or b"")


def test_a_page_that_is_no_longer_shown_has_no_picture() -> None:
    pictures = Pictures()
    pictures.add(cover(TITLE))
    pictures.hold({"other": b""})
    assert pictures.png(cover(TITLE).digest, 100) is None
