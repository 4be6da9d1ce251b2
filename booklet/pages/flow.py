"""Flowables of our own: figures, things side by side, step lines with a marker and a box to tick."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, cast

from reportlab.lib.colors import HexColor
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from booklet.drawing.shapes.figure import Colour, Figure
from booklet.drawing.writers.pdf_writer import PdfResources, draw_figure


class BookCanvas(Canvas):  # type: ignore[misc]  # reportlab carries no types
    """A canvas that knows what figures have put into the document, and on which page each anchor lies."""

    def __init__(self, *args: Any, page_of: dict[str, int], **options: Any) -> None:
        super().__init__(*args, **options)
        self.resources = PdfResources(self)
        self.page_of = page_of


class FigureBox(Flowable):  # type: ignore[misc]
    """A figure as a flowable, at its own size."""

    def __init__(self, figure: Figure, align: str = "LEFT") -> None:
        super().__init__()
        self.figure = figure
        self.hAlign = align

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002 (the flowable protocol)
        """Its own size, whatever room there is."""
        self.room = width
        return self.figure.width, self.figure.height

    def draw(self) -> None:
        """Replay the figure at the flowable's place."""
        canvas = cast(BookCanvas, self.canv)
        draw_figure(self.figure, canvas.resources, 0.0, self.figure.height)


class Stack(Flowable):  # type: ignore[misc]
    """Flowables one under another that stay together; `height` is known once it is wrapped."""

    def __init__(self, parts: Sequence[Flowable], gap: float = 0.0) -> None:
        super().__init__()
        self.parts = tuple(parts)
        self.gap = gap

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """As wide as the room, as high as the parts and the gaps between them."""
        self.heights = [part.wrap(width, height)[1] for part in self.parts]
        self.height = sum(self.heights) + self.gap * max(len(self.parts) - 1, 0)
        return width, self.height

    def draw(self) -> None:
        """Draw the parts downwards."""
        y = self.height
        for part, height in zip(self.parts, self.heights, strict=True):
            part.drawOn(self.canv, 0, y - height)
            y -= height + self.gap


class Beside(Flowable):  # type: ignore[misc]
    """Flowables side by side, each in a column of its own width, their tops in line."""

    def __init__(self, columns: Sequence[tuple[Flowable, float]], gutter: float) -> None:
        super().__init__()
        self.columns = tuple(columns)
        self.gutter = gutter

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002
        """As wide as the columns, as high as the highest."""
        self.heights = [part.wrap(column, height)[1] for part, column in self.columns]
        total = sum(column for _, column in self.columns) + self.gutter * (len(self.columns) - 1)
        self.height = max(self.heights, default=0.0)
        return total, self.height

    def draw(self) -> None:
        """Draw the columns from the left."""
        x = 0.0
        for (part, column), height in zip(self.columns, self.heights, strict=True):
            part.drawOn(self.canv, x, self.height - height)
            x += column + self.gutter


class Rule(Flowable):  # type: ignore[misc]
    """A thin line across the column."""

    def __init__(self, colour: Colour, weight: float = 0.75, before: float = 3.0, after: float = 6.0) -> None:
        super().__init__()
        self.colour = colour
        self.weight = weight
        self.before = before
        self.after = after

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002
        """As wide as the column."""
        self.width = width
        return width, self.before + self.after

    def draw(self) -> None:
        """Draw the line."""
        self.canv.setStrokeColor(HexColor(self.colour.hex))
        self.canv.setLineWidth(self.weight)
        self.canv.line(0, self.after, self.width, self.after)


class Gap(Flowable):  # type: ignore[misc]
    """White space of a given height; dropped at the top of a page."""

    def __init__(self, height: float) -> None:
        super().__init__()
        self.space = height

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002
        """As wide as the column."""
        return width, self.space

    def draw(self) -> None:
        """Nothing shows."""


class PageReference(Flowable):  # type: ignore[misc]
    """The number of the page on which something begins, known when the booklet is drawn; right-aligned."""

    def __init__(self, anchor: str, font: str, size: float, colour: Colour) -> None:
        super().__init__()
        self.anchor = anchor
        self.font = font
        self.size = size
        self.colour = colour

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002
        """One line as wide as the column."""
        self.width = width
        return width, self.size * 1.3

    def draw(self) -> None:
        """Write the number, and link it to its page."""
        canvas = cast(BookCanvas, self.canv)
        canvas.setFont(self.font, self.size)
        canvas.setFillColor(HexColor(self.colour.hex))
        canvas.drawRightString(self.width, self.size * 0.3, str(canvas.page_of[self.anchor]))
        canvas.linkRect("", self.anchor, (0, 0, self.width, self.size * 1.3), relative=1)


class TickBox(Flowable):  # type: ignore[misc]
    """An empty square to tick."""

    def __init__(self, colour: Colour, side: float = 9.0, drop: float = 2.4) -> None:
        super().__init__()
        self.colour = colour
        self.side = side
        self.drop = drop

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002
        """As wide as the box."""
        return self.side, self.side + self.drop

    def draw(self) -> None:
        """Draw the box."""
        self.canv.setStrokeColor(HexColor(self.colour.hex))
        self.canv.setLineWidth(0.75)
        self.canv.rect(0.4, 0, self.side - 0.8, self.side - 0.8, stroke=1, fill=0)
