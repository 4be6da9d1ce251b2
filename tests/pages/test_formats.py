"""A booklet on each size of page that a kit may ask for: it is laid out, printed at home and proved."""

from __future__ import annotations

from io import BytesIO

import pytest
from pypdf import PdfReader

from booklet.cli.report import has_errors
from booklet.measure.length import Unit
from booklet.proof.findings import kit_findings
from tests.cli.runs import SMALL_SPEC
from tests.spec_data import DEMOS, data_of, demo_data, loaded_data
from tests.tampering.kinds import Of
from tests.tampering.proved import booklet_of, caught_by, whole_proof

# Sides of the page and of the press sheet: ASME Y14.1 for Letter and Tabloid, ISO 216 for A3 and A4, both
# from memory; Legal is 8 1/2 x 14 in, common practice, no source.
INCHES = {"letter": ((8.5, 11), (17, 11)), "square 6 in": ((6, 6), (14, 8.5))}
MILLIMETRES = {"a4": ((210, 297), (420, 297)), "square 15 cm": ((150, 150), (420, 297))}
POINTS = {Unit.INCH: 72.0, Unit.MILLIMETRE: 72 / 25.4}


@pytest.mark.parametrize("kit", ["a small kit", pytest.param("roof-garden", marks=pytest.mark.thorough)])
@pytest.mark.parametrize(
    ("page", "sizes", "unit"),
    [(page, sizes, Unit.INCH) for page, sizes in INCHES.items()]
    + [(page, sizes, Unit.MILLIMETRE) for page, sizes in MILLIMETRES.items()],
)
def test_a_kit_is_made_and_proved_on_pages_of_each_size(
    kit: str, page: str, sizes: tuple[tuple[float, float], ...], unit: Unit
) -> None:
    data = demo_data(kit) if kit in DEMOS else data_of(SMALL_SPEC)
    booklet = booklet_of(loaded_data(data | {"page": page}))
    assert not has_errors(kit_findings(booklet.expected.resolved))
    proof = whole_proof(booklet)
    assert caught_by(proof) == ()
    assert proof.holds
    for of, size in zip((Of.READING, Of.PRINT), sizes, strict=True):
        pages = PdfReader(BytesIO(booklet.files[of])).pages
        found = {(float(one.mediabox.width), float(one.mediabox.height)) for one in pages}
        (only,) = found
        assert only == pytest.approx([side * POINTS[unit] for side in size], abs=0.01)
