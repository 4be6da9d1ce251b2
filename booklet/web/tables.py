"""Tables as HTML, with a box to tick in the rows that have one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.artist import Room
from booklet.content.blocks import Cell, Column, Picture, Row, RowKind, Table, Tick
from booklet.content.spans import plain_text
from booklet.web.markup import Element, Node, element
from booklet.web.said import anchor_id, ids_of
from booklet.web.setting import Setting

_CELL = Room(60.0, 34.0)
_SIGN = Room(110.0, 60.0)


def table(setting: Setting, block: Table) -> Element:
    """A table; each group of rows is a body of its own under its title."""
    heads = None
    if any(column.head for column in block.columns):
        heads = element("thead", element("tr", (_head(setting, column) for column in block.columns)))
    bodies = (element("tbody", rows) for rows in _bodies(setting, block))
    return element("div", element("table", heads, bodies), class_="table")


def _head(setting: Setting, column: Column) -> Element:
    tag = "th" if column.head else "td"
    scope = "col" if column.head else None
    return element(tag, setting.say(column.head), scope=scope, class_=column.align.value)


def _bodies(setting: Setting, block: Table) -> Iterator[list[Element]]:
    rows: list[Element] = []
    for row in block.rows:
        if row.kind is RowKind.GROUP and rows:
            yield rows
            rows = []
        rows.append(_row(setting, row, block.columns))
    if rows:
        yield rows


def _row(setting: Setting, row: Row, columns: Sequence[Column]) -> Element:
    named = anchor_id(row.anchor) if row.anchor else None
    if row.kind is RowKind.GROUP:
        cells = [_shown(setting, cell, _CELL) for cell in row.cells]
        title = element(
            "th", (element("div", cell) for cell in cells), colspan=len(columns), scope="rowgroup"
        )
        return element("tr", title, id=named, class_="group")
    name = " ".join(plain_text(cell) for cell in row.cells if isinstance(cell, tuple))
    cells_of_row = (
        _cell(setting, cell, column, name) for cell, column in zip(row.cells, columns, strict=False)
    )
    return element("tr", cells_of_row, id=named, class_=row.kind.value if row.kind is RowKind.SUM else None)


def _cell(setting: Setting, cell: Cell, column: Column, name: str) -> Element:
    weight = " strong" if column.is_strong else ""
    kind = f"{column.align.value}{weight}"
    if isinstance(cell, Tick):
        return element("td", tick_box(cell.pieces, name), class_="tick")
    return element("td", _shown(setting, cell, _SIGN), class_=kind)


def _shown(setting: Setting, cell: Cell, room: Room) -> Node | tuple[Node, ...] | None:
    if isinstance(cell, Picture):
        return setting.picture(cell, room)
    return None if isinstance(cell, Tick) else setting.say(cell)


def tick_box(pieces: Sequence[str] = (), name: str = "") -> Element:
    """A box to tick; where it stands for pieces it is ticked with them, wherever that is done."""
    return element("input", type="checkbox", data_ticks=ids_of(pieces) or None, aria_label=name or None)
