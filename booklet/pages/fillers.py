"""Useful pages for where a page is wanted.

They let a section begin on its side of the fold, and bring the booklet to a multiple of four pages.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from reportlab.platypus import Flowable, Table

from booklet.kit.kit import sheet_title, trimmer_limits
from booklet.measure.length import Size
from booklet.measure.words import is_printable, print_length, print_size
from booklet.pages.back_cover import back_cover
from booklet.pages.book import Book
from booklet.pages.cut_steps import Numbered
from booklet.pages.filed import IN_BOX
from booklet.pages.flow import Gap
from booklet.pages.head import page_head
from booklet.pages.lists import PEN_LINE, bold_columns, cell, heading, list_table, pen_lines
from booklet.pages.page import Page, PageName, flow, story_height
from booklet.pages.photo_planner import planner_pages
from booklet.pages.pocket_labels import label_pages
from booklet.pages.type import escaped, rich
from booklet.sorting.ledger import LedgerEntry
from booklet.sorting.remnants import Remnant, remnants, replacement

__all__ = ["back_cover", "filler_pages"]

_KICKER = "To write in"


def filler_pages(book: Book) -> Iterator[Page]:
    """Page after page, each kind once, and then pages for notes without end."""
    for make in _KINDS:
        yield from make(book)
    while True:
        yield notes_page(book)


def _page(book: Book, title: str, story: list[Flowable]) -> Page:
    """The first page of a story that is meant to fill just one."""
    return flow(story, book.grid, PageName(title, title))[0]


# When a cut goes wrong.

_ADVICE = (
    "<b>Stop, and keep every strip.</b> Nothing is lost until it is glued.",
    "<b>Too wide?</b> Lay it in again, the same edge at zero, and cut at the reading on the sheet’s page.",
    "<b>Too narrow?</b> Look at its layout. Where another piece or a photograph covers an edge, it will not "
    "show; move the piece so that the covered edge takes up what is missing.",
    "<b>Cut on the wrong side?</b> Look whether a piece of the same paper is to spare, or a scrap is large "
    "enough.",
    "<b>Labels mixed up?</b> Measure a piece and look for its size in the table of pieces.",
)


def rescue_pages(book: Book) -> Iterator[Page]:
    """What helps when a cut has gone wrong, what is left over to help with, and room for what one changed."""
    title = "If a cut goes wrong"
    story = page_head(book, "Take heart", title)
    for said in _ADVICE:
        story += [rich(said, book.styles.body), Gap(5.0)]
    story += _again(book)
    rows = _left_over(book)
    room = book.grid.text_height - story_height(story, book.grid.text_width) - 60.0
    if rows and room > 3 * 17.0:
        # The largest come first, so that what finds no room is of the least use.
        story += [*heading(book, "What is left over", after=4.0), _left_table(book, rows[: int(room / 17.0)])]
    lines = _lines(book, [*story, *heading(book, "What I changed", before=14.0)])
    if lines:
        story += [*heading(book, "What I changed", before=14.0), lines]
    yield _page(book, title, story)


# Of more pieces than these the page does not speak: there is room for what is left over below.
_MOST_AGAIN = 6


def _again(book: Book) -> list[Flowable]:
    """For each large piece what replaces it, a spare one or scrap to cut it from; or that nothing does."""
    found = _replacements(book)
    title = heading(book, "What can be replaced", after=4.0)
    if not found:
        said = "Nothing that is left over is large enough for a piece of its paper. Measure twice."
        return [*title, rich(said, book.styles.body)]
    return [*title, _again_table(book, found[:_MOST_AGAIN])]


def _replacements(book: Book) -> list[tuple[LedgerEntry, Remnant]]:
    """The pieces that can be cut again, one of each name, the largest first."""
    kit, resolved = book.kit, book.resolved
    left = remnants(kit, resolved.sheets, resolved.ledger)
    used = {entry.name: entry for entry in reversed(resolved.ledger.entries) if entry.use is not None}
    found = ((entry, replacement(kit, entry, left)) for entry in used.values())
    pairs = [(entry, remnant) for entry, remnant in found if remnant is not None]
    return sorted(pairs, key=lambda pair: (-pair[0].size.area, pair[0].name))


def _again_table(book: Book, rows: Sequence[tuple[LedgerEntry, Remnant]]) -> Table:
    piece, size, source = 100.0, 76.0, 40.0
    what = book.grid.text_width - piece - size - source
    cells: list[list[str | Flowable]] = [["Piece", f"Size, {book.unit.value}", "Sheet", "Take"]]
    for entry, remnant in rows:
        number = IN_BOX if remnant.number is None else str(remnant.number)
        cells.append(
            [
                cell(book, entry.name, piece, bold=True),
                print_size(entry.size, book.unit),
                number,
                cell(book, _remnant_words(book, entry, remnant), what),
            ]
        )
    return list_table(book, cells, (piece, size, source, what), heads=1)


def _remnant_words(book: Book, entry: LedgerEntry, remnant: Remnant) -> str:
    if remnant.spare == entry.name:
        return "the spare one"
    what = "scrap" if remnant.spare is None else f"spare {remnant.spare}"
    return f"{what}, {print_size(remnant.size, book.unit)}"


@dataclass(frozen=True)
class _Left:
    """Something left over: from which sheet (none if it came ready-cut), of which paper, how large."""

    number: int | None
    paper: str
    size: Size
    what: str


def _left_over(book: Book) -> list[tuple[_Left, int]]:
    """Spare pieces and scrap, the largest first, and how many alike there are."""
    kit = book.kit
    left = [
        _Left(sheet.number, sheet_title(kit, sheet.sheet), piece.size, "scrap")
        for sheet in book.resolved.sheets
        for piece in sheet.scrap
    ]
    for entry in (entry for entry in book.resolved.ledger.entries if entry.spare):
        kind, index = entry.source
        sheet = next((s for s in book.resolved.sheets if kind == "sheets" and s.index == index), None)
        paper = sheet_title(kit, sheet.sheet) if sheet else "Ready-cut"
        left.append(_Left(sheet.number if sheet else None, paper, entry.size, f"spare {entry.name}"))
    return sorted(Counter(left).items(), key=lambda found: -found[0].size.area)


def _left_table(book: Book, rows: Sequence[tuple[_Left, int]]) -> Table:
    sheet, size, what = 40.0, 76.0, 110.0
    paper = book.grid.text_width - sheet - size - what
    cells: list[list[str | Flowable]] = [["Sheet", "Paper", f"Size, {book.unit.value}", "What it is"]]
    for left, count in rows:
        times = f" × {count}" if count > 1 else ""
        cells.append(
            [
                IN_BOX if left.number is None else str(left.number),
                cell(book, left.paper, paper),
                print_size(left.size, book.unit),
                cell(book, left.what + times, what),
            ]
        )
    return list_table(book, cells, (sheet, paper, size, what), heads=1, commands=bold_columns(0))


def _lines(book: Book, story: Sequence[Flowable]) -> Table | None:
    """Lines for a pen down to the foot of the page that begins with this story."""
    return pen_lines(book, book.grid.text_height - story_height(story, book.grid.text_width))


# The member's own trimmer.


def trimmer_pages(book: Book) -> Iterator[Page]:
    """How to find out how far one's trimmer is out, and a table to keep that in."""
    title = "My trimmer"
    steps = (
        "Take a scrap and cut a strip of it at a round reading.",
        "Measure the strip with a ruler that you trust, at both ends.",
        f"Is it out by less than half a mark{_half_mark(book)}? Then cut this kit as it is printed.",
        "Is it out by more? Note by how much, and set each reading so much larger or smaller.",
        "Do both ends differ? Then the paper did not lie square at the stop: press it there and cut again.",
    )
    story = page_head(book, _KICKER, title, "Try it on a scrap before the first sheet.")
    for at, said in enumerate(steps, 1):
        story += [Numbered((at,), rich(escaped(said), book.styles.body), book.drawing), Gap(4.0)]
    width = book.grid.text_width
    story.append(Gap(10.0))
    rows: list[list[str | Flowable]] = [["Day", "Cut at", "Came out at", "So I set it"]]
    count = int((book.grid.text_height - story_height(story, width)) / PEN_LINE) - 1
    rows += [[""] * 4] * count
    story.append(list_table(book, rows, [width / 4] * 4, heads=1, row_height=PEN_LINE))
    yield _page(book, title, story)


def _half_mark(book: Book) -> str:
    """How much half a mark is, after a comma; nothing where no ruler shows it."""
    half = trimmer_limits(book.kit).mark / 2
    return (
        f", {print_length(half, book.unit)}\u00a0{book.unit.value}" if is_printable(half, book.unit) else ""
    )


# Notes.


def notes_page(book: Book) -> Page:
    """Lines for a pen."""
    story = page_head(book, _KICKER, "Notes")
    lines = _lines(book, story)
    return flow([*story, *([lines] if lines else [])], book.grid, PageName("Notes"))[0]


# As they are wanted on the way through a booklet: before and amid the cuts, before the layouts, at the end.
_KINDS: tuple[Callable[[Book], Iterator[Page]], ...] = (
    trimmer_pages,
    rescue_pages,
    planner_pages,
    label_pages,
)
