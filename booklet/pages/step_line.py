"""One step of an assembly as a line: its number in a disc, its words, and a box to tick."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, cast

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, Paragraph

from booklet.drawing.marks.marker import cut_marker, tick_box
from booklet.drawing.shapes.figure import Figure
from booklet.drawing.writers.pdf_writer import draw_figure
from booklet.pages.book import Book
from booklet.pages.flow import BookCanvas
from booklet.pages.printed_steps import PrintedStep
from booklet.pages.sentences import StepWords
from booklet.pages.symbol_words import SymbolParagraph, symbol_fragments, symbols_of
from booklet.pages.type import Fragment, bold, run

_INDENT = 20.0
_TICK = 8.5
_TICK_ROOM = 14.0
# Between the parts of a step's line: wider than between words, and a place to break the line.
_APART = "\u00a0 "


class StepLine(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """A numbered disc, a paragraph beside it, a box to tick at the right edge."""

    def __init__(self, book: Book, number: str, paragraph: Paragraph) -> None:
        super().__init__()
        self.paragraph = paragraph
        self.width = 0.0
        style = book.drawing
        radius = style.disc_radius
        self.disc = Figure("", 2 * radius, 2 * radius, (cut_marker(radius, radius, number, style),), "", "")
        self.tick = Figure("", _TICK, _TICK, (tick_box(0, 0, _TICK, style),), "", "")

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """As high as its words, at least as its disc."""
        if self.width != width:  # asked again for every gap that is tried
            self.width = width
            _, self.words_height = self.paragraph.wrap(width - _INDENT - _TICK_ROOM, height)
            self.height = max(self.words_height, self.disc.height)
        return width, self.height

    def draw(self) -> None:
        """Disc and box stand at the first line."""
        canvas = cast(BookCanvas, self.canv)
        leading: float = cast(Any, self.paragraph).style.leading
        middle = self.height - leading / 2 - 0.6
        draw_figure(self.disc, canvas.resources, 0, middle + self.disc.height / 2)
        self.paragraph.drawOn(canvas, _INDENT, self.height - self.words_height)
        draw_figure(self.tick, canvas.resources, self.width - _TICK, middle + _TICK / 2)


def step_line(book: Book, step: PrintedStep, style: ParagraphStyle) -> StepLine:
    """A step's line: a symbol of what is done, what is taken in bold, its label, its size, where it goes."""
    first, *others = (list(_part(book, step, words, style)) for words in step.parts)
    fragments = [*first, *(one for part in others for one in (run(_APART, style), *part))]
    return StepLine(book, str(step.number), SymbolParagraph.of(style, *fragments))


def _part(book: Book, step: PrintedStep, words: StepWords, style: ParagraphStyle) -> Iterator[Fragment]:
    for name in symbols_of(step, words):
        yield from symbol_fragments(name, style, book.palette.soft_ink)
    yield bold(words.head, style)
    if words.labels:
        yield run(_APART, style)
        yield run(
            ", ".join(words.labels), style, f'<font color="{book.palette.accent.hex}"><b>word</b></font>'
        )
    size = f"{_APART}{words.size}" if words.size else ""
    yield run(f"{size}.{_APART}{words.body}", style)
    if words.tip:
        yield run(" ", style)
        yield run(words.tip, style, "<i>word</i>")
