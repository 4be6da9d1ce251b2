"""The pages of one sheet: its head, its rows with their figures, its tip, what it gives if room is left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from reportlab.platypus import Flowable

from booklet.cutting.model import CutSheet
from booklet.drawing.cutting.cut_figure import with_print
from booklet.drawing.shapes.figure import Figure
from booklet.kit.kit import sheet_title
from booklet.measure.cache import cached_on
from booklet.measure.words import print_size
from booklet.pages.book import Book
from booklet.pages.cut_beside import ROW_GAP, Look
from booklet.pages.cut_gives import gives_table, piece_map
from booklet.pages.cut_plan import Fit, plan_sheet
from booklet.pages.cut_rows import Row, SheetPlan, StageRow, at_head
from booklet.pages.cut_split import Rooms, RowSize, Split, fits, split_rows
from booklet.pages.cut_words import lay_words, number_word
from booklet.pages.flow import FigureBox, Gap
from booklet.pages.head import continued_head, page_head
from booklet.pages.page import Laid, Page, stack_height, stacked
from booklet.pages.type import tip_words, words

_WIDEST_ROW_GAP = 24.0
_TAIL_GAP = 10.0
_OPENING = 2


@dataclass(frozen=True)
class DrawnSheet:
    """A sheet's plan with its finished figures, by the numbers of its stages."""

    plan: SheetPlan
    figures: dict[int, Figure]


def look_of(book: Book) -> Look:
    """What decides how large everything stands in this book."""
    return Look(book.grid, book.sizes, book.drawing, book.scale)


@cached_on
def drawn_sheet(book: Book, index: int) -> DrawnSheet:
    """A sheet's figures with their print; kept, so that pages and files of their own share them."""
    plan = settled_plan(book, index)
    return DrawnSheet(plan, {row.stage.number: _with_print(book, plan.sheet, row) for row in plan.stages})


def _with_print(book: Book, sheet: CutSheet, row: StageRow) -> Figure:
    stage = row.stage
    symbol = book.papers.sheet(sheet.index, stage.lying.face)
    return with_print(row.drawing, symbol, stage.taken[0].part, sheet.size, stage.lying)


# How many pages a sheet takes.


def settled_plan(book: Book, index: int) -> SheetPlan:
    """The sheet's rows with enlarged views near their cuts, or gathered where only that saves pages."""
    near = plan_sheet(book.resolved, index, look_of(book), Fit.NEAR)
    if fits_opening(book, near) or near.sheet.sheet.is_cut_apart:
        return near
    gathered = plan_sheet(book.resolved, index, look_of(book), Fit.GATHERED)
    return gathered if fits_opening(book, gathered) else near


def sheet_split(book: Book, plan: SheetPlan) -> Split:
    """The rows of each of the sheet's pages, as few as hold them."""
    return split_rows(_row_sizes(plan), _rooms(book, plan.sheet.index))


def fits_opening(book: Book, plan: SheetPlan) -> bool:
    """Whether the sheet stands on one page or two facing ones, everything within the type area."""
    return len(sheet_split(book, plan)) <= _OPENING and fits_pages(book, plan)


def fits_pages(book: Book, plan: SheetPlan) -> bool:
    """Whether the sheet stands within the type area of however many pages it takes."""
    return fits(sheet_split(book, plan), _row_sizes(plan), _rooms(book, plan.sheet.index))


def _row_sizes(plan: SheetPlan) -> list[RowSize]:
    return [RowSize(row.height, row.bond, at_head(row).height - row.height) for row in plan.rows]


@cached_on
def _rooms(book: Book, index: int) -> Rooms:
    sheet = book.resolved.sheets[index]
    whole = book.grid.text_height
    tail = _stood(book, _tip(book, sheet))
    return Rooms(
        first=whole - _stood(book, _head(book, index)),
        later=whole - _stood(book, _later_head(book, index)),
        gap=ROW_GAP,
        tail=tail + _TAIL_GAP if tail else 0.0,
        turning=book.styles.body_bold.leading + _TAIL_GAP,
    )


def _stood(book: Book, story: Sequence[Flowable]) -> float:
    return stack_height(stacked(story, book.grid.text_width))


# What stands around the rows.


def _kicker(sheet: CutSheet) -> str:
    count = len(sheet.whole)
    return f"Sheet {sheet.number}" if count == 1 else f"Sheet {sheet.number}, {number_word(count)} alike"


@cached_on
def _head(book: Book, index: int) -> tuple[Flowable, ...]:
    """The head of a sheet's first page: made once to find what it leaves, and to print."""
    sheet = book.resolved.sheets[index]
    size = f"{print_size(sheet.size, book.unit)}\u00a0{book.unit.value}"
    lead = f"{lay_words(book.resolved, sheet)} {size}."
    # Over a figure the room for its readings is gap enough.
    *head, _ = page_head(book, _kicker(sheet), sheet_title(book.kit, sheet.sheet), lead)
    return (*head, Gap(2.0))


def _later_head(book: Book, index: int) -> tuple[Flowable, ...]:
    """The head of each of a sheet's later pages: another on every page."""
    sheet = book.resolved.sheets[index]
    return continued_head(book, f"Sheet {sheet.number}, {sheet_title(book.kit, sheet.sheet)}")


