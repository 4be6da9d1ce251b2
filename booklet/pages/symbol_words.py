"""The symbols of what a step does, in a line of text before the words, and the key that explains them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import ceil
from typing import Any, cast

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable

from booklet.drawing.marks.symbols import NEED_NONE, OPTIONAL, SYMBOL_SIDE, step_symbol
from booklet.drawing.shapes.figure import Colour, Figure, Use
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.writers.pdf_writer import draw_figure
from booklet.pages.book import Book
from booklet.pages.flow import Beside, BookCanvas
from booklet.pages.printed_steps import PrintedStep
from booklet.pages.sentences import StepWords
from booklet.pages.type import Fragment, Prose, fragment, run

# What each symbol is called in the key.
SYMBOL_WORDS = {
    "photo": "photo",
    "write": "writing",
    "snip": "scissors",
    "trim_round": "trim round",
    "round": "round corners",
    "punch": "punch",
    "ink": "ink",
    "stencil": "stencil",
    "ribbon": "ribbon",
    "tape": "tape",
    "raise": "foam",
    "add": "small things",
    "group": "as one block",
    "stitch": "stitches",
    "row": "in a row",
    "column": "in a column",
    "other_half": "other half",
    OPTIONAL: "if you like",
}
_AFTER = 2.5
_NO_BREAK = "\u00a0"
# Between the entries of a key on one line.
_APART = f"{_NO_BREAK * 3} "
_CALLBACK = "step symbol"


def symbols_of(step: PrintedStep, part: StepWords) -> tuple[str, ...]:
    """The symbols before a part of a step; what is optional is marked once, where the step begins."""
    optional = (OPTIONAL,) if part.optional and part is step.parts[0] else ()
    return optional + (() if part.symbol in NEED_NONE else (part.symbol,))


def symbols_on(steps: Sequence[PrintedStep]) -> tuple[str, ...]:
    """Every symbol that stands in the lines of these steps, once, in the order in which they come."""
    return tuple(
        dict.fromkeys(name for step in steps for part in step.parts for name in symbols_of(step, part))
    )


def symbol_fragments(name: str, style: ParagraphStyle, colour: Colour) -> tuple[Fragment, Fragment]:
    """What a `SymbolParagraph` holds for a symbol before a word in this style.

    No-break spaces keep its place and hold it to the word, wherever the line breaks; the mark after them
    draws it over them.
    """
    mark = fragment(f'<onDraw name="{_CALLBACK}" label="{name} {colour.hex}"/>', style)
    return run(_NO_BREAK * _spaces(style.fontSize), style), mark


@lru_cache(maxsize=8)
def _spaces(size: float) -> int:
    return ceil((SYMBOL_SIDE + _AFTER) / text_width(_NO_BREAK, Font.SANS, size))


class SymbolParagraph(Prose):
    """A paragraph that may hold symbols; the middle of each is at that of a capital."""

    def draw(self) -> None:
        """Draw the words, and each symbol where its mark stands."""
        self.canv.setNamedCB(_CALLBACK, self._draw_symbol)
        super().draw()

    def _draw_symbol(self, canvas: BookCanvas, kind: str, label: str) -> None:  # noqa: ARG002 (reportlab's order)
        place = cast(Any, canvas)._curr_tx_info
        name, _, colour = label.partition(" ")
        height = cap_height(Font.SANS, cast(Any, self).style.fontSize)
        left, top = place["cur_x"] - SYMBOL_SIDE - _AFTER, place["cur_y"] + (height + SYMBOL_SIDE) / 2
        draw_figure(symbol_figure(name, Colour(colour)), canvas.resources, left, top)


@lru_cache(maxsize=128)
def symbol_figure(name: str, colour: Colour) -> Figure:
    """A symbol as a figure."""
    symbol = step_symbol(name, colour)
    return Figure(f"step {name}", SYMBOL_SIDE, SYMBOL_SIDE, (Use(symbol),), SYMBOL_WORDS[name], "")


def key_column(book: Book, names: Sequence[str]) -> list[Flowable]:
    """The key as a column: each symbol with its word on a line of its own."""
    return [_key(book, [name]) for name in names]


def key_beside(book: Book, names: Sequence[str], stated: Flowable, room: float) -> Flowable:
    """The key in a line, or as many as it takes, after a few words that stand alone."""
    return Beside([(stated, room), (_key(book, names), book.grid.text_width - room)], 0.0)


def _key(book: Book, names: Sequence[str]) -> SymbolParagraph:
    last = len(names) - 1
    entries = (_entry(book, name, "" if at == last else _APART) for at, name in enumerate(names))
    return SymbolParagraph.of(book.styles.note, *(part for entry in entries for part in entry))


def _entry(book: Book, name: str, after: str) -> tuple[Fragment, ...]:
    """A symbol and its word, held together, and what stands after them."""
    style = book.styles.note
    word = run(SYMBOL_WORDS[name].replace(" ", _NO_BREAK) + after, style)
    return (*symbol_fragments(name, style, book.palette.soft_ink), word)
