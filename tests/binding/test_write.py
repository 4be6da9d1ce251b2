"""The writer of imposed sides: what lies in the file, with bleed and marks of one's own."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from io import BytesIO
from typing import Any

import numpy as np
import pikepdf
import pymupdf
import pytest

from booklet.binding.binding import Binding, Flat, Flip, Folded
from booklet.binding.errors import PageSizeError
from booklet.binding.lay import impose
from booklet.binding.print_file import OutputStack, both_sides, print_file, print_files_by_hand
from booklet.binding.sides import ImposedSide
from booklet.binding.stock import A3, A4, A5, SRA3
from booklet.binding.write import assemble, opened_pages, saved
from booklet.measure.length import Unit
from tests.bindery.sources import numbered_booklet

MM = Unit.MILLIMETRE.points
A5_SIZE = (float(A5.upright.width), float(A5.upright.height))


def opened(pdf: bytes) -> pikepdf.Pdf:
    return pikepdf.open(BytesIO(pdf))


def forms(pdf: pikepdf.Pdf) -> list[Any]:
    return [
        thing
        for thing in pdf.objects
        if isinstance(thing, pikepdf.Stream) and thing.get("/Subtype") == "/Form"
    ]


@pytest.mark.parametrize(
    "binding", [Binding(A5, A4), Binding(A5, A3, copies=2), Binding(A5, A3, Flat(), copies=4)]
)
def test_each_page_lies_in_the_file_once_whatever_the_copies(binding: Binding) -> None:
    with opened(print_file(numbered_booklet(8, A5_SIZE), binding)) as pdf:
        assert len(forms(pdf)) == 8


def test_fronts_and_backs_hold_the_pages_of_their_sides_alone() -> None:
    for file in print_files_by_hand(numbered_booklet(8, A5_SIZE), Binding(A5, A4), OutputStack.FACE_UP):
        with opened(file) as pdf:
            assert len(forms(pdf)) == 4
            assert pdf.Root.ViewerPreferences.Duplex == "/Simplex"
            assert pdf.Root.ViewerPreferences.PrintScaling == "/None"


def boxes(page: pikepdf.Page) -> list[list[Fraction]]:
    return [
        [Fraction(str(edge)) for edge in box.as_list()]
        for box in (page.trimbox, page.bleedbox, page.mediabox)
    ]


@pytest.mark.parametrize("flip", Flip)
def test_the_boxes_of_a_side_are_those_of_its_layout_and_nested(flip: Flip) -> None:
    """ISO 32000-1, 14.11.2 (from memory): trim within bleed within media."""
    binding = Binding(A5, SRA3, Folded(), flip=flip)
    sides = both_sides(impose(8, binding))
    with opened(print_file(numbered_booklet(8, A5_SIZE), binding)) as pdf:
        for page, side in zip(pdf.pages, sides, strict=True):
            trim, bleed, media = boxes(page)
            wanted = [side.trim.left, side.trim.bottom, side.trim.right, side.trim.top]
            assert [float(edge) for edge in trim] == pytest.approx([float(edge) for edge in wanted], abs=1e-4)
            for inner, outer in ((trim, bleed), (bleed, media)):
                assert outer[0] <= inner[0] < inner[2] <= outer[2]
                assert outer[1] <= inner[1] < inner[3] <= outer[3]


# Pages with bleed, as a print shop takes them.


def with_bleed(page_count: int, bleed: Fraction) -> bytes:
    """Pages of A5 that are grey beyond their trim, as far as they go, and white within."""
    width, height = A5.upright.width, A5.upright.height
    pdf = pikepdf.new()
    for _ in range(page_count):
        pdf.add_blank_page(page_size=(float(width + 2 * bleed), float(height + 2 * bleed)))
        page = pdf.pages[-1]
        edges = [bleed, bleed, bleed + width, bleed + height]
        page.trimbox = pikepdf.Array([round(float(edge), 4) for edge in edges])
        page.bleedbox = page.mediabox
        inside = f"{float(bleed)} {float(bleed)} {float(width)} {float(height)} re f"
        page.obj.Contents = pdf.make_stream(f"0.5 g 0 0 9999 9999 re f 1 g {inside}".encode())
    out = BytesIO()
    pdf.save(out)
    return out.getvalue()


def no_marks(side: ImposedSide) -> Iterator[str]:
    assert side.bleed.size.width > side.trim.size.width
    yield from ()


def test_bleed_shows_round_the_trim_and_nowhere_at_the_fold() -> None:
    binding = Binding(A5, A3, bleed=3 * MM)
    side, *_ = both_sides(impose(4, binding))
    with opened_pages(with_bleed(4, 3 * MM)) as source:
        pdf = saved(assemble(source, [side], binding, no_marks))
    pixels = picture(pdf)
    grey = (pixels > 100) & (pixels < 160)
    left, right = (round(float(edge)) for edge in (side.trim.left, side.trim.right))
    middle, row = pixels.shape[1] // 2, pixels.shape[0] // 2
    assert grey[row, left - 7 : left - 2].all()
    assert grey[row, right + 2 : right + 7].all()
    # The fold lies within a pixel, in which two edges meet; bleed would be eight wide.
    assert grey[row, left + 2 : right - 2].sum() <= 1
    assert (pixels[row, : left - 10] == 255).all()  # no farther than the bleed
    top = round(float(side.size.height - side.trim.top))
    assert grey[top - 7 : top - 2, middle].all()


def picture(pdf: bytes) -> Any:
    open_document: Any = pymupdf.open
    with open_document(stream=pdf, filetype="pdf") as document:
        pixels = document[0].get_pixmap(colorspace=pymupdf.csGRAY)
        return np.frombuffer(pixels.samples, dtype=np.uint8).reshape(pixels.h, -1)


def test_a_page_with_less_bleed_than_is_wanted_is_refused() -> None:
    binding = Binding(A5, A3, bleed=3 * MM)
    with (
        opened_pages(with_bleed(4, 2 * MM)) as source,
        pytest.raises(PageSizeError, match="page 1 lacks"),
    ):
        assemble(source, both_sides(impose(4, binding)), binding, no_marks)


def test_marks_are_what_the_caller_draws_and_the_file_takes_more() -> None:
    binding = Binding(A5, A3, bleed=3 * MM)
    with opened_pages(with_bleed(4, 3 * MM)) as source:
        target = assemble(source, both_sides(impose(4, binding)), binding, lambda side: [f"% {side.sheet}"])
        target.pages[0].Resources.ColorSpace = pikepdf.Dictionary(All=pikepdf.Name.DeviceGray)
        with opened(saved(target)) as pdf:
            assert pdf.pages[1].Contents.read_bytes().startswith(b"% 0\n")
            assert "/All" in pdf.pages[0].Resources.ColorSpace
