"""The faces as reportlab knows them."""

from __future__ import annotations

from functools import lru_cache

from booklet.drawing.shapes.fonts import Font, font_file


@lru_cache
def pdf_font_name(font: Font) -> str:
    """The name under which reportlab knows a face; registers it on the first call."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    pdfmetrics.registerFont(TTFont(font.value, str(font_file(font))))
    return font.value