def _tip(book: Book, sheet: CutSheet) -> list[Flowable]:
    tip = sheet.sheet.tip
    return [tip_words(tip, book.styles.body)] if tip else []


def _goes_on(book: Book, rows: Sequence[Row]) -> Flowable:
    first = next((row.first_step for row in rows if row.first_step is not None), 0)
    last = rows[-1].last_step
    steps = f"step {first}" if first == last else f"steps {first} to {last}"
    return words(f"Goes on over the page with {steps}.", book.styles.body_bold)


# The pages.


def sheet_pages(book: Book, index: int, split: Split) -> tuple[Page, ...]:
    """The pages of a sheet, its rows shared out as given; only the first bears bookmark and anchor."""
    drawn = drawn_sheet(book, index)
    sheet = drawn.plan.sheet
    title = sheet_title(book.kit, sheet.sheet)
    sketches = _with_extras(book, drawn, [_sketch(book, drawn, split, at) for at in range(len(split))])
    return tuple(
        Page(
            tuple(_laid_page(drawn, sketch)),
            f"Sheet {sheet.number}  {title}",
            bookmark=None if number else f"Sheet {sheet.number}: {title}",
            bookmark_level=1,
            anchor=None if number else f"sheet-{sheet.sheet.id}",
        )
        for number, sketch in enumerate(sketches)
    )


@dataclass(frozen=True)
class _Sketch:
    """A page before its rows are spaced: head, rows, what follows them, and the height that is left."""

    head: tuple[Laid, ...]
    rows: tuple[Row, ...]
    tail: tuple[Laid, ...]
    free: float

    def with_more(self, parts: Sequence[Laid]) -> _Sketch:
        """The same page with more at its foot."""
        return replace(self, tail=(*self.tail, *parts), free=self.free - _foot_height(parts))


def _sketch(book: Book, drawn: DrawnSheet, split: Split, number: int) -> _Sketch:
    sheet, width = drawn.plan.sheet, book.grid.text_width
    rows = _rows_on(drawn.plan, split[number])
    head = stacked((_later_head if number else _head)(book, sheet.index), width)
    tail = tuple(_at(part, width) for part in _must_follow(book, drawn, split, number))
    content = sum(row.height for row in rows) + ROW_GAP * max(len(rows) - 1, 0)
    free = book.grid.text_height - stack_height(head) - content - _foot_height(tail)
    return _Sketch(head, rows, tail, free)


def _rows_on(plan: SheetPlan, places: Sequence[int]) -> tuple[Row, ...]:
    """The rows of one page, the first as it stands at a page's head."""
    rows = [plan.rows[at] for at in places]
    return tuple(row if place else at_head(row) for place, row in enumerate(rows))


def _must_follow(book: Book, drawn: DrawnSheet, split: Split, number: int) -> list[Flowable]:
    """What no page may leave out: where the sheet goes on over the page, and after its last row its tip."""
    later = [at for rows in split[number + 1 :] for at in rows]
    if not later:
        return _tip(book, drawn.plan.sheet) if split[number] else []
    turns = number % _OPENING == 1
    return [_goes_on(book, drawn.plan.rows[later[0] :])] if turns else []


def _with_extras(book: Book, drawn: DrawnSheet, sketches: Sequence[_Sketch]) -> list[_Sketch]:
    """The pages with what the sheet gives, and with all its pieces in one figure, where there is room.

    A page without rows is there to show them.
    """
    sheet, width = drawn.plan.sheet, book.grid.text_width
    done = list(sketches)
    gives = [_at(gives_table(book, sheet), width)]
    places = range(len(done)) if len(done) == _OPENING and done[-1].rows else [len(done) - 1]
    place = next((at for at in places if done[at].free >= _foot_height(gives)), None)
    if place is not None:
        done[place] = done[place].with_more(gives)
    if len(done) > 1:
        figure = FigureBox(piece_map(book, sheet))
        shown = [
            _at(part, width)
            for part in (words("All its pieces, as the sheet first lay", book.styles.heading), figure)
        ]
        if done[-1].free >= _foot_height(shown):
            done[-1] = done[-1].with_more(shown)
    return done


def _laid_page(drawn: DrawnSheet, sketch: _Sketch) -> Iterator[Laid]:
    """Everything in its place; what height is left widens the gaps between rows a little."""
    yield from sketch.head
    y = stack_height(sketch.head)
    gap = min(ROW_GAP + max(sketch.free, 0.0) / max(len(sketch.rows), 1), _WIDEST_ROW_GAP)
    for row in sketch.rows:
        yield from row.laid(drawn.figures, y)
        y += row.height + gap
    y += _TAIL_GAP - gap if sketch.rows else 0.0
    for laid in sketch.tail:
        yield replace(laid, y=y)
        y += laid.height + _TAIL_GAP


def _foot_height(parts: Sequence[Laid]) -> float:
    return sum((part.height + _TAIL_GAP for part in parts), start=0.0)


def _at(part: Flowable, width: float) -> Laid:
    return Laid(part, 0.0, 0.0, width, part.wrap(width, 1000.0)[1])
