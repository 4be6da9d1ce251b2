"""The steps that lay things on the page: pieces, photographs, writing spaces, rows and columns."""

from __future__ import annotations

from dataclasses import replace

from booklet.kit.finding import SpecPath, error
from booklet.kit.position import Direction
from booklet.kit.steps import Column, Photo, Place, PositionedStep, Row, SeriesEntry, Write
from booklet.kit.used import series
from booklet.measure.geometry import Rect, rect_at_origin
from booklet.measure.length import Size
from booklet.placing.model import QUARTERS, Kind, Placed
from booklet.placing.photo_fit import fitting_size
from booklet.placing.position import POSITION_KEYS, Fixed, fix
from booklet.placing.put import put_down, put_in_line, turned
from booklet.placing.series import line_up
from booklet.placing.table import BASE_ID, Reference, Table, miss, outline_of, step_path

PHOTO_NAME = "photo"
WRITING_NAME = "writing space"


def item_at(step: PositionedStep, number: int, path: SpecPath, kind: Kind, name: str, rect: Rect) -> Placed:
    """An item as its step describes it, not yet laid down; its id and layer come with that."""
    return Placed(
        id=0, step_number=number, name=name, called=step.called, kind=kind, rect=rect, path=path,
        turn=QUARTERS[step.turn], tilt=step.tilt, face=step.face, overhang=step.overhang,
        optional=step.optional,
    )  # fmt: skip


def piece_size(table: Table, number: int, entry: int, name: str) -> tuple[Size | None, int]:
    """The upright size of a piece or part that a step takes, and which of the layout's uses that is."""
    index, use = next(
        (index, use) for index, use in enumerate(table.uses) if (use.step, use.entry) == (number - 1, entry)
    )
    if use.part_of is None:
        return table.trimmed.get(name) or table.pieces.size_of(name), index
    sizes = table.part_sizes.get((use.part_of, name), [])
    return (sizes.pop(0) if sizes else None), index


def lay_place(table: Table, step: Place, number: int) -> None:
    """Lay one piece."""
    path = step_path(table, number)
    size, use = piece_size(table, number, 0, step.place)
    fixed = _fix_size(table, step, path, size)
    if fixed is None:
        miss(table, step.called, step.place)
        return
    item = item_at(step, number, path, Kind.PIECE, step.called or step.place, fixed.rect)
    outline = outline_of(table.kit, step.place)
    put_down(table, step, replace(item, piece=step.place, use=use, outline=outline), fixed)


def lay_photo(table: Table, step: Photo, number: int) -> None:
    """Leave room for one photograph."""
    size = step.photo
    if size is None:
        path = step_path(table, number)
        seen = fitting_size(table, step, path)
        size = turned(seen, step) if seen else None
    _lay_space(table, step, number, Kind.PHOTO, PHOTO_NAME, size)


def lay_write(table: Table, step: Write, number: int) -> None:
    """Leave room for handwriting."""
    _lay_space(table, step, number, Kind.WRITING, WRITING_NAME, step.write)


def _lay_space(
    table: Table, step: Photo | Write, number: int, kind: Kind, name: str, size: Size | None
) -> None:
    path = step_path(table, number)
    fixed = _fix_size(table, step, path, size)
    if fixed is None:
        miss(table, step.called, name)
        return
    put_down(table, step, item_at(step, number, path, kind, step.called or name, fixed.rect), fixed)


def _fix_size(table: Table, step: PositionedStep, path: SpecPath, size: Size | None) -> Fixed | None:
    """Where something of this size lies; None for an unknown piece, which is the ledger's to report."""
    if size is None:
        return None
    shown = turned(size, step)
    if step.loose:
        return _fix_loose(table, step, path, shown)
    return fix(table, step, path, shown.width, shown.height)


def _fix_loose(table: Table, step: PositionedStep, path: SpecPath, size: Size) -> Fixed | None:
    """A loose piece starts a block of its own, whose place a group settles."""
    rect = rect_at_origin(size)
    said = [key for key in (*POSITION_KEYS, "flush") if getattr(step, key)]
    if said:
        found = f"{said[0]} says where a loose piece lies, which its group will say"
        table.findings.append(error("position-twice", (*path, said[0]), found, "keep one of them"))
    return Fixed(rect, Reference((BASE_ID,), table.page), (), ())


def lay_series(table: Table, step: Row | Column, number: int) -> None:
    """Lay a row or a column."""
    path = step_path(table, number)
    along = Direction.ACROSS if isinstance(step, Row) else Direction.DOWN
    entries = series(step)
    found = [_entry_size(table, number, index, entry) for index, entry in enumerate(entries)]
    sizes = [turned(size, step) for size, _ in found if size is not None]
    lined = line_up(table, step, path, sizes, along) if len(sizes) == len(entries) else None
    if lined is None:
        miss(table, step.called, *map(_name, entries))
        return
    items = [
        _entry_item(table, step, number, entry, rect, use)
        for entry, rect, (_, use) in zip(entries, lined.rects, found, strict=True)
    ]
    put_in_line(table, step, items, lined, along)


def _entry_size(table: Table, number: int, index: int, entry: SeriesEntry) -> tuple[Size | None, int | None]:
    if entry.place is None:
        return entry.size, None
    return piece_size(table, number, index, entry.place)


def _name(entry: SeriesEntry) -> str:
    return entry.called or entry.place or (PHOTO_NAME if entry.photo else WRITING_NAME)


def _entry_item(
    table: Table, step: Row | Column, number: int, entry: SeriesEntry, rect: Rect, use: int | None
) -> Placed:
    kind = Kind.PIECE if entry.place else Kind.PHOTO if entry.photo else Kind.WRITING
    item = item_at(step, number, step_path(table, number), kind, _name(entry), rect)
    item = replace(item, called=entry.called, piece=entry.place, use=use)
    return replace(item, outline=outline_of(table.kit, entry.place)) if entry.place else item
