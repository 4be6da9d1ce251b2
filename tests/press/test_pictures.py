"""Pictures of a press file are no finer than a press can show, and have no more ink than they had."""

from __future__ import annotations

from io import BytesIO
from typing import Any
from zlib import compress

import numpy as np
import pikepdf
import pytest

from booklet.binding.pictures import make_coarser

Name, Array, Dictionary = pikepdf.Name, pikepdf.Array, pikepdf.Dictionary
rng = np.random.default_rng(7)


def picture(pdf: Any, wide: int, high: int, space: str = "DeviceCMYK") -> Any:
    inks = 4 if space == "DeviceCMYK" else 1
    samples = rng.integers(0, 170, (high, wide, inks), dtype=np.uint8)
    stream = pdf.make_stream(b"")
    stream.write(compress(samples.tobytes()), filter=Name.FlateDecode)
    stream.Type, stream.Subtype = Name.XObject, Name.Image
    stream.Width, stream.Height, stream.BitsPerComponent = wide, high, 8
    stream.ColorSpace = Name(f"/{space}")
    return stream


def page_with(pdf: Any, content: str, **things: Any) -> None:
    pdf.add_blank_page(page_size=(600, 600))
    page = pdf.pages[-1].obj
    page.Resources = Dictionary(XObject=Dictionary(**things))
    page.Contents = pdf.make_stream(content.encode())


def form(pdf: Any, content: str, matrix: list[float], **things: Any) -> Any:
    made = pdf.make_stream(
        content.encode(), Type=Name.XObject, Subtype=Name.Form, BBox=Array([0, 0, 600, 600])
    )
    made.Matrix = Array(matrix)
    made.Resources = Dictionary(XObject=Dictionary(**things))
    return made


def test_a_picture_keeps_three_hundred_dots_to_the_inch_where_it_is_largest() -> None:
    pdf = pikepdf.new()
    fine = picture(pdf, 1200, 900)
    inner = form(pdf, "q 0.5 0 0 0.5 0 0 cm /Fine Do Q", [2, 0, 0, 2, 0, 0], Fine=fine)
    # In inches 1 x 1 on the first page, turned and 2 x 1 on the second.
    page_with(pdf, "q 72 0 0 72 9 9 cm /Inner Do Q", Inner=inner)
    page_with(pdf, "q 0 144 -72 0 300 9 cm /Inner Do Q /Inner Do", Inner=inner)
    make_coarser(pdf)
    assert (fine.Width, fine.Height) == (600, 300)
    assert len(fine.read_bytes()) == 600 * 300 * 4


def test_a_picture_that_is_not_finer_keeps_its_pixels() -> None:
    pdf = pikepdf.new()
    coarse, nearly = picture(pdf, 120, 90), picture(pdf, 310, 310, "DeviceGray")
    before = coarse.read_raw_bytes(), nearly.read_raw_bytes()
    page_with(pdf, "q 72 0 0 72 9 9 cm /A Do /B Do Q", A=coarse, B=nearly)
    make_coarser(pdf)
    assert (coarse.read_raw_bytes(), nearly.read_raw_bytes()) == before


@pytest.mark.parametrize("space", ["DeviceCMYK", "DeviceGray"])
def test_no_place_has_more_ink_than_before(space: str) -> None:
    pdf = pikepdf.new()
    fine = picture(pdf, 1000, 1000, space)
    inks = 4 if space == "DeviceCMYK" else 1
    before = np.frombuffer(fine.read_bytes(), np.uint8).reshape(-1, inks).sum(axis=1).max()
    page_with(pdf, "q 36 0 0 36 9 9 cm /A Do Q", A=fine)
    make_coarser(pdf)
    after = np.frombuffer(fine.read_bytes(), np.uint8).reshape(-1, inks).sum(axis=1)
    assert after.size == 150 * 150
    assert after.max() <= before


def test_a_picture_that_no_page_shows_is_left_alone() -> None:
    pdf = pikepdf.new()
    fine = picture(pdf, 900, 900)
    page_with(pdf, "", A=fine)
    make_coarser(pdf)
    out = BytesIO()
    pdf.save(out)
    assert fine.Width == 900
