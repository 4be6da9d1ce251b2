"""The words beside a figure: each step with the disc that stands on the figure, one under another."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from reportlab.platypus import Flowable

from booklet.drawing.marks.marker import cut_marker
from booklet.drawing.shapes.figure import Figure, Line, Shape, Stroke
from booklet.drawing.shapes.style import DrawingStyle
from booklet.drawing.writers.pdf_writer import draw_figure
from booklet.pages.flow import BookCanvas

_INDENT = 20.0
_DISC_PITCH = 20.0
_DISC_DROP = 7.9  # the disc's middle under the paragraph's top, level with its first line


class Numbered(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """A paragraph behind a numbered disc; of several numbers the first and the last, joined by a line."""

    def __init__(self, numbers: Sequence[int], paragraph: Flowable, style: DrawingStyle) -> None:
        super().__init__()
        radius = style.disc_radius
        ends = sorted({numbers[0], numbers[-1]})
        line = Stroke(style.palette.accent, style.cut_width)
        shapes: list[Shape] = [Line((radius, radius), (radius, len(ends) * _DISC_PITCH - radius), line)]
        shapes += [
            cut_marker(radius, radius + place * _DISC_PITCH, str(number), style)
            for place, number in enumerate(ends)
        ]
        height = 2 * radius + (len(ends) - 1) * _DISC_PITCH
        said = f"Steps {ends[0]} to {ends[-1]}" if len(ends) > 1 else f"Step {ends[0]}"
        self.disc = Figure(f"step-{ends[0]}", 2 * radius, height, tuple(shapes), said, "")
        self.drop = _DISC_DROP - radius
        self.paragraph = paragraph

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """As wide as the column, as high as the paragraph or the disc."""
        self.high = max(self.paragraph.wrap(width - _INDENT, height)[1], self.disc.height + self.drop)
        return width, self.high

    def draw(self) -> None:
        """Draw the disc, then the paragraph beside it."""
        canvas = cast(BookCanvas, self.canv)
        draw_figure(self.disc, canvas.resources, 0.0, self.high - self.drop)
        self.paragraph.drawOn(canvas, _INDENT, self.high - self.paragraph.height)
