"""Flowables of our own: figures, things side by side, boxes to tick, lines for a pen, numbers of pages."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cached_property
from typing import cast

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, Paragraph

from booklet.drawing.shapes.figure import Colour, Figure
from booklet.drawing.writers.pdf_writer import draw_figure
from booklet.pages.canvas import BookletCanvas
from booklet.pages.flow import Column, column_apart, column_height, stacked
from booklet.pages.type import hex_colour

# From one line for a pen to the next.
PEN_LINE = 21.0
# The last line that is added to fill a page stays so far above the page's foot, clear of the folio.
PEN_FOOT = 18.0
# Between the columns of a table that is filled in with a pen.
_PEN_GAP = 6.0
BETWEEN_BLOCKS = 7.0
_TICK_WEIGHT, _TICK_RADIUS = 0.85, 1.6


def spaced(flowable: Flowable, before: float, after: float) -> Flowable:
    """A flowable with its least distances from what stands before and after it."""
    flowable.spaceBefore, flowable.spaceAfter = before, after
    return flowable


class FigureBox(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """A figure as a flowable, at its own size."""

    def __init__(self, figure: Figure, align: str = "LEFT") -> None:
        super().__init__()
        self.figure = figure
        self.hAlign = align

    @property
    def area(self) -> float:
        """How much it covers, in square points."""
        return self.figure.width * self.figure.height

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002 (the flowable protocol)
        """Its own size, whatever room there is."""
        return self.figure.width, self.figure.height

    def draw(self) -> None:
        """Replay the figure at the flowable's place."""
        canvas = cast(BookletCanvas, self.canv)
        canvas.note(self)
        draw_figure(self.figure, canvas.resources, 0.0, self.figure.height)


class GrowingFigure(FigureBox):
    """A figure that may be drawn larger: `draw_within` draws it in a height in points."""

    def __init__(self, figure: Figure, draw_within: Callable[[float], Figure], align: str = "LEFT") -> None:
        super().__init__(figure, align)
        self.draw_within = draw_within

    def grown(self, spare: float) -> Flowable:
        """The figure in its height and what there is to spare."""
        figure = self.draw_within(self.figure.height + spare)
        larger = self.figure.height < figure.height <= self.figure.height + spare
        return GrowingFigure(figure if larger else self.figure, self.draw_within, self.hAlign)


class Leaders(FigureBox):
    """A figure with leaders to its right side, a pitch apart, and paragraphs in line with their ends.

    The last leader ends half a pitch above the figure's foot.
    """

    def __init__(self, figure: Figure, entries: Sequence[Flowable], pitch: float, gap: float) -> None:
        super().__init__(figure)
        self.entries = self.contents = tuple(entries)
        self.pitch = pitch
        self.gap = gap

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """As wide as the column, as high as the figure, or as its entries where they need more."""
        room = width - self.figure.width - self.gap
        self.heights = [entry.wrap(room, height)[1] for entry in self.entries]
        self.height = max(self.figure.height, self.pitch * len(self.entries))
        return width, self.height

    def draw(self) -> None:
        """Draw the figure at the foot, and each entry about the end of its leader."""
        canvas = cast(BookletCanvas, self.canv)
        super().draw()
        last = len(self.entries) - 1
        for at, (entry, high) in enumerate(zip(self.entries, self.heights, strict=True)):
            middle = self.pitch * (last - at + 0.5)
            entry.drawOn(canvas, self.figure.width + self.gap, middle - high / 2)


class Stack(Flowable):  # type: ignore[misc]
    """Flowables under one another that stay together."""

    def __init__(self, parts: Sequence[Flowable]) -> None:
        super().__init__()
        self.parts = self.contents = tuple(parts)
        self.stacked_at: float | None = None

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002
        """As wide as the room, as high as the parts and the spaces between them."""
        if width != self.stacked_at:
            self.placed, self.stacked_at = stacked(self.parts, width), width
            self.height = column_height(self.placed)
        return width, self.height

    def cut_apart(self, width: float, height: float) -> list[Flowable]:
        """The parts above a height, and the rest."""
        kept, rest = column_apart(stacked(self.parts, width), height)
        if not kept or not rest:
            return []
        first, second = Stack(kept), Stack(rest)
        first.anchor = getattr(self, "anchor", None)
        return [spaced(each, self.getSpaceBefore(), self.getSpaceAfter()) for each in (first, second)]

    def draw(self) -> None:
        """Draw the parts downwards."""
        for placed in self.placed:
            placed.flowable.drawOn(self.canv, placed.x, self.height - placed.bottom)


