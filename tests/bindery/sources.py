"""Small booklets in reading order, of pages that are unlike each other, and unlike themselves turned."""

from __future__ import annotations

from functools import cache
from io import BytesIO

from reportlab.pdfgen.canvas import Canvas

# The white along the edges, in points: wider than any mark that reaches into a page.
MARGIN = 28.0
_CELL = 24.0
_BITS = 7


@cache
def numbered_booklet(page_count: int, size: tuple[float, float]) -> bytes:
    """A booklet of pages of this size in points.

    Each has a frame, a large block at its top left, a small one at its bottom right, and between them its
    number in blocks: the binary digits from the left.
    """
    out, (width, height) = BytesIO(), size
    canvas = Canvas(out, pagesize=size, invariant=1, initialFontName="Helvetica")
    for number in range(1, page_count + 1):
        canvas.setLineWidth(3)
        canvas.rect(MARGIN, MARGIN, width - 2 * MARGIN, height - 2 * MARGIN)
        canvas.rect(MARGIN + 8, height - MARGIN - 8 - 2 * _CELL, 3 * _CELL, 2 * _CELL, stroke=0, fill=1)
        canvas.rect(width - MARGIN - 8 - _CELL, MARGIN + 8, _CELL, _CELL, stroke=0, fill=1)
        for place in range(_BITS):
            if number >> (_BITS - 1 - place) & 1:
                left = MARGIN + 12 + place * (_CELL + 8)
                canvas.rect(left, height / 2, _CELL, 2 * _CELL, stroke=0, fill=1)
        canvas.showPage()
    canvas.save()
    return out.getvalue()
