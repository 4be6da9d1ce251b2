"""The print file for a home printer: which press sheet each page format goes on."""

from __future__ import annotations

from booklet.binding.impose import Flip, impose
from booklet.binding.stock import A4, A5, HALF_LETTER, LETTER
from booklet.kit.kit import PageFormat

_STOCK = {PageFormat.HALF_LETTER: (HALF_LETTER, LETTER), PageFormat.A5: (A5, A4)}


def print_at_home(read_pdf: bytes, page: PageFormat, flip: Flip) -> bytes:
    """The booklet two pages to a side, on Letter or A4 as its page format asks, for a duplex printer.

    The pages do not move towards the spine in the inner sheets: what is folded at home is not trimmed after.
    """
    page_stock, sheet_stock = _STOCK[page]
    return impose(read_pdf, sheet_stock.landscape, page_stock.upright, flip)
