"""The canvas that pages for a printing press are written on: it states what prints over what."""

from __future__ import annotations

from typing import Any

from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFFormXObject, PDFResourceDictionary
from reportlab.pdfgen.textobject import PDFTextObject

from booklet.pages.inked_canvas import InkedCanvas, InkedText

# The states of overprinting (ISO 32000-1, 8.4.5 and 11.7.4, from memory): OP for lines, op for all else; both
# are in each, as OP alone would set both.  With OPM 1 black alone leaves the other inks below as they are.
_STATES = {
    (False, False): "OverNone",
    (False, True): "OverFills",
    (True, False): "OverLines",
    (True, True): "OverAll",
}
# How each page and each form begins, so that nothing depends on where a form is used: black, printed over.
_START = f"0 0 0 1 k 0 0 0 1 K /{_STATES[True, True]} gs"


class PressCanvas(InkedCanvas):
    """A canvas in the inks of a press.  It has no links: a file for a press is looked at by nobody."""

    _preamble: str
    STATE_ATTRIBUTES = (*InkedCanvas.STATE_ATTRIBUTES, "over_fills", "over_lines")

    def init_graphics_state(self) -> None:
        """Begin as `_START` says."""
        super().init_graphics_state()
        self.over_fills = True
        self.over_lines = True

    def _make_preamble(self) -> None:
        super()._make_preamble()
        self._preamble = f"{self._preamble} {_START}"

    # Colours.

    def _setFillOverprint(self, is_over: bool) -> None:  # noqa: N802
        if self.over_fills is not is_over:
            self.over_fills = is_over
            self._code.append(f"/{_STATES[self.over_lines, is_over]} gs")

    def _setStrokeOverprint(self, is_over: bool) -> None:  # noqa: N802
        if self.over_lines is not is_over:
            self.over_lines = is_over
            self._code.append(f"/{_STATES[is_over, self.over_fills]} gs")

    # Letters.

    def _text_object(self, x: float, y: float, direction: str | None) -> PressText:
        return PressText(self, x, y, direction)

    def drawText(self, aTextObject: PDFTextObject) -> None:  # noqa: N802, N803
        """Draw letters; what they set last holds afterwards."""
        super().drawText(aTextObject)
        self.over_fills = aTextObject.over_fills

    # What the file has besides.

    def drawImage(self, *args: Any, **options: Any) -> Any:  # noqa: N802
        """A picture knocks out what is below it, whatever was filled before."""
        self._setFillOverprint(False)
        self.asked = None
        return super().drawImage(*args, **options)

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


class PressText(InkedText):
    """Letters in the inks of a press."""

    _canvas: PressCanvas

    def __init__(self, canvas: PressCanvas, x: float, y: float, direction: str | None) -> None:
        super().__init__(canvas, x, y, direction=direction)
        self.over_fills = canvas.over_fills

    def _setFillOverprint(self, is_over: bool) -> None:  # noqa: N802
        if self.over_fills is not is_over:
            self.over_fills = is_over
            self._code.append(f"/{_STATES[self._canvas.over_lines, is_over]} gs")


def _states() -> PDFDictionary:
    made = {
        name: PDFDictionary({"OP": _word(lines), "op": _word(fills), "OPM": 1})
        for (lines, fills), name in _STATES.items()
    }
    return PDFDictionary(made)


def _word(value: bool) -> str:
    """How reportlab writes a boolean."""
    return "true" if value else "false"
