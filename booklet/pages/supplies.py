"""Photographs and supplies at a glance: what each layout takes, what to order, what the box holds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeVar

from reportlab.platypus import Flowable, Table

from booklet.drawing.marks.photo_slot import photo_pictogram
from booklet.drawing.papers.swatch import supply_swatch
from booklet.drawing.shapes.fonts import Font, text_width
from booklet.kit.kit import capitalised, layout_title
from booklet.measure.exact import Fraction
from booklet.measure.length import TIMES
from booklet.measure.words import print_length, print_size
from booklet.pages.book import Book
from booklet.pages.cut_words import listed, number_word
from booklet.pages.flow import FigureBox, Gap, Stack
from booklet.pages.head import page_head, story_pages
from booklet.pages.lists import Command, bold_columns, cell, heading, hex_of, list_table
from booklet.pages.page import Block, story_height
from booklet.pages.photo_size import photo_size
from booklet.pages.type import words
from booklet.placing.photos import PhotoTotal, photo_totals
from booklet.placing.supplies import SupplyBalance, balance_supplies

_KICKER = "At a glance"
_PHOTOGRAPHS = "Photographs"
_SUPPLIES = "Supplies"
_BOTH = "Photographs and supplies"
# What a page reference to the first of these pages points to.
GLANCE = "glance"
# The column of the layouts, and the narrowest and widest that one of the others may be, in points.
_LAYOUT_WIDTH = 104.0
_LEAST_COLUMN = 31.0
_LEAST_SUPPLY_COLUMN = 52.0
_WIDEST_COLUMN = 74.0
_PICTOGRAM = 22.0
# Of a stencil or an ink: that a layout takes it in hand, and that nothing is used up.
_IN_HAND = "yes"
_LASTS = "lasts"

T = TypeVar("T")
Row = list[str | Flowable]


def supply_blocks(book: Book) -> tuple[Block, ...]:
    """The tables at a glance, on one page or one each; nothing for a kit without photographs and supplies."""
    totals = photo_totals(book.resolved.layouts, book.unit)
    balances = balance_supplies(book.kit, book.resolved.layouts)
    photographs, supplies = _photo_part(book, totals), _supply_part(book, balances)
    if not photographs or not supplies:
        title, parts = (_PHOTOGRAPHS, photographs) if photographs else (_SUPPLIES, supplies)
        return (_block(book, title, parts, GLANCE),) if parts else ()
    together = [*photographs, *heading(book, _SUPPLIES, before=14.0, after=4.0), *supplies]
    head = page_head(book, _KICKER, _BOTH)
    if story_height([*head, *together], book.grid.text_width) <= book.grid.text_height:
        return (_block(book, _BOTH, together, GLANCE),)
    return (
        _block(book, _PHOTOGRAPHS, photographs, GLANCE),
        _block(book, _SUPPLIES, supplies, None),
    )


def has_glance(book: Book) -> bool:
    """Whether there is anything to show at a glance."""
    return bool(book.kit.supplies) or bool(photo_totals(book.resolved.layouts, book.unit))


def _block(book: Book, title: str, parts: Sequence[Flowable], anchor: str | None) -> Block:
    story = [*page_head(book, _KICKER, title), *parts]
    return Block(story_pages(book, story, title, anchor))


def _photo_part(book: Book, totals: Sequence[PhotoTotal]) -> list[Flowable]:
    if not totals:
        return []
    sizes = [photo_size(total.size, book.unit) for total in totals]
    widest = max(text_width(size, Font.SANS, book.sizes.small) for size in sizes) + 3.0
    parts = _parted(book, totals, max(widest, _LEAST_COLUMN))
    tables = _spaced([_photo_table(book, part) for part in parts])
    order = heading(book, "Prints to order", before=14.0, after=4.0)
    return [
        words(photo_words(totals), book.styles.lead),
        Gap(8.0),
        *tables,
        *order,
        _order_table(book, totals),
    ]


def _supply_part(book: Book, balances: Sequence[SupplyBalance]) -> list[Flowable]:
    return _spaced([_supply_table(book, part) for part in _parted(book, balances, _LEAST_SUPPLY_COLUMN)])


def _spaced(tables: Sequence[Flowable]) -> list[Flowable]:
    """Tables one under another, with room between them."""
    return [part for table in tables for part in (Gap(12.0), table)][1:]


def _parted(book: Book, items: Sequence[T], least: float) -> Iterator[Sequence[T]]:
    """As many at a time as a table has room for columns."""
    most = int((book.grid.text_width - _LAYOUT_WIDTH) / least)
    for at in range(0, len(items), most):
        yield items[at : at + most]


def _glance_table(book: Book, rows: Sequence[Row], sums: int) -> Table:
    """A head, a row for each layout, and the last rows, which add up; the rules run across the page."""
    columns = len(rows[0]) - 1
    ruled = [[*row, ""] for row in rows]
    return list_table(book, ruled, _widths(book, columns), heads=1, commands=_look(book, columns, sums))


def _widths(book: Book, columns: int) -> list[float]:
    """The layouts' column, then even ones; few stay narrow, so that rows are read across, the last empty."""
    width = min((book.grid.text_width - _LAYOUT_WIDTH) / columns, _WIDEST_COLUMN)
    rest = book.grid.text_width - _LAYOUT_WIDTH - columns * width
    return [_LAYOUT_WIDTH, *[width] * columns, max(rest, 0.0)]