class SideBySide(Flowable):  # type: ignore[misc]
    """Stacks of flowables side by side, each in a column of its own width; tops or middles in line."""

    def __init__(
        self, columns: Sequence[tuple[Sequence[Flowable], float]], gutter: float, *, middle: bool = False
    ) -> None:
        super().__init__()
        self.columns = tuple((tuple(parts), width) for parts, width in columns)
        self.gutter = gutter
        self.middle = middle
        self.width = sum(column for _, column in self.columns) + gutter * (len(self.columns) - 1)
        self.contents = [part for parts, _ in self.columns for part in parts]

    @cached_property
    def placed(self) -> list[Column]:
        """What stands in each column, stacked once: pages are tried, and the columns keep their widths."""
        return [stacked(parts, column) for parts, column in self.columns]

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002
        """As wide as the columns, as high as the highest."""
        self.heights = [column_height(placed) for placed in self.placed]
        self.height = max(self.heights, default=0.0)
        return self.width, self.height

    def cut_apart(self, width: float, height: float) -> list[Flowable]:
        """What of each column stands above a height, and the rest of each.

        Where words follow one that goes on, the columns stand under one another: each is read to its end.
        """
        columns = [column_apart(placed, height) for placed in self.placed]
        widths = [column for _, column in self.columns]
        first = next((at for at, (_, rest) in enumerate(columns) if rest), len(columns))
        if any(_has_words(part) for parts, _ in self.columns[first + 1 :] for part in parts):
            return self._below_one_another(width, height)
        if any(rest and not kept for kept, rest in columns) or not any(rest for _, rest in columns):
            return []
        parts = [self._holding([column[at] for column in columns], widths) for at in range(2)]
        return [spaced(each, self.getSpaceBefore(), self.getSpaceAfter()) for each in parts]

    def _below_one_another(self, width: float, height: float) -> list[Flowable]:
        alone = [self._holding([parts], [column]) for parts, column in self.columns if parts]
        first = spaced(alone[0], self.getSpaceBefore(), self.getSpaceAfter()).cut_apart(width, height)
        return [*(first or alone[:1]), *alone[1:]]

    def _holding(self, columns: Sequence[Sequence[Flowable]], widths: Sequence[float]) -> SideBySide:
        """Such columns with other things in them, their tops in line."""
        return SideBySide(list(zip(columns, widths, strict=True)), self.gutter)

    def draw(self) -> None:
        """Draw the columns from the left."""
        x = 0.0
        for placed, high, (_, column) in zip(self.placed, self.heights, self.columns, strict=True):
            top = self.height - ((self.height - high) / 2 if self.middle else 0.0)
            for each in placed:
                each.flowable.drawOn(self.canv, x + each.x, top - each.bottom)
            x += column + self.gutter


class LeadingRow(SideBySide):
    """Things side by side that lead to an anchor, wherever they are touched."""

    def __init__(
        self, anchor: str, columns: Sequence[tuple[Sequence[Flowable], float]], gutter: float
    ) -> None:
        super().__init__(columns, gutter)
        self.leads_to = anchor

    def _holding(self, columns: Sequence[Sequence[Flowable]], widths: Sequence[float]) -> SideBySide:
        return LeadingRow(self.leads_to, list(zip(columns, widths, strict=True)), self.gutter)

    def draw(self) -> None:
        """Draw the columns, and the way over all of them."""
        super().draw()
        cast(BookletCanvas, self.canv).lead(self.leads_to, (0.0, 0.0, self.width, self.height))


def _has_words(flowable: Flowable) -> bool:
    return any(isinstance(each, Paragraph) for each in all_in(flowable))


def figure_beside(figure: Figure, parts: Sequence[Flowable], width: float, gap: float) -> SideBySide:
    """A figure at the left of a room of a width, and flowables at its right, their middles in line."""
    rest = width - figure.width - gap
    return SideBySide([([FigureBox(figure)], figure.width), (parts, rest)], gap, middle=True)


class Rule(Flowable):  # type: ignore[misc]
    """A thin line across the column."""

    def __init__(self, colour: Colour, weight: float, before: float, after: float) -> None:
        super().__init__()
        self.colour = colour
        self.weight = weight
        self.spaceBefore = before
        self.spaceAfter = after

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002
        """As wide as the column."""
        self.width = width
        return width, self.weight

    def draw(self) -> None:
        """Draw the line."""
        self.canv.setStrokeColor(hex_colour(self.colour))
        self.canv.setLineWidth(self.weight)
        self.canv.line(0, self.weight / 2, self.width, self.weight / 2)


