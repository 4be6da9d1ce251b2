"""Safety messages, framed, after ANSI Z535.6 (from memory): the signal word, then the message.

The more serious one is told apart by its word and its frame, so that it loses nothing in black.
"""

from __future__ import annotations

from copy import copy
from typing import cast

from reportlab.platypus import Flowable

from booklet.content.blocks import Caution
from booklet.drawing.shapes.affine import Point
from booklet.drawing.shapes.figure import Figure, Fill, Polygon, Rect, Shape, Stroke
from booklet.drawing.shapes.style import DrawingStyle
from booklet.drawing.writers.pdf_writer import draw_figure
from booklet.pages.boxes import BETWEEN_BLOCKS, spaced
from booklet.pages.canvas import BookletCanvas
from booklet.pages.setup import PageSetup
from booklet.pages.text import line_width, paragraph

_PADDING = 6.0
_TRIANGLE = 12.0
_AFTER_TRIANGLE = 4.5


def caution(setup: PageSetup, block: Caution, width: float) -> list[Flowable]:  # noqa: ARG001
    """A safety message in its frame."""
    return [spaced(CautionBox(setup, block), 0.0, BETWEEN_BLOCKS)]


class CautionBox(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """A safety message in its frame: the signal word at the left, the words beside it."""

    def __init__(self, setup: PageSetup, block: Caution) -> None:
        super().__init__()
        self.style = setup.drawing
        self.is_warning = block.is_warning
        style = setup.styles.signal_on_ink if block.is_warning else setup.styles.signal
        self.signal = paragraph(block.signal, style)
        self.signal_width = line_width(block.signal, style) + 0.5
        self.words = paragraph(block.text, setup.styles.body)
        self.contents = (self.signal, self.words)

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """As wide as the column, as high as the words and the room about them."""
        before = _PADDING + _TRIANGLE + _AFTER_TRIANGLE
        self.signal_width = min(self.signal_width, width / 2 - before - _PADDING)
        self.panel = before + self.signal_width + _PADDING
        self.text_height = self.words.wrap(width - self.panel - 2 * _PADDING, height)[1]
        self.signal_height = self.signal.wrap(self.signal_width, height)[1]
        self.width, self.height = width, max(self.text_height, self.signal_height) + 2 * _PADDING - 2.0
        return self.width, self.height

    def cut_apart(self, width: float, height: float) -> list[Flowable]:
        """Two frames, each with the signal word and with as many of the words as stand above a height."""
        self.wrap(width, height)
        words = self.words.split(width - self.panel - 2 * _PADDING, height - 2 * _PADDING + 2.0)
        return [spaced(self._saying(part), 0.0, BETWEEN_BLOCKS) for part in words] if len(words) > 1 else []

    def _saying(self, words: Flowable) -> CautionBox:
        box = copy(self)
        box.words, box.contents = words, (self.signal, words)
        return box

    def draw(self) -> None:
        """Draw the frame with its symbol, then the words."""
        canvas = cast(BookletCanvas, self.canv)
        shapes = _frame(self.width, self.height, self.panel, self.is_warning, self.style)
        frame = Figure("caution", self.width, self.height, shapes)
        draw_figure(frame, canvas.resources, 0.0, self.height)
        left = self.panel - _PADDING - self.signal_width
        self.signal.drawOn(canvas, left, (self.height - self.signal_height) / 2)
        self.words.drawOn(canvas, self.panel + _PADDING, (self.height - self.text_height) / 2)


def _frame(
    width: float, height: float, panel: float, is_warning: bool, style: DrawingStyle
) -> tuple[Shape, ...]:
    """Frame, panel and alert symbol: white on ink for a warning, ink on white for a caution."""
    palette = style.palette
    ground, ink = (palette.ink, palette.paper) if is_warning else (palette.paper, palette.ink)
    line = Stroke(palette.ink, style.outline_width)
    inset = style.outline_width / 2
    return (
        Rect(inset, inset, width - 2 * inset, height - 2 * inset, None, line),
        Rect(inset, inset, panel - inset, height - 2 * inset, Fill(ground), line),
        *_alert((_PADDING + _TRIANGLE / 2, height / 2), Fill(ink), Fill(ground)),
    )


def _alert(centre: Point, solid: Fill, mark: Fill) -> tuple[Shape, ...]:
    """The safety alert symbol: a triangle with an exclamation mark."""
    x, y = centre
    half, rise = _TRIANGLE / 2, _TRIANGLE * 0.433
    corners = ((x, y - rise), (x + half, y + rise), (x - half, y + rise))
    return (
        Polygon(corners, solid),
        Rect(x - 0.7, y - 1.8, 1.4, 3.8, mark),
        Rect(x - 0.7, y + 2.8, 1.4, 1.4, mark),
    )
