"""A booklet on each size of page that a kit may ask for: it is laid out, printed at home and proved."""

from __future__ import annotations

import json
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from booklet.cli.main import main
from booklet.measure.length import Unit
from tests.spec_data import demo_data

# Sides of the page and of the press sheet: ASME Y14.1 for Letter and Tabloid, ISO 216 for A3 and A4, both
# from memory; Legal is 8 1/2 x 14 in, common practice, no source.
INCHES = {"letter": ((8.5, 11), (17, 11)), "square 6 in": ((6, 6), (14, 8.5))}
MILLIMETRES = {"a4": ((210, 297), (420, 297)), "square 15 cm": ((150, 150), (420, 297))}
POINTS = {Unit.INCH: 72.0, Unit.MILLIMETRE: 72 / 25.4}


@pytest.mark.parametrize(
    ("page", "sizes", "unit"),
    [(page, sizes, Unit.INCH) for page, sizes in INCHES.items()]
    + [(page, sizes, Unit.MILLIMETRE) for page, sizes in MILLIMETRES.items()],
)
def test_a_kit_is_made_and_proved_on_pages_of_each_size(
    page: str, sizes: tuple[tuple[float, float], ...], unit: Unit, tmp_path: Path
) -> None:
    spec = tmp_path / "kit.yaml"
    spec.write_text(json.dumps(demo_data("roof-garden") | {"page": page}), encoding="utf-8")
    assert main(["make", str(spec), "--proof", "--out", str(tmp_path / "out")]) == 0
    for name, size in zip(("kit-read.pdf", "kit-print.pdf"), sizes, strict=True):
        pages = PdfReader(BytesIO((tmp_path / "out" / name).read_bytes())).pages
        found = {(float(one.mediabox.width), float(one.mediabox.height)) for one in pages}
        (only,) = found
        assert only == pytest.approx([side * POINTS[unit] for side in size], abs=0.01)
