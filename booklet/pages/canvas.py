"""The canvas that a booklet is written on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from reportlab.lib.colors import toColor
from reportlab.pdfgen.textobject import PDFTextObject

from booklet.drawing.shapes.figure import Colour, colour_from_rgb
from booklet.drawing.writers.inks import SCREEN, Inks
from booklet.drawing.writers.pattern_canvas import PatternCanvas
from booklet.drawing.writers.pdf_writer import PdfResources


class BookletCanvas(PatternCanvas):
    """A canvas that knows what figures have put into the document, and on which page each anchor lies.

    What reportlab sets by itself, words and rules, goes by way of the inks as figures do.
    """

    def __init__(self, *args: Any, page_of: Mapping[str, int], inks: Inks = SCREEN, **options: Any) -> None:
        super().__init__(*args, **options)
        self.resources = PdfResources(self, inks)
        self.page_of = page_of

    def endForm(self, **attributes: Any) -> None:  # noqa: N802 (a method of the canvas)
        """End a form.  Its operators are ASCII: reportlab, not knowing that, looks up each letter of them."""
        operators = "\n".join([self._preamble, *self._code])
        self._code = []
        super().endForm(stream=operators.encode("ascii"), **attributes)


class InkedCanvas(BookletCanvas):
    """A canvas of other inks than those of a screen."""

    def setFillColor(self, aColor: Any, alpha: float | None = None) -> None:  # noqa: N802, N803, ARG002
        """Set letters in a colour."""
        self.resources.inks.set_text(self, _colour(aColor))

    def setStrokeColor(self, aColor: Any, alpha: float | None = None) -> None:  # noqa: N802, N803, ARG002
        """Draw rules in a colour."""
        self.resources.inks.set_rule(self, _colour(aColor))

    def beginText(self, x: float = 0, y: float = 0, direction: str | None = None) -> PDFTextObject:  # noqa: N802
        """A text whose letters go by way of the inks."""
        return _InkedText(self, x, y, direction=direction)


class _InkedText(PDFTextObject):  # type: ignore[misc]
    def __init__(self, canvas: InkedCanvas, *args: Any, **options: Any) -> None:
        super().__init__(canvas, *args, **options)
        self._inks = canvas.resources.inks

    def setFillColor(self, aColor: Any, alpha: float | None = None) -> None:  # noqa: N802, N803, ARG002
        self._inks.set_text(self, _colour(aColor))


def _colour(named: Any) -> Colour:
    given = toColor(named)
    return colour_from_rgb(given.red, given.green, given.blue)
