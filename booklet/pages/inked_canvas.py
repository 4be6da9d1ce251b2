"""A canvas on which every colour goes through the inks, also those that reportlab sets of its own accord.

It does so for paragraphs, rules and tables.
"""

from __future__ import annotations

from typing import Any

from reportlab.lib.colors import toColor
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.textobject import PDFTextObject

from booklet.drawing.shapes.affine import IDENTITY
from booklet.drawing.shapes.figure import Colour, colour_from_rgb
from booklet.drawing.writers.inks import Inks
from booklet.pages.canvas import BookletCanvas


class InkedCanvas(BookletCanvas):
    """A canvas of other inks than those of a screen.  The inks set colours by the tuples of reportlab."""

    STATE_ATTRIBUTES = (*Canvas.STATE_ATTRIBUTES, "asked")

    def __init__(self, *args: Any, inks: Inks, **options: Any) -> None:
        self.inks = inks
        super().__init__(*args, inks=inks, **options)

    def init_graphics_state(self) -> None:
        """Begin with no colour asked for."""
        super().init_graphics_state()
        # The colour that reportlab asked for, where letters may follow in it; None where the inks know.
        self.asked: Colour | None = None

    def setFillColor(self, aColor: Any, alpha: float | None = None) -> None:  # noqa: N802, N803
        """Fill in the inks of a colour.  Raises ValueError for ink that is to be seen through."""
        check_opaque(alpha)
        if isinstance(aColor, tuple):
            self.asked = None
            super().setFillColor(aColor)
        else:
            colour = asked_colour(aColor)
            self.inks.set_fill(self, colour, IDENTITY)
            self.asked = colour

    def setStrokeColor(self, aColor: Any, alpha: float | None = None) -> None:  # noqa: N802, N803
        """Draw lines in the inks of a colour.  Raises ValueError for ink that is to be seen through."""
        check_opaque(alpha)
        if isinstance(aColor, tuple):
            super().setStrokeColor(aColor)
        else:
            self.set_rule(asked_colour(aColor))

    def set_rule(self, colour: Colour) -> None:
        """Draw the rules between words in a colour."""
        self.inks.set_stroke(self, colour)

    def beginText(self, x: float = 0, y: float = 0, direction: str | None = None) -> InkedText:  # noqa: N802
        """A text object in the inks; it begins in the colour that was asked for last."""
        if self.asked is not None:
            self.inks.set_text(self, self.asked)
            self.asked = None
        return self._text_object(x, y, direction)

    def _text_object(self, x: float, y: float, direction: str | None) -> InkedText:
        return InkedText(self, x, y, direction=direction)


class InkedText(PDFTextObject):  # type: ignore[misc]  # reportlab carries no types
    """Letters in the inks of a canvas."""

    _canvas: InkedCanvas
    _code: list[str]

    def setFillColor(self, aColor: Any, alpha: float | None = None) -> None:  # noqa: N802, N803
        """Set letters in the inks of a colour.  Raises ValueError for ink that is to be seen through."""
        check_opaque(alpha)
        if isinstance(aColor, tuple):
            super().setFillColor(aColor)
        else:
            self._canvas.inks.set_text(self, asked_colour(aColor))


def check_opaque(alpha: float | None) -> None:
    """Raises ValueError for ink that is to be seen through."""
    if alpha is not None:
        raise ValueError("there is no transparent ink")


def asked_colour(asked: Any) -> Colour:
    """What reportlab asks for: a colour or, of a table's cell, the name of one."""
    asked = toColor(asked)
    return colour_from_rgb(asked.red, asked.green, asked.blue)
