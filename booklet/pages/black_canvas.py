"""The canvas that pages of one ink are written on."""

from __future__ import annotations

from typing import Any

from booklet.drawing.shapes.figure import Colour
from booklet.drawing.shapes.screens import POINTS_PER_DOT, lightness
from booklet.drawing.writers.black_inks import BLACK_INKS
from booklet.pages.inked_canvas import InkedCanvas

# A rule that is lighter than this is grey.  It stays quiet in black as a row of dots: so many dots of the
# printer drawn, so many left out.
_GREY = 0.3
_QUIET = [6 * POINTS_PER_DOT, 14 * POINTS_PER_DOT]
# The line about letters that are read through, in points, and the mode that draws it (ISO 32000-1, table 106;
# from memory).
_THIN, _OUTLINED = 0.8, 1


class BlackCanvas(InkedCanvas):
    """A canvas of black and white."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, inks=BLACK_INKS, **options)

    def set_rule(self, colour: Colour) -> None:
        """Rules are black; grey ones are dotted."""
        super().set_rule(colour)
        self.setDash(_QUIET if lightness(colour) > _GREY else [])

    def set_thin(self) -> int:
        """Outlines are read through."""
        self.setStrokeGray(0)
        self.setLineWidth(_THIN)
        self.setDash(_QUIET)
        return _OUTLINED
