"""Tables: thin rules, no boxes; a group stays whole, or its title comes again over the page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from itertools import groupby
from typing import Any

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, PageBreak
from reportlab.platypus import Table as CellGrid

from booklet.content.artist import Room
from booklet.content.blocks import Align, Cell, Column, Picture, Row, RowKind, Table, Tick
from booklet.content.spans import line
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.writers.pdf_fonts import pdf_font_name
from booklet.measure.dataclass import replace
from booklet.pages.boxes import BETWEEN_BLOCKS, FigureBox, Rule, TickBox, figure_beside, spaced
from booklet.pages.flow import ENDLESS
from booklet.pages.setup import PageSetup, drawn
from booklet.pages.text import line_width, paragraph, widest_word
from booklet.pages.type import hex_colour

CELL_GAP = 7.0
_PADDING = 1.5
_GROUP_ABOVE, _REMARK_ABOVE = 5.0, -1.0
# A row that takes more of a page's height has its cells under one another.
_MOST_ROW = 0.6
# How high a picture in a cell may be, and one before a title, in lines, and how wide, in points.
_PICTURE_LINES, _TITLE_LINES, _PICTURE_WIDTH = 2.6, 2.0, 60.0
# A head is broken where it is wider than its column and than this, in points.
_HEAD_WIDTH = 54.0
# Added to a width that words fill wholly: sums of widths are rounded.
_ROUNDING = 0.3
# The cells of a column that stand on one line, as a part of all: the first for which there is room.
_PARTS = (1.0, 0.95, 0.9, 0.8, 0.65, 0.5)
# What a column with a share keeps of the table's width, however wide the others would be.
_LEAST_SHARE = 0.2
_HAIRLINE, _HEAD_LINE = 0.4, 0.9
_SIDES = {Align.START: "LEFT", Align.CENTRE: "CENTER", Align.END: "RIGHT"}


def table(setup: PageSetup, block: Table, width: float) -> list[Flowable]:
    """A table as wide as its column."""
    if not block.columns or not block.rows:
        return []
    block = rows_abreast(block)
    rows = RowsTable(setup, block.columns, block.rows, column_widths(setup, block, width))
    if rows.highest_row > _MOST_ROW * setup.grid.text_height:
        return [cell for row in block.rows for cell in _cells_below(setup, row, width)]
    return [spaced(rows, 2.0, BETWEEN_BLOCKS)]


def _cells_below(setup: PageSetup, row: Row, width: float) -> Iterator[Flowable]:
    """The cells of a row under one another, where they may go on over the page: some hold many words."""
    for cell in row.cells:
        if isinstance(cell, Picture):
            yield FigureBox(drawn(setup, cell, _cell_room(setup, width)))
        elif isinstance(cell, Tick):
            yield TickBox(setup.palette.ink, setup.styles.cell)
        elif cell:
            said = paragraph(cell, setup.styles.group if row.kind is RowKind.GROUP else setup.styles.cell)
            said.anchor = row.anchor if row.kind is RowKind.GROUP else None
            yield spaced(said, 0.0, _PADDING)
    yield Rule(setup.palette.rule, _HAIRLINE, _PADDING, _PADDING)


def rows_abreast(block: Table) -> Table:
    """The table with so many rows of a group side by side as it says, read down one side, then the next."""
    if block.abreast < 2:
        return block
    rows: list[Row] = []
    for is_body, run in groupby(block.rows, key=lambda row: row.kind is RowKind.BODY):
        together = list(run)
        rows += _side_by_side(together, block) if is_body else together
    between = Column(())
    columns = [column for _ in range(block.abreast) for column in (between, *block.columns)]
    return replace(block, columns=tuple(columns[1:]), rows=tuple(rows), abreast=1)


def _side_by_side(rows: Sequence[Row], block: Table) -> Iterator[Row]:
    high = -(-len(rows) // block.abreast)
    blank: tuple[Cell, ...] = ((),) * len(block.columns)
    for at in range(high):
        sides = [
            rows[place].cells if place < len(rows) else blank
            for place in range(at, high * block.abreast, high)
        ]
        yield Row(tuple(cell for side in sides for cell in ((), *side))[1:])


# Widths.


def column_widths(setup: PageSetup, block: Table, width: float) -> tuple[float, ...]:
    """The widths of a table's columns.

    A column without a share hugs its widest cell.  The others are wide enough for all of their cells, or for
    as many as there is room for, and share what is left over.
    """
    needs = [_needs(setup, block, at) for at in range(len(block.columns))]
    shares = [column.share or 0.0 for column in block.columns]
    if not any(shares):
        shares = [float(at == needs.index(max(needs))) for at in range(len(needs))]
    least = sum(
        min(need[-1], _LEAST_SHARE * width) for need, share in zip(needs, shares, strict=True) if share
    )
    hugging = [0.0 if share else need[-1] for need, share in zip(needs, shares, strict=True)]
    hugged = _capped(hugging, width - least)
    room = width - sum(hugged)
    for part in _PARTS:
        wanted = [
            need[round((len(need) - 1) * part)] if share else 0.0
            for need, share in zip(needs, shares, strict=True)
        ]
        if sum(wanted) <= room:
            break
    shared = _grown(_capped(wanted, room), [need[-1] for need in needs], shares, room)
    return tuple(map(sum, zip(hugged, shared, strict=True)))


def _grown(
    widths: Sequence[float], most: Sequence[float], shares: Sequence[float], room: float
) -> list[float]:
    """Widths that fill a room: first those grow that lack least of what they need at most, then all."""
    grown = list(widths)
    for at in sorted(range(len(grown)), key=lambda at: most[at] - grown[at]):
        lack = most[at] - grown[at]
        if shares[at] and 0 < lack <= room - sum(grown):
            grown[at] += lack
    rest = room - sum(grown)
    return [wide + rest * share / sum(shares) for wide, share in zip(grown, shares, strict=True)]


def _needs(setup: PageSetup, block: Table, at: int) -> list[float]:
    """The widths that a column's cells and its head take on one line, the narrowest first."""
    column = block.columns[at]
    cells = [row.cells[at] for row in block.rows if row.kind is not RowKind.GROUP]
    style = setup.styles.cell_strong
    head = max(widest_word(column.head, style), min(line_width(column.head, style), _HEAD_WIDTH))
    widths = sorted(_cell_width(setup, cell, column) for cell in cells)
    return [max(wide, head) + CELL_GAP + _ROUNDING for wide in widths or [head]]