class PageNumber(Flowable):  # type: ignore[misc]
    """The number of the page on which something begins, flush right; known when the booklet is written."""

    def __init__(self, anchor: str, style: ParagraphStyle) -> None:
        super().__init__()
        self.anchor_named = anchor
        self.style = style

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002
        """One line as wide as the column."""
        self.width = width
        return width, self.style.leading

    def draw(self) -> None:
        """Write the number."""
        canvas, style = cast(BookletCanvas, self.canv), self.style
        canvas.setFont(style.fontName, style.fontSize)
        canvas.setFillColor(style.textColor)
        number = str(canvas.page_of[self.anchor_named])
        canvas.drawRightString(self.width, style.leading - style.fontSize, number)


class TickBox(Flowable):  # type: ignore[misc]
    """An empty square to tick, beside the first line of words of a style."""

    def __init__(self, colour: Colour, style: ParagraphStyle, align: str = "LEFT") -> None:
        super().__init__()
        self.colour = colour
        self.side = style.fontSize * 0.92
        self.line = style.leading
        self.hAlign = align

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002
        """As wide as the box, as high as a line."""
        return self.side, self.line

    def draw(self) -> None:
        """Draw the box."""
        self.canv.setStrokeColor(hex_colour(self.colour))
        self.canv.setLineWidth(_TICK_WEIGHT)
        inset = _TICK_WEIGHT / 2
        side = self.side - _TICK_WEIGHT
        self.canv.roundRect(inset, (self.line - self.side) / 2 + inset, side, side, _TICK_RADIUS, 1, 0)


class PenLines(Flowable):  # type: ignore[misc]
    """Lines for a pen, with a column for each share of the width; more where there is room."""

    def __init__(self, count: int, colour: Colour, shares: Sequence[float] = (1.0,)) -> None:
        super().__init__()
        self.count = count
        self.colour = colour
        self.shares = tuple(shares)

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002
        """As wide as the column, as high as the lines."""
        self.width = width
        return width, self.count * PEN_LINE

    def split(self, width: float, height: float) -> list[Flowable]:  # noqa: ARG002
        """Lines are never carried over the page."""
        return []

    def grown(self, spare: float) -> Flowable:
        """As many more lines as the room holds above the foot."""
        more = int(max(spare - PEN_FOOT, 0.0) / PEN_LINE)
        return PenLines(self.count + more, self.colour, self.shares)

    def draw(self) -> None:
        """Draw the lines, each column's apart."""
        canvas = self.canv
        canvas.setStrokeColor(hex_colour(self.colour))
        canvas.setLineWidth(0.5)
        x = 0.0
        for at, share in enumerate(self.shares, 1):
            end = x + share * self.width - (_PEN_GAP if at < len(self.shares) else 0.0)
            for line in range(self.count):
                canvas.line(x, line * PEN_LINE + 0.25, end, line * PEN_LINE + 0.25)
            x += share * self.width


class Framed(Flowable):  # type: ignore[misc]
    """A flowable in the middle of a dashed frame, along which it is cut out; `least` is its least height."""

    def __init__(self, inside: Flowable, padding: float, least: float, colour: Colour) -> None:
        super().__init__()
        self.inside = inside
        self.contents = (inside,)
        self.padding = padding
        self.least = least
        self.colour = colour

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """As wide as the column."""
        self.width = width
        self.inside_height = self.inside.wrap(width - 2 * self.padding, height)[1]
        self.height = max(self.least, self.inside_height + 2 * self.padding)
        return self.width, self.height

    def draw(self) -> None:
        """Draw the frame, then what is in it."""
        self.canv.saveState()
        self.canv.setStrokeColor(hex_colour(self.colour))
        self.canv.setLineWidth(0.7)
        self.canv.setDash([4.0, 3.0])
        self.canv.rect(0.4, 0.4, self.width - 0.8, self.height - 0.8, stroke=1, fill=0)
        self.canv.restoreState()
        self.inside.drawOn(self.canv, self.padding, (self.height - self.inside_height) / 2)


def all_in(flowable: Flowable) -> Iterator[Flowable]:
    """A flowable, and all that stand in it, in the order in which they are read.

    One that holds others names them as its `contents`, in that order.
    """
    yield flowable
    for part in getattr(flowable, "contents", ()):
        yield from all_in(part)


def anchors_in(flowable: Flowable) -> Iterator[str]:
    """The anchors that a flowable and what stands in it bear."""
    for each in all_in(flowable):
        anchor = getattr(each, "anchor", None)
        if anchor:
            yield anchor
