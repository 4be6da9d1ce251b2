"""The faces as reportlab knows them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, Any

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
    _keep_widths(face)
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


def _keep_widths(font: TTFont) -> None:
    """Have the widths of a face not put in words again, which is most of what its few objects take."""
    from reportlab.pdfbase.pdfdoc import PDFArray, PDFObject

    add_objects = font.addObjects

    @lru_cache(_PARTS)
    def words(widths: tuple[float, ...]) -> bytes:
        written: bytes = PDFArray(widths).format(None)
        return written

    class Widths(PDFObject):  # type: ignore[misc]  # reportlab carries no types
        def __init__(self, widths: Sequence[float]) -> None:
            self._widths = tuple(widths)

        def format(self, document: object) -> bytes:  # noqa: ARG002 (reportlab calls it so)
            return words(self._widths)

    def add_kept(document: Any) -> None:
        add_objects(document)
        for each in document.idToObject["BasicFonts"].dict.values():
            if isinstance(getattr(each, "Widths", None), PDFArray):
                each.Widths = Widths(each.Widths.sequence)

    font.addObjects = add_kept
