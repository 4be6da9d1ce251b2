"""What a sheet gives, to tick off: label, name, size and pocket of each piece."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.lib.colors import HexColor
from reportlab.platypus import Flowable, Table

from booklet.cutting.model import CutSheet, Fate, Piece
from booklet.drawing.cutting.cut_map import MapPiece, MapView, draw_map
from booklet.drawing.shapes.figure import Figure
from booklet.drawing.shapes.fonts import Font, pdf_font_name
from booklet.measure.geometry import ExactRect
from booklet.measure.words import print_size
from booklet.pages.book import Book
from booklet.pages.cut_words import letter_of, pockets_of, size_words
from booklet.pages.flow import TickBox
from booklet.pages.type import cell_words

_COLUMNS = (24.0, 70.0, 52.0, 14.0)  # label, size, pocket, box; the name has the rest
_PADDING = 1.6


def gives_table(book: Book, sheet: CutSheet) -> Flowable:
    """The pieces of a sheet by their letters, a box to tick behind each."""
    pieces = [piece for piece in sheet.pieces if piece.fate in {Fate.KEPT, Fate.SPARE}]
    pieces.sort(key=lambda piece: (len(piece.label), piece.label))
    label, size, pocket, box = _COLUMNS
    name = book.grid.text_width - label - size - pocket - box
    style = book.styles
    head = [
        cell_words(text, style.small_bold)
        for text in ("This sheet gives", "", f"Size, {book.unit.value}", "Pocket", "")
    ]
    rows = [head, *(_row(book, piece) for piece in pieces)]
    return Table(rows, colWidths=[label, name, size, pocket, box], style=_table_style(book), hAlign="LEFT")


def _row(book: Book, piece: Piece) -> list[Flowable]:
    pockets = pockets_of(book.resolved, [piece])
    filed = "spare" if piece.fate is Fate.SPARE else str(pockets[0]) if pockets else ""
    styles = book.styles
    return [
        cell_words(piece.label, styles.body_bold),
        cell_words(piece.name, styles.body),
        cell_words(print_size(piece.size, book.unit), styles.body),
        cell_words(filed, styles.body),
        TickBox(book.palette.soft_ink),
    ]


def _table_style(book: Book) -> list[tuple[object, ...]]:
    rule = HexColor(book.palette.rule.hex)
    return [
        ("FONTNAME", (0, 0), (-1, -1), pdf_font_name(Font.SANS)),
        ("SPAN", (0, 0), (1, 0)),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 4),
        ("TOPPADDING", (0, 0), (-1, -1), _PADDING),
        ("BOTTOMPADDING", (0, 0), (-1, -1), _PADDING),
        ("LINEBELOW", (0, 0), (-1, -1), 0.5, rule),
        ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
    ]


def piece_map(book: Book, sheet: CutSheet) -> Figure:
    """The sheet as it first lies, with the outlines of all that is cut from it, the letters of every copy."""
    lying = sheet.whole[0].lying
    alike: dict[ExactRect, list[Piece]] = {}
    for piece in sheet.pieces:
        alike.setdefault(piece.part, []).append(piece)
    pieces = tuple(
        MapPiece(
            part,
            ", ".join(letter_of(piece, sheet) for piece in copies if piece.fate is not Fate.SCRAP),
            size_words(book.resolved, sheet, copies[0]),
            _goes(book, copies),
        )
        for part, copies in alike.items()
    )
    name = f"sheet-{sheet.number}-pieces"
    alt = f"Sheet {sheet.number} with the outlines of its pieces."
    view = MapView(name, alt, book.unit, book.scale, sheet.size, lying, pieces)
    return draw_map(view, book.papers.sheet(sheet.index, lying.face), book.drawing)


def _goes(book: Book, copies: Sequence[Piece]) -> str:
    pockets = pockets_of(book.resolved, copies)
    if not pockets:
        return "spare" if copies[0].fate is Fate.SPARE else ""
    return f"→\u00a0{', '.join(str(pocket) for pocket in pockets)}"