def _look(book: Book, columns: int, sums: int) -> list[Command]:
    """Numbers centred under their heads; the last rows, which add up, in bold under a rule of the accent."""
    accent = hex_of(book.palette.accent)
    last: list[Command] = [("LINEABOVE", (0, -sums), (-1, -sums), 0.9, accent)]
    bold = [(name, (0, -sums), (-1, -1), *rest) for name, _, _, *rest in bold_columns(0)]
    # What adds up stays with the last row that is added.
    last.append(("NOSPLIT", (0, -sums - 1), (-1, -1)))
    return [("ALIGN", (1, 0), (columns, -1), "CENTER"), ("RIGHTPADDING", (1, 0), (-1, -1), 1.0), *last, *bold]


# Photographs.


def photo_words(totals: Sequence[PhotoTotal]) -> str:
    """How many photographs the kit takes: `This kit takes 23 photographs.`"""
    count = sum(total.count for total in totals)
    return "This kit takes one photograph." if count == 1 else f"This kit takes {count} photographs."


def _photo_table(book: Book, totals: Sequence[PhotoTotal]) -> Table:
    rows: list[Row] = [["", *(_photo_head(book, total) for total in totals)]]
    counts = [dict(total.per_layout) for total in totals]
    for layout in book.kit.layouts:
        title = cell(book, layout_title(layout), _LAYOUT_WIDTH)
        rows.append([title, *(str(count.get(layout.id, "")) for count in counts)])
    rows.append(["In all", *(str(total.count) for total in totals)])
    return _glance_table(book, rows, sums=1)


def _photo_head(book: Book, total: PhotoTotal) -> Flowable:
    picture = FigureBox(photo_pictogram(total.size, _PICTOGRAM, book.drawing), align="CENTER")
    return _headed(picture, _PICTOGRAM, words(photo_size(total.size, book.unit), book.styles.small_centre))


def _headed(picture: FigureBox, height: float, text: Flowable) -> Flowable:
    return Stack([Centred(picture, height), text], gap=1.0)


class Centred(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """A figure in the middle of the column, standing at the bottom of a given height."""

    def __init__(self, picture: FigureBox, height: float) -> None:
        super().__init__()
        self.picture = picture
        self.room = height

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """As wide as the column."""
        self.indent = (width - self.picture.wrap(width, height)[0]) / 2
        return width, self.room

    def draw(self) -> None:
        """Draw the figure."""
        self.picture.drawOn(self.canv, self.indent, 0.0)


def _order_table(book: Book, totals: Sequence[PhotoTotal]) -> Table:
    prints: dict[str, list[PhotoTotal]] = {}
    for total in totals:
        prints.setdefault(_print_words(book, total), []).append(total)
    rows: list[Row] = []
    for said, same in prints.items():
        count = str(sum(total.count for total in same))
        note = cell(book, _trimmed_words(book, same), book.grid.text_width - _LAYOUT_WIDTH - 30.0)
        rows.append([said, count, note])
    widths = (_LAYOUT_WIDTH, 30.0, book.grid.text_width - _LAYOUT_WIDTH - 30.0)
    return list_table(book, rows, widths, commands=bold_columns(1))


def _print_words(book: Book, total: PhotoTotal) -> str:
    """The print that a photograph is, or comes out of."""
    if total.print_name is None:
        return f"{print_size(total.size, book.unit)} {book.unit.value}, an enlargement"
    return total.print_name.replace(" x ", f"\u00a0{TIMES}\u00a0")


def _trimmed_words(book: Book, totals: Sequence[PhotoTotal]) -> str:
    trimmed = [total for total in totals if total.trimmed]
    if not trimmed:
        return ""
    counts = ["all"] if len(totals) == 1 else [number_word(total.count) for total in trimmed]
    sizes = [photo_size(total.size, book.unit) for total in trimmed]
    return listed([f"{count} to trim to {size}" for count, size in zip(counts, sizes, strict=True)])


# Supplies.


def _supply_table(book: Book, balances: Sequence[SupplyBalance]) -> Table:
    rows: list[Row] = [["", *(_supply_head(book, balance) for balance in balances)]]
    uses = [dict(balance.per_layout) for balance in balances]
    for layout in book.kit.layouts:
        amounts = [
            _IN_HAND if layout.id in balance.lasting_in else _amount(book, balance, use.get(layout.id))
            for balance, use in zip(balances, uses, strict=True)
        ]
        rows.append([cell(book, layout_title(layout), _LAYOUT_WIDTH), *amounts])
    rows.append(["Used in all", *(_used(book, balance) for balance in balances)])
    rows.append(["In the box", *(_amount(book, balance, balance.boxed) for balance in balances)])
    rows.append(["Left over", *(_amount(book, balance, balance.left) for balance in balances)])
    return _glance_table(book, rows, sums=3)


def _supply_head(book: Book, balance: SupplyBalance) -> Flowable:
    supply = next(supply for supply in book.kit.supplies if supply.id == balance.supply)
    title = supply.title or capitalised(supply.id)
    swatch = supply_swatch(supply, book.drawing)
    return _headed(FigureBox(swatch), swatch.height, words(title, book.styles.small_centre))


def _used(book: Book, balance: SupplyBalance) -> str:
    lasts = bool(balance.lasting_in) and not balance.used
    return _LASTS if lasts else _amount(book, balance, balance.used)


def _amount(book: Book, balance: SupplyBalance, amount: Fraction | None) -> str:
    if amount is None:
        return ""
    unit = f"\u00a0{book.unit.value}" if balance.by_length else ""
    return print_length(amount, book.unit) + unit
