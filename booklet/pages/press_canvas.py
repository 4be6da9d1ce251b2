"""The canvas that pages for a printing press are written on: every colour on it goes through the inks.

reportlab sets colours of its own accord, for paragraphs, rules and tables; here it cannot.
"""

from __future__ import annotations

from typing import Any

from reportlab.lib.colors import toColor
from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFFormXObject, PDFResourceDictionary
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.textobject import PDFTextObject

from booklet.drawing.shapes.affine import IDENTITY
from booklet.drawing.shapes.figure import Colour, colour_from_rgb
from booklet.drawing.writers.inks import Inks
from booklet.pages.canvas import BookletCanvas

# The states of overprinting (ISO 32000-1, 8.4.5 and 11.7.4, from memory): OP for lines, op for all else; both
# are in each, as OP alone would set both.  With OPM 1 black alone leaves the other inks below as they are.
_STATES = {
    (False, False): "OverNone",
    (False, True): "OverFills",
    (True, False): "OverLines",
    (True, True): "OverAll",
}
# How each page and each form begins, so that nothing depends on where a form is used: black, printed over.
_START = "0 0 0 1 k 0 0 0 1 K /OverAll gs"


class PressCanvas(BookletCanvas):
    """A canvas in the inks of a press.  It has no links: a file for a press is looked at by nobody."""

    _preamble: str
    STATE_ATTRIBUTES = (*Canvas.STATE_ATTRIBUTES, "asked", "over_fills", "over_lines")

    def __init__(self, *args: Any, inks: Inks, **options: Any) -> None:
        self.inks = inks
        super().__init__(*args, inks=inks, **options)

    def init_graphics_state(self) -> None:
        """Begin as `_START` says."""
        super().init_graphics_state()
        # The colour that reportlab asked for, where letters may follow in it; None where the inks know.
        self.asked: Colour | None = None
        self.over_fills = True
        self.over_lines = True

    def _make_preamble(self) -> None:
        super()._make_preamble()
        self._preamble = f"{self._preamble} {_START}"

    # Colours.

    def setFillColor(self, aColor: Any, alpha: float | None = None) -> None:  # noqa: N802, N803
        """Fill in the inks of a colour.  Raises ValueError for ink that is to be seen through."""
        _check_opaque(alpha)
        if isinstance(aColor, tuple):
            self.asked = None
            super().setFillColor(aColor)
        else:
            colour = _colour(aColor)
            self.inks.set_fill(self, colour, IDENTITY)
            self.asked = colour

    def setStrokeColor(self, aColor: Any, alpha: float | None = None) -> None:  # noqa: N802, N803
        """Draw lines in the inks of a colour.  Raises ValueError for ink that is to be seen through."""
        _check_opaque(alpha)
        if isinstance(aColor, tuple):
            super().setStrokeColor(aColor)
        else:
            self.inks.set_stroke(self, _colour(aColor))

    def _setFillOverprint(self, is_over: bool) -> None:  # noqa: N802
        if self.over_fills is not is_over:
            self.over_fills = is_over
            self._code.append(f"/{_STATES[self.over_lines, is_over]} gs")

    def _setStrokeOverprint(self, is_over: bool) -> None:  # noqa: N802
        if self.over_lines is not is_over:
            self.over_lines = is_over
            self._code.append(f"/{_STATES[is_over, self.over_fills]} gs")

    # Letters.

    def beginText(self, x: float = 0, y: float = 0, direction: str | None = None) -> PressText:  # noqa: N802
        """A text object in the inks; it begins in the colour that was asked for last."""
        if self.asked is not None:
            self.inks.set_text(self, self.asked)
            self.asked = None
        return PressText(self, x, y, direction=direction)

    def drawText(self, aTextObject: PDFTextObject) -> None:  # noqa: N802, N803
        """Draw letters; what they set last holds afterwards."""
        super().drawText(aTextObject)
        self.over_fills = aTextObject.over_fills

    # What the file has besides.

    def linkRect(self, *args: Any, **options: Any) -> None:  # noqa: N802
        """No link."""

    def linkURL(self, *args: Any, **options: Any) -> None:  # noqa: N802
        """No link."""

    def _setExtGState(self, obj: Any) -> None:  # noqa: N802
        obj.ExtGState = _states()

    def _setXObjects(self, thing: Any) -> None:  # noqa: N802
        super()._setXObjects(thing)
        if isinstance(thing, PDFFormXObject):  # reportlab writes no states of a form
            resources = PDFResourceDictionary(ExtGState=thing.ExtGState)
            resources.basicFonts()
            resources.allProcs()
            if thing.XObjects:
                resources.XObject = thing.XObjects
            thing.Resources = resources


class PressText(PDFTextObject):  # type: ignore[misc]  # reportlab carries no types
    """Letters in the inks of a press."""

    _canvas: PressCanvas
    _code: list[str]

    def __init__(self, canvas: PressCanvas, x: float, y: float, direction: str | None) -> None:
        super().__init__(canvas, x, y, direction=direction)
        self.over_fills = canvas.over_fills

    def setFillColor(self, aColor: Any, alpha: float | None = None) -> None:  # noqa: N802, N803
        """Set letters in the inks of a colour.  Raises ValueError for ink that is to be seen through."""
        _check_opaque(alpha)
        if isinstance(aColor, tuple):
            super().setFillColor(aColor)
        else:
            self._canvas.inks.set_text(self, _colour(aColor))

    def _setFillOverprint(self, is_over: bool) -> None:  # noqa: N802
        if self.over_fills is not is_over:
            self.over_fills = is_over
            self._code.append(f"/{_STATES[self._canvas.over_lines, is_over]} gs")


def _check_opaque(alpha: float | None) -> None:
    if alpha is not None:
        raise ValueError("there is no transparent ink")


def _colour(asked: Any) -> Colour:
    """What reportlab asks for: a colour or, of a table's cell, the name of one."""
    asked = toColor(asked)
    return colour_from_rgb(asked.red, asked.green, asked.blue)


def _states() -> PDFDictionary:
    made = {
        name: PDFDictionary({"OP": _word(lines), "op": _word(fills), "OPM": 1})
        for (lines, fills), name in _STATES.items()
    }
    return PDFDictionary(made)


def _word(value: bool) -> str:
    """How reportlab writes a boolean."""
    return "true" if value else "false"
