"""From a kit's layouts to the exact position of everything on them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from booklet.kit.kit import Kit
from booklet.kit.layout import verb_of
from booklet.kit.steps import Column, Photo, Place, Row, Step, Write
from booklet.measure.length import Size
from booklet.placing.lay import lay_photo, lay_place, lay_series, lay_write
from booklet.placing.model import PieceSource, PlacedLayout, PlacedStep
from booklet.placing.put import step_path
from booklet.placing.table import BASE_ID, Table, lay_table

_DOERS: dict[type[Step], Callable[[Table, Any, int], object]] = {
    Place: lay_place,
    Photo: lay_photo,
    Write: lay_write,
    Row: lay_series,
    Column: lay_series,
}


def place_layouts(kit: Kit, pieces: PieceSource) -> tuple[PlacedLayout, ...]:
    """Every layout, in the kit's order.  What cannot be placed is a finding, never an exception."""
    return tuple(place_layout(kit, index, pieces) for index in range(len(kit.layouts)))


def place_layout(kit: Kit, index: int, pieces: PieceSource) -> PlacedLayout:
    """The layout of this index, every item where it lies."""
    table = lay_table(kit, index, pieces)
    for number, step in enumerate(table.layout.steps, start=1):
        doer = _DOERS.get(type(step))
        if doer is not None:
            doer(table, step, number)
    return _finished(table)


def _finished(table: Table) -> PlacedLayout:
    stacked = [replace(table.items[id], layer=layer) for layer, id in enumerate(table.stack)]
    steps = tuple(
        PlacedStep(number, verb_of(step), step_path(table, number), step.optional)
        for number, step in enumerate(table.layout.steps, start=1)
    )
    return PlacedLayout(
        table.layout.id, table.index, Size(table.page.width, table.page.height), stacked[BASE_ID],
        tuple(stacked[1:]), steps, tuple(table.measures), tuple(table.findings),
    )  # fmt: skip
