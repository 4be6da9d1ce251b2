"""A booklet on each size of page that a kit may ask for: it is laid out, printed at home and proved.

Letter and A4 are nearly of one size, so are the squares: of each two one is for a demo, one for a small kit.
"""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO

import pytest
from pypdf import PdfReader

from booklet.cli.report import has_errors
from booklet.measure.length import Unit
from booklet.proof.findings import kit_findings
from tests.finished.kits import PLAIN
from tests.spec_data import demo_data, loaded_data
from tests.tampering.kinds import Of
from tests.tampering.proved import Made, booklet_of, caught_by, made, whole_proof


def of_a_demo(page: str) -> Made:
    return booklet_of(loaded_data(demo_data("roof-garden") | {"page": page}))


def of_a_small_kit(page: str) -> Made:
    return made(f"{PLAIN}page: {page}\n")


# Sides of the page and of the press sheet: ASME Y14.1 for Letter and Tabloid, ISO 216 for A3 and A4, both
# from memory; Legal is 8 1/2 x 14 in, common practice, no source.
SIZES = [
    ("letter", of_a_demo, ((8.5, 11), (17, 11)), Unit.INCH),
    ("a4", of_a_small_kit, ((210, 297), (420, 297)), Unit.MILLIMETRE),
    ("square 6 in", of_a_small_kit, ((6, 6), (14, 8.5)), Unit.INCH),
    ("square 15 cm", of_a_demo, ((150, 150), (420, 297)), Unit.MILLIMETRE),
]
POINTS = {Unit.INCH: 72.0, Unit.MILLIMETRE: 72 / 25.4}


@pytest.mark.parametrize(("page", "booklet_on", "sizes", "unit"), SIZES, ids=[page for page, *_ in SIZES])
def test_a_kit_is_made_and_proved_on_pages_of_each_size(
    page: str, booklet_on: Callable[[str], Made], sizes: tuple[tuple[float, float], ...], unit: Unit
) -> None:
    booklet = booklet_on(page)
    assert not has_errors(kit_findings(booklet.expected.resolved))
    proof = whole_proof(booklet)
    assert caught_by(proof) == ()
    assert proof.holds
    for of, size in zip((Of.READING, Of.PRINT), sizes, strict=True):
        pages = PdfReader(BytesIO(booklet.files[of])).pages
        found = {(float(one.mediabox.width), float(one.mediabox.height)) for one in pages}
        (only,) = found
        assert only == pytest.approx([side * POINTS[unit] for side in size], abs=0.01)
