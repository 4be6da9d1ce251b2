"""The print file for a home printer: which press sheet each page format goes on."""

from __future__ import annotations

from booklet.binding.impose import Flip, impose
from booklet.binding.stock import A4, A5, HALF_LETTER, LETTER, in_points
from booklet.kit.kit import PageFormat
from booklet.measure.length import Size

_STOCK = {PageFormat.HALF_LETTER: (HALF_LETTER, LETTER), PageFormat.A5: (A5, A4)}


def print_at_home(read_pdf: bytes, page: PageFormat, flip: Flip) -> bytes:
    """The booklet two pages to a side, on Letter or A4 as its page format asks, for a duplex printer."""
    page_stock, sheet_stock = _STOCK[page]
    return impose(read_pdf, in_points(sheet_stock).turned, in_points(page_stock), flip)


__all__ = ["Flip", "Size", "print_at_home"]
