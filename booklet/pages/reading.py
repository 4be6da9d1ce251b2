"""How to read the cutting pages: every sign of the figures that this kit uses, with its meaning."""

from __future__ import annotations

from collections.abc import Iterator

from reportlab.platypus import Flowable, Table

from booklet.cutting.model import CutSheet, Fate
from booklet.drawing.cutting import cut_legend as signs
from booklet.drawing.marks.scale_bar import Reading, is_labelled
from booklet.drawing.shapes.figure import Figure
from booklet.drawing.shapes.fonts import Font, pdf_font_name
from booklet.kit.kit import trimmer_limits
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit, convert
from booklet.measure.words import print_length, print_size
from booklet.pages.book import Book
from booklet.pages.flow import FigureBox
from booklet.pages.head import page_head
from booklet.pages.page import Block, PageName, flow
from booklet.pages.type import rich

_UNITS = {Unit.INCH: "inches", Unit.MILLIMETRE: "millimetres", Unit.CENTIMETRE: "centimetres"}
_GUTTER = 14.0
_ROW_PADDING = 4.5

Sign = tuple[Figure, str]


def reading_blocks(book: Book) -> tuple[Block, ...]:
    """One page, or none in a kit without cuts."""
    cut = [sheet for sheet in book.resolved.sheets if sheet.stages]
    if not cut:
        return ()
    lead = (
        "Each sheet is drawn as it lies in the trimmer, with the print that you then see. "
        f"All measures are in {_UNITS[book.unit]}."
    )
    head = page_head(book, "Cutting", "How to read the cutting pages", lead)
    name = PageName("How to read the cutting pages", bookmark="Cutting", anchor="cutting")
    return (Block(flow([*head, _table(book, list(_signs(book, cut)))], book.grid, name)),)


def _table(book: Book, rows: list[Sign]) -> Flowable:
    style = [
        ("FONTNAME", (0, 0), (-1, -1), pdf_font_name(Font.SANS)),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), _ROW_PADDING),
        ("BOTTOMPADDING", (0, 0), (-1, -1), _ROW_PADDING),
        ("ALIGN", (0, 0), (0, -1), "CENTER"),
        ("RIGHTPADDING", (0, 0), (0, -1), _GUTTER),
        ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
    ]
    cells = [[FigureBox(figure, align="CENTER"), rich(said, book.styles.body)] for figure, said in rows]
    first = signs.SIGN_WIDTH + _GUTTER
    return Table(cells, colWidths=[first, book.grid.text_width - first], style=style, hAlign="LEFT")


def _signs(book: Book, cut: list[CutSheet]) -> Iterator[Sign]:
    """The signs in the order in which a reader meets them, each only where the kit has it."""
    fates = {
        piece.fate for sheet in cut for stage in sheet.stages for s in stage.strips for piece in s.pieces
    }
    yield _reading_sign(book)
    yield from _view_sign(book, cut)
    yield _piece_sign(book)
    if Fate.CUT_AGAIN in fates:
        cut_on = signs.sign_of_piece("B", "cut in step\u00a03", book.drawing)
        yield cut_on, "<b>Still to be cut.</b> Lay it aside until the step that is named takes it up again."
    if Fate.SCRAP in fates:
        spare = " A piece that is spare says so: keep it." if Fate.SPARE in fates else ""
        yield signs.sign_of_scrap(book.drawing), f"<b>Scrap.</b> No layout uses it.{spare}"
    if any(len(stage.taken) > 1 for sheet in cut for stage in sheet.stages):
        yield signs.sign_of_stack(book.drawing), _STACK
    if any(not sheet.sheet.is_cut_apart for sheet in cut):
        yield _width_sign(book)
    if any(sheet.sheet.is_cut_apart for sheet in cut):
        yield signs.sign_of_register_mark(book.drawing), _REGISTER


_STACK = "<b>Papers on each other.</b> Lay them edge on edge and cut them in one pass."
_REGISTER = (
    "<b>A register mark,</b> printed on sheets of small elements. There the mark decides where to cut; the "
    "reading, with its \u2248, only says about where to look."
)


def _typical(book: Book, inches: int, millimetres: int) -> Fraction:
    """A round length to explain a sign by, in the kit's unit."""
    if book.unit is Unit.INCH:
        return Fraction(inches)
    return convert(Fraction(millimetres), Unit.MILLIMETRE, book.unit)


def _reading_sign(book: Book) -> Sign:
    value, span = _typical(book, 3, 100), _typical(book, 4, 150)
    figure = signs.sign_of_reading(book.unit, print_length(value, book.unit), value, span, book.drawing)
    said = (
        "<b>A reading and its cut.</b> The disc says in which order to cut, the dashed line where: the blade "
        "at this mark of the scale, the paper\u2019s left edge at its zero."
    )
    return figure, said


def _view_sign(book: Book, cut: list[CutSheet]) -> Iterator[Sign]:
    """An enlarged view, by the first reading that wants one."""
    unlabelled = [
        reading.reading
        for sheet in cut
        if not sheet.sheet.is_cut_apart
        for stage in sheet.stages
        for reading in stage.cuts
        if not is_labelled(reading.reading, book.unit)
    ]
    if unlabelled:
        value = unlabelled[0]
        label = _typical(book, 1, 10)
        stretch = (max(value - label, Fraction(0)), max(value - label, Fraction(0)) + 2 * label)
        reading = Reading("2", value, print_length(value, book.unit))
        mark = trimmer_limits(book.kit).mark
        figure = signs.sign_of_view(book.unit, mark, reading, stretch, book.drawing)
        yield figure, "<b>Between two labels</b> of the scale, the mark is shown enlarged."


def _piece_sign(book: Book) -> Sign:
    sheet = min((s for s in book.resolved.sheets if s.kept), key=lambda s: s.number, default=None)
    piece = sheet.kept[0] if sheet else None
    size = print_size(piece.size, book.unit) if piece else ""
    said = (
        "<b>A piece:</b> its letter, its size and, after the arrow, its pocket in the sorter. Sizes are "
        "width by height with the print upright. Lists put the sheet\u2019s number first, as in 1A: pencil "
        "that on the back."
    )
    return signs.sign_of_piece("A", f"{size}\n\u2192\u00a01", book.drawing), said


def _width_sign(book: Book) -> Sign:
    shown = print_length(_typical(book, 4, 100), book.unit)
    said = "<b>What a strip measures.</b> The strips of a figure add up to its whole width."
    return signs.sign_of_width(shown, book.drawing), said
