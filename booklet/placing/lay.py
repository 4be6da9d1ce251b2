"""The steps that lay things on the page: pieces, photographs, writing spaces, rows and columns."""

from __future__ import annotations

from booklet.cutting.orientation import quarters_of
from booklet.kit.position import Direction
from booklet.kit.steps import Column, Photo, Place, PositionedStep, Row, SeriesEntry, Step, Write
from booklet.kit.used import series
from booklet.measure.dataclass import replace
from booklet.measure.geometry import ExactRect, rect_at_origin
from booklet.measure.length import Size
from booklet.measure.words import exact_size
from booklet.placing.hand import size_in_hand
from booklet.placing.model import ItemKind, Placed
from booklet.placing.position import POSITION_KEYS, SolvedPosition, solve_position
from booklet.placing.prints import largest_within
from booklet.placing.put import put_down, put_in_line, turned_size
from booklet.placing.series import line_up
from booklet.placing.state import (
    BASE_ID,
    PlacingState,
    Reference,
    StepHandler,
    find,
    mark_missing,
    outline_of,
)
from booklet.placing.strips import run_strip

PHOTO_NAME = "photo"
WRITING_NAME = "writing space"


def item_at(state: PlacingState, step: PositionedStep, kind: ItemKind, name: str, rect: ExactRect) -> Placed:
    """An item as its step describes it, not yet laid down; its id and layer come with that."""
    return Placed(
        id=0, step_number=state.number, name=name, called=step.called, kind=kind, rect=rect, path=state.path,
        turn=quarters_of(step.turn), tilt=step.tilt, face=step.face, overhang=step.overhang,
        optional=step.optional,
    )  # fmt: skip


def piece_size(state: PlacingState, entry: int) -> tuple[Size | None, int]:
    """The upright size of a piece or part that a step takes, and which of the layout's uses that is."""
    wanted = (state.number - 1, entry)
    use = next(use for use in state.uses if (use.step, use.entry) == wanted)
    return size_in_hand(state, use), use.number


def lay_place(state: PlacingState, step: Place) -> None:
    """Lay one piece."""
    size, use = piece_size(state, 0)
    laid: Place | None = step
    if step.run is not None and size is not None and not step.loose:
        laid = run_strip(state, step, size, step.run)
    solved = _fix_size(state, laid, size) if laid is not None else None
    if laid is None or solved is None:
        mark_missing(state, step.called, step.place)
        return
    item = item_at(state, laid, ItemKind.PIECE, step.called or step.place, solved.rect)
    outline = outline_of(state.kit, step.place)
    put_down(state, laid, replace(item, piece=step.place, use=use, outline=outline), solved)


def lay_photo(state: PlacingState, step: Photo) -> None:
    """Leave room for one photograph."""
    size = step.photo
    if size is None:
        seen = _fitting_size(state, step)
        size = turned_size(seen, step) if seen else None
    _lay_space(state, step, ItemKind.PHOTO, PHOTO_NAME, size)


def lay_write(state: PlacingState, step: Write) -> None:
    """Leave room for handwriting."""
    _lay_space(state, step, ItemKind.WRITING, WRITING_NAME, step.write)


def _lay_space(
    state: PlacingState, step: Photo | Write, kind: ItemKind, name: str, size: Size | None
) -> None:
    solved = _fix_size(state, step, size)
    if solved is None:
        mark_missing(state, step.called, name)
        return
    put_down(state, step, item_at(state, step, kind, step.called or name, solved.rect), solved)


def _fix_size(state: PlacingState, step: PositionedStep, size: Size | None) -> SolvedPosition | None:
    """Where something of this size lies; None for an unknown piece, which is the ledger's to report."""
    if size is None:
        return None
    shown = turned_size(size, step)
    if step.loose:
        return _fix_loose(state, step, shown)
    return solve_position(state, step, shown.width, shown.height)


def _fix_loose(state: PlacingState, step: PositionedStep, size: Size) -> SolvedPosition | None:
    """A loose piece starts a block of its own, whose place a group settles."""
    rect = rect_at_origin(size)
    said = [key for key in (*POSITION_KEYS, "flush", "run") if getattr(step, key, None)]
    if said:
        found = f"{said[0]} says where a loose piece lies, which its group will say"
        state.report("position-twice", found, "keep one of them", said[0])
    return SolvedPosition(rect, Reference((BASE_ID,), state.page), (), ())


def lay_series(state: PlacingState, step: Row | Column) -> None:
    """Lay a row or a column."""
    along = Direction.ACROSS if isinstance(step, Row) else Direction.DOWN
    entries = series(step)
    found = [_entry_size(state, index, entry) for index, entry in enumerate(entries)]
    sizes = [turned_size(size, step) for size, _ in found if size is not None]
    lined = line_up(state, step, sizes, along) if len(sizes) == len(entries) else None
    if lined is None:
        mark_missing(state, step.called, *map(_name, entries))
        return
    items = [
        _entry_item(state, step, entry, rect, use)
        for entry, rect, (_, use) in zip(entries, lined.rects, found, strict=True)
    ]
    put_in_line(state, step, items, lined, along)


def _entry_size(state: PlacingState, index: int, entry: SeriesEntry) -> tuple[Size | None, int | None]:
    if entry.place is None:
        return entry.size, None
    return piece_size(state, index)


def _name(entry: SeriesEntry) -> str:
    return entry.called or entry.place or (PHOTO_NAME if entry.photo else WRITING_NAME)


def _entry_item(
    state: PlacingState, step: Row | Column, entry: SeriesEntry, rect: ExactRect, use: int | None
) -> Placed:
    kind = ItemKind.PIECE if entry.place else ItemKind.PHOTO if entry.photo else ItemKind.WRITING
    item = item_at(state, step, kind, _name(entry), rect)
    item = replace(item, called=entry.called, piece=entry.place, use=use)
    return replace(item, outline=outline_of(state.kit, entry.place)) if entry.place else item


def _fitting_size(state: PlacingState, step: Photo) -> Size | None:
    """The size, as it lies on the page, of a photograph that fits what it lies on.

    With a stated border it is what the border leaves; else the largest usual print that the mat holds.
    """
    if step.on is None:
        cure = "say on: the mat that holds it, or a size such as 4 x 6"
        state.report("photo-fits-nothing", "fits, but on nothing", cure, "photo")
        return None
    mat = find(state, step.on, "on")
    if mat is None:
        return None
    if step.border is None:
        size = largest_within(mat.rect.size, state.kit.unit)
    else:
        across, down = step.border
        width, height = mat.rect.width - 2 * across, mat.rect.height - 2 * down
        size = Size(width, height) if width > 0 and height > 0 else None
    if size is None:
        found = f"no photograph fits on {exact_size(mat.rect.size, state.kit.unit)} here"
        cure = "take a larger mat or a smaller border, or state a size"
        state.report("photo-fits-nothing", found, cure, "photo")
    return size


HANDLERS: dict[type[Step], StepHandler] = {
    Place: lay_place,
    Photo: lay_photo,
    Write: lay_write,
    Row: lay_series,
    Column: lay_series,
}
