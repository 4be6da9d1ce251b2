"""Sorting: where every piece goes, and what each pocket then holds."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from reportlab.platypus import Flowable

from booklet.drawing.shapes.fonts import Font, text_width
from booklet.kit.kit import layout_title
from booklet.measure.cache import cached_on
from booklet.measure.words import print_size
from booklet.pages.book import Book
from booklet.pages.filed import (
    IN_BOX,
    FiledGroup,
    FiledRow,
    filed_groups,
    filed_rows,
    pocket_figure,
    short_labels,
    small_pocket_figure,
)
from booklet.pages.flow import Beside, FigureBox, Gap, Stack, TickBox
from booklet.pages.head import page_head
from booklet.pages.lists import (
    CELL_GAP,
    Command,
    bold_columns,
    cell,
    list_table,
    right_columns,
)
from booklet.pages.page import Block, PageName, flow, story_height
from booklet.pages.pen import with_room_to_write
from booklet.pages.type import escaped, rich, words

# The columns of the sorting table as shares of the page: labels, piece, size, pocket, layout.
_SHARES = (0.17, 0.28, 0.18, 0.11, 0.26)
# The title of a group spans its rows, stands clear of what is above, and stays with its first row.
_ABOVE_GROUP = 6.5
_GROUP_LOOK: list[Command] = [
    ("TOPPADDING", (0, 0), (-1, -1), 1.5),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 1.5),
    ("TOPPADDING", (3, 0), (3, -1), 0.3),
    ("BOTTOMPADDING", (3, 0), (3, -1), 0.3),
    ("RIGHTPADDING", (-1, 0), (-1, -1), 0.0),
    ("SPAN", (0, 0), (-1, 0)),
    ("TOPPADDING", (0, 0), (-1, 0), _ABOVE_GROUP),
    ("NOSPLIT", (0, 0), (-1, 1)),
    *bold_columns(0),
]

_BOX = 14.0
_GUTTER = 18.0
_ABOVE_POCKET = 16.0
_ROW_PADDING = 1.4
_POCKET_NUMBER_SIZE = 17.0
_MISSING = "Note its label here. The number in the label is the sheet that it is cut from."


# Where every piece goes.


def sorting_blocks(book: Book) -> tuple[Block, ...]:
    """The sorting table: every piece by its label, with its size, its pocket and its layout."""
    lead = "File each piece as soon as it is cut, in the pocket with this number."
    title = "Where every piece goes"
    head = partial(_column_heads, book)
    groups = [_group(book, group) for group in filed_groups(book.resolved)]
    story = [*page_head(book, "Sorting", title, lead), *head(), *groups]
    return (Block(flow(story, book.grid, PageName(title, title, anchor="sorting"), head)),)


def _column_heads(book: Book) -> list[Flowable]:
    """What the columns are called, over each page of them."""
    row = ["Label", "Piece", f"Size, {book.unit.value}", "Pocket", "Layout"]
    return [list_table(book, [row], _widths(book), heads=1)]


def _widths(book: Book) -> list[float]:
    return [share * book.grid.text_width for share in _SHARES]


def _group(book: Book, group: FiledGroup) -> Flowable:
    return GroupRows(book, group, [_sorting_row(book, row, _widths(book)) for row in group.rows])


class GroupRows(Stack):
    """The title of a group over its rows; where they go on over the page it comes again, and says so."""

    def __init__(
        self, book: Book, group: FiledGroup, rows: Sequence[list[str | Flowable]], *, continued: bool = False
    ) -> None:
        self.book, self.group, self.rows = book, group, rows
        title = _group_title(book, group, continued=continued)
        self.table = list_table(book, [[title, *[""] * 4], *rows], _widths(book), commands=_GROUP_LOOK)
        super().__init__([self.table])

    def split(self, width: float, height: float) -> list[Flowable]:
        """The rows for which there is room, and the others under the title again; nothing where none fits."""
        parts = self.table.split(width, height)
        if len(parts) < 2:
            return []
        first, _ = parts
        others = self.rows[len(first._cellvalues) - 1 :]
        return [first, GroupRows(self.book, self.group, others, continued=True)]


def _group_title(book: Book, group: FiledGroup, *, continued: bool) -> Flowable:
    title = escaped(group.title)
    if group.number is not None:
        title = f'<font color="{book.palette.accent.hex}">Sheet {group.number}</font>&nbsp;&nbsp;{title}'
    return rich(f"{title}, continued" if continued else title, book.styles.body_bold)


def _sorting_row(book: Book, row: FiledRow, widths: Sequence[float]) -> list[str | Flowable]:
    pocket = "" if row.pocket is None else FigureBox(small_pocket_figure(book, row.pocket))
    return [
        cell(book, short_labels(row.labels), widths[0], bold=True) or IN_BOX,
        cell(book, row.said, widths[1]),
        print_size(row.size, book.unit),
        pocket,
        cell(book, row.goes, widths[4]),
    ]


# What each pocket holds.


def pocket_blocks(book: Book) -> tuple[Block, ...]:
    """The contents of each pocket to tick off, by layout."""
    lead = "Tick off what is there before you begin a layout."
    story = page_head(book, "Sorting", "What each pocket holds", lead)
    for at, pocket in enumerate(pockets_of(book)):
        story += [Gap(_ABOVE_POCKET if at else 0.0), *_pocket_parts(book, pocket)]
    name = PageName("What each pocket holds", "What each pocket holds", anchor="pockets")
    *pages, last = flow(story, book.grid, name)
    return (Block((*pages, with_room_to_write(book, last, "Not in its pocket?", _MISSING))),)


def pockets_of(book: Book) -> list[int]:
    """The pockets that the layouts use, by number."""
    return sorted({layout.pocket for layout in book.kit.layouts})


def _pocket_parts(book: Book, pocket: int) -> list[Flowable]:
    """The pocket in one part where a page holds it, else two columns at a time, each under its head."""
    lists = _lists_of(book, pocket)
    whole = _pocket_part(book, pocket, lists, continued=False)
    width, height = book.grid.text_width, book.grid.text_height
    if story_height([whole], width) <= height:
        return [whole]
    # So many rows fit a page even where each name takes two lines.
    most = int((height - story_height([_pocket_part(book, pocket, [], continued=False)], width)) / 30)
    chunks = [
        [(title, rows[at : at + most]) for title, rows in pair]
        for pair in (lists[place : place + 2] for place in range(0, len(lists), 2))
        for at in range(0, max(len(rows) for _, rows in pair), most)
    ]
    parts: list[Flowable] = []
    for at, chunk in enumerate(chunks):
        parts += [_pocket_part(book, pocket, chunk, continued=at > 0), Gap(_ABOVE_POCKET)]
    return parts[:-1]


Titled = tuple[str, Sequence[FiledRow]]


def _lists_of(book: Book, pocket: int) -> list[Titled]:
    """What the pocket holds for each layout, by its title; an only layout is halved and has none."""
    entries = book.resolved.ledger.in_pocket(pocket)
    lists: list[Titled] = []
    for index, layout in enumerate(book.kit.layouts):
        if layout.pocket == pocket:
            mine = [entry for entry in entries if entry.use and entry.use.layout_index == index]
            rows = [row for entry in mine if entry.label for row in filed_rows(book.resolved, [entry])]
            rows += filed_rows(book.resolved, [entry for entry in mine if not entry.label])
            lists.append((layout_title(layout), tuple(rows)))
    if len(lists) == 1:
        only = lists[0][1]
        half = (len(only) + 1) // 2
        return [("", only[:half]), ("", only[half:])]
    return lists


def _pocket_part(book: Book, pocket: int, lists: Sequence[Titled], *, continued: bool) -> Flowable:
    parts: list[Flowable] = [_pocket_head(book, pocket, continued=continued), Gap(6.0)]
    width = (book.grid.text_width - _GUTTER) / 2
    for at in range(0, len(lists), 2):
        columns = [(_column(book, title, rows, width), width) for title, rows in lists[at : at + 2]]
        parts += [Beside(columns, _GUTTER), Gap(6.0)]
    return Stack(parts[:-1])


def _pocket_head(book: Book, pocket: int, *, continued: bool) -> Flowable:
    figure = pocket_figure(pocket, book.drawing.with_changes(disc_text_size=_POCKET_NUMBER_SIZE))
    tip = None if continued else book.kit.pocket_tips.get(pocket)
    title = f"Pocket {pocket}, continued" if continued else f"Pocket {pocket}"
    layouts = [layout_title(layout) for layout in book.kit.layouts if layout.pocket == pocket]
    if len(layouts) == 1:
        title = f"{title}: {layouts[0]}"
    heading = words(title, book.styles.heading)
    room = figure.width + 9.0
    # Words on one line stand at the middle of the pocket beside them.
    above = max((figure.height - story_height([heading], book.grid.text_width - room)) / 2, 0.0)
    said = [heading, words(tip, book.styles.small)] if tip else [Gap(above), heading]
    return Beside([(FigureBox(figure), room), (Stack(said), book.grid.text_width - room)], 0.0)


def _column(book: Book, title: str, rows: Sequence[FiledRow], width: float) -> Flowable:
    head: list[Flowable] = [words(title, book.styles.small_bold), Gap(2.0)] if title else []
    if not rows:
        return Stack(head)
    widths = _pocket_widths(book, width)
    made = [_pocket_row(book, row, widths) for row in rows]
    commands = [
        *bold_columns(1),
        *right_columns(3),
        ("RIGHTPADDING", (3, 0), (3, -1), 0.0),
        ("TOPPADDING", (0, 0), (-1, -1), _ROW_PADDING),
        ("BOTTOMPADDING", (0, 0), (-1, -1), _ROW_PADDING),
    ]
    return Stack([*head, list_table(book, made, widths, commands=commands)])


@cached_on
def _pocket_widths(book: Book, width: float) -> tuple[float, ...]:
    """Box, label and size take what the kit's longest ones need; the name has the rest.

    All pieces are measured for it, once for the lists of all pockets.
    """
    size = book.sizes.small
    entries = book.resolved.ledger.entries
    label = max(text_width(entry.label or IN_BOX, Font.SANS_BOLD, size) for entry in entries) + CELL_GAP
    measure = max(text_width(print_size(entry.size, book.unit), Font.SANS, size) for entry in entries) + 1.0
    return (_BOX, label, width - _BOX - label - measure, measure)


def _pocket_row(book: Book, row: FiledRow, widths: Sequence[float]) -> list[str | Flowable]:
    return [
        TickBox(book.palette.soft_ink, drop=0.0),
        cell(book, short_labels(row.labels), widths[1], bold=True) or IN_BOX,
        cell(book, row.said, widths[2]),
        print_size(row.size, book.unit),
    ]