def _cell_width(setup: PageSetup, cell: Cell, column: Column) -> float:
    if isinstance(cell, Tick):
        return setup.sizes.table
    if isinstance(cell, Picture):
        return drawn(setup, cell, _cell_room(setup, _PICTURE_WIDTH)).width
    return line_width(cell, setup.styles.cell_strong if column.is_strong else setup.styles.cell)


def _capped(widths: Sequence[float], room: float) -> list[float]:
    """Widths that together fit a room: the widest give way until they are alike."""
    rest, most = room, max(widths, default=0.0)
    for at, wide in enumerate(sorted(widths)):
        share = rest / (len(widths) - at)
        if wide >= share:
            most = share
            break
        rest -= wide
    return [min(wide, most) for wide in widths]


def _cell_room(setup: PageSetup, width: float) -> Room:
    return Room(min(width, _PICTURE_WIDTH), _PICTURE_LINES * setup.sizes.table_leading)


# Rows.


class RowsTable(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """Rows under their heads, broken over pages between rows.

    `carried` is the title of the group whose rows go on here from the page before.
    """

    def __init__(
        self,
        setup: PageSetup,
        columns: Sequence[Column],
        rows: Sequence[Row],
        widths: Sequence[float],
        carried: Row | None = None,
    ) -> None:
        super().__init__()
        self.setup = setup
        self.columns, self.rows, self.widths = tuple(columns), tuple(rows), tuple(widths)
        self.carried = carried
        self.above = int(any(column.head for column in columns)) + bool(carried)
        self.grid = self._grid()

    @property
    def contents(self) -> list[Flowable]:
        """What stands in its cells, row by row."""
        cells = [cell for row in self.grid._cellvalues for cell in row if cell]
        return [part for cell in cells for part in (cell if isinstance(cell, list | tuple) else [cell])]

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002 (the flowable protocol)
        """As wide as the columns, as high as the rows."""
        self.width, self.height = self._size
        return self._size

    @cached_property
    def _size(self) -> tuple[float, float]:
        """Found once: pages are tried, and the columns keep their widths."""
        width, height = self.grid.wrap(sum(self.widths), ENDLESS)
        return width, height

    @property
    def highest_row(self) -> float:
        """How high the highest row stands: it cannot be broken."""
        self.wrap(0.0, 0.0)
        return max(map(float, self.grid._rowHeights))

    def draw(self) -> None:
        """Draw the rows."""
        self.grid.drawOn(self.canv, 0.0, 0.0)

    def split(self, width: float, height: float) -> list[Flowable]:
        """The rows that fit a height, and the others under the heads and the title of their group."""
        self.wrap(width, height)
        end = self._last_break(height)
        if end is None:
            return []
        first = RowsTable(self.setup, self.columns, self.rows[:end], self.widths, self.carried)
        carried = None if self.rows[end].kind is RowKind.GROUP else self._group_at(end)
        second = RowsTable(self.setup, self.columns, self.rows[end:], self.widths, carried)
        parts = [spaced(each, self.spaceBefore, self.spaceAfter) for each in (first, second)]
        # What is left of the page would else take a part of the group that was kept off it.
        return [parts[0], PageBreak(), parts[1]] if self._parts_groups_only(end, height) else parts

    def _last_break(self, height: float) -> int | None:
        """After how many rows to break: the most that fit and may be followed by a break."""
        fitting = [
            end
            for end in range(1, len(self.rows))
            if self._high(0, end) <= height and may_break(self.rows, end)
        ]
        whole = [end for end in fitting if self._parts_groups_only(end, height)]
        if whole:
            return max(whole)
        return max(
            (end for end in fitting if not leaves_one(self.rows, end)), default=max(fitting, default=None)
        )

    def _parts_groups_only(self, end: int, height: float) -> bool:
        """Whether a group begins after so many rows, and is one that such a height holds whole."""
        if self.rows[end].kind is not RowKind.GROUP:
            return False
        later = (at for at in range(end + 1, len(self.rows)) if self.rows[at].kind is RowKind.GROUP)
        return self._high(end, next(later, len(self.rows))) <= height

    def _high(self, start: int, end: int) -> float:
        """How high some rows are under the heads."""
        heights = self.grid._rowHeights
        return float(sum(heights[: self.above]) + sum(heights[self.above + start : self.above + end]))

    def _group_at(self, end: int) -> Row | None:
        groups = [row for row in self.rows[:end] if row.kind is RowKind.GROUP]
        return groups[-1] if groups else self.carried

    def _grid(self) -> CellGrid:
        rows: list[list[Any]] = []
        look = self._whole_look()
        if any(column.head for column in self.columns):
            rows.append([[paragraph(column.head, self._style(column, True))] for column in self.columns])
            look += self._head_look()
        if self.carried:
            look += self._group_look(len(rows))
            title = next(cell for cell in self.carried.cells if isinstance(cell, tuple))
            pictures = [cell for cell in self.carried.cells if isinstance(cell, Picture)]
            cells: tuple[Cell, ...] = (*pictures, line(title, self.setup.words.continued))
            rows.append(self._title(replace(self.carried, cells=cells)))
        for row in self.rows:
            look += self._row_look(row, len(rows))
            rows.append(self._cells(row))
        return CellGrid(rows, colWidths=list(self.widths), style=look, hAlign="LEFT")

    def _cells(self, row: Row) -> list[Any]:
        if row.kind is RowKind.GROUP:
            return self._title(row)
        is_sum = row.kind is RowKind.SUM
        parts = zip(row.cells, self.columns, self.widths, strict=True)
        return [[self._cell(cell, column, width, is_sum)] for cell, column, width in parts]

    def _title(self, row: Row) -> list[Any]:
        """A group's title across all columns: a picture before it and a remark below it where it has them."""
        styles = self.setup.styles
        title, *remarks = [cell for cell in row.cells if isinstance(cell, tuple)]
        said = paragraph(title, styles.group)
        said.anchor = row.anchor
        inside: list[Flowable] = [said]
        inside += [spaced(paragraph(remark, styles.cell), _REMARK_ABOVE, 0.0) for remark in remarks]
        for picture in (cell for cell in row.cells if isinstance(cell, Picture)):
            room = Room(_PICTURE_WIDTH, _TITLE_LINES * self.setup.sizes.table_leading)
            figure = drawn(self.setup, picture, room)
            inside = [figure_beside(figure, inside, sum(self.widths), CELL_GAP)]
        return [inside, *[""] * (len(self.columns) - 1)]

    def _cell(self, cell: Cell, column: Column, width: float, is_sum: bool) -> Flowable:
        align = _SIDES[column.align]
        if isinstance(cell, Tick):
            return TickBox(self.setup.palette.ink, self.setup.styles.cell, align)
        if isinstance(cell, Picture):
            room = _cell_room(self.setup, width - CELL_GAP)
            return FigureBox(drawn(self.setup, cell, room), align)
        return paragraph(cell, self._style(column, column.is_strong or is_sum))

    def _style(self, column: Column, is_strong: bool) -> ParagraphStyle:
        return self.setup.styles.cells[column.align, is_strong]

    # How the grid looks.

    def _whole_look(self) -> list[tuple[Any, ...]]:
        whole = (0, 0), (-1, -1)
        last = len(self.columns) - 1
        return [
            ("LEFTPADDING", *whole, 0),
            ("RIGHTPADDING", *whole, CELL_GAP),
            ("RIGHTPADDING", (last, 0), (last, -1), 0),
            ("TOPPADDING", *whole, _PADDING),
            ("BOTTOMPADDING", *whole, _PADDING),
            ("VALIGN", *whole, "TOP"),
            # No letters are set in it, but reportlab names the face of each cell in the file.
            ("FONTNAME", *whole, pdf_font_name(Font.SANS)),
        ]

    def _head_look(self) -> list[tuple[Any, ...]]:
        accent = hex_colour(self.setup.palette.accent)
        return [
            ("LINEBELOW", (0, 0), (-1, 0), _HEAD_LINE, accent),
            ("VALIGN", (0, 0), (-1, 0), "BOTTOM"),
            ("TOPPADDING", (0, 0), (-1, 0), 0),
        ]

    def _group_look(self, at: int) -> list[tuple[Any, ...]]:
        return [
            ("SPAN", (0, at), (-1, at)),
            ("TOPPADDING", (0, at), (-1, at), _GROUP_ABOVE if at else 0),
            self._line_below(at),
        ]

    def _row_look(self, row: Row, at: int) -> list[tuple[Any, ...]]:
        if row.kind is RowKind.GROUP:
            return self._group_look(at)
        look = [self._line_below(at)]
        if row.kind is RowKind.SUM:
            look.append(("LINEABOVE", (0, at), (-1, at), _HEAD_LINE, hex_colour(self.setup.palette.ink)))
        if any(isinstance(cell, Picture) for cell in row.cells):
            look.append(("VALIGN", (0, at), (-1, at), "MIDDLE"))
        return look

    def _line_below(self, at: int) -> tuple[Any, ...]:
        return ("LINEBELOW", (0, at), (-1, at), _HAIRLINE, hex_colour(self.setup.palette.rule))


# Where rows may be parted.


def may_break(rows: Sequence[Row], end: int) -> bool:
    """Whether a page may end after so many rows: not below a group's title, not above a sum."""
    return rows[end - 1].kind is not RowKind.GROUP and rows[end].kind is not RowKind.SUM


def leaves_one(rows: Sequence[Row], end: int) -> bool:
    """Whether a break after so many rows leaves one row of a longer group alone."""
    if rows[end].kind is RowKind.GROUP:
        return False
    before = 1 if end < 2 or rows[end - 2].kind is RowKind.GROUP else 2
    after = 1 if end + 1 >= len(rows) or rows[end + 1].kind is RowKind.GROUP else 2
    return before == 1 or after == 1
