"""The pages of one sheet: its head, its rows with their figures, its tip, what it gives where room is left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from xml.sax.saxutils import escape

from reportlab.platypus import Flowable

from booklet.cutting.model import CutSheet
from booklet.drawing.cut_figure import with_print
from booklet.drawing.figure import Figure
from booklet.kit.kit import sheet_title
from booklet.measure.words import print_size
from booklet.pages.book import Book
from booklet.pages.cut_gives import gives_table
from booklet.pages.cut_plan import Look, SheetPlan, StageRow, plan_sheet
from booklet.pages.cut_split import Split, even_split, fits, split_rows
from booklet.pages.cut_words import lay_words, number_word
from booklet.pages.flow import Rule
from booklet.pages.head import page_head
from booklet.pages.page import Laid, Page
from booklet.pages.type import rich, words

_ROW_GAP = 12.0
_WIDEST_ROW_GAP = 24.0
_TAIL_GAP = 10.0
_OPENING = 2


@dataclass(frozen=True)
class DrawnSheet:
    """A sheet's plan with its finished figures, one for each row."""

    plan: SheetPlan
    figures: tuple[Figure, ...]


def look_of(book: Book) -> Look:
    """What decides how large everything stands in this book."""
    return Look(book.grid, book.sizes, book.drawing, book.scale)


@lru_cache(maxsize=256)
def drawn_sheet(book: Book, index: int) -> DrawnSheet:
    """A sheet's figures with their print; kept, so that pages and files of their own share them."""
    plan = plan_sheet(book.worked, index, look_of(book))
    return DrawnSheet(plan, tuple(_with_print(book, plan.sheet, row) for row in plan.rows))


def _with_print(book: Book, sheet: CutSheet, row: StageRow) -> Figure:
    symbol = book.papers.sheet(sheet.index, row.stage.lying.face)
    return with_print(row.drawing, symbol, row.stage.taken[0].part, sheet.size, row.stage.lying)


# How many pages a sheet takes.


def sheet_split(book: Book, plan: SheetPlan) -> Split:
    """The rows of each of the sheet's pages, as few as hold them."""
    return split_rows(_heights(plan), _ROW_GAP, *_rooms(book, plan))


def fits_opening(book: Book, plan: SheetPlan) -> bool:
    """Whether the sheet stands on one page or two facing ones, everything within the type area."""
    split = sheet_split(book, plan)
    return len(split) <= _OPENING and fits(split, _heights(plan), _ROW_GAP, *_rooms(book, plan))


def over_pages(book: Book, plan: SheetPlan, pages: int) -> Split:
    """The rows of a sheet shared over more pages than they need."""
    return even_split(_heights(plan), _ROW_GAP, *_rooms(book, plan), pages=pages)


def _heights(plan: SheetPlan) -> list[float]:
    return [row.height for row in plan.rows]


def _rooms(book: Book, plan: SheetPlan) -> tuple[float, float, float]:
    """The room for rows on the first page and on later ones, and what must follow the last row."""
    whole = book.grid.text_height
    tail = _stood(book, _tip(book, plan.sheet))
    return (
        whole - _stood(book, _head(book, plan.sheet)),
        whole - _stood(book, _later_head(book, plan.sheet)),
        tail + _TAIL_GAP if tail else 0.0,
    )


def _stood(book: Book, story: Sequence[Flowable]) -> float:
    return sum((part.wrap(book.grid.text_width, book.grid.text_height)[1] for part in story), start=0.0)


# What stands around the rows.


def _kicker(sheet: CutSheet) -> str:
    count = len(sheet.whole)
    return f"Sheet {sheet.number}" if count == 1 else f"Sheet {sheet.number}, {number_word(count)} alike"


def _head(book: Book, sheet: CutSheet) -> list[Flowable]:
    size = f"{print_size(sheet.size, book.unit)}\u00a0{book.unit.value}"
    lead = f"{lay_words(book.worked, sheet)} {size}."
    return page_head(book, _kicker(sheet), sheet_title(book.kit, sheet.sheet), lead)


def _later_head(book: Book, sheet: CutSheet) -> list[Flowable]:
    said = f"Sheet {sheet.number}, {sheet_title(book.kit, sheet.sheet)}, continued"
    return [
        words(said, book.styles.kicker),
        Rule(book.palette.accent, weight=0.9, before=5.0, after=9.0),
    ]


def _tip(book: Book, sheet: CutSheet) -> list[Flowable]:
    tip = sheet.sheet.tip
    return [rich(f"<b>Tip</b> {escape(tip)}", book.styles.body)] if tip else []


def _goes_on(book: Book, rows: Sequence[StageRow]) -> Flowable:
    first, last = rows[0].stage.cuts[0].number, rows[-1].stage.cuts[-1].number
    steps = f"step {first}" if first == last else f"steps {first} to {last}"
    return words(f"Goes on over the page with {steps}.", book.styles.body_bold)


# The pages.


def sheet_pages(book: Book, index: int, split: Split) -> tuple[Page, ...]:
    """The pages of a sheet, its rows shared out as given; only the first bears bookmark and anchor."""
    drawn = drawn_sheet(book, index)
    sheet = drawn.plan.sheet
    title = sheet_title(book.kit, sheet.sheet)
    pages = []
    for number, rows in enumerate(split):
        turns = number % _OPENING == 1 and number + 1 < len(split)
        after = [drawn.plan.rows[at] for at in split[number + 1]] if turns else []
        laid = tuple(_laid_page(book, drawn, number, rows, last=number == len(split) - 1, after=after))
        first = number == 0
        pages.append(
            Page(
                laid,
                f"Sheet {sheet.number}  {title}",
                bookmark=f"Sheet {sheet.number}: {title}" if first else None,
                bookmark_level=1,
                anchor=f"sheet-{sheet.sheet.id}" if first else None,
            )
        )
    return tuple(pages)


def _laid_page(
    book: Book, drawn: DrawnSheet, number: int, rows: Sequence[int], *, last: bool, after: Sequence[StageRow]
) -> Iterator[Laid]:
    sheet, width, room = drawn.plan.sheet, book.grid.text_width, book.grid.text_height
    y = 0.0
    for part in _head(book, sheet) if not number else _later_head(book, sheet):
        laid = _at(part, y, width)
        y += laid.height
        yield laid
    tail = _tip(book, sheet) if last else [_goes_on(book, after)] if after else []
    tail_height = sum(_TAIL_GAP + part.wrap(width, room)[1] for part in tail)
    content = sum(drawn.plan.rows[at].height for at in rows)
    table = gives_table(book, sheet) if last else None
    free = room - y - content - _ROW_GAP * max(len(rows) - 1, 0) - tail_height
    table_height = table.wrap(width, room)[1] + _TAIL_GAP if table else 0.0
    if table_height > free:
        table, table_height = None, 0.0
    gap = _row_gap(free - table_height, len(rows))
    for at in rows:
        yield from drawn.plan.rows[at].laid(drawn.figures[at], y, width)
        y += drawn.plan.rows[at].height + gap
    y += _TAIL_GAP - gap if rows else 0.0
    for part in [*tail, *([table] if table else [])]:
        laid = _at(part, y, width)
        y += laid.height + _TAIL_GAP
        yield laid


def _row_gap(free: float, rows: int) -> float:
    if rows < 2:
        return _ROW_GAP
    return min(_ROW_GAP + max(free, 0.0) / rows, _WIDEST_ROW_GAP)


def _at(part: Flowable, y: float, width: float) -> Laid:
    return Laid(part, 0.0, y, width, part.wrap(width, 1000.0)[1])
