"""The faces as reportlab knows them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from booklet.drawing.shapes.fonts import Font, font_file

if TYPE_CHECKING:
    from reportlab.pdfbase.ttfonts import TTFont

# So many parts of faces are kept: what a page shows of each is mostly what the page before it showed.
_PARTS = 64


@lru_cache
def pdf_font_name(font: Font) -> str:
    """The name under which reportlab knows a face; registers it on the first call."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    face = TTFont(font.value, str(font_file(font)))
    _keep_parts(face)
    pdfmetrics.registerFont(face)
    return font.value


def _keep_parts(font: TTFont) -> None:
    """Have a face not cut down again to characters that it was cut down to before, for another document."""
    make = font.face.makeSubset

    @lru_cache(_PARTS)
    def made(characters: tuple[int, ...]) -> bytes:
        part: bytes = make(characters)
        return part

    def kept(characters: Sequence[int]) -> bytes:
        return made(tuple(characters))

    font.face.makeSubset = kept
