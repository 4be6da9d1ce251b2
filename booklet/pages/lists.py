"""Lists and tables of the pages: thin rules, no boxes, one look for all of them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.lib.colors import HexColor
from reportlab.platypus import Flowable, Paragraph, Table

from booklet.drawing.shapes.figure import Colour
from booklet.drawing.shapes.fonts import Font, pdf_font_name, text_width
from booklet.pages.book import Book
from booklet.pages.flow import Gap
from booklet.pages.type import cell_words, words

Command = tuple[Any, ...]

CELL_GAP = 5.0
# From one line for a pen to the next.
PEN_LINE = 21.0
_ROW_PADDING = 2.0


def heading(book: Book, text: str, *, before: float = 10.0, after: float = 2.0) -> list[Flowable]:
    """The heading of a part of a page, with the room about it."""
    return [Gap(before), words(text, book.styles.heading), Gap(after)]


def hex_of(colour: Colour) -> HexColor:
    """A colour as reportlab takes it."""
    return HexColor(colour.hex)


def cell(book: Book, text: str, width: float, *, bold: bool = False) -> str | Paragraph:
    """A small text for a table's column of this width: bare where it fits on a line, else a paragraph."""
    font = Font.SANS_BOLD if bold else Font.SANS
    if text_width(text, font, book.sizes.small) <= width - CELL_GAP:
        return text
    return cell_words(text, book.styles.small_bold if bold else book.styles.small)


def list_table(
    book: Book,
    rows: Sequence[Sequence[str | Flowable]],
    widths: Sequence[float],
    *,
    heads: int = 0,
    commands: Sequence[Command] = (),
    row_height: float | None = None,
) -> Table:
    """Rows of small type with a thin rule under each; the first `heads` rows repeat on every page.

    Rows are as high as what stands in them unless `row_height` is said.
    """
    ruled = ("LINEBELOW", (0, 0), (-1, -1), 0.4, hex_of(book.palette.rule))
    look = [ruled, *(_head_look(book, heads) if heads else []), *commands]
    return bare_table(book, rows, widths, heads=heads, commands=look, row_height=row_height)


def pen_lines(book: Book, room: float) -> Table | None:
    """As many lines for a pen as the room holds, in points; none for fewer than two."""
    count = int(room / PEN_LINE)
    return (
        list_table(book, [[""]] * count, [book.grid.text_width], row_height=PEN_LINE) if count > 1 else None
    )


def bare_table(
    book: Book,
    rows: Sequence[Sequence[str | Flowable]],
    widths: Sequence[float],
    *,
    heads: int = 0,
    commands: Sequence[Command] = (),
    row_height: float | None = None,
) -> Table:
    """Rows of small type without any rules, as high as what stands in them unless `row_height` is said."""
    return Table(
        [list(row) for row in rows],
        colWidths=list(widths),
        rowHeights=row_height,
        repeatRows=heads,
        style=[*_look(book), *commands],
        hAlign="LEFT",
    )


def _look(book: Book) -> list[Command]:
    sizes, palette = book.sizes, book.palette
    whole = (0, 0), (-1, -1)
    return [
        ("FONTNAME", *whole, pdf_font_name(Font.SANS)),
        ("FONTSIZE", *whole, sizes.small),
        ("LEADING", *whole, sizes.small_leading),
        ("TEXTCOLOR", *whole, hex_of(palette.ink)),
        ("LEFTPADDING", *whole, 0),
        ("RIGHTPADDING", *whole, CELL_GAP),
        ("TOPPADDING", *whole, _ROW_PADDING),
        ("BOTTOMPADDING", *whole, _ROW_PADDING),
        ("VALIGN", *whole, "MIDDLE"),
    ]


def _head_look(book: Book, heads: int) -> list[Command]:
    head = (0, 0), (-1, heads - 1)
    return [
        ("FONTNAME", *head, pdf_font_name(Font.SANS_BOLD)),
        ("LINEBELOW", (0, heads - 1), (-1, heads - 1), 0.9, hex_of(book.palette.accent)),
        ("VALIGN", *head, "BOTTOM"),
    ]


def bold_columns(*columns: int) -> list[Command]:
    """Set these columns in bold."""
    return [("FONTNAME", (at, 0), (at, -1), pdf_font_name(Font.SANS_BOLD)) for at in columns]


def right_columns(*columns: int) -> list[Command]:
    """Set these columns flush right."""
    return [("ALIGN", (at, 0), (at, -1), "RIGHT") for at in columns]
