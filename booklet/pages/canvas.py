"""The canvas that a booklet is written on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from booklet.drawing.writers.inks import SCREEN, Inks
from booklet.drawing.writers.pattern_canvas import PatternCanvas
from booklet.drawing.writers.pdf_writer import PdfResources

_THIN_GREY, _THIN_ALPHA = 0.5, 0.26


class BookletCanvas(PatternCanvas):
    """A canvas that knows what figures have put into the document, and on which page each anchor lies."""

    def __init__(self, *args: Any, page_of: Mapping[str, int], inks: Inks = SCREEN, **options: Any) -> None:
        super().__init__(*args, **options)
        self.resources = PdfResources(self, inks)
        self.page_of = page_of

    def set_thin(self) -> int | None:
        """Write what is read through from now on; returns the mode in which letters are drawn."""
        self.setFillGray(_THIN_GREY)
        self.setFillAlpha(_THIN_ALPHA)
        return None

    def endForm(self, **attributes: Any) -> None:  # noqa: N802 (a method of the canvas)
        """End a form.  Its operators are ASCII: reportlab, not knowing that, looks up each letter of them."""
        operators = "\n".join([self._preamble, *self._code])
        self._code = []
        super().endForm(stream=operators.encode("ascii"), **attributes)
