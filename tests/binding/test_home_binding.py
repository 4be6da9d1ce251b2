"""The booklet on the paper of a home printer."""

from __future__ import annotations

from io import BytesIO

import pikepdf
import pytest

from booklet.binding.binding import Flip, home_binding
from booklet.binding.print_file import print_file
from booklet.binding.stock import A5, HALF_LETTER, STOCK_OF, PaperStock
from booklet.kit.kit import PageFormat


def blank_booklet(page_count: int, page: PaperStock) -> bytes:
    pdf = pikepdf.new()
    for _ in range(page_count):
        pdf.add_blank_page(page_size=(float(page.upright.width), float(page.upright.height)))
    out = BytesIO()
    pdf.save(out)
    return out.getvalue()


# A4 is 210 x 297 mm: 595.28 x 841.89 points.  Letter is 8 1/2 x 11 in: 612 x 792 points.
@pytest.mark.parametrize(
    ("format_", "page", "sheet"),
    [(PageFormat.HALF_LETTER, HALF_LETTER, (792, 612)), (PageFormat.A5, A5, (841.89, 595.28))],
)
@pytest.mark.parametrize(
    ("flip", "duplex"), [(Flip.LONG_EDGE, "/DuplexFlipLongEdge"), (Flip.SHORT_EDGE, "/DuplexFlipShortEdge")]
)
def test_each_page_format_has_its_sheet(
    format_: PageFormat, page: PaperStock, sheet: tuple[float, float], flip: Flip, duplex: str
) -> None:
    with pikepdf.open(BytesIO(print_file(blank_booklet(8, page), home_binding(format_, flip)))) as pdf:
        boxes = [[float(str(edge)) for edge in side.mediabox.as_list()] for side in pdf.pages]
        assert boxes == [pytest.approx([0, 0, *sheet], abs=0.01)] * 4
        assert duplex == pdf.Root.ViewerPreferences.Duplex


def test_every_page_format_can_be_printed_at_home() -> None:
    for format_ in PageFormat:
        assert print_file(blank_booklet(4, STOCK_OF[format_][0]), home_binding(format_)).startswith(b"%PDF")
